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
use crate::measure::{Date, Span, Volume};
use crate::ui::language::spoken;
use crate::ui::parts::CalendarWords;

words! {
    pub title = "Kit";
    pub add = "Add to the kit";
    pub where_label = "Where";
    pub everywhere = "All" as "places";

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
pub fn calendar() -> CalendarWords {
    const FILE: &str = "freshet-expiry.ics";
    CalendarWords {
        put: spoken("Put expiry dates into the phone’s calendar"),
        file: FILE,
        downloaded: spoken(
            "Downloaded. Open the file to add the dates, then check that the calendar shows them.",
        ),
        shared: spoken("Passed on. Check that the calendar shows the dates."),
        cancelled: spoken("Closed: nothing was put into the calendar."),
        refused: spoken("The browser did not take the file. Nothing is in the calendar."),
        nothing: spoken("No lot with an expiry to come: nothing to put there."),
    }
}

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
    spoken(match place {
        Place::Clinic => "Clinic",
        Place::Bag => "Bag",
    })
}

/// In a sentence: "3 in the clinic".
pub fn in_place(place: Place) -> &'static str {
    spoken(match place {
        Place::Clinic => "in the clinic",
        Place::Bag => "in the bag",
    })
}

/// Where things are carried to.
pub fn into_place(place: Place) -> &'static str {
    spoken(match place {
        Place::Clinic => "To the clinic",
        Place::Bag => "To the bag",
    })
}

pub fn kind(kind: Kind) -> &'static str {
    spoken(match kind {
        Kind::Hyaluronidase => "Hyaluronidase",
        Kind::Diluent => "Diluent",
        Kind::Syringe => "Syringes",
        Kind::Needle => "Needles",
        Kind::Adrenaline => "Adrenaline",
        Kind::Aspirin => "Aspirin",
    })
}

/// What a thing is, within the list of its kind.
pub fn article(article: Article) -> String {
    match article {
        Article::Hyaluronidase { units, species } => {
            format!("{} · {}", numbers::units_named(units), species_of(species))
        }
        Article::Diluent { diluent, holds } => {
            format!("{} · {}", dilution::diluent(diluent), holding(holds))
        }
        Article::Syringe { holds } => holding(holds),
        Article::Needle => spoken("Needle").to_owned(),
        Article::Adrenaline => tr!("Ampoule · {strength}", strength = sheet::strength()),
        Article::Aspirin => spoken("Tablet").to_owned(),
    }
}

/// What a thing holds, as it is printed on it.
fn holding(volume: Volume) -> String {
    tr!("{amount} mL", amount = numbers::typed(&volume))
}

/// The species, which here stands without its question.
fn species_of(species: Species) -> &'static str {
    match species {
        Species::Unknown => spoken("Species not known"),
        known => allergy::species(known),
    }
}

/// What a thing is, wherever its kind is not said beside it.
pub fn article_full(of: Article) -> String {
    let article = article(of);
    match of {
        Article::Hyaluronidase { .. } => tr!("Hyaluronidase, {article}", article),
        Article::Syringe { .. } => tr!("Syringe, {article}", article),
        Article::Adrenaline => tr!("Adrenaline, {article}", article),
        Article::Diluent { .. } | Article::Needle => article,
        Article::Aspirin => spoken("Aspirin, tablet").to_owned(),
    }
}

/// Batch and last day, as far as they were noted.
pub fn printed(batch: &str, expiry: Option<Date>) -> String {
    let batch = batch_of(batch);
    match expiry {
        Some(last) => tr!("{batch} · use until {day}", batch, day = time::day(last)),
        None => batch,
    }
}

/// The batch alone.
pub fn batch_of(batch: &str) -> String {
    if batch.is_empty() {
        spoken("Batch not noted").to_owned()
    } else {
        tr!("Batch {batch}", batch)
    }
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
    if there.is_empty() { spoken("None left").to_owned() } else { there.join(", ") }
}

/// More were taken than had been counted.
pub fn short(count: u32) -> String {
    tr!("{count} more taken than was booked: count again", count)
}

/// The day after the last one has come.
pub fn expired(last: Date) -> String {
    tr!("Expired {day}", day = time::day(last))
}

/// So many days are left, today's not counted.
pub fn expires_in(days: u32) -> String {
    match days {
        0 => spoken("Last day of use is today").to_owned(),
        days => tr!(
            "Expires in {count} day" | "Expires in {count} days" % days,
            count = numbers::whole(days)
        ),
    }
}

/// A count that looks like a slip.
pub fn too_many(most: u32) -> String {
    tr!(
        "{most} at most, as this app proposes. Is it a slip? If not, enter it as several lots.",
        most
    )
}

/// A case in a list.
pub fn case(reference: &str) -> String {
    if reference.is_empty() { spoken("Case without a reference") } else { reference }.to_owned()
}

/// Vials that cases opened and did not note.
pub fn unnoted(count: usize) -> String {
    tr!(
        "{count} vial without a batch" | "{count} vials without a batch" % count,
        count = numbers::whole(count)
    )
}

/// Cases of which it is not known.
pub fn unnoted_unknown(count: usize) -> String {
    tr!(
        "{count} case put away by an earlier version: not looked through yet. Some are at each \
         start."
            | "{count} cases put away by an earlier version: not looked through yet. Some are \
               at each start."
                % count,
        count = numbers::whole(count)
    )
}

/// Fewer lie there.
pub fn only(there: u32, place: Place) -> String {
    tr!("Only {there} by the book. Count again first if more lie there.", there = lie(there, place))
}

/// What stands for the vials as long as nobody said otherwise.
pub fn wanted_usual(usual: u32) -> String {
    tr!(
        "{count} vial at hand is the clinic value. A number here goes before it, in this list only."
            | "{count} vials at hand is the clinic value. A number here goes before it, in this list \
               only."
                % usual,
        count = numbers::whole(usual)
    )
}

/// What the file for the calendar holds.
pub fn calendar_why(ahead: Span, near: Span) -> String {
    tr!(
        "Article and batch, {ahead} and {near} before and on the last day, in the morning. Nothing of a \
         patient. Do it again after each delivery: dates move and do not double. What is used up \
         stays in the calendar until you delete it there.",
        ahead = time::span(ahead),
        near = time::span(near)
    )
}

/// What a date in the calendar says.
pub fn calendar_line(of: Article, batch: &str, days: u32) -> String {
    let article = article_full(of);
    let what = if batch.is_empty() {
        tr!("{article}, batch not noted", article)
    } else {
        tr!("{article}, batch {batch}", article, batch)
    };
    match days {
        0 => tr!("Last day of use: {what}", what),
        days => format!("{}: {what}", expires_in(days)),
    }
}

/// The kit in a few words, on the start screen: vials in date, those that run out next and in how
/// many days, vials past their date, and whether other things are.
pub fn state(vials: u32, next: Option<(u32, u32)>, expired: u32, others: bool) -> String {
    let vials = numbers::vials(vials);
    match (expired, others, next) {
        (0, true, _) => tr!("{vials} · other things expired", vials),
        (0, false, Some((0, count))) => {
            tr!("{vials} · last day of {count} is today", vials, count)
        }
        (0, false, Some((days, count))) => format!("{vials} · {}", expire_in(count, days)),
        (0, false, None) => vials,
        (expired, ..) => tr!("{vials} in date · {expired} expired", vials, expired),
    }
}

/// So many vials run out in so many days.
fn expire_in(count: u32, days: u32) -> String {
    let days = tr!("{count} day" | "{count} days" % days, count = numbers::whole(days));
    tr!("{count} expires in {days}" | "{count} expire in {days}" % count, count, days)
}
