//! What changed in the skin since the look before, sign by sign, by stated rules; and what is
//! proposed next.
//!
//! | sign | better | worse |
//! |---|---|---|
//! | refill, affected side | quicker by more than a reader's noise and than the readings' own spread | slower by more than a reader's noise |
//! | colour | earlier in the order normal, pale, mottled, blue, black | later in it |
//! | pain | lower by a step | higher by a step |
//! | temperature | no longer cooler than the other side | cooler now |
//! | function | back | impaired now |
//! | outline | smaller by more than its noise | larger by more than its noise |
//!
//! The rules lean to the careful side: a spread between readings keeps an improvement from being
//! told, never a worsening. Of refill, colour and pain alone the whole is the same as
//! [`compare`](super::rounds::compare) gives.

use super::refill::{Colour, Person};
use super::rounds::{Change, HandOver, Look, Pain, Proposal, Reason, Treatment};
use super::situation::RedFlag;
use crate::measure::{Area, Span};
use crate::protocol::Protocol;
use crate::protocol::perfusion::{AREA_NOISE, AREA_NOISE_LEAST};
use serde::{Deserialize, Serialize};

/// How the skin feels.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Temperature {
    /// As warm as the other side.
    Warm,
    /// Cooler than the other side.
    Cool,
}

/// Movement and feeling of the part.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Function {
    /// As the other side.
    Normal,
    /// Weaker or number than the other side.
    Impaired,
}

/// The skin at one look. What was not looked at is wanting.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct State {
    /// Median refill of the affected side.
    pub refill: Option<Span>,
    /// How far its readings lie apart, if there were several.
    pub spread: Option<Span>,
    /// Colour.
    pub colour: Colour,
    /// Pain.
    pub pain: Pain,
    /// Temperature.
    pub temperature: Option<Temperature>,
    /// Function.
    pub function: Option<Function>,
    /// Surface of the outline.
    pub area: Option<Area>,
}

impl From<&Look> for State {
    fn from(look: &Look) -> Self {
        Self {
            refill: look.refill.map(|refill| refill.affected),
            spread: None,
            colour: look.colour,
            pain: look.pain,
            temperature: None,
            function: None,
            area: None,
        }
    }
}

/// A sign that is followed from look to look.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Aspect {
    /// Capillary refill.
    Refill,
    /// Colour.
    Colour,
    /// Pain.
    Pain,
    /// Temperature.
    Temperature,
    /// Function.
    Function,
    /// Surface of the outline.
    Outline,
}

/// What became of one sign.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Trend {
    /// Better.
    Better,
    /// No change beyond its noise.
    Same,
    /// Worse.
    Worse,
    /// Wanting at one of the looks.
    NotCompared,
}

/// What changed, sign by sign.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Changed {
    trends: [(Aspect, Trend); 6],
}

impl Changed {
    /// Each sign with what became of it.
    pub const fn trends(&self) -> &[(Aspect, Trend)] {
        &self.trends
    }

    /// What became of one.
    pub fn of(&self, aspect: Aspect) -> Trend {
        let found = self.trends.iter().find(|(other, _)| *other == aspect);
        found.map_or(Trend::NotCompared, |(_, trend)| *trend)
    }

    fn has(&self, trend: Trend) -> bool {
        self.trends.iter().any(|(_, other)| *other == trend)
    }

    /// The whole: better only if something is and nothing is worse.
    pub fn whole(&self) -> Change {
        match (self.has(Trend::Better), self.has(Trend::Worse)) {
            (true, false) => Change::Better,
            (false, false) => Change::Same,
            (true, true) => Change::Mixed,
            (false, true) => Change::Worse,
        }
    }
}

/// What changed between two looks.
pub fn change(before: &State, now: &State, protocol: &Protocol) -> Changed {
    let spread = before.spread.max(now.spread).unwrap_or(Span::ZERO);
    let refill = both(before.refill, now.refill, |then, here| {
        let better = then.saturating_sub(here) > protocol.refill_noise.max(spread);
        trend(better, here.saturating_sub(then) > protocol.refill_noise)
    });
    let step = u8::try_from(protocol.pain_step).unwrap_or(Pain::WORST);
    let (then, here) = (before.pain.score(), now.pain.score());
    let pain = trend(then >= here.saturating_add(step), here >= then.saturating_add(step));
    let area = both(before.area, now.area, |then, here| {
        let noise = area_noise(then.max(here));
        trend(then.saturating_sub(here) > noise, here.saturating_sub(then) > noise)
    });
    Changed {
        trends: [
            (Aspect::Refill, refill),
            (Aspect::Colour, order(&before.colour, &now.colour)),
            (Aspect::Pain, pain),
            (
                Aspect::Temperature,
                both(before.temperature, now.temperature, |then, here| order(&then, &here)),
            ),
            (
                Aspect::Function,
                both(before.function, now.function, |then, here| order(&then, &here)),
            ),
            (Aspect::Outline, area),
        ],
    }
}

