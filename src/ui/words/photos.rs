//! Photos of a case over time.

use super::time;
use crate::case::Removal;
use crate::measure::Moment;
use crate::ui::language::spoken;

words! {
    pub title = "Photos";
    pub detail = "Side by side over time";
    pub none = "No photo was taken in this case.";
    pub none_left = "No photo of this case is left.";
    pub left = "Left photo";
    pub right = "Right photo";
    pub which_two = "Choose which two";
    pub on_left = "Left";
    pub on_right = "Right";
    pub tap = "Tap a photo to see it large, or to delete it.";
    pub large = "Photo";
    pub tap_large = "A tap enlarges that place; the next shows the whole photo again.";
    pub enlarge = "Enlarge";
    pub whole = "Whole photo";
    pub loading = "Coming";
    pub gone = "No longer on this phone";
    pub deleted_label = "Deleted";
    pub delete = "Delete photo";
    pub why = "Why";
    pub keeps = "The photo goes from this phone for good. What was traced on it and everything \
                             else in the record stays, and the record says that it was deleted.";
    pub copies = "Copies that were sent, printed or taken elsewhere are not reached.";
    pub missing = "Choose why.";
    pub do_delete = "Delete it for good";
    pub not_deleted = "A photo is recorded as deleted, but the phone did not let go of it yet. \
                                   It is tried again each time the app starts.";
    pub try_again = "Try again now";
    pub still_there = "The phone still does not let go of it.";
    pub done = "Deleted.";
    pub shared = "Deleted here. Another case shows the same photo: delete it there too.";
}

/// Each reason.
pub const REMOVALS: [Removal; 2] = [Removal::PatientsWish, Removal::NotUsable];

/// Why a photo was deleted.
pub fn removal(why: Removal) -> &'static str {
    spoken(match why {
        Removal::PatientsWish => "The patient asked for it",
        Removal::NotUsable => "It showed nothing of use",
    })
}

/// How long after the first sign, or before it, it was taken: how long, and the words after it.
pub fn since(onset: Moment, at: Moment) -> (String, &'static str) {
    if at < onset {
        (time::span(onset.since(at)), spoken("before the first sign"))
    } else {
        (time::span(at.since(onset)), spoken("after the first sign"))
    }
}

/// A photo as a screen reader says it.
pub fn named(at: Moment) -> String {
    tr!("Photo of {when}", when = time::day_hour(at))
}

/// The button that a photo is.
pub fn see_large(at: Moment) -> String {
    tr!("See large: {photo}", photo = named(at))
}

/// The button that puts it to the left or right.
pub fn put(word: &str, at: Moment) -> String {
    format!("{word}: {}", named(at))
}

/// What, when and why it was deleted.
pub fn deleted(at: Moment, when: Moment, why: Removal) -> String {
    tr!(
        "{photo}: deleted {when}. {why}.",
        photo = named(at),
        when = time::day_hour(when),
        why = removal(why)
    )
}
