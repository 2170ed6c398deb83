//! What leaves the phone, written out in open formats. The words in it are passed in: nothing here
//! speaks to a user, and nothing here knows a browser.

pub mod calendar;
