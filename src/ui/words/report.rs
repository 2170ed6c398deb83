//! The report of an adverse reaction: what national forms ask for, field by field, to be read off or
//! pasted. What the case does not tell is left open.

#[cfg(test)]
mod tests;
mod told;

use super::document::{Document, Line, Part, field, known, not_recorded, say};
use super::note::on;
use super::{adjunct, allergy, followup, note as noted, numbers, situation, timeline};
use crate::care::allergy::Species;
use crate::case::Event;
use crate::protocol::Protocol;
use crate::record::note::{Note, Reported, Seen};

words! {
    pub title = "Adverse reaction report";
    pub file_name = "adverse-reaction";
    pub nothing = "Nothing in this case is a reaction to report";
    pub nothing_why = "There is no suspected blocked artery, no severe reaction and no positive skin \
         test in its record. What was seen elsewhere, or later, you report from your own notes.";
    pub national = "Whether this must be reported, to whom and how fast, is set by the law where you \
         work. Paste the fields into that form.";
}

/// What is reported, by name.
fn name(reported: Reported) -> &'static str {
    match reported {
        Reported::Occlusion => "Suspected blocked artery after filler",
        Reported::Reaction => "Severe reaction, suspected allergy",
        Reported::Test => "Positive skin test with hyaluronidase",
    }
}

/// What seriousness is asked by: the criteria of ICH E2A and E2D, as printed in Trials
/// 2022;23, doi:10.1186/s13063-022-07051-9, table 7, and by EUPATI with reference to E2D.
const SERIOUS: [&str; 5] = [
    "Death",
    "Life-threatening",
    "Hospital stay, or a longer one",
    "Lasting or serious disability",
    "Birth defect",
];
words! {
    important = "Other medically important condition";
}

/// The report of all that a case has to report.
pub fn document(note: &Note, reported: &[Reported], protocol: &Protocol) -> Document {
    let what = reported.iter().map(|one| say(format!("{}.", name(*one))));
    let mut parts = vec![
        Part::new("Reaction", what.chain(noted::unfinished(note)).collect()),
        Part::new("To count, a report needs", needed(note).into()),
    ];
    let mut patient = noted::patient(note);
    patient.lines.retain(|line| !matches!(line, Line::Blank(_)));
    patient.lines.push(Line::Blank("Initials or as the form asks"));
    parts.push(patient);
    parts.push(Part::new(
        "Reporter",
        vec![
            Line::Blank("Name and profession"),
            Line::Blank("Country, address and telephone"),
            Line::Blank("Date"),
        ],
    ));
    parts.push(filler(note, reported));
    parts.push(enzyme(note, reported));
    parts.extend(reported.iter().map(|one| reaction(note, *one, protocol)));
    parts.push(treatment(note));
    parts.push(history(note));
    parts.push(Part::new("What happened", told::told(note)));
    parts.push(Part::new("The form", vec![say(national())]));
    Document { title: title(), parts }
}

/// What a report must hold to count at all, and whether the case tells it: one of each of patient,
/// reporter, suspected product and reaction. ICH E2D (2003), as quoted by the European guideline on
/// good pharmacovigilance practices, module VI, VI.B.2; the reporter's qualification and country by
/// ICH E2B, same place.
fn needed(note: &Note) -> [Line; 4] {
    let person = note.findings.as_ref().map(|found| found.person).unwrap_or_default();
    let patient = person.sex.is_some() || person.years.is_some() || !note.reference.is_empty();
    [
        Line::Tick(patient, "A patient: sex, age, initials or a reference is enough"),
        Line::Tick(false, "A reporter: who, what profession, which country"),
        Line::Tick(true, "A suspected product: below; its name and batch are yours to fill in"),
        Line::Tick(true, "A suspected reaction: below"),
    ]
}

/// Whether it is suspected, or was given for what is reported.
fn role(suspect: bool) -> &'static str {
    if suspect { "Suspected" } else { "Not the suspected cause; listed with it" }
}

fn filler(note: &Note, reported: &[Reported]) -> Part {
    let kind = note.findings.as_ref().map(|found| situation::filler(found.filler).to_owned());
    let suspect = reported.contains(&Reported::Occlusion);
    // The record holds at most how much was to be taken away, which is not what was injected.
    Part::new(
        "Product: filler",
        vec![
            field("Role", role(suspect)),
            known("Kind", kind),
            Line::Blank("Product name"),
            Line::Blank("Batch"),
            Line::Blank("Amount injected"),
            Line::Blank("Date injected, place, how"),
        ],
    )
}

