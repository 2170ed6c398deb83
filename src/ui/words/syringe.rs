//! Step 4: one movement after the other, the label, what went wrong.

use super::{kit, numbers, time};
use crate::care::dilution::Contents;
use crate::kit::{ExpiryMisread, Shelf, Vial};
use crate::measure::{Date, Moment, Volume};
use crate::protocol::potency;
use crate::ui::language::{spoken, within};
use crate::ui::parts::Finding;

words! {
    pub in_syringe = "In the syringe";
    pub in_vial = "In the vial";
    pub strength_now = "Strength now";
    pub only_diluent = "no enzyme yet";
    pub units = "units";
    pub ml = "mL";
    pub units_per_ml = "units/mL";

    pub check = "Second check";
    pub check_asks = "Look at the syringe, the mark and the vial yourself, then sign.";
    pub initials = "Initials of who checks";
    pub initials_wanted = "Type the initials.";
    pub checked = "I have checked it";

    pub batch = "Batch";
    pub batch_hint = "As printed on the vial.";
    pub expiry = "Expiry";
    pub expiry_hint = "Year-month, or day.month.year. The year in four digits.";
    pub nothing_noted = "Type the batch, the expiry or both.";
    pub note_it = "Note it";
    pub note_later = "Note it now or later: after the hours, and in a closed case too. Until then the kit counts it \
         as still there.";
    pub vials = "Vials of this case";
    pub all_noted = "Every vial that was opened is noted.";
    pub to_record = "To the record";
    pub another_typed = "Another, typed";
    pub expired_in_kit = "Past their last day: look for others first.";
    pub another_vial = "Note another vial";
    pub use_expired = "Use it all the same";

    pub not_what_i_have = "Not what I have";
    pub inject_first = "Inject the one that is ready";
    pub look_back = "Look at the one before";
    pub done = "Done";
    pub onward = "Back to where it stands";
    pub take_back = "It was not so: take it back";

    pub labelled = "Labelled, put aside";
    pub write_label = "Write its label";
    pub drug = "Hyaluronidase";
    pub volume = "Volume";
    pub in_all = "In all";
    pub not_noted = "not noted";
    pub made_at = "Made at";
    pub made_by = "Made by";
    pub sign_here = "initials";
    pub use_label = "Use";
    pub at_once_label = "at once";
    pub why_at_once = "Why at once";
    pub discard = "What is not used now is thrown away, not kept for the next round.";
    pub all_ready = "All syringes ready";
    pub to_rounds = "Inject";

    pub nothing_to_make = "Nothing to make yet";
    pub choose_first = "The strength is chosen at the step before this one.";
    pub to_strength = "To the strength";
}

/// The line above a movement.
pub fn place(movement: usize, movements: usize, syringe: u32, syringes: usize) -> String {
    let movement = tr!("Movement {movement} of {movements}", movement, movements);
    if syringes > 1 {
        format!("{movement} · {}", tr!("syringe {syringe} of {syringes}", syringe, syringes))
    } else {
        movement
    }
}

/// The line above a label.
pub fn ready(syringe: u32, syringes: usize) -> String {
    if syringes > 1 {
        tr!("Syringe {syringe} of {syringes} is ready", syringe, syringes)
    } else {
        tr!("The syringe is ready")
    }
}

/// A syringe in a list of those that are ready.
pub fn syringe(number: usize) -> String {
    tr!("Syringe {number}", number)
}

/// What is in a finished syringe.
pub fn contents(contents: Contents) -> String {
    format!("{}, {}", numbers::volume_named(contents.volume), numbers::units_named(contents.units))
}

/// The syringe as a screen reader says it.
pub fn picture(capacity: Volume, plunger: Volume, aim: Option<Volume>) -> String {
    let capacity = numbers::typed(&capacity);
    match aim {
        Some(aim) => tr!(
            "{capacity} mL syringe, plunger to stand at {mark}",
            capacity,
            mark = numbers::volume_named(aim)
        ),
        None => tr!(
            "{capacity} mL syringe, plunger at {mark}",
            capacity,
            mark = numbers::volume_named(plunger)
        ),
    }
}

/// A vial as a screen reader says it.
pub fn vial_picture(before: Volume, after: Volume) -> String {
    tr!(
        "Vial, {before} before, {after} after",
        before = numbers::volume_named(before),
        after = numbers::volume_named(after)
    )
}

