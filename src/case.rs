//! What happened: events, the journal that chains them, and the case that they fold into.
//!
//! Nothing is edited or deleted. A correction is a further event that strikes an earlier one out,
//! with a reason, as in a paper record; and each entry carries the SHA-256 of the one before, so a
//! changed record shows.

mod after;
mod batches;
mod besides;
mod clearance;
mod contact;
mod entry;
mod event;
mod fold;
mod handover;
mod headline;
mod journal;
mod pictures;
mod preparation;
mod reach;
mod round;
mod search;
mod skin;
mod step;
mod stop;
mod taken;
mod tested;

pub use clearance::Clearance;
pub use contact::{Contact, NoNumber, Number, Role};
pub use entry::{Body, CaseId, Damage, Entry, SCHEMA};
pub use event::{Event, Outcome, Overridden, Reference, Removal, StrikeReason};
pub use fold::Case;
pub use headline::Headline;
pub use journal::{Fault, Journal};
pub use pictures::{Album, Picture, to_sweep};
pub use preparation::Preparation;
pub use search::{Hit, Search};
pub use skin::Told;
pub use step::Step;
pub use stop::Stop;
pub use taken::{Asked, Unnoted};
pub use tested::TestReading;
