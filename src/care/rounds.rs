//! The treatment as a state machine: rounds of injections, the hour between, the look, the end.
//!
//! It is folded from acts and never counts time: what is due is a moment, and asking for the phase
//! takes the moment that it is now. So a phone that slept, reloaded or crashed is right at once.

mod changes;
mod in_hand;
mod look;
mod round;
mod share;
mod treatment;

pub use changes::{SyringeChange, changes};
pub use in_hand::{InHand, in_hand};
pub use look::{Function, Look, Pain, Sign, Temperature};
pub use round::{Point, Round};
pub use share::share;
pub use treatment::{Phase, Refusal, Treatment};

use super::dose::RoundPlan;
use super::situation::RedFlag;
use crate::measure::Volume;
use crate::plane::{Grid, Spot};
use serde::{Deserialize, Serialize};

/// Why a point was left out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum SkipReason {
    /// The skin there has its blood back.
    Perfused,
    /// Too close to the eye, or another place to avoid.
    Unsafe,
    /// The patient asked to stop.
    Patient,
    /// The syringe was empty.
    RanOut,
}

/// Why the patient was handed over.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum HandOver {
    /// Sight changed.
    Sight,
    /// Signs of a stroke.
    Stroke,
    /// A severe reaction.
    Reaction,
    /// Rounds passed without improvement.
    NoImprovement,
    /// No more enzyme.
    NoEnzyme,
    /// Skin is dying.
    Necrosis,
    /// Another reason, in the notes.
    Other,
}

impl HandOver {
    /// The reason that a sign gives by itself.
    pub const fn of(flag: RedFlag) -> Self {
        match flag {
            RedFlag::Sight => Self::Sight,
            RedFlag::Stroke => Self::Stroke,
            RedFlag::Airway => Self::Reaction,
        }
    }
}

/// How a treatment ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum End {
    /// Refill, colour and pain are back; or planned work is done.
    Done,
    /// Somebody else took over.
    HandedOver(HandOver),
    /// Stopped before it was done, for a reason in the notes.
    Stopped,
}

/// What is recorded of a treatment.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Act {
    /// A round begins.
    Begin(RoundPlan),
    /// A round begins, on a grid that was laid over the outline.
    BeginOn(RoundPlan, Box<Grid>),
    /// A point is added by hand to the round that runs. It takes the next number.
    Add {
        /// Where, if there is an outline.
        spot: Option<Spot>,
    },
    /// A point was injected.
    Inject {
        /// Its number, from 1.
        point: u32,
        /// Volume that went in.
        volume: Volume,
    },
    /// A point was left out.
    Skip {
        /// Its number, from 1.
        point: u32,
        /// Why.
        reason: SkipReason,
    },
    /// The round's injections are over; the time to the next look starts.
    Finish,
    /// The skin was looked at.
    Look(Look),
    /// It is over.
    End(End),
}
