//! Looking: refill timed, typed and compared; the photo from the same angle.

use super::{numbers, time};
use crate::care::refill::readings::{Doubt, Press, Reading, Side, Summary, Weakness};
use crate::care::refill::{Colour, Judgement, Refill};
use crate::measure::{Moment, Span};
use crate::phone::camera::NoCamera;
use crate::protocol::refill_limit::Limit;
use crate::store::Refusal;
use crate::ui::language::spoken;
use crate::ui::parts::{PressLost, PressWords};

// Refill.

words! {
    pub how = "How" as "a time is taken";
    pub hold = "Hold";
    pub tap = "Tap";
    pub type_label = "Type";
}

pub fn press() -> PressWords {
    PressWords {
        hold: spoken("Hold to press"),
        start: spoken("Start pressing"),
        pressing: spoken("Keep pressing"),
        let_go: spoken("Let go"),
        release: spoken("Release"),
        over: spoken("Colour back"),
        time: seconds,
    }
}

/// How the timer is worked.
pub fn how_to_hold(guide: Span) -> String {
    tr!(
        "One finger presses the skin, the other thumb holds the button: {guide}, then let go of \
         both. Tap when the colour is back.",
        guide = time::span(guide)
    )
}

/// How the timer is worked without holding.
pub fn how_to_tap(guide: Span) -> String {
    tr!(
        "Tap as you begin to press, tap as you let go after {guide}, tap when the colour is back.",
        guide = time::span(guide)
    )
}

words! {
    pub how_to_type = "Timed elsewhere: one reading at a time.";
    pub take = "Take this reading";
    pub all_read = "All readings are taken.";
    pub read_other = "Read the other side now";
    pub read_affected = "Read the affected side now";
    pub time_it = "Time it";
    pub time_refill = "Time the refill";
    pub use_label = "Done";
}

pub fn side(side: Side) -> &'static str {
    spoken(match side {
        Side::Affected => "Affected side",
        Side::Opposite => "Other side",
    })
}

fn side_within(side: Side) -> &'static str {
    spoken(match side {
        Side::Affected => "affected side",
        Side::Opposite => "other side",
    })
}

/// A patch of simulated skin, for a screen reader.
pub fn patch(side: Side, colour: Colour, blanched: bool) -> String {
    let state = spoken(if blanched { "blanched where it was pressed" } else { "colour there" });
    match side {
        Side::Affected => {
            let colour = super::situation::colour(colour);
            tr!("Skin, {side}: {colour}; {state}", side = side_within(side), colour, state)
        }
        Side::Opposite => tr!("Skin, {side}: {state}", side = side_within(side), state),
    }
}

/// Which reading is next.
pub fn turn(side: Side, number: usize, of: usize) -> String {
    tr!("{side}, reading {number} of {of}", side = self::side(side), number, of)
}

pub fn take_back(side: Side) -> String {
    tr!("Take back the last reading, {side}", side = side_within(side))
}

/// A time with its unit.
pub fn seconds(span: Span) -> String {
    tr!("{seconds} s", seconds = numbers::seconds(span))
}

/// What is marked at a reading.
pub fn mark(press: Press) -> Option<&'static str> {
    match press {
        Press::AsGuided => None,
        Press::Short => Some(spoken("short press")),
        Press::Long => Some(spoken("long press")),
        Press::Unknown => Some(spoken("typed")),
    }
}

/// Several readings of a side.
pub fn summary(summary: Summary) -> String {
    let median = seconds(summary.median);
    if summary.count > 1 {
        tr!("Median {median}, {spread} apart", median, spread = seconds(summary.spread))
    } else {
        tr!("{median}, one reading", median)
    }
}

/// A reading, for a screen reader as it is taken.
pub fn taken(side: Side, reading: Reading) -> String {
    format!("{}: {}", self::side(side), seconds(reading.time))
}

pub fn lost(lost: PressLost) -> &'static str {
    spoken(match lost {
        PressLost::Brief => "That was a touch, not a press. Hold the button, or choose “Tap”.",
        PressLost::Interrupted => "The press was interrupted: nothing was taken. Press again.",
    })
}

/// Asks about a reading before it is taken.
pub fn doubt(side: Side, reading: Reading, doubt: Doubt) -> String {
    let read = format!("{}, {}", self::side(side), seconds(reading.time));
    match doubt {
        Doubt::Tenfold(meant) => {
            tr!("{read}: unusual. {meant} meant?", read, meant = seconds(meant))
        }
        Doubt::Quick => tr!("{read}: quicker than usual. The same finger twice?", read),
        Doubt::Slow => {
            tr!("{read}: slower than usual. Skin without blood, or nobody tapped in time?", read)
        }
    }
}

/// The answer that a slip was made.
pub fn meant(meant: Span) -> String {
    tr!("Yes, {meant}", meant = seconds(meant))
}

/// The answer that it was so.
pub fn as_read(reading: Reading) -> String {
    tr!("Take {time} as it is", time = seconds(reading.time))
}

words! {
    pub leave_out = "Leave it out";
    pub answer_first = "Answer about the reading first.";
}

