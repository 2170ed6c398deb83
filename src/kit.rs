//! What is at hand: vials and all else that an occlusion needs, by batch, expiry and place.
//!
//! | part | what it says |
//! |---|---|
//! | [`Article`], [`Lot`] | what a thing is; many of one batch that came in together |
//! | [`Act`] | what happened to the kit: received, counted, moved, thrown away |
//! | [`Stock`] | what is left, folded from the acts and from what cases took |
//! | [`Shelf`] | vials of one lot at one place, as a case may take them |
//! | [`ready`] | whether it would do for an occlusion: how many rounds, what is missing |
//! | [`gs1`] | what the code on a pack says |
//! | [`Vial`], [`read_expiry`] | a vial in the hand, a date as printed |
//!
//! What a case took is said by the case and nowhere else: a vial struck out there is back here.

mod act;
mod article;
mod expiry;
pub mod gs1;
pub mod ready;
mod shelf;
mod stock;
mod vial;

pub use act::{Act, Discard, Taking};
pub use article::{Article, Kind, Lot, LotId, Place};
pub use expiry::{ExpiryMisread, read_expiry};
pub use shelf::Shelf;
pub use stock::{Done, Holding, Stock};
pub use vial::{Dating, Source, Vial};
