//! The geometry of the territory, to be timed in real browsers: `tools/bench`.
//!
//! Built by the app's own release profile, so that it is as small and as slow as what users get.

mod drawing;

pub use drawing::Drawing;
