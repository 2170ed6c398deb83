//! The clock between rounds.

use super::time;
use crate::measure::{Moment, Span};
use crate::phone::zone::Moved;
use crate::ui::language::spoken;
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
    tr!(
        "{done} · look at {hour}",
        done = super::round_screens::round_done(round),
        hour = time::hour(due)
    )
}

/// The hour that is shown moved since the round was over.
pub fn moved(moved: Moved) -> String {
    let (sign, by) = match moved {
        Moved::Ahead(by) => ('+', by),
        Moved::Back(by) => ('−', by),
    };
    tr!(
        "The phone’s time zone changed by {by} since the round. The time left is right; hours are \
         shown by the new zone.",
        by = format!("{sign}{}", time::span(by))
    )
}

// The calendar. Shown on locked screens: nobody is named.

words! {
    pub calendar_product = "-//Freshet//Freshet//EN";
    pub calendar_look = "Freshet: look at the skin";
    pub calendar_notes = "Refill on both sides, colour, pain. Open Freshet.";
}

/// Putting the looks into the calendar.
pub fn calendar() -> CalendarWords {
    CalendarWords {
        put: spoken("Put the next looks into the phone’s calendar"),
        file: spoken("freshet-looks.ics"),
        downloaded: spoken(
            "Downloaded. Open the file to add the looks, then check that the calendar shows them.",
        ),
        shared: spoken("Passed on. Check that the calendar shows the looks."),
        cancelled: spoken("Closed: nothing was put into the calendar."),
        refused: spoken(
            "The browser did not take the file. Nothing is in the calendar: set an alarm clock.",
        ),
        nothing: spoken("No look is to come: nothing to put there."),
    }
}

/// What the file holds and why.
pub fn calendar_why(looks: u32) -> String {
    tr!(
        "The calendar rings in a phone that sleeps. {count} look, if each round follows at once; \
         after each round do it again, which moves them. It names no patient."
            | "The calendar rings in a phone that sleeps. {count} looks, if each round follows at \
               once; after each round do it again, which moves them. It names no patient."
                % looks,
        count = super::numbers::whole(looks)
    )
}

// What the phone does.

words! {
    pub phone = "This phone";
    pub ring = "Will this phone ring?";
}

/// So long at least, where nobody noted the onset.
pub fn more_than(span: Span) -> String {
    tr!("over {span}", span = time::span(span))
}
