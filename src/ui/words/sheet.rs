//! The anaphylaxis sheet.

use super::{anaphylaxis, numbers, protocol, time};
use crate::care::anaphylaxis::{Counted, Dose, NoWeight, Observation};
use crate::measure::{Mass, Moment, Span, Volume};
use crate::phone::clock;
use crate::protocol::adrenaline::{
    DOSE_WITHIN, GOOD_RESPONSE, MICROGRAMS_PER_UL, UK_SMALL, source,
};
use crate::protocol::{Basis, Protocol, Region};
use crate::ui::language::{spoken, unbroken, within};

words! {
    pub title = "Anaphylaxis";
    pub call = "Stop injecting. Call the emergency number, say “anaphylaxis”.";
    pub called = "Called";
    pub give = "Adrenaline now";
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
    match next {
        None => tr!("Severe reaction, not over."),
        Some(at) => {
            let hour = time::hour(at);
            tr!("Severe reaction, not over. Adrenaline again at {hour}.", hour)
        }
    }
}

/// The reference of a case that begins with a reaction.
pub fn reference(at: Moment) -> String {
    tr!("Reaction {hour}", hour = time::hour(at))
}

/// At its hour.
pub fn at(what: &str, at: Moment) -> String {
    format!("{what} {}", time::hour(at))
}

/// The strength that every volume here is of. A microgram in a microlitre is a milligram in a
/// millilitre.
pub fn strength() -> String {
    tr!("{amount} mg/mL", amount = MICROGRAMS_PER_UL)
}

/// What is given, and where.
pub fn route() -> String {
    tr!(
        "Adrenaline {strength}, into the muscle of the outer thigh, at its middle",
        strength = strength()
    )
}

pub fn micrograms(volume: Volume) -> String {
    tr!("{amount} micrograms", amount = volume.raw() * MICROGRAMS_PER_UL)
}

/// A dose without its unit.
pub fn dose(dose: Dose) -> String {
    if dose.low == dose.high {
        numbers::volume(dose.low)
    } else {
        tr!("{low} to {high}", low = numbers::volume(dose.low), high = numbers::volume(dose.high))
    }
}

/// How much a dose is.
pub fn amount(dose: Dose) -> String {
    if dose.low == dose.high {
        micrograms(dose.low)
    } else {
        let low = dose.low.raw() * MICROGRAMS_PER_UL;
        tr!("{low} to {high}", low, high = micrograms(dose.high))
    }
}

/// Under the dose: how much that is, and for whom.
pub fn dose_note(dose: Dose, whom: &str) -> String {
    format!("{} · {whom}", amount(dose))
}

/// For whom the dose is: by weight where it is, else by age and, where it counts, build.
pub fn whom(age: Option<(u32, bool)>, weight: Option<Mass>, small: bool, region: Region) -> String {
    let region = anaphylaxis::region(region);
    let age = age.map(|(number, years)| {
        if years {
            tr!("{count} year" | "{count} years" % number, count = numbers::whole(number))
        } else {
            tr!("{count} month" | "{count} months" % number, count = numbers::whole(number))
        }
    });
    let weight = weight.map(|weight| format!("{} {}", kilograms(weight), kg()));
    let small = small.then(|| small_person().to_owned());
    let parts: Vec<String> = weight.into_iter().chain(age).chain(small).collect();
    if parts.is_empty() {
        format!("{}, {region}", adult())
    } else {
        format!("{}, {region}", parts.join(", "))
    }
}

/// Kilograms without their name.
pub fn kilograms(weight: Mass) -> String {
    let tenths = weight.as_grams() / 100;
    match tenths % 10 {
        0 => (tenths / 10).to_string(),
        part => numbers::typed(&format!("{}.{part}", tenths / 10)),
    }
}

/// Why a weight gives no dose; nothing where the table has none for any.
pub fn no_weight(why: NoWeight) -> Option<String> {
    match why {
        NoWeight::ByAge => None,
        NoWeight::TooLight(least) => Some(tr!(
            "The table begins at {least} kg: below, the age decides.",
            least = kilograms(least)
        )),
        NoWeight::TooHeavy(most) => {
            Some(tr!("Over {most} kg: a digit too many?", most = kilograms(most)))
        }
    }
}

/// That no dose is known, and what is wanting for one.
pub fn no_dose(why: &str) -> String {
    tr!("No dose yet. {why}", why)
}

/// The other table, where it says otherwise.
pub fn other(region: Region, dose: Dose) -> String {
    tr!(
        "{region} says {dose} mL ({citation}).",
        region = anaphylaxis::region(region),
        dose = self::dose(dose),
        citation = source(region).citation
    )
}

/// The dose of the small, for the choice.
pub fn small() -> String {
    numbers::volume_named(UK_SMALL)
}

