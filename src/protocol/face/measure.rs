//! The one length by which a view is put to the size of the patient.

use super::super::source::FACE_2019;
use super::super::value::{Basis, Finding, Quantity};
use crate::measure::Length;

/// Which length of the face.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Landmark {
    /// From one corner of the mouth to the other, at rest.
    MouthWidth,
    /// From the root of the nose straight down to its base.
    NasalHeight,
}

/// A length of the face, and where it is from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Measure {
    /// Which length.
    pub which: Landmark,
    /// How long.
    pub length: Length,
    /// How well founded.
    pub basis: Basis,
}

const fn found(tenths: u64, setting: &'static str) -> Finding {
    let length = Quantity::Length(Length::tenths(tenths));
    Finding { low: length, high: length, basis: Basis::Published(FACE_2019), setting }
}

/// The table's columns; which is whose was not seen.
const SECOND: &str = "one population, second column, presumably women";
const FIRST: &str = "one population, first column, presumably men";

impl Landmark {
    /// All of them.
    pub const ALL: [Self; 2] = [Self::MouthWidth, Self::NasalHeight];

    /// What it measures on the drawing, before anybody has measured the patient.
    pub const fn standard(self) -> Measure {
        let tenths = match self {
            Self::MouthWidth => 520,
            Self::NasalHeight => 476,
        };
        let basis = Basis::Published(FACE_2019);
        Measure { which: self, length: Length::tenths(tenths), basis }
    }

    /// What the source found; the first is the drawing's own. Populations differ, so the patient's
    /// own length is always better.
    pub const fn findings(self) -> &'static [Finding] {
        match self {
            Self::MouthWidth => const { &[found(520, SECOND), found(559, FIRST)] },
            Self::NasalHeight => const { &[found(476, SECOND), found(510, FIRST)] },
        }
    }

    /// The least and the greatest length that is taken for one of an adult. A
    /// [`Basis::Proposal`]: wide enough for any face, and narrow enough to catch a slip of the
    /// decimal sign or a length in centimetres.
    pub const fn bounds(self) -> (Length, Length) {
        match self {
            Self::MouthWidth => (Length::mm(30), Length::mm(80)),
            Self::NasalHeight => (Length::mm(30), Length::mm(75)),
        }
    }
}
