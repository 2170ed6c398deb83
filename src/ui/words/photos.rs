//! Photos of a case over time.

use super::time;
use crate::case::Removal;
use crate::measure::{Moment, Span};

pub const TITLE: &str = "Photos";
pub const DETAIL: &str = "Side by side over time";
pub const NONE: &str = "No photo was taken in this case.";
pub const LEFT: &str = "Left photo";
pub const RIGHT: &str = "Right photo";
pub const EARLIER: &str = "Earlier";
pub const LATER: &str = "Later";
pub const LOADING: &str = "Coming";
pub const GONE: &str = "No longer on this phone";
pub const DELETED: &str = "Deleted";
pub const DELETE: &str = "Delete a photo";
pub const WHICH: &str = "Which one";
pub const WHY: &str = "Why";
pub const KEEPS: &str = "The photo goes from this phone for good. What was traced on it and everything \
                         else in the record stays, and the record says that it was deleted.";
pub const COPIES: &str = "Copies that were sent, printed or taken elsewhere are not reached.";
pub const MISSING: &str = "Choose which photo, and why.";
pub const DO_DELETE: &str = "Delete it for good";
pub const NOT_DELETED: &str = "It is recorded as deleted, but the phone did not let go of it yet. It is \
                               tried again each time the app starts.";
pub const DONE: &str = "Deleted.";

/// Each reason.
pub const REMOVALS: [Removal; 2] = [Removal::PatientsWish, Removal::NotUsable];

/// Why a photo was deleted.
pub const fn removal(why: Removal) -> &'static str {
    match why {
        Removal::PatientsWish => "The patient asked for it",
        Removal::NotUsable => "It showed nothing of use",
    }
}

/// Which of how many it is.
pub fn place(number: usize, of: usize) -> String {
    format!("{number} of {of}")
}

/// How long after the first sign, or before it, it was taken.
pub fn since(onset: Moment, at: Moment) -> String {
    let span: Span = at.since(onset);
    if at < onset {
        format!("{} before the first sign", time::span(onset.since(at)))
    } else {
        format!("{} after the first sign", time::span(span))
    }
}

/// A photo as a screen reader says it, and in a list.
pub fn named(at: Moment) -> String {
    format!("Photo of {}", time::day_hour(at))
}

/// When and why it was deleted.
pub fn deleted(at: Moment, why: Removal) -> String {
    format!("Deleted {}. {}.", time::day_hour(at), removal(why))
}
