//! What was recorded, in words: one line for each event, and more in small where there is more.

mod act;

use super::{allergy, anaphylaxis, numbers, outline, protocol, situation, time};
use crate::care::allergy::{Answer, Answers};
use crate::care::refill::Refill;
use crate::care::rounds::Refusal;
use crate::care::situation::Findings;
use crate::care::territory::{Size, Territory};
use crate::case::{Event, Fault, Overridden, Reference, StrikeReason};
use crate::kit::Vial;
use crate::measure::{Hash, Moment, Span};
use crate::protocol::Protocol;

/// What happened, and more of it in small where there is more.
pub fn event(event: &Event) -> (String, Option<String>) {
    let more = |text: &str, detail: String| {
        (text.to_owned(), Some(detail).filter(|detail| !detail.is_empty()))
    };
    let line = |text: String| (text, None);
    match event {
        Event::Opened { reference, protocol } => {
            more(&format!("Case opened: {}", reference.as_str()), values_changed(protocol))
        }
        Event::Kit(act) => super::kit::act(act),
        Event::Contacts(_) => line("The clinic set whom it calls".into()),
        Event::Values(_) => line("The clinic set its values".into()),
        Event::Renamed(reference) => line(format!("Reference changed to {}", reference.as_str())),
        Event::Found(found) => more("Findings", findings(found)),
        Event::Way { urgency, aim } => {
            let aim = aim.map(situation::aim).unwrap_or_default();
            more(&format!("Way taken: {}", situation::urgency(*urgency)), aim.to_owned())
        }
        Event::Asked(answers) => more("Allergy asked about", asked(answers)),
        Event::Ready => {
            line("Ready for anaphylaxis: adrenaline within reach, somebody to call".into())
        }
        Event::SkinTest(act) => act::skin_test(act),
        Event::Territory(skin) => {
            more(&format!("Territory {}", numbers::area_named(skin.area())), territory(skin))
        }
        Event::Photo(photo) => more(
            "Photo taken, kept on this phone only",
            format!("{} × {} pixels", photo.extent.width, photo.extent.height),
        ),
        Event::PhotoRemoved { why, .. } => {
            more("Photo deleted from this phone", super::photos::removal(*why).to_owned())
        }
        Event::Lattice(lattice) => {
            line(format!("Points in a {} grid", outline::lattice(*lattice).to_ascii_lowercase()))
        }
        Event::Filler { volume, dose } => more(
            &format!("Filler to take away: {}", numbers::volume_named(*volume)),
            format!("Dose chosen: {}", numbers::units_named(*dose)),
        ),
        Event::Set(id, quantity) => line(format!(
            "Set for this case: {}, {}",
            protocol::value(*id),
            numbers::quantity(*quantity)
        )),
        Event::Region(region) => {
            line(format!("Adrenaline table for this case: {}", anaphylaxis::region(*region)))
        }
        Event::Diluent(diluent) => more("Diluent", super::dilution::diluent(*diluent)),
        Event::Preparation(plan) => act::preparation(plan),
        Event::Vial(vial) => more(&vial_heading(vial), vial_words(vial)),
        Event::Drew(index) => line(format!("Movement {} made", ordinal(*index))),
        Event::Checked { movement, by } => {
            line(format!("Movement {} checked by {by}", ordinal(*movement)))
        }
        Event::Round(act) => act::round(act),
        Event::Anaphylaxis(act) => line(format!("Anaphylaxis: {}", anaphylaxis::act(act))),
        Event::Noticed(flag) => more("Sign noticed", situation::red_flag(*flag).to_owned()),
        Event::Adjunct(act) => (super::adjunct::act(act), super::adjunct::answers(act)),
        Event::Review(review) => super::followup::review(review),
        Event::TakenUp { look, reason } => super::followup::taken_up(look, reason),
        Event::Appointed(at) => line(format!("To be seen again {}", time::day_hour(*at))),
        Event::Override { what, reason } => {
            more(&format!("Done otherwise: {}", overridden(*what)), format!("Why: {reason}"))
        }
        Event::Note(text) => more("Note", text.clone()),
        Event::ClockJumped(by) => line(clock_jumped(*by)),
        Event::Struck { entry, reason } => {
            more(&format!("Struck out: entry {}", entry.short()), strike_reason(reason))
        }
        Event::Closed(outcome) => more("Case closed", super::rounds::end(*outcome)),
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
        (Event::Drew(_), Place::Movement(place)) => Some(format!("Movement {place} made")),
        (Event::Drew(_), Place::Label) => Some("Label written".into()),
        (Event::Checked { by, .. }, Place::Movement(place)) => {
            Some(format!("Movement {place} checked by {by}"))
        }
        (Event::Checked { by, .. }, Place::Label) => Some(format!("Label checked by {by}")),
        _ => None,
    }
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
    let tables = format!("Adrenaline table: {}", anaphylaxis::region(protocol.region));
    if changed.is_empty() {
        format!("{tables}. All values as supplied")
    } else {
        format!("{tables}. Clinic’s own values: {}", changed.join("; "))
    }
}

