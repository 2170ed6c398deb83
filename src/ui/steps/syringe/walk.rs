//! Where the preparation stands: its movements, which are made, and the entries that say so.

use crate::care::dilution::{Movement, Plan, Stage};
use crate::case::{Entry, Event, Overridden, StrikeReason};
use crate::kit::{Dating, Vial};
use crate::measure::{Hash, Moment};
use crate::phone::clock;
use crate::ui::desk::Held;
use crate::ui::steps::Here;
use leptos::prelude::*;
use std::collections::{BTreeMap, BTreeSet};

/// What is shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum At {
    /// A movement of the plunger.
    Movement {
        /// Its index in the plan.
        index: u32,
        /// Whether it was made, and is only looked at.
        done: bool,
    },
    /// The label of a finished syringe.
    Label {
        /// Index of the movement that sets it aside.
        index: u32,
        /// Which, from 1.
        syringe: u32,
        /// Whether it was set aside, and is only looked at.
        done: bool,
    },
    /// All is made.
    Ready,
}

/// The preparation in hand, with what was recorded of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Walk {
    /// How it is made.
    pub plan: Plan,
    /// Each movement with what it does.
    pub stages: Vec<Stage>,
    done: BTreeSet<u32>,
    /// Who checked which movement.
    pub checked: BTreeMap<u32, String>,
    /// Vials noted, by number.
    pub vials: BTreeMap<u32, Vial>,
    /// Vials noted whose expiry was overridden since.
    overridden: BTreeSet<u32>,
    /// The entries that confirmed movements.
    confirmed: Vec<(u32, Hash, Moment)>,
}

/// The preparation in hand, tracked; `None` before a plan was chosen.
pub fn use_walk(here: Here) -> Memo<Option<Walk>> {
    Memo::new(move |_| Walk::of(&here.held()))
}

impl Walk {
    fn of(held: &Held) -> Option<Self> {
        let made = held.case.preparation.as_ref()?;
        let entries: Vec<&Entry> = held.case.standing(&held.journal).collect();
        let start = entries
            .iter()
            .rposition(|entry| matches!(entry.event(), Event::Preparation(_)))
            .unwrap_or(0);
        let (mut confirmed, mut overridden) = (Vec::new(), BTreeSet::new());
        let mut noted = BTreeSet::new();
        for entry in &entries[start..] {
            match entry.event() {
                Event::Drew(movement) => confirmed.push((*movement, entry.id(), entry.at())),
                Event::Vial(vial) if vial.solution.is_none_or(|named| named == made.id) => {
                    overridden.remove(&vial.number);
                    noted.insert(vial.number);
                }
                // A reason is given for the vials noted by then.
                Event::Override { what: Overridden::Expired, .. } => overridden.extend(&noted),
                _ => {}
            }
        }
        Some(Self {
            stages: made.plan.walk(),
            plan: made.plan.clone(),
            done: made.done.clone(),
            checked: made.checked.clone(),
            vials: made.vials.clone(),
            overridden,
            confirmed,
        })
    }

    /// What is shown: the movement looked at, or the next.
    pub fn at(&self, looking: Option<u32>) -> At {
        let looking = looking.filter(|index| self.stage(*index).is_some());
        let Some(index) = looking.or_else(|| self.next()) else { return At::Ready };
        let done = self.is_done(index);
        match self.stage(index).map(|stage| stage.movement) {
            Some(Movement::Finish { syringe }) => At::Label { index, syringe, done },
            _ => At::Movement { index, done },
        }
    }

    /// One movement.
    pub fn stage(&self, index: u32) -> Option<&Stage> {
        self.stages.get(usize::try_from(index).ok()?)
    }

    /// The first movement not made.
    fn next(&self) -> Option<u32> {
        (0..self.len()).find(|index| !self.is_done(*index))
    }

    /// The last movement.
    pub fn last(&self) -> Option<u32> {
        self.len().checked_sub(1)
    }

    fn len(&self) -> u32 {
        u32::try_from(self.stages.len()).unwrap_or(u32::MAX)
    }

    /// Whether a movement was made.
    pub fn is_done(&self, index: u32) -> bool {
        self.done.contains(&index)
    }

    /// When a movement was confirmed.
    pub fn made_at(&self, index: u32) -> Option<Moment> {
        self.confirmed.iter().rfind(|(movement, ..)| *movement == index).map(|(.., at)| *at)
    }

    /// How much is made, 0 to 1.
    pub fn fraction(&self) -> f64 {
        let count = |n: usize| f64::from(u32::try_from(n).unwrap_or(u32::MAX));
        count(self.done.len()) / count(self.stages.len().max(1))
    }

    /// Whether a syringe is ready while others are not.
    pub fn one_ready(&self) -> bool {
        let finish = |stage: &Stage| matches!(stage.movement, Movement::Finish { .. });
        self.next().is_some()
            && (0..).zip(&self.stages).any(|(index, stage)| finish(stage) && self.is_done(index))
    }

    /// Which movement of the plunger it is, from 1, and how many there are.
    pub fn place(&self, index: u32) -> (usize, usize) {
        let moves = |stage: &&Stage| !matches!(stage.movement, Movement::Finish { .. });
        let until = usize::try_from(index).unwrap_or(usize::MAX);
        let here = self.stages.iter().take(until.saturating_add(1)).filter(moves).count();
        (here, self.stages.iter().filter(moves).count())
    }

    /// The vial that a movement is about, or the next one that is taken, or the last.
    pub fn vial_at(&self, index: u32) -> Option<u32> {
        let (before, after) = self.stages.split_at_checked(usize::try_from(index).ok()?)?;
        let number = |stage: &Stage| stage.vial.map(|(number, _)| number);
        after.iter().find_map(number).or_else(|| before.iter().rev().find_map(number))
    }

    /// The vial that was taken last before a movement.
    pub fn vial_before(&self, index: u32) -> Option<u32> {
        let before = self.stages.get(..usize::try_from(index).ok()?)?;
        before.iter().rev().find_map(|stage| stage.vial.map(|(number, _)| number))
    }

    /// The vial with this number if it is expired today and nothing was said about it.
    pub fn expired(&self, number: u32) -> Option<crate::measure::Date> {
        match self.vials.get(&number)?.dating(clock::today()) {
            Dating::Expired(last) if !self.overridden.contains(&number) => Some(last),
            _ => None,
        }
    }

    /// Batches noted, in the order of the vials.
    pub fn batches(&self) -> Vec<String> {
        let mut batches: Vec<String> =
            self.vials.values().map(|vial| vial.batch.clone()).filter(|b| !b.is_empty()).collect();
        batches.dedup();
        batches
    }

    /// The entries that fall if a movement was not made: its own and those of later movements,
    /// which stood on it.
    pub fn standing_on(&self, index: u32) -> Vec<Hash> {
        self.confirmed
            .iter()
            .filter(|(movement, ..)| *movement >= index)
            .map(|(_, entry, _)| *entry)
            .collect()
    }
}

/// Strikes out that a movement was made, and every later one.
pub fn take_back(here: Here, entries: Vec<Hash>, then: impl FnOnce() + 'static) {
    let mut entries = entries.into_iter().rev();
    let Some(first) = entries.next_back() else { return };
    for entry in entries {
        here.record(Event::Struck { entry, reason: StrikeReason::Slip });
    }
    here.record_then(Event::Struck { entry: first, reason: StrikeReason::Slip }, then);
}
