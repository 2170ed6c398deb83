//! The vials of a case's solutions: what was opened, what was noted of it, what it took from the kit.

use super::{Case, Event, Journal};
use crate::care::dilution::{Movement, Plan};
use crate::kit::{Done, LotId, Stock, Taking, Vial};
use crate::measure::{Hash, Moment, Units};
use std::collections::BTreeMap;

/// Vials of one solution that were opened and of which nothing is noted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unnoted {
    /// How a note names the solution; none for the one in hand.
    pub solution: Option<Hash>,
    /// When it was chosen.
    pub at: Moment,
    /// By number, one at least.
    pub vials: Vec<u32>,
}

/// A vial that is to be noted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Asked {
    /// Units that its solution was reckoned with.
    pub units: Units,
    /// When it was opened, if it was.
    pub opened: Option<Moment>,
    /// The vial before it of the same solution, if that was noted.
    pub before: Option<Vial>,
}

/// One solution, as far as its vials go.
struct Making<'a> {
    at: Moment,
    /// How; none where vials were noted before any solution was chosen.
    plan: Option<&'a Plan>,
    /// When diluent was first pushed into each.
    opened: BTreeMap<u32, Moment>,
    /// Each as it was noted last.
    noted: BTreeMap<u32, (Moment, &'a Vial)>,
}

impl Making<'_> {
    fn drew(&mut self, movement: u32, at: Moment) {
        let movements = self.plan.map(Plan::movements).unwrap_or_default();
        let made = usize::try_from(movement).ok().and_then(|index| movements.get(index));
        if let Some(Movement::Dissolve { vial }) = made {
            self.opened.entry(*vial).or_insert(at);
        }
    }

    fn unnoted(&self) -> Vec<u32> {
        self.opened.keys().filter(|vial| !self.noted.contains_key(vial)).copied().collect()
    }

    /// A vial that was noted after it was opened left the kit when it was opened: a count by hand in
    /// between was without it.
    fn taken(&self, (at, vial): (Moment, &Vial)) -> Option<Taking> {
        let opened = self.opened.get(&vial.number).copied();
        Some(Taking { at: opened.unwrap_or(at).min(at), from: vial.from? })
    }
}

impl Case {
    /// The solutions that stand, each under the entry that chose it, in the order of the record.
    fn makings<'a>(&'a self, journal: &'a Journal) -> Vec<(Hash, Making<'a>)> {
        let mut made: Vec<(Hash, Making)> = Vec::new();
        for entry in self.standing(journal) {
            let at = entry.at();
            let making =
                |plan| Making { at, plan, opened: BTreeMap::new(), noted: BTreeMap::new() };
            match entry.event() {
                Event::Preparation(plan) => made.push((entry.id(), making(Some(plan)))),
                Event::Vial(vial) => {
                    if made.is_empty() {
                        made.push((entry.id(), making(None)));
                    }
                    if let Some(made) = vial.solution_in(&mut made) {
                        made.noted.insert(vial.number, (at, vial));
                    }
                }
                Event::Drew(movement) => {
                    if let Some((_, made)) = made.last_mut() {
                        made.drew(*movement, at);
                    }
                }
                _ => {}
            }
        }
        made
    }

    /// The vials noted, each as it was noted last: solution by solution, in their numbers' order.
    /// Those struck out, and those of a solution struck out, are not among them.
    pub fn vials<'a>(&'a self, journal: &'a Journal) -> Vec<&'a Vial> {
        let of = |(_, made): (Hash, Making<'a>)| made.noted.into_values().map(|(_, vial)| vial);
        self.makings(journal).into_iter().flat_map(of).collect()
    }

    /// The vials that diluent was pushed into and of which nothing is noted, by solution: of the one
    /// in hand last.
    pub fn unnoted(&self, journal: &Journal) -> Vec<Unnoted> {
        let made = self.makings(journal);
        let in_hand = made.last().map(|(id, _)| *id);
        let of = |(id, made): &(Hash, Making)| Unnoted {
            solution: Some(*id).filter(|_| Some(*id) != in_hand),
            at: made.at,
            vials: made.unnoted(),
        };
        made.iter().map(of).filter(|unnoted| !unnoted.vials.is_empty()).collect()
    }

    /// What is known of a vial that is to be noted: of the solution named, or of the one in hand. None
    /// if there is no such solution.
    pub fn asked(&self, journal: &Journal, solution: Option<Hash>, number: u32) -> Option<Asked> {
        let made = self.makings(journal);
        let named = |(id, _): &&(Hash, Making)| solution.is_none_or(|named| *id == named);
        let (_, made) = made.iter().rev().find(named)?;
        let before = number.checked_sub(1).and_then(|before| made.noted.get(&before));
        Some(Asked {
            units: made.plan?.ask().vial.units,
            opened: made.opened.get(&number).copied(),
            before: before.map(|(_, vial)| (*vial).clone()),
        })
    }

    /// What it took from the kit.
    pub fn taken(&self, journal: &Journal) -> Vec<Taking> {
        let mut taken = Vec::new();
        for (_, made) in self.makings(journal) {
            taken.extend(made.noted.values().filter_map(|noted| made.taken(*noted)));
        }
        taken
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
mod tests;
