//! Where the landmarks of anthropometry lie on the drawing seen from the front, and in the
//! three-quarter views by their height.
//!
//! Placed so that the lengths between them are those of one published table: `FACE_2019`, one
//! population, second column (presumably women). Upper lip and its red are measured apart there, so
//! the white of the lip is what is left between them. Those beside the middle are on the viewer's
//! right; the other side is the mirror.

use crate::plane::Spot;

/// Trichion: the hairline in the middle.
pub const TRICHION: Spot = Spot::new(0, -11_510);
/// Nasion: the root of the nose.
pub const NASION: Spot = Spot::new(0, -4_760);
/// Endocanthion: the inner corner of the eye.
pub const ENDOCANTHION: Spot = Spot::new(1_605, -4_100);
/// Exocanthion: the outer corner of the eye.
pub const EXOCANTHION: Spot = Spot::new(4_720, -4_240);
/// Zygion: the widest place of the cheekbones.
pub const ZYGION: Spot = Spot::new(6_505, -3_600);
/// Alare: the widest place of the wing of the nose.
pub const ALARE: Spot = Spot::new(2_035, -800);
/// Subnasale: where nose and upper lip meet. The origin of all places.
pub const SUBNASALE: Spot = Spot::new(0, 0);
/// Labiale superius: the upper edge of the red lip, in the dip of the bow.
pub const LABIALE_SUPERIUS: Spot = Spot::new(0, 1_060);
/// Stomion: the middle of the line of the mouth.
pub const STOMION: Spot = Spot::new(0, 2_400);
/// Cheilion: the corner of the mouth.
pub const CHEILION: Spot = Spot::new(2_600, 2_460);
/// Labiale inferius: the lower edge of the red lip.
pub const LABIALE_INFERIUS: Spot = Spot::new(0, 3_760);
/// Sublabiale: the crease between lower lip and chin.
pub const SUBLABIALE: Spot = Spot::new(0, 4_470);
/// Menton: the lowest place of the chin.
pub const MENTON: Spot = Spot::new(0, 6_950);
