//! An outline put elsewhere, or to another scale.

use super::{Outline, Patch, Ring, Spot};
use crate::measure::Length;

impl Outline {
    /// Put to the scale of a patient: each place times `measured` over `standard`, away from the
    /// origin. As it is when either is nothing.
    pub fn scaled(&self, measured: Length, standard: Length) -> Self {
        if measured.is_zero() || standard.is_zero() {
            return self.clone();
        }
        #[expect(clippy::cast_precision_loss, reason = "lengths of skin are far below 2^53")]
        let scale = measured.raw() as f64 / standard.raw() as f64;
        self.placed(|spot| Spot::nearest(f64::from(spot.x) * scale, f64::from(spot.y) * scale))
    }

    /// Moved, by hundredths of a millimetre to the right and down.
    pub fn moved(&self, dx: i32, dy: i32) -> Self {
        self.placed(|spot| Spot::new(spot.x.saturating_add(dx), spot.y.saturating_add(dy)))
    }

    /// The centre of its surface, which need not lie in it; `None` when there is nothing in it.
    pub fn centre(&self) -> Option<Spot> {
        let (low, _) = self.bounds()?;
        let (mut mass, mut x, mut y) = (0.0, 0.0, 0.0);
        for patch in self.patches() {
            for (place, ring) in patch.rings().enumerate() {
                let (m, mx, my) = moments(ring, low);
                // Whichever way they run: the outer counts, holes count against it.
                let sign = if (m > 0.0) == (place == 0) { 1.0 } else { -1.0 };
                mass += sign * m;
                x += sign * mx;
                y += sign * my;
            }
        }
        let at = |sum: f64, from: i32| f64::from(from) + sum / mass / 3.0;
        (mass > 0.0).then(|| Spot::nearest(at(x, low.x), at(y, low.y)))
    }

    /// Each place put elsewhere.
    fn placed(&self, to: impl Fn(Spot) -> Spot) -> Self {
        self.mapped(|ring| ring.spots().iter().map(|&spot| to(spot)).collect())
    }

    /// Each ring through other places; what then encloses nothing is left out.
    pub(super) fn mapped(&self, to: impl Fn(&Ring) -> Vec<Spot>) -> Self {
        let ring = |ring: &Ring| Ring::new(to(ring));
        let patch = |patch: &Patch| {
            let outer = ring(&patch.outer)?;
            Some(Patch { outer, holes: patch.holes.iter().filter_map(ring).collect() })
        };
        Self::of(self.patches().iter().filter_map(patch).collect())
    }
}

/// Twice the signed area of a ring, and six times its first moments about `from`.
fn moments(ring: &Ring, from: Spot) -> (f64, f64, f64) {
    let apart = |a: i32, b: i32| f64::from(b) - f64::from(a);
    let mut sums = (0.0, 0.0, 0.0);
    for (a, b) in ring.sides() {
        let (ax, ay) = (apart(from.x, a.x), apart(from.y, a.y));
        let (bx, by) = (apart(from.x, b.x), apart(from.y, b.y));
        let cross = ax * by - bx * ay;
        sums.0 += cross;
        sums.1 += cross * (ax + bx);
        sums.2 += cross * (ay + by);
    }
    sums
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::Area;

    fn frame() -> Outline {
        let ring = |spots: &[(i32, i32)]| {
            Ring::new(spots.iter().map(|(x, y)| Spot::new(x * 100, y * 100)).collect()).unwrap()
        };
        let outer = ring(&[(0, 0), (40, 0), (40, 20), (0, 20)]);
        // Runs the same way as the outer one: a record need not keep to any.
        let hole = ring(&[(20, 5), (30, 5), (30, 15), (20, 15)]);
        Outline::of(vec![Patch { outer, holes: vec![hole] }])
    }

    #[test]
    fn the_centre_is_drawn_away_from_a_hole() {
        // (800 × 20 − 100 × 25) / 700.
        assert_eq!(frame().centre(), Some(Spot::new(1_929, 1_000)));
        assert_eq!(frame().moved(100, -300).centre(), Some(Spot::new(2_029, 700)));
        assert_eq!(Outline::default().centre(), None);
    }

    #[test]
    fn a_scale_goes_with_its_square() {
        let scaled = frame().scaled(Length::mm(55), Length::mm(50));
        assert_eq!(scaled.area(), Area::mm2(847));
        assert_eq!(scaled.bounds(), Some((Spot::new(0, 0), Spot::new(4_400, 2_200))));
        assert_eq!(frame().scaled(Length::mm(55), Length::ZERO), frame());
        assert!(frame().scaled(Length::tenths(1), Length::mm(9_000)).patches().is_empty());
    }
}
