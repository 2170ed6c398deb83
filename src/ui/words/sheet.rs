//! The anaphylaxis sheet.

use super::{anaphylaxis, numbers, protocol, time};
use crate::care::anaphylaxis::{Counted, Dose, NoWeight, Observation};
use crate::measure::{Mass, Moment, Span, Volume};
use crate::phone::clock;
use crate::protocol::adrenaline::{
    DOSE_WITHIN, GOOD_RESPONSE, MICROGRAMS_PER_UL, UK_SMALL, source,
};
use crate::protocol::{Basis, Protocol, Region};

words! {
    pub title = "Anaphylaxis";
    pub call = "Stop injecting. Call the emergency number, say “anaphylaxis”.";
    pub called = "Called";
    pub position = "Lay flat, legs up. Sitting only to breathe. No standing up.";
    pub positioned = "Lying";
    pub ml = "mL";
    pub which = "Two doses are possible. Which one?";
    pub which_missing = "Choose the dose.";
    pub age_missing = "Type the age.";
    pub age_wrong = "Put the age right.";
    pub weight_wrong = "Put the weight right.";
    pub no_dose_label = "–";
    pub odd = "The weight does not go with the age. Look again, or choose: one dose is by \
                           weight, the other by age.";
    pub weight = "Weight";
    pub kg = "kg";
    pub by_age_alone = "The UK table goes by age alone: no weight is asked.";
    pub other_patient = "Child, small person, other table";
    pub age = "Age";
    pub age_unit = "Age in";
    pub years = "years";
    pub months = "months";
    pub build = "Build";
    pub grown = "Grown";
    pub small_label = "Small, or not yet grown";
    pub region = "Table";
    pub as_before = "as given before";
    pub adult = "adult";
    pub small_person = "small";
    pub not_sure = "Not sure? Tick the signs";
    pub signs = "Sudden, within minutes to hours";
    pub take_down_signs = "Take down these signs";
    pub again_in = "Again in";
    pub again_now = "Adrenaline again now, unless better";
    pub overdue = "Due since";
    pub stay = "Stay. Watch airway, breathing, pulse, alertness.";
    pub better = "Better";
    pub not_better = "Not better";
    pub is_better = "Better. Stay and watch";
    pub better_why = "It can come back. Keep lying, adrenaline within reach.";
    pub worse_again = "Worse again";
    pub over = "Over, or taken over";
    pub fluids = "Fluids running";
    pub log = "Taken down";
    pub undo = "Undo the last entry";
    pub struck = "Struck out";
    pub silence = "Stop ringing";
    pub no_name = "This browser gives no random numbers, so nothing can be taken down. Note the times on paper.";
    pub sources = "Dose, route and repeat: the sources";
    pub asleep = "A sleeping phone cannot ring: keep it awake and in front.";
    pub observe_label = "How long to watch";
    pub course_label = "Tick what is so";
    pub take_down = "Take this down";
    pub taken_down = "Taken down.";
    pub comes_back = "It comes back";
    pub back_to_case = "Back to the case";
    pub close_taken = "Taken over: close the case";
    pub close_settled = "Settled here: close the case";
    pub record = "Record";
    pub home = "To the start";
    pub suspect = "The enzyme may be the cause: no more of it until an allergist has said so.";
}

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

/// For whom the dose is: by weight where it is, else by age and, where it counts, build.
pub fn whom(age: Option<(u32, bool)>, weight: Option<Mass>, small: bool, region: Region) -> String {
    let region = anaphylaxis::region(region);
    let age = age.map(|(number, years)| {
        if years {
            numbers::count(number, "year", "years")
        } else {
            numbers::count(number, "month", "months")
        }
    });
    let weight = weight.map(|weight| format!("{} {kg}", kilograms(weight), kg = kg()));
    let small = small.then(|| small_person().to_owned());
    let parts: Vec<String> = weight.into_iter().chain(age).chain(small).collect();
    if parts.is_empty() {
        format!("{adult}, {region}", adult = adult())
    } else {
        format!("{}, {region}", parts.join(", "))
    }
}

/// Kilograms without their name.
pub fn kilograms(weight: Mass) -> String {
    let tenths = weight.as_grams() / 100;
    match tenths % 10 {
        0 => (tenths / 10).to_string(),
        part => format!("{}.{part}", tenths / 10),
    }
}

/// Why a weight gives no dose; nothing where the table has none for any.
pub fn no_weight(why: NoWeight) -> Option<String> {
    match why {
        NoWeight::ByAge => None,
        NoWeight::TooLight(least) => Some(format!(
            "The table begins at {} {kg}: below, the age decides.",
            kilograms(least),
            kg = kg()
        )),
        NoWeight::TooHeavy(most) => {
            Some(format!("Over {} {kg}: a digit too many?", kilograms(most), kg = kg()))
        }
    }
}

