//! Whole ways through the app, as a user goes them. The tests check what they show; the page of
//! screenshots plays the same.

pub mod after;
pub mod around;
pub mod backup;
pub mod calling;
pub mod followup;
pub mod hours;
pub mod kit;
pub mod lock;
pub mod look;
pub mod outline;
pub mod paper;
pub mod papers;
pub mod photo;
pub mod photos;
pub mod planned;
pub mod records;
pub mod rehearsal;
pub mod solution;
pub mod urgent;
