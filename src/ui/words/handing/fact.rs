//! One fact, one sentence.

use super::super::{adjunct, allergy, numbers, round_screens, rounds, sheet, situation, time};
use super::noticed;
use crate::care::allergy::{Answer, Answers, Species, Urgency};
use crate::care::handover::Fact;
use crate::care::perfusion::Change;
use crate::care::refill::{Colour, Person, Refill};
use crate::care::rounds::{Function, Pain, Sign, Temperature};
use crate::care::situation::Filler;
use crate::measure::{Moment, Span};
use crate::phone::clock;

/// A moment, and how long ago it was: "14:05, 12 min ago". Of another day, with its day.
pub fn when(at: Moment, now: Moment) -> String {
    let same_day = clock::date(at) == clock::date(now);
    let hour = if same_day { time::hour(at) } else { time::day_hour(at) };
    match now.since(at) {
        gone if gone < Span::minutes(1) => format!("{hour}, just now"),
        gone => format!("{hour}, {} ago", time::span(gone)),
    }
}

/// A fact as it is said.
#[allow(clippy::too_many_lines, reason = "one line for each fact")]
pub fn fact(fact: &Fact, now: Moment) -> String {
    match fact {
        Fact::Reason(reason) => {
            format!("I hand over a patient: {}.", rounds::hand_over(*reason).to_lowercase())
        }
        Fact::Flag(flag) => noticed(*flag, now),
        Fact::Reaction { started, active, better } => {
            let state = match (active, better) {
                (true, false) => "not better yet",
                (true, true) => "better since the last adrenaline",
                (false, _) => "over, or taken over",
            };
            format!("Severe allergic reaction, noticed at {}; {state}.", when(*started, now))
        }
        Fact::Way(Urgency::Urgent) => "Suspected blocked artery in the skin after filler.".into(),
        Fact::Way(Urgency::Planned) => "Planned removal of filler with hyaluronidase.".into(),
        Fact::Onset(None) => "Nobody noted when the first sign was seen.".into(),
        Fact::Onset(Some((at, _))) => format!("First sign seen at {}.", when(*at, now)),
        Fact::Zones(zones) => {
            let names: Vec<&str> = zones.iter().map(|zone| situation::zone(*zone)).collect();
            format!("Where: {}.", names.join(", ").to_lowercase())
        }
        Fact::Area(area) => format!("Skin without blood: {}.", numbers::area_named(*area)),
        Fact::Filler(Filler::Hyaluronic) => "Injected before: hyaluronic acid filler.".into(),
        Fact::Filler(Filler::Other) => "Injected before: a filler of another kind.".into(),
        Fact::Filler(Filler::Unknown) => "Nobody noted which filler was injected before.".into(),
        Fact::Person(person) => self::person(*person),
        Fact::Allergy(None) => "Allergy was not asked about.".into(),
        Fact::Allergy(Some(answers)) => self::answers(answers),
        Fact::SkinTest(verdict) => {
            format!("Skin test with the enzyme: {}.", allergy::verdict(*verdict).to_lowercase())
        }
        Fact::Round { number, begun, finished, strength, volume, units, batches } => {
            let hours = match finished {
                Some(finished) => format!("{} to {}", time::hour(*begun), when(*finished, now)),
                None => format!("begun at {}, not finished", when(*begun, now)),
            };
            let batches = if batches.is_empty() {
                "Batch not noted".to_owned()
            } else {
                format!("Batch {}", batches.join(", "))
            };
            format!(
                "Round {number}, {hours}: {} of hyaluronidase in {}, {}. {batches}.",
                numbers::units_named(*units),
                numbers::volume_named(*volume),
                numbers::strength_named(*strength),
            )
        }
        Fact::InAll { rounds, units, volume } => {
            let count = u32::try_from(*rounds).unwrap_or(u32::MAX);
            format!(
                "In all {}: {} in {}.",
                numbers::count(count, "round", "rounds"),
                numbers::units_named(*units),
                numbers::volume_named(*volume)
            )
        }
        Fact::NoEnzyme => "No hyaluronidase was given.".into(),
        Fact::Adrenaline { at, volume } => format!(
            "Adrenaline {} into the thigh muscle at {}.",
            sheet::micrograms(*volume),
            when(*at, now)
        ),
        Fact::Besides(chosen) => {
            let (name, choice) = (adjunct::adjunct(chosen.adjunct), adjunct::choice(chosen.choice));
            format!("{name}: {choice}, {}.", when(chosen.at, now))
        }
        Fact::Found { signs, refill } => {
            let signs = signs.iter().map(|sign| situation::sign(*sign).to_lowercase());
            let parts: Vec<String> = refill.map(self::refill).into_iter().chain(signs).collect();
            if parts.is_empty() {
                "Found at the start: none of the signs on the skin.".into()
            } else {
                format!("Found at the start: {}.", parts.join("; "))
            }
        }
        Fact::Look { at, refill, colour, pain, temperature, function } => {
            let seen = seen(*refill, *colour, *pain, *temperature, *function);
            format!("Looked at {}: {seen}.", when(*at, now))
        }
        Fact::Trend(change) => format!("From the first look to the last: {}.", trend(*change)),
        Fact::Wanting(signs) => wanting(signs),
        Fact::Stuck(count) => {
            format!("{} without improvement.", numbers::count(*count, "round", "rounds"))
        }
        Fact::NotLooked => "No look at the skin after treatment is noted.".into(),
    }
}

