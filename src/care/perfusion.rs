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
//! told, never a worsening.

mod next;

pub use next::{Next, Why, next, stuck};

use super::refill::Colour;
use super::refill::readings::Side;
use super::rounds::{Function, Look, Pain, Temperature};
use crate::measure::{Area, Span};
use crate::protocol::Protocol;
use crate::protocol::perfusion::{AREA_NOISE, AREA_NOISE_LEAST};

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

impl State {
    /// What a look saw, with the surface of the outline that was told beside it.
    pub fn of(look: &Look, area: Option<Area>) -> Self {
        Self {
            refill: look.refill.map(|refill| refill.affected),
            spread: look.readings.spread(Side::Affected),
            colour: look.colour,
            pain: look.pain,
            temperature: look.temperature,
            function: look.function,
            area,
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

/// What changed in all.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Change {
    /// At least one sign is better and none worse.
    Better,
    /// No sign differs by more than its noise.
    Same,
    /// Some better, some worse.
    Mixed,
    /// At least one sign is worse and none better.
    Worse,
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

#[cfg(test)]
mod tests {
    use super::*;

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
}
