//! Smooth rings through a few places, in whole numbers.

use super::mirrored;
use crate::plane::Spot;

/// Into so many straight pieces goes the curve from one place to the next: at most 1.5 mm off the
/// true curve where places lie 20 mm apart, and far less where they lie closer.
const PIECES: i32 = 4;

/// Places kept as x and y in turn.
pub(super) fn spots(flat: &[i16]) -> Vec<Spot> {
    let pair = |pair: &[i16]| match pair {
        [x, y] => Some(Spot::new(i32::from(*x), i32::from(*y))),
        _ => None,
    };
    flat.chunks(2).filter_map(pair).collect()
}

/// The whole ring of a shape that is the same on both sides, from the half that runs from its top
/// middle to its bottom middle.
pub(super) fn both_halves(mut half: Vec<Spot>) -> Vec<Spot> {
    let other: Vec<Spot> = half.iter().rev().filter(|s| s.x != 0).copied().map(mirrored).collect();
    half.extend(other);
    half
}

/// The closed curve through these places, as a ring of short straight pieces. At a place that
/// stands twice in a row it has a corner.
///
/// A Catmull-Rom curve: it leaves each place in the direction from the one before to the one after.
pub(super) fn ring(places: Vec<Spot>) -> Vec<Spot> {
    let count = places.len();
    let at = |n: usize| places.get(n % count).copied().unwrap_or_default();
    let mut ring = Vec::new();
    for n in 0..count {
        let (before, from, to, after) = (at(n + count - 1), at(n), at(n + 1), at(n + 2));
        if from != to {
            ring.extend((0..PIECES).map(|piece| {
                let along = |a, b, c, d| between(a, b, c, d, piece);
                let x = along(before.x, from.x, to.x, after.x);
                Spot::new(x, along(before.y, from.y, to.y, after.y))
            }));
        }
    }
    ring
}

/// One coordinate of the curve from `b` to `c`, `piece` of [`PIECES`] along, to the nearest whole.
const fn between(a: i32, b: i32, c: i32, d: i32, piece: i32) -> i32 {
    let whole = 2 * PIECES * PIECES * PIECES;
    let sum = whole * b
        + (c - a) * piece * PIECES * PIECES
        + (2 * a - 5 * b + 4 * c - d) * piece * piece * PIECES
        + (3 * b - a - 3 * c + d) * piece * piece * piece;
    (sum + whole / 2).div_euclid(whole)
}

/// Whether a place lies inside a ring, by counting its sides to the right of the place.
pub(super) fn inside(ring: &[Spot], spot: Spot) -> bool {
    let to_right = |(a, b): &(&Spot, &Spot)| {
        let from = |end: i32, start: i32| i64::from(end) - i64::from(start);
        let side = from(b.y, a.y);
        let turn = from(spot.x, a.x) * side - from(spot.y, a.y) * from(b.x, a.x);
        (a.y > spot.y) != (b.y > spot.y) && (turn < 0) == (side > 0)
    };
    ring.iter().zip(ring.iter().cycle().skip(1)).filter(to_right).count() % 2 == 1
}
