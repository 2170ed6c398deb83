//! The clinical note: what was found, decided, given and seen, for colleagues and the patient's file.

mod given;
mod seen;
#[cfg(test)]
mod tests;

pub(super) use given::{skin, vial};
pub(super) use seen::{pain, placed, read, reviewed, taken_up};

use super::document::{Document, Line, Part, Pictured, day_hour, field, known, not_recorded, say};
use super::{allergy, app, numbers, rounds, situation, timeline};
use crate::care::allergy::{Species, Urgency};
use crate::case::Event;
use crate::measure::Moment;
use crate::record::note::{Note, Struck};
use crate::ui::language::{spoken, spoken_as, within};
use crate::ui::parts::PointMark;

words! {
    pub title = "Clinical note";
    pub share = "Share text";
    pub print = "Print or save as PDF";
    pub file = "Save text file";
    pub file_failed = "The browser did not take the file.";
    pub no_print = "This browser opens no print view. Share the text, or save it as a file.";
    pub file_name = "clinical-note";
    pub photos = "Photos to go on the page";
    pub photos_why = "None goes on the page unless you tick it. A text holds none.";
    pub no_photo = "This photo is not on this phone.";
    pub course = "Over the hours";
    pub rehearsed = "No papers in a rehearsal";
    pub rehearsed_why = "This patient is made up. Papers are written from real cases alone, so that none of a rehearsal is \
         taken for one. The debrief tells how it went.";
    pub no_name = "No patient’s name is in it. Write it in by hand, or in the file that this goes into.";

    running = "Written out before the treatment ended: what came after that is not in it.";
    not_whole = "The record behind this text is NOT whole: entries are missing or do not fit.";
    /// Sources name both, and none says how one is turned into the other.
    pub(super) counted = "Units are those that the vial’s label counts, international or USP. Which of the two is not recorded; neither is turned into the other.";
}

/// What the shape of a point stands for.
pub fn mark(mark: PointMark) -> &'static str {
    spoken(match mark {
        PointMark::Done => "given",
        PointMark::Skipped => "left out",
        PointMark::Todo | PointMark::Next => "left open",
    })
}

/// On the head of each printed page: what it is, whose, and when it was written out.
pub fn head(title: &str, note: &Note) -> String {
    let mut head = vec![title.to_owned(), note.reference.clone()];
    head.push(tr!("written out {when}", when = on(note, note.printed)));
    if note.end().is_none() {
        head.push(tr!("before the treatment ended"));
    }
    if !note.chain.faults.is_empty() {
        head.push(tr!("record NOT whole"));
    }
    head.retain(|part| !part.is_empty());
    head.join(" · ")
}

/// What a reader must know before relying on a text: that more came after it, or that something is
/// missing before it.
pub(super) fn unfinished(note: &Note) -> Vec<Line> {
    let running = note.end().is_none().then_some(running());
    let broken = (!note.chain.faults.is_empty()).then_some(not_whole());
    running.into_iter().chain(broken).map(say).collect()
}

/// The drug, and where it comes from as far as that was told.
pub(super) fn enzyme(note: &Note) -> String {
    match note.species() {
        Species::Unknown => tr!("hyaluronidase"),
        known => tr!("hyaluronidase, {species}", species = within(allergy::species(known))),
    }
}

/// A photo by the moment it was taken.
pub fn photo(note: &Note, at: Moment) -> String {
    tr!("Photo of {when}", when = on(note, at))
}

/// A moment by the clock that was on the wall.
pub(super) fn on(note: &Note, at: Moment) -> String {
    day_hour(note.hours.local(at))
}

/// The whole note.
pub fn document(note: &Note) -> Document {
    let mut parts = vec![patient(note), case(note), found(note), otherwise(note), safety(note)];
    parts.extend(given::solutions(note));
    parts.extend(given::rounds(note));
    parts.extend(seen::looks(note));
    if note.urgency() == Some(Urgency::Urgent) && !(note.rounds.is_empty() && note.looks.is_empty())
    {
        parts.push(Part::new(course(), Vec::new()).with(Pictured::Course));
    }
    parts.push(given::besides(note));
    parts.extend(given::reaction(note));
    parts.push(seen::end(note));
    parts.extend(seen::reviews(note));
    if !note.remarks.is_empty() {
        let remark = |(at, text): &(Moment, String)| field(&on(note, *at), text);
        parts.push(Part::new(spoken("Written down"), note.remarks.iter().map(remark).collect()));
    }
    parts.push(record(note));
    Document { title: title(), parts }
}

/// Who it is: never a name in the app, so lines to write on.
pub(super) fn patient(note: &Note) -> Part {
    let person = note.findings.as_ref().map(|found| found.person).unwrap_or_default();
    Part::new(
        spoken("Patient"),
        vec![
            Line::Blank(spoken("Name")),
            Line::Blank(spoken("Date of birth")),
            known(
                spoken("Reference"),
                Some(note.reference.clone()).filter(|text| !text.is_empty()),
            ),
            known(spoken("Sex"), person.sex.map(|sex| situation::sex(sex).to_owned())),
            known(spoken("Age"), person.years.map(years)),
        ],
    )
}

fn years(years: u32) -> String {
    tr!("{count} year" | "{count} years" % years, count = numbers::whole(years))
}

