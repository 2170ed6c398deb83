//! One outline against another.

use super::Outline;
use super::shapes::{from_shapes, overlay, to_shapes};
use crate::measure::Area;
use geo::bool_ops::OpType;

impl Outline {
    /// The surface that both have in common, to the nearest square millimetre.
    pub fn shared(&self, other: &Self) -> Area {
        self.overlaid(other, OpType::Intersection).area()
    }

    /// What of it the other does not hold.
    pub fn without(&self, other: &Self) -> Self {
        self.overlaid(other, OpType::Difference)
    }

    fn overlaid(&self, other: &Self, how: OpType) -> Self {
        from_shapes(&overlay(&to_shapes(self), &to_shapes(other), how))
    }
}
