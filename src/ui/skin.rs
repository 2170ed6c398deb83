//! The skin as it was drawn or photographed, with what lies on it: outlines, points, the way.
//!
//! | file | what it is |
//! |---|---|
//! | `ground` | [`Picture`]: from the skin to the picture and back, and the picture itself |
//! | `frame` | which part of the picture is shown, on paper of a fixed width |
//! | `drawing` | [`SkinDrawing`]: outlines and points over the picture |
//! | `round` | [`RoundDrawing`]: the points of a round, on the skin or on a plain grid |
//! | `simulated` | [`SimulatedSkin`]: the patch of skin that a rehearsal's refill is timed on |

mod drawing;
mod frame;
mod ground;
mod round;
mod simulated;

use super::parts::PointMark;
use crate::care::territory::Outlined;
use crate::case::Told;
use crate::plane::Spot;

pub use drawing::{Layer, SkinDrawing, SkinPoint};
pub use frame::Frame;
pub use ground::{Backdrop, Picture};
pub use round::RoundDrawing;
pub use simulated::{SimulatedSkin, SkinPatch};

/// The outlines of earlier rounds, the earliest first: those told before the last `rounds` rounds,
/// with the number of the round that each was for. One that lies on another picture, as after a new
/// photo, is laid centre on centre: its size and shape compare, its place does not.
pub fn earlier(told: &[&Told], shown: &Outlined, rounds: usize) -> Vec<Layer> {
    let layer = |told: &&Told| {
        let drawn = told.territory.outlined().filter(|_| told.rounds_begun < rounds)?;
        let outline = if drawn.ground.same_plane(&shown.ground) {
            drawn.outline.clone()
        } else {
            let (from, to) = (drawn.outline.centre()?, shown.outline.centre()?);
            drawn.outline.moved(to.x.saturating_sub(from.x), to.y.saturating_sub(from.y))
        };
        Some(Layer { outline, earlier: Some(told.rounds_begun + 1) })
    };
    told.iter().filter_map(layer).collect()
}

/// The points of a grid that nothing was done at yet.
pub fn to_come(spots: &[Spot]) -> Vec<SkinPoint> {
    let point = |(number, spot): (u32, &Spot)| SkinPoint {
        number,
        spot: *spot,
        mark: PointMark::Todo,
        added: false,
    };
    (1..).zip(spots).map(point).collect()
}
