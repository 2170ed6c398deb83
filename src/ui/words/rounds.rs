//! Rounds, looks, proposals, ends.

use super::{numbers, situation};
use crate::care::dose::{Remedy, Standing};
use crate::care::perfusion::{Aspect, Change, Next, Trend, Why};
use crate::care::rounds::{End, HandOver, Sign, SkipReason};
use crate::protocol::Protocol;
use crate::ui::language::{spoken, within};

pub fn skip(reason: SkipReason) -> &'static str {
    spoken(match reason {
        SkipReason::Perfused => "Blood is back there",
        SkipReason::Unsafe => "Not safe there",
        SkipReason::Patient => "The patient asked to stop",
        SkipReason::RanOut => "The syringe was empty",
    })
}

pub const SKIPS: [SkipReason; 4] =
    [SkipReason::Perfused, SkipReason::Unsafe, SkipReason::Patient, SkipReason::RanOut];

pub fn hand_over(reason: HandOver) -> &'static str {
    spoken(match reason {
        HandOver::Sight => "Sight changed",
        HandOver::Stroke => "Signs of a stroke",
        HandOver::Reaction => "A severe reaction",
        HandOver::NoImprovement => "Rounds without improvement",
        HandOver::NoEnzyme => "No enzyme left",
        HandOver::Necrosis => "Skin is dying",
        HandOver::Other => "Another reason",
    })
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
        End::Done => tr!("how a treatment ended" => "Done"),
        End::HandedOver(reason) => tr!("Handed over: {reason}", reason = hand_over(reason)),
        End::Stopped => tr!("Stopped before it was done"),
    }
}

pub fn change(change: Change) -> &'static str {
    spoken(match change {
        Change::Better => "Better than at the look before",
        Change::Same => "No change since the look before",
        Change::Mixed => "Better in one sign, worse in another",
        Change::Worse => "Worse than at the look before",
    })
}

pub fn next(next: Next) -> String {
    match next {
        Next::Stop => tr!("Refill, colour and pain are back"),
        Next::Repeat => tr!("Another round"),
        Next::Widen => tr!("Another round, on more skin"),
        Next::HandOver(reason) => {
            tr!("Call for help: {reason}", reason = within(hand_over(reason)))
        }
    }
}

pub fn aspect(aspect: Aspect) -> &'static str {
    spoken(match aspect {
        Aspect::Refill => "Refill",
        Aspect::Colour => "Colour",
        Aspect::Pain => "Pain",
        Aspect::Temperature => "Temperature",
        Aspect::Function => "Movement and feeling",
        Aspect::Outline => "Skin without blood",
    })
}

pub fn trend(trend: Trend) -> &'static str {
    spoken(match trend {
        Trend::Better => "better",
        Trend::Same => "as before",
        Trend::Worse => "worse",
        Trend::NotCompared => "not compared",
    })
}

pub fn why(why: Why) -> String {
    match why {
        Why::Wanting(Sign::Refill) => tr!("Refill is not back, or was not timed"),
        Why::Wanting(Sign::Colour) => tr!("Colour is not back"),
        Why::Wanting(Sign::Pain) => tr!("Pain is not gone"),
        Why::AllBack => tr!("The end point published: refill, skin colour, no pain"),
        Why::NotCompared => tr!("The other side was not timed: time it before you end"),
        Why::StillCool => tr!("Still cooler than the other side"),
        Why::StillImpaired => tr!("Movement or feeling is not back"),
        Why::Changed(found) => change(found).into(),
        Why::Became(sign, became) => format!("{}: {}", aspect(sign), trend(became)),
        Why::NoImprovement(rounds) => {
            tr!(
                "{count} round without improvement" | "{count} rounds without improvement" % rounds,
                count = numbers::whole(rounds)
            )
        }
        Why::RedFlag(flag) => situation::red_flag(flag).into(),
        Why::Blackening => tr!("Skin is turning black"),
    }
}

pub fn standing(standing: Standing, protocol: &Protocol) -> String {
    let range = numbers::units_range(protocol.round_low, protocol.round_high);
    match standing {
        Standing::BelowConsensus => tr!(
            "Below the {units} that a consensus names as the least",
            units = numbers::units_named(protocol.least_units)
        ),
        Standing::Below => tr!("Below the range in force, {range} a round", range),
        Standing::Within => tr!("Within the range in force, {range} a round", range),
        Standing::Above => tr!("Above the range in force, {range} a round", range),
    }
}

pub fn remedy(remedy: Remedy) -> String {
    match remedy {
        Remedy::Spacing(spacing) => {
            tr!("Points {spacing} apart", spacing = numbers::length_named(spacing))
        }
        Remedy::Bolus(bolus) => {
            tr!("{volume} at each point", volume = numbers::volume_named(bolus))
        }
        Remedy::Strength(strength) => numbers::strength_named(strength),
    }
}
