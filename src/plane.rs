//! Skin laid flat: outlines, areas, even grids, the way from point to point, and what a photo shows
//! of all that. Nothing here knows medicine.
//!
//! | part | what it does |
//! |---|---|
//! | [`Spot`] | a place on the skin, in whole hundredths of a millimetre |
//! | [`Ring`], [`Patch`], [`Outline`] | what was drawn: patches with holes, their exact area |
//! | [`Scale`] | how the scale of a photo is known |
//!
//! What is kept and what becomes a dose is whole numbers: places, areas, counts of points. Floats
//! live inside a computation and never leave it.

mod outline;
mod photo;
mod spot;

pub use outline::{Outline, Patch, Ring};
pub use photo::{Dot, Extent, Scale};
pub use spot::Spot;
