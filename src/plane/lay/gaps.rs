//! Points of their own for skin that the lattice misses.

use super::cell::Cell;
use super::groups::Member;
use crate::plane::near::{Near, apart, place as position, rectangle};
use crate::plane::reach::beyond;
use crate::plane::sides::Sides;
use crate::plane::{Outline, Spot};

/// Places looked at round a gap, each way from its middle.
const STEPS: i32 = 4;
/// A place need not be deeper inside than this part of the spacing.
const DEEP: f64 = 0.25;
/// How often the outline is walked for what is still missed.
const ROUNDS: usize = 12;
/// How much nearer than a spacing a point may come by rounding and by being put inside again, in
/// hundredths.
const ROUNDED: f64 = 2.5;

/// Adds points: one in each patch without any, then wherever skin is farther than a spacing from
/// all.
pub(super) fn close(outline: &Outline, members: &[Member], cell: Cell, spots: &mut Vec<Spot>) {
    for member in members {
        if !spots.iter().any(|&spot| member.served(spot, cell.margin)) {
            spots.extend(within(member, cell, spots));
        }
    }
    let together = (members.len() > 1).then(|| Sides::of(outline.rings()));
    let Some(sides) = together.as_ref().or(members.first().map(|member| &member.sides)) else {
        return;
    };
    for _ in 0..ROUNDS {
        let far = beyond(outline, sides, spots, cell.along);
        let Some(near) = Near::of(spots).filter(|_| !far.is_empty()) else { return };
        let before = spots.len();
        for place in far {
            let middle = Spot::nearest(place.at.0, place.at.1);
            let least = cell.along - ROUNDED;
            let clear = |spot: Spot| {
                near.nearest(position(spot)).0 >= least
                    && spots[before..].iter().all(|&other| apart(spot, other) >= least)
            };
            if clear(middle)
                && let Some(spot) = deepest(middle, cell.along / 2.0, cell, sides, clear)
            {
                spots.push(spot);
            }
        }
        if spots.len() == before {
            return;
        }
    }
}

/// A place well inside a patch, at least half a spacing from every other point, if there is one.
fn within(member: &Member, cell: Cell, spots: &[Spot]) -> Option<Spot> {
    let clear = |spot: Spot| spots.iter().all(|&other| apart(spot, other) >= cell.along / 2.0);
    let corners = member.patch.outer.spots();
    let (low, high) = rectangle(corners)?;
    let middle = Spot::new(i32::midpoint(low.x, high.x), i32::midpoint(low.y, high.y));
    let half = f64::from((high.x - low.x).max(high.y - low.y)) / 2.0;
    // A patch without a place found inside is thinner than the steps: its corners are inside too.
    deepest(middle, half, cell, &member.sides, clear)
        .or_else(|| corners.iter().copied().find(|&spot| clear(spot)))
}

/// Of the places round a middle, up to `half` away each way, that are inside and clear: one deep
/// enough inside, and of those the one nearest to the middle.
fn deepest(
    middle: Spot,
    half: f64,
    cell: Cell,
    sides: &Sides,
    clear: impl Fn(Spot) -> bool,
) -> Option<Spot> {
    let enough = cell.along * DEEP;
    // The steps, and those from a middle that rounding has put beside the edge.
    let strides = [half / f64::from(STEPS), 1.0];
    let mut best = None;
    for (stride, steps) in strides.into_iter().zip([STEPS, 1]) {
        for place in 0..(2 * steps + 1) * (2 * steps + 1) {
            let (dx, dy) = (place % (2 * steps + 1) - steps, place / (2 * steps + 1) - steps);
            let at = |from: i32, steps: i32| f64::from(from) + f64::from(steps) * stride;
            let spot = Spot::nearest(at(middle.x, dx), at(middle.y, dy));
            if !sides.hold(spot) || !clear(spot) {
                continue;
            }
            // A little depth is worth a longer way off the middle.
            let worth = sides.distance(spot, enough).min(enough) - apart(middle, spot) / 8.0;
            if best.is_none_or(|(most, _)| worth > most) {
                best = Some((worth, spot));
            }
        }
    }
    best.map(|(_, spot)| spot)
}
