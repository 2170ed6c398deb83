//! An outline made up, and what is timed on it.
//!
//! Every answer is a number that takes all of the work to know. So nothing can be optimised away,
//! and whoever runs the same elsewhere can compare.

use freshet::measure::Length;
use freshet::plane::{Grid, Lattice, Outline, Spot, in_order, lay, reach, sample};
#[cfg(target_arch = "wasm32")]
use wasm_bindgen::prelude::wasm_bindgen;

/// As a clinic would have it, and as the benchmark on the host has it.
const SPACING: Length = Length::mm(10);

/// A wavy outline with a grid over it.
#[cfg_attr(target_arch = "wasm32", wasm_bindgen)]
pub struct Drawing {
    outline: Outline,
    grid: Grid,
    /// The points of the grid in no order.
    muddled: Vec<Spot>,
}

#[cfg_attr(target_arch = "wasm32", wasm_bindgen)]
impl Drawing {
    /// An outline of so many places, so many millimetres across; the points of its grid are a
    /// centimetre apart and may lie `margin` millimetres outside.
    #[cfg_attr(target_arch = "wasm32", wasm_bindgen(constructor))]
    pub fn new(vertices: u32, across: f64, hexagonal: bool, margin: u32) -> Self {
        let outline = sample::wavy(vertices as usize, across);
        let lattice = if hexagonal { Lattice::Hexagonal } else { Lattice::Square };
        let grid = lay(&outline, lattice, SPACING, Length::mm(margin.into()));
        let mut muddled = grid.spots().to_vec();
        muddled.sort_by_key(|spot| {
            i64::from(spot.x) * 7_919 % 1_009 + i64::from(spot.y) * 104_729 % 997
        });
        Self { outline, grid, muddled }
    }

    /// How many points there are.
    pub fn points(&self) -> u32 {
        u32::try_from(self.grid.len()).unwrap_or(u32::MAX)
    }

    /// The surface, in square millimetres.
    pub fn area(&self) -> u32 {
        u32::try_from(self.outline.area().raw()).unwrap_or(u32::MAX)
    }

    /// The grid with its search and its order: a digest of the points as they are taken.
    pub fn lay(&self) -> u32 {
        digest(lay(&self.outline, self.grid.lattice(), SPACING, self.grid.margin()).spots())
    }

    /// The order alone: a digest of the points as they are taken.
    pub fn order(&self) -> u32 {
        digest(&in_order(self.muddled.clone()))
    }

    /// The greatest distance of skin from its nearest point, in tenths of a millimetre; the greatest
    /// number when there is no point.
    pub fn reach(&self) -> u32 {
        let reach = reach(&self.outline, self.grid.spots());
        reach.and_then(|reach| u32::try_from(reach.raw()).ok()).unwrap_or(u32::MAX)
    }

    /// What is asked for when a line has been drawn, surface and grid: both together.
    pub fn territory(&self) -> u32 {
        self.area() ^ self.lay()
    }
}

/// Another number for other points, and for the same in another order.
fn digest(spots: &[Spot]) -> u32 {
    let mix = |sum: u32, number: i32| (sum ^ number.cast_unsigned()).wrapping_mul(0x0100_0193);
    spots.iter().fold(0x811c_9dc5, |sum, spot| mix(mix(sum, spot.x), spot.y))
}
