//! The whole-number amounts: units, volume, area, length.

use serde::{Deserialize, Serialize};
use std::fmt;

/// Declares an amount kept as a whole number of a small unit.
///
/// `$per` is how many of the small unit make one of the unit that people read, `$places` how many
/// decimals that needs.
macro_rules! amount {
    ($(#[$doc:meta])* $name:ident, $raw:ident, $from:ident, $per:literal, $places:literal) => {
        $(#[$doc])*
        #[derive(
            Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize,
        )]
        #[serde(transparent)]
        pub struct $name(u64);

        impl $name {
            /// Nothing of it.
            pub const ZERO: Self = Self(0);
            /// How many of the small unit make one of the unit that people read.
            pub const PER: u64 = $per;
            /// Decimals that the small unit needs.
            pub const PLACES: usize = $places;

            /// From the small unit that is counted in.
            pub const fn $raw(count: u64) -> Self {
                Self(count)
            }

            /// From whole ones of the unit that people read.
            pub const fn $from(whole: u64) -> Self {
                Self(whole * $per)
            }

            /// The count of the small unit.
            pub const fn raw(self) -> u64 {
                self.0
            }

            /// Whether there is none.
            pub const fn is_zero(self) -> bool {
                self.0 == 0
            }

            /// The sum, or `None` past the largest count.
            pub const fn checked_add(self, other: Self) -> Option<Self> {
                match self.0.checked_add(other.0) {
                    Some(sum) => Some(Self(sum)),
                    None => None,
                }
            }

            /// What is left after `other` is taken away, or `None` if there is not that much.
            pub const fn checked_sub(self, other: Self) -> Option<Self> {
                match self.0.checked_sub(other.0) {
                    Some(rest) => Some(Self(rest)),
                    None => None,
                }
            }

            /// What is left after `other` is taken away; nothing if there is not that much.
            #[must_use]
            pub const fn saturating_sub(self, other: Self) -> Self {
                Self(self.0.saturating_sub(other.0))
            }

            /// `n` times as much; stops at the largest count.
            #[must_use]
            pub const fn times(self, n: u64) -> Self {
                Self(self.0.saturating_mul(n))
            }

            /// How many whole `other` fit; none if `other` is zero.
            pub const fn fits(self, other: Self) -> u64 {
                match self.0.checked_div(other.0) {
                    Some(n) => n,
                    None => 0,
                }
            }

            /// How many `other` are needed to hold it all; none if `other` is zero.
            pub const fn needs(self, other: Self) -> u64 {
                if other.0 == 0 { 0 } else { self.0.div_ceil(other.0) }
            }

            /// The distance between two amounts.
            #[must_use]
            pub const fn gap(self, other: Self) -> Self {
                Self(self.0.abs_diff(other.0))
            }
        }

        /// Adding stops at the largest count, far above anything that fits a clinic.
        impl std::ops::Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(self.0.saturating_add(other.0))
            }
        }

        impl std::ops::AddAssign for $name {
            fn add_assign(&mut self, other: Self) {
                *self = *self + other;
            }
        }

        impl std::iter::Sum for $name {
            fn sum<I: Iterator<Item = Self>>(parts: I) -> Self {
                parts.fold(Self::ZERO, |sum, part| sum + part)
            }
        }

        /// The number in the unit that people read, without the unit's name: as many decimals as
        /// it needs, or exactly `{:.n}` of them, rounded half up.
        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                decimal(f, self.0, $places)
            }
        }
    };
}

amount! {
    /// Enzyme activity in units, counted in milli-units. Which unit (IU or USP unit) is the
    /// label's; the two are never converted.
    Units, milli, whole, 1_000, 3
}
amount! {
    /// A volume in millilitres, counted in microlitres.
    Volume, ul, ml, 1_000, 3
}
amount! {
    /// An area in square centimetres, counted in square millimetres.
    Area, mm2, cm2, 100, 2
}
amount! {
    /// A length in millimetres, counted in tenths.
    Length, tenths, mm, 10, 1
}

impl Length {
    /// The rectangle with these sides.
    pub const fn by(self, other: Self) -> Area {
        // Tenths times tenths are hundredths of a mm²; half a mm² rounds up.
        Area::mm2((self.0.saturating_mul(other.0).saturating_add(50)) / 100)
    }
}

impl Volume {
    /// The mark nearest to this volume on a barrel marked every `interval`; half rounds up.
    #[must_use]
    pub const fn to_mark(self, interval: Self) -> Self {
        match (self.0 + interval.0 / 2).checked_div(interval.0) {
            Some(marks) => Self(marks * interval.0),
            None => self,
        }
    }

    /// Whether this volume falls on a mark of a barrel marked every `interval`.
    pub const fn on_mark(self, interval: Self) -> bool {
        interval.0 != 0 && self.0.is_multiple_of(interval.0)
    }
}

/// Writes `count / 10^places`, trimmed or to the precision asked for.
fn decimal(f: &mut fmt::Formatter<'_>, count: u64, places: usize) -> fmt::Result {
    let wanted = f.precision().unwrap_or(places).min(places);
    let dropped = 10_u64.pow(u32::try_from(places - wanted).unwrap_or(0));
    let rounded = count.saturating_add(dropped / 2) / dropped;
    let scale = 10_u64.pow(u32::try_from(wanted).unwrap_or(0));
    let (whole, part) = (rounded / scale, rounded % scale);
    if wanted == 0 {
        return f.pad_integral(true, "", &whole.to_string());
    }
    let digits = format!("{part:0wanted$}");
    let digits =
        if f.precision().is_some() { digits.as_str() } else { digits.trim_end_matches('0') };
    if digits.is_empty() { write!(f, "{whole}") } else { write!(f, "{whole}.{digits}") }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shows_as_many_decimals_as_it_needs() {
        assert_eq!(Volume::ul(100).to_string(), "0.1");
        assert_eq!(Volume::ml(3).to_string(), "3");
        assert_eq!(format!("{:.2}", Volume::ul(400)), "0.40");
        assert_eq!(format!("{:.0}", Units::milli(499_500)), "500");
        assert_eq!(format!("{:.1}", Area::mm2(1_240)), "12.4");
    }

    #[test]
    fn nearest_mark_and_whether_on_it() {
        let interval = Volume::ul(10);
        assert_eq!(Volume::ul(333).to_mark(interval), Volume::ul(330));
        assert_eq!(Volume::ul(335).to_mark(interval), Volume::ul(340));
        assert!(!Volume::ul(333).on_mark(interval));
        assert!(Volume::ul(330).on_mark(interval));
    }

    #[test]
    fn a_rectangle_of_lengths() {
        assert_eq!(Length::mm(40).by(Length::mm(30)), Area::cm2(12));
        assert_eq!(Length::tenths(5).by(Length::tenths(5)), Area::mm2(0));
    }

    #[test]
    fn containers_needed_are_rounded_up() {
        assert_eq!(Volume::ul(1_200).needs(Volume::ml(1)), 2);
        assert_eq!(Volume::ml(2).needs(Volume::ml(1)), 2);
        assert_eq!(Volume::ml(2).needs(Volume::ZERO), 0);
    }
}
