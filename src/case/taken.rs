//! The vials that a case took from the kit.

use super::{Case, Event, Journal};
use crate::kit::{Done, LotId, Stock, Taking, Vial};
use crate::measure::{Hash, Moment};
use std::collections::BTreeMap;

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