fn findings(found: &Findings) -> String {
    let names = |label: &str, names: Vec<&str>, none: &str| {
        format!("{label}: {}", if names.is_empty() { none.to_owned() } else { names.join("; ") })
    };
    let person = [
        found.person.sex.map(|sex| situation::sex(sex).to_owned()),
        found.person.years.map(|years| numbers::count(years, "year", "years")),
    ];
    let person: Vec<String> = person.into_iter().flatten().collect();
    sentences([
        names(
            "Before everything",
            found.red_flags.iter().map(|flag| situation::red_flag(*flag)).collect(),
            "none",
        ),
        names(
            "Skin",
            found.signs.iter().map(|sign| situation::sign(*sign)).collect(),
            "none of the signs",
        ),
        found
            .onset
            .map_or_else(String::new, |onset| format!("First sign seen {}", time::day_hour(onset))),
        found.refill.map_or_else(String::new, refill),
        if person.is_empty() { String::new() } else { format!("Patient: {}", person.join(", ")) },
        format!("Filler: {}", situation::filler(found.filler).to_ascii_lowercase()),
        found.aim.map_or_else(String::new, |aim| situation::aim(aim).to_owned()),
        if found.site.is_empty() {
            String::new()
        } else {
            names("Site", found.site.iter().map(|site| situation::site(*site)).collect(), "")
        },
    ])
}

/// Both sides' refill.
pub fn refill(refill: Refill) -> String {
    let affected = numbers::seconds(refill.affected);
    match refill.opposite {
        Some(opposite) => {
            format!("Refill {affected} s, other side {} s", numbers::seconds(opposite))
        }
        None => format!("Refill {affected} s, other side not timed"),
    }
}

fn asked(answers: &Answers) -> String {
    let answer = |label: &str, answer: Answer| {
        format!("{label}: {}", allergy::answer(answer).to_ascii_lowercase())
    };
    let medicines: Vec<&str> =
        answers.medicines.iter().map(|medicine| allergy::medicine(*medicine)).collect();
    sentences([
        answer("Reaction to hyaluronidase before", answers.previous_reaction),
        answer("Bee", answers.bee),
        answer("Wasp", answers.wasp),
        answer("Desensitised", answers.desensitised),
        format!("Enzyme: {}", allergy::species(answers.species).to_ascii_lowercase()),
        if medicines.is_empty() {
            "Medicines that matter: none".to_owned()
        } else {
            format!("Medicines: {}", medicines.join("; "))
        },
        format!(
            "Pregnant or nursing: {}",
            allergy::pregnancy(answers.pregnancy).to_ascii_lowercase()
        ),
    ])
}

fn territory(skin: &Territory) -> String {
    let zones: Vec<&str> = skin.zones().iter().map(|zone| situation::zone(*zone)).collect();
    let size = match skin.size() {
        Size::Typed(_) => "Size measured or estimated".to_owned(),
        Size::Rectangle { length, width } => {
            format!("{} by {}", numbers::length_named(*length), numbers::length_named(*width))
        }
        Size::Outlined(drawn) => outline::ground(&drawn.ground),
        Size::Usual => "Usual size of the areas named".to_owned(),
    };
    sentences([zones.join(", "), size])
}

