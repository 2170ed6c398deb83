//! The map of the house.
pub mod measure;
pub mod protocol;
