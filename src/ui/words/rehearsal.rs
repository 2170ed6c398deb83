//! Rehearsal: its screens, the patients, and what they show and say.

use super::{allergy, anaphylaxis, numbers, situation, time};
use crate::care::allergy::Pregnancy;
use crate::care::refill::Colour;
use crate::care::rounds::Temperature;
use crate::measure::{Date, Mass};
use crate::rehearsal::{Brief, Condition, Debrief, Says, Scenario, progress};
use crate::store::rehearsals::Played;
use crate::ui::language::{spoken, within};

words! {
    pub mark = "Rehearsal";
    pub title = "Rehearsal";
    /// The reference of its case.
    pub reference = "Drill";
    pub intro = "The whole way against a simulated patient, on the same screens and a faster clock. Nobody is treated, and nothing comes into records or stock.";
    pub any = "Any patient";
    pub any_story = "One of the patients comes in, and you are not told which. Look, ask, decide.";
    pub begin = "Let the patient in";
    pub busy = "A real case runs on this phone. Rehearse when it is over.";
    pub apart = "Draw no real vial and dial no number: each screen of the rehearsal is marked and stands in a hatched frame.";
    pub held = "A rehearsal stands still meanwhile";
    pub go_on_held = "Go on with it";
    pub history = "Played before";
    pub forget = "Forget them";
    pub forget_why = "All debriefs on this phone are deleted. Records of cases are not touched.";
    pub forget_now = "Delete all debriefs";

    pub patient = "Patient";
    pub patient_calls = "Patient calls!";
    pub seen_label = "You see and feel";
    pub told_label = "The patient says";
    pub ask = "Ask";
    pub ask_flags = "Sight, face, arm, speech, breathing?";
    pub bag_label = "In the bag";
    pub refill_where = "Time the refill on the skin drawn beside the timer, as on a patient.";

    pub clock = "Clock of the rehearsal";
    pub how_fast = "How fast while you wait";
    pub pace_why = "The clock hurries only between a round and its look. All that you do takes its real time.";
    pub pause = "Stop the clock";
    pub go_on = "Let the clock go on";
    pub to_due = "On to what is due";
    pub end = "End and look back";
    pub end_why = "Ended, it is looked back on. Loading the page again ends it without.";
    pub debrief = "Debrief";

    pub model = "A model for teaching, with invented figures: no real skin goes by it.";
    pub model_heading = "The model and its limits";
}

/// What the model does and leaves out.
pub fn model_long() -> [&'static str; 5] {
    [
        "A part of the skin has no blood. Each round opens some of it: by how much of that skin \
         the points reach, by the units on each cm², by the strength, and with time. A look \
         straight after a round shows little.",
        "Too little, in the wrong place, or none at all: the blockage stays, the skin without \
         blood grows, and after hours it is lost.",
        "An expired vial is taken to be weaker. Warmth, massage and aspirin change nothing here, \
         as pooled cases found no significant effect of them.",
        "A reaction goes on until enough adrenaline was given. Sight cannot be mended here: it has \
         to be noticed and handed over.",
        "All its figures are invented. It knows no anatomy, no depth, no needle, no ultrasound, \
         and no two real patients are as alike as two of its own.",
    ]
    .map(spoken)
}

pub fn times(times: u32) -> String {
    format!("×{times}")
}

/// The pace on the strip.
pub fn pace(faster: u32, paused: bool) -> String {
    if paused { tr!("Stopped") } else { times(faster) }
}

pub fn pace_label(pace: &str) -> String {
    format!("{}: {pace}", clock())
}

pub fn name(scenario: Scenario) -> &'static str {
    spoken(match scenario {
        Scenario::Lip => "A lip turns pale",
        Scenario::NoseWithFold => "Nose and fold",
        Scenario::Late => "Days later",
        Scenario::Venous => "A blue chin",
        Scenario::Vision => "Between the brows",
        Scenario::Anaphylaxis => "Itching in the second round",
        Scenario::Expired => "The first vial in the bag",
    })
}

/// What it is good for.
pub fn hint(scenario: Scenario) -> &'static str {
    spoken(match scenario {
        Scenario::Lip => "The plain case, from the first sign to the end point",
        Scenario::NoseWithFold => "More skin, more zones, a stomach to ask about",
        Scenario::Late => "Pustules and late windows",
        Scenario::Venous => "Refill that reassures wrongly",
        Scenario::Vision => "Something goes before everything",
        Scenario::Anaphylaxis => "The enzyme itself does harm",
        Scenario::Expired => "Read the label",
    })
}

