use super::*;
use crate::case::{Entry, Event, Journal};
use crate::measure::{Hash, Moment, Span};
use crate::seal::random::Counted;
use crate::seal::{Cost, Keys, Ring};
use crate::store::pair::tests::fake::{Fake, Fault, finish, run_for};
use crate::store::{Pair, Stored};
use proptest::prelude::*;
use std::cell::{Cell, RefCell};
use std::rc::Rc;

/// A warden whose lock the test turns.
#[derive(Clone, Debug)]
struct Porter {
    lock: Rc<RefCell<Lock>>,
    drawn: Rc<Cell<u64>>,
    ring: Rc<Ring>,
    keys: Rc<Keys>,
}

impl Warden for Porter {
    type Random = Counted;

    fn lock(&self) -> Lock {
        self.lock.borrow().clone()
    }

    fn random(&self) -> Counted {
        self.drawn.set(self.drawn.get() + 1_000_000);
        Counted(self.drawn.get())
    }
}

impl Porter {
    fn new() -> Self {
        let cheap = Cost::new(8, 1, 1).unwrap();
        let (ring, keys) = Ring::forge("seven wells", cheap, &mut Counted(1));
        let (ring, keys) = (Rc::new(ring), Rc::new(keys));
        Self { lock: Rc::default(), drawn: Rc::default(), ring, keys }
    }

    fn set(&self, lock: Lock) {
        *self.lock.borrow_mut() = lock;
    }

    fn open(&self) {
        self.set(Lock::Open(self.keys.clone()));
    }

    fn shut(&self) {
        self.set(Lock::Shut(Rc::new(self.ring.letterbox(&mut self.random()).unwrap())));
    }
}

fn entries(case: CaseId, count: usize) -> Vec<Entry> {
    let mut journal = Journal::new(case);
    for number in 0..count {
        let at = Moment::from_millis(1_700_000_000_000).after(Span::minutes(number as u64));
        journal.append(at, 60, Event::Note(format!("note {number}")));
    }
    journal.entries().to_vec()
}

fn case() -> CaseId {
    CaseId::from_random(7)
}

fn slip(entry: &Entry) -> Slip {
    Slip { key: Key::of(entry), line: entry.line() }
}

fn all(shelf: &Sealed<Fake, Porter>) -> Vec<Slip> {
    finish(shelf.all()).unwrap()
}

fn put(shelf: &Sealed<Fake, Porter>, entries: &[Entry]) {
    finish(shelf.put(entries.iter().map(slip).collect())).unwrap();
}

/// What lies on a shelf tells nothing of the notes nor of their digests.
fn tells_nothing(fake: &Fake, entries: &[Entry]) -> bool {
    let lies: String = fake
        .lines()
        .iter()
        .flat_map(|(key, line)| [key.as_str().to_owned(), line.clone()])
        .collect();
    let digest = |entry: &Entry| lies.contains(&entry.id().to_string()[..16]);
    !lies.contains("note") && !entries.iter().any(digest)
}

#[test]
fn with_the_keys_everything_lies_sealed_and_is_read() {
    let (fake, porter) = (Fake::quick(), Porter::new());
    let shelf = Sealed::new(fake.clone(), porter.clone());
    let entries = entries(case(), 3);
    porter.open();
    put(&shelf, &entries);
    assert_eq!(all(&shelf), entries.iter().map(slip).collect::<Vec<_>>());
    assert!(tells_nothing(&fake, &entries));
    // Kept again, it stays one.
    put(&shelf, &entries);
    assert_eq!(fake.lines().len(), 3);
    finish(shelf.remove(entries.iter().map(Key::of).collect())).unwrap();
    assert!(fake.lines().is_empty());
}

#[test]
fn while_locked_nothing_old_is_read_and_a_new_case_is_written() {
    let (fake, porter) = (Fake::quick(), Porter::new());
    let shelf = Sealed::new(fake.clone(), porter.clone());
    let (old, new) = (entries(case(), 2), entries(CaseId::from_random(8), 2));
    porter.open();
    put(&shelf, &old);
    porter.shut();
    assert_eq!(all(&shelf), []);
    put(&shelf, &new);
    assert_eq!(all(&shelf), new.iter().map(slip).collect::<Vec<_>>());
    assert!(tells_nothing(&fake, &new));
    // As after a reload: another letterbox reads neither.
    porter.shut();
    assert_eq!(all(&shelf), []);

    porter.open();
    let both: BTreeSet<Slip> = old.iter().chain(&new).map(slip).collect();
    assert_eq!(all(&shelf).into_iter().collect::<BTreeSet<_>>(), both);
    assert_eq!(finish(shelf.turn(&porter.lock())), Ok(2), "the two letters");
    assert_eq!(finish(shelf.turn(&porter.lock())), Ok(0));
    assert_eq!(fake.lines().len(), 4);
    assert_eq!(all(&shelf).into_iter().collect::<BTreeSet<_>>(), both);
}

