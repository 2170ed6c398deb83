//! A territory that was drawn round, and what it was drawn on.

use crate::measure::{Hash, Length};
use crate::plane::{Extent, Grid, Outline, Scale, lay};
use crate::protocol::Protocol;
use crate::protocol::face::View;
use serde::{Deserialize, Serialize};

/// A photo kept on this phone: its name and its size. The picture itself lies elsewhere, and may be
/// gone while what was traced on it stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Photo {
    /// The digest of its bytes.
    pub name: Hash,
    /// Its size.
    pub extent: Extent,
}

/// What was drawn on.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Ground {
    /// The drawing of a face.
    Drawing {
        /// Which.
        view: View,
        /// The patient's own length that the drawing was fitted to; without it, it is the standard
        /// face.
        measured: Option<Length>,
    },
    /// A photo of the patient.
    Photo {
        /// Which.
        photo: Photo,
        /// How its scale is known.
        scale: Scale,
    },
}

impl Ground {
    /// Whether places on both can be laid over each other: the same drawing at the same size, or the
    /// same photo measured the same way.
    pub fn same_plane(&self, other: &Self) -> bool {
        self == other
    }
}

/// An outline and what it was drawn on.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Outlined {
    /// What it was drawn on.
    pub ground: Ground,
    /// The outline, in the ground's own plane, at the size of the patient.
    pub outline: Outline,
}

impl Outlined {
    /// The grid on it with this spacing, of the kind and with the margin in force.
    pub fn grid(&self, spacing: Length, protocol: &Protocol) -> Grid {
        lay(&self.outline, protocol.lattice, spacing, protocol.margin)
    }
}
