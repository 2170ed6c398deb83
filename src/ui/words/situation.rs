//! The situation: signs, outcomes, reasons.

use super::{numbers, time};
use crate::care::allergy::Urgency;
use crate::care::refill::{Colour, Judgement, Sex, Verdict};
use crate::care::rounds::{Function, Temperature};
use crate::care::situation::{
    Aim, Caution, Filler, Ground, Missing, NotFor, Outcome, RedFlag, Sign, SiteProblem,
};
use crate::protocol::fact::REFILL_FALSE_ALARMS;
use crate::protocol::window::Window;
use crate::protocol::zone::Zone;
use crate::ui::language::spoken;

pub fn red_flag(flag: RedFlag) -> &'static str {
    spoken(match flag {
        RedFlag::Sight => "Sight changed, or pain in the eye",
        RedFlag::Stroke => "Face, arm or speech weak; confused; sudden severe headache",
        RedFlag::Airway => "Swollen throat, short of breath, or collapsed",
    })
}

/// What to do about a sign that goes before everything.
pub fn red_flag_act(flag: RedFlag) -> &'static str {
    spoken(match flag {
        RedFlag::Sight => {
            "Call emergency and eye services now. Stop injecting. Note the time and what the eye still \
             sees. Every minute counts: sources differ on how many there are, so count on none."
        }
        RedFlag::Stroke => "Call emergency services now and say: possible stroke. Note the time.",
        RedFlag::Airway => "Open the anaphylaxis sheet.",
    })
}

pub fn sign(sign: Sign) -> &'static str {
    spoken(match sign {
        Sign::Pallor => "Pale or white",
        Sign::Mottling => "Mottled, like a net",
        Sign::Blue => "Blue or dusky",
        Sign::SlowRefill => "Slow refill by eye",
        Sign::Pain => "Pain out of proportion",
        Sign::Coolness => "Cooler than the other side",
        Sign::Pustules => "Pustules",
        Sign::Blackening => "Black, firm or open skin",
    })
}

pub const SIGNS: [Sign; 8] = [
    Sign::Pallor,
    Sign::Mottling,
    Sign::Blue,
    Sign::SlowRefill,
    Sign::Pain,
    Sign::Coolness,
    Sign::Pustules,
    Sign::Blackening,
];

pub fn filler(filler: Filler) -> &'static str {
    spoken(match filler {
        Filler::Hyaluronic => "Hyaluronic acid",
        Filler::Other => "Another",
        Filler::Unknown => "Not known",
    })
}

pub fn aim(aim: Aim) -> &'static str {
    spoken(match aim {
        Aim::Part => "Take part of it away",
        Aim::All => "Take all of it away",
    })
}

pub fn site(problem: SiteProblem) -> &'static str {
    spoken(match problem {
        SiteProblem::Infection => "Infected",
        SiteProblem::Inflammation => "Acutely inflamed",
        SiteProblem::Malignancy => "Tumour, known or suspected",
        SiteProblem::Sting => "Swollen from a bite or sting",
    })
}

pub const SITE: [SiteProblem; 4] = [
    SiteProblem::Infection,
    SiteProblem::Inflammation,
    SiteProblem::Malignancy,
    SiteProblem::Sting,
];

pub fn sex(sex: Sex) -> &'static str {
    spoken(match sex {
        Sex::Female => "Woman",
        Sex::Male => "Man",
    })
}

/// The outcome in a word or two.
pub fn outcome(outcome: &Outcome) -> &'static str {
    spoken(match outcome {
        Outcome::HandOver(_) => "Hand over now",
        Outcome::Urgent(_) => "Urgent: a blocked artery",
        Outcome::Planned(Aim::Part) => "Planned: part of it",
        Outcome::Planned(Aim::All) => "Planned: all of it",
        Outcome::NotFor(_) => "Not for hyaluronidase",
        Outcome::Open(_) => "Not decided yet",
    })
}

pub fn urgency(urgency: Urgency) -> &'static str {
    spoken(match urgency {
        Urgency::Urgent => "Urgent",
        Urgency::Planned => "Planned",
    })
}

pub fn ground(ground: Ground) -> String {
    match ground {
        Ground::Sign(sign) => self::sign(sign).to_owned(),
        Ground::Refill => spoken("Refill not as it should be").to_owned(),
    }
}

