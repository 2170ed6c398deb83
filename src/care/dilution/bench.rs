//! The bench: one syringe in the hand, the opened vials, the syringes set aside.
//!
//! Each movement of the plunger is done here and nowhere else, so a plan can hold nothing that a
//! hand could not do: the planner tries its ways on the bench, a stored plan is walked on it when
//! it is read, and the screen draws what it shows.

use super::ask::{Ask, Wanted};
use super::spread::{Stock, Trace};
use crate::measure::{Units, Volume};
use serde::{Deserialize, Serialize};
use std::fmt;

/// One movement of the plunger, or the setting aside of what it filled. Vials and syringes are
/// numbered from 1. Marks are read from zero, so the plunger moves from where it stands to `to`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Movement {
    /// Draw diluent into the empty syringe.
    DrawDiluent {
        /// The mark to stop at.
        to: Volume,
    },
    /// Push all of it into the vial and dissolve.
    Dissolve {
        /// Which vial.
        vial: u32,
    },
    /// Draw from the vial.
    DrawFromVial {
        /// Which vial.
        vial: u32,
        /// The mark to stop at.
        to: Volume,
    },
    /// Draw diluent on top of what is in the syringe, then mix.
    MakeUp {
        /// The mark to stop at.
        to: Volume,
    },
    /// Discard down to a mark.
    Expel {
        /// The mark to stop at.
        to: Volume,
    },
    /// The syringe is ready: label it and take the next.
    Finish {
        /// Which syringe.
        syringe: u32,
    },
}

impl Movement {
    /// The mark where the plunger stops, if it stops at one.
    pub const fn mark(self) -> Option<Volume> {
        match self {
            Self::DrawDiluent { to }
            | Self::DrawFromVial { to, .. }
            | Self::MakeUp { to }
            | Self::Expel { to } => Some(to),
            Self::Dissolve { .. } | Self::Finish { .. } => None,
        }
    }
}

/// What a syringe or a vial holds.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Contents {
    /// Activity in it.
    pub units: Units,
    /// Liquid in it; in a syringe this is where the plunger stands.
    pub volume: Volume,
}

impl Contents {
    /// Nothing.
    pub const EMPTY: Self = Self { units: Units::ZERO, volume: Volume::ZERO };

    /// Takes `volume` out of this: what is taken (units to the nearest milli-unit, half up) and
    /// the exact rest. `None` if there is not that much.
    pub fn take(self, volume: Volume) -> Option<(Self, Self)> {
        let rest = self.volume.checked_sub(volume)?;
        let (all, part) = (u128::from(self.volume.raw()), u128::from(volume.raw()));
        let taken = (u128::from(self.units.raw()) * part + all / 2).checked_div(all).unwrap_or(0);
        let units = Units::milli(u64::try_from(taken).ok()?);
        Some((Self { units, volume }, Self { units: self.units.checked_sub(units)?, volume: rest }))
    }

    fn with(self, other: Self) -> Self {
        Self { units: self.units + other.units, volume: self.volume + other.volume }
    }
}

/// Something before and after a movement.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Change {
    /// As the movement finds it.
    pub before: Contents,
    /// As it leaves it.
    pub after: Contents,
}

/// Sums up to and with a movement.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Totals {
    /// Vials opened.
    pub vials: u32,
    /// Syringes finished.
    pub syringes: u32,
    /// Units in the finished syringes.
    pub delivered: Units,
    /// Volume in the finished syringes.
    pub volume: Volume,
    /// Units discarded.
    pub expelled: Units,
    /// Diluent used.
    pub diluent: Volume,
}

/// One movement and what it does: everything a picture of it needs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stage {
    /// The movement.
    pub movement: Movement,
    /// The syringe in the hand. After [`Movement::Finish`] it is the next, empty one.
    pub syringe: Change,
    /// The vial concerned, by its number.
    pub vial: Option<(u32, Change)>,
    /// Sums with this movement done.
    pub totals: Totals,
}

