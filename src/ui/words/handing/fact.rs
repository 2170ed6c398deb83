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
use crate::ui::language::{spoken, within};

/// A moment, and how long ago it was: "14:05, 12 min ago". Of another day, with its day.
pub fn when(at: Moment, now: Moment) -> String {
    let same_day = clock::date(at) == clock::date(now);
    let hour = if same_day { time::hour(at) } else { time::day_hour(at) };
    match now.since(at) {
        gone if gone < Span::minutes(1) => tr!("{hour}, just now", hour),
        gone => tr!("{hour}, {span} ago", hour, span = time::span(gone)),
    }
}

/// A fact as it is said.
#[allow(clippy::too_many_lines, reason = "one line for each fact")]
pub fn fact(fact: &Fact, now: Moment) -> String {
    match fact {
        Fact::Reason(reason) => {
            tr!("I hand over a patient: {reason}.", reason = within(rounds::hand_over(*reason)))
        }
        Fact::Flag(flag) => noticed(*flag, now),
        Fact::Reaction { started, active, better } => {
            let state = spoken(match (active, better) {
                (true, false) => "not better yet",
                (true, true) => "better since the last adrenaline",
                (false, _) => "over, or taken over",
            });
            let when = when(*started, now);
            tr!("Severe allergic reaction, noticed at {when}; {state}.", when, state)
        }
        Fact::Way(Urgency::Urgent) => tr!("Suspected blocked artery in the skin after filler."),
        Fact::Way(Urgency::Planned) => tr!("Planned removal of filler with hyaluronidase."),
        Fact::Onset(None) => tr!("Nobody noted when the first sign was seen."),
        Fact::Onset(Some((at, _))) => {
            tr!("First sign seen at {when}.", when = when(*at, now))
        }
        Fact::Zones(zones) => {
            let names: Vec<String> =
                zones.iter().map(|zone| within(situation::zone(*zone))).collect();
            tr!("Where: {zones}.", zones = names.join(", "))
        }
        Fact::Area(area) => tr!("Skin without blood: {area}.", area = numbers::area_named(*area)),
        Fact::Filler(Filler::Hyaluronic) => tr!("Injected before: hyaluronic acid filler."),
        Fact::Filler(Filler::Other) => tr!("Injected before: a filler of another kind."),
        Fact::Filler(Filler::Unknown) => tr!("Nobody noted which filler was injected before."),
        Fact::Person(person) => self::person(*person),
        Fact::Allergy(None) => tr!("Allergy was not asked about."),
        Fact::Allergy(Some(answers)) => self::answers(answers),
        Fact::SkinTest(verdict) => {
            let verdict = within(allergy::verdict(*verdict));
            tr!("Skin test with the enzyme: {verdict}.", verdict)
        }
        Fact::Round { number, begun, finished, strength, volume, units, batches } => {
            let hours = match finished {
                Some(finished) => tr!(
                    "{begun} to {finished}",
                    begun = time::hour(*begun),
                    finished = when(*finished, now)
                ),
                None => tr!("begun at {when}, not finished", when = when(*begun, now)),
            };
            let batches = if batches.is_empty() {
                tr!("Batch not noted")
            } else {
                tr!("Batch {batch}", batch = batches.join(", "))
            };
            tr!(
                "Round {number}, {hours}: {units} of hyaluronidase in {volume}, {strength}. {batches}.",
                number,
                hours,
                units = numbers::units_named(*units),
                volume = numbers::volume_named(*volume),
                strength = numbers::strength_named(*strength),
                batches
            )
        }
        Fact::InAll { rounds, units, volume } => tr!(
            "In all {count} round: {units} in {volume}."
                | "In all {count} rounds: {units} in {volume}." % *rounds,
            count = numbers::whole(*rounds),
            units = numbers::units_named(*units),
            volume = numbers::volume_named(*volume)
        ),
        Fact::NoEnzyme => tr!("No hyaluronidase was given."),
        Fact::Adrenaline { at, volume } => tr!(
            "Adrenaline {dose} into the thigh muscle at {when}.",
            dose = sheet::micrograms(*volume),
            when = when(*at, now)
        ),
        Fact::Besides(chosen) => {
            let (name, choice) = (adjunct::adjunct(chosen.adjunct), adjunct::choice(chosen.choice));
            format!("{name}: {choice}, {}.", when(chosen.at, now))
        }
        Fact::Found { signs, refill } => {
            let signs = signs.iter().map(|sign| within(situation::sign(*sign)));
            let parts: Vec<String> = refill.map(self::refill).into_iter().chain(signs).collect();
            if parts.is_empty() {
                tr!("Found at the start: none of the signs on the skin.")
            } else {
                tr!("Found at the start: {found}.", found = parts.join("; "))
            }
        }
        Fact::Look { at, refill, colour, pain, temperature, function } => {
            let seen = seen(*refill, *colour, *pain, *temperature, *function);
            tr!("Looked at {when}: {seen}.", when = when(*at, now), seen)
        }
        Fact::Trend(change) => {
            tr!("From the first look to the last: {trend}.", trend = trend(*change))
        }
        Fact::Wanting(signs) => wanting(signs),
        Fact::Stuck(rounds) => tr!(
            "{count} round without improvement." | "{count} rounds without improvement." % *rounds,
            count = numbers::whole(*rounds)
        ),
        Fact::NotLooked => tr!("No look at the skin after treatment is noted."),
    }
}