/// By how much two outlines must differ, of which this is the larger.
pub fn area_noise(larger: Area) -> Area {
    let part = larger.times(u64::from(AREA_NOISE.0)).raw() / 1_000;
    Area::mm2(part).max(AREA_NOISE_LEAST)
}

fn both<T>(before: Option<T>, now: Option<T>, tell: impl FnOnce(T, T) -> Trend) -> Trend {
    before.zip(now).map_or(Trend::NotCompared, |(then, here)| tell(then, here))
}

fn trend(better: bool, worse: bool) -> Trend {
    match (better, worse) {
        (true, _) => Trend::Better,
        (_, true) => Trend::Worse,
        _ => Trend::Same,
    }
}

fn order<T: PartialOrd>(before: &T, now: &T) -> Trend {
    trend(now < before, now > before)
}

/// What is proposed next. The clinician decides.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Next {
    /// The three signs of the end point are back: stop.
    Stop,
    /// Another round on the same skin.
    Repeat,
    /// Another round on more skin.
    Widen,
    /// Call for help.
    HandOver(HandOver),
}

/// What a proposal rests on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Why {
    /// As the last look has it.
    Look(Reason),
    /// What became of a sign.
    Sign(Aspect, Trend),
    /// The skin is still cooler than on the other side, though the end point is reached.
    StillCool,
    /// The part is still impaired, though the end point is reached.
    StillImpaired,
}