/// Why a list of movements is no plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Broken {
    /// The plunger would stop between marks, past the last, or on the wrong side.
    NotThatMark,
    /// The movement makes no sense at this point.
    OutOfOrder,
    /// There is no such vial, or not that much in it.
    NotInVial,
    /// The vial would overflow.
    VialOverfull,
    /// Two strengths would come together, or the syringes would not be alike.
    UnlikeStrengths,
    /// Nothing could be said about the strength any more.
    Unmeasurable,
    /// It ends with less than was wanted, or with something still in the hand.
    Unfinished,
    /// The ask itself is one that is always refused.
    NoSuchAsk,
}

/// For stored data; a screen never shows it.
impl fmt::Display for Broken {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{self:?}")
    }
}

/// An opened vial.
#[derive(Clone, Copy, Debug)]
struct Opened {
    contents: Contents,
    stock: Stock,
    drawn_from: bool,
}

/// The state between two movements.
#[derive(Clone, Debug)]
pub(super) struct Bench<'a> {
    ask: &'a Ask,
    vials: Vec<Opened>,
    hand: Contents,
    /// Where the strength in the hand comes from; `None` while no units are in it.
    trace: Option<Trace>,
    /// The syringes set aside.
    pub(super) filled: Vec<Contents>,
    /// What all of them have in common.
    pub(super) outcome: Option<Trace>,
    /// Sums so far.
    pub(super) totals: Totals,
}

impl<'a> Bench<'a> {
    pub(super) fn new(ask: &'a Ask) -> Self {
        Self {
            ask,
            vials: Vec::new(),
            hand: Contents::EMPTY,
            trace: None,
            filled: Vec::new(),
            outcome: None,
            totals: Totals::default(),
        }
    }

    /// Whether what was wanted has been set aside.
    pub(super) fn satisfied(&self) -> bool {
        match self.ask.wanted {
            Wanted::Dose(units) => self.totals.delivered >= units,
            Wanted::Volume(volume) => self.totals.volume >= volume,
        }
    }

    /// What is left in the vials.
    pub(super) fn left(&self) -> Units {
        self.vials.iter().map(|vial| vial.contents.units).sum()
    }

    /// The content of an opened vial.
    pub(super) fn vial(&self, number: u32) -> Option<Contents> {
        Some(self.vials.get(place(number)?)?.contents)
    }

    /// Whether nothing is in the hand.
    pub(super) fn empty_handed(&self) -> bool {
        self.hand == Contents::EMPTY
    }

    /// Does one movement.
    ///
    /// # Errors
    /// [`Broken`] if no hand could; the bench is then not to be used further.
    pub(super) fn apply(&mut self, movement: Movement) -> Result<Stage, Broken> {
        if movement.mark().is_some_and(|mark| !self.ask.syringe.has_mark(mark)) {
            return Err(Broken::NotThatMark);
        }
        let before = self.hand;
        let mut vial = None;
        match movement {
            Movement::DrawDiluent { to } => self.draw_diluent(to)?,
            Movement::Dissolve { vial: number } => vial = Some((number, self.dissolve(number)?)),
            Movement::DrawFromVial { vial: number, to } => {
                vial = Some((number, self.draw(number, to)?));
            }
            Movement::MakeUp { to } => self.make_up(to)?,
            Movement::Expel { to } => self.expel(to)?,
            Movement::Finish { syringe } => self.finish(syringe)?,
        }
        let syringe = Change { before, after: self.hand };
        Ok(Stage { movement, syringe, vial, totals: self.totals })
    }

    fn draw_diluent(&mut self, to: Volume) -> Result<(), Broken> {
        if !self.empty_handed() {
            return Err(Broken::OutOfOrder);
        }
        self.hand.volume = to;
        self.totals.diluent += to;
        Ok(())
    }