/// What is known when the patient comes in.
pub fn story(scenario: Scenario) -> String {
    format!("{} {}", who(scenario), complaint(scenario))
}

fn complaint(scenario: Scenario) -> &'static str {
    spoken(match scenario {
        Scenario::Lip => "Filled in your chair; the lip went white and hurts.",
        Scenario::NoseWithFold => "Filled here; on the way home the nose began to ache.",
        Scenario::Late => "Filled elsewhere days ago; spots came up and the skin looks odd.",
        Scenario::Venous => "Filled here; the chin turned dusky and feels full.",
        Scenario::Vision => "Filled in your chair; the skin between the brows blanched.",
        Scenario::Anaphylaxis => "Filled here; the fold beside the nose is pale and cool.",
        Scenario::Expired => "Filled here before the last patient; the lower lip is pale.",
    })
}

/// Who it is, without the complaint.
fn who(scenario: Scenario) -> String {
    let brief = scenario.brief();
    let sex = brief.person.sex.map(|sex| situation::sex(sex).to_owned());
    let years = brief
        .person
        .years
        .map(|years| tr!("{count} year" | "{count} years" % years, count = numbers::whole(years)));
    let person: Vec<String> =
        sex.into_iter().chain(years).chain([kilograms(brief.weight)]).collect();
    let zones: Vec<String> =
        brief.zones.iter().map(|zone| within(situation::zone(*zone))).collect();
    tr!(
        "{person}. Filler in: {zones}. First sign {span} ago.",
        person = person.join(", "),
        zones = zones.join(", "),
        span = time::span(brief.onset)
    )
}

fn kilograms(mass: Mass) -> String {
    tr!("{amount} kg", amount = mass.as_grams() / 1_000)
}

/// What is seen and felt, each thing once.
pub fn seen(patient: &Condition) -> Vec<String> {
    let signs = patient.signs.iter().map(|sign| situation::sign(*sign).to_owned());
    let well = patient.colour == Colour::Normal;
    let colour =
        well.then(|| tr!("Colour: {colour}", colour = within(situation::colour(patient.colour))));
    let felt = (patient.temperature == Temperature::Warm)
        .then(|| situation::temperature(patient.temperature).to_owned());
    let tried = situation::function(patient.function).to_owned();
    let area = (!patient.area.is_zero())
        .then(|| tr!("Skin without blood: about {area}", area = numbers::area_named(patient.area)));
    let reaction = patient.reaction.iter().map(|sign| anaphylaxis::sign(*sign).to_owned());
    reaction.chain(colour).chain(signs).chain(felt).chain([tried]).chain(area).collect()
}

/// What the patient says, the most urgent first; how it hurts comes last.
pub fn told(patient: &Condition) -> Vec<String> {
    let pain = tr!(
        "Pain: {score} of {worst}",
        score = patient.pain.score(),
        worst = crate::care::rounds::Pain::WORST
    );
    // Nobody says that breathing is easier while it is hard.
    let hard = patient.said.contains(&Says::Breathless);
    let says = patient.said.iter().filter(|says| !(hard && **says == Says::Easier));
    says.map(|says| said(*says).to_owned()).chain([pain]).collect()
}

/// Whether something happens to the patient that goes before everything.
pub const fn calls(patient: &Condition) -> bool {
    !patient.flags.is_empty() || !patient.reaction.is_empty()
}

fn said(says: Says) -> &'static str {
    spoken(match says {
        Says::HurtsBadly => "“It hurts badly, much more than the needle.”",
        Says::Hurts => "“It hurts.”",
        Says::HurtsLittle => "“It hurts a little.”",
        Says::NoPain => "“It does not hurt any more.”",
        Says::Numb => "“It feels numb there.”",
        Says::BlurredLeft => "“I cannot see well with my left eye.”",
        Says::EyeHurts => "“It aches behind my eye.”",
        Says::Itches => "“I itch all over.”",
        Says::ThroatTight => "“My throat is tight.”",
        Says::Breathless => "“I cannot get enough air.”",
        Says::Faint => "“I feel faint.”",
        Says::Easier => "“I can breathe again.”",
    })
}

