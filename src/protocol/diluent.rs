//! What the powder is dissolved in.

use super::source as src;
use super::value::{Basis, PerMille};
use serde::{Deserialize, Serialize};

/// A diluent.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Diluent {
    /// Sodium chloride, isotonic.
    #[default]
    Saline,
    /// Sodium chloride, isotonic, with a preservative.
    BacteriostaticSaline,
    /// Water for injections.
    Water,
    /// Lidocaine without adrenaline.
    Lidocaine,
}

impl Diluent {
    /// All of them, the usual first.
    pub const ALL: [Self; 4] =
        [Self::Saline, Self::BacteriostaticSaline, Self::Water, Self::Lidocaine];

    /// What is dissolved in it, in thousandths by weight; none in water.
    pub const fn strength(self) -> Option<PerMille> {
        match self {
            Self::Saline | Self::BacteriostaticSaline => Some(PerMille(9)),
            Self::Water => None,
            Self::Lidocaine => Some(PerMille(10)),
        }
    }

    /// Who says that it serves.
    pub const fn basis(self) -> Basis {
        match self {
            Self::Saline | Self::Water => Basis::Published(src::LABEL_UK),
            Self::BacteriostaticSaline => Basis::SecondHand(src::TRADE_2022),
            // Saline to spread or lidocaine to widen the vessels: "some experts".
            Self::Lidocaine => Basis::Published(src::CONSENSUS_2015),
        }
    }
}

/// Enzyme with a local anaesthetic: quicker, but shorter and with more systemic reactions.
pub const WITH_ANAESTHETIC: Basis = Basis::Published(src::LABEL_US);

/// Not with adrenaline or the sulphite that keeps it: seen in a handbook's excerpt. The UK label
/// says that it has been mixed with adrenaline; the sources disagree.
pub const ADRENALINE_MIXED: Basis = Basis::Published(src::LABEL_UK);
