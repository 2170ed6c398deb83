//! What a photo shows, and how its scale is known.

mod camera;
mod error;
mod matrix;
mod rectified;

pub use rectified::{Misfit, Rectified, rectify};

use crate::measure::Length;
use serde::{Deserialize, Serialize};

/// A place in a photo: tenths of a pixel to the right and down.
#[derive(
    Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize,
)]
#[serde(from = "(i32, i32)", into = "(i32, i32)")]
pub struct Dot {
    /// To the right.
    pub x: i32,
    /// Down.
    pub y: i32,
}

impl Dot {
    /// Tenths that make a pixel.
    pub const PER_PIXEL: i32 = 10;

    /// In pixels.
    pub fn pixels(self) -> (f64, f64) {
        let pixels = |tenths: i32| f64::from(tenths) / f64::from(Self::PER_PIXEL);
        (pixels(self.x), pixels(self.y))
    }
}

impl From<(i32, i32)> for Dot {
    fn from((x, y): (i32, i32)) -> Self {
        Self { x, y }
    }
}

impl From<Dot> for (i32, i32) {
    fn from(dot: Dot) -> Self {
        (dot.x, dot.y)
    }
}

/// The size of a photo in pixels.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Extent {
    /// Across.
    pub width: u32,
    /// Down.
    pub height: u32,
}

/// How a photo's scale is known.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Scale {
    /// The corners of a flat card of known size beside the skin, one after the other round it.
    Card([Dot; 4]),
    /// The two ends of a known length. Says nothing of a tilt.
    Known {
        /// Its ends.
        ends: [Dot; 2],
        /// How long it is on the patient.
        length: Length,
    },
}

/// A flat card of known size, in hundredths of a millimetre.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Card {
    /// Its longer side.
    pub width: u32,
    /// Its shorter side.
    pub height: u32,
}

/// What a scale has to keep to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Limits {
    /// The shortest that a side of the card, or a known length, may be in the photo: pixels.
    pub least_side: u32,
    /// How far the card may be turned out of the plane of the photo: tenths of a degree.
    pub most_tilt: u32,
    /// How far the card's corners may lie from where a camera would show them, as the root of their
    /// mean square: hundredths of a millimetre on the skin.
    pub most_misfit: u32,
    /// How far from the card's middle skin may be measured: thousandths of its longer side.
    pub farthest: u32,
    /// How exactly a corner is placed, across and down: hundred-thousandths of the photo's longer
    /// side.
    pub placing: u32,
    /// Between which focal lengths cameras have theirs: thousandths of the photo's longer side.
    pub focal: (u32, u32),
}

/// Why a photo has no scale that can be measured by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unscaled {
    /// A corner or an end lies outside the photo.
    Outside,
    /// The corners are not in order round the card: two sides cross.
    Crossed,
    /// Three corners are in one line, or one lies between the others.
    NotConvex,
    /// Seen too small to be placed well.
    TooSmall {
        /// The shortest side, or the known length, in whole pixels.
        pixels: u32,
    },
    /// Turned too far out of the plane of the photo.
    Tilted {
        /// Tenths of a degree.
        tilt: u32,
    },
    /// A card lying across fits and one standing upright does too, each turned by another angle, as
    /// seen aslant through a long lens. From straight above only one of them fits.
    TwoWays,
    /// No flat card of this shape looks like that: a corner is misplaced, the card is bent or is
    /// another card.
    Misfit(Misfit),
    /// The known length is nothing.
    NoLength,
}
