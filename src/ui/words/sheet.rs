//! The anaphylaxis sheet.

use super::{anaphylaxis, numbers, time};
use crate::care::anaphylaxis::Dose;
use crate::measure::{Moment, Span, Volume};
use crate::protocol::adrenaline::{
    DOSE_WITHIN, GOOD_RESPONSE, MICROGRAMS_PER_UL, UK_SMALL, source,
};
use crate::protocol::source::ANAPHYLAXIS_UK_REVIEW;
use crate::protocol::{Protocol, Region};

pub const TITLE: &str = "Anaphylaxis";
pub const CALL: &str = "Stop injecting. Call the emergency number, say “anaphylaxis”.";
pub const CALLED: &str = "Called";
pub const POSITION: &str = "Lay flat, legs up. Sitting only to breathe. No standing up.";
pub const POSITIONED: &str = "Lying";
pub const ML: &str = "mL";
pub const WHICH: &str = "This table prints a range. Which dose?";
pub const WHICH_MISSING: &str = "Choose the dose.";
pub const OTHER_PATIENT: &str = "Child, small person, other table";
pub const AGE: &str = "Age";
pub const AGE_UNIT: &str = "Age in";
pub const YEARS: &str = "years";
pub const MONTHS: &str = "months";
pub const BUILD: &str = "Build";
pub const GROWN: &str = "Grown";
pub const SMALL: &str = "Small, or not yet grown";
pub const REGION: &str = "Table";
pub const AS_BEFORE: &str = "as given before";
pub const ADULT: &str = "adult";
pub const NOT_SURE: &str = "Not sure? Tick the signs";
pub const SIGNS: &str = "Sudden, within minutes to hours";
pub const TAKE_DOWN_SIGNS: &str = "Take down these signs";
pub const AGAIN_IN: &str = "Again in";
pub const AGAIN_NOW: &str = "Adrenaline again now, unless better";
pub const OVERDUE: &str = "Due since";
pub const STAY: &str = "Stay. Watch airway, breathing, pulse, alertness.";
pub const BETTER: &str = "Better";
pub const NOT_BETTER: &str = "Not better";
pub const IS_BETTER: &str = "Better. Stay and watch";
pub const BETTER_WHY: &str = "It can come back. Keep lying, adrenaline within reach.";
pub const WORSE_AGAIN: &str = "Worse again";
pub const OVER: &str = "Over, or taken over";
pub const FLUIDS: &str = "Fluids running";
pub const LOG: &str = "Taken down";
pub const UNDO: &str = "Undo the last entry";
pub const STRUCK: &str = "Struck out";
pub const SILENCE: &str = "Stop ringing";
pub const NO_NAME: &str =
    "This browser gives no random numbers, so nothing can be taken down. Note the times on paper.";
pub const SOURCE: &str = "Dose, route and repeat: the sources";
pub const ASLEEP: &str = "A sleeping phone cannot ring: keep it awake and in front.";
pub const OBSERVE: &str = "How long to watch";
pub const COURSE: &str = "Tick what is so";
pub const TAKE_DOWN: &str = "Take this down";
pub const TAKEN_DOWN: &str = "Taken down.";
pub const COMES_BACK: &str = "It comes back";
pub const BACK_TO_CASE: &str = "Back to the case";
pub const CLOSE_TAKEN: &str = "Taken over: close the case";
pub const CLOSE_SETTLED: &str = "Settled here: close the case";
pub const RECORD: &str = "Record";
pub const HOME: &str = "To the start";
pub const SUSPECT: &str =
    "The enzyme may be the cause: no more of it until an allergist has said so.";

/// On the steps' screens while a reaction runs: that it does, and when adrenaline is due again.
pub fn running(next: Option<Moment>) -> String {
    let now = "Severe reaction, not over";
    next.map_or_else(
        || format!("{now}."),
        |at| format!("{now}. Adrenaline again at {}.", time::hour(at)),
    )
}

/// The reference of a case that begins with a reaction.
pub fn reference(at: Moment) -> String {
    format!("Reaction {}", time::hour(at))
}

/// At its hour.
pub fn at(what: &str, at: Moment) -> String {
    format!("{what} {}", time::hour(at))
}