/// What is proposed and why; `None` before any look, unless a sign goes before everything.
///
/// `flags` are signs of sight, stroke or airway noticed at any moment: they override the rest. Then
/// what the looks propose by themselves ([`Treatment::proposal`]); and where that is another round
/// and the outline has grown, a wider one. `states` are the looks with all that was seen, first to
/// last.
pub fn next(
    treatment: &Treatment,
    flags: &[RedFlag],
    states: &[State],
    person: Person,
    protocol: &Protocol,
) -> Option<(Next, Vec<Why>)> {
    if let Some(first) = flags.first() {
        let to = match first {
            RedFlag::Sight => HandOver::Sight,
            RedFlag::Stroke => HandOver::Stroke,
            RedFlag::Airway => HandOver::Reaction,
        };
        let why = flags.iter().map(|flag| Why::Look(Reason::RedFlag(*flag))).collect();
        return Some((Next::HandOver(to), why));
    }
    let (proposal, reasons) = treatment.proposal(person, protocol)?;
    let mut why: Vec<Why> = reasons.into_iter().map(Why::Look).collect();
    let changed = match states {
        [.., before, now] => Some(change(before, now, protocol)),
        _ => None,
    };
    if let Some(changed) = changed {
        let told = changed.trends.iter().filter(|(_, t)| matches!(t, Trend::Better | Trend::Worse));
        why.extend(told.map(|(aspect, trend)| Why::Sign(*aspect, *trend)));
    }
    let grown = changed.is_some_and(|changed| changed.of(Aspect::Outline) == Trend::Worse);
    let next = match proposal {
        Proposal::HandOver(to) => Next::HandOver(to),
        Proposal::Repeat if grown => Next::Widen,
        Proposal::Repeat => Next::Repeat,
        Proposal::End => {
            let last = states.last();
            if last.and_then(|state| state.temperature) == Some(Temperature::Cool) {
                why.push(Why::StillCool);
            }
            if last.and_then(|state| state.function) == Some(Function::Impaired) {
                why.push(Why::StillImpaired);
            }
            Next::Stop
        }
    };
    Some((next, why))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::care::allergy::Urgency;
    use crate::care::dose::RoundPlan;
    use crate::care::refill::Refill;
    use crate::care::rounds::Act;
    use crate::measure::{Moment, Strength, Volume};

    const BEFORE: State = State {
        refill: Some(Span::millis(4_000)),
        spread: None,
        colour: Colour::Mottled,
        pain: Pain::NONE,
        temperature: Some(Temperature::Cool),
        function: Some(Function::Impaired),
        area: Some(Area::mm2(1_000)),
    };

    fn of(aspect: Aspect, now: State) -> Trend {
        change(&BEFORE, &now, &Protocol::default()).of(aspect)
    }

    #[test]
    fn each_sign_by_its_rule() {
        let refill =
            |millis| of(Aspect::Refill, State { refill: Some(Span::millis(millis)), ..BEFORE });
        assert_eq!(
            [3_799, 3_800, 4_200, 4_201].map(refill),
            [Trend::Better, Trend::Same, Trend::Same, Trend::Worse]
        );
        let colour = |colour| of(Aspect::Colour, State { colour, ..BEFORE });
        assert_eq!(
            [Colour::Pale, Colour::Mottled, Colour::Blue].map(colour),
            [Trend::Better, Trend::Same, Trend::Worse]
        );
        let temperature = |t| of(Aspect::Temperature, State { temperature: t, ..BEFORE });
        assert_eq!(
            [Some(Temperature::Warm), Some(Temperature::Cool), None].map(temperature),
            [Trend::Better, Trend::Same, Trend::NotCompared]
        );
        let function = |function| of(Aspect::Function, State { function, ..BEFORE });
        assert_eq!(
            [Some(Function::Normal), Some(Function::Impaired), None].map(function),
            [Trend::Better, Trend::Same, Trend::NotCompared]
        );
        let pain = |score| {
            let before = State { pain: Pain::new(5).unwrap(), ..BEFORE };
            let now = State { pain: Pain::new(score).unwrap(), ..BEFORE };
            change(&before, &now, &Protocol::default()).of(Aspect::Pain)
        };
        assert_eq!([3, 4, 6, 7].map(pain), [Trend::Better, Trend::Same, Trend::Same, Trend::Worse]);
    }

    #[test]
    fn an_outline_changes_by_more_than_its_noise() {
        let area = |mm2| of(Aspect::Outline, State { area: Some(Area::mm2(mm2)), ..BEFORE });
        assert_eq!(
            [899, 900, 1_111, 1_112].map(area),
            [Trend::Better, Trend::Same, Trend::Same, Trend::Worse]
        );
        assert_eq!(area_noise(Area::mm2(200)), Area::mm2(50), "a small one");
        assert_eq!(of(Aspect::Outline, State { area: None, ..BEFORE }), Trend::NotCompared);
    }

    #[test]
    fn a_spread_hides_an_improvement_and_no_worsening() {
        let spread = Some(Span::millis(900));
        let refill = |millis| {
            of(Aspect::Refill, State { refill: Some(Span::millis(millis)), spread, ..BEFORE })
        };
        assert_eq!([3_200, 3_099].map(refill), [Trend::Same, Trend::Better]);
        assert_eq!(refill(4_300), Trend::Worse);
    }

    fn treated(refill: u64, colour: Colour) -> Treatment {
        let at = |minutes| Moment::from_millis(0).after(Span::minutes(minutes));
        let mut treatment = Treatment::new(Urgency::Urgent);
        let plan = RoundPlan { strength: Strength::per_ml(500), bolus: Volume::ul(100), points: 1 };
        let refill =
            Some(Refill { affected: Span::millis(refill), opposite: Some(Span::millis(1_500)) });
        let look = Look { refill, colour, pain: Pain::NONE, red_flags: vec![] };
        for act in [Act::Begin(plan), Act::Finish, Act::Look(look)] {
            treatment.apply(at(0), &act).unwrap();
        }
        treatment
    }

    fn proposed(treatment: &Treatment, flags: &[RedFlag], states: &[State]) -> (Next, Vec<Why>) {
        next(treatment, flags, states, Person::default(), &Protocol::default()).unwrap()
    }

    #[test]
    fn a_grown_outline_asks_for_a_wider_round() {
        let treatment = treated(4_000, Colour::Mottled);
        let grown = State { area: Some(Area::mm2(1_500)), ..BEFORE };
        assert_eq!(proposed(&treatment, &[], &[BEFORE]).0, Next::Repeat);
        assert_eq!(proposed(&treatment, &[], &[BEFORE, BEFORE]).0, Next::Repeat);
        let (next, why) = proposed(&treatment, &[], &[BEFORE, grown]);
        assert_eq!(next, Next::Widen);
        assert!(why.contains(&Why::Sign(Aspect::Outline, Trend::Worse)));
    }

    #[test]
    fn sight_and_stroke_override_everything_at_any_moment() {
        let well = treated(1_500, Colour::Normal);
        assert_eq!(proposed(&well, &[], &[]).0, Next::Stop);
        let fresh = Treatment::new(Urgency::Urgent);
        for (flag, to) in [
            (RedFlag::Sight, HandOver::Sight),
            (RedFlag::Stroke, HandOver::Stroke),
            (RedFlag::Airway, HandOver::Reaction),
        ] {
            for treatment in [&well, &fresh] {
                let (next, why) = proposed(treatment, &[flag], &[]);
                assert_eq!(next, Next::HandOver(to));
                assert_eq!(why, [Why::Look(Reason::RedFlag(flag))]);
            }
        }
        assert_eq!(next(&fresh, &[], &[], Person::default(), &Protocol::default()), None);
        let black = treated(4_000, Colour::Black);
        assert_eq!(proposed(&black, &[], &[]).0, Next::HandOver(HandOver::Necrosis));
    }

    #[test]
    fn the_end_says_what_is_still_wrong() {
        let well = treated(1_500, Colour::Normal);
        let (next, why) = proposed(&well, &[], &[BEFORE]);
        assert_eq!(next, Next::Stop);
        assert_eq!(why, [Why::Look(Reason::AllBack), Why::StillCool, Why::StillImpaired]);
    }
}
