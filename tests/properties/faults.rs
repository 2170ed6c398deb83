//! Every operation that writes records, with every fault at every one of its steps: the browser is
//! killed there, the place refuses, or does it and the answer is lost; with what the browser had in its
//! memory alone kept or gone. Open, and behind a passcode. What was acknowledged before or by the
//! operation is there at the next start, and no case has a gap or a fork.
//!
//! The count of faults is printed. Photos and the ring of keys lie in one transaction each, in a place
//! that only a browser has; their entries in the journal are among these.

use super::archive::fake::{Deep, Fate, Near, Old, Phone, run};
use freshet::care::rounds::End;
use freshet::case::{CaseId, Contact, Entry, Event, Journal, Number, Reference, Role};
use freshet::kit::{self, Article, Lot, Place};
use freshet::measure::{Moment, Span};
use freshet::protocol::Protocol;
use freshet::seal::{Cost, Keys, Random, Ring};
use freshet::store::{Lock, Refusal, Sealed, Side, Stored, Tiers, Warden};
use std::cell::{Cell, RefCell};
use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

const START: Moment = Moment::from_millis(1_700_000_000_000);

/// Who has the keys.
#[derive(Clone)]
struct Porter {
    lock: Rc<RefCell<Lock>>,
    keys: Rc<Keys>,
    drawn: Rc<Cell<u64>>,
}

/// Bytes that never come twice.
struct Counted(Rc<Cell<u64>>);

impl Random for Counted {
    fn fill(&mut self, bytes: &mut [u8]) {
        for chunk in bytes.chunks_mut(8) {
            self.0.set(self.0.get() + 1);
            chunk.copy_from_slice(
                &self.0.get().wrapping_mul(0x9e37_79b9_7f4a_7c15).to_be_bytes()[..chunk.len()],
            );
        }
    }
}

impl Warden for Porter {
    type Random = Counted;

    fn lock(&self) -> Lock {
        self.lock.borrow().clone()
    }

    fn random(&self) -> Counted {
        Counted(Rc::clone(&self.drawn))
    }
}

impl Porter {
    fn new(sealed: bool) -> Self {
        let drawn = Rc::new(Cell::new(1));
        let cost = Cost::new(8, 1, 1).expect("within the bounds");
        let (_, keys) = Ring::forge("seven wells", cost, &mut Counted(Rc::clone(&drawn)));
        let keys = Rc::new(keys);
        let lock = if sealed { Lock::Open(Rc::clone(&keys)) } else { Lock::Off };
        Self { lock: Rc::new(RefCell::new(lock)), keys, drawn }
    }

    fn open(&self) -> Lock {
        Lock::Open(Rc::clone(&self.keys))
    }
}

fn journal(id: CaseId, closed: Option<u64>) -> Journal {
    let mut journal = Journal::new(id);
    let reference = Reference::new("DEMO").unwrap();
    journal.append(START, 60, Event::Opened { reference, protocol: Box::new(Protocol::default()) });
    journal.append(START, 60, Event::Note("a".to_owned()));
    if let Some(minutes) = closed {
        journal.append(START.after(Span::minutes(minutes)), 60, Event::Closed(End::Done));
    }
    journal
}

fn open_case() -> Journal {
    journal(CaseId::from_random(100), None)
}

fn closed_case() -> Journal {
    journal(CaseId::from_random(200), Some(1))
}

/// What is done.
#[derive(Clone, Debug)]
enum Work {
    /// An entry is recorded in a journal.
    Record(CaseId, Event),
    /// A file is taken in, all of it or nothing.
    Take(Vec<Journal>),
    /// A start, with what the near shelf held gone if so, and as many characters at hand as are said.
    Start { lost: bool, budget: usize },
    /// A passcode is set, or taken off.
    Seal(bool),
}

