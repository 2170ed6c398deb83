//! What makes one way of preparing a dose better than another, and when a way is no way at all.
//!
//! None of these is published: they are this app's proposals, each with the figure that it rests
//! on.

use super::value::{Basis, PerMille};

/// A strength this near to the one asked for is close. One in a hundred is one mark of a 1 mL
/// barrel marked every 0.01 mL, so 495 for 500 is close. Farther off than [`super::barrel`] lets a
/// half-full syringe err, a strength is not offered at all.
pub const CLOSE: PerMille = PerMille(10);

/// A draw is measured well if its tolerance is at most this part of it. The usual 0.1 mL in a 1 mL
/// syringe (170) must pass; 0.05 mL (320) must not.
pub const DRAW_ERROR: PerMille = PerMille(200);

/// More marks on one barrel than an eye can tell apart: 1 mL marked every 0.005 mL.
pub const MOST_MARKS: u64 = 200;

/// Syringes in one plan beyond which a larger syringe is the answer.
pub const MOST_SYRINGES: u32 = 100;

/// Ways shown for one ask.
pub const MOST_PLANS: usize = 6;

/// Ways of one method shown for one ask.
pub const MOST_OF_A_METHOD: usize = 3;

/// Where these come from.
pub const BASIS: Basis = Basis::Proposal;
