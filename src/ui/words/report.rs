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
use crate::ui::language::{spoken, within};

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
    spoken(match reported {
        Reported::Occlusion => "Suspected blocked artery after filler",
        Reported::Reaction => "Severe reaction, suspected allergy",
        Reported::Test => "Positive skin test with hyaluronidase",
    })
}

/// What seriousness is asked by: the criteria of ICH E2A and E2D, as printed in Trials
/// 2022;23, doi:10.1186/s13063-022-07051-9, table 7, and by EUPATI with reference to E2D.
fn serious() -> [&'static str; 5] {
    [
        "Death",
        "Life-threatening",
        "Hospital stay, or a longer one",
        "Lasting or serious disability",
        "Birth defect",
    ]
    .map(spoken)
}
words! {
    important = "Other medically important condition";
}

/// The report of all that a case has to report.
pub fn document(note: &Note, reported: &[Reported], protocol: &Protocol) -> Document {
    let what = reported.iter().map(|one| say(format!("{}.", name(*one))));
    let mut parts = vec![
        Part::new(spoken("Reaction"), what.chain(noted::unfinished(note)).collect()),
        Part::new(spoken("To count, a report needs"), needed(note).into()),
    ];
    let mut patient = noted::patient(note);
    patient.lines.retain(|line| !matches!(line, Line::Blank(_)));
    patient.lines.push(Line::Blank(spoken("Initials or as the form asks")));
    parts.push(patient);
    parts.push(Part::new(
        spoken("Reporter"),
        vec![
            Line::Blank(spoken("Name and profession")),
            Line::Blank(spoken("Country, address and telephone")),
            Line::Blank(spoken("Date")),
        ],
    ));
    parts.push(filler(note, reported));
    parts.push(enzyme(note, reported));
    parts.extend(reported.iter().map(|one| reaction(note, *one, protocol)));
    parts.push(treatment(note));
    parts.push(history(note));
    parts.push(Part::new(spoken("What happened"), told::told(note)));
    parts.push(Part::new(spoken("The form"), vec![say(national())]));
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
        Line::Tick(patient, spoken("A patient: sex, age, initials or a reference is enough")),
        Line::Tick(false, spoken("A reporter: who, what profession, which country")),
        Line::Tick(
            true,
            spoken("A suspected product: below; its name and batch are yours to fill in"),
        ),
        Line::Tick(true, spoken("A suspected reaction: below")),
    ]
}

/// Whether it is suspected, or was given for what is reported.
fn role(suspect: bool) -> &'static str {
    spoken(if suspect { "Suspected" } else { "Not the suspected cause; listed with it" })
}

fn filler(note: &Note, reported: &[Reported]) -> Part {
    let kind = note.findings.as_ref().map(|found| situation::filler(found.filler).to_owned());
    let suspect = reported.contains(&Reported::Occlusion);
    // The record holds at most how much was to be taken away, which is not what was injected.
    Part::new(
        spoken("Product: filler"),
        vec![
            field(spoken("Role"), role(suspect)),
            known(spoken("Kind"), kind),
            Line::Blank(spoken("Product name")),
            Line::Blank(spoken("Batch")),
            Line::Blank(spoken("Amount injected")),
            Line::Blank(spoken("Date injected, place, how")),
        ],
    )
}

