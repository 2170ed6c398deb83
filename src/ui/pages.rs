//! Pages beside the five steps.

pub mod about;
pub mod anaphylaxis;
pub mod backup;
pub mod besides;
pub mod contacts;
pub mod followup;
mod framed;
mod guard;
pub mod handover;
pub mod home;
pub mod keeping;
pub mod kit;
pub mod language;
mod listed;
pub mod lock;
pub mod outline;
pub mod paper;
pub mod papers;
pub mod photos;
pub mod records;
pub mod rehearsal;
pub mod ringing;
pub mod sums;
pub mod taking;
pub mod timeline;
pub mod values;

pub use framed::{Apart, Framed};
pub use guard::of_case;
