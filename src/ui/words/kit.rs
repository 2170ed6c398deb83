//! The kit: what is at hand, what is missing, what runs out.

mod acts;
mod adding;
mod ready;

pub use acts::{act, act_of, discard};
pub use adding::*;
pub use ready::*;

use super::{allergy, dilution, numbers, sheet, time};
use crate::care::allergy::Species;
use crate::kit::{Article, Holding, Kind, Place};
use crate::measure::{Date, Span};
use crate::ui::parts::CalendarWords;

words! {
    pub title = "Kit";
    pub add = "Add to the kit";
    pub where_label = "Where";
    pub everywhere = "All";

    pub empty = "Nothing noted yet";
    pub empty_why = "Write down what lies in the clinic and in the bag for home visits: vials, diluent, syringes, \
         needles, adrenaline, aspirin. Then this page tells whether it would do for an occlusion, and \
         what runs out.";
    pub none_here = "Nothing is booked here. Choose “All” to see the rest.";

    pub used_up = "Used up";

    pub undated_lot = "Expiry not noted: does not count";

    pub lot = "Lot";
    pub count = "Count again";
    pub count_why = "What you count counts from now on, whatever was booked. Opened or broken ones do not count.";
    pub count_keep = "So many lie there";
    pub move_label = "Carry to the other place";
    pub move_keep = "Carried";
    pub nothing_there = "None is booked at either place.";
    pub throw_away = "Throw away";
    pub discard_why = "Why";
    pub discard_wanted = "Choose why.";
    pub discard_keep = "Thrown away";
    pub amend = "Put batch or expiry right";
    pub amend_why = "For a slip in typing. Another batch is a lot of its own: add it instead.";
    pub amend_keep = "So it is printed";
    pub amend_same = "It says so already.";
    pub how_many = "How many";
    pub how_many_wanted = "Type how many.";
    pub history = "What happened to it";
    pub cases = "Cases with this batch";
    pub cases_detail = "When a batch is recalled, they are sought here";
    pub entry = "Entry";
    pub strike_hint = "Nothing is deleted. It stays readable, crossed out, and no longer \
         counts; what is left is worked out anew.";
    pub received_hint = "This entry brought the lot in: struck out, the lot is gone from \
         the kit with all that happened to it. Cases keep what they noted.";

    pub record = "The kit’s record";
    pub record_why = "Every entry, with its time. Tap one to see it whole or strike it \
         out. What cases took stands in their own records.";
    pub record_none = "No entry yet.";

    pub unnoted_label = "Opened in cases, not noted";
    pub unnoted_why = "What a case opened and did not note is not taken off the kit. Note \
        it there, or count again here.";

    pub wanted = "What the clinic wants to hold";
    pub wanted_detail = "So that this page tells what is missing";
    pub wanted_none = "Nobody said";
    pub wanted_usual_label = "From the clinic’s values";
    pub wanted_hint = "At both places together. None is a number too: 0.";
    pub wanted_keep = "Keep it";
    pub wanted_same = "It is so already.";
}

/// Putting expiry dates into the calendar.
pub static CALENDAR: CalendarWords = CalendarWords {
    put: "Put expiry dates into the phone’s calendar",
    file: "freshet-expiry.ics",
    downloaded: "Downloaded. Open the file to add the dates, then check that the calendar shows \
                 them.",
    shared: "Passed on. Check that the calendar shows the dates.",
    cancelled: "Closed: nothing was put into the calendar.",
    refused: "The browser did not take the file. Nothing is in the calendar.",
    nothing: "No lot with an expiry to come: nothing to put there.",
};
words! {
    pub calendar_notes = "Open Freshet, look at the kit.";

    pub added = "In the kit.";
    pub counted = "Counted.";
    pub moved = "Carried.";
    pub discarded = "Noted as thrown away.";
    pub amended = "Put right.";
    pub struck = "Struck out.";
    pub wanted_kept = "Kept.";
}

pub fn place(place: Place) -> &'static str {
    match place {
        Place::Clinic => "Clinic",
        Place::Bag => "Bag",
    }
}

/// In a sentence: "3 in the clinic".
pub fn in_place(place: Place) -> &'static str {
    match place {
        Place::Clinic => "in the clinic",
        Place::Bag => "in the bag",
    }
}

/// Where things are carried to.
pub fn into_place(place: Place) -> &'static str {
    match place {
        Place::Clinic => "To the clinic",
        Place::Bag => "To the bag",
    }
}

pub fn kind(kind: Kind) -> &'static str {
    match kind {
        Kind::Hyaluronidase => "Hyaluronidase",
        Kind::Diluent => "Diluent",
        Kind::Syringe => "Syringes",
        Kind::Needle => "Needles",
        Kind::Adrenaline => "Adrenaline",
        Kind::Aspirin => "Aspirin",
    }
}

/// What a thing is, within the list of its kind.
pub fn article(article: Article) -> String {
    match article {
        Article::Hyaluronidase { units, species } => {
            format!("{} · {}", numbers::units_named(units), species_of(species))
        }
        Article::Diluent { diluent, holds } => {
            format!("{} · {holds} mL", dilution::diluent(diluent))
        }
        Article::Syringe { holds } => format!("{holds} mL"),
        Article::Needle => "Needle".into(),
        Article::Adrenaline => format!("Ampoule · {}", sheet::strength()),
        Article::Aspirin => "Tablet".into(),
    }
}