fn vial_heading(vial: &Vial) -> String {
    let what = if vial.solution.is_some() { "of an earlier solution" } else { "in hand" };
    format!("Vial {} {what}", vial.number)
}

fn vial_words(vial: &Vial) -> String {
    sentences([
        numbers::units_named(vial.units),
        if vial.batch.is_empty() {
            "Batch not noted".to_owned()
        } else {
            format!("Batch {}", vial.batch)
        },
        vial.expiry.map_or_else(
            || "Expiry not noted".to_owned(),
            |expiry| format!("Expires {}", time::day(expiry)),
        ),
    ])
}

/// What the clinician did otherwise about.
pub fn overridden(what: Overridden) -> &'static str {
    match what {
        Overridden::Situation => "the way that the findings led to",
        Overridden::Allergy => "the way that the allergy answers led to",
        Overridden::Readiness => "readiness for a severe reaction",
        Overridden::SkinTest => "the skin test",
        Overridden::Expired => "a vial past its expiry",
        Overridden::Dose => "a dose outside the range in force",
        Overridden::Stop => "what forbids to inject now",
        Overridden::Proposal => "the proposal after a look",
    }
}

fn clock_jumped(by: i64) -> String {
    let span = time::span(Span::millis(by.unsigned_abs()));
    let way = if by < 0 { "back" } else { "forward" };
    format!("The phone’s clock was set {way} by {span}")
}

/// Why an entry was struck out.
pub fn strike_reason(reason: &StrikeReason) -> String {
    match reason {
        StrikeReason::Slip => "Tapped by mistake, taken back at once".into(),
        StrikeReason::Wrong(text) => format!("It was not so: {text}"),
    }
}

/// Striking out, with the entry that it struck.
pub fn struck_out(text: &str) -> String {
    format!("Struck out: {text}")
}

/// Under an entry that was struck out.
pub fn struck(at: Moment, reason: &StrikeReason) -> String {
    format!("Struck out {}. {}", time::day_hour(at), strike_reason(reason))
}

/// Under an entry that did not fit when it came.
pub fn refused(refusal: Refusal) -> String {
    let why = match refusal {
        Refusal::Over => "the treatment was over",
        Refusal::RoundRuns => "a round was running",
        Refusal::NoRound => "no round was running",
        Refusal::NoSuchPoint => "the round has no such point",
        Refusal::PointSettled => "the point was settled already",
        Refusal::NoPoints => "the round has no points",
        Refusal::GridDiffers => "the grid has another number of points than the plan",
    };
    format!("Not counted: {why}")
}

/// The chain is whole: how many entries, and the digest that stands for all of them.
pub fn whole(entries: usize, head: Option<Hash>) -> String {
    let count = numbers::count(u32::try_from(entries).unwrap_or(u32::MAX), "entry", "entries");
    match head {
        Some(head) => format!("Chain whole: {count}, last digest {}.", head.short()),
        None => format!("Chain whole: {count}."),
    }
}

/// What is wrong with the chain.
pub fn fault(fault: &Fault) -> String {
    match fault {
        Fault::Missing { seq } => format!("Entry {} is missing.", ordinal(*seq)),
        Fault::BrokenChain { seq } => {
            format!("Entry {} does not follow from the one before it.", ordinal(*seq))
        }
        Fault::Fork { seq, set_aside } => format!(
            "Two entries claim place {}; {} is set aside.",
            ordinal(*seq),
            set_aside.short()
        ),
    }
}

/// Where an entry stands.
pub fn place(seq: u32, of: usize, id: Hash) -> String {
    format!("Entry {} of {of}, digest {}", ordinal(seq), id.short())
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
    format!("Between 1 and {} characters.", Reference::LONGEST)
}

/// The file of one case.
pub fn file_name(case: &str) -> String {
    format!("freshet-case-{case}.txt")
}

/// The heading over today's entries.
pub fn today(date: crate::measure::Date) -> String {
    format!("Today, {}", time::day(date))
}
