//! Checks against the outside world. Each names its source in a line beside it, or says 'common
//! practice, no source' or 'from memory'.

mod adjunct;
mod adrenaline;
mod calendar;
mod dilution;
mod dose;
mod face;
mod fhir;
mod grid;
mod gs1;
mod hashes;
mod leaf;
mod outlines;
mod photo;
mod readability;
mod refill;
mod rounds;
mod skin_test;
mod stages;