/// The species, which here stands without its question.
fn species_of(species: Species) -> String {
    match species {
        Species::Unknown => "Species not known".into(),
        known => allergy::species(known).to_owned(),
    }
}

/// What a thing is, wherever its kind is not said beside it.
pub fn article_full(of: Article) -> String {
    match of {
        Article::Hyaluronidase { .. } => format!("Hyaluronidase, {}", article(of)),
        Article::Syringe { .. } => format!("Syringe, {}", article(of)),
        Article::Adrenaline => format!("Adrenaline, {}", article(of)),
        Article::Diluent { .. } | Article::Needle => article(of),
        Article::Aspirin => "Aspirin, tablet".into(),
    }
}

/// Batch and last day, as far as they were noted.
pub fn printed(batch: &str, expiry: Option<Date>) -> String {
    let batch = batch_of(batch);
    match expiry {
        Some(last) => format!("{batch} · use until {}", time::day(last)),
        None => batch,
    }
}

/// The batch alone.
pub fn batch_of(batch: &str) -> String {
    if batch.is_empty() { "Batch not noted".to_owned() } else { format!("Batch {batch}") }
}

/// How many lie where.
pub fn lie(count: u32, place: Place) -> String {
    format!("{count} {}", in_place(place))
}

/// How many lie at both places: "3 in the clinic, 1 in the bag".
pub fn left(holding: &Holding) -> String {
    let there: Vec<String> = Place::ALL
        .into_iter()
        .filter(|place| holding.at(*place) > 0)
        .map(|place| lie(holding.at(place), place))
        .collect();
    if there.is_empty() { "None left".into() } else { there.join(", ") }
}

/// More were taken than had been counted.
pub fn short(count: u32) -> String {
    format!("{count} more taken than was booked: count again")
}

/// The day after the last one has come.
pub fn expired(last: Date) -> String {
    format!("Expired {}", time::day(last))
}

/// So many days are left, today's not counted.
pub fn expires_in(days: u32) -> String {
    match days {
        0 => "Last day of use is today".into(),
        days => format!("Expires in {}", numbers::count(days, "day", "days")),
    }
}

/// A count that looks like a slip.
pub fn too_many(most: u32) -> String {
    format!("{most} at most, as this app proposes. Is it a slip? If not, enter it as several lots.")
}

/// A case in a list.
pub fn case(reference: &str) -> String {
    if reference.is_empty() { "Case without a reference".into() } else { reference.to_owned() }
}

/// Vials that cases opened and did not note.
pub fn unnoted(count: usize) -> String {
    let count = u32::try_from(count).unwrap_or(u32::MAX);
    format!("{} without a batch", numbers::count(count, "vial", "vials"))
}

/// Cases of which it is not known.
pub fn unnoted_unknown(count: usize) -> String {
    let count = u32::try_from(count).unwrap_or(u32::MAX);
    format!(
        "{} put away by an earlier version: not looked through yet. Some are at each start.",
        numbers::count(count, "case", "cases")
    )
}

/// Fewer lie there.
pub fn only(there: u32, place: Place) -> String {
    format!("Only {} by the book. Count again first if more lie there.", lie(there, place))
}

/// What stands for the vials as long as nobody said otherwise.
pub fn wanted_usual(usual: u32) -> String {
    format!(
        "{} at hand is the clinic value. A number here goes before it, in this list only.",
        numbers::count(usual, "vial", "vials")
    )
}

/// What the file for the calendar holds.
pub fn calendar_why(ahead: Span, near: Span) -> String {
    format!(
        "Article and batch, {} and {} before and on the last day, in the morning. Nothing of a \
         patient. Do it again after each delivery: dates move and do not double. What is used up \
         stays in the calendar until you delete it there.",
        time::span(ahead),
        time::span(near)
    )
}

/// What a date in the calendar says.
pub fn calendar_line(of: Article, batch: &str, days: u32) -> String {
    let batch = if batch.is_empty() { "not noted" } else { batch };
    let what = format!("{}, batch {batch}", article_full(of));
    match days {
        0 => format!("Last day of use: {what}"),
        days => format!("{}: {what}", expires_in(days)),
    }
}

/// The kit in a few words, on the start screen: vials in date, those that run out next and in how
/// many days, vials past their date, and whether other things are.
pub fn state(vials: u32, next: Option<(u32, u32)>, expired: u32, others: bool) -> String {
    let vials = numbers::count(vials, "vial", "vials");
    match (expired, others, next) {
        (0, true, _) => format!("{vials} · other things expired"),
        (0, false, Some((0, count))) => format!("{vials} · last day of {count} is today"),
        (0, false, Some((days, count))) => {
            let expire = if count == 1 { "expires" } else { "expire" };
            format!("{vials} · {count} {expire} in {}", numbers::count(days, "day", "days"))
        }
        (0, false, None) => vials,
        (expired, ..) => format!("{vials} in date · {expired} expired"),
    }
}
