//! The clock between rounds.

use super::time;
use crate::measure::{Moment, Span};
use crate::phone::zone::Moved;
use crate::ui::parts::CalendarWords;

pub use super::round_screens::{
    rounds, rounds_label, serves, since_onset, units_so_far, vials_left, vials_opened,
};

words! {
    pub not_counted = "not counted";
    pub count_vials = "Count them with the next solution";
    pub set_onset = "Set it";
    pub not_known = "–";
    pub no_size = "not known";
    pub set_size = "Set size and strength";
}

/// Which round is over, and at what hour the look is due.
pub fn eyebrow(round: usize, due: Moment) -> String {
    format!("{} · look at {}", super::round_screens::round_done(round), time::hour(due))
}

/// The hour that is shown moved since the round was over.
pub fn moved(moved: Moved) -> String {
    let (sign, by) = match moved {
        Moved::Ahead(by) => ('+', by),
        Moved::Back(by) => ('−', by),
    };
    format!(
        "The phone’s time zone changed by {sign}{} since the round. The time left is right; hours \
         are shown by the new zone.",
        time::span(by)
    )
}

// The calendar. Shown on locked screens: nobody is named.

words! {
    pub calendar_product = "-//Freshet//Freshet//EN";
    pub calendar_look = "Freshet: look at the skin";
    pub calendar_notes = "Refill on both sides, colour, pain. Open Freshet.";
}
/// Putting the looks into the calendar.
pub static CALENDAR: CalendarWords = CalendarWords {
    put: "Put the next looks into the phone’s calendar",
    file: "freshet-looks.ics",
    downloaded: "Downloaded. Open the file to add the looks, then check that the calendar shows them.",
    shared: "Passed on. Check that the calendar shows the looks.",
    cancelled: "Closed: nothing was put into the calendar.",
    refused: "The browser did not take the file. Nothing is in the calendar: set an alarm clock.",
    nothing: "No look is to come: nothing to put there.",
};

/// What the file holds and why.
pub fn calendar_why(looks: u32) -> String {
    let looks = super::numbers::count(looks, "look", "looks");
    format!(
        "The calendar rings in a phone that sleeps. {looks}, if each round follows at once; after \
         each round do it again, which moves them. It names no patient."
    )
}

// What the phone does.

words! {
    pub phone = "This phone";
    pub ring = "Will this phone ring?";
}

/// So long at least, where nobody noted the onset.
pub fn more_than(span: Span) -> String {
    format!("over {}", time::span(span))
}
