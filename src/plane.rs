//! Skin laid flat: outlines, areas, even grids, the way from point to point, and what a photo shows
//! of all that. Nothing here knows medicine.
//!
//! | part | what it does |
//! |---|---|
//! | [`Spot`] | a place on the skin, in whole hundredths of a millimetre |
//! | [`Ring`], [`Patch`], [`Outline`] | what was drawn: patches with holes, their exact area |
//! | [`trace`], [`Stroke`], [`simplified`] | from strokes of a finger to an outline |
//! | [`Sketch`] | strokes being drawn, pulled into shape and taken back |
//! | [`Scale`], [`rectify`], [`Rectified`] | how the scale of a photo is known, and measuring by it |
//!
//! What is kept and what becomes a dose is whole numbers: places, areas, counts of points. Floats
//! live inside a computation and never leave it.

mod compare;
mod contact;
mod grow;
mod hull;
mod outline;
mod photo;
mod place;
mod shapes;
mod simplify;
mod sketch;
mod spot;
mod trace;

pub use outline::{Outline, Patch, Ring};
pub use photo::{Card, Dot, Extent, Limits, Misfit, Rectified, Scale, Unscaled, rectify};
pub use simplify::simplified;
pub use sketch::{Handle, Sketch};
pub use spot::Spot;
pub use trace::{Kind, Stroke, Traced, Untraceable, trace};