fn person(person: Person) -> String {
    let sex = person.sex.map(|sex| situation::sex(sex).to_owned());
    let years = person.years.map(|years| numbers::count(years, "year", "years"));
    format!("{}.", sex.into_iter().chain(years).collect::<Vec<_>>().join(", "))
}

/// What was answered about allergy; what nobody knows is said to be so.
fn answers(answers: &Answers) -> String {
    let answer = |label: &str, answer: Answer| {
        format!("{label}: {}", allergy::answer(answer).to_lowercase())
    };
    let mut parts = vec![
        answer("Allergy to hyaluronidase", answers.previous_reaction),
        answer("bee stings", answers.bee),
        answer("wasp stings", answers.wasp),
    ];
    if answers.species != Species::Unknown {
        parts.push(format!("enzyme: {}", allergy::species(answers.species).to_lowercase()));
    }
    let medicines = answers.medicines.iter().map(|one| allergy::medicine(*one).to_owned());
    parts.extend(medicines);
    format!("{}.", parts.join("; "))
}

fn refill(refill: Refill) -> String {
    round_screens::refill_pair(refill.affected, refill.opposite).to_lowercase()
}

fn seen(
    refill: Option<Refill>,
    colour: Colour,
    pain: Pain,
    temperature: Option<Temperature>,
    function: Option<Function>,
) -> String {
    let refill = refill.map_or_else(|| "refill not timed".to_owned(), self::refill);
    let colour = format!("colour {}", situation::colour(colour).to_lowercase());
    let pain = round_screens::pain_score(pain).to_lowercase();
    let felt = temperature.map(|felt| situation::temperature(felt).to_lowercase());
    let tried = function.map(|tried| situation::function(tried).to_lowercase());
    let rest = felt.into_iter().chain(tried);
    [refill, colour, pain].into_iter().chain(rest).collect::<Vec<_>>().join("; ")
}

fn trend(change: Change) -> &'static str {
    match change {
        Change::Better => "better",
        Change::Same => "no change",
        Change::Mixed => "better in one sign, worse in another",
        Change::Worse => "worse",
    }
}

fn wanting(signs: &[Sign]) -> String {
    let name = |sign: &Sign| match sign {
        Sign::Refill => "refill",
        Sign::Colour => "colour",
        Sign::Pain => "pain",
    };
    if signs.is_empty() {
        return "Refill, colour and pain are back.".into();
    }
    format!("Not back yet: {}.", signs.iter().map(name).collect::<Vec<_>>().join(", "))
}
