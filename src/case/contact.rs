//! Whom the clinic calls, as it typed them in.

use crate::care::handover::Ask;
use serde::{Deserialize, Serialize};
use std::fmt;

/// What a contact is called for. The order is that in which they are shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Role {
    /// The emergency number.
    Emergency,
    /// An eye department.
    Eyes,
    /// A hospital or its skin, plastic or maxillofacial surgeon on duty.
    Hospital,
    /// A prescriber, or a colleague who helps.
    Colleague,
    /// The clinic itself, as the patient calls it.
    Clinic,
}

impl Role {
    /// All of them.
    pub const ALL: [Self; 5] =
        [Self::Emergency, Self::Eyes, Self::Hospital, Self::Colleague, Self::Clinic];

    /// Whom to call for what a hand-over asks; nobody for what is asked of whoever answers.
    pub const fn of(ask: Ask) -> Option<Self> {
        match ask {
            Ask::Ambulance => Some(Self::Emergency),
            Ask::EyesAtOnce => Some(Self::Eyes),
            Ask::StrokeTeam
            | Ask::WatchReaction
            | Ask::GoOn
            | Ask::SkinSpecialist
            | Ask::TakeOver => Some(Self::Hospital),
            Ask::Ultrasound => Some(Self::Colleague),
            Ask::LookForStroke | Ask::NotBehindTheEye => None,
        }
    }

    /// Whom to call for all that is asked, each once, in the order of the roles: the emergency
    /// number stands first wherever it is asked for.
    pub fn asked(asks: &[Ask]) -> Vec<Self> {
        Self::ALL
            .into_iter()
            .filter(|role| asks.iter().any(|ask| Self::of(*ask) == Some(*role)))
            .collect()
    }
}

/// A telephone number as it was typed, spaces and all.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Number(String);

/// Why a text is no telephone number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoNumber {
    /// Nothing was typed.
    Empty,
    /// A sign that no telephone has.
    Sign(char),
    /// Fewer digits than any number has.
    TooShort,
    /// More digits than E.164 allows.
    TooLong,
}

impl fmt::Display for NoNumber {
    /// For logs; screens word it themselves.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => f.write_str("no number"),
            Self::Sign(sign) => write!(f, "no telephone has {sign:?}"),
            Self::TooShort => f.write_str("too few digits"),
            Self::TooLong => f.write_str("too many digits"),
        }
    }
}

/// How the first digit of a national number is written beside the country's code.
const NATIONAL: &str = "(0)";

impl Number {
    /// The fewest digits: short codes such as emergency numbers have two or three.
    pub const FEWEST: usize = 2;
    /// The most digits of an international number (ITU-T E.164).
    pub const MOST: usize = 15;

    /// A number, from digits with spaces, dots, hyphens and brackets between them and a plus sign
    /// before them; star and hash as on a telephone's keys.
    ///
    /// # Errors
    /// [`NoNumber`] names what is wrong.
    pub fn new(text: &str) -> Result<Self, NoNumber> {
        let text = text.trim();
        let mut digits = 0;
        for (place, sign) in text.chars().enumerate() {
            match sign {
                '0'..='9' => digits += 1,
                '+' if place == 0 => {}
                ' ' | '\u{a0}' | '.' | '-' | '(' | ')' | '/' | '*' | '#' => {}
                other => return Err(NoNumber::Sign(other)),
            }
        }
        match digits {
            0 if text.is_empty() => Err(NoNumber::Empty),
            _ if digits < Self::FEWEST => Err(NoNumber::TooShort),
            _ if digits > Self::MOST => Err(NoNumber::TooLong),
            _ => Ok(Self(text.to_owned())),
        }
    }

    /// As typed.
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// The address that a phone dials (RFC 3966), the signs for the eye left out.
    pub fn uri(&self) -> String {
        // The nought in brackets is dialled only without the country's code.
        let abroad = self.0.starts_with('+').then(|| self.0.replacen(NATIONAL, "", 1));
        let typed = abroad.as_deref().unwrap_or(&self.0);
        let dialled = typed.chars().filter(|sign| matches!(sign, '0'..='9' | '+' | '*' | '#'));
        // A hash would begin a fragment.
        let dialled: String = dialled.collect();
        format!("tel:{}", dialled.replace('#', "%23"))
    }
}

impl TryFrom<String> for Number {
    type Error = NoNumber;
    fn try_from(text: String) -> Result<Self, Self::Error> {
        Self::new(&text)
    }
}

impl From<Number> for String {
    fn from(number: Number) -> Self {
        number.0
    }
}

/// Somebody to call.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Contact {
    /// What for.
    pub role: Role,
    /// The clinic's own words for it; may be empty.
    pub name: String,
    /// Where.
    pub number: Number,
}

impl Contact {
    /// The longest name, in characters.
    pub const LONGEST: usize = 40;
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_emergency_number_is_called_first() {
        let asks = [Ask::EyesAtOnce, Ask::NotBehindTheEye, Ask::Ambulance, Ask::EyesAtOnce];
        assert_eq!(Role::asked(&asks), [Role::Emergency, Role::Eyes]);
        assert_eq!(Role::asked(&[Ask::TakeOver]), [Role::Hospital]);
    }

    #[test]
    fn each_proposed_number_is_one() {
        use crate::protocol::{Region, emergency};
        for region in [Region::Uk, Region::Australia] {
            for proposed in emergency::numbers(region) {
                assert!(Number::new(proposed.number).is_ok(), "{proposed:?}");
            }
        }
    }

    #[test]
    fn what_is_dialled_is_what_was_typed() {
        let uri = |text| Number::new(text).map(|number| number.uri());
        assert_eq!(uri(" +44 (0)20 7946-0958 "), Ok("tel:+442079460958".into()));
        assert_eq!(uri("(0) 20 7946 0958"), Ok("tel:02079460958".into()));
        assert_eq!(uri("112"), Ok("tel:112".into()));
        assert_eq!(uri("*31#0123"), Ok("tel:*31%230123".into()));
        assert_eq!(Number::new(" 020 7946 ").unwrap().as_str(), "020 7946");
    }

    #[test]
    fn what_is_no_number_is_told_why() {
        let wrong = |text| Number::new(text).unwrap_err();
        assert_eq!(wrong("  "), NoNumber::Empty);
        assert_eq!(wrong("1"), NoNumber::TooShort);
        assert_eq!(wrong("()"), NoNumber::TooShort);
        assert_eq!(wrong("0123O"), NoNumber::Sign('O'));
        assert_eq!(wrong("12+3"), NoNumber::Sign('+'));
        assert_eq!(wrong("1234567890123456"), NoNumber::TooLong);
        assert!(serde_json::from_str::<Number>("\"tel\"").is_err());
    }
}
