//! How far the real strength may lie from the one computed.
//!
//! Three causes, kept apart. The *syringe*: each measured volume may err by its tolerance, and the
//! worst case takes every one to the side that adds up, although errors of one barrel tend to
//! cancel; so the truth lies well inside. The *vial*: its activity may lie anywhere in the band of
//! the monograph. The *nozzle*: stock that stays in the nozzle below the zero mark is sucked into
//! the barrel when diluent is drawn on top; how much depends on the syringe, the standard only
//! says how much at most.

use super::Syringe;
use super::ratio::Ratio;
use super::syringe::Tolerance;
use crate::measure::{Strength, Units, Volume};
use crate::protocol::potency::BAND;
use serde::{Deserialize, Serialize};

/// Lowest and highest strength, to the milli-unit per mL, rounded outwards.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Spread {
    /// The lowest.
    pub low: Strength,
    /// The highest.
    pub high: Strength,
}

impl Spread {
    /// Whether `strength` lies in it, ends included.
    pub fn holds(self, strength: Strength) -> bool {
        self.low <= strength && strength <= self.high
    }

    /// From end to end, as units in one millilitre.
    pub fn width(self) -> Units {
        self.high.in_one_ml().saturating_sub(self.low.in_one_ml())
    }
}

/// Where the strength may really lie, by cause.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Expected {
    /// If every draw errs as far as the standard allows, each to the worse side.
    pub syringe: Spread,
    /// If the vial's activity lies anywhere in its band.
    pub vial: Spread,
    /// Both at once.
    pub both: Spread,
    /// The strength if the nozzle was full at every making up, as large as the standard allows;
    /// the computed strength where nothing is made up. Not part of `both`: a syringe without dead
    /// space has none of it.
    pub nozzle: Strength,
}

/// What was put into a vial, and how far it may err.
#[derive(Clone, Copy, Debug)]
pub(super) struct Stock {
    units: Units,
    diluent: Volume,
    /// Nanolitres to either side.
    slack: u64,
}

impl Stock {
    /// Powder without diluent.
    pub(super) fn dry(units: Units) -> Self {
        Self { units, diluent: Volume::ZERO, slack: 0 }
    }

    /// With one more stroke of diluent.
    pub(super) fn wetted(self, stroke: Volume, slack: Tolerance) -> Self {
        let slack = self.slack.saturating_add(slack.nanolitres());
        Self { diluent: self.diluent + stroke, slack, ..self }
    }

    /// The strength that a draw from it starts from; `None` if the diluent may have been nothing.
    pub(super) fn trace(self) -> Option<Trace> {
        let units = u128::from(self.units.raw());
        let nanolitres = u128::from(self.diluent.raw()) * 1_000;
        let slack = u128::from(self.slack);
        let exact = Ratio::new(units, u128::from(self.diluent.raw()))?;
        Some(Trace {
            exact,
            low: Ratio::new(units * 1_000, nanolitres + slack)?,
            high: Ratio::new(units * 1_000, nanolitres.saturating_sub(slack))?,
            nozzle: exact,
        })
    }
}

/// The strength of a mixture with its worst cases, followed through each movement, as ratios of
/// milli-units to microlitres.
#[derive(Clone, Copy, Debug)]
pub(super) struct Trace {
    exact: Ratio,
    low: Ratio,
    high: Ratio,
    nozzle: Ratio,
}

impl Trace {
    /// After `from`, as read on the barrel, was made up to `to`.
    pub(super) fn made_up(self, syringe: Syringe, from: Volume, to: Volume) -> Option<Self> {
        let nanolitres = |volume: Volume| volume.raw().saturating_mul(1_000);
        let (slack_from, slack_to) =
            (syringe.tolerance(from).nanolitres(), syringe.tolerance(to).nanolitres());
        let (least, most) =
            (nanolitres(from).saturating_sub(slack_from), nanolitres(from) + slack_from);
        let (shortest, longest) =
            (nanolitres(to).saturating_sub(slack_to), nanolitres(to) + slack_to);
        let with_nozzle = (from + syringe.dead_space()).min(to);
        Some(Self {
            exact: self.exact.times(from.raw(), to.raw())?,
            low: self.low.times(least, longest)?,
            high: self.high.times(most, shortest)?,
            nozzle: self.nozzle.times(with_nozzle.raw(), to.raw())?,
        })
    }

    /// The wider of two mixtures of the same strength; `None` if they differ.
    pub(super) fn joined(self, other: Self) -> Option<Self> {
        if !self.exact.equals(other.exact)? {
            return None;
        }
        let lower = other.low.in_one_ml(false)? < self.low.in_one_ml(false)?;
        let higher = other.high.in_one_ml(true)? > self.high.in_one_ml(true)?;
        let fuller = other.nozzle.in_one_ml(true)? > self.nozzle.in_one_ml(true)?;
        Some(Self {
            exact: self.exact,
            low: if lower { other.low } else { self.low },
            high: if higher { other.high } else { self.high },
            nozzle: if fuller { other.nozzle } else { self.nozzle },
        })
    }

