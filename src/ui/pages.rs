//! Pages beside the five steps.

pub mod about;
pub mod anaphylaxis;
pub mod besides;
pub mod contacts;
pub mod handover;
pub mod home;
pub mod keeping;
pub mod kit;
pub mod outline;
pub mod rehearsal;
pub mod ringing;
pub mod sums;
pub mod timeline;
pub mod values;
