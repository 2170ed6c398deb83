//! Allergy and the skin test.

use super::numbers;
use crate::care::allergy::{Answer, Caution, Medicine, Pregnancy, Species, Way};
use crate::care::skin_test::{Call, Verdict};
use crate::protocol::fact::{BEE_SENSITISED, DESENSITISED_POSITIVE, WASP_POSITIVE};
use crate::protocol::intradermal::{Criterion, Reading, Scheme};
use crate::ui::language::spoken;

pub fn answer(answer: Answer) -> &'static str {
    spoken(match answer {
        Answer::No => "No",
        Answer::Yes => "Yes",
        Answer::Unknown => "Not known",
    })
}

pub const ANSWERS: [Answer; 3] = [Answer::No, Answer::Yes, Answer::Unknown];

pub fn species(species: Species) -> &'static str {
    spoken(match species {
        Species::Bovine => "Bovine",
        Species::Ovine => "Ovine",
        Species::Recombinant => "Human recombinant",
        Species::Unknown => "Not known",
    })
}

pub const SPECIES: [Species; 4] =
    [Species::Bovine, Species::Ovine, Species::Recombinant, Species::Unknown];

pub fn medicine(medicine: Medicine) -> &'static str {
    spoken(match medicine {
        Medicine::Salicylates => "Salicylates in large doses, other NSAIDs",
        Medicine::Corticosteroids => "Cortisone, ACTH",
        Medicine::Oestrogens => "Oestrogens",
        Medicine::Antihistamines => "Antihistamines",
        Medicine::Heparin => "Heparin",
        Medicine::Aminoglycosides => "Aminoglycosides",
        Medicine::AlphaAgonists => "Dopamine, alpha-agonists",
        Medicine::Incompatible => "Furosemide, benzodiazepines, phenytoin",
    })
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
    spoken(match pregnancy {
        Pregnancy::Neither => "Neither",
        Pregnancy::Pregnant => "Pregnant",
        Pregnancy::Breastfeeding => "Nursing",
        Pregnancy::Unknown => "Not known",
    })
}

pub const PREGNANCY: [Pregnancy; 4] =
    [Pregnancy::Neither, Pregnancy::Pregnant, Pregnancy::Breastfeeding, Pregnancy::Unknown];

/// The way in a line.
pub fn way(way: Way) -> &'static str {
    spoken(match way {
        Way::GoOn => "No skin test: go on, ready for a reaction",
        Way::Weigh => "Known reaction: weigh it, with help on the line",
        Way::Test { raised: false } => "Skin test first",
        Way::Test { raised: true } => "Skin test first: a reaction is likelier than usual",
        Way::Allergist => "To an allergist first",
        Way::Postpone => "Not during pregnancy",
        Way::Closed => "Not to be treated with hyaluronidase",
    })
}

/// What the way means.
pub fn way_why(way: Way) -> String {
    match way {
        Way::GoOn => spoken("When skin is dying there is no time for a test.").to_owned(),
        Way::Weigh => spoken(
            "The label forbids the enzyme after a reaction to it. If the tissue is lost without it, \
             that is for you to weigh, with emergency services called and adrenaline drawn.",
        )
        .to_owned(),
        Way::Test { .. } => {
            spoken("In planned work there is time to test, and nothing is lost by it.").to_owned()
        }
        Way::Allergist => tr!(
            "Of wasp-allergic people without immunotherapy, {share} were prick-positive to the \
             medicine. A planned correction can wait for an allergist.",
            share = numbers::share(WASP_POSITIVE)
        ),
        Way::Postpone => {
            spoken("Labels say to avoid it unless nothing safer exists. Filler can wait.")
                .to_owned()
        }
        Way::Closed => {
            spoken("An earlier reaction to hyaluronidase forbids it, and this work is not urgent.")
                .to_owned()
        }
    }
}

pub fn caution(caution: Caution) -> String {
    match caution {
        Caution::KnownReaction => {
            spoken("The label forbids the enzyme after a reaction to it.").to_owned()
        }
        Caution::Wasp => tr!(
            "Wasp allergy without immunotherapy: {share} were prick-positive.",
            share = numbers::share(WASP_POSITIVE)
        ),
        Caution::Bee => tr!(
            "Bee allergy: {share} are sensitised to bee hyaluronidase; in one study none reacted \
             to the medicine.",
            share = numbers::share(BEE_SENSITISED)
        ),
        Caution::Desensitised => tr!(
            "After venom immunotherapy {share} were prick-positive.",
            share = numbers::share(DESENSITISED_POSITIVE)
        ),
        Caution::StingsUnknown => {
            spoken("Bee and wasp are asked separately: not knowing is not no.").to_owned()
        }
        Caution::Blunts(medicine) => {
            tr!("{medicine}: more enzyme may be needed.", medicine = self::medicine(medicine))
        }
        Caution::Inhibits(medicine) => tr!(
            "{medicine}: reported to inhibit the enzyme (second hand).",
            medicine = self::medicine(medicine)
        ),
        Caution::NotWith(medicine) => {
            tr!(
                "{medicine}: not to be enhanced by the enzyme.",
                medicine = self::medicine(medicine)
            )
        }
        Caution::NotMixed => {
            spoken("Furosemide, benzodiazepines, phenytoin: not in one syringe with the enzyme.")
                .to_owned()
        }
        Caution::HidesTest => {
            spoken("Antihistamines can hide a positive skin test (from memory).").to_owned()
        }
        Caution::Pregnancy => spoken("Pregnancy: avoid unless nothing safer exists.").to_owned(),
        Caution::Breastfeeding => spoken("Nursing: with care; some labels forbid it.").to_owned(),
    }
}

pub fn verdict(verdict: Verdict) -> &'static str {
    spoken(match verdict {
        Verdict::Positive => "Positive",
        Verdict::Doubtful => "Doubtful: treated as not negative",
        Verdict::Negative => "Negative",
        Verdict::TooLate => "Too late to say: repeat the test",
        Verdict::TooEarly => "Too early to say",
    })
}

pub fn call(call: Call) -> &'static str {
    spoken(match call {
        Call::Positive => "positive",
        Call::Negative => "not positive",
        Call::OtherTime => "reads at another time",
        Call::NoBleb => "needs the bleb's size",
    })
}

pub fn scheme(scheme: Scheme) -> &'static str {
    spoken(match scheme {
        Scheme::Eaaci => "EAACI",
        Scheme::Bsaci => "BSACI",
        Scheme::Sfar => "SFAR",
        Scheme::Escd => "ESCD",
        Scheme::Macy => "Macy",
        Scheme::UsLabel => "US label",
    })
}

/// A guideline's criterion and time.
pub fn reading(reading: &Reading) -> String {
    let (from, to) = (reading.from.as_minutes(), reading.to.as_minutes());
    let time = if from == to {
        tr!("{minutes} min", minutes = from)
    } else {
        tr!("{from} to {to} min", from, to)
    };
    let criterion = match reading.criterion {
        Criterion::LargerBy(more) => {
            tr!("bleb + {length} or more, with flare", length = numbers::length_named(more))
        }
        Criterion::TimesBleb(times) => tr!("{times} times the bleb or more", times),
        Criterion::Wide(least) => {
            tr!("{length} or more", length = numbers::length_named(least))
        }
        Criterion::WideWithErythema(least) => {
            tr!("{length} or more, with redness", length = numbers::length_named(least))
        }
        Criterion::PseudopodsAndItch => spoken("branching wheal with itch").to_owned(),
    };
    format!("{time}: {criterion}")
}