/// That no dose is known, and what is wanting for one.
pub fn no_dose(why: &str) -> String {
    format!("No dose yet. {why}")
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

pub fn early_confirm(number: usize, volume: Option<Volume>) -> String {
    match volume {
        Some(volume) => format!("Dose {number}, {}, is in", numbers::volume_named(volume)),
        None => format!("Dose {number} is in"),
    }
}

pub fn refractory(doses: u32) -> String {
    format!("{} and no better: refractory", numbers::count(doses, "dose", "doses"))
}

words! {
    pub refractory_more = "Antihistamines come third; steroids are no longer routine.";
}

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

words! {
    pub night_label = "Consider a night in hospital.";
    pub not_before = "Not home before";
}

/// From when it is counted, and until when that is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Watched {
    /// Whose rule.
    pub region: Region,
    /// How long.
    pub watch: Observation,
    /// When the signs had settled, as far as it is known.
    pub settled: Moment,
    /// The last dose of adrenaline.
    pub last_dose: Option<Moment>,
}

/// Whose rule that is.
pub fn observe_rule(watched: &Watched) -> String {
    let region = anaphylaxis::region(watched.region);
    format!("{region} rule. {}", cited(&watched.watch))
}

/// Who says so; of what nobody looked up, where it is to be looked up.
fn cited(watch: &Observation) -> String {
    let citation = watch.source.citation;
    match watch.least_basis.source() {
        Some(_) => citation.to_owned(),
        None => format!("To be looked up: {citation}"),
    }
}

/// How well founded the hour is: the length, and the moment from which it is counted.
pub fn founded(watched: &Watched) -> String {
    let status = |basis| match basis {
        // It is the rule's reading, and no value that a clinic sets.
        Basis::Proposal => "this app’s proposal".to_owned(),
        basis => protocol::status(basis).to_lowercase(),
    };
    let (length, start) = (status(watched.watch.least_basis), status(watched.watch.counted_basis));
    if length == start {
        format!("Length and starting moment: {length}.")
    } else {
        format!("Length: {length}. Starting moment: {start}.")
    }
}

pub fn observe(watched: &Watched) -> String {
    format!("At least {}", time::span(watched.watch.least))
}

/// From when it is counted.
pub fn counted(watched: &Watched) -> String {
    match (watched.watch.counted, watched.last_dose) {
        (Counted::FromLastDose, Some(at)) => format!("from the last dose at {}", time::hour(at)),
        (Counted::FromLastDose | Counted::FromSettled, _) => {
            format!("from when it had settled, at {}", time::hour(watched.settled))
        }
    }
}

/// Until which hour; with its day where that is not the day it is counted from.
pub fn until(watched: &Watched) -> String {
    let until = watched.watch.until(watched.settled, watched.last_dose);
    if clock::date(until) == clock::date(watched.settled) {
        time::hour(until)
    } else {
        time::day_hour(until)
    }
}

fn night(watched: &Watched) -> String {
    if watched.watch.overnight {
        format!(" {night_label}", night_label = night_label())
    } else {
        String::new()
    }
}

/// What the other region's rule says.
pub fn observe_other(watched: &Watched) -> String {
    format!(
        "{} says: {}, {}, so until {}. {}{} {}.",
        anaphylaxis::region(watched.region),
        observe(watched).to_lowercase(),
        counted(watched),
        until(watched),
        founded(watched),
        night(watched),
        cited(&watched.watch)
    )
}

pub fn observe_note(watched: &Watched) -> String {
    format!(
        "Observation after anaphylaxis, {} rule: {}, {}, until {}. {}{}",
        anaphylaxis::region(watched.region),
        observe(watched).to_lowercase(),
        counted(watched),
        until(watched),
        founded(watched),
        night(watched)
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::care::anaphylaxis::{Course, observe as by_rule};

    #[test]
    fn what_is_not_published_says_so_beside_the_hour() {
        let watched = |region| Watched {
            region,
            watch: by_rule(region, 1, Course::default()),
            settled: Moment::from_millis(0),
            last_dose: None,
        };
        let (uk, australia) = (watched(Region::Uk), watched(Region::Australia));
        assert_eq!(founded(&uk), "Length: published. Starting moment: this app’s proposal.");
        let memory = "Length and starting moment: from memory, no source opened.";
        assert_eq!(founded(&australia), memory);
        assert!(observe_rule(&australia).contains("To be looked up"));
        assert!(!observe_rule(&uk).contains("To be looked up"));
    }

    #[test]
    fn a_small_person_is_not_called_an_adult() {
        let small = |age| whom(age, None, true, Region::Uk);
        assert_eq!(small(None), "small, UK");
        assert_eq!(small(Some((14, true))), "14 years, small, UK");
        assert_eq!(whom(None, None, false, Region::Uk), "adult, UK");
    }
}
