//! What leaves the phone, written out in open formats. The words in it are passed in: nothing here
//! speaks to a user, and nothing here knows a browser.

pub mod backup;
pub mod calendar;
pub mod fhir;
pub mod file;
mod iso;
pub mod label;
pub mod lines;
pub mod merge;
pub mod note;
pub mod samples;
pub mod tar;