fn enzyme(note: &Note, reported: &[Reported]) -> Part {
    let given = !note.rounds.is_empty() || note.test.is_some();
    let suspect =
        given && reported.iter().any(|one| matches!(one, Reported::Reaction | Reported::Test));
    let role = match (suspect, reported.contains(&Reported::Occlusion)) {
        (true, _) => role(true),
        (false, true) if given => spoken("Treatment of the reaction"),
        (false, true) => spoken("None was injected"),
        (false, false) => role(false),
    };
    let species = Some(note.species()).filter(|species| *species != Species::Unknown);
    let mut lines = vec![
        field(spoken("Role"), role),
        known(spoken("Species"), species.map(|species| allergy::species(species).to_owned())),
        Line::Blank(spoken("Product name")),
    ];
    if note.solutions.iter().all(|made| made.vials.is_empty()) {
        lines.push(Line::Blank(spoken("Batch and expiry")));
    }
    for (number, made) in (1..).zip(&note.solutions) {
        let number: u32 = number;
        lines.extend(made.vials.iter().map(|vial| {
            let name = tr!("Solution {number}, vial {vial}", number, vial = vial.number);
            let units = numbers::units_named(vial.units);
            field(&name, format!("{units}, {}", noted::vial(Some(vial))))
        }));
    }
    if let Some(test) = &note.test {
        let placed = noted::placed(test.placed);
        lines.push(field(spoken("Skin test"), format!("{placed}, {}", on(note, test.at))));
    }
    for (number, given) in (1..).zip(&note.rounds) {
        let number: u32 = number;
        lines.push(field(
            &tr!("Dose {number}", number),
            tr!(
                "{units} in {volume}, {strength}, {when}",
                units = numbers::units_named(given.round.units()),
                volume = numbers::volume_named(given.round.volume()),
                strength = numbers::strength_named(given.round.plan.strength),
                when = on(note, given.round.begun)
            ),
        ));
    }
    if note.rounds.is_empty() && note.test.is_none() {
        lines.push(field(spoken("Doses"), spoken("None given")));
    } else if !note.rounds.is_empty() {
        lines.push(field(spoken("Route"), spoken("injected at the site; depth not recorded")));
    }
    if given {
        lines.push(say(noted::counted()));
    }
    Part::new(spoken("Product: hyaluronidase"), lines)
}

fn reaction(note: &Note, reported: Reported, protocol: &Protocol) -> Part {
    let mut lines = vec![known(spoken("Began"), reported.onset(note).map(|at| on(note, at)))];
    lines.push(known(spoken("Signs"), told::signs(note, reported)));
    lines.push(say(spoken(
        "Serious because (tick what applies; the app ticks only what the record shows):",
    )));
    lines.extend(serious().map(|criterion| Line::Tick(false, criterion)));
    lines.push(Line::Tick(reported.important(note), important()));
    let outcome = match reported.outcome(note, protocol) {
        Seen::Well(at) => {
            tr!("Refill, colour and pain back when last seen, {when}", when = on(note, at))
        }
        Seen::NotWell(at) => {
            let name = |one| within(followup::damage(one));
            let damage: Vec<String> = match reported {
                Reported::Occlusion => note.damage().into_iter().map(name).collect(),
                Reported::Reaction | Reported::Test => Vec::new(),
            };
            let when = on(note, at);
            match damage[..] {
                [] => tr!("Not recovered when last recorded, {when}", when),
                _ => tr!(
                    "Not recovered when last recorded, {when}; noted since: {damage}",
                    when,
                    damage = damage.join(", ")
                ),
            }
        }
        Seen::Settled(at) => {
            tr!("Better, over, or taken over by others, {when}", when = on(note, at))
        }
        Seen::Unknown => not_recorded().to_owned(),
    };
    lines.push(field(spoken("Outcome"), outcome));
    Part::new(name(reported), lines)
}

fn treatment(note: &Note) -> Part {
    let mut lines = Vec::new();
    if !note.rounds.is_empty() {
        let (units, volume) = (note.units(), note.volume());
        let all = tr!(
            "{units} in {volume}",
            units = numbers::units_named(units),
            volume = numbers::volume_named(volume)
        );
        lines.push(field(spoken("Hyaluronidase in all"), all));
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
        lines.push(say(spoken("No treatment is recorded.")));
    }
    Part::new(spoken("Treatment given"), lines)
}

fn history(note: &Note) -> Part {
    let asked = note.answers.clone().and_then(|answers| timeline::event(&Event::Asked(answers)).1);
    Part::new(
        spoken("History"),
        vec![
            known(spoken("Allergy, medicines, pregnancy"), asked),
            Line::Blank(spoken("Other illness and medicines")),
        ],
    )
}
