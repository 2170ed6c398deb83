//! Every clinical number, once: value, unit, bounds, source and status.
//!
//! A number that decides what happens to a patient stands here and nowhere else. [`Protocol`] holds
//! the values in force, typed; [`Protocol::table`] lists them with what each source says, so that a
//! screen can answer "why this number". A clinic may change a value within its bounds; a case keeps
//! the set that it ran under.
//!
//! Published tables that are not one number each have their own module: [`adrenaline`],
//! [`adjunct`], [`intradermal`], [`refill_limit`], [`refill_reading`], [`perfusion`], [`zone`], [`filler_dose`], [`potency`], [`barrel`],
//! [`window`], [`diluent`]. [`face`] holds the drawings of the face, with the zones in them,
//! [`card`] what gives a photo its scale. [`simulation`] holds the figures of a patient made up for
//! rehearsals, which are no clinical numbers at all.

pub mod adjunct;
pub mod adrenaline;
pub mod barrel;
pub mod card;
pub mod counting;
pub mod diluent;
pub mod emergency;
pub mod face;
pub mod fact;
pub mod filler_dose;
pub mod intradermal;
pub mod perfusion;
pub mod plan_rank;
pub mod potency;
pub mod refill_limit;
pub mod refill_reading;
pub mod simulation;
pub mod source;
pub mod strengths;
mod value;
mod values;
pub mod window;
pub mod zone;

pub use value::{Basis, Control, Finding, Kind, PerMille, Quantity, Refused, Value, tenfold_slip};
pub use values::{Id, Protocol, Region};
