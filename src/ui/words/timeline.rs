//! What was recorded, in words: one line for each event, and more in small where there is more.

mod act;
mod found;

pub use found::refill;

use super::{anaphylaxis, numbers, outline, protocol, situation, time};
use crate::care::rounds::Refusal;
use crate::case::{Event, Fault, Overridden, Reference, StrikeReason};
use crate::kit::Vial;
use crate::measure::{Hash, Moment, Span};
use crate::protocol::Protocol;
use crate::ui::language::{spoken, within};
use std::fmt::Display;

/// What happened, and more of it in small where there is more.
pub fn event(event: &Event) -> (String, Option<String>) {
    let more =
        |text: String, detail: String| (text, Some(detail).filter(|detail| !detail.is_empty()));
    let line = |text: String| (text, None);
    match event {
        Event::Opened { reference, protocol } => more(
            tr!("Case opened: {reference}", reference = reference.as_str()),
            values_changed(protocol),
        ),
        Event::Kit(act) => super::kit::act(act),
        Event::Contacts(_) => line(tr!("The clinic set whom it calls")),
        Event::Values(_) => line(tr!("The clinic set its values")),
        Event::Renamed(reference) => {
            line(tr!("Reference changed to {reference}", reference = reference.as_str()))
        }
        Event::Found(found) => more(tr!("Findings"), found::findings(found)),
        Event::Way { urgency, aim } => {
            let aim = aim.map(situation::aim).unwrap_or_default();
            more(tr!("Way taken: {way}", way = situation::urgency(*urgency)), aim.to_owned())
        }
        Event::Asked(answers) => more(tr!("Allergy asked about"), found::asked(answers)),
        Event::Ready => {
            line(tr!("Ready for anaphylaxis: adrenaline within reach, somebody to call"))
        }
        Event::SkinTest(act) => act::skin_test(act),
        Event::Territory(skin) => more(
            tr!("Territory {area}", area = numbers::area_named(skin.area())),
            found::territory(skin),
        ),
        Event::Photo(photo) => more(
            tr!("Photo taken, kept on this phone only"),
            tr!(
                "{width} × {height} pixels",
                width = photo.extent.width,
                height = photo.extent.height
            ),
        ),
        Event::PhotoRemoved { why, .. } => {
            more(tr!("Photo deleted from this phone"), super::photos::removal(*why).to_owned())
        }
        Event::Lattice(lattice) => {
            line(tr!("Points in a {lattice} grid", lattice = within(outline::lattice(*lattice))))
        }
        Event::Filler { volume, dose } => more(
            tr!("Filler to take away: {volume}", volume = numbers::volume_named(*volume)),
            tr!("Dose chosen: {dose}", dose = numbers::units_named(*dose)),
        ),
        Event::Set(id, quantity) => line(tr!(
            "Set for this case: {value}, {quantity}",
            value = protocol::value(*id),
            quantity = numbers::quantity(*quantity)
        )),
        Event::Region(region) => line(tr!(
            "Adrenaline table for this case: {region}",
            region = anaphylaxis::region(*region)
        )),
        Event::Diluent(diluent) => more(tr!("Diluent"), super::dilution::diluent(*diluent)),
        Event::Preparation(plan) => act::preparation(plan),
        Event::Vial(vial) => more(vial_heading(vial), vial_words(vial)),
        Event::Drew(index) => line(drew(ordinal(*index))),
        Event::Checked { movement, by } => line(checked(ordinal(*movement), by)),
        Event::Round(act) => act::round(act),
        Event::Anaphylaxis(act) => line(tr!("Anaphylaxis: {act}", act = anaphylaxis::act(act))),
        Event::Noticed(flag) => more(tr!("Sign noticed"), situation::red_flag(*flag).to_owned()),
        Event::Adjunct(act) => (super::adjunct::act(act), super::adjunct::answers(act)),
        Event::Review(review) => super::followup::review(review),
        Event::TakenUp { look, reason } => super::followup::taken_up(look, reason),
        Event::Appointed(at) => line(tr!("To be seen again {when}", when = time::day_hour(*at))),
        Event::Override { what, reason } => more(
            tr!("Done otherwise: {what}", what = overridden(*what)),
            tr!("Why: {reason}", reason),
        ),
        Event::Note(text) => more(tr!("Note"), text.clone()),
        Event::ClockJumped(by) => line(clock_jumped(*by)),
        Event::Struck { entry, reason } => {
            more(tr!("Struck out: entry {entry}", entry = entry.short()), strike_reason(reason))
        }
        Event::Closed(outcome) => more(tr!("Case closed"), super::rounds::end(*outcome)),
    }
}

