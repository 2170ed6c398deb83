//! The hand-over sheets: sentences to be read out, and the same as text.

mod fact;

pub use fact::{fact, when};

use super::{language, numbers, protocol, situation};
use crate::care::handover::{Ask, Noticed, Sheet, SightSheet};
use crate::measure::Moment;
#[cfg(feature = "app")]
use crate::phone::share::Handed;
use crate::ui::language::{spoken, unbroken};
use crate::ui::parts::Finding;

words! {
    pub title = "Hand-over";
    pub read = "Read this out";
    pub shown = "Sheet";
    pub sight_label = "Sight";
    pub whole_label = "Whole case";
    pub why = "Another reason to hand over";
    pub reason = "Handed over because";
    pub no_name = "No patient’s name is in it. Say who it is when you call.";
    pub share = "Share as text";
    pub by_hand = "This phone neither shares nor copies. Mark the text and copy it:";
    pub text_label = "The sheet as text";
    pub record = "Record";
    pub sources = "Why this is asked";
}

/// What became of what was handed on; nothing for what was closed, or is told in its own place because
/// there is something to do about it.
#[cfg(feature = "app")]
pub fn became(handed: Handed) -> Option<String> {
    let told = match handed {
        Handed::Shared => tr!("Handed on."),
        Handed::Copied => tr!("Copied."),
        // Whether it was kept, no browser tells.
        Handed::Saved => tr!("Handed to the browser’s downloads."),
        Handed::Cancelled | Handed::Refused => return None,
    };
    Some(told)
}

words! {
    /// On every screen that leads to the sheet.
    pub to_sheet = "Read out or share the sheet";
    pub stands = "No look since has cleared it.";
    pub mistake = "Noted by mistake: take it back";

    pub situation = "Situation" as "part of a hand-over";
    pub background = "Background";
    pub assessment = "Assessment";
    pub recommendation = "Recommendation";

    /// What no sheet can know.
    eye = "Say what the eye still sees.";
}

/// A part of a sheet: its name, and its sentences.
pub type Part = (&'static str, Vec<String>);

/// What is asked, as it is said.
pub fn ask(ask: Ask) -> &'static str {
    spoken(match ask {
        Ask::Ambulance => "Please send an ambulance now.",
        Ask::EyesAtOnce => "Please see the eyes at once: eye department or emergency department.",
        Ask::StrokeTeam => "Please get the patient to a stroke team at once.",
        Ask::LookForStroke => "Please look for signs of a stroke as well.",
        Ask::NotBehindTheEye => {
            "Hyaluronidase behind or beside the eye: the evidence does not support it. Please decide \
             that for yourselves, not by this sheet."
        }
        Ask::WatchReaction => "Please watch for the reaction to come back.",
        Ask::GoOn => "Please go on with hyaluronidase.",
        Ask::Ultrasound => "Please aim it by ultrasound: flooding the skin has not helped.",
        Ask::SkinSpecialist => "Please see the skin in person, and treat what is dying.",
        Ask::TakeOver => "Please take over.",
    })
}

/// The whole sheet.
pub fn whole(sheet: &Sheet, now: Moment) -> Vec<Part> {
    let facts = |facts: &[_]| facts.iter().map(|one| fact(one, now)).collect();
    vec![
        (situation(), facts(&sheet.situation)),
        (background(), facts(&sheet.background)),
        (assessment(), facts(&sheet.assessment)),
        (recommendation(), asks(&sheet.recommendation)),
    ]
}

fn asks(asks: &[Ask]) -> Vec<String> {
    asks.iter().map(|one| ask(*one).to_owned()).collect()
}

/// A sign with the moment that it was first noticed.
pub fn noticed(noticed: Noticed, now: Moment) -> String {
    tr!(
        "{sign}: first noticed at {when}.",
        sign = situation::red_flag(noticed.flag),
        when = when(noticed.at, now)
    )
}

/// The short sheet for sight. Moments, and no figure that could be taken for time that remains.
pub fn sight(sheet: &SightSheet, now: Moment) -> Vec<Part> {
    use crate::care::handover::Fact;
    use crate::care::situation::RedFlag;
    let flag = Noticed { flag: RedFlag::Sight, at: sheet.noticed };
    let mut situation = vec![noticed(flag, now)];
    situation.extend(sheet.also.iter().map(|also| noticed(*also, now)));
    situation.extend(sheet.reaction.iter().map(|reaction| fact(reaction, now)));
    if let Some(onset) = sheet.onset {
        situation.push(fact(&Fact::Onset(Some((onset, now.since(onset)))), now));
    }
    let mut background = vec![fact(&Fact::Filler(sheet.filler), now)];
    if !sheet.zones.is_empty() {
        background.push(fact(&Fact::Zones(sheet.zones.clone()), now));
    }
    background.push(if sheet.units.raw() == 0 {
        fact(&Fact::NoEnzyme, now)
    } else {
        tr!(
            "Hyaluronidase given into the skin so far: {units}.",
            units = numbers::units_named(sheet.units)
        )
    });
    background.extend(sheet.adrenaline.iter().map(|dose| fact(dose, now)));
    vec![
        (self::situation(), situation),
        (self::background(), background),
        (assessment(), vec![eye().to_owned()]),
        (recommendation(), asks(&sheet.asks)),
    ]
}

/// A sheet as one text; `at` is when it is handed on, as it is said.
pub fn text(parts: &[Part], at: &str) -> String {
    let mut text = format!("{}, {at}\n", title());
    for (name, sentences) in parts {
        text.push('\n');
        text.push_str(name);
        for sentence in sentences {
            text.push_str("\n- ");
            text.push_str(sentence);
        }
        text.push('\n');
    }
    // Whoever reads it elsewhere has no other way to know.
    if let Some(mark) = language::mark() {
        text.extend(["\n", mark, "\n"]);
    }
    unbroken(&text)
}

/// How well each thing asked is founded.
pub fn founded(asks: &[Ask]) -> Vec<Finding> {
    asks.iter()
        .map(|one| Finding {
            figure: ask(*one).to_owned(),
            setting: String::new(),
            citation: protocol::citation(one.basis()),
            status: protocol::status(one.basis()).to_owned(),
        })
        .collect()
}

/// Where a sign stands in the list of those noted on the way.
pub fn noted(at: Moment, now: Moment) -> String {
    tr!("Noted at {when}", when = when(at, now))
}

/// The name of the button that takes a sign back.
pub fn mistaken(flag: crate::care::situation::RedFlag) -> String {
    format!("{}: {}", mistake(), situation::red_flag(flag))
}

/// The text of a simulated patient, which nobody must take for a real one's.
pub fn rehearsed(text: &str) -> String {
    let mark = super::rehearsal::mark().to_uppercase();
    format!("{mark}\n{text}\n{mark}")
}
