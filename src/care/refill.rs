//! Capillary refill: what a pair of readings says, and what it does not.
//!
//! No published limit was measured on facial skin, so the opposite side is the control and a limit
//! for the age and sex only supports it. [`readings`] takes several on each side.

pub mod readings;

use crate::measure::Span;
use crate::protocol::Protocol;
use crate::protocol::refill_limit::{ELDERLY_FROM_YEARS, Group, guidance};
use serde::{Deserialize, Serialize};

/// Sex, as the published limits divide it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Sex {
    /// Female.
    Female,
    /// Male.
    Male,
}

/// What is known of the person that a limit depends on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Person {
    /// Age in whole years.
    pub years: Option<u32>,
    /// Sex.
    pub sex: Option<Sex>,
}

impl Person {
    /// The group whose limit applies; without age and sex, adults at large.
    pub fn group(self) -> Group {
        match (self.years, self.sex) {
            (Some(years), _) if years >= ELDERLY_FROM_YEARS => Group::Elderly,
            (_, Some(Sex::Male)) => Group::Men,
            (Some(_), Some(Sex::Female)) => Group::Women,
            // A woman of unknown age and an unknown person get the strictest limit.
            _ => Group::Adults,
        }
    }
}

/// Colour of the affected skin.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Colour {
    /// As the other side.
    Normal,
    /// Pale.
    Pale,
    /// Mottled, net-like.
    Mottled,
    /// Blue or dusky.
    Blue,
    /// Black or firm.
    Black,
}

/// Refill readings of one look.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Refill {
    /// Where the skin changed.
    pub affected: Span,
    /// The same place on the other side, if it was read.
    pub opposite: Option<Span>,
}

/// What a refill reading amounts to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// Within the limit and as fast as the other side.
    Back,
    /// One sign of slowness, or no other side to compare with a borderline time.
    Doubtful,
    /// Slow.
    Slow,
    /// Quick, but the skin is blue: blood comes in and does not leave. Not reassuring.
    VenousPicture,
}

/// A verdict with what it rests on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Judgement {
    /// What it amounts to.
    pub verdict: Verdict,
    /// The limit for the age and sex.
    pub limit: Span,
    /// Above that limit.
    pub over_limit: bool,
    /// At or above the time that may mean compromise at any age.
    pub alert: bool,
    /// How much slower than the other side, when that is more than a reader's noise.
    pub slower_by: Option<Span>,
    /// Whether the other side was read.
    pub compared: bool,
}

/// Judges a pair of readings.
pub fn judge(refill: Refill, colour: Colour, person: Person, protocol: &Protocol) -> Judgement {
    let limit = guidance(person.group());
    let over_limit = refill.affected > limit;
    let alert = refill.affected >= protocol.refill_alert;
    let slower_by = refill
        .opposite
        .map(|opposite| refill.affected.saturating_sub(opposite))
        .filter(|gap| *gap > protocol.refill_noise);
    let verdict = if over_limit || (alert && slower_by.is_some()) {
        Verdict::Slow
    } else if colour == Colour::Blue {
        Verdict::VenousPicture
    } else if alert || slower_by.is_some() {
        Verdict::Doubtful
    } else {
        Verdict::Back
    };
    Judgement { verdict, limit, over_limit, alert, slower_by, compared: refill.opposite.is_some() }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(
        affected: u64,
        opposite: Option<u64>,
        colour: Colour,
        years: u32,
        sex: Sex,
    ) -> Judgement {
        let refill =
            Refill { affected: Span::millis(affected), opposite: opposite.map(Span::millis) };
        let person = Person { years: Some(years), sex: Some(sex) };
        judge(refill, colour, person, &Protocol::default())
    }

    #[test]
    fn slow_for_the_person() {
        assert_eq!(read(2_500, None, Colour::Pale, 40, Sex::Male).verdict, Verdict::Slow);
        assert_eq!(
            read(2_500, Some(2_400), Colour::Normal, 40, Sex::Female).verdict,
            Verdict::Back
        );
        assert_eq!(
            read(3_500, Some(3_400), Colour::Normal, 70, Sex::Female).verdict,
            Verdict::Doubtful
        );
    }

    #[test]
    fn slower_than_the_other_side_is_never_back() {
        let judged = read(2_000, Some(1_000), Colour::Normal, 40, Sex::Female);
        assert_eq!(judged.verdict, Verdict::Doubtful);
        assert_eq!(judged.slower_by, Some(Span::millis(1_000)));
        assert_eq!(read(1_200, Some(1_000), Colour::Normal, 40, Sex::Female).slower_by, None);
        assert_eq!(read(3_000, Some(1_000), Colour::Normal, 70, Sex::Male).verdict, Verdict::Slow);
    }

    #[test]
    fn quick_and_blue_is_venous() {
        assert_eq!(
            read(800, Some(1_200), Colour::Blue, 40, Sex::Female).verdict,
            Verdict::VenousPicture
        );
    }

    #[test]
    fn unknown_people_get_the_strictest_limit() {
        let refill = Refill { affected: Span::millis(2_500), opposite: None };
        let judged = judge(refill, Colour::Normal, Person::default(), &Protocol::default());
        assert!(judged.over_limit);
    }
}