pub fn given(number: usize, volume: Option<Volume>) -> String {
    let what = match number {
        1 => tr!("Adrenaline given"),
        number => tr!("Dose {number} given", number),
    };
    match volume {
        Some(volume) => format!("{what}, {}", numbers::volume_named(volume)),
        None => what,
    }
}

pub fn doses(number: usize, last: Moment) -> String {
    tr!("Dose {number} given at {hour}", number, hour = time::hour(last))
}

/// Given earlier than the tables repeat it.
pub fn early(number: usize) -> String {
    tr!("Dose {number} is given already", number)
}

pub fn early_why(repeat: Span) -> String {
    tr!("The tables repeat after {span}, if it is not better.", span = time::span(repeat))
}

pub fn early_confirm(number: usize, volume: Option<Volume>) -> String {
    match volume {
        Some(volume) => {
            let volume = numbers::volume_named(volume);
            tr!("Dose {number}, {volume}, is in", number, volume)
        }
        None => tr!("Dose {number} is in", number),
    }
}

pub fn refractory(doses: u32) -> String {
    tr!(
        "{count} dose and no better: refractory"
            | "{count} doses and no better: refractory" % doses,
        count = numbers::whole(doses)
    )
}

words! {
    pub refractory_more = "Antihistamines come third; steroids are no longer routine.";
}

/// What the UK guideline says then.
pub fn refractory_act(protocol: &Protocol) -> String {
    tr!(
        "Experts to the patient now. Fluids into a vein. Adrenaline every {span} meanwhile.",
        span = time::span(protocol.adrenaline_repeat)
    )
}

pub const COURSES: usize = 6;

/// The facts that the time of observation depends on.
pub fn course(place: usize) -> String {
    match place {
        0 => tr!(
            "Good response within {low} to {high} of one dose, given within {span} of onset",
            low = GOOD_RESPONSE.0.as_minutes(),
            high = time::span(GOOD_RESPONSE.1),
            span = time::span(DOSE_WITHIN)
        ),
        1 => tr!("Fully settled; has auto-injectors, knows how; somebody at home"),
        2 => tr!("A reaction in two waves before"),
        3 => tr!("Severe asthma or breathing trouble"),
        4 => tr!("What caused it may still be taken up"),
        _ => tr!("Late at night, far from help, or cannot react if worse"),
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
    tr!("{region} rule. {citation}", region, citation = cited(&watched.watch))
}

/// Who says so; of what nobody looked up, where it is to be looked up.
fn cited(watch: &Observation) -> String {
    let citation = watch.source.citation;
    match watch.least_basis.source() {
        Some(_) => citation.to_owned(),
        None => tr!("To be looked up: {citation}", citation),
    }
}

/// How well founded the hour is: the length, and the moment from which it is counted.
pub fn founded(watched: &Watched) -> String {
    let status = |basis| match basis {
        // It is the rule's reading, and no value that a clinic sets.
        Basis::Proposal => spoken("this app’s proposal").to_owned(),
        basis => within(protocol::status(basis)),
    };
    let (length, start) = (status(watched.watch.least_basis), status(watched.watch.counted_basis));
    if length == start {
        tr!("Length and starting moment: {length}.", length)
    } else {
        tr!("Length: {length}. Starting moment: {start}.", length, start)
    }
}

pub fn observe(watched: &Watched) -> String {
    tr!("At least {span}", span = time::span(watched.watch.least))
}

/// From when it is counted.
pub fn counted(watched: &Watched) -> String {
    match (watched.watch.counted, watched.last_dose) {
        (Counted::FromLastDose, Some(at)) => {
            tr!("from the last dose at {hour}", hour = time::hour(at))
        }
        (Counted::FromLastDose | Counted::FromSettled, _) => {
            tr!("from when it had settled, at {hour}", hour = time::hour(watched.settled))
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
    if watched.watch.overnight { format!(" {}", night_label()) } else { String::new() }
}

/// What the other region's rule says.
pub fn observe_other(watched: &Watched) -> String {
    let rule = tr!(
        "{region} says: {least}, {counted}, so until {until}.",
        region = anaphylaxis::region(watched.region),
        least = within(&observe(watched)),
        counted = counted(watched),
        until = until(watched)
    );
    format!("{rule} {}{} {}.", founded(watched), night(watched), cited(&watched.watch))
}

pub fn observe_note(watched: &Watched) -> String {
    let rule = tr!(
        "Observation after anaphylaxis, {region} rule: {least}, {counted}, until {until}.",
        region = anaphylaxis::region(watched.region),
        least = within(&observe(watched)),
        counted = counted(watched),
        until = until(watched)
    );
    unbroken(&format!("{rule} {}{}", founded(watched), night(watched)))
}

#[cfg(test)]
mod tests;
