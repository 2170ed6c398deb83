//! Which patches share a lattice.

use super::cell::Cell;
use crate::plane::near::rectangle;
use crate::plane::sides::Sides;
use crate::plane::{Outline, Patch, Ring, Spot};

/// A patch with what is asked about it.
pub(super) struct Member<'a> {
    pub(super) patch: &'a Patch,
    pub(super) sides: Sides,
    low: Spot,
    high: Spot,
}

/// Each patch. An altered record may have some without a place; those are left out.
pub(super) fn members(outline: &Outline) -> Vec<Member<'_>> {
    outline.patches().iter().filter_map(Member::of).collect()
}

/// Patches so near to each other that two lattices could lay points nearer than half a spacing:
/// those share one.
pub(super) fn groups<'a>(members: &'a [Member<'a>], cell: Cell) -> Vec<Vec<&'a Member<'a>>> {
    let apart = 2.0 * cell.margin + cell.along / 2.0;
    let mut groups: Vec<Vec<&Member>> = Vec::new();
    for member in members {
        let (mut group, mut far) = (vec![], vec![]);
        for other in groups {
            if other.iter().any(|other| member.meets(other, apart)) {
                group.extend(other);
            } else {
                far.push(other);
            }
        }
        group.push(member);
        groups = far;
        groups.push(group);
    }
    groups
}

impl<'a> Member<'a> {
    fn of(patch: &'a Patch) -> Option<Self> {
        let (low, high) = rectangle(patch.outer.spots())?;
        Some(Self { patch, sides: Sides::of(patch.rings()), low, high })
    }

    /// Whether a point serves it: lies in it, or no more than the margin outside.
    pub(super) fn served(&self, spot: Spot, margin: f64) -> bool {
        let by = |past: i32| f64::from(past) <= margin;
        let about = by(self.low.x - spot.x)
            && by(spot.x - self.high.x)
            && by(self.low.y - spot.y)
            && by(spot.y - self.high.y);
        about && (self.sides.hold(spot) || self.sides.distance(spot, margin) <= margin)
    }

    /// Whether two patches come nearer than `apart` to each other. The nearest places of two that
    /// do not overlap are a corner of one and some place of the other.
    fn meets(&self, other: &Self, apart: f64) -> bool {
        let free = |high: i32, low: i32| f64::from(low) - f64::from(high) >= apart;
        let beside = |one: &Self, other: &Self| {
            free(one.high.x, other.low.x) || free(one.high.y, other.low.y)
        };
        let corners = |one: &Self, other: &Self| {
            let mut spots = one.patch.rings().flat_map(Ring::spots);
            spots.any(|&spot| other.sides.distance(spot, apart) < apart)
        };
        !beside(self, other)
            && !beside(other, self)
            && (corners(self, other) || corners(other, self))
    }
}
