//! Allergy and the skin test.

use super::numbers;
use crate::care::allergy::{Answer, Caution, Medicine, Pregnancy, Species, Way};
use crate::care::skin_test::{Call, Verdict};
use crate::protocol::fact::{BEE_SENSITISED, DESENSITISED_POSITIVE, WASP_POSITIVE};
use crate::protocol::intradermal::{Criterion, Reading, Scheme};

pub fn answer(answer: Answer) -> &'static str {
    match answer {
        Answer::No => "No",
        Answer::Yes => "Yes",
        Answer::Unknown => "Not known",
    }
}

pub const ANSWERS: [Answer; 3] = [Answer::No, Answer::Yes, Answer::Unknown];

pub fn species(species: Species) -> &'static str {
    match species {
        Species::Bovine => "Bovine",
        Species::Ovine => "Ovine",
        Species::Recombinant => "Human recombinant",
        Species::Unknown => "Not known",
    }
}

pub const SPECIES: [Species; 4] =
    [Species::Bovine, Species::Ovine, Species::Recombinant, Species::Unknown];

pub fn medicine(medicine: Medicine) -> &'static str {
    match medicine {
        Medicine::Salicylates => "Salicylates in large doses, other NSAIDs",
        Medicine::Corticosteroids => "Cortisone, ACTH",
        Medicine::Oestrogens => "Oestrogens",
        Medicine::Antihistamines => "Antihistamines",
        Medicine::Heparin => "Heparin",
        Medicine::Aminoglycosides => "Aminoglycosides",
        Medicine::AlphaAgonists => "Dopamine, alpha-agonists",
        Medicine::Incompatible => "Furosemide, benzodiazepines, phenytoin",
    }
}

pub const MEDICINES: [Medicine; 8] = [
    Medicine::Salicylates,
    Medicine::Corticosteroids,
    Medicine::Oestrogens,
    Medicine::Antihistamines,
    Medicine::Heparin,
    Medicine::Aminoglycosides,
    Medicine::AlphaAgonists,
    Medicine::Incompatible,
];

pub fn pregnancy(pregnancy: Pregnancy) -> &'static str {
    match pregnancy {
        Pregnancy::Neither => "Neither",
        Pregnancy::Pregnant => "Pregnant",
        Pregnancy::Breastfeeding => "Nursing",
        Pregnancy::Unknown => "Not known",
    }
}

pub const PREGNANCY: [Pregnancy; 4] =
    [Pregnancy::Neither, Pregnancy::Pregnant, Pregnancy::Breastfeeding, Pregnancy::Unknown];

/// The way in a line.
pub fn way(way: Way) -> &'static str {
    match way {
        Way::GoOn => "No skin test: go on, ready for a reaction",
        Way::Weigh => "Known reaction: weigh it, with help on the line",
        Way::Test { raised: false } => "Skin test first",
        Way::Test { raised: true } => "Skin test first: a reaction is likelier than usual",
        Way::Allergist => "To an allergist first",
        Way::Postpone => "Not during pregnancy",
        Way::Closed => "Not to be treated with hyaluronidase",
    }
}

/// What the way means.
pub fn way_why(way: Way) -> String {
    match way {
        Way::GoOn => "When skin is dying there is no time for a test.".into(),
        Way::Weigh => {
            "The label forbids the enzyme after a reaction to it. If the tissue is lost without it, \
             that is for you to weigh, with emergency services called and adrenaline drawn."
                .into()
        }
        Way::Test { .. } => {
            "In planned work there is time to test, and nothing is lost by it.".into()
        }
        Way::Allergist => format!(
            "Of wasp-allergic people without immunotherapy, {} were prick-positive to the medicine. \
             A planned correction can wait for an allergist.",
            numbers::share(WASP_POSITIVE)
        ),
        Way::Postpone => {
            "Labels say to avoid it unless nothing safer exists. Filler can wait.".into()
        }
        Way::Closed => {
            "An earlier reaction to hyaluronidase forbids it, and this work is not urgent.".into()
        }
    }
}

pub fn caution(caution: Caution) -> String {
    match caution {
        Caution::KnownReaction => "The label forbids the enzyme after a reaction to it.".into(),
        Caution::Wasp => format!(
            "Wasp allergy without immunotherapy: {} were prick-positive.",
            numbers::share(WASP_POSITIVE)
        ),
        Caution::Bee => format!(
            "Bee allergy: {} are sensitised to bee hyaluronidase; in one study none reacted to the \
             medicine.",
            numbers::share(BEE_SENSITISED)
        ),
        Caution::Desensitised => format!(
            "After venom immunotherapy {} were prick-positive.",
            numbers::share(DESENSITISED_POSITIVE)
        ),
        Caution::StingsUnknown => {
            "Bee and wasp are asked separately: not knowing is not no.".into()
        }
        Caution::Blunts(medicine) => {
            format!("{}: more enzyme may be needed.", self::medicine(medicine))
        }
        Caution::Inhibits(medicine) => {
            format!("{}: reported to inhibit the enzyme (second hand).", self::medicine(medicine))
        }
        Caution::NotWith(medicine) => {
            format!("{}: not to be enhanced by the enzyme.", self::medicine(medicine))
        }
        Caution::NotMixed => {
            "Furosemide, benzodiazepines, phenytoin: not in one syringe with the enzyme.".into()
        }
        Caution::HidesTest => "Antihistamines can hide a positive skin test (from memory).".into(),
        Caution::Pregnancy => "Pregnancy: avoid unless nothing safer exists.".into(),
        Caution::Breastfeeding => "Nursing: with care; some labels forbid it.".into(),
    }
}

pub fn verdict(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Positive => "Positive",
        Verdict::Doubtful => "Doubtful: treated as not negative",
        Verdict::Negative => "Negative",
        Verdict::TooLate => "Too late to say: repeat the test",
        Verdict::TooEarly => "Too early to say",
    }
}

pub fn call(call: Call) -> &'static str {
    match call {
        Call::Positive => "positive",
        Call::Negative => "not positive",
        Call::OtherTime => "reads at another time",
        Call::NoBleb => "needs the bleb's size",
    }
}

pub fn scheme(scheme: Scheme) -> &'static str {
    match scheme {
        Scheme::Eaaci => "EAACI",
        Scheme::Bsaci => "BSACI",
        Scheme::Sfar => "SFAR",
        Scheme::Escd => "ESCD",
        Scheme::Macy => "Macy",
        Scheme::UsLabel => "US label",
    }
}

/// A guideline's criterion and time.
pub fn reading(reading: &Reading) -> String {
    let (from, to) = (reading.from.as_minutes(), reading.to.as_minutes());
    let time = if from == to { format!("{from} min") } else { format!("{from} to {to} min") };
    let criterion = match reading.criterion {
        Criterion::LargerBy(more) => {
            format!("bleb + {} or more, with flare", numbers::length_named(more))
        }
        Criterion::TimesBleb(times) => format!("{times} times the bleb or more"),
        Criterion::Wide(least) => format!("{} or more", numbers::length_named(least)),
        Criterion::WideWithErythema(least) => {
            format!("{} or more, with redness", numbers::length_named(least))
        }
        Criterion::PseudopodsAndItch => "branching wheal with itch".into(),
    };
    format!("{time}: {criterion}")
}
