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
    /// Farther than this from the origin, in hundredths, there is no skin: 10 metres. Areas and
    /// crossings are counted in whole numbers, which this keeps from overflowing.
    const FARTHEST: i32 = 1_000_000;

    /// From hundredths of a millimetre; what is farther off than 10 metres, as an altered record
    /// can have it, is brought to there.
    pub const fn new(x: i32, y: i32) -> Self {
        const fn near(hundredths: i32) -> i32 {
            if hundredths > Spot::FARTHEST {
                Spot::FARTHEST
            } else if hundredths < -Spot::FARTHEST {
                -Spot::FARTHEST
            } else {
                hundredths
            }
        }
        Self { x: near(x), y: near(y) }
    }

    /// The nearest place to one computed in hundredths.
    pub(super) fn nearest(x: f64, y: f64) -> Self {
        // What is past either end of the whole numbers becomes that end, and NaN zero.
        #[expect(clippy::cast_possible_truncation, reason = "saturates")]
        let whole = |hundredths: f64| hundredths.round() as i32;
        Self::new(whole(x), whole(y))
    }

    /// The nearest place to this one in millimetres; `None` for what is no number or farther than
    /// 10 metres away, as a pinch can give.
    pub fn from_mm(x: f64, y: f64) -> Option<Self> {
        let whole = |mm: f64| {
            let hundredths = (mm * f64::from(Self::PER_MM)).round();
            // NaN is not within either.
            let within = hundredths.abs() <= f64::from(Self::FARTHEST);
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
        Self::new(x, y)
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

    #[test]
    fn what_is_kept_too_far_off_is_brought_near() {
        let read = |text: &str| serde_json::from_str::<Spot>(text).unwrap();
        assert_eq!(read("[2147483647,-2147483648]"), Spot { x: 1_000_000, y: -1_000_000 });
        assert_eq!(read("[999999,-999999]"), Spot { x: 999_999, y: -999_999 });
        assert_eq!(Spot::nearest(f64::INFINITY, -12.5), Spot { x: 1_000_000, y: -13 });
    }
}