fn person(person: Person) -> String {
    let sex = person.sex.map(|sex| situation::sex(sex).to_owned());
    let years = person
        .years
        .map(|years| tr!("{count} year" | "{count} years" % years, count = numbers::whole(years)));
    format!("{}.", sex.into_iter().chain(years).collect::<Vec<_>>().join(", "))
}

/// What was answered about allergy; what nobody knows is said to be so.
fn answers(answers: &Answers) -> String {
    let answer =
        |label: &str, answer: Answer| format!("{label}: {}", within(allergy::answer(answer)));
    let mut parts = vec![
        answer(spoken("Allergy to hyaluronidase"), answers.previous_reaction),
        answer(spoken("bee stings"), answers.bee),
        answer(spoken("wasp stings"), answers.wasp),
    ];
    if answers.species != Species::Unknown {
        parts.push(tr!("enzyme: {species}", species = within(allergy::species(answers.species))));
    }
    let medicines = answers.medicines.iter().map(|one| allergy::medicine(*one).to_owned());
    parts.extend(medicines);
    format!("{}.", parts.join("; "))
}

fn refill(refill: Refill) -> String {
    within(&round_screens::refill_pair(refill.affected, refill.opposite))
}

fn seen(
    refill: Option<Refill>,
    colour: Colour,
    pain: Pain,
    temperature: Option<Temperature>,
    function: Option<Function>,
) -> String {
    let refill = refill.map_or_else(|| tr!("refill not timed"), self::refill);
    let colour = tr!("colour {colour}", colour = within(situation::colour(colour)));
    let pain = within(&round_screens::pain_score(pain));
    let felt = temperature.map(|felt| within(situation::temperature(felt)));
    let tried = function.map(|tried| within(situation::function(tried)));
    let rest = felt.into_iter().chain(tried);
    [refill, colour, pain].into_iter().chain(rest).collect::<Vec<_>>().join("; ")
}

fn trend(change: Change) -> &'static str {
    spoken(match change {
        Change::Better => "better",
        Change::Same => "no change",
        Change::Mixed => "better in one sign, worse in another",
        Change::Worse => "worse",
    })
}

fn wanting(signs: &[Sign]) -> String {
    let name = |sign: &Sign| {
        spoken(match sign {
            Sign::Refill => "refill",
            Sign::Colour => "colour",
            Sign::Pain => "pain",
        })
    };
    if signs.is_empty() {
        return tr!("Refill, colour and pain are back.");
    }
    tr!("Not back yet: {signs}.", signs = signs.iter().map(name).collect::<Vec<_>>().join(", "))
}
