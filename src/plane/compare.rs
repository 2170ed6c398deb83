//! One outline against another.

use super::Outline;
use super::shapes::{How, from_shapes, overlay, to_shapes};
use crate::measure::Area;

impl Outline {
    /// The surface that both have in common, to the nearest square millimetre.
    pub fn shared(&self, other: &Self) -> Area {
        self.overlaid(other, How::Intersect).area()
    }

    /// What of it the other does not hold.
    pub fn without(&self, other: &Self) -> Self {
        self.overlaid(other, How::Difference)
    }

    fn overlaid(&self, other: &Self, how: How) -> Self {
        from_shapes(&overlay(&to_shapes(self), &to_shapes(other), how))
    }
}
