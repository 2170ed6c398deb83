//! A solution, from the plan chosen to the syringes ready.

use crate::care::dilution::{Movement, Plan};
use crate::kit::Vial;
use crate::measure::{Hash, Moment, Volume};
use std::collections::{BTreeMap, BTreeSet};

/// A solution being made, or made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Preparation {
    /// The entry that chose it.
    pub id: Hash,
    /// How.
    pub plan: Plan,
    /// When it was chosen.
    pub at: Moment,
    /// Rounds that had begun when it was chosen. What came after what is told by the order of the
    /// record: the clock may have been set back in between.
    pub rounds_begun: usize,
    /// Whether the last of them was still running.
    pub in_a_round: bool,
    /// What had been injected by then, from other solutions.
    pub injected_before: Volume,
    /// Movements made, by index.
    pub done: BTreeSet<u32>,
    /// Movements checked by a second person, by index.
    pub checked: BTreeMap<u32, String>,
    /// Vials taken in hand, by number.
    pub vials: BTreeMap<u32, Vial>,
}

impl Preparation {
    /// Takes a vial down, unless it is of a solution before this one: those the journal alone tells,
    /// see [`Case::vials`](super::Case::vials).
    pub(super) fn take(&mut self, vial: &Vial) {
        if vial.solution.is_none_or(|solution| solution == self.id) {
            self.vials.insert(vial.number, vial.clone());
        }
    }

    /// Takes down that a movement was made. Whether it opens a vial: the first diluent that goes into
    /// one does, further strokes do not.
    pub(super) fn draw(&mut self, movement: u32) -> bool {
        let dissolves =
            matches!(self.plan.movements().get(movement as usize), Some(Movement::Dissolve { .. }));
        self.done.insert(movement) && dissolves && self.dissolved(movement) == 1
    }

    /// How often diluent was pushed into the vial of this movement, this time included.
    fn dissolved(&self, movement: u32) -> usize {
        let vial = |index: u32| match self.plan.movements().get(index as usize) {
            Some(Movement::Dissolve { vial }) => Some(*vial),
            _ => None,
        };
        self.done.iter().filter(|done| vial(**done) == vial(movement)).count()
    }

    /// The first movement not made yet; `None` when all are.
    pub fn next(&self) -> Option<u32> {
        (0..u32::try_from(self.plan.movements().len()).unwrap_or(u32::MAX))
            .find(|index| !self.done.contains(index))
    }

    /// Syringes that are filled and labelled.
    pub fn syringes_ready(&self) -> u32 {
        let ready = (0..).zip(self.plan.movements()).filter(|(index, movement)| {
            matches!(movement, Movement::Finish { .. }) && self.done.contains(index)
        });
        u32::try_from(ready.count()).unwrap_or(u32::MAX)
    }
}
