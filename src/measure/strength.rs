//! How many units a millilitre holds.

use super::{Units, Volume};
use serde::{Deserialize, Serialize};
use std::cmp::Ordering;
use std::fmt;

/// Units per millilitre, kept as a reduced ratio of milli-units to microlitres.
///
/// A ratio stays exact where a decimal would not: one 1500-unit vial in 7 mL is 1500/7, and
/// seven times 1 mL of it is again 1500 units.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(try_from = "(u64, u64)", into = "(u64, u64)")]
pub struct Strength {
    milli_units: u64,
    microlitres: u64,
}

impl Strength {
    /// `units` dissolved in `volume`; `None` if the volume is zero, for then there is no strength.
    pub const fn of(units: Units, volume: Volume) -> Option<Self> {
        if volume.is_zero() {
            return None;
        }
        let shared = divisor(units.raw(), volume.raw());
        Some(Self { milli_units: units.raw() / shared, microlitres: volume.raw() / shared })
    }

    /// Whole units per mL.
    pub const fn per_ml(units: u64) -> Self {
        // One unit per mL is one milli-unit per microlitre.
        Self { milli_units: units, microlitres: 1 }
    }

    /// Units held by `volume`, to the nearest milli-unit (half rounds up). Exact whenever the
    /// result is whole.
    pub fn units_in(self, volume: Volume) -> Units {
        Units::milli(scaled(self.milli_units, volume.raw(), self.microlitres))
    }

    /// Volume that holds `units`, to the nearest microlitre; `None` at zero strength.
    pub fn volume_of(self, units: Units) -> Option<Volume> {
        (self.milli_units > 0)
            .then(|| Volume::ul(scaled(units.raw(), self.microlitres, self.milli_units)))
    }

    /// The units in one millilitre, to the nearest milli-unit: for showing.
    pub fn in_one_ml(self) -> Units {
        self.units_in(Volume::ml(1))
    }

    /// Whether there is no activity at all.
    pub const fn is_zero(self) -> bool {
        self.milli_units == 0
    }
}

/// `a × b / c`, rounded half up, without overflow on the way.
fn scaled(a: u64, b: u64, c: u64) -> u64 {
    let c = u128::from(c);
    let product = u128::from(a) * u128::from(b);
    u64::try_from((product + c / 2) / c).unwrap_or(u64::MAX)
}

/// The greatest common divisor; never zero unless both are.
const fn divisor(mut a: u64, mut b: u64) -> u64 {
    while b != 0 {
        (a, b) = (b, a % b);
    }
    if a == 0 { 1 } else { a }
}

impl PartialOrd for Strength {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Strength {
    fn cmp(&self, other: &Self) -> Ordering {
        let here = u128::from(self.milli_units) * u128::from(other.microlitres);
        let there = u128::from(other.milli_units) * u128::from(self.microlitres);
        here.cmp(&there)
    }
}

impl From<Strength> for (u64, u64) {
    fn from(strength: Strength) -> Self {
        (strength.milli_units, strength.microlitres)
    }
}

impl TryFrom<(u64, u64)> for Strength {
    type Error = &'static str;
    fn try_from((milli_units, microlitres): (u64, u64)) -> Result<Self, Self::Error> {
        Self::of(Units::milli(milli_units), Volume::ul(microlitres)).ok_or("strength in no volume")
    }
}

/// Units per mL without the unit's name; see [`Units`] for precision.
impl fmt::Display for Strength {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(&self.in_one_ml(), f)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_hundredth_of_a_millilitre_at_150_is_one_and_a_half_units() {
        assert_eq!(Strength::per_ml(150).units_in(Volume::ul(10)), Units::milli(1_500));
    }

    #[test]
    fn a_ratio_without_end_keeps_its_units() {
        let strength = Strength::of(Units::whole(1500), Volume::ml(7)).unwrap();
        assert_eq!(strength.units_in(Volume::ml(7)), Units::whole(1500));
        assert_eq!(format!("{strength:.1}"), "214.3");
    }

    #[test]
    fn equal_strengths_are_equal_however_made() {
        let stock = Strength::of(Units::whole(1500), Volume::ml(1));
        assert_eq!(stock, Some(Strength::per_ml(1500)));
        assert!(Strength::per_ml(500) < Strength::per_ml(600));
    }

    #[test]
    fn nothing_dissolves_in_no_volume() {
        assert_eq!(Strength::of(Units::whole(1500), Volume::ZERO), None);
        assert_eq!(Strength::per_ml(0).volume_of(Units::whole(1)), None);
    }
}
