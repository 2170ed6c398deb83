//! Exact quantities. Nothing here is a float, and nothing here knows medicine.
//!
//! Each quantity is a whole number of a unit small enough for the job:
//!
//! | type | kept as | example |
//! |---|---|---|
//! | [`Units`] | milli-units of enzyme activity | 1.5 U is 1500 |
//! | [`Volume`] | microlitres | 0.1 mL is 100 |
//! | [`Strength`] | units over a volume, as a reduced ratio | 1500 U in 7 mL stays that |
//! | [`Area`] | square millimetres | 12.4 cm² is 1240 |
//! | [`Length`] | tenths of a millimetre | 85.6 mm is 856 |
//! | [`Mass`] | grams | 12.5 kg is 12 500 |
//! | [`Date`] | a day of the calendar | |
//! | [`Moment`] | milliseconds since the Unix epoch, UTC | |
//! | [`Span`] | milliseconds, never negative | 1 min is 60 000 |
//!
//! So 150 U/mL × 0.01 mL is exactly 1.5 U, in this order and in the other.

mod amount;
mod date;
mod hash;
mod mass;
mod moment;
pub mod order;
mod strength;
mod typed;

pub use amount::{Area, Length, Units, Volume};
pub use date::Date;
pub use hash::Hash;
pub use mass::Mass;
pub use moment::{Moment, Span};
pub use strength::Strength;
pub use typed::{Misread, Typed};
