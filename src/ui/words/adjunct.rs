//! What is given besides the enzyme.

use super::{protocol as values, time};
use crate::care::adjunct::{Act, Adjuncts, Aspirin, Choice, Chosen, Hindrance};
use crate::care::allergy::Answer;
use crate::protocol::adjunct::{
    ASPIRIN_FROM_YEARS, ASPIRIN_LABEL_DAILY, Adjunct, Concern, Conflict, Course, EFFECT,
    METHOTREXATE_WEEKLY, Milligrams, Regimen, SAYINGS, SETTLE, SETTLE_BASIS, Stance,
};
use crate::protocol::{Basis, source};
use crate::ui::language::{spoken, spoken_as, unbroken, within};
use crate::ui::parts::Finding;

pub fn adjunct(adjunct: Adjunct) -> &'static str {
    spoken(match adjunct {
        Adjunct::Warmth => "Warm compress",
        Adjunct::Massage => "Massage",
        Adjunct::Aspirin => "Aspirin",
        Adjunct::Clopidogrel => "Clopidogrel",
        Adjunct::Nitroglycerin => "Nitroglycerin paste",
        Adjunct::Oxygen => "Hyperbaric oxygen",
        Adjunct::Cold => "Cold compress",
    })
}

pub fn milligrams(amount: Milligrams) -> String {
    tr!("{amount} mg", amount = amount.0)
}

pub fn hindrance(hindrance: Hindrance) -> &'static str {
    spoken(match hindrance {
        Hindrance::Contraindicated => "something speaks against it",
        Hindrance::NotAtHand => "not at hand",
        Hindrance::NotAllowed => "nobody here may prescribe it",
        Hindrance::Other => "another reason, in the notes",
    })
}

pub fn choice(choice: Choice) -> String {
    match choice {
        Choice::Given(None) => spoken_as(Some("besides the enzyme"), "given").to_owned(),
        Choice::Given(Some(amount)) => tr!("{dose} given", dose = milligrams(amount)),
        Choice::Stopped => tr!("stopped"),
        Choice::Declined => tr!("not wanted"),
        Choice::NotPossible(why) => tr!("not possible: {reason}", reason = hindrance(why)),
    }
}

/// What was answered before aspirin that a choice rests on: each yes, and what nobody knows.
pub fn answers(act: &Act) -> Option<String> {
    let Act::Asked(asked) = act else { return None };
    let of = |answer: Answer, heading: &str| {
        let found: Vec<String> =
            Concern::ALL.into_iter().filter(|one| asked.get(*one) == answer).map(concern).collect();
        (!found.is_empty()).then(|| format!("{heading}: {}", found.join("; ")))
    };
    let told: Vec<String> =
        [of(Answer::Yes, spoken("Yes")), of(Answer::Unknown, spoken("Not known"))]
            .into_iter()
            .flatten()
            .collect();
    Some(if told.is_empty() { tr!("No to all") } else { told.join(". ") })
}

/// What was recorded, in a line.
pub fn act(act: &Act) -> String {
    match act {
        Act::Asked(_) => tr!("Asked before aspirin"),
        Act::Chose(which, chosen) => format!("{}: {}", adjunct(*which), choice(*chosen)),
    }
}

// The page.

words! {
    pub title = "Besides the enzyme";
    pub not_instead = "None of it replaces the enzyme. Pooled cases found no significant effect of any of it.";
    pub row_detail = "Warmth, massage, aspirin and others";
    pub back = "Back to the case";
    pub given_now_label = "Given now";
    pub given_again = "Given again now";
    pub given_all_the_same = "Given all the same";
    pub stopped = "Stopped, taken away";
    pub declined = "Not wanted";
    pub not_possible = "Not possible, because";
    pub slip = "The last was a slip: strike it";
    pub said = "What the sources say";
    pub so_far = "In this case";
    pub in_mind = "With what is given";
    pub would_arise = "If it is given now";
}

pub const HINDRANCES: [Hindrance; 4] =
    [Hindrance::Contraindicated, Hindrance::NotAtHand, Hindrance::NotAllowed, Hindrance::Other];

pub fn stance(stance: Stance) -> &'static str {
    spoken(match stance {
        Stance::For => "Said to help",
        Stance::Named => "Named, where a case asks for it",
        Stance::Disputed => "Disputed, not proposed",
        Stance::Against => "Advised against",
    })
}

