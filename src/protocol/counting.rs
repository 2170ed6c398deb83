//! How many things one count may say.

use super::value::Basis;

/// More of one lot than this is taken for a slip of the finger, as a batch typed into the count is.
/// Nothing is published: no clinic keeps a thousand of one batch for an occlusion.
pub const MOST_OF_A_LOT: u32 = 999;

/// Where it comes from.
pub const BASIS: Basis = Basis::Proposal;