/// The signs that go before everything, when they are asked for.
pub fn flags(patient: &Condition) -> String {
    if patient.flags.is_empty() {
        return tr!("“No, nothing of that.”");
    }
    let found: Vec<&str> = patient.flags.iter().map(|flag| situation::red_flag(*flag)).collect();
    found.join(". ")
}

/// What can be asked, each with its answer.
pub fn questions(brief: &Brief) -> Vec<(&'static str, String)> {
    let answers = brief.answers();
    let medicines: Vec<String> =
        answers.medicines.iter().map(|medicine| allergy::medicine(*medicine).to_owned()).collect();
    let asked = brief.before_aspirin();
    let speaks: Vec<String> = crate::protocol::adjunct::Concern::ALL
        .into_iter()
        .filter(|concern| asked.get(*concern) == crate::care::allergy::Answer::Yes)
        .map(super::adjunct::concern)
        .collect();
    let none = |list: Vec<String>| {
        if list.is_empty() { tr!("Nothing.") } else { list.join("; ") }
    };
    let pregnancy = if answers.pregnancy == Pregnancy::Neither {
        tr!("Neither.")
    } else {
        allergy::pregnancy(answers.pregnancy).to_owned()
    };
    vec![
        (spoken("What was injected?"), situation::filler(brief.filler).to_owned()),
        (
            spoken("Reacted to hyaluronidase before?"),
            allergy::answer(answers.previous_reaction).to_owned(),
        ),
        (spoken("Allergic to bee stings?"), allergy::answer(answers.bee).to_owned()),
        (spoken("Allergic to wasp stings?"), allergy::answer(answers.wasp).to_owned()),
        (spoken("Desensitised?"), allergy::answer(answers.desensitised).to_owned()),
        (spoken("Which medicines?"), none(medicines)),
        (spoken("Pregnant or breastfeeding?"), pregnancy),
        (spoken("What speaks against aspirin?"), none(speaks)),
    ]
}

/// What is in the bag on a day.
pub fn bag(brief: &Brief, today: Date) -> Vec<String> {
    let vials = brief.bag.one_by_one(today).into_iter().map(|vial| {
        let (units, batch) = (numbers::units_named(vial.units), vial.batch);
        match vial.expiry.map(|date| format!("{:02}/{}", date.month(), date.year())) {
            Some(month) => {
                tr!("Hyaluronidase {units}, batch {batch}, use by {month}", units, batch, month)
            }
            None => tr!("Hyaluronidase {units}, batch {batch}", units, batch),
        }
    });
    let ampoules = brief.bag.adrenaline;
    let adrenaline = tr!(
        "Adrenaline, {count} ampoule" | "Adrenaline, {count} ampoules" % ampoules,
        count = numbers::whole(ampoules)
    );
    let aspirin = brief.bag.aspirin.then(|| tr!("Aspirin"));
    vials.chain([adrenaline]).chain(aspirin).collect()
}

/// How the last one of a scenario went, beside its name.
pub fn last(played: &[Played], scenario: Scenario) -> Option<String> {
    let last = played.iter().rev().find(|played| played.debrief.scenario == scenario)?;
    Some(spoken(if last.debrief.good { "Good end" } else { "Again" }).to_owned())
}

/// How one went, in a line.
pub fn ended(debrief: &Debrief) -> String {
    let outcome = super::debrief::outcome(debrief.outcome);
    match debrief.times.first_unit {
        Some(first) => {
            tr!("{outcome}. First unit after {span}", outcome, span = time::span(first))
        }
        None => outcome,
    }
}

/// How they came on, a line for each scenario played.
pub fn came_on(played: &[Played]) -> Vec<String> {
    let debriefs: Vec<Debrief> = played.iter().map(|played| played.debrief.clone()).collect();
    progress(&debriefs)
        .into_iter()
        .map(|found| {
            let (name, first) = (name(found.scenario), found.first_unit);
            let (good, played) = (found.good, found.played);
            match first.best {
                None => {
                    tr!("{name}: {good} of {played} to a good end", name, good, played)
                }
                Some(best) => tr!(
                    "{name}: {good} of {played} to a good end; first unit: best {best}, last {last}",
                    name,
                    good,
                    played,
                    best = time::span(best),
                    last = first.last.map_or_else(|| tr!("not given"), time::span)
                ),
            }
        })
        .collect()
}
