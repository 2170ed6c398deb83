//! Step 4: one movement after the other, the label, what went wrong.

use super::{kit, numbers, time};
use crate::care::dilution::Contents;
use crate::kit::{ExpiryMisread, Shelf, Vial};
use crate::measure::{Date, Moment, Volume};
use crate::protocol::potency;
use crate::ui::parts::Finding;

pub const IN_SYRINGE: &str = "In the syringe";
pub const IN_VIAL: &str = "In the vial";
pub const STRENGTH_NOW: &str = "Strength now";
pub const ONLY_DILUENT: &str = "no enzyme yet";
pub const UNITS: &str = "units";
pub const ML: &str = "mL";
pub const UNITS_PER_ML: &str = "units/mL";

pub const CHECK: &str = "Second check";
pub const CHECK_ASKS: &str = "Look at the syringe, the mark and the vial yourself, then sign.";
pub const INITIALS: &str = "Initials of who checks";
pub const INITIALS_WANTED: &str = "Type the initials.";
pub const CHECKED: &str = "I have checked it";

pub const BATCH: &str = "Batch";
pub const BATCH_HINT: &str = "As printed on the vial.";
pub const EXPIRY: &str = "Expiry";
pub const EXPIRY_HINT: &str = "Year-month, or day.month.year. The year in four digits.";
pub const NOTHING_NOTED: &str = "Type the batch, the expiry or both.";
pub const NOTE_IT: &str = "Note it";
pub const NOTE_LATER: &str = "Note it now or later: after the hours, and in a closed case too. Until then the kit counts it \
     as still there.";
pub const VIALS: &str = "Vials of this case";
pub const ALL_NOTED: &str = "Every vial that was opened is noted.";
pub const TO_RECORD: &str = "To the record";
pub const ANOTHER_TYPED: &str = "Another, typed";
pub const EXPIRED_IN_KIT: &str = "Past their last day: look for others first.";
pub const ANOTHER_VIAL: &str = "Note another vial";
pub const USE_EXPIRED: &str = "Use it all the same";

pub const NOT_WHAT_I_HAVE: &str = "Not what I have";
pub const INJECT_FIRST: &str = "Inject the one that is ready";
pub const LOOK_BACK: &str = "Look at the one before";
pub const DONE: &str = "Done";
pub const ONWARD: &str = "Back to where it stands";
pub const TAKE_BACK: &str = "It was not so: take it back";

pub const LABELLED: &str = "Labelled, put aside";
pub const WRITE_LABEL: &str = "Write its label";
pub const DRUG: &str = "Hyaluronidase";
pub const VOLUME: &str = "Volume";
pub const IN_ALL: &str = "In all";
pub const NOT_NOTED: &str = "not noted";
pub const MADE_AT: &str = "Made at";
pub const MADE_BY: &str = "Made by";
pub const SIGN_HERE: &str = "initials";
pub const USE: &str = "Use";
pub const AT_ONCE: &str = "at once";
pub const WHY_AT_ONCE: &str = "Why at once";
pub const DISCARD: &str = "What is not used now is thrown away, not kept for the next round.";
pub const ALL_READY: &str = "All syringes ready";
pub const TO_ROUNDS: &str = "Inject";

pub const NOTHING_TO_MAKE: &str = "Nothing to make yet";
pub const CHOOSE_FIRST: &str = "The strength is chosen at the step before this one.";
pub const TO_STRENGTH: &str = "To the strength";

/// The line above a movement.
pub fn place(movement: usize, movements: usize, syringe: u32, syringes: usize) -> String {
    let syringe =
        if syringes > 1 { format!(" · syringe {syringe} of {syringes}") } else { String::new() };
    format!("Movement {movement} of {movements}{syringe}")
}

/// The line above a label.
pub fn ready(syringe: u32, syringes: usize) -> String {
    if syringes > 1 {
        format!("Syringe {syringe} of {syringes} is ready")
    } else {
        "The syringe is ready".into()
    }
}

/// A syringe in a list of those that are ready.
pub fn syringe(number: usize) -> String {
    format!("Syringe {number}")
}

/// What is in a finished syringe.
pub fn contents(contents: Contents) -> String {
    format!("{}, {}", numbers::volume_named(contents.volume), numbers::units_named(contents.units))
}

/// The syringe as a screen reader says it.
pub fn picture(capacity: Volume, plunger: Volume, aim: Option<Volume>) -> String {
    let size = format!("{capacity} mL syringe");
    match aim {
        Some(aim) => format!("{size}, plunger to stand at {}", numbers::volume_named(aim)),
        None => format!("{size}, plunger at {}", numbers::volume_named(plunger)),
    }
}

