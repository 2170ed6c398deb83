//! A backup taken in: nothing here is lost or altered, whatever breaks off, and asking again goes on.

use crate::archive::fake::{Deep, Fate, Near, Old, Phone, run};
use freshet::care::rounds::End;
use freshet::case::{CaseId, Entry, Event, Journal};
use freshet::measure::{Moment, Span};
use freshet::record::merge::{Merge, Standing};
use freshet::seal::{Cost, Keys, Random, Ring};
use freshet::store::{Lock, Opened, Pair, Refusal, Sealed, Tiers, Warden};
use proptest::prelude::*;
use std::cell::Cell;
use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;
use std::sync::Arc;

const START: Moment = Moment::from_millis(1_700_000_000_000);

/// Bytes that are never the same twice.
#[derive(Clone, Debug, Default)]
struct Counted(Rc<Cell<u64>>);

impl Random for Counted {
    fn fill(&mut self, bytes: &mut [u8]) {
        for chunk in bytes.chunks_mut(8) {
            self.0.set(self.0.get() + 1);
            chunk.copy_from_slice(&self.0.get().to_le_bytes()[..chunk.len()]);
        }
    }
}

/// Whether a passcode is set; if so, the keys are here.
#[derive(Clone, Debug, Default)]
struct Porter(Option<Rc<Keys>>, Counted);

impl Porter {
    fn new(passcode: bool) -> Self {
        let mut random = Counted::default();
        let cheap = Cost::new(8, 1, 1).unwrap();
        let keys = passcode.then(|| Rc::new(Ring::forge("seven wells", cheap, &mut random).1));
        Self(keys, random)
    }
}

impl Warden for Porter {
    type Random = Counted;

    fn lock(&self) -> Lock {
        self.0.clone().map_or(Lock::Off, Lock::Open)
    }

    fn random(&self) -> Counted {
        self.1.clone()
    }
}

type Store = Tiers<Sealed<Near, Porter>, Sealed<Deep, Porter>, Sealed<Old, Porter>>;
type Journals = BTreeMap<CaseId, Journal>;

/// How long a case is, and whether it has ended.
#[derive(Clone, Debug)]
struct Course {
    notes: usize,
    closed: bool,
}

/// How far a phone or a file goes along a course, and whether it leaves it there for another.
#[derive(Clone, Copy, Debug)]
struct Along {
    part: prop::sample::Index,
    otherwise: bool,
}

/// The journal of a case, as far as it goes.
fn along(number: u128, course: &Course, along: Along, whose: &str) -> Option<Journal> {
    let all = course.notes + usize::from(course.closed);
    let length = along.part.index(all + 1);
    // The clinic's own journals have names that are the same on every phone.
    let id = match number {
        0 => CaseId::CLINIC,
        1 => CaseId::KIT,
        number => CaseId::from_random(number),
    };
    let mut journal = Journal::new(id);
    for at in 0..length {
        let event = if at == course.notes {
            Event::Closed(End::Done)
        } else {
            Event::Note(format!("note {at}"))
        };
        journal.append(START.after(Span::minutes(at as u64)), 60, event);
    }
    if along.otherwise {
        journal.append(START.after(Span::hours(9)), 60, Event::Note(whose.to_owned()));
    }
    (!journal.entries().is_empty()).then_some(journal)
}

fn courses() -> impl Strategy<Value = Vec<Course>> {
    let course = (1..5_usize, any::<bool>()).prop_map(|(notes, closed)| Course { notes, closed });
    prop::collection::vec(course, 5)
}

/// What one of them holds of five cases; `forks` says how often it went another way.
fn held(forks: f64) -> impl Strategy<Value = Vec<Along>> {
    let along = (any::<prop::sample::Index>(), prop::bool::weighted(forks))
        .prop_map(|(part, otherwise)| Along { part, otherwise });
    prop::collection::vec(along, 5)
}

fn journals(courses: &[Course], held: &[Along], whose: &str) -> Vec<Journal> {
    let each = (0_u128..).zip(courses).zip(held);
    each.filter_map(|((number, course), part)| along(number, course, *part, whose)).collect()
}

