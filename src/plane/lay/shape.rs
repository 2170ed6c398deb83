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
        let begin = self.corners.len();
        self.corners.extend(ring.iter().map(|&spot| place(spot)));
        let end = self.corners.len();
        self.next
            .extend((begin..end).map(|corner| if corner + 1 == end { begin } else { corner + 1 }));
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
