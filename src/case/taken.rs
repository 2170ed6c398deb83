//! The vials that a case took from the kit.

use super::{Case, Event, Journal};
use crate::care::dilution::{Movement, Plan};
use crate::kit::{Done, LotId, Stock, Taking, Vial};
use crate::measure::{Hash, Moment};
use std::collections::{BTreeMap, BTreeSet};

/// Vials opened of which nothing is noted.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Unnoted {
    /// Of the solution made last, by number: they can still be noted.
    pub in_hand: Vec<u32>,
    /// How many of the solutions before it.
    pub earlier: usize,
}

impl Unnoted {
    /// How many in all.
    pub fn count(&self) -> usize {
        self.in_hand.len() + self.earlier
    }
}

/// One solution, as far as its vials go.
#[derive(Default)]
struct Making<'a> {
    plan: Option<&'a Plan>,
    opened: BTreeSet<u32>,
    noted: BTreeSet<u32>,
}

impl Making<'_> {
    fn drew(&mut self, movement: u32) {
        let movements = self.plan.map(Plan::movements).unwrap_or_default();
        let made = usize::try_from(movement).ok().and_then(|index| movements.get(index));
        if let Some(Movement::Dissolve { vial }) = made {
            self.opened.insert(*vial);
        }
    }

    fn unnoted(&self) -> Vec<u32> {
        self.opened.difference(&self.noted).copied().collect()
    }
}

impl Case {
    /// The vials noted, each as it was noted last, with the moment: solution by solution, in their
    /// numbers' order. Those struck out, and those of a solution struck out, are not among them.
    pub fn vials<'a>(&'a self, journal: &'a Journal) -> Vec<(Moment, &'a Vial)> {
        let mut made = 0_u32;
        let mut vials = BTreeMap::new();
        for entry in self.standing(journal) {
            match entry.event() {
                Event::Preparation(_) => made += 1,
                Event::Vial(vial) => {
                    vials.insert((made, vial.number), (entry.at(), vial));
                }
                _ => {}
            }
        }
        vials.into_values().collect()
    }

    /// The vials that diluent was pushed into and of which nothing is noted: of the solution in hand,
    /// by number, and how many of those before it, which no later entry can name.
    pub fn unnoted(&self, journal: &Journal) -> Unnoted {
        let (mut earlier, mut in_hand) = (0, Making::default());
        for entry in self.standing(journal) {
            match entry.event() {
                Event::Preparation(plan) => {
                    earlier += in_hand.unnoted().len();
                    in_hand = Making { plan: Some(plan), ..Making::default() };
                }
                Event::Vial(vial) => {
                    in_hand.noted.insert(vial.number);
                }
                Event::Drew(movement) => in_hand.drew(*movement),
                _ => {}
            }
        }
        Unnoted { in_hand: in_hand.unnoted(), earlier }
    }

    /// What it took from the kit.
    pub fn taken(&self, journal: &Journal) -> Vec<Taking> {
        let taking = |(at, vial): (Moment, &Vial)| Some(Taking { at, from: vial.from? });
        self.vials(journal).into_iter().filter_map(taking).collect()
    }

    /// The kit, where this is its journal, less what cases took.
    pub fn stock(&self, journal: &Journal, taken: &[Taking]) -> Stock {
        let acts = self.standing(journal).filter_map(|entry| match entry.event() {
            Event::Kit(act) => Some(Done { id: lot(entry.id()), at: entry.at(), act }),
            _ => None,
        });
        Stock::of(acts, taken)
    }
}

const fn lot(id: Hash) -> LotId {
    LotId(id)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::care::allergy::Species;
    use crate::care::dilution::{Ask, Syringe, Vial as Powder, plans};
    use crate::case::{CaseId, StrikeReason};
    use crate::kit::{Act, Article, Lot, Place, Source};
    use crate::measure::{Strength, Units, Volume};

    fn at(minute: i64) -> Moment {
        Moment::from_millis(minute)
    }

    #[test]
    fn a_vial_noted_leaves_the_kit_and_struck_out_is_back() {
        let units = Units::whole(1_500);
        let mut kit = Journal::new(CaseId::KIT);
        let article = Article::Hyaluronidase { units, species: Species::Ovine };
        let (batch, place) = ("DEMO-1".to_owned(), Place::Bag);
        let came = Lot { article, batch, expiry: None, gtin: None, place, count: 2 };
        let lot = LotId(kit.append(at(0), 0, Event::Kit(Act::Received(Box::new(came)))).id());

        let mut journal = Journal::new(CaseId::from_random(1));
        let syringe = Syringe::new(Volume::ml(1), Volume::ul(10)).unwrap();
        let powder = Powder { units, holds: Volume::ml(3) };
        let ask = Ask::dose(powder, None, Strength::per_ml(500), Units::whole(500), syringe);
        let plan = plans(&ask).unwrap().remove(0);
        let dissolves = |movement: &Movement| matches!(movement, Movement::Dissolve { .. });
        let opens = plan.movements().iter().position(dissolves).unwrap();
        journal.append(at(1), 0, Event::Preparation(Box::new(plan)));
        let unnoted = |journal: &Journal| Case::of(journal).unnoted(journal).in_hand;
        assert!(unnoted(&journal).is_empty(), "nothing was opened yet");
        journal.append(at(2), 0, Event::Drew(u32::try_from(opens).unwrap()));
        assert_eq!(unnoted(&journal), [1]);

        let left = |journal: &Journal| {
            let taken = Case::of(journal).taken(journal);
            let stock = Case::of(&kit).stock(&kit, &taken);
            (stock.holding(lot).unwrap().at(place), stock.place_used_last())
        };
        assert_eq!(left(&journal), (2, None));
        let (batch, from) = ("DEMO-1".to_owned(), Some(Source { lot, place }));
        let vial = Vial { number: 1, units, batch, expiry: None, from };
        let noted = journal.append(at(3), 0, Event::Vial(vial)).id();
        assert_eq!(left(&journal), (1, Some(place)));
        assert!(unnoted(&journal).is_empty());
        let reason = StrikeReason::Slip;
        journal.append(at(4), 0, Event::Struck { entry: noted, reason });
        assert_eq!(left(&journal), (2, None));
        assert_eq!(unnoted(&journal), [1]);
    }
}
