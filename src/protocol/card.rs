//! The card that gives a photo its scale, and what such a scale has to keep to.

use super::source::CARD_ISO;
use super::value::Basis;
use crate::measure::Length;
use crate::plane::{Card, Limits};

/// A bank card, driving licence or any other of the common size: 85.60 × 53.98 mm, the nominal size
/// of the format ID-1.
pub const ID_1: Card = Card { width: 8_560, height: 5_398 };

/// Where its size is from: copies that quote the standard.
pub const ID_1_BASIS: Basis = Basis::SecondHand(CARD_ISO);

/// What a scale has to keep to. This app's own; the reasons stand with each.
pub const LIMITS: Limits = Limits {
    // At 100 pixels to the short side a pixel is half a millimetre.
    least_side: 100,
    // Turned by 40 degrees, skin that stands out of the card's plane by a centimetre is already
    // seen 8 mm off, and corners are placed worse than straight from above.
    most_tilt: 400,
    // Corners placed two pixels off, on a card of 300 pixels, stay below this 95 times in 100.
    most_misfit: 50,
    // One and a half lengths of the card: 128 mm from its middle. Beyond, a face is not flat.
    farthest: 1_500,
    // One pixel in a thousand: what a finger manages on an enlarged photo.
    placing: 100,
    // Phones have 0.7 to 0.8, with a long lens 1.4 to 3; the widest lens (0.36) shows as a misfit
    // unless the card lies flat to the photo, where the focal length does not matter.
    focal: (500, 3_000),
};

/// How well the limits are founded.
pub const LIMITS_BASIS: Basis = Basis::Proposal;

/// The least and the greatest length that a photo is measured by instead of a card: shorter ends
/// cannot be placed well, and longer is nothing on a face. Like the limits this app's own, and narrow
/// enough to catch a slip of the decimal sign for most.
pub const KNOWN_LENGTH: (Length, Length) = (Length::mm(10), Length::mm(200));