fn store(phone: &Phone, porter: &Porter) -> Store {
    let (near, deep, old) = phone.parts();
    let porter = || porter.clone();
    let places =
        (Sealed::new(near, porter()), Sealed::new(deep, porter()), Sealed::new(old, porter()));
    // Closed cases leave the shelves at once, and each portion is one journal.
    Tiers::new(places.0, places.1, places.2).with_budget(0).with_portion(1)
}

/// A phone on which these were recorded as always, some of them archived since.
fn phone(cases: &[Journal], porter: &Porter) -> Phone {
    let phone = Phone::default();
    let (near, deep, _) = phone.parts();
    let pair = Pair::new(Sealed::new(near, porter.clone()), Sealed::new(deep, porter.clone()));
    for entry in cases.iter().flat_map(Journal::entries) {
        run(pair.append(entry.clone())).unwrap().unwrap();
    }
    run(store(&phone, porter).open(&BTreeSet::new())).unwrap();
    phone.flush();
    phone
}

/// Every journal that is found, those of the archive too. A phone of its own is asked, so that this
/// one is not mended by being looked at.
fn found(phone: &Phone, porter: &Porter) -> Journals {
    let phone = phone.copied();
    phone.fated(Fate::Nothing);
    let store = store(&phone, porter);
    let Opened { mut entries, archived, damaged, trouble, .. } =
        run(store.open(&BTreeSet::new())).unwrap();
    assert_eq!((damaged, trouble), (Vec::new(), Vec::new()));
    for headline in archived {
        let old = run(store.fetch(headline.id)).unwrap().unwrap().expect("it has a text");
        entries.extend(old.entries);
    }
    let mut by_case: BTreeMap<CaseId, Vec<Entry>> = BTreeMap::new();
    for entry in entries {
        by_case.entry(entry.case()).or_default().push(entry);
    }
    let whole = |(id, entries)| {
        let (journal, faults) = Journal::from_entries(id, entries);
        assert_eq!(faults, Vec::new(), "{id}");
        (id, journal)
    };
    by_case.into_iter().map(whole).collect()
}

fn merge(file: &[Journal], here: &Journals) -> Merge {
    let mut merge = Merge::default();
    for journal in file {
        merge.journal(Arc::new(journal.clone()), here.get(&journal.case()));
    }
    merge
}

/// What is to be here afterwards.
fn after(file: &[Journal], here: &Journals) -> Journals {
    let mut after = here.clone();
    for (journal, standing) in merge(file, here).journals() {
        if standing.gives() {
            after.insert(journal.case(), Journal::clone(journal));
        }
    }
    after
}

/// Takes a file in as the app does; none if the browser was killed, or the storage refused.
fn restore(phone: &Phone, porter: &Porter, file: &[Journal]) -> Option<()> {
    let merge = merge(file, &found(phone, porter));
    let store = store(phone, porter);
    run(store.take_in(merge.adds(), |_| ()))?.ok()?;
    run(store.open(&BTreeSet::new())).map(drop)
}

/// How many operations a restoring takes.
fn operations(phone: &Phone, porter: &Porter, file: &[Journal]) -> usize {
    let phone = phone.copied();
    phone.fated(Fate::Nothing);
    restore(&phone, porter, file).unwrap();
    phone.fated(Fate::Nothing)
}