/// A vial as a screen reader says it.
pub fn vial_picture(before: Volume, after: Volume) -> String {
    format!(
        "Vial, {} before, {} after",
        numbers::volume_named(before),
        numbers::volume_named(after)
    )
}

/// The button that opens a vial's notes.
pub fn vial_notes(number: u32) -> String {
    format!("Vial {number}: batch")
}

/// The same, once noted.
pub fn vial_noted(number: u32, batch: &str) -> String {
    if batch.is_empty() {
        format!("Vial {number}: noted")
    } else {
        format!("Vial {number}: {batch}")
    }
}

/// The heading of a vial's notes.
pub fn vial(number: u32) -> String {
    format!("Vial {number}")
}

/// A vial like an earlier one, from the same place.
pub fn same_as(vial: &Vial) -> String {
    let from = vial.from.map(|from| format!(", {}", kit::place(from.place).to_lowercase()));
    format!("The same as vial {}{}", vial.number, from.unwrap_or_default())
}

/// An expired vial.
pub fn expired(number: u32, last: Date) -> String {
    format!("Vial {number} expired on {}. Take another and note it.", time::day(last))
}

/// The same, as what speaks against it.
pub fn expired_short(last: Date) -> String {
    format!("The vial expired on {}.", time::day(last))
}

/// A shelf of the kit: what it is, and its batch.
pub fn shelf(shelf: &Shelf) -> String {
    format!("{} · {}", numbers::units_named(shelf.units), kit::batch_of(&shelf.batch))
}

/// Its last day and where it lies.
pub fn shelf_detail(shelf: &Shelf) -> String {
    let last = match shelf.expiry {
        Some(last) if shelf.expired => kit::expired(last),
        Some(last) => format!("Use until {}", time::day(last)),
        None => "Expiry not noted".to_owned(),
    };
    format!("{last} · {}", kit::place(shelf.from.place))
}

/// How many are left there.
pub fn shelf_left(count: u32) -> String {
    format!("{count} left")
}

/// Vials opened of which nothing is noted.
pub fn unnoted(count: usize) -> String {
    let count = u32::try_from(count).unwrap_or(u32::MAX);
    format!("{} of this case without a batch", numbers::count(count, "vial", "vials"))
}

/// Which solution: the last, or one made before it.
pub fn solution(before: Option<Moment>) -> String {
    before.map_or_else(
        || "Of the solution made last".to_owned(),
        |at| format!("Of the solution of {}", time::day_hour(at)),
    )
}

/// Who checked.
pub fn checked_by(by: &str) -> String {
    format!("Checked by {by}")
}

/// When a movement was made.
pub fn done_at(at: Option<Moment>) -> String {
    at.map_or_else(|| DONE.to_owned(), |at| format!("{DONE} at {}", time::hour(at)))
}

/// Why an expiry could not be read.
pub const fn misread(misread: ExpiryMisread) -> &'static str {
    match misread {
        ExpiryMisread::Form => {
            "Type year and month, or day, month and year, the year in four digits."
        }
        ExpiryMisread::NoSuchDay => "There is no such day.",
        ExpiryMisread::Ambiguous => "Which is the month? Type year-month-day.",
    }
}

/// The handbook behind the losses, as far as it is known.
const LOSS_SOURCE: &str = "An injectable-drugs handbook, in an excerpt";
const SECOND_HAND: &str = "Second hand";

/// How activity fades once dissolved.
pub fn losses() -> Vec<Finding> {
    potency::LOSS
        .iter()
        .map(|(after, least, most)| Finding {
            figure: format!(
                "{} to {} lost",
                numbers::per_mille(u64::from(least.0)),
                numbers::per_mille(u64::from(most.0))
            ),
            setting: format!("{} after dilution", time::span(*after)),
            citation: LOSS_SOURCE.to_owned(),
            status: SECOND_HAND.to_owned(),
        })
        .collect()
}

/// Where the rule to use it at once is from.
pub fn at_once() -> String {
    super::protocol::citation(potency::USE_AT_ONCE)
}

/// Several movements are taken back with one.
pub fn taken_back(count: usize) -> String {
    let count = u32::try_from(count).unwrap_or(u32::MAX);
    format!(
        "This takes back {}: those after it stood on it.",
        numbers::count(count, "movement", "movements")
    )
}

/// Batches of the vials, for a label.
pub fn batches(noted: &[String]) -> String {
    if noted.is_empty() { NOT_NOTED.to_owned() } else { noted.join(", ") }
}
