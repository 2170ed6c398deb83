//! What a photo shows, and how its scale is known.

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