fn works() -> Vec<(&'static str, Work)> {
    let record = |case, event| Work::Record(case, event);
    let case = open_case().case();
    let lot = Lot {
        article: Article::Needle,
        batch: "N-1".to_owned(),
        expiry: None,
        gtin: None,
        place: Place::Clinic,
        count: 20,
    };
    let contact =
        Contact { role: Role::Emergency, name: String::new(), number: Number::new("999").unwrap() };
    let photo = r#"{"Photo":{"name":"HASH","extent":{"width":1600,"height":1200}}}"#
        .replace("HASH", &freshet::measure::Hash::of(b"photo").to_string());
    let mut longer = open_case();
    longer.append(START, 60, Event::Note("b".to_owned()));
    longer.append(START, 60, Event::Note("c".to_owned()));
    vec![
        ("a case is begun", record(CaseId::from_random(9), Event::Note("first".to_owned()))),
        ("an entry in a case", record(case, Event::Note("b".to_owned()))),
        ("a case is closed", record(case, Event::Closed(End::Done))),
        ("a photo in a case", record(case, serde_json::from_str(&photo).unwrap())),
        (
            "an entry in a case of the archive",
            record(closed_case().case(), Event::Note("b".to_owned())),
        ),
        ("the clinic’s values", record(CaseId::CLINIC, Event::Values(Box::default()))),
        ("whom the clinic calls", record(CaseId::CLINIC, Event::Contacts(vec![contact]))),
        ("the kit", record(CaseId::KIT, Event::Kit(kit::Act::Received(Box::new(lot))))),
        (
            "a file is taken in",
            Work::Take(vec![longer, journal(CaseId::from_random(300), Some(2))]),
        ),
        ("a start", Work::Start { lost: false, budget: usize::MAX }),
        ("a start that lost the near shelf", Work::Start { lost: true, budget: usize::MAX }),
        ("a start that moves cases", Work::Start { lost: false, budget: 0 }),
        ("a passcode is set", Work::Seal(true)),
        ("a passcode is taken off", Work::Seal(false)),
    ]
}

type Store = Tiers<Sealed<Near, Porter>, Sealed<Deep, Porter>, Sealed<Old, Porter>>;

fn store(phone: &Phone, porter: &Porter, budget: usize) -> Store {
    let (near, deep, old) = phone.parts();
    let (near, deep) = (Sealed::new(near, porter.clone()), Sealed::new(deep, porter.clone()));
    Tiers::new(near, deep, Sealed::new(old, porter.clone())).with_budget(budget)
}

/// A phone with an open case on its shelves and a closed one in the archive.
fn phone(porter: &Porter) -> Phone {
    let phone = Phone::default();
    for journal in [open_case(), closed_case()] {
        for entry in journal.entries() {
            run(store(&phone, porter, 0).append(entry.clone())).unwrap().unwrap();
        }
    }
    run(store(&phone, porter, 0).open(&BTreeSet::new())).unwrap();
    phone.flush();
    phone
}

/// Everything that is found at a start, each case whole.
fn found(phone: &Phone, porter: &Porter) -> BTreeMap<CaseId, Journal> {
    let store = store(phone, porter, usize::MAX);
    let opened = run(store.open(&BTreeSet::new())).expect("a start");
    assert_eq!((&opened.trouble, &opened.damaged), (&Vec::new(), &Vec::new()));
    let mut entries: BTreeMap<CaseId, Vec<Entry>> = BTreeMap::new();
    for entry in opened.entries {
        entries.entry(entry.case()).or_default().push(entry);
    }
    for headline in opened.archived {
        let old = run(store.fetch(headline.id)).unwrap().unwrap().expect("its text");
        assert!(old.whole(headline.id));
        entries.entry(headline.id).or_default().extend(old.entries);
    }
    let whole = |(id, entries)| {
        let (journal, faults) = Journal::from_entries(id, entries);
        assert_eq!(faults, [], "{id}");
        (id, journal)
    };
    entries.into_iter().map(whole).collect()
}

fn lines(found: &BTreeMap<CaseId, Journal>) -> BTreeSet<String> {
    found.values().flat_map(Journal::entries).map(Entry::line).collect()
}

