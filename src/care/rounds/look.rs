//! One look at the skin.

use crate::care::refill::readings::Readings;
use crate::care::refill::{self, Colour, Person, Refill, Verdict};
use crate::care::situation::RedFlag;
use crate::measure::Hash;
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

/// What was seen and felt. What is optional was not looked at if it is wanting.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Look {
    /// Refill, if it was timed: the medians of [`readings`](Self::readings), where there are any.
    pub refill: Option<Refill>,
    /// Colour of the affected skin.
    pub colour: Colour,
    /// Pain.
    pub pain: Pain,
    /// Signs that go before everything.
    pub red_flags: Vec<RedFlag>,
    /// The single readings of refill. Records of the first form have none.
    #[serde(default, skip_serializing_if = "Readings::is_empty")]
    pub readings: Readings,
    /// Temperature.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub temperature: Option<Temperature>,
    /// Function.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub function: Option<Function>,
    /// The photo taken, by the digest of its bytes.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub photo: Option<Hash>,
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
    /// A look at colour and pain, the two that every look has; the rest was not looked at.
    pub fn of(colour: Colour, pain: Pain) -> Self {
        Self {
            refill: None,
            colour,
            pain,
            red_flags: Vec::new(),
            readings: Readings::default(),
            temperature: None,
            function: None,
            photo: None,
        }
    }

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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::Span;

    fn look(affected: u64, colour: Colour, pain: u8) -> Look {
        let refill =
            Refill { affected: Span::millis(affected), opposite: Some(Span::millis(1_500)) };
        Look { refill: Some(refill), ..Look::of(colour, Pain::new(pain).unwrap()) }
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
    fn pain_stops_at_ten() {
        assert_eq!(Pain::new(11), None);
        assert!(serde_json::from_str::<Pain>("11").is_err());
    }

    #[test]
    fn a_look_of_the_first_form_is_read() {
        let text = r#"{"refill":null,"colour":"Pale","pain":3,"red_flags":[]}"#;
        let look: Look = serde_json::from_str(text).unwrap();
        assert_eq!(look, Look::of(Colour::Pale, Pain::new(3).unwrap()));
        assert_eq!(serde_json::to_string(&look).unwrap(), text);
    }
}
