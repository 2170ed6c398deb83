//! Zones of the face, with the size each usually has when nobody has measured it.

use super::source::FACE_2019;
use super::value::Basis;
use crate::measure::Area;
use serde::{Deserialize, Serialize};

/// A zone of the face, in the trade's words.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Zone {
    /// Upper lip, red and white.
    UpperLip,
    /// Lower lip, red and white.
    LowerLip,
    /// Nasolabial fold.
    NasolabialFold,
    /// Tip of the nose.
    NoseTip,
    /// Wing of the nose.
    Ala,
    /// Between the brows.
    Glabella,
    /// Forehead.
    Forehead,
    /// Temple.
    Temple,
    /// Cheek.
    Cheek,
    /// Chin.
    Chin,
    /// Tear trough.
    TearTrough,
}

impl Zone {
    /// All of them, those most often hit first.
    pub const ALL: [Self; 11] = [
        Self::UpperLip,
        Self::LowerLip,
        Self::NasolabialFold,
        Self::NoseTip,
        Self::Ala,
        Self::Glabella,
        Self::Forehead,
        Self::Temple,
        Self::Cheek,
        Self::Chin,
        Self::TearTrough,
    ];

    /// The usual surface of one side's zone, and where that is from. A start for a plan, not a
    /// measurement: the skin in front of you decides.
    pub const fn usual(self) -> (Area, Basis) {
        const LIPS: Basis = Basis::DerivedFrom(FACE_2019);
        match self {
            // Half of the ellipse 52 × 27 mm (5.5 cm²) and a white lip of 52 × 12 mm (6.2 cm²).
            Self::UpperLip | Self::LowerLip => (Area::mm2(1_170), LIPS),
            // From the wing to the corner of the mouth, 50 × 15 mm.
            Self::NasolabialFold => (Area::mm2(750), Basis::Proposal),
            Self::NoseTip => (Area::mm2(600), Basis::Proposal),
            Self::Ala => (Area::mm2(400), Basis::Proposal),
            Self::Glabella => (Area::mm2(1_000), Basis::Proposal),
            Self::Forehead => (Area::mm2(5_000), Basis::Proposal),
            Self::Temple => (Area::mm2(2_000), Basis::Proposal),
            Self::Cheek => (Area::mm2(3_000), Basis::Proposal),
            Self::Chin => (Area::mm2(1_200), Basis::Proposal),
            Self::TearTrough => (Area::mm2(500), Basis::Proposal),
        }
    }

    /// Which facial area, as dosed by area, the zone belongs to. Tip and wings are one nose; the
    /// rest stand each for itself.
    pub const fn facial_area(self) -> Self {
        match self {
            Self::Ala => Self::NoseTip,
            other => other,
        }
    }
}
