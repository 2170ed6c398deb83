//! How much a drawn outline must change before its change is told.

use super::value::{Basis, PerMille};
use crate::measure::Area;

/// Part of the larger of two outlines by which they must differ. The same skin drawn twice by finger
/// differs at its edge. Basis: the app's own proposal, [`AREA_NOISE_BASIS`].
pub const AREA_NOISE: PerMille = PerMille(100);
/// And the least difference, for small outlines: a circle of 2 cm² drawn a millimetre
/// wider is larger by about this.
/// Basis: the app's own proposal, [`AREA_NOISE_BASIS`].
pub const AREA_NOISE_LEAST: Area = Area::mm2(50);
/// How well both are founded.
pub const AREA_NOISE_BASIS: Basis = Basis::Proposal;