/// Does it; gives what is owed once this has come back, if nothing that was in memory alone counts,
/// and if it does.
fn act(phone: &Phone, porter: &Porter, work: &Work) -> [BTreeSet<String>; 2] {
    let none = || [BTreeSet::new(), BTreeSet::new()];
    match work {
        Work::Record(case, event) => {
            let before = [open_case(), closed_case()];
            let before = before.iter().find(|journal| journal.case() == *case).cloned();
            let entry = before.unwrap_or_else(|| Journal::new(*case)).next(
                START.after(Span::minutes(60)),
                60,
                event.clone(),
            );
            let owed = BTreeSet::from([entry.line()]);
            match run(store(phone, porter, usize::MAX).append(entry)) {
                Some(Ok(Stored::Twice | Stored::Once { missing: Side::Local, .. })) => {
                    [owed.clone(), owed]
                }
                Some(Ok(Stored::Once { missing: Side::Indexed, .. })) => [BTreeSet::new(), owed],
                Some(Err(_)) | None => none(),
            }
        }
        Work::Take(journals) => {
            let taken = journals.iter().map(Journal::entries);
            match run(store(phone, porter, usize::MAX).take_in(taken, |_| {})) {
                Some(Ok(())) => {
                    let entries = journals.iter().flat_map(Journal::entries);
                    let owed: BTreeSet<String> = entries.map(Entry::line).collect();
                    [owed.clone(), owed]
                }
                Some(Err(_)) | None => none(),
            }
        }
        Work::Start { lost, budget } => {
            if *lost {
                phone.lose_near();
            }
            run(store(phone, porter, *budget).open(&BTreeSet::new()));
            none()
        }
        Work::Seal(seal) => {
            let from = porter.open();
            *porter.lock.borrow_mut() = if *seal { porter.open() } else { Lock::Off };
            let (near, deep, old) = phone.parts();
            // In the order of the app; the first that fails ends it.
            let _ = run(async {
                Sealed::new(deep, porter.clone()).turn(&from).await?;
                Sealed::new(near, porter.clone()).turn(&from).await?;
                Sealed::new(old, porter.clone()).turn_texts(&from).await
            });
            // The ring stays until everything lies open.
            *porter.lock.borrow_mut() = porter.open();
            none()
        }
    }
}

#[test]
fn every_fault_at_every_step_of_every_operation() {
    let mut faults = BTreeMap::new();
    for sealed in [false, true] {
        for (name, work) in works() {
            // A passcode is set where none is, and taken off where one is.
            if matches!(work, Work::Seal(seal) if seal == sealed) {
                continue;
            }
            let (whole, porter) = prepared(sealed);
            let before = lines(&found(&whole.copied(), &porter));
            let copy = whole.copied();
            copy.fated(Fate::Nothing);
            act(&copy, &porter, &work);
            let steps = copy.fated(Fate::Nothing);
            assert!(steps > 0, "{name} does nothing");
            for step in 0..steps {
                for fate in [
                    Fate::Kill(step),
                    Fate::Refuse(step, Refusal::Full),
                    Fate::Refuse(step, Refusal::Lost("gone".to_owned())),
                    Fate::Answerless(step),
                ] {
                    for flushed in [false, true] {
                        let (phone, porter) = (whole.copied(), porter.again(sealed));
                        phone.fated(fate.clone());
                        let owed = act(&phone, &porter, &work);
                        if flushed {
                            phone.flush();
                        }
                        phone.lose_unflushed();
                        phone.fated(Fate::Nothing);
                        if sealed || matches!(work, Work::Seal(_)) {
                            *porter.lock.borrow_mut() = porter.open();
                        }
                        let there = lines(&found(&phone, &porter));
                        let told = format!("{name}, sealed {sealed}, {fate:?}, flushed {flushed}");
                        assert!(there.is_superset(&before), "{told}: an entry from before is gone");
                        let owed = &owed[usize::from(flushed)];
                        assert!(there.is_superset(owed), "{told}: an acknowledged entry is gone");
                        *faults.entry(name).or_insert(0_usize) += 1;
                    }
                }
            }
        }
    }
    let all: usize = faults.values().sum();
    println!("{all} faults injected: {faults:#?}");
    assert!(all > 500, "only {all} faults");
}

fn prepared(sealed: bool) -> (Phone, Porter) {
    let porter = Porter::new(sealed);
    (phone(&porter), porter)
}

impl Porter {
    /// The same keys in another tab.
    fn again(&self, sealed: bool) -> Self {
        let lock = if sealed { self.open() } else { Lock::Off };
        Self { lock: Rc::new(RefCell::new(lock)), ..self.clone() }
    }
}
