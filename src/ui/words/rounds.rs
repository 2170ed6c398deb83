//! Rounds, looks, proposals, ends.

use super::{numbers, situation};
use crate::care::dose::{Remedy, Standing};
use crate::care::perfusion::{Aspect, Change, Next, Trend, Why};
use crate::care::rounds::{End, HandOver, Sign, SkipReason};
use crate::protocol::Protocol;

pub fn skip(reason: SkipReason) -> &'static str {
    match reason {
        SkipReason::Perfused => "Blood is back there",
        SkipReason::Unsafe => "Not safe there",
        SkipReason::Patient => "The patient asked to stop",
        SkipReason::RanOut => "The syringe was empty",
    }
}

pub const SKIPS: [SkipReason; 4] =
    [SkipReason::Perfused, SkipReason::Unsafe, SkipReason::Patient, SkipReason::RanOut];

pub fn hand_over(reason: HandOver) -> &'static str {
    match reason {
        HandOver::Sight => "Sight changed",
        HandOver::Stroke => "Signs of a stroke",
        HandOver::Reaction => "A severe reaction",
        HandOver::NoImprovement => "Rounds without improvement",
        HandOver::NoEnzyme => "No enzyme left",
        HandOver::Necrosis => "Skin is dying",
        HandOver::Other => "Another reason",
    }
}

pub const HAND_OVERS: [HandOver; 7] = [
    HandOver::NoImprovement,
    HandOver::Sight,
    HandOver::Stroke,
    HandOver::Reaction,
    HandOver::Necrosis,
    HandOver::NoEnzyme,
    HandOver::Other,
];

words! {
    pub look_now = "Look now";
}

pub fn end(end: End) -> String {
    match end {
        End::Done => "Done".into(),
        End::HandedOver(reason) => format!("Handed over: {}", hand_over(reason)),
        End::Stopped => "Stopped before it was done".into(),
    }
}

pub fn change(change: Change) -> &'static str {
    match change {
        Change::Better => "Better than at the look before",
        Change::Same => "No change since the look before",
        Change::Mixed => "Better in one sign, worse in another",
        Change::Worse => "Worse than at the look before",
    }
}

pub fn next(next: Next) -> String {
    match next {
        Next::Stop => "Refill, colour and pain are back".into(),
        Next::Repeat => "Another round".into(),
        Next::Widen => "Another round, on more skin".into(),
        Next::HandOver(reason) => {
            format!("Call for help: {}", hand_over(reason).to_lowercase())
        }
    }
}

pub fn aspect(aspect: Aspect) -> &'static str {
    match aspect {
        Aspect::Refill => "Refill",
        Aspect::Colour => "Colour",
        Aspect::Pain => "Pain",
        Aspect::Temperature => "Temperature",
        Aspect::Function => "Movement and feeling",
        Aspect::Outline => "Skin without blood",
    }
}

pub fn trend(trend: Trend) -> &'static str {
    match trend {
        Trend::Better => "better",
        Trend::Same => "as before",
        Trend::Worse => "worse",
        Trend::NotCompared => "not compared",
    }
}

pub fn why(why: Why) -> String {
    match why {
        Why::Wanting(Sign::Refill) => "Refill is not back, or was not timed".into(),
        Why::Wanting(Sign::Colour) => "Colour is not back".into(),
        Why::Wanting(Sign::Pain) => "Pain is not gone".into(),
        Why::AllBack => "The end point published: refill, skin colour, no pain".into(),
        Why::NotCompared => "The other side was not timed: time it before you end".into(),
        Why::StillCool => "Still cooler than the other side".into(),
        Why::StillImpaired => "Movement or feeling is not back".into(),
        Why::Changed(found) => change(found).into(),
        Why::Became(sign, became) => format!("{}: {}", aspect(sign), trend(became)),
        Why::NoImprovement(rounds) => {
            format!("{} without improvement", numbers::count(rounds, "round", "rounds"))
        }
        Why::RedFlag(flag) => situation::red_flag(flag).into(),
        Why::Blackening => "Skin is turning black".into(),
    }
}

pub fn standing(standing: Standing, protocol: &Protocol) -> String {
    let range = numbers::units_range(protocol.round_low, protocol.round_high);
    match standing {
        Standing::BelowConsensus => format!(
            "Below the {} that a consensus names as the least",
            numbers::units_named(protocol.least_units)
        ),
        Standing::Below => format!("Below the range in force, {range} a round"),
        Standing::Within => format!("Within the range in force, {range} a round"),
        Standing::Above => format!("Above the range in force, {range} a round"),
    }
}

pub fn remedy(remedy: Remedy) -> String {
    match remedy {
        Remedy::Spacing(spacing) => format!("Points {} apart", numbers::length_named(spacing)),
        Remedy::Bolus(bolus) => format!("{} at each point", numbers::volume_named(bolus)),
        Remedy::Strength(strength) => numbers::strength_named(strength),
    }
}
