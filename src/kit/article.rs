//! What a thing in the kit is, and where it lies.

use super::gs1::Gtin;
use crate::care::allergy::Species;
use crate::measure::{Date, Hash, Units, Volume};
use crate::protocol::diluent::Diluent;
use serde::{Deserialize, Serialize};

/// Where a thing lies.
#[derive(
    Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize,
)]
pub enum Place {
    /// In the clinic.
    #[default]
    Clinic,
    /// In the bag for home visits.
    Bag,
}

impl Place {
    /// All of them.
    pub const ALL: [Self; 2] = [Self::Clinic, Self::Bag];

    /// The other one.
    #[must_use]
    pub const fn other(self) -> Self {
        match self {
            Self::Clinic => Self::Bag,
            Self::Bag => Self::Clinic,
        }
    }
}

/// What a thing is, as far as it matters for an occlusion.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Article {
    /// A vial of hyaluronidase.
    Hyaluronidase {
        /// Units on its label.
        units: Units,
        /// Where the enzyme comes from.
        species: Species,
    },
    /// A container of diluent.
    Diluent {
        /// Which.
        diluent: Diluent,
        /// How much is in one.
        holds: Volume,
    },
    /// A syringe.
    Syringe {
        /// Its capacity.
        holds: Volume,
    },
    /// A needle.
    Needle,
    /// An ampoule of adrenaline 1 mg/mL.
    Adrenaline,
    /// A tablet of aspirin.
    Aspirin,
}

/// What an article is for, whatever its size.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Kind {
    /// The enzyme.
    Hyaluronidase,
    /// What it is dissolved in.
    Diluent,
    /// Syringes.
    Syringe,
    /// Needles.
    Needle,
    /// Adrenaline.
    Adrenaline,
    /// Aspirin.
    Aspirin,
}

impl Kind {
    /// All of them, the enzyme first.
    pub const ALL: [Self; 6] = [
        Self::Hyaluronidase,
        Self::Diluent,
        Self::Syringe,
        Self::Needle,
        Self::Adrenaline,
        Self::Aspirin,
    ];
}

impl Article {
    /// What it is for.
    pub const fn kind(self) -> Kind {
        match self {
            Self::Hyaluronidase { .. } => Kind::Hyaluronidase,
            Self::Diluent { .. } => Kind::Diluent,
            Self::Syringe { .. } => Kind::Syringe,
            Self::Needle => Kind::Needle,
            Self::Adrenaline => Kind::Adrenaline,
            Self::Aspirin => Kind::Aspirin,
        }
    }
}

/// Names a lot: the digest of the entry that received it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct LotId(pub Hash);

/// Things of one batch that came in together.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Lot {
    /// What they are.
    pub article: Article,
    /// Batch as printed; empty if it was not noted.
    pub batch: String,
    /// Last day of use, if it was noted.
    pub expiry: Option<Date>,
    /// The number of the trade item, if the code on the pack was read.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub gtin: Option<Gtin>,
    /// Where they were put.
    pub place: Place,
    /// How many.
    pub count: u32,
}