/// The button that opens a vial's notes.
pub fn vial_notes(number: u32) -> String {
    tr!("Vial {number}: batch", number)
}

/// The same, once noted.
pub fn vial_noted(number: u32, batch: &str) -> String {
    if batch.is_empty() {
        tr!("Vial {number}: noted", number)
    } else {
        tr!("Vial {number}: {batch}", number, batch)
    }
}

/// The heading of a vial's notes.
pub fn vial(number: u32) -> String {
    tr!("Vial {number}", number)
}

/// A vial like an earlier one, from the same place.
pub fn same_as(vial: &Vial) -> String {
    let same = tr!("The same as vial {number}", number = vial.number);
    match vial.from {
        Some(from) => format!("{same}, {}", within(kit::place(from.place))),
        None => same,
    }
}

/// An expired vial.
pub fn expired(number: u32, last: Date) -> String {
    tr!("Vial {number} expired on {day}. Take another and note it.", number, day = time::day(last))
}

/// The same, as what speaks against it.
pub fn expired_short(last: Date) -> String {
    tr!("The vial expired on {day}.", day = time::day(last))
}

/// A shelf of the kit: what it is, and its batch.
pub fn shelf(shelf: &Shelf) -> String {
    format!("{} · {}", numbers::units_named(shelf.units), kit::batch_of(&shelf.batch))
}

/// Its last day and where it lies.
pub fn shelf_detail(shelf: &Shelf) -> String {
    let last = match shelf.expiry {
        Some(last) if shelf.expired => kit::expired(last),
        Some(last) => tr!("Use until {day}", day = time::day(last)),
        None => tr!("Expiry not noted"),
    };
    format!("{last} · {}", kit::place(shelf.from.place))
}

/// How many are left there.
pub fn shelf_left(count: u32) -> String {
    tr!("{count} left", count)
}

/// Vials opened of which nothing is noted.
pub fn unnoted(count: usize) -> String {
    tr!(
        "{count} vial of this case without a batch"
            | "{count} vials of this case without a batch" % count,
        count = numbers::whole(count)
    )
}

/// Which solution: the last, or one made before it.
pub fn solution(before: Option<Moment>) -> String {
    before.map_or_else(
        || tr!("Of the solution made last"),
        |at| tr!("Of the solution of {when}", when = time::day_hour(at)),
    )
}

/// Who checked.
pub fn checked_by(by: &str) -> String {
    tr!("Checked by {by}", by)
}

/// When a movement was made.
pub fn done_at(at: Option<Moment>) -> String {
    at.map_or_else(|| done().to_owned(), |at| tr!("Done at {hour}", hour = time::hour(at)))
}

/// Why an expiry could not be read.
pub fn misread(misread: ExpiryMisread) -> &'static str {
    spoken(match misread {
        ExpiryMisread::Form => {
            "Type year and month, or day, month and year, the year in four digits."
        }
        ExpiryMisread::NoSuchDay => "There is no such day.",
        ExpiryMisread::Ambiguous => "Which is the month? Type year-month-day.",
    })
}

words! {
    /// The handbook behind the losses, as far as it is known.
    loss_source = "An injectable-drugs handbook, in an excerpt";
    second_hand = "Second hand";
}

/// How activity fades once dissolved.
pub fn losses() -> Vec<Finding> {
    potency::LOSS
        .iter()
        .map(|(after, least, most)| Finding {
            figure: tr!(
                "{least} to {most} lost",
                least = numbers::per_mille(u64::from(least.0)),
                most = numbers::per_mille(u64::from(most.0))
            ),
            setting: tr!("{span} after dilution", span = time::span(*after)),
            citation: loss_source().to_owned(),
            status: second_hand().to_owned(),
        })
        .collect()
}

/// Where the rule to use it at once is from.
pub fn at_once() -> String {
    super::protocol::citation(potency::USE_AT_ONCE)
}

/// Several movements are taken back with one.
pub fn taken_back(count: usize) -> String {
    tr!(
        "This takes back {count} movement: those after it stood on it."
            | "This takes back {count} movements: those after it stood on it." % count,
        count = numbers::whole(count)
    )
}

/// Batches of the vials, for a label.
pub fn batches(noted: &[String]) -> String {
    if noted.is_empty() { not_noted().to_owned() } else { noted.join(", ") }
}
