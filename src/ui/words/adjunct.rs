//! What is given besides the enzyme.

use crate::care::adjunct::{Act, Choice, Hindrance};
use crate::protocol::adjunct::{Adjunct, Milligrams};

pub const fn adjunct(adjunct: Adjunct) -> &'static str {
    match adjunct {
        Adjunct::Warmth => "Warm compress",
        Adjunct::Massage => "Massage",
        Adjunct::Aspirin => "Aspirin",
        Adjunct::Clopidogrel => "Clopidogrel",
        Adjunct::Nitroglycerin => "Nitroglycerin paste",
        Adjunct::Oxygen => "Hyperbaric oxygen",
        Adjunct::Cold => "Cold compress",
    }
}

pub fn milligrams(amount: Milligrams) -> String {
    format!("{} mg", amount.0)
}

pub const fn hindrance(hindrance: Hindrance) -> &'static str {
    match hindrance {
        Hindrance::Contraindicated => "something speaks against it",
        Hindrance::NotAtHand => "not at hand",
        Hindrance::NotAllowed => "nobody here may prescribe it",
        Hindrance::Other => "another reason, in the notes",
    }
}

pub fn choice(choice: Choice) -> String {
    match choice {
        Choice::Given(None) => "given".into(),
        Choice::Given(Some(amount)) => format!("{} given", milligrams(amount)),
        Choice::Stopped => "stopped".into(),
        Choice::Declined => "not wanted".into(),
        Choice::NotPossible(why) => format!("not possible: {}", hindrance(why)),
    }
}

/// What was recorded, in a line.
pub fn act(act: &Act) -> String {
    match act {
        Act::Asked(_) => "Asked before aspirin".into(),
        Act::Chose(which, chosen) => format!("{}: {}", adjunct(*which), choice(*chosen)),
    }
}