/// What an entry about a syringe was about, as its screens count.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// A movement of the plunger, from 1.
    Movement(usize),
    /// A finished syringe's label.
    Label,
}

/// An entry about a syringe, counted as its screens count.
pub fn movement(event: &Event, place: Place) -> Option<String> {
    match (event, place) {
        (Event::Drew(_), Place::Movement(place)) => Some(drew(place)),
        (Event::Drew(_), Place::Label) => Some(tr!("Label written")),
        (Event::Checked { by, .. }, Place::Movement(place)) => Some(checked(place, by)),
        (Event::Checked { by, .. }, Place::Label) => Some(tr!("Label checked by {by}", by)),
        _ => None,
    }
}

fn drew(place: impl Display) -> String {
    tr!("Movement {place} made", place)
}

fn checked(place: impl Display, by: &str) -> String {
    tr!("Movement {place} checked by {by}", place, by)
}

/// Movements are counted from 0 in the record and from 1 by people.
fn ordinal(index: u32) -> u32 {
    index.saturating_add(1)
}

/// Sentences of one line each.
fn sentences(parts: impl IntoIterator<Item = String>) -> String {
    parts.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(". ")
}

/// The values that a case was opened under, where they are not the defaults.
fn values_changed(protocol: &Protocol) -> String {
    let changed: Vec<String> = Protocol::table()
        .iter()
        .filter(|value| protocol.get(value.id) != value.default)
        .map(|value| {
            let now = numbers::quantity(protocol.get(value.id));
            format!("{} {now}", protocol::value(value.id))
        })
        .collect();
    let tables = tr!("Adrenaline table: {region}", region = anaphylaxis::region(protocol.region));
    if changed.is_empty() {
        format!("{tables}. {}", spoken("All values as supplied"))
    } else {
        let own = tr!("Clinic’s own values: {values}", values = changed.join("; "));
        format!("{tables}. {own}")
    }
}

fn vial_heading(vial: &Vial) -> String {
    if vial.solution.is_some() {
        tr!("Vial {number} of an earlier solution", number = vial.number)
    } else {
        tr!("Vial {number} in hand", number = vial.number)
    }
}

fn vial_words(vial: &Vial) -> String {
    sentences([
        numbers::units_named(vial.units),
        if vial.batch.is_empty() {
            tr!("Batch not noted")
        } else {
            tr!("Batch {batch}", batch = vial.batch)
        },
        vial.expiry.map_or_else(
            || tr!("Expiry not noted"),
            |expiry| tr!("Expires {day}", day = time::day(expiry)),
        ),
    ])
}

/// What the clinician did otherwise about.
pub fn overridden(what: Overridden) -> &'static str {
    spoken(match what {
        Overridden::Situation => "the way that the findings led to",
        Overridden::Allergy => "the way that the allergy answers led to",
        Overridden::Readiness => "readiness for a severe reaction",
        Overridden::SkinTest => "the skin test",
        Overridden::Expired => "a vial past its expiry",
        Overridden::Dose => "a dose outside the range in force",
        Overridden::Stop => "what forbids to inject now",
        Overridden::Proposal => "the proposal after a look",
    })
}

fn clock_jumped(by: i64) -> String {
    let span = time::span(Span::millis(by.unsigned_abs()));
    if by < 0 {
        tr!("The phone’s clock was set back by {span}", span)
    } else {
        tr!("The phone’s clock was set forward by {span}", span)
    }
}

/// Why an entry was struck out.
pub fn strike_reason(reason: &StrikeReason) -> String {
    match reason {
        StrikeReason::Slip => tr!("Tapped by mistake, taken back at once"),
        StrikeReason::Wrong(text) => tr!("It was not so: {text}", text),
    }
}

/// Striking out, with the entry that it struck.
pub fn struck_out(text: &str) -> String {
    tr!("Struck out: {text}", text)
}

/// Under an entry that was struck out.
pub fn struck(at: Moment, reason: &StrikeReason) -> String {
    tr!("Struck out {when}. {reason}", when = time::day_hour(at), reason = strike_reason(reason))
}

/// Under an entry that did not fit when it came.
pub fn refused(refusal: Refusal) -> String {
    let why = spoken(match refusal {
        Refusal::Over => "the treatment was over",
        Refusal::RoundRuns => "a round was running",
        Refusal::NoRound => "no round was running",
        Refusal::NoSuchPoint => "the round has no such point",
        Refusal::PointSettled => "the point was settled already",
        Refusal::NoPoints => "the round has no points",
        Refusal::GridDiffers => "the grid has another number of points than the plan",
    });
    tr!("Not counted: {why}", why)
}