#[test]
fn the_clinics_values_are_read_while_locked() {
    let (fake, porter) = (Fake::quick(), Porter::new());
    let shelf = Sealed::new(fake, porter.clone());
    let values = entries(CaseId::CLINIC, 1);
    porter.open();
    put(&shelf, &values);
    porter.shut();
    assert_eq!(all(&shelf), [slip(&values[0])]);
}

#[test]
fn an_altered_line_is_told_as_it_lies() {
    let (fake, porter) = (Fake::quick(), Porter::new());
    let shelf = Sealed::new(fake.clone(), porter.clone());
    porter.open();
    put(&shelf, &entries(case(), 1));
    let (key, line) = fake.lines().into_iter().next().unwrap();
    let altered = format!("{}A", &line[..line.len() - 1]);
    assert_ne!(altered, line);
    fake.replace(&key, &altered);
    assert_eq!(all(&shelf), [Slip { key: key.clone(), line: altered.clone() }]);
    assert_eq!(finish(shelf.turn(&porter.lock())), Ok(0));
    assert_eq!(fake.lines().get(&key), Some(&altered), "it stays");
}

fn fault() -> impl Strategy<Value = Fault> {
    prop_oneof![
        4 => Just(Fault::None),
        1 => Just(Fault::Refuse(Refusal::Full)),
        1 => Just(Fault::Half(Refusal::Full)),
        1 => Just(Fault::KeptButLost),
    ]
}

/// What happens to a phone.
#[derive(Clone, Debug)]
enum Act {
    Append(Fault, Fault),
    /// The lock is turned, and what lies there with it, as far as the app comes before it is killed.
    Turn(bool, Fault, Fault, Option<usize>),
    Shut,
}

fn act() -> impl Strategy<Value = Act> {
    prop_oneof![
        4 => (fault(), fault()).prop_map(|(near, deep)| Act::Append(near, deep)),
        2 => (any::<bool>(), fault(), fault(), prop::option::of(0..8_usize))
            .prop_map(|(seal, near, deep, killed)| Act::Turn(seal, near, deep, killed)),
        1 => Just(Act::Shut),
    ]
}

proptest! {
    /// A passcode is set, taken off and used in any order while cases are written; each turning is
    /// refused or killed anywhere. Whatever was acknowledged is read once the keys are here, and at
    /// the end nothing lies open.
    #[test]
    fn nothing_acknowledged_is_lost_by_sealing(acts in prop::collection::vec(act(), 1..24)) {
        let (near, deep, porter) = (Fake::quick(), Fake::sure(), Porter::new());
        let shelves =
            (Sealed::new(near.clone(), porter.clone()), Sealed::new(deep.clone(), porter.clone()));
        let store = Pair::new(shelves.0.clone(), shelves.1.clone());
        let written = entries(case(), acts.len());
        let mut next = written.iter();
        let mut owed: BTreeSet<Hash> = BTreeSet::new();
        for act in acts {
            match act {
                Act::Append(near_fault, deep_fault) => {
                    near.next(near_fault);
                    deep.next(deep_fault);
                    let entry = next.next().unwrap();
                    let answer = finish(store.append(entry.clone()));
                    if matches!(answer, Ok(Stored::Twice | Stored::Once { .. })) {
                        owed.insert(entry.id());
                    }
                }
                Act::Turn(seal, near_fault, deep_fault, killed) => {
                    let from = Lock::Open(porter.keys.clone());
                    porter.set(if seal { from.clone() } else { Lock::Off });
                    near.next(near_fault);
                    deep.next(deep_fault);
                    let _ = run_for(shelves.0.turn(&from), killed);
                    let _ = run_for(shelves.1.turn(&from), killed);
                    // Whoever took the passcode off has the ring until everything lies open.
                    porter.open();
                }
                Act::Shut => porter.shut(),
            }
        }
        porter.open();
        near.next(Fault::None);
        deep.next(Fault::None);
        for shelf in [&shelves.0, &shelves.1] {
            finish(shelf.turn(&porter.lock())).unwrap();
        }
        let opened = finish(store.open());
        let found: BTreeSet<Hash> = opened.entries.iter().map(Entry::id).collect();
        prop_assert!(owed.is_subset(&found), "an acknowledged entry is gone");
        prop_assert_eq!(found.len(), opened.entries.len(), "doubled");
        prop_assert!(opened.damaged.is_empty());
        prop_assert!(tells_nothing(&near, &written) && tells_nothing(&deep, &written));
        prop_assert_eq!(near.lines().len(), found.len());
        prop_assert_eq!(deep.lines().len(), found.len());
    }
}
