//! Photos of a case over time.

use super::time;
use crate::case::Removal;
use crate::measure::Moment;

pub const TITLE: &str = "Photos";
pub const DETAIL: &str = "Side by side over time";
pub const NONE: &str = "No photo was taken in this case.";
pub const NONE_LEFT: &str = "No photo of this case is left.";
pub const LEFT: &str = "Left photo";
pub const RIGHT: &str = "Right photo";
pub const WHICH_TWO: &str = "Choose which two";
pub const ON_LEFT: &str = "Left";
pub const ON_RIGHT: &str = "Right";
pub const TAP: &str = "Tap a photo to see it large, or to delete it.";
pub const LARGE: &str = "Photo";
pub const TAP_LARGE: &str = "A tap enlarges that place; the next shows the whole photo again.";
pub const ENLARGE: &str = "Enlarge";
pub const WHOLE: &str = "Whole photo";
pub const LOADING: &str = "Coming";
pub const GONE: &str = "No longer on this phone";
pub const DELETED: &str = "Deleted";
pub const DELETE: &str = "Delete photo";
pub const WHY: &str = "Why";
pub const KEEPS: &str = "The photo goes from this phone for good. What was traced on it and everything \
                         else in the record stays, and the record says that it was deleted.";
pub const COPIES: &str = "Copies that were sent, printed or taken elsewhere are not reached.";
pub const MISSING: &str = "Choose why.";
pub const DO_DELETE: &str = "Delete it for good";
pub const NOT_DELETED: &str = "A photo is recorded as deleted, but the phone did not let go of it yet. \
                               It is tried again each time the app starts.";
pub const TRY_AGAIN: &str = "Try again now";
pub const STILL_THERE: &str = "The phone still does not let go of it.";
pub const DONE: &str = "Deleted.";
pub const SHARED: &str = "Deleted here. Another case shows the same photo: delete it there too.";

/// Each reason.
pub const REMOVALS: [Removal; 2] = [Removal::PatientsWish, Removal::NotUsable];

/// Why a photo was deleted.
pub const fn removal(why: Removal) -> &'static str {
    match why {
        Removal::PatientsWish => "The patient asked for it",
        Removal::NotUsable => "It showed nothing of use",
    }
}

/// How long after the first sign, or before it, it was taken: how long, and the words after it.
pub fn since(onset: Moment, at: Moment) -> (String, &'static str) {
    if at < onset {
        (time::span(onset.since(at)), "before the first sign")
    } else {
        (time::span(at.since(onset)), "after the first sign")
    }
}

/// A photo as a screen reader says it.
pub fn named(at: Moment) -> String {
    format!("Photo of {}", time::day_hour(at))
}

/// The button that a photo is.
pub fn see_large(at: Moment) -> String {
    format!("See large: {}", named(at))
}

/// The button that puts it to the left or right.
pub fn put(word: &str, at: Moment) -> String {
    format!("{word}: {}", named(at))
}

/// What, when and why it was deleted.
pub fn deleted(at: Moment, when: Moment, why: Removal) -> String {
    format!("{}: deleted {}. {}.", named(at), time::day_hour(when), removal(why))
}