fn enzyme(note: &Note, reported: &[Reported]) -> Part {
    let given = !note.rounds.is_empty() || note.test.is_some();
    let suspect =
        given && reported.iter().any(|one| matches!(one, Reported::Reaction | Reported::Test));
    let role = match (suspect, reported.contains(&Reported::Occlusion)) {
        (true, _) => "Suspected",
        (false, true) if given => "Treatment of the reaction",
        (false, true) => "None was injected",
        (false, false) => role(false),
    };
    let species = Some(note.species()).filter(|species| *species != Species::Unknown);
    let mut lines = vec![
        field("Role", role),
        known("Species", species.map(|species| allergy::species(species).to_owned())),
        Line::Blank("Product name"),
    ];
    if note.solutions.iter().all(|made| made.vials.is_empty()) {
        lines.push(Line::Blank("Batch and expiry"));
    }
    for (number, made) in (1..).zip(&note.solutions) {
        let number: u32 = number;
        lines.extend(made.vials.iter().map(|vial| {
            let name = format!("Solution {number}, vial {}", vial.number);
            let units = numbers::units_named(vial.units);
            field(&name, format!("{units}, {}", noted::vial(Some(vial))))
        }));
    }
    if let Some(test) = &note.test {
        let placed = noted::placed(test.placed);
        lines.push(field("Skin test", format!("{placed}, {}", on(note, test.at))));
    }
    for (number, given) in (1..).zip(&note.rounds) {
        let number: u32 = number;
        lines.push(field(
            &format!("Dose {number}"),
            format!(
                "{} in {}, {}, {}",
                numbers::units_named(given.round.units()),
                numbers::volume_named(given.round.volume()),
                numbers::strength_named(given.round.plan.strength),
                on(note, given.round.begun)
            ),
        ));
    }
    if note.rounds.is_empty() && note.test.is_none() {
        lines.push(field("Doses", "None given"));
    } else if !note.rounds.is_empty() {
        lines.push(field("Route", "injected at the site; depth not recorded"));
    }
    if given {
        lines.push(say(noted::counted()));
    }
    Part::new("Product: hyaluronidase", lines)
}

fn reaction(note: &Note, reported: Reported, protocol: &Protocol) -> Part {
    let mut lines = vec![known("Began", reported.onset(note).map(|at| on(note, at)))];
    lines.push(known("Signs", told::signs(note, reported)));
    lines.push(say(
        "Serious because (tick what applies; the app ticks only what the record shows):",
    ));
    lines.extend(SERIOUS.iter().map(|criterion| Line::Tick(false, criterion)));
    lines.push(Line::Tick(reported.important(note), important()));
    let outcome = match reported.outcome(note, protocol) {
        Seen::Well(at) => {
            format!("Refill, colour and pain back when last seen, {}", on(note, at))
        }
        Seen::NotWell(at) => {
            let name = |one| followup::damage(one).to_lowercase();
            let damage: Vec<String> = match reported {
                Reported::Occlusion => note.damage().into_iter().map(name).collect(),
                Reported::Reaction | Reported::Test => Vec::new(),
            };
            let noted = match damage[..] {
                [] => String::new(),
                _ => format!("; noted since: {}", damage.join(", ")),
            };
            format!("Not recovered when last recorded, {}{noted}", on(note, at))
        }
        Seen::Settled(at) => format!("Better, over, or taken over by others, {}", on(note, at)),
        Seen::Unknown => not_recorded().to_owned(),
    };
    lines.push(field("Outcome", outcome));
    Part::new(name(reported), lines)
}

fn treatment(note: &Note) -> Part {
    let mut lines = Vec::new();
    if !note.rounds.is_empty() {
        let (units, volume) = (note.units(), note.volume());
        let all = format!("{} in {}", numbers::units_named(units), numbers::volume_named(volume));
        lines.push(field("Hyaluronidase in all", all));
    }
    lines.extend(note.besides.iter().map(|chosen| {
        let choice = adjunct::choice(chosen.choice);
        let name = adjunct::adjunct(chosen.adjunct);
        field(name, format!("{choice}, {}", on(note, chosen.at)))
    }));
    lines.extend(note.reaction.iter().filter_map(|(at, act)| {
        use crate::care::anaphylaxis::Act;
        let given = matches!(act, Act::Adrenaline(_) | Act::Positioned | Act::Fluids | Act::Called);
        given.then(|| field(&on(note, *at), super::anaphylaxis::act(act)))
    }));
    if lines.is_empty() {
        lines.push(say("No treatment is recorded."));
    }
    Part::new("Treatment given", lines)
}

fn history(note: &Note) -> Part {
    let asked = note.answers.clone().and_then(|answers| timeline::event(&Event::Asked(answers)).1);
    Part::new(
        "History",
        vec![
            known("Allergy, medicines, pregnancy", asked),
            Line::Blank("Other illness and medicines"),
        ],
    )
}
