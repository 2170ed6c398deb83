//! Outlines as the overlay engine takes them, and back.
//!
//! Its grid is ours, hundredths of a millimetre, so that what comes out needs no rounding.

use super::{Outline, Patch, Ring, Spot};
use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay::Overlay;
use i_overlay::i_float::int::point::IntPoint;

pub(super) use i_overlay::core::overlay_rule::OverlayRule as How;

/// A closed line.
pub(super) type Contour = Vec<IntPoint>;
/// Shapes with their holes: each of its contours, the outer one first.
pub(super) type Shapes = Vec<Vec<Contour>>;

/// Less than this is dropped as a sliver, in hundredths of a millimetre squared: 0.01 mm².
const SLIVER: u64 = 100;

/// What a closed stroke goes round, by the non-zero rule: whichever way it runs, and where it goes
/// round twice, that is inside.
pub(super) fn enclosed(stroke: &[Spot]) -> Shapes {
    let drawn = stroke.iter().map(|spot| IntPoint::new(spot.x, spot.y)).collect();
    Overlay::with_contours(&[drawn], &[]).overlay(How::Union, FillRule::NonZero)
}

/// Both overlaid. Outer contours have to run one way and holes the other, as [`to_shapes`] and
/// every result of an overlay have them; parts that overlap then count once.
pub(super) fn overlay(one: &Shapes, other: &Shapes, how: How) -> Shapes {
    Overlay::with_shapes(one, other).overlay(how, FillRule::Positive)
}

/// An outline for the engine, each ring turned the way it has to run. A ring that encloses nothing,
/// as only an altered record has it, is left out.
pub(super) fn to_shapes(outline: &Outline) -> Shapes {
    let turned = |ring: &Ring, outer: bool| {
        let mut contour: Contour =
            ring.spots().iter().map(|spot| IntPoint::new(spot.x, spot.y)).collect();
        let twice = ring.twice();
        if (twice > 0) != outer {
            contour.reverse();
        }
        (twice != 0).then_some(contour)
    };
    let shape = |patch: &Patch| {
        let mut shape = vec![turned(&patch.outer, true)?];
        shape.extend(patch.holes.iter().filter_map(|hole| turned(hole, false)));
        Some(shape)
    };
    outline.patches().iter().filter_map(shape).collect()
}

/// Back from the engine, without slivers.
pub(super) fn from_shapes(shapes: &Shapes) -> Outline {
    let ring = |contour: &Contour| {
        Ring::new(contour.iter().map(|place| Spot::new(place.x, place.y)).collect())
            .filter(|ring| ring.twice().unsigned_abs() >= 2 * SLIVER)
    };
    let patch = |shape: &Vec<Contour>| {
        let (outer, holes) = shape.split_first()?;
        Some(Patch { outer: ring(outer)?, holes: holes.iter().filter_map(ring).collect() })
    };
    Outline::of(shapes.iter().filter_map(patch).collect())
}
