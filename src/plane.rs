//! Skin laid flat: outlines, areas, even grids, the way from point to point, and what a photo shows
//! of all that. Nothing here knows medicine.
//!
//! | part | what it does |
//! |---|---|
//! | [`Spot`] | a place on the skin, in whole hundredths of a millimetre |
//! | [`Ring`], [`Patch`], [`Outline`] | what was drawn: patches with holes, their exact area |
//! | [`trace()`], [`Stroke`], [`simplified`] | from strokes of a finger to an outline |
//! | [`Sketch`] | strokes being drawn, pulled into shape and taken back |
//! | [`Scale`], [`rectify`], [`Rectified`] | how the scale of a photo is known, and measuring by it |
//! | [`lay()`], [`Grid`], [`Lattice`] | an even grid of points over an outline |
//! | [`reach()`] | how far skin is at most from its nearest point |
//! | [`in_order`], [`path_length`], [`longest_step`] | the way from point to point |
//! | [`sample`] | an outline made up for benchmarks |
//!
//! What is kept and what becomes a dose is whole numbers: places, areas, counts of points. Floats
//! live inside a computation and never leave it.

mod compare;
mod contact;
mod grid;
mod grow;
mod hull;
mod lay;
mod near;
mod order;
mod outline;
mod photo;
mod place;
mod reach;
pub mod sample;
mod shapes;
mod sides;
mod simplify;
mod sketch;
mod spot;
mod trace;
mod whole;

pub use grid::{Grid, Lattice};
pub use lay::{Lie, fill, lay};
pub use order::{in_order, longest_step, nearest_neighbour, path_length, rows};
pub use outline::{Outline, Patch, Ring};
pub use photo::{Card, Dot, Extent, Limits, Misfit, Rectified, Scale, Unscaled, rectify};
pub use reach::reach;
pub use simplify::simplified;
pub use sketch::{Handle, Sketch};
pub use spot::Spot;
pub use trace::{Kind, Stroke, Traced, Untraceable, trace};
