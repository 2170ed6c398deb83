//! Rings as lists of places.

use crate::plane::Spot;
use crate::plane::near::place;
use crate::plane::whole::{above, length, real};

/// A place in hundredths of a millimetre.
pub(super) type Place = (f64, f64);

/// What a lattice is laid over.
#[derive(Default)]
pub(super) struct Shape {
    /// Every corner of every ring.
    pub(super) corners: Vec<Place>,
    /// Which corner follows each.
    pub(super) next: Vec<usize>,
    /// Places along the rings whose distance from a point matters.
    pub(super) samples: Vec<Place>,
}

impl Shape {
    /// Adds a ring.
    pub(super) fn add(&mut self, ring: &[Spot]) {
        self.close(ring.iter().map(|&spot| place(spot)).collect());
    }

    /// Adds a ring by fewer corners, none left out farther than `tolerance` from its line.
    ///
    /// Not by [`simplified`](crate::plane::simplified), which finds fewer corners but may take the
    /// square of the time, and whose roots are not the same on every phone.
    pub(super) fn add_roughly(&mut self, ring: &[Spot], tolerance: f64) {
        let mut kept: Vec<Place> = ring.first().map(|&spot| place(spot)).into_iter().collect();
        let mut sleeve = None;
        for pair in ring.windows(2) {
            let (before, spot) = (place(pair[0]), place(pair[1]));
            let from = kept.last().copied().unwrap_or(before);
            sleeve = Sleeve::narrowed(sleeve, from, spot, tolerance).or_else(|| {
                kept.push(before);
                Sleeve::narrowed(None, before, spot, tolerance)
            });
        }
        kept.extend(ring.last().map(|&spot| place(spot)));
        self.close(kept);
    }

    fn close(&mut self, ring: Vec<Place>) {
        let begin = self.corners.len();
        self.corners.extend(ring);
        let end = self.corners.len();
        let next = |corner| if corner + 1 == end { begin } else { corner + 1 };
        self.next.extend((begin..end).map(next));
    }

    /// Takes samples along every side, no farther apart than `step`.
    pub(super) fn sample(&mut self, step: f64) {
        for (from, &next) in self.corners.iter().zip(&self.next) {
            let to = self.corners[next];
            let way = (to.0 - from.0, to.1 - from.1);
            let parts = above(length(way) / step).max(1);
            for part in 0..parts {
                let part = real(part) / real(parts);
                self.samples.push((from.0 + part * way.0, from.1 + part * way.1));
            }
        }
    }
}

/// Where a line from a corner may go so that it passes every place since close enough.
#[derive(Clone, Copy)]
struct Sleeve {
    /// Its sides, unless every place is so near that any direction will do.
    sides: Option<(Place, Place)>,
    /// How far the farthest place is.
    far: f64,
}

impl Sleeve {
    /// The sleeve from `from` with one more place; `None` when the line to it would pass some other
    /// too far off, or when it turns back.
    fn narrowed(old: Option<Self>, from: Place, to: Place, tolerance: f64) -> Option<Self> {
        let old = old.unwrap_or(Self { sides: None, far: 0.0 });
        let way = (to.0 - from.0, to.1 - from.1);
        let far = length(way);
        if far < old.far - tolerance {
            return None;
        }
        if far <= tolerance {
            return Some(Self { far: old.far.max(far), ..old });
        }
        let cross = |a: Place, b: Place| a.0 * b.1 - a.1 * b.0;
        let sine = tolerance / far;
        let cosine = (1.0 - sine * sine).sqrt();
        let turned = |sine: f64| (way.0 * cosine - way.1 * sine, way.0 * sine + way.1 * cosine);
        let (mut left, mut right) = (turned(-sine), turned(sine));
        if let Some(sides) = old.sides {
            if cross(sides.0, way) < 0.0 || cross(way, sides.1) < 0.0 {
                return None;
            }
            left = if cross(sides.0, left) > 0.0 { left } else { sides.0 };
            right = if cross(right, sides.1) > 0.0 { right } else { sides.1 };
        }
        Some(Self { sides: Some((left, right)), far: old.far.max(far) })
    }
}

/// The least rectangle round places, as its least and greatest corner; turned inside out for none.
pub(super) fn rectangle(places: &[Place]) -> (Place, Place) {
    let mut low = (f64::INFINITY, f64::INFINITY);
    let mut high = (f64::NEG_INFINITY, f64::NEG_INFINITY);
    for place in places {
        low = (low.0.min(place.0), low.1.min(place.1));
        high = (high.0.max(place.0), high.1.max(place.1));
    }
    (low, high)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plane::sides::Sides;
    use crate::plane::{Outline, Patch, Ring, sample};

    #[test]
    fn what_is_left_out_is_close_to_what_is_kept() {
        for (vertices, across, most) in [(2_000, 280.0, 240), (500, 60.0, 120), (40, 60.0, 40)] {
            let outline = sample::wavy(vertices, across);
            let ring = outline.rings().next().unwrap();
            let mut shape = Shape::default();
            shape.add_roughly(ring.spots(), 15.0);
            assert!(shape.corners.len() <= most, "{}", shape.corners.len());
            let kept = shape.corners.iter().map(|&(x, y)| Spot::nearest(x, y)).collect();
            let rough = Patch { outer: Ring::new(kept).unwrap(), holes: vec![] };
            let sides = Sides::of(Outline::of(vec![rough]).rings());
            let near = |&spot: &Spot| sides.distance(spot, 99.0) <= 15.0;
            assert!(ring.spots().iter().all(near));
        }
    }

    #[test]
    fn a_spike_is_kept_and_a_place_passed_again_is_not() {
        let kept = |spots: &[(i32, i32)]| {
            let spots: Vec<Spot> = spots.iter().copied().map(Spot::from).collect();
            let mut shape = Shape::default();
            shape.add_roughly(&spots, 10.0);
            (shape.corners, shape.next)
        };
        let spike = [(0, 0), (500, 3), (900, 0), (400, 2), (0, 300)];
        let corners = vec![(0.0, 0.0), (900.0, 0.0), (400.0, 2.0), (0.0, 300.0)];
        assert_eq!(kept(&spike), (corners, vec![1, 2, 3, 0]));
        let jitter = [(0, 0), (5, 0), (-4, 3), (300, 0), (305, 4), (301, 0), (300, 300)];
        assert_eq!(kept(&jitter).0.len(), 3, "{:?}", kept(&jitter));
        assert_eq!(kept(&[]), (vec![], vec![]));
    }
}
