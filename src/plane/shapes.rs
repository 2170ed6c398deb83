//! Outlines as the overlay engine takes them, and back.

use super::{Outline, Patch, Ring, Spot};
use geo::bool_ops::{BooleanOps, FillRule, OpType};
use geo::{Coord, LineString, MultiPolygon, Polygon};

/// Less than this is dropped as a sliver, in hundredths of a millimetre squared: 0.01 mm².
const SLIVER: u64 = 100;

/// What a closed stroke goes round, by the non-zero rule: whichever way it runs, and where it goes
/// round twice, that is inside.
pub(super) fn enclosed(stroke: &[Spot]) -> MultiPolygon {
    let drawn = MultiPolygon(vec![Polygon::new(line(stroke.iter()), vec![])]);
    drawn.boolean_op_with_fill_rule(&MultiPolygon(vec![]), OpType::Union, FillRule::NonZero)
}

/// Both overlaid. Outer rings have to run one way and holes the other, as [`to_shapes`] and every
/// result of an overlay have them; parts that overlap then count once.
pub(super) fn overlay(one: &MultiPolygon, other: &MultiPolygon, how: OpType) -> MultiPolygon {
    one.boolean_op_with_fill_rule(other, how, FillRule::Positive)
}

/// An outline for the engine, each ring turned the way it has to run. A ring that encloses nothing,
/// as only an altered record has it, is left out.
pub(super) fn to_shapes(outline: &Outline) -> MultiPolygon {
    let turned = |ring: &Ring, outer: bool| match ring.twice() {
        0 => None,
        twice if (twice > 0) == outer => Some(line(ring.spots().iter())),
        _ => Some(line(ring.spots().iter().rev())),
    };
    let polygon = |patch: &Patch| {
        let holes = patch.holes.iter().filter_map(|hole| turned(hole, false)).collect();
        Some(Polygon::new(turned(&patch.outer, true)?, holes))
    };
    MultiPolygon(outline.patches().iter().filter_map(polygon).collect())
}

/// Back to whole hundredths, without slivers.
pub(super) fn from_shapes(shapes: &MultiPolygon) -> Outline {
    let ring = |line: &LineString| {
        let spots = line.0.iter().map(|place| Spot::nearest(place.x, place.y));
        Ring::new(spots.collect()).filter(|ring| ring.twice().unsigned_abs() >= 2 * SLIVER)
    };
    let patch = |polygon: &Polygon| {
        let outer = ring(polygon.exterior())?;
        Some(Patch { outer, holes: polygon.interiors().iter().filter_map(ring).collect() })
    };
    Outline::of(shapes.0.iter().filter_map(patch).collect())
}

fn line<'a>(spots: impl Iterator<Item = &'a Spot>) -> LineString {
    LineString(spots.map(|spot| Coord { x: f64::from(spot.x), y: f64::from(spot.y) }).collect())
}