/// What the sources say of one, with where they say it.
pub fn sayings(which: Adjunct) -> Vec<Finding> {
    let of = SAYINGS.iter().filter(|saying| saying.adjunct == which);
    of.map(|saying| Finding {
        figure: stance(saying.stance).to_owned(),
        setting: spoken(saying.setting).to_owned(),
        citation: values::citation(saying.basis),
        status: values::status(saying.basis).to_owned(),
    })
    .collect()
}

/// How the sources stand to one, in a line.
pub fn stances(which: Adjunct) -> String {
    let mut words: Vec<&str> = Vec::new();
    for saying in SAYINGS.iter().filter(|saying| saying.adjunct == which) {
        let word = stance(saying.stance);
        if !words.contains(&word) {
            words.push(word);
        }
    }
    words.join(" · ")
}

/// What was chosen last, with its hour, short enough for the end of a row.
pub fn state(chosen: &Chosen) -> String {
    let what = match chosen.choice {
        Choice::NotPossible(_) => tr!("not possible"),
        other => choice(other),
    };
    format!("{what} {}", time::hour(chosen.at))
}

/// What of it is given now, for the way to the page.
pub fn given_now(adjuncts: &Adjuncts) -> Option<String> {
    let given = Adjunct::ALL.into_iter().filter(|which| adjuncts.given(*which).is_some());
    let names: Vec<String> = given.map(|which| within(adjunct(which))).collect();
    (!names.is_empty()).then(|| tr!("Given: {names}", names = names.join(", ")))
}

/// What does not go together, and what to do.
pub fn conflict(conflict: Conflict) -> String {
    let settle = time::span(SETTLE);
    match conflict {
        Conflict::WarmthWithCold => {
            tr!("Warmth widens the vessels that cold narrows: take one away.")
        }
        Conflict::ColdBeforeReading => {
            tr!("Cold skin refills slowly: take it away {settle} before refill is timed.", settle)
        }
        Conflict::WarmthBeforeReading => tr!(
            "Warm skin refills quickly and may please wrongly: take it away {settle} before refill is \
             timed.",
            settle
        ),
        Conflict::AspirinWithClopidogrel => {
            tr!("Aspirin with clopidogrel bleeds more. Give one of them, not both.")
        }
        Conflict::AspirinWithEnzyme => {
            tr!("Salicylates in large doses may blunt the enzyme: more of it may be needed.")
        }
        Conflict::NitroglycerinInReaction => {
            tr!("A severe reaction is not over: nitroglycerin lowers the pressure further.")
        }
    }
}

/// Where that was found.
pub fn conflict_source(conflict: Conflict) -> String {
    let (basis, where_) = conflict.basis();
    let source = sourced(spoken(where_), basis);
    match conflict {
        // How long it is left alone is no finding of that source.
        Conflict::ColdBeforeReading | Conflict::WarmthBeforeReading => {
            format!("{source} · {}: {}", time::span(SETTLE), values::status(SETTLE_BASIS))
        }
        _ => source,
    }
}

/// A remark with its source and how well it is founded.
fn sourced(remark: &str, basis: Basis) -> String {
    let citation = values::citation(basis);
    let parts = [remark, citation.as_str(), values::status(basis)];
    parts.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(" · ")
}

/// Who found no effect.
pub fn effect_source() -> String {
    sourced("", EFFECT)
}

// Doses.

words! {
    pub dose = "Which dose";
    pub dose_missing = "Choose the dose first.";
}

pub fn regimen(regimen: &Regimen) -> String {
    let first = milligrams(regimen.first);
    match regimen.then {
        Course::Once => tr!("{first}, once", first),
        Course::Daily(daily) => {
            tr!(
                "{first} at once, then {daily} each day until resolved",
                first,
                daily = milligrams(daily)
            )
        }
    }
}

pub fn regimen_source(regimen: &Regimen) -> String {
    sourced(spoken(regimen.setting), regimen.basis)
}

/// What the label has, beside the doses above.
pub fn label_dose() -> String {
    tr!("The UK label against clots has {dose} each day.", dose = milligrams(ASPIRIN_LABEL_DAILY))
}

pub fn label_source() -> String {
    sourced("", Basis::Published(source::ASPIRIN_LABEL_UK))
}

