use super::*;
use crate::care::allergy::Species;
use crate::care::dilution::{Ask, Syringe, Vial as Powder, plans};
use crate::case::{CaseId, StrikeReason};
use crate::kit::{Act, Article, Lot, Place, Source};
use crate::measure::{Strength, Units, Volume};

const UNITS: Units = Units::whole(1_500);

fn at(minute: i64) -> Moment {
    Moment::from_millis(minute)
}

/// A case and a kit of two vials in the bag; one thing happens each minute.
struct Told {
    case: Journal,
    kit: Journal,
    lot: LotId,
    minute: i64,
}

impl Told {
    fn new() -> Self {
        let mut kit = Journal::new(CaseId::KIT);
        let article = Article::Hyaluronidase { units: UNITS, species: Species::Ovine };
        let (batch, place) = ("DEMO-1".to_owned(), Place::Bag);
        let came = Lot { article, batch, expiry: None, gtin: None, place, count: 2 };
        let lot = LotId(kit.append(at(0), 0, Event::Kit(Act::Received(Box::new(came)))).id());
        Self { case: Journal::new(CaseId::from_random(1)), kit, lot, minute: 0 }
    }

    fn then(&mut self, event: Event) -> Hash {
        self.minute += 1;
        self.case.append(at(self.minute), 0, event).id()
    }

    fn counted(&mut self, count: u32) {
        self.minute += 1;
        let act = Act::Counted { lot: self.lot, place: Place::Bag, count };
        self.kit.append(at(self.minute), 0, Event::Kit(act));
    }

    /// A solution for so many units whose vials are opened.
    fn opened(&mut self, dose: u64) -> Hash {
        let syringe = Syringe::new(Volume::ml(1), Volume::ul(10)).unwrap();
        let powder = Powder { units: UNITS, holds: Volume::ml(3) };
        let ask = Ask::dose(powder, None, Strength::per_ml(500), Units::whole(dose), syringe);
        let plan = plans(&ask).unwrap().remove(0);
        let movements = plan.movements().to_vec();
        let id = self.then(Event::Preparation(Box::new(plan)));
        assert!(self.unnoted().iter().all(|one| one.solution.is_some()), "none of it is open yet");
        for (index, movement) in (0..).zip(movements) {
            if matches!(movement, Movement::Dissolve { .. }) {
                self.then(Event::Drew(index));
            }
        }
        id
    }

    /// A vial of the lot is noted.
    fn noted(&mut self, solution: Option<Hash>, number: u32) -> Hash {
        let from = Some(Source { lot: self.lot, place: Place::Bag });
        let batch = "DEMO-1".to_owned();
        self.then(Event::Vial(Vial { number, units: UNITS, batch, expiry: None, from, solution }))
    }

    fn strike(&mut self, entry: Hash) {
        self.then(Event::Struck { entry, reason: StrikeReason::Slip });
    }

    fn unnoted(&self) -> Vec<Unnoted> {
        Case::of(&self.case).unnoted(&self.case)
    }

    /// How many lie in the bag, and where one was taken last.
    fn left(&self) -> (u32, Option<Place>) {
        let taken = Case::of(&self.case).taken(&self.case);
        let stock = Case::of(&self.kit).stock(&self.kit, &taken);
        (stock.holding(self.lot).unwrap().at(Place::Bag), stock.place_used_last())
    }
}

#[test]
fn a_vial_noted_leaves_the_kit_and_struck_out_is_back() {
    let mut told = Told::new();
    told.opened(500);
    let vials = |told: &Told| told.unnoted().into_iter().flat_map(|one| one.vials);
    assert_eq!(vials(&told).collect::<Vec<_>>(), [1]);
    assert_eq!(told.left(), (2, None));
    let noted = told.noted(None, 1);
    assert_eq!(told.left(), (1, Some(Place::Bag)));
    assert_eq!(told.unnoted(), []);
    told.strike(noted);
    assert_eq!(told.left(), (2, None));
    assert_eq!(vials(&told).collect::<Vec<_>>(), [1]);
}

#[test]
fn vials_of_each_solution_are_told_and_noted_by_its_name() {
    let mut told = Told::new();
    let first = told.opened(2_000);
    let second = told.opened(500);
    let unnoted = told.unnoted();
    let [one, other] = unnoted.as_slice() else { panic!("{unnoted:?}") };
    assert_eq!((one.solution, one.at, one.vials.as_slice()), (Some(first), at(1), &[1, 2][..]));
    assert_eq!((other.solution, other.vials.as_slice()), (None, &[1][..]));

    // What is asked goes by the solution: when it was opened, and which vial came before it.
    let asked = |told: &Told, solution, number| {
        Case::of(&told.case).asked(&told.case, solution, number).unwrap()
    };
    told.noted(Some(first), 1);
    assert_eq!(asked(&told, Some(first), 2).before.map(|vial| vial.number), Some(1));
    let when = |vial| asked(&told, Some(first), vial).opened.unwrap();
    assert!(at(1) < when(1) && when(1) < when(2) && when(2) < other.at);
    assert!(asked(&told, None, 1).opened.unwrap() > other.at);
    assert_eq!((asked(&told, None, 2).before, asked(&told, None, 2).opened), (None, None));
    assert_eq!(Case::of(&told.case).asked(&told.case, Some(Hash::of(b"none")), 1), None);

    told.noted(Some(first), 2);
    assert_eq!(told.unnoted().as_slice(), &unnoted[1..]);
    assert_eq!(told.left().0, 0);
    // A closed case takes the note too: it happened.
    told.then(Event::Closed(crate::care::rounds::End::Done));
    told.noted(None, 1);
    assert_eq!(told.unnoted(), []);
    assert_eq!(Case::of(&told.case).vials(&told.case).len(), 3);

    // The second struck out, the first is in hand again; its own vial is gone with it.
    told.strike(second);
    assert_eq!(Case::of(&told.case).vials(&told.case).len(), 2);
    assert_eq!(Case::of(&told.case).preparation.unwrap().vials.len(), 2);
}

#[test]
fn a_vial_noted_late_left_the_kit_when_it_was_opened() {
    let mut told = Told::new();
    told.opened(500);
    // Counted without the one that is open, which is noted only then: it is not taken twice.
    told.counted(1);
    told.noted(None, 1);
    assert_eq!(told.left().0, 1);
    // One that is taken in hand before it is opened leaves when it is noted.
    let mut told = Told::new();
    told.noted(None, 1);
    assert_eq!(told.left().0, 1);
    told.opened(500);
    assert_eq!((told.left().0, told.unnoted().len()), (1, 1));
}

/// As a phone wrote it before vials named their solution: one vial of each of two solutions.
const OLD: &str = include_str!("old.txt");

#[test]
fn an_old_record_keeps_its_meaning() {
    let entries = OLD.lines().map(|line| crate::case::Entry::read(line).unwrap()).collect();
    let (mut old, faults) = Journal::from_entries(CaseId::from_random(1), entries);
    assert_eq!((faults, old.lines().as_str()), (Vec::new(), OLD));
    let case = Case::of(&old);
    let numbers = |case: &Case| case.vials(&old).iter().map(|vial| vial.number).collect::<Vec<_>>();
    assert_eq!(numbers(&case), [1, 1]);
    assert_eq!(case.taken(&old).len(), 2);
    assert_eq!(case.preparation.unwrap().vials.len(), 1);
    let second = old.entries()[3].id();
    old.append(at(9), 60, Event::Struck { entry: second, reason: StrikeReason::Slip });
    assert_eq!(Case::of(&old).vials(&old).len(), 1);
}
