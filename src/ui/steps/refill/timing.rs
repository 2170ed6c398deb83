//! What was read so far, and what is asked about before it is taken.

use crate::care::refill::readings::{Doubt, Reading, Readings, Side};
use crate::measure::Span;
use crate::ui::parts::{PressLost, PressStage, Pressed};
use crate::ui::tap::Taps;
use crate::ui::words::typed;
use leptos::prelude::*;
use std::cell::Cell;

/// How a reading is taken.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Way {
    /// The button is held for as long as the skin is pressed.
    #[default]
    Hold,
    /// Three taps.
    Tap,
    /// Timed elsewhere, and typed.
    Type,
}

thread_local! {
    /// The way that was chosen last: whoever wears gloves wears them at the next look too.
    static LAST_WAY: Cell<Way> = const { Cell::new(Way::Hold) };
}

/// A reading that is asked about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Asked {
    /// Of which side.
    pub side: Side,
    /// As it was read.
    pub reading: Reading,
    /// Why.
    pub doubt: Doubt,
}

/// What is kept of a timing while its screen is away.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Timed {
    /// The readings.
    pub readings: Readings,
    /// What is typed and not taken.
    pub typed: String,
    asked: Option<Asked>,
}

/// Readings being taken. Copied freely.
#[derive(Clone, Copy)]
pub struct Timing {
    /// The readings.
    pub readings: RwSignal<Readings>,
    /// How they are taken.
    pub way: RwSignal<Way>,
    /// What is typed and not taken.
    pub typed: RwSignal<String>,
    /// What is asked about.
    pub asked: RwSignal<Option<Asked>>,
    /// How the press that runs stands.
    pub stage: RwSignal<PressStage>,
    /// What came to nothing last.
    pub lost: RwSignal<Option<PressLost>>,
    /// What was taken last, for a screen reader.
    pub taken: RwSignal<Option<(Side, Reading)>>,
    /// The side that is read out of turn.
    turned: RwSignal<Option<Side>>,
    taps: Taps,
}

impl Timing {
    /// Goes on from what was kept.
    pub fn of(kept: Timed) -> Self {
        Self {
            readings: RwSignal::new(kept.readings),
            way: RwSignal::new(LAST_WAY.get()),
            typed: RwSignal::new(kept.typed),
            asked: RwSignal::new(kept.asked),
            stage: RwSignal::new(PressStage::Ready),
            lost: RwSignal::new(None),
            taken: RwSignal::new(None),
            turned: RwSignal::new(None),
            taps: Taps::new(),
        }
    }

    /// What is to be kept; tracked.
    pub fn kept(self) -> Timed {
        Timed { readings: self.readings.get(), typed: self.typed.get(), asked: self.asked.get() }
    }

    /// Nothing was read.
    pub fn clear(self) {
        self.readings.set(Readings::default());
        self.typed.set(String::new());
        self.asked.set(None);
        self.lost.set(None);
        self.taken.set(None);
        self.turned.set(None);
    }

    /// Takes readings another way.
    pub fn choose(self, way: Way) {
        LAST_WAY.set(way);
        self.lost.set(None);
        self.way.set(way);
    }

    /// The side that is read next; tracked. `None` when all are read.
    pub fn next(self) -> Option<Side> {
        let readings = self.readings.read();
        let turned = self.turned.get().filter(|side| readings.wanted(*side) > 0);
        turned.or_else(|| readings.next())
    }

    /// The side that may be read instead of the next one; tracked.
    pub fn instead(self) -> Option<Side> {
        let next = self.next()?;
        let readings = self.readings.read();
        Side::BOTH.into_iter().find(|side| *side != next && readings.wanted(*side) > 0)
    }

    /// Reads a side out of turn.
    pub fn turn(self, side: Side) {
        self.turned.set(Some(side));
    }

    /// A press was timed.
    pub fn timed(self, pressed: Pressed) {
        // What comes up under the finger is not answered by the same tap.
        self.taps.once(|| {
            self.lost.set(None);
            self.offer(Reading::timed(pressed.time, pressed.press));
        });
    }

    /// Takes what is typed, or asks about it.
    ///
    /// # Errors
    /// What is wrong with it, in words.
    pub fn take_typed(self) -> Result<(), String> {
        let read = untrack(|| typed::field::<Span>(&self.typed.read()))?;
        if let Some(time) = read {
            self.typed.set(String::new());
            self.offer(Reading::typed(time));
        }
        Ok(())
    }

    /// Takes a reading of the side that is next, or asks about it.
    fn offer(self, reading: Reading) {
        let Some(side) = untrack(|| self.next()) else { return };
        match reading.doubt() {
            Some(doubt) => self.asked.set(Some(Asked { side, reading, doubt })),
            None => self.take(side, reading),
        }
    }

    /// Answers what is asked about: takes this reading, or none.
    pub fn answer(self, reading: Option<Reading>) {
        self.taps.once(|| {
            let Some(asked) = self.asked.get_untracked() else { return };
            self.asked.set(None);
            if let Some(reading) = reading {
                self.take(asked.side, reading);
            }
        });
    }

    fn take(self, side: Side, reading: Reading) {
        // Only a side that wants one is ever offered; a full one stays as it is.
        let added = self.readings.try_update(|readings| readings.add(side, reading));
        if added.is_some_and(|added| added.is_ok()) {
            self.taken.set(Some((side, reading)));
        }
        self.turned.set(None);
    }

    /// Takes the last reading of a side back.
    pub fn take_back(self, side: Side) {
        self.readings.update(|readings| {
            readings.take_back(side);
        });
        self.taken.set(None);
    }

    /// Why it cannot be gone on from; tracked.
    pub fn why_not(self) -> Option<String> {
        if self.asked.get().is_some() {
            return Some(crate::ui::words::looking::answer_first().to_owned());
        }
        typed::field::<Span>(&self.typed.read()).err()
    }

    /// Takes what is typed and not taken. `false` if something is to be answered first.
    pub fn settle(self) -> bool {
        self.take_typed().is_ok() && self.asked.get_untracked().is_none()
    }
}
