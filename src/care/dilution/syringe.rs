//! The syringe in the hand: what it holds, where its marks are, and how far it may err.

use crate::measure::Volume;
use crate::protocol::barrel::{CLASSES, COMMON, Class, class_of};
use crate::protocol::plan_rank;
use serde::{Deserialize, Serialize};
use std::fmt;

/// A syringe whose marks are known: its capacity is a whole number of intervals, and both are
/// what such a barrel can have.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(try_from = "Marked", into = "Marked")]
pub struct Syringe {
    capacity: Volume,
    interval: Volume,
}

/// A syringe as it is written down, before it is looked at.
#[derive(Clone, Copy, Serialize, Deserialize)]
struct Marked {
    capacity: Volume,
    interval: Volume,
}

/// Why no syringe has such a barrel.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unfit {
    /// The interval of the marks is nothing.
    NoMarks,
    /// Smaller than any syringe known; the smallest known.
    TooSmall {
        /// The least capacity.
        least: Volume,
    },
    /// Larger than the table of tolerances reaches; capacities must stay below this.
    TooLarge {
        /// The first capacity that is too large.
        below: Volume,
    },
    /// The capacity falls between two marks.
    CapacityOffMarks,
    /// The marks lie wider apart than the standard allows for this capacity.
    MarksTooWide {
        /// The widest interval allowed, never more than the capacity.
        widest: Volume,
    },
    /// More marks than an eye can tell apart.
    TooManyMarks {
        /// The most that are believed.
        most: u64,
    },
}

impl Syringe {
    /// A syringe of `capacity`, marked every `interval`.
    ///
    /// # Errors
    /// [`Unfit`] with the bound that was crossed.
    pub fn new(capacity: Volume, interval: Volume) -> Result<Self, Unfit> {
        let least = COMMON.iter().map(|common| common.0).min().unwrap_or(Volume::ZERO);
        let below = CLASSES.iter().map(|class| class.below).max().unwrap_or(Volume::ZERO);
        let widest = class_of(capacity).widest_marks.min(capacity);
        if interval.is_zero() {
            Err(Unfit::NoMarks)
        } else if capacity < least {
            Err(Unfit::TooSmall { least })
        } else if capacity >= below {
            Err(Unfit::TooLarge { below })
        } else if interval > widest {
            Err(Unfit::MarksTooWide { widest })
        } else if !capacity.on_mark(interval) {
            Err(Unfit::CapacityOffMarks)
        } else if capacity.fits(interval) > plan_rank::MOST_MARKS {
            Err(Unfit::TooManyMarks { most: plan_rank::MOST_MARKS })
        } else {
            Ok(Self { capacity, interval })
        }
    }

    /// The syringes usually found in a clinic.
    pub fn common() -> impl Iterator<Item = Self> {
        COMMON.iter().filter_map(|&(capacity, interval)| Self::new(capacity, interval).ok())
    }

    /// What it holds up to its last mark.
    pub const fn capacity(self) -> Volume {
        self.capacity
    }

    /// From one mark to the next.
    pub const fn interval(self) -> Volume {
        self.interval
    }

    /// How many marks there are above zero; at least one.
    pub const fn marks(self) -> u64 {
        self.capacity.fits(self.interval)
    }

    /// Whether the plunger can stand at `volume`: on a mark above zero, not past the last.
    pub fn has_mark(self, volume: Volume) -> bool {
        !volume.is_zero() && volume <= self.capacity && volume.on_mark(self.interval)
    }

    /// How far the volume between zero and the mark `drawn` may lie from what the mark says.
    pub fn tolerance(self, drawn: Volume) -> Tolerance {
        let class = self.class();
        if drawn.is_zero() {
            return Tolerance(0);
        }
        // Thousandths of microlitres are nanolitres, so nothing is rounded here.
        Tolerance(if drawn.times(2) < self.capacity {
            self.capacity.raw() * u64::from(class.small_of_capacity.0)
                + drawn.raw() * u64::from(class.small_of_expelled.0)
        } else {
            drawn.raw().saturating_mul(u64::from(class.large_of_expelled.0))
        })
    }

    /// Whether a draw of this volume is large enough to be measured well.
    pub fn measures_well(self, drawn: Volume) -> bool {
        self.tolerance(drawn).within(drawn)
    }

    /// The smallest mark that is measured well; the last mark always is.
    pub fn least_draw(self) -> Volume {
        (1..self.marks())
            .map(|mark| self.interval.times(mark))
            .find(|&drawn| self.measures_well(drawn))
            .unwrap_or(self.capacity)
    }

    /// Most volume that may stay in its nozzle.
    pub fn dead_space(self) -> Volume {
        self.class().dead_space
    }

