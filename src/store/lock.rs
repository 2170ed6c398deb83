//! Whether what the phone keeps is sealed, and who may read it now.

use crate::seal::{Keys, Letterbox, Random};
use std::rc::Rc;

/// Whether what is kept is sealed, and whether the keys are here.
#[derive(Clone, Debug, Default)]
pub enum Lock {
    /// No passcode is set: everything lies open.
    #[default]
    Off,
    /// The keys are away. What is written goes into the letterbox; nothing written before is read.
    Shut(Rc<Letterbox>),
    /// The keys are here.
    Open(Rc<Keys>),
}

impl Lock {
    /// Bytes as they are to lie at a place.
    pub fn seal(&self, place: &str, bytes: Vec<u8>, random: &mut impl Random) -> Vec<u8> {
        match self {
            Self::Off => bytes,
            Self::Shut(letterbox) => letterbox.seal(place, &bytes, random),
            Self::Open(keys) => keys.seal(place, &bytes, random),
        }
    }

    /// A text as it is to lie at a place.
    pub fn seal_text(&self, place: &str, text: String, random: &mut impl Random) -> String {
        match self {
            Self::Off => text,
            Self::Shut(letterbox) => letterbox.seal_text(place, &text, random),
            Self::Open(keys) => keys.seal_text(place, &text, random),
        }
    }
}

/// Who has the keys, and where random bytes come from.
pub trait Warden {
    /// Where random bytes come from.
    type Random: Random;

    /// How it stands now.
    fn lock(&self) -> Lock;

    /// Random bytes for what is sealed next.
    fn random(&self) -> Self::Random;
}
