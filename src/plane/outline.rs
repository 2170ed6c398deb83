//! What was drawn round: patches, each with its holes.

use super::Spot;
use crate::measure::Area;
use serde::{Deserialize, Serialize};

/// A closed line through at least three places; from the last it goes back to the first.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Ring(Vec<Spot>);

impl Ring {
    /// A ring through these places, each repeat of the one before left out. `None` for fewer than
    /// three places, or when they enclose nothing.
    ///
    /// It may still cross itself: only `trace` mends that.
    pub fn new(mut spots: Vec<Spot>) -> Option<Self> {
        spots.dedup();
        while spots.len() > 1 && spots.first() == spots.last() {
            spots.pop();
        }
        let ring = Self(spots);
        (ring.0.len() >= 3 && ring.twice() != 0).then_some(ring)
    }

    /// The places, in order.
    pub fn spots(&self) -> &[Spot] {
        &self.0
    }

    /// Each side, from place to place and back to the first.
    pub fn sides(&self) -> impl Iterator<Item = (Spot, Spot)> {
        let ends = self.0.iter().cycle().skip(1);
        self.0.iter().copied().zip(ends.copied())
    }

    /// Twice the enclosed area, in hundredths of a millimetre squared; its sign tells which way
    /// round the ring runs.
    pub(super) fn twice(&self) -> i64 {
        let cross = |(a, b): (Spot, Spot)| {
            i64::from(a.x) * i64::from(b.y) - i64::from(b.x) * i64::from(a.y)
        };
        self.sides().map(cross).sum()
    }
}

/// One patch: what its outer ring encloses without what its holes do.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Patch {
    /// Its edge.
    pub outer: Ring,
    /// What lies inside it and does not belong to it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub holes: Vec<Ring>,
}

impl Patch {
    /// Every ring of it, the outer first.
    pub fn rings(&self) -> impl Iterator<Item = &Ring> {
        std::iter::once(&self.outer).chain(&self.holes)
    }

    fn twice(&self) -> u64 {
        let holes: u64 = self.holes.iter().map(|hole| hole.twice().unsigned_abs()).sum();
        self.outer.twice().unsigned_abs().saturating_sub(holes)
    }
}

/// Patches that do not overlap.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Outline {
    patches: Vec<Patch>,
}

impl Outline {
    /// Of patches that do not overlap and rings that do not cross, as `trace` makes
    /// them.
    pub(super) const fn of(patches: Vec<Patch>) -> Self {
        Self { patches }
    }

    /// The patches.
    pub fn patches(&self) -> &[Patch] {
        &self.patches
    }

    /// Every ring of every patch.
    pub fn rings(&self) -> impl Iterator<Item = &Ring> {
        self.patches.iter().flat_map(Patch::rings)
    }

    /// How many places it is drawn through.
    pub fn vertices(&self) -> usize {
        self.rings().map(|ring| ring.spots().len()).sum()
    }

    /// Its surface, to the nearest square millimetre, half a one up: holes are not counted.
    pub fn area(&self) -> Area {
        /// Twice the hundredths squared that make a square millimetre.
        const TWICE_MM2: u64 = 2 * (Spot::PER_MM as u64) * (Spot::PER_MM as u64);
        let twice: u64 = self.patches.iter().map(Patch::twice).sum();
        Area::mm2(twice.saturating_add(TWICE_MM2 / 2) / TWICE_MM2)
    }

    /// The least rectangle along the axes that holds it, as its least and greatest corner; `None`
    /// when there is nothing in it.
    pub fn bounds(&self) -> Option<(Spot, Spot)> {
        let mut spots = self.rings().flat_map(|ring| ring.spots().iter().copied());
        let first = spots.next()?;
        Some(spots.fold((first, first), |(low, high), spot| {
            let low = Spot::new(low.x.min(spot.x), low.y.min(spot.y));
            (low, Spot::new(high.x.max(spot.x), high.y.max(spot.y)))
        }))
    }

    /// Whether a place lies inside, or on an edge.
    ///
    /// Counted by crossings of the line that runs from it to the right, in whole numbers: exact.
    pub fn holds(&self, spot: Spot) -> bool {
        let mut inside = false;
        for (a, b) in self.rings().flat_map(Ring::sides) {
            let (ax, ay) = (i64::from(a.x) - i64::from(spot.x), i64::from(a.y) - i64::from(spot.y));
            let (bx, by) = (i64::from(b.x) - i64::from(spot.x), i64::from(b.y) - i64::from(spot.y));
            let cross = ax * by - bx * ay;
            if cross == 0 && ax * bx <= 0 && ay * by <= 0 {
                return true;
            }
            if (ay > 0) != (by > 0) && (cross > 0) == (by > ay) {
                inside = !inside;
            }
        }
        inside
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ring(spots: &[(i32, i32)]) -> Ring {
        Ring::new(spots.iter().map(|(x, y)| Spot::new(x * 100, y * 100)).collect()).unwrap()
    }

    fn frame() -> Outline {
        let outer = ring(&[(0, 0), (10, 0), (10, 10), (0, 10)]);
        let hole = ring(&[(4, 4), (4, 6), (6, 6), (6, 4)]);
        Outline::of(vec![Patch { outer, holes: vec![hole] }])
    }

    #[test]
    fn a_hole_is_not_counted_and_not_inside() {
        let frame = frame();
        assert_eq!(frame.area(), Area::mm2(96));
        assert!(frame.holds(Spot::new(100, 100)) && frame.holds(Spot::new(1_000, 500)));
        assert!(!frame.holds(Spot::new(500, 500)) && !frame.holds(Spot::new(1_001, 500)));
        assert_eq!(frame.bounds(), Some((Spot::new(0, 0), Spot::new(1_000, 1_000))));
    }

    #[test]
    fn a_line_level_with_a_corner_crosses_once() {
        let diamond = ring(&[(0, 0), (5, 5), (0, 10), (-5, 5)]);
        let diamond = Outline::of(vec![Patch { outer: diamond, holes: vec![] }]);
        assert!(diamond.holds(Spot::new(0, 500)));
        assert!(!diamond.holds(Spot::new(-600, 500)) && !diamond.holds(Spot::new(-300, 0)));
    }

    #[test]
    fn two_places_and_a_flat_line_are_no_ring() {
        let spots = |spots: &[(i32, i32)]| spots.iter().copied().map(Spot::from).collect();
        assert_eq!(Ring::new(spots(&[(0, 0), (5, 5)])), None);
        assert_eq!(Ring::new(spots(&[(0, 0), (5, 5), (0, 0), (5, 5)])), None);
        assert_eq!(Ring::new(spots(&[(0, 0), (5, 5), (10, 10)])), None);
    }

    #[test]
    fn it_is_kept_as_lists_of_places() {
        let text = serde_json::to_string(&frame()).unwrap();
        assert!(text.starts_with(r#"[{"outer":[[0,0],[1000,0]"#), "{text}");
        assert_eq!(serde_json::from_str::<Outline>(&text).unwrap(), frame());
    }
}
