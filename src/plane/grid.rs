//! An even grid of points.

use super::Spot;
use crate::measure::Length;
use serde::{Deserialize, Serialize};

/// How the points of a grid lie to each other.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Lattice {
    /// Each has four neighbours.
    #[default]
    Square,
    /// Each has six neighbours: at the same spacing there are more points, by two in thirteen, and
    /// no place between them is as far from the nearest.
    Hexagonal,
}

/// Points on the skin, in the order in which they are taken.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Grid {
    spots: Vec<Spot>,
    lattice: Lattice,
    spacing: Length,
    margin: Length,
}

impl Grid {
    pub(super) const fn of(
        spots: Vec<Spot>,
        lattice: Lattice,
        spacing: Length,
        margin: Length,
    ) -> Self {
        Self { spots, lattice, spacing, margin }
    }

    /// The points, in the order in which they are taken.
    pub fn spots(&self) -> &[Spot] {
        &self.spots
    }

    /// How they lie to each other.
    pub const fn lattice(&self) -> Lattice {
        self.lattice
    }

    /// From a point to its neighbour.
    pub const fn spacing(&self) -> Length {
        self.spacing
    }

    /// How far outside the outline points may lie.
    pub const fn margin(&self) -> Length {
        self.margin
    }

    /// How many points there are.
    pub const fn len(&self) -> usize {
        self.spots.len()
    }

    /// Whether there is none.
    pub const fn is_empty(&self) -> bool {
        self.spots.is_empty()
    }
}