/// The medians against each other, and against the limit in force.
pub fn compared(refill: Refill, judged: &Judgement) -> String {
    let affected = seconds(refill.affected);
    let read = match refill.opposite {
        Some(opposite) => tr!(
            "{affected} against {opposite} on the other side.",
            affected,
            opposite = seconds(opposite)
        ),
        None => format!("{affected}."),
    };
    format!("{read} {}", super::situation::refill(judged))
}

/// A side that was not read.
pub fn wanting(side: Side) -> &'static str {
    spoken(match side {
        Side::Affected => {
            "Only the other side was read: nothing to compare yet. Not timed counts as not back."
        }
        Side::Opposite => {
            "The other side was not read. It is the better control: no limit was measured on the face."
        }
    })
}

/// What weakens a comparison.
pub fn weakness(weakness: Weakness) -> String {
    match weakness {
        Weakness::Fewer(side, wanting) => {
            tr!("{side}: {wanting} more wanted.", side = self::side(side), wanting)
        }
        Weakness::Press(side, count) => {
            tr!("{side}: {count} not pressed as guided, or typed.", side = self::side(side), count)
        }
        Weakness::WithinSpread => {
            tr!("The sides differ by no more than the readings of one side do among themselves.")
        }
    }
}

/// Where a limit was found, and how the affected side stands to it.
pub fn limit(limit: &Limit, affected: Option<Span>) -> String {
    let setting = spoken(limit.setting);
    match affected {
        Some(affected) if affected > limit.upper => tr!("{setting}: slower", setting),
        Some(_) => tr!("{setting}: within", setting),
        None => setting.to_owned(),
    }
}

// The look.

words! {
    pub temperature = "Temperature, if felt";
    pub function = "Movement and feeling, if tried";
    pub leave = "Leave this look?";
    pub leave_why = "What was read and typed is not recorded yet.";
    pub go_on_looking = "Go on looking";
    pub drop = "Drop it";
}

/// A look taken up again.
pub fn resumed(begun: Moment) -> String {
    tr!(
        "Taken up again: begun at {hour}. Readings grow old; take them back or begin anew if the \
         skin changed.",
        hour = time::hour(begun)
    )
}

words! {
    pub begin_anew = "Begin anew";
}

// The photo.

words! {
    pub photo_take = "Photo from the same angle";
    pub photo_again = "Take the photo again";
    pub photo_taken = "Photo taken, kept on this phone only.";
    pub photo_heading = "The same angle";
    pub photo_first = "First photo";
    pub opening = "Opening the camera. The phone may ask you to allow it.";
    pub shutter = "Take the photo";
    pub keep = "Keep this photo";
    pub again = "Take it again";
    pub without = "Go on without a photo";
    pub camera_app = "Use the camera app";
    pub choose = "Choose a picture";
    pub open_again = "Open the camera again";
    pub line_up = "Line the face up with the earlier photo, laid over faintly.";
    pub compare = "The earlier photo is laid over: do the edges meet?";
    pub no_earlier = "Later photos are laid over this one.";
    pub earlier_gone = "The earlier photo is not on this phone.";
    pub show_earlier = "Earlier photo laid over";
    pub press_matters = "A longer press fills slower, a shorter one quicker.";
    pub strength = "Earlier photo: faint to strong";
    pub live = "What the camera sees";
    pub taken_label = "The photo just taken";
    pub reading_file = "Reading the picture…";
    pub keeping = "Keeping the photo…";
    pub stays = "It stays on this phone. Ask the patient first.";
}

/// Why the camera is not shown.
pub fn no_camera(why: NoCamera) -> &'static str {
    spoken(match why {
        NoCamera::Absent => {
            "No camera is open to this app here. Use the camera app, or go on without."
        }
        NoCamera::Refused => {
            "The camera was not allowed. Allow it in the browser’s settings, use the camera app, or \
             go on without."
        }
        NoCamera::Failed => {
            "The camera does not answer; another app may hold it. Use the camera app, or go on without."
        }
        NoCamera::Stopped => "The camera was stopped as the app left the screen.",
    })
}

/// The photo could not be kept.
pub fn not_kept(why: &Refusal) -> String {
    tr!(
        "The photo is not kept: {reason}. The look goes on without it.",
        reason = super::app::refusal(why)
    )
}

words! {
    pub not_read = "That picture could not be read. Take another, or go on without.";
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slip_is_asked_about_with_what_was_meant() {
        let reading = Reading::typed(Span::seconds(42));
        let asked = reading.doubt().map(|found| doubt(Side::Affected, reading, found));
        assert_eq!(asked.as_deref(), Some("Affected side, 42.0 s: unusual. 4.2 s meant?"));
    }

    #[test]
    fn one_reading_has_no_median() {
        let one = Summary {
            median: Span::millis(4_200),
            spread: Span::ZERO,
            count: 1,
            wanted: 2,
            off_guide: 0,
        };
        assert_eq!(summary(one), "4.2 s, one reading");
        let two = Summary { spread: Span::millis(300), count: 2, ..one };
        assert_eq!(summary(two), "Median 4.2 s, 0.3 s apart");
    }
}
