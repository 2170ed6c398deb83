//! A place on a plane.

use serde::{Deserialize, Serialize};

/// A place on the skin laid flat: hundredths of a millimetre to the right and down, as a screen
/// counts. Where the origin lies is the drawing's or the photo's own affair.
#[derive(
    Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize,
)]
#[serde(from = "(i32, i32)", into = "(i32, i32)")]
pub struct Spot {
    /// To the right.
    pub x: i32,
    /// Down.
    pub y: i32,
}

impl Spot {
    /// Hundredths that make a millimetre.
    pub const PER_MM: i32 = 100;
    /// Farther than this from the origin, in hundredths, there is no skin: 10 metres.
    const FARTHEST: f64 = 1_000_000.0;

    /// From hundredths of a millimetre.
    pub const fn new(x: i32, y: i32) -> Self {
        Self { x, y }
    }

    /// The nearest place to this one in millimetres; `None` for what is no number or farther than
    /// 10 metres away, as a pinch can give.
    pub fn from_mm(x: f64, y: f64) -> Option<Self> {
        let whole = |mm: f64| {
            let hundredths = (mm * f64::from(Self::PER_MM)).round();
            // NaN is not within either.
            let within = hundredths.abs() <= Self::FARTHEST;
            #[expect(clippy::cast_possible_truncation, reason = "within a million either way")]
            within.then_some(hundredths as i32)
        };
        Some(Self { x: whole(x)?, y: whole(y)? })
    }

    /// In millimetres.
    pub fn mm(self) -> (f64, f64) {
        let mm = |hundredths: i32| f64::from(hundredths) / f64::from(Self::PER_MM);
        (mm(self.x), mm(self.y))
    }

    /// How far apart, in millimetres.
    pub fn distance(self, other: Self) -> f64 {
        let ((ax, ay), (bx, by)) = (self.mm(), other.mm());
        (ax - bx).hypot(ay - by)
    }
}

impl From<(i32, i32)> for Spot {
    fn from((x, y): (i32, i32)) -> Self {
        Self { x, y }
    }
}

impl From<Spot> for (i32, i32) {
    fn from(spot: Spot) -> Self {
        (spot.x, spot.y)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_no_number_is_no_place() {
        assert_eq!(Spot::from_mm(1.234, -0.005), Some(Spot::new(123, -1)));
        assert_eq!(Spot::from_mm(f64::NAN, 0.0), None);
        assert_eq!(Spot::from_mm(0.0, f64::INFINITY), None);
        assert_eq!(Spot::from_mm(1e9, 0.0), None);
    }
}