/// The chain is whole: how many entries, and the digest that stands for all of them.
pub fn whole(entries: usize, head: Option<Hash>) -> String {
    let count = numbers::whole(entries);
    match head {
        Some(head) => tr!(
            "Chain whole: {count} entry, last digest {digest}."
                | "Chain whole: {count} entries, last digest {digest}." % entries,
            count,
            digest = head.short()
        ),
        None => {
            tr!("Chain whole: {count} entry." | "Chain whole: {count} entries." % entries, count)
        }
    }
}

/// What is wrong with the chain.
pub fn fault(fault: &Fault) -> String {
    match fault {
        Fault::Missing { seq } => tr!("Entry {place} is missing.", place = ordinal(*seq)),
        Fault::BrokenChain { seq } => {
            tr!("Entry {place} does not follow from the one before it.", place = ordinal(*seq))
        }
        Fault::Fork { seq, set_aside } => tr!(
            "Two entries claim place {place}; {set_aside} is set aside.",
            place = ordinal(*seq),
            set_aside = set_aside.short()
        ),
    }
}

/// Where an entry stands.
pub fn place(seq: u32, of: usize, id: Hash) -> String {
    tr!("Entry {place} of {of}, digest {digest}", place = ordinal(seq), of, digest = id.short())
}

words! {
    /// What is still to be minded before a case is closed.
    pub running = "A round is running. Closing ends it with what was injected so far.";
    pub reacting = "A severe reaction is recorded and not yet over.";

    pub record = "The record";
    pub record_of = "Every entry, with its time. Tap one to see it whole or strike it out.";
    pub on = "Go on with the case";
    pub note = "Add a note";
    pub note_text = "What happened";
    pub note_hint = "No names, no dates of birth: the record carries only your reference.";
    pub note_wanted = "Write something first.";
    pub keep = "Write it into the record";
    pub save = "Save as a file";
    pub more = "This case";
    pub hand_over_detail = "To be read out or shared with who takes over";
    pub rename = "Change the reference";
    pub rename_detail = "Your clinic’s own, never a name";
    pub rename_warning = "Never a name, a date of birth or anything else that says who it is. Your clinic’s own list ties \
         the reference to the patient.";
    pub close = "Close the case";
    pub close_detail = "A closed case stays closed";
    pub close_warning = "A closed case stays closed. Notes can still be added, entries struck out and the patient seen \
         again.";
    pub closed = "Closed";
    pub ended = "How did it end?";
    pub done = "Done";
    pub handed_over = "Handed over";
    pub stopped = "Stopped before it was done";
    pub handed_over_why = "Handed over for";
    pub ended_wanted = "Choose how it ended.";
    pub reopen = "Closed by mistake";
    pub reopen_detail = "Open the case again; that it was closed stays readable";
    pub entry = "Entry";
    pub strike = "Strike it out";
    pub strike_why = "What was wrong, and how it was";
    pub strike_wanted = "Write what was wrong: it goes into the record.";
    pub strike_hint = "Nothing is deleted. It stays readable, crossed out, and no longer counts. What follows from it is \
         worked out anew, so the case may stand at an earlier step.";
    pub trouble = "The chain of this record is not whole";
    pub trouble_why = "What can be read is shown and used. Save the case as a file, so that nothing more is lost.";

    /// Why an entry cannot be struck out.
    pub kept_beginning = "The beginning of a case cannot be struck out: it holds the values that the case runs under.";
    pub kept_strike = "Striking out cannot be undone. If the entry was right after all, write so in a note.";
    pub kept_end = "A closed case stays closed. Open a new case to treat again.";
    pub kept_deleted = "The photo is gone from this phone. Striking this out would not bring it back.";
    pub kept_phone = "The phone wrote this by itself. It stays, so that times can be judged.";
    pub kept_struck = "It is struck out already.";
}

/// How long a reference may be.
pub fn reference_wanted() -> String {
    tr!("Between 1 and {longest} characters.", longest = Reference::LONGEST)
}

const FILE: &str = "freshet-case-";
const ENDING: &str = ".txt";

/// The file of one case.
pub fn file_name(case: &str) -> String {
    format!("{FILE}{case}{ENDING}")
}

/// The heading over today's entries.
pub fn today(date: crate::measure::Date) -> String {
    tr!("Today, {day}", day = time::day(date))
}