pub fn not_for(reason: NotFor) -> &'static str {
    spoken(match reason {
        NotFor::OtherFiller => {
            "The filler is not hyaluronic acid, and the enzyme does not act on it. With signs of a \
             blocked artery this is an emergency all the same: call for help."
        }
        NotFor::Site(SiteProblem::Infection) => {
            "The site is infected. The enzyme spreads it; the labels forbid it."
        }
        NotFor::Site(SiteProblem::Inflammation) => {
            "The site is acutely inflamed. The US label forbids injecting into or around it."
        }
        NotFor::Site(SiteProblem::Malignancy) => {
            "A tumour at the site. The enzyme may spread it; the UK label forbids it."
        }
        NotFor::Site(SiteProblem::Sting) => {
            "Swelling from a bite or sting. The labels forbid the enzyme for it."
        }
    })
}

pub fn caution(caution: Caution) -> String {
    match caution {
        Caution::FillerUnknown => {
            spoken("Nobody knows the filler. The enzyme acts on hyaluronic acid only.").to_owned()
        }
        Caution::Site(problem) => tr!(
            "{problem}: the enzyme can spread it. In an occlusion that is weighed, not forbidden.",
            problem = site(problem)
        ),
        Caution::LateSigns => {
            spoken("Skin may already be dying. Treat, and refer to a specialist.").to_owned()
        }
        Caution::VenousPicture => spoken(
            "Quick refill with blue skin is not reassuring: blood comes in and does not leave.",
        )
        .to_owned(),
        Caution::PastWindows => {
            spoken("Later than every window reported. Treating late is still tried; refer as well.")
                .to_owned()
        }
    }
}

pub fn missing(missing: Missing) -> &'static str {
    spoken(match missing {
        Missing::Aim => "Choose how much is to go.",
        Missing::Refill => "These signs alone do not decide. Time the refill on both sides.",
    })
}

pub fn colour(colour: Colour) -> &'static str {
    spoken(match colour {
        Colour::Normal => "As the other side",
        Colour::Pale => "Pale",
        Colour::Mottled => "Mottled",
        Colour::Blue => "Blue or dusky",
        Colour::Black => "Black or firm",
    })
}

pub const COLOURS: [Colour; 5] =
    [Colour::Normal, Colour::Pale, Colour::Mottled, Colour::Blue, Colour::Black];

/// What a refill reading amounts to, with what it was compared with.
pub fn refill(judged: &Judgement) -> String {
    let limit = numbers::seconds(judged.limit);
    let found = match judged.verdict {
        Verdict::Back => tr!("Refill is within {limit} s", limit),
        Verdict::Doubtful => spoken("Refill is doubtful").to_owned(),
        Verdict::Slow if judged.over_limit => tr!("Refill is slow: over {limit} s", limit),
        Verdict::Slow => spoken("Refill is slow").to_owned(),
        Verdict::VenousPicture => spoken("Refill is quick and the skin blue").to_owned(),
    };
    match judged.slower_by {
        Some(gap) => {
            let compared =
                tr!("slower than the other side by {gap} s.", gap = numbers::seconds(gap));
            format!("{found}, {compared}")
        }
        None if judged.compared => {
            format!("{found}, {}", spoken("no slower than the other side."))
        }
        None => format!("{found}. {}", spoken("The other side was not timed.")),
    }
}

/// The limits' own limits.
pub fn refill_limits() -> String {
    tr!(
        "No limit was measured on facial skin. The other side is the better control: a fixed limit \
         calls up to {share} of healthy older people slow.",
        share = numbers::share(REFILL_FALSE_ALARMS)
    )
}

pub fn window(window: &Window, passed: bool) -> String {
    let (span, setting) = (time::span(window.within), spoken(window.setting));
    if passed {
        tr!("{span} (passed): {setting}", span, setting)
    } else {
        tr!("{span} (not passed): {setting}", span, setting)
    }
}

pub fn zone(zone: Zone) -> &'static str {
    spoken(match zone {
        Zone::UpperLip => "Upper lip",
        Zone::LowerLip => "Lower lip",
        Zone::NasolabialFold => "Nasolabial fold",
        Zone::NoseTip => "Nose tip",
        Zone::Ala => "Ala",
        Zone::Glabella => "Glabella",
        Zone::Forehead => "Forehead",
        Zone::Temple => "Temple",
        Zone::Cheek => "Cheek",
        Zone::Chin => "Chin",
        Zone::TearTrough => "Tear trough",
    })
}

pub fn temperature(felt: Temperature) -> &'static str {
    spoken(match felt {
        Temperature::Warm => "As warm as the other side",
        Temperature::Cool => "Cooler than the other side",
    })
}

pub fn function(tried: Function) -> &'static str {
    spoken(match tried {
        Function::Normal => "Moves and feels as the other side",
        Function::Impaired => "Weaker or number than the other side",
    })
}
