//! How far a vial's real activity may lie from its label, and how it fades once dissolved.

use super::source as src;
use super::value::{Basis, PerMille};
use crate::measure::Span;

/// Lowest and highest activity, in thousandths of the label, that a vial may have.
pub const BAND: (PerMille, PerMille) = (PerMille(900), PerMille(1_150));

/// Where [`BAND`] is from: 90 to 115 % of the stated units.
pub const BAND_BASIS: Basis = Basis::Published(src::MONOGRAPH_BP);

/// Loss after dilution: time, least and most loss in thousandths. At 75 units/mL, pH 4.5.
/// Second hand, from an injectable-drugs handbook's excerpt.
pub const LOSS: &[(Span, PerMille, PerMille)] = &[
    (Span::hours(24), PerMille(70), PerMille(80)),
    (Span::hours(48), PerMille(250), PerMille(330)),
];

/// The monograph's rule is to use it immediately after preparation. Source: `MONOGRAPH_BP`.
pub const USE_AT_ONCE: Basis = Basis::Published(src::MONOGRAPH_BP);
