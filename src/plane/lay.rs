//! Points of an even grid laid over an outline.

mod cell;
mod field;
mod gaps;
mod groups;
mod search;
mod shape;

use super::near::place;
use super::order::in_order;
use super::reach::on_edge;
use super::sides::Sides;
use super::whole::small;
use super::{Grid, Lattice, Outline, Ring, Spot};
use crate::measure::Length;
use cell::Cell;
pub use cell::Lie;
use field::{Field, Kept};
use groups::Member;
use search::Worth;
use shape::Shape;

/// The search sees the outline with its small waves left out: as a part of the spacing.
const WAVES: f64 = 100.0;
/// It asks how far places on the edge are from a point, so many to a spacing.
const SAMPLES: f64 = 4.0;
/// A hundredth is what rounding a place may change; twice that near an edge is looked at again.
const ROUNDED: f64 = 2.0;

/// An even grid over an outline: all points of a lattice that lie inside it or no more than
/// `margin` outside, in the order of a short path.
///
/// The lattice is turned and moved so that the greatest distance of skin from its nearest point is
/// small; among lies as good to a tenth of a millimetre, the one with fewest points is taken.
/// A narrow part that the lattice misses gets points of its own, so that no skin is farther than one
/// spacing from a point.
///
/// Patches that points of two lattices could be too close between share one; each other patch has
/// its own. Each has a point, unless all of it lies nearer than half a spacing to another's. Points
/// are a spacing apart or more (to 0.025 mm, for rounding), those of different patches half a
/// spacing.
///
/// Empty when there is no spacing, no outline, or so little spacing that it would be no grid for a
/// hand (some 20 000 points). The same outline gets the same grid everywhere.
pub fn lay(outline: &Outline, lattice: Lattice, spacing: Length, margin: Length) -> Grid {
    let bounds = outline.bounds();
    let cell = bounds.and_then(|bounds| Cell::of(lattice, spacing, margin, bounds));
    let mut spots = Vec::new();
    if let Some(cell) = cell {
        let members = groups::members(outline);
        for group in groups::groups(&members, cell) {
            spots.extend(best(&group, cell));
        }
        gaps::close(outline, &members, cell, &mut spots);
    }
    Grid::of(in_order(spots), lattice, spacing, margin)
}

/// The points of one lattice that lie inside an outline or no more than `margin` outside, row by
/// row. Empty as [`lay()`] is.
pub fn fill(
    outline: &Outline,
    lattice: Lattice,
    spacing: Length,
    margin: Length,
    lie: Lie,
) -> Vec<Spot> {
    let bounds = outline.bounds();
    let Some(cell) = bounds.and_then(|bounds| Cell::of(lattice, spacing, margin, bounds)) else {
        return vec![];
    };
    filled(&exact(outline.rings()), &Sides::of(outline.rings()), cell, lie)
}

/// The points of the best lie over patches that share a lattice.
fn best(group: &[&Member], cell: Cell) -> Vec<Spot> {
    let rings = || group.iter().flat_map(|member| member.patch.rings());
    let mut shape = Shape::default();
    for ring in rings() {
        shape.add_roughly(ring.spots(), cell.along / WAVES);
    }
    shape.sample(cell.along / SAMPLES);
    let lies = search::best_lies(&mut shape, cell);
    let exact = exact(rings());
    let together = (group.len() > 1).then(|| Sides::of(rings()));
    let Some(sides) = together.as_ref().or(group.first().map(|member| &member.sides)) else {
        return vec![];
    };
    let mut best = (Worth::NONE, vec![]);
    for lie in lies {
        let spots = filled(&exact, sides, cell, lie);
        let worth = Worth::of(on_edge(rings(), &spots, cell.reach()), small(spots.len()));
        if worth < best.0 {
            best = (worth, spots);
        }
    }
    best.1
}

/// The points that one lie has, row by row: judged where they lie after rounding.
fn filled(shape: &Shape, sides: &Sides, cell: Cell, lie: Lie) -> Vec<Spot> {
    let field = Field::of(shape, cell, lie.turn, place(lie.at));
    let mut kept = Kept::default();
    field.keep((0, 0), cell.margin + ROUNDED, &mut kept);
    let mut spots = Vec::new();
    field.each(&kept, |(x, y), sure| {
        let spot = Spot::nearest(x, y);
        if sure || sides.hold(spot) || sides.distance(spot, cell.margin) <= cell.margin {
            spots.push(spot);
        }
    });
    spots
}

/// Rings as they were drawn.
fn exact<'a>(rings: impl Iterator<Item = &'a Ring>) -> Shape {
    let mut shape = Shape::default();
    for ring in rings {
        shape.add(ring.spots());
    }
    shape
}