    /// The row of the standard that it falls under.
    pub(super) fn class(self) -> &'static Class {
        class_of(self.capacity)
    }

    /// The round step on this barrel: the largest 1 or 5 of a decimal place that is a whole number
    /// of intervals and parts the barrel in five or more. For reading only; one interval if there
    /// is none.
    pub(super) fn round_step(self) -> Volume {
        let millilitre = Volume::ml(1).raw();
        (0..=Volume::PLACES)
            .filter_map(|place| 10_u64.checked_pow(u32::try_from(place).ok()?))
            .flat_map(|part| [millilitre / part, millilitre / part / 2])
            .map(Volume::ul)
            .find(|&step| {
                step.on_mark(self.interval)
                    && self.capacity.on_mark(step)
                    && self.capacity.fits(step) >= 5
            })
            .unwrap_or(self.interval)
    }
}

impl TryFrom<Marked> for Syringe {
    type Error = Unfit;
    fn try_from(marked: Marked) -> Result<Self, Unfit> {
        Self::new(marked.capacity, marked.interval)
    }
}

impl From<Syringe> for Marked {
    fn from(syringe: Syringe) -> Self {
        Self { capacity: syringe.capacity, interval: syringe.interval }
    }
}

/// For logs and stored data; a screen words it itself.
impl fmt::Display for Unfit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{self:?}")
    }
}

/// How far a measured volume may lie to either side, in nanolitres.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Tolerance(u64);

impl Tolerance {
    /// In nanolitres, exact.
    pub const fn nanolitres(self) -> u64 {
        self.0
    }

    /// To the next microlitre upwards.
    pub const fn volume(self) -> Volume {
        Volume::ul(self.0.div_ceil(1_000))
    }

    /// In thousandths of `volume`, rounded up; `u64::MAX` of nothing.
    pub const fn per_mille_of(self, volume: Volume) -> u64 {
        if volume.is_zero() { u64::MAX } else { self.0.div_ceil(volume.raw()) }
    }

    /// The worst case of `n` such volumes: all to the same side.
    pub(super) const fn times(self, n: u64) -> Self {
        Self(self.0.saturating_mul(n))
    }

    /// The worst case of both together.
    pub(super) const fn and(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }

    /// Whether this is little enough for `volume` to count as measured well.
    pub(super) fn within(self, volume: Volume) -> bool {
        self.per_mille_of(volume) <= u64::from(plan_rank::DRAW_ERROR.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn one_ml() -> Syringe {
        Syringe::new(Volume::ml(1), Volume::ul(10)).unwrap()
    }

    #[test]
    fn every_common_syringe_is_one() {
        assert_eq!(Syringe::common().count(), COMMON.len());
    }

    #[test]
    fn what_no_barrel_has_is_refused() {
        let new = |capacity, interval| Syringe::new(Volume::ul(capacity), Volume::ul(interval));
        assert_eq!(new(1_000, 0), Err(Unfit::NoMarks));
        assert_eq!(new(100, 10), Err(Unfit::TooSmall { least: Volume::ul(300) }));
        assert_eq!(new(20_000, 1_000), Err(Unfit::TooLarge { below: Volume::ml(20) }));
        assert_eq!(new(1_000, 100), Err(Unfit::MarksTooWide { widest: Volume::ul(50) }));
        assert_eq!(new(1_000, 30), Err(Unfit::CapacityOffMarks));
        assert_eq!(new(1_000, 1), Err(Unfit::TooManyMarks { most: 200 }));
        assert!(new(u64::MAX, u64::MAX).is_err());
    }

    #[test]
    fn a_written_syringe_is_looked_at_when_read() {
        let written = serde_json::to_string(&one_ml()).unwrap();
        assert_eq!(serde_json::from_str::<Syringe>(&written).unwrap(), one_ml());
        assert!(serde_json::from_str::<Syringe>(r#"{"capacity":1000,"interval":30}"#).is_err());
    }

    #[test]
    fn a_tenth_is_measured_well_and_a_twentieth_is_not() {
        assert!(one_ml().measures_well(Volume::ul(100)));
        assert!(!one_ml().measures_well(Volume::ul(50)));
        assert_eq!(one_ml().least_draw(), Volume::ul(90));
        assert!(!one_ml().measures_well(Volume::ZERO));
    }

    #[test]
    fn marks_start_above_zero_and_end_at_the_capacity() {
        assert!(!one_ml().has_mark(Volume::ZERO));
        assert!(one_ml().has_mark(Volume::ul(10)));
        assert!(!one_ml().has_mark(Volume::ul(15)));
        assert!(one_ml().has_mark(Volume::ml(1)));
        assert!(!one_ml().has_mark(Volume::ul(1_010)));
    }

    #[test]
    fn round_steps_are_those_that_people_read() {
        let steps: Vec<u64> = Syringe::common().map(|s| s.round_step().raw()).collect();
        assert_eq!(steps, [50, 100, 100, 100, 500, 1_000, 1_000]);
    }
}
