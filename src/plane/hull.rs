//! The tightest line round an outline without a dent.

use super::contact::turn;
use super::{Outline, Ring, Spot};
use crate::measure::order;

impl Outline {
    /// Its convex hull; `None` when there is nothing in it. Exact: its places are places of the
    /// outline.
    pub fn hull(&self) -> Option<Ring> {
        let mut spots: Vec<Spot> =
            self.rings().flat_map(|ring| ring.spots().iter().copied()).collect();
        order::sort(&mut spots);
        spots.dedup();
        let mut hull = half(spots.iter().copied());
        hull.extend(half(spots.iter().rev().copied()));
        Ring::new(hull)
    }
}

/// One side of the hull of places in order: each turn goes the same way.
fn half(spots: impl Iterator<Item = Spot>) -> Vec<Spot> {
    let mut half: Vec<Spot> = Vec::new();
    for spot in spots {
        while let [.., before, last] = half[..]
            && turn(before, last, spot) <= 0
        {
            half.pop();
        }
        half.push(spot);
    }
    // The other half begins here.
    half.pop();
    half
}