/// The strength that every volume here is of. A microgram in a microlitre is a milligram in a
/// millilitre.
pub fn strength() -> String {
    format!("{MICROGRAMS_PER_UL} mg/mL")
}

/// What is given, and where.
pub fn route() -> String {
    format!("Adrenaline {}, into the muscle of the outer thigh, at its middle", strength())
}

pub fn micrograms(volume: Volume) -> String {
    format!("{} micrograms", volume.raw() * MICROGRAMS_PER_UL)
}

/// A dose without its unit.
pub fn dose(dose: Dose) -> String {
    if dose.low == dose.high {
        numbers::volume(dose.low)
    } else {
        format!("{} to {}", numbers::volume(dose.low), numbers::volume(dose.high))
    }
}

/// Under the dose: how much that is, and for whom.
pub fn dose_note(dose: Dose, whom: &str) -> String {
    let amount = if dose.low == dose.high {
        micrograms(dose.low)
    } else {
        format!("{} to {}", dose.low.raw() * MICROGRAMS_PER_UL, micrograms(dose.high))
    };
    format!("{amount} · {whom}")
}

/// For whom the dose is.
pub fn whom(age: Option<(u32, bool)>, region: Region) -> String {
    let region = anaphylaxis::region(region);
    match age {
        None => format!("{ADULT}, {region}"),
        Some((number, true)) => format!("{}, {region}", numbers::count(number, "year", "years")),
        Some((number, false)) => format!("{}, {region}", numbers::count(number, "month", "months")),
    }
}

/// The other table, where it says otherwise.
pub fn other(region: Region, dose: Dose) -> String {
    format!(
        "{} says {} mL ({}).",
        anaphylaxis::region(region),
        self::dose(dose),
        source(region).citation
    )
}

/// The dose of the small, for the choice.
pub fn small() -> String {
    format!("{} mL", numbers::volume(UK_SMALL))
}

pub fn given(number: usize, volume: Option<Volume>) -> String {
    let what = match number {
        1 => "Adrenaline given".to_owned(),
        number => format!("Dose {number} given"),
    };
    match volume {
        Some(volume) => format!("{what}, {}", numbers::volume_named(volume)),
        None => what,
    }
}

pub fn give() -> &'static str {
    "Adrenaline now"
}

pub fn doses(number: usize, last: Moment) -> String {
    format!("Dose {number} given at {}", time::hour(last))
}

/// Given earlier than the tables repeat it.
pub fn early(number: usize) -> String {
    format!("Dose {number} is given already")
}

pub fn early_why(repeat: Span) -> String {
    format!("The tables repeat after {}, if it is not better.", time::span(repeat))
}

pub fn early_confirm(number: usize, volume: Volume) -> String {
    format!("Dose {number}, {}, is in", numbers::volume_named(volume))
}

pub fn refractory(doses: u32) -> String {
    format!("{} and no better: refractory", numbers::count(doses, "dose", "doses"))
}

pub const REFRACTORY_MORE: &str = "Antihistamines come third; steroids are no longer routine.";

/// What the UK guideline says then.
pub fn refractory_act(protocol: &Protocol) -> String {
    format!(
        "Experts to the patient now. Fluids into a vein. Adrenaline every {} meanwhile.",
        time::span(protocol.adrenaline_repeat)
    )
}

pub const COURSES: usize = 6;

/// The facts that the time of observation depends on.
pub fn course(place: usize) -> String {
    match place {
        0 => format!(
            "Good response within {} to {} of one dose, given within {} of onset",
            GOOD_RESPONSE.0.as_minutes(),
            time::span(GOOD_RESPONSE.1),
            time::span(DOSE_WITHIN)
        ),
        1 => "Fully settled; has auto-injectors, knows how; somebody at home".into(),
        2 => "A reaction in two waves before".into(),
        3 => "Severe asthma or breathing trouble".into(),
        4 => "What caused it may still be taken up".into(),
        _ => "Late at night, far from help, or cannot react if worse".into(),
    }
}

/// Whose rule that is.
pub fn observe_rule() -> String {
    format!("UK rule: {}", ANAPHYLAXIS_UK_REVIEW.citation)
}

pub fn observe(span: Span) -> String {
    format!("At least {}", time::span(span))
}

pub fn observe_note(span: Span) -> String {
    format!("Observation after anaphylaxis, UK rule: at least {}", time::span(span))
}
