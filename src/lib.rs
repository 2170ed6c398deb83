//! Freshet: for the clinician who injects hyaluronic-acid filler and must undo it.
//!
//! The house has floors, and an arrow goes down only:
//!
//! | floor | what it holds |
//! |---|---|
//! | `ui` | what is seen: the five steps, the pages, the parts, the words |
//! | [`store`], `phone` | where it is kept, and what the phone does |
//! | [`record`], [`rehearsal`] | what leaves the phone, in open formats; the simulated patient |
//! | [`case`], [`kit`] | what happened, and what is in the bag |
//! | [`care`] | the rules of the trade, pure functions |
//! | [`protocol`] | every clinical number, once, with its source |
//! | [`plane`] | skin laid flat: outlines, areas, grids, photos |
//! | [`seal`] | texts and bytes under a passcode or a passphrase |
//! | [`measure`] | exact quantities |
//!
//! All below `store` compiles without a browser (`--no-default-features`), and takes the moment it
//! needs as an argument: nothing there reads a clock.

pub mod care;
pub mod case;
pub mod kit;
pub mod measure;
pub mod phone;
pub mod plane;
pub mod protocol;
pub mod record;
pub mod rehearsal;
pub mod seal;
pub mod store;
#[cfg(feature = "app")]
pub mod ui;