    /// The exact strength.
    pub(super) fn strength(self) -> Option<Strength> {
        self.exact.strength()
    }

    /// The worst cases; `None` if they leave what can be counted.
    pub(super) fn expected(self) -> Option<Expected> {
        let (least, most) = (u64::from(BAND.0.0), u64::from(BAND.1.0));
        let spread = |low: Ratio, high: Ratio| {
            let at = |count| Strength::of(Units::milli(count), Volume::ml(1));
            Some(Spread { low: at(low.in_one_ml(false)?)?, high: at(high.in_one_ml(true)?)? })
        };
        Some(Expected {
            syringe: spread(self.low, self.high)?,
            vial: spread(self.exact.times(least, 1_000)?, self.exact.times(most, 1_000)?)?,
            both: spread(self.low.times(least, 1_000)?, self.high.times(most, 1_000)?)?,
            nozzle: self.nozzle.strength()?,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn one_ml() -> Syringe {
        Syringe::new(Volume::ml(1), Volume::ul(10)).unwrap()
    }

    fn stock() -> Trace {
        let slack = one_ml().tolerance(Volume::ml(1));
        Stock::dry(Units::whole(1500)).wetted(Volume::ml(1), slack).trace().unwrap()
    }

    fn milli(count: u64) -> Strength {
        Strength::of(Units::milli(count), Volume::ml(1)).unwrap()
    }

    #[test]
    fn the_vial_alone_spans_its_band() {
        let expected = stock().expected().unwrap();
        assert_eq!(expected.vial.low, Strength::per_ml(1350));
        assert_eq!(expected.vial.high, Strength::per_ml(1725));
    }

    #[test]
    fn one_stroke_of_diluent_errs_by_its_own_tolerance() {
        // 1500 units in 1.05 and in 0.95 mL, rounded outwards.
        let expected = stock().expected().unwrap();
        assert_eq!(expected.syringe.low, milli(1_428_571));
        assert_eq!(expected.syringe.high, milli(1_578_948));
        assert_eq!(expected.nozzle, Strength::per_ml(1500));
    }

    #[test]
    fn making_up_multiplies_both_errors() {
        let made = stock().made_up(one_ml(), Volume::ul(100), Volume::ml(1)).unwrap();
        let expected = made.expected().unwrap();
        // 1500 / 1.05 × 0.083 / 1.05 and 1500 / 0.95 × 0.117 / 0.95.
        assert_eq!(expected.syringe.low, milli(112_925));
        assert_eq!(expected.syringe.high, milli(194_460));
        // 112.925 × 0.9 and 194.45983 × 1.15.
        assert_eq!(expected.both.low, milli(101_632));
        assert_eq!(expected.both.high, milli(223_629));
        assert_eq!(made.strength(), Some(Strength::per_ml(150)));
        // 0.1 mL and 0.07 mL out of the nozzle in 1 mL.
        assert_eq!(expected.nozzle, Strength::per_ml(255));
    }

    #[test]
    fn unlike_strengths_do_not_join() {
        let made = stock().made_up(one_ml(), Volume::ul(100), Volume::ml(1)).unwrap();
        assert!(stock().joined(made).is_none());
        let half = stock().made_up(one_ml(), Volume::ul(50), Volume::ul(500)).unwrap();
        let both = made.joined(half).unwrap().expected().unwrap();
        assert_eq!(both, half.joined(made).unwrap().expected().unwrap());
        assert_eq!(both.syringe.low, half.expected().unwrap().syringe.low);
    }

    #[test]
    fn diluent_that_may_be_nothing_says_nothing() {
        let slack = one_ml().tolerance(Volume::ul(10));
        assert!(Stock::dry(Units::whole(1500)).wetted(Volume::ul(10), slack).trace().is_none());
    }

    #[test]
    fn a_full_nozzle_adds_most_to_the_smallest_syringe_and_never_above_the_stock() {
        let made = |from, to| stock().made_up(one_ml(), Volume::ul(from), Volume::ul(to)).unwrap();
        let nozzle = |trace: Trace| trace.expected().unwrap().nozzle;
        // 0.05 and 0.07 mL of stock in 0.5 mL.
        assert_eq!(nozzle(made(50, 500)), Strength::per_ml(360));
        let joined = made(100, 1_000).joined(made(50, 500)).unwrap();
        assert_eq!(nozzle(joined), Strength::per_ml(360));
        let joined = made(50, 500).joined(made(100, 1_000)).unwrap();
        assert_eq!(nozzle(joined), Strength::per_ml(360));
        assert_eq!(nozzle(made(950, 1_000)), Strength::per_ml(1500));
    }
}