    fn dissolve(&mut self, number: u32) -> Result<Change, Broken> {
        if self.trace.is_some() || self.hand.volume.is_zero() {
            return Err(Broken::OutOfOrder);
        }
        let stroke = self.hand.volume;
        let slack = self.ask.syringe.tolerance(stroke);
        let before = if number == self.totals.vials + 1 {
            if self.ask.vials.is_some_and(|there| number > there) {
                return Err(Broken::NotInVial);
            }
            self.totals.vials = number;
            let contents = Contents { units: self.ask.vial.units, volume: Volume::ZERO };
            let stock = Stock::dry(contents.units);
            self.vials.push(Opened { contents, stock, drawn_from: false });
            contents
        } else {
            // A further stroke goes into the vial opened last, while it is still whole.
            let open = self.vials.last().filter(|open| !open.drawn_from);
            open.filter(|_| number == self.totals.vials).ok_or(Broken::OutOfOrder)?.contents
        };
        let open = self.vials.last_mut().ok_or(Broken::NotInVial)?;
        open.stock = open.stock.wetted(stroke, slack);
        open.contents = open.contents.with(self.hand);
        if open.contents.volume > self.ask.vial.holds {
            return Err(Broken::VialOverfull);
        }
        self.hand = Contents::EMPTY;
        Ok(Change { before, after: open.contents })
    }

    fn draw(&mut self, number: u32, to: Volume) -> Result<Change, Broken> {
        let diluent_in_hand = self.trace.is_none() && !self.hand.volume.is_zero();
        let open = place(number).and_then(|place| self.vials.get_mut(place));
        let open = open.filter(|_| !diluent_in_hand).ok_or(Broken::NotInVial)?;
        let more = to.checked_sub(self.hand.volume).filter(|more| !more.is_zero());
        let before = open.contents;
        let (taken, rest) =
            before.take(more.ok_or(Broken::NotThatMark)?).ok_or(Broken::NotInVial)?;
        let stock = open.stock.trace().ok_or(Broken::Unmeasurable)?;
        self.trace = Some(match self.trace {
            None => stock,
            Some(here) => here.joined(stock).ok_or(Broken::UnlikeStrengths)?,
        });
        open.contents = rest;
        open.drawn_from = true;
        self.hand = self.hand.with(taken);
        Ok(Change { before, after: rest })
    }

    fn make_up(&mut self, to: Volume) -> Result<(), Broken> {
        let from = self.hand.volume;
        let trace = self.trace.ok_or(Broken::OutOfOrder)?;
        let more = to.checked_sub(from).filter(|more| !more.is_zero());
        let more = more.ok_or(Broken::NotThatMark)?;
        self.trace = Some(trace.made_up(self.ask.syringe, from, to).ok_or(Broken::Unmeasurable)?);
        self.hand.volume = to;
        self.totals.diluent += more;
        Ok(())
    }

    fn expel(&mut self, to: Volume) -> Result<(), Broken> {
        let out = self.hand.volume.checked_sub(to).filter(|out| !out.is_zero());
        let out = out.filter(|_| self.trace.is_some()).ok_or(Broken::NotThatMark)?;
        let (gone, kept) = self.hand.take(out).ok_or(Broken::NotThatMark)?;
        self.totals.expelled += gone.units;
        self.hand = kept;
        Ok(())
    }

    fn finish(&mut self, syringe: u32) -> Result<(), Broken> {
        let trace = self.trace.take().ok_or(Broken::OutOfOrder)?;
        if syringe != self.totals.syringes + 1 {
            return Err(Broken::OutOfOrder);
        }
        self.outcome = Some(match self.outcome {
            None => trace,
            Some(others) => others.joined(trace).ok_or(Broken::UnlikeStrengths)?,
        });
        self.totals.syringes = syringe;
        self.totals.delivered += self.hand.units;
        self.totals.volume += self.hand.volume;
        self.filled.push(self.hand);
        self.hand = Contents::EMPTY;
        Ok(())
    }
}

/// Where the thing with this number, counted from 1, stands in a list.
fn place(number: u32) -> Option<usize> {
    usize::try_from(number.checked_sub(1)?).ok()
}
