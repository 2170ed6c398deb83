//! A quotient of two whole numbers, exact as long as both can be counted.

use crate::measure::{Strength, Units, Volume};

/// `over / under`; `under` is never zero. Reduced only where that is said.
#[derive(Clone, Copy, Debug)]
pub(super) struct Ratio {
    over: u128,
    under: u128,
}

/// Binary places in which a ratio is compared with the quotients of all marks.
const PLACES: u32 = 40;

impl Ratio {
    /// `None` over zero.
    pub(super) fn new(over: u128, under: u128) -> Option<Self> {
        (under > 0).then_some(Self { over, under })
    }

    /// `None` if the product can no longer be counted, or `under` is zero.
    pub(super) fn times(self, over: u64, under: u64) -> Option<Self> {
        let over = self.over.checked_mul(u128::from(over))?;
        Self::new(over, self.under.checked_mul(u128::from(under))?)
    }

    /// Whether both are the same number; `None` if that can no longer be told.
    pub(super) fn equals(self, other: Self) -> Option<bool> {
        Some(self.over.checked_mul(other.under)? == other.over.checked_mul(self.under)?)
    }

    /// Whether it is less than one.
    pub(super) fn is_part(self) -> bool {
        self.over < self.under
    }

    /// The same number in the smallest terms.
    pub(super) fn reduced(self) -> Self {
        // Nearly always both fit the processor's own numbers, where dividing is quick.
        let small = u64::try_from(self.over).ok().zip(u64::try_from(self.under).ok());
        let shared = if let Some((mut a, mut b)) = small {
            while b != 0 {
                (a, b) = (b, a % b);
            }
            u128::from(a)
        } else {
            let (mut a, mut b) = (self.over, self.under);
            while b != 0 {
                (a, b) = (b, a % b);
            }
            a
        };
        Self { over: self.over / shared.max(1), under: self.under / shared.max(1) }
    }

    /// A reduced ratio as a quotient of two counts, the lower one up to `most`.
    pub(super) fn on_marks(self, most: u64) -> Option<(u64, u64)> {
        let under = u64::try_from(self.under).ok().filter(|&under| under <= most)?;
        Some((u64::try_from(self.over).ok()?, under))
    }

    /// As milli-units in microlitres: how many milli-units a millilitre has, rounded to the lower
    /// or to the upper side.
    pub(super) fn in_one_ml(self, up: bool) -> Option<u64> {
        let over = self.over.checked_mul(u128::from(Volume::ml(1).raw()))?;
        u64::try_from(if up { over.div_ceil(self.under) } else { over / self.under }).ok()
    }

    /// As milli-units in microlitres, exact.
    pub(super) fn strength(self) -> Option<Strength> {
        let Self { over, under } = self.reduced();
        let (over, under) = (u64::try_from(over).ok()?, u64::try_from(under).ok()?);
        Strength::of(Units::milli(over), Volume::ul(under))
    }

    /// A ratio below one in parts of two to the power of [`PLACES`], rounded down.
    pub(super) fn parts(self) -> Parts {
        let parts = match self.over.checked_mul(1 << PLACES) {
            Some(over) => over / self.under,
            // So large that what is cut off below does not matter.
            None => self.over / (self.under >> PLACES).max(1),
        };
        Parts(u64::try_from(parts).unwrap_or(u64::MAX).min(1 << PLACES))
    }
}

/// A ratio below one, in steps small enough to compare it with any quotient of marks.
#[derive(Clone, Copy, Debug)]
pub(super) struct Parts(u64);

impl Parts {
    /// The mark that comes nearest to this part of `to` marks, and how far it is off, in millionths
    /// of it. `to` is a count of marks on a barrel, so nothing overflows.
    pub(super) fn nearest_mark(self, to: u64) -> (u64, u64) {
        let exact = self.0.saturating_mul(to);
        let mark = exact.saturating_add(1 << (PLACES - 1)) >> PLACES;
        let gap = (mark << PLACES).abs_diff(exact);
        (mark, gap / (exact / 1_000_000).max(1))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reduced_in_small_and_in_large_numbers() {
        let (over, under) = (6_u128, 9_u128);
        assert_eq!(Ratio::new(over, under).unwrap().reduced().on_marks(100), Some((2, 3)));
        let large = u128::from(u64::MAX);
        let ratio = Ratio::new(over * large, under * large).unwrap().reduced();
        assert_eq!(ratio.on_marks(100), Some((2, 3)));
        assert_eq!(ratio.on_marks(2), None);
        assert!(Ratio::new(1, 0).is_none());
    }

    #[test]
    fn what_cannot_be_counted_is_none() {
        let most = Ratio::new(u128::MAX, 1).unwrap();
        assert!(most.times(2, 1).is_none());
        assert!(most.in_one_ml(false).is_none());
        assert!(most.equals(Ratio::new(1, 2).unwrap()).is_none());
        assert!(most.strength().is_none());
        assert!(Ratio::new(1, 1).unwrap().times(1, 0).is_none());
    }

    #[test]
    fn a_third_rounds_to_either_side() {
        let third = Ratio::new(1, 3).unwrap();
        assert_eq!(third.in_one_ml(false), Some(333));
        assert_eq!(third.in_one_ml(true), Some(334));
        assert!(third.is_part());
        assert!(!Ratio::new(3, 3).unwrap().is_part());
    }

    #[test]
    fn the_nearest_mark_and_how_far() {
        let third = Ratio::new(1, 3).unwrap().parts();
        assert_eq!(third.nearest_mark(100), (33, 10_000));
        assert_eq!(third.nearest_mark(90).0, 30);
        assert!(third.nearest_mark(90).1 <= 1);
        let large = u128::from(u64::MAX);
        let third = Ratio::new(large * large / 3, large * large).unwrap().parts();
        assert_eq!(third.nearest_mark(100), (33, 10_000));
    }
}