/// Each entry that was here is here, at its place.
fn goes_on_from(now: &Journals, before: &Journals) -> bool {
    before
        .iter()
        .all(|(id, was)| now.get(id).is_some_and(|is| is.entries().starts_with(was.entries())))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]

    /// It breaks off after every operation, in every way.
    #[test]
    fn a_restoring_that_breaks_off_leaves_each_case_as_it_was_or_whole(
        courses in courses(),
        here in held(0.2),
        file in held(0.2),
        passcode in any::<bool>(),
    ) {
        let porter = Porter::new(passcode);
        let phone = phone(&journals(&courses, &here, "here"), &porter);
        let file = journals(&courses, &file, "there");
        let before = found(&phone, &porter);
        let wanted = after(&file, &before);
        for number in 0..=operations(&phone, &porter, &file) {
            let lost = Refusal::Lost("gone".to_owned());
            for fate in [
                Fate::Kill(number),
                Fate::Refuse(number, Refusal::Full),
                Fate::Refuse(number, lost),
                Fate::Answerless(number),
            ] {
                let phone = phone.copied();
                phone.fated(fate.clone());
                restore(&phone, &porter, &file);
                phone.lose_unflushed();
                phone.fated(Fate::Nothing);
                let now = found(&phone, &porter);
                prop_assert!(goes_on_from(&now, &before), "{fate:?}: something is gone");
                for (id, is) in &now {
                    let whole = [before.get(id), wanted.get(id)].contains(&Some(is));
                    prop_assert!(whole, "{fate:?}: {id} is half of something");
                }
                restore(&phone, &porter, &file).unwrap();
                prop_assert_eq!(&found(&phone, &porter), &wanted);
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    #[test]
    fn restoring_again_changes_nothing(
        courses in courses(),
        here in held(0.3),
        file in held(0.3),
        passcode in any::<bool>(),
    ) {
        let porter = Porter::new(passcode);
        let phone = phone(&journals(&courses, &here, "here"), &porter);
        let file = journals(&courses, &file, "there");
        let before = found(&phone, &porter);
        restore(&phone, &porter, &file).unwrap();
        let once = found(&phone, &porter);
        prop_assert_eq!(&once, &after(&file, &before));
        prop_assert!(goes_on_from(&once, &before));
        prop_assert!(merge(&file, &once).is_empty());
        restore(&phone, &porter, &file).unwrap();
        prop_assert_eq!(found(&phone, &porter), once);
    }

    /// Where no two went different ways, all that any of them knew is here, whichever came first.
    #[test]
    fn the_order_of_two_backups_does_not_matter(
        courses in courses(),
        here in held(0.0),
        one in held(0.0),
        other in held(0.0),
    ) {
        let porter = Porter::new(false);
        let phone = phone(&journals(&courses, &here, ""), &porter);
        let files = [&one, &other].map(|held| journals(&courses, held, ""));
        let ends = [[0, 1], [1, 0]].map(|order| {
            let phone = phone.copied();
            for file in order {
                restore(&phone, &porter, &files[file]).unwrap();
            }
            found(&phone, &porter)
        });
        prop_assert_eq!(&ends[0], &ends[1]);
        let mut longest = found(&phone, &porter);
        for journal in files.concat() {
            let known = longest.entry(journal.case()).or_insert_with(|| journal.clone());
            if known.entries().len() < journal.entries().len() {
                *known = journal;
            }
        }
        prop_assert_eq!(&ends[0], &longest);
    }

    /// What stands of a case is told truly: it gives something exactly where it knows more.
    #[test]
    fn a_fork_is_told_and_gives_nothing(courses in courses(), one in held(0.5), other in held(0.5)) {
        let here = journals(&courses, &one, "here");
        let here: Journals = here.into_iter().map(|journal| (journal.case(), journal)).collect();
        let file = journals(&courses, &other, "there");
        for (journal, standing) in merge(&file, &here).journals() {
            let known = here.get(&journal.case()).map(Journal::entries).unwrap_or_default();
            let entries = journal.entries();
            let expected = match (entries.starts_with(known), known.starts_with(entries)) {
                (true, _) if known.is_empty() => Standing::New,
                (true, true) => Standing::Same,
                (true, false) => Standing::Newer(entries.len() - known.len()),
                (false, true) => Standing::Older(known.len() - entries.len()),
                (false, false) => {
                    let same = known.iter().zip(entries).take_while(|(a, b)| a == b);
                    Standing::Forked(same.count())
                }
            };
            prop_assert_eq!(*standing, expected);
            prop_assert_eq!(&[known, standing.adds(journal)].concat(), &if standing.gives() {
                entries.to_vec()
            } else {
                known.to_vec()
            });
        }
    }
}