fn case(note: &Note) -> Part {
    let way = note.way.map(|(urgency, aim)| {
        let way = situation::urgency(urgency).to_owned();
        match (urgency, aim) {
            (Urgency::Urgent, _) => tr!("{way}: suspected blocked artery in the skin", way),
            (Urgency::Planned, None) => way,
            (Urgency::Planned, Some(aim)) => format!("{way}: {}", within(situation::aim(aim))),
        }
    });
    let closed = match (note.closed, note.end()) {
        (Some((at, end)), _) => format!("{}, {}", rounds::end(end), on(note, at)),
        (None, Some(_)) => tr!("Still open, followed up"),
        (None, None) => tr!("Still open"),
    };
    let mut lines = vec![
        known(spoken("Way taken"), way),
        field(spoken("Opened"), on(note, note.opened)),
        field(spoken("Closed"), closed),
    ];
    lines.extend(unfinished(note));
    lines.push(say(app::off_label()));
    Part::new(spoken("Case"), lines)
}

fn found(note: &Note) -> Part {
    let mut lines: Vec<Line> = Vec::new();
    for noticed in &note.noticed {
        let sign = situation::red_flag(noticed.flag);
        lines.push(field(sign, tr!("first noticed {when}", when = on(note, noticed.at))));
    }
    if note.noticed.is_empty() {
        lines.push(field(spoken("Signs of sight, stroke or airway"), spoken("none noted")));
    }
    let Some(found) = &note.findings else {
        lines.push(field(spoken("Findings"), not_recorded()));
        return Part::new(spoken("Findings"), lines);
    };
    let signs: Vec<&str> = found.signs.iter().map(|sign| situation::sign(*sign)).collect();
    lines.push(field(
        spoken("Skin"),
        if signs.is_empty() { tr!("none of the signs") } else { signs.join("; ") },
    ));
    lines.push(known(spoken("First sign seen"), found.onset.map(|at| on(note, at))));
    lines.push(known(spoken("Refill"), found.refill.map(timeline::refill)));
    lines.push(field(spoken("Injected before"), situation::filler(found.filler)));
    if !found.site.is_empty() {
        let sites: Vec<&str> = found.site.iter().map(|site| situation::site(*site)).collect();
        lines.push(field(spoken("At the site"), sites.join("; ")));
    }
    Part::new(spoken("Findings"), lines)
}

fn otherwise(note: &Note) -> Part {
    let line = |(at, what, reason): &(Moment, crate::case::Overridden, String)| {
        let what = timeline::overridden(*what);
        field(&format!("{}, {what}", on(note, *at)), reason)
    };
    let mut lines: Vec<Line> = note.overrides.iter().map(line).collect();
    if lines.is_empty() {
        lines.push(say(spoken("Nothing is recorded that was done otherwise than advised.")));
    }
    Part::new(spoken("Done otherwise than advised"), lines)
}

/// Allergy, readiness, skin test; consent is left to be signed.
fn safety(note: &Note) -> Part {
    let asked = note.answers.clone().and_then(|answers| timeline::event(&Event::Asked(answers)).1);
    let ready = spoken(if note.ready { "Confirmed" } else { "Not confirmed" });
    let mut lines = vec![
        known(spoken("Allergy asked about"), asked),
        field(spoken("Ready for anaphylaxis"), ready),
    ];
    match &note.test {
        None => lines.push(field(spoken("Skin test"), spoken("None recorded"))),
        Some(test) => {
            lines.push(field(
                spoken("Skin test"),
                format!("{}, {}", seen::placed(test.placed), on(note, test.at)),
            ));
            lines.extend(test.readings.iter().map(|reading| {
                field(
                    spoken_as(Some("a test"), "Read"),
                    format!("{}. {}", on(note, reading.at), seen::read(reading)),
                )
            }));
        }
    }
    lines.push(Line::Blank(spoken("Consent, signature and date")));
    lines.push(say(spoken("This record does not hold whether consent was given.")));
    Part::new(spoken("Allergy and consent"), lines)
}

fn entries(entries: usize) -> String {
    tr!("{count} entry" | "{count} entries" % entries, count = numbers::whole(entries))
}

/// What the text is drawn from, and whether that is whole.
fn record(note: &Note) -> Part {
    let chain = &note.chain;
    let mut lines = vec![field(
        spoken("Struck out"),
        match chain.struck.len() {
            0 => tr!("No entry"),
            struck => entries(struck),
        },
    )];
    lines.extend(chain.struck.iter().map(|one| struck(note, one)));
    if chain.refused > 0 {
        lines.push(field(spoken("Did not fit when they came"), entries(chain.refused)));
    }
    let entries = entries(chain.entries);
    let whole = spoken(if chain.faults.is_empty() { "whole" } else { "NOT whole" });
    lines.push(field(spoken("Chain of entries"), format!("{whole}, {entries}")));
    lines.push(known(
        spoken("Digest of the last, SHA-256"),
        chain.head.map(|head| head.to_string()),
    ));
    lines.extend(chain.faults.iter().map(|fault| say(timeline::fault(fault))));
    let printed = on(note, note.printed);
    lines.push(field(
        spoken("Written out"),
        tr!("{when}, by {app}", when = printed, app = app::name()),
    ));
    if !note.solutions.is_empty() || note.test.is_some() {
        lines.push(say(counted()));
    }
    lines.push(say(spoken("Hours are those that the phone showed when each entry was made.")));
    lines.push(say(app::follow()));
    Part::new(spoken("This record"), lines)
}

/// An entry that was struck out stays to be read, and is seen to be struck out.
fn struck(note: &Note, struck: &Struck) -> Line {
    let (text, detail) = timeline::event(&struck.event);
    let said = detail.map_or(text.clone(), |detail| format!("{text}: {detail}"));
    Line::Struck(
        format!("{}, {said}", on(note, struck.at)),
        format!("{}. {}", on(note, struck.struck), timeline::strike_reason(&struck.reason)),
    )
}