/// What is taken down as given.
pub fn dose_given(amount: Milligrams) -> String {
    tr!("{dose} given now", dose = milligrams(amount))
}

// Before aspirin.

words! {
    pub ask_title = "Before aspirin";
    pub ask_why = "What is known from the case is not asked again.";
    pub ask_now = "Ask the patient now";
    pub ask_again = "Ask again";
    pub must_not = "Aspirin must not be given";
    pub ask_first = "Not before these are asked";
    pub prescriber = "A prescriber weighs it first";
    pub may_be = "Asked: nothing speaks against it";
    pub take_not_possible = "Take down: not possible";
    pub weighed_label = "A prescriber has weighed it";
    pub not_weighed = "A prescriber weighs it first: tick it once that is done.";
    pub weekly = "How much in a week";
    pub mg = "mg";
    pub weekly_wrong = "Type it in milligrams, as in the prescription.";
}

pub fn question(concern: Concern) -> String {
    spoken(match concern {
        Concern::Allergy => "Allergic to aspirin, a salicylate or an NSAID?",
        Concern::Asthma => "Asthma or hives that such a medicine made worse?",
        Concern::Bleeding => "Haemophilia or another bleeding disorder?",
        Concern::Ulcer => "A stomach or duodenal ulcer, now or earlier?",
        Concern::Young => return tr!("Younger than {years}?", years = ASPIRIN_FROM_YEARS),
        Concern::LatePregnancy => "In the last third of the pregnancy?",
        Concern::OrganFailure => "Severe failure of liver, kidney or heart?",
        Concern::Methotrexate => "Methotrexate?",
        Concern::Anticoagulant => "An anticoagulant?",
        Concern::Antiplatelet => "Aspirin already, or another medicine against platelets?",
        Concern::Pregnancy => "Pregnant?",
        Concern::Breastfeeding => "Breastfeeding?",
    })
    .to_owned()
}

/// The same as a reason.
pub fn concern(concern: Concern) -> String {
    spoken(match concern {
        Concern::Allergy => "allergy to aspirin, a salicylate or an NSAID",
        Concern::Asthma => "asthma or hives by such a medicine",
        Concern::Bleeding => "a bleeding disorder",
        Concern::Ulcer => "a stomach or duodenal ulcer, now or earlier",
        Concern::Young => return tr!("younger than {years}", years = ASPIRIN_FROM_YEARS),
        Concern::LatePregnancy => "the last third of a pregnancy",
        Concern::OrganFailure => "severe failure of liver, kidney or heart",
        Concern::Methotrexate => {
            return tr!(
                "methotrexate, {dose} a week or more",
                dose = milligrams(METHOTREXATE_WEEKLY)
            );
        }
        Concern::Anticoagulant => "an anticoagulant",
        Concern::Antiplatelet => "aspirin already, or another medicine against platelets",
        Concern::Pregnancy => "pregnancy",
        Concern::Breastfeeding => "breastfeeding",
    })
    .to_owned()
}

/// Where a concern is from.
pub fn concern_source(which: Concern) -> String {
    sourced("", which.weight().1)
}

/// The weekly dose from which aspirin is not given.
pub fn weekly_hint() -> String {
    tr!(
        "With {dose} of methotrexate a week or more, aspirin is not given.",
        dose = milligrams(METHOTREXATE_WEEKLY)
    )
}

/// What the answers come to, on the button that takes them down.
pub fn take_answers(verdict: &Aspirin) -> String {
    spoken(match verdict {
        Aspirin::MayBeGiven => "Take down: may be given",
        Aspirin::MustNot(_) => "Take down: must not be given",
        Aspirin::Prescriber(_) => "Take down: a prescriber first",
        Aspirin::AskFirst(_) => "Take down: not all is known",
    })
    .to_owned()
}

/// That a prescriber weighed it, for the record.
pub fn weighed(which: Adjunct, concerns: &[Concern]) -> String {
    let reasons: Vec<String> = concerns.iter().map(|one| concern(*one)).collect();
    let weighed = if reasons.is_empty() {
        tr!("{adjunct}: a prescriber has weighed it.", adjunct = adjunct(which))
    } else {
        tr!(
            "{adjunct}: a prescriber has weighed it, with {reasons}.",
            adjunct = adjunct(which),
            reasons = reasons.join(", ")
        )
    };
    unbroken(&weighed)
}
