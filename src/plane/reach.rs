//! How far skin is at most from its nearest point.

mod walk;

use super::near::Near;
use super::sides::Sides;
use super::whole::{small, sort};
use super::{Outline, Ring, Spot};
use crate::measure::Length;
use walk::Walk;

/// Hundredths of a millimetre in a tenth.
const PER_TENTH: f64 = 10.0;
/// A hair, in hundredths of a millimetre: what sums of floats may be off.
const HAIR: f64 = 1e-6;

/// A place of the outline, and how far it is from its nearest point, in hundredths of a millimetre.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Far {
    pub(super) distance: f64,
    pub(super) at: (f64, f64),
}

/// The greatest distance of any place inside the outline from the point nearest to it, rounded up
/// to a tenth of a millimetre. `None` without points or without an outline.
///
/// Only two kinds of places can be the farthest. Inside, those as far from three points: corners of
/// the points' Voronoi cells. And on the edge, which is walked from one nearest point to the next.
/// So the answer is exact until it is rounded.
pub fn reach(outline: &Outline, spots: &[Spot]) -> Option<Length> {
    let near = Near::of(spots)?;
    let bounds = outline.bounds()?;
    let mut walk = Walk::to_farthest(&near, 0.0);
    walk.edges(outline.rings());
    walk.within(spots, &Sides::of(outline.rings()), bounds);
    walk.found.first().map(|far| Length::tenths(told(far.distance).into()))
}

/// The greatest distance on the edge; `least` if none is as far. Infinite without points.
pub(super) fn on_edge<'a>(
    rings: impl Iterator<Item = &'a Ring>,
    spots: &[Spot],
    least: f64,
) -> f64 {
    let Some(near) = Near::of(spots) else { return f64::INFINITY };
    let mut walk = Walk::to_farthest(&near, least);
    walk.edges(rings);
    walk.found.first().map_or(least, |far| far.distance)
}

/// Places farther than `limit` from every point, the farthest first: each that may be the farthest
/// of its surroundings, and some beside it. Nothing without points.
pub(super) fn beyond(outline: &Outline, sides: &Sides, spots: &[Spot], limit: f64) -> Vec<Far> {
    let (Some(near), Some(bounds)) = (Near::of(spots), outline.bounds()) else { return vec![] };
    let mut walk = Walk::to_all(&near, limit);
    walk.edges(outline.rings());
    walk.within(spots, sides, bounds);
    let mut order: Vec<(f64, u32)> = Vec::with_capacity(walk.found.len());
    order.extend(walk.found.iter().enumerate().map(|(which, far)| (-far.distance, small(which))));
    sort(&mut order);
    order.into_iter().map(|(_, which)| walk.found[which as usize]).collect()
}

/// Hundredths as tenths, rounded up.
pub(super) fn told(hundredths: f64) -> u32 {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "saturates")]
    let tenths = ((hundredths - HAIR) / PER_TENTH).ceil() as u32;
    tenths
}
