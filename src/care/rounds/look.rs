//! One look at the skin, and what changed since the one before.

use crate::care::refill::{self, Colour, Person, Refill, Verdict};
use crate::care::situation::RedFlag;
use crate::protocol::Protocol;
use serde::{Deserialize, Serialize};

/// Pain from 0 (none) to 10 (worst).
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(try_from = "u8", into = "u8")]
pub struct Pain(u8);

impl Pain {
    /// No pain.
    pub const NONE: Self = Self(0);
    /// The highest score.
    pub const WORST: u8 = 10;

    /// A score; `None` above 10.
    pub const fn new(score: u8) -> Option<Self> {
        if score <= Self::WORST { Some(Self(score)) } else { None }
    }

    /// The score.
    pub const fn score(self) -> u8 {
        self.0
    }
}

impl TryFrom<u8> for Pain {
    type Error = &'static str;
    fn try_from(score: u8) -> Result<Self, Self::Error> {
        Self::new(score).ok_or("pain is scored from 0 to 10")
    }
}

impl From<Pain> for u8 {
    fn from(pain: Pain) -> Self {
        pain.0
    }
}

/// What was seen.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Look {
    /// Refill, if it was timed.
    pub refill: Option<Refill>,
    /// Colour of the affected skin.
    pub colour: Colour,
    /// Pain.
    pub pain: Pain,
    /// Signs that go before everything.
    pub red_flags: Vec<RedFlag>,
}

/// One of the three signs by which an occlusion is over.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sign {
    /// Capillary refill.
    Refill,
    /// Colour of the skin.
    Colour,
    /// Absence of pain.
    Pain,
}

impl Look {
    /// The signs that are not back. All three back is the published end point
    /// ([`HIGH_DOSE_2017`](crate::protocol::source::HIGH_DOSE_2017)); a sign not looked at is not
    /// back.
    pub fn wanting(&self, person: Person, protocol: &Protocol) -> Vec<Sign> {
        let refill = self.refill.is_some_and(|refill| {
            refill::judge(refill, self.colour, person, protocol).verdict == Verdict::Back
        });
        [
            (!refill).then_some(Sign::Refill),
            (self.colour != Colour::Normal).then_some(Sign::Colour),
            (self.pain != Pain::NONE).then_some(Sign::Pain),
        ]
        .into_iter()
        .flatten()
        .collect()
    }
}

/// What changed between two looks.
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

/// Compares a look with the one before. Refill counts when it differs by more than a reader's
/// noise, pain when it differs by a step, colour by its order from normal to black.
pub fn compare(before: &Look, now: &Look, protocol: &Protocol) -> Change {
    let noise = protocol.refill_noise;
    let step = u8::try_from(protocol.pain_step).unwrap_or(Pain::WORST);
    let (mut better, mut worse) = (false, false);
    let mut note = |is_better: bool, is_worse: bool| {
        better |= is_better;
        worse |= is_worse;
    };
    if let (Some(then), Some(here)) = (before.refill, now.refill) {
        let (then, here) = (then.affected, here.affected);
        note(then.saturating_sub(here) > noise, here.saturating_sub(then) > noise);
    }
    note(now.colour < before.colour, now.colour > before.colour);
    let (then, here) = (before.pain.score(), now.pain.score());
    note(then >= here + step, here >= then + step);
    match (better, worse) {
        (true, false) => Change::Better,
        (false, false) => Change::Same,
        (true, true) => Change::Mixed,
        (false, true) => Change::Worse,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::Span;

    fn look(affected: u64, colour: Colour, pain: u8) -> Look {
        let refill =
            Refill { affected: Span::millis(affected), opposite: Some(Span::millis(1_500)) };
        Look { refill: Some(refill), colour, pain: Pain::new(pain).unwrap(), red_flags: vec![] }
    }

    #[test]
    fn all_three_signs_make_the_end() {
        let protocol = Protocol::default();
        let wanting = |look: &Look| look.wanting(Person::default(), &protocol);
        assert!(wanting(&look(1_600, Colour::Normal, 0)).is_empty());
        assert_eq!(wanting(&look(1_600, Colour::Pale, 0)), [Sign::Colour]);
        assert_eq!(wanting(&look(1_600, Colour::Normal, 1)), [Sign::Pain]);
        assert_eq!(wanting(&look(3_000, Colour::Normal, 0)), [Sign::Refill]);
        let unread = Look { refill: None, ..look(0, Colour::Normal, 0) };
        assert_eq!(wanting(&unread), [Sign::Refill]);
    }

    #[test]
    fn change_is_told_by_more_than_noise() {
        let compare = |a: &Look, b: &Look| compare(a, b, &Protocol::default());
        let before = look(4_000, Colour::Mottled, 6);
        assert_eq!(compare(&before, &look(3_900, Colour::Mottled, 5)), Change::Same);
        assert_eq!(compare(&before, &look(3_000, Colour::Mottled, 6)), Change::Better);
        assert_eq!(compare(&before, &look(4_000, Colour::Blue, 6)), Change::Worse);
        assert_eq!(compare(&before, &look(3_000, Colour::Mottled, 8)), Change::Mixed);
    }

    #[test]
    fn pain_stops_at_ten() {
        assert_eq!(Pain::new(11), None);
        assert!(serde_json::from_str::<Pain>("11").is_err());
    }
}
