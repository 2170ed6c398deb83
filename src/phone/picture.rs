//! Taking in a photo: made small, turned upright, and stripped of all but the picture.
//!
//! | part | what it does | needs a browser |
//! |---|---|---|
//! | [`fit`] | how large a photo is kept | no |
//! | [`jpeg`] | a file without place, time and camera | no |
//! | [`take_in`] | from a file that the user chose to what can be kept | yes |
//! | [`take_frame`] | from what the camera shows to what can be kept | yes |
//! | [`label()`] | lines of text as a picture for a printer of labels | yes |
//! | [`ObjectUrl`] | an address under which kept bytes can be shown | yes |
//!
//! The photo never leaves the phone, and neither does what it knew of where and when it was taken.

pub mod jpeg;

#[cfg(feature = "app")]
mod label;
#[cfg(feature = "app")]
mod url;
#[cfg(feature = "app")]
mod work;

use std::fmt;

#[cfg(feature = "app")]
pub use label::label;
#[cfg(feature = "app")]
pub use url::ObjectUrl;
#[cfg(feature = "app")]
pub use work::{take_frame, take_in};

/// The longer side of a photo as it is kept, in pixels. A face, some 20 cm high, that fills it is
/// seen at 8 pixels in a millimetre: finer than a finger draws, and small enough to keep many.
pub const LONGER_SIDE: u32 = 1_600;
/// The largest file that is read, in bytes: well above a 40-megapixel photo's.
pub const LARGEST_FILE: u64 = 100_000_000;

/// A photo as it is kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Picture {
    /// A JPEG file that holds a picture and nothing else.
    pub bytes: Vec<u8>,
    /// Its width as it is seen, in pixels.
    pub width: u32,
    /// Its height as it is seen, in pixels.
    pub height: u32,
}

/// Why a file did not become a picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unreadable {
    /// It is not a photo.
    NotAPhoto,
    /// The file is larger than [`LARGEST_FILE`].
    TooLarge,
    /// The browser could not decode it: a form that it does not know, a damaged file, or a photo too
    /// large for this phone's memory.
    NotDecoded,
    /// The browser would not draw it or hand the drawing out: no memory, or its settings forbid it.
    NotDrawn,
    /// It could not be made sure that what came out holds a picture and nothing else.
    Metadata,
}

impl fmt::Display for Unreadable {
    /// For logs and error reports; screens word it themselves.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::NotAPhoto => "the file is no photo",
            Self::TooLarge => "the file is too large",
            Self::NotDecoded => "the photo could not be decoded",
            Self::NotDrawn => "the photo could not be drawn",
            Self::Metadata => "the photo could not be stripped of its metadata",
        })
    }
}

impl std::error::Error for Unreadable {}

/// Whether a file may be a photo, by the kind that the browser tells and its size in bytes. The kind
/// is a guess from the file's name, and empty where the browser has none.
///
/// # Errors
/// [`Unreadable::NotAPhoto`] for a file that is empty or of another kind, a drawing in vectors too,
/// since it has no pixels to measure by; [`Unreadable::TooLarge`].
pub fn may_be_photo(kind: &str, size: u64) -> Result<(), Unreadable> {
    let image = kind.is_empty() || kind.starts_with("image/");
    if !image || kind.starts_with("image/svg") || size == 0 {
        Err(Unreadable::NotAPhoto)
    } else if size > LARGEST_FILE {
        Err(Unreadable::TooLarge)
    } else {
        Ok(())
    }
}

/// The size at which a photo is kept, in pixels: the longer side at most [`LONGER_SIDE`], the shape as
/// it was to the nearest pixel, never enlarged. None for a photo without width or height.
pub fn fit(width: u32, height: u32) -> Option<(u32, u32)> {
    let longer = width.max(height);
    if width == 0 || height == 0 {
        return None;
    }
    if longer <= LONGER_SIDE {
        return Some((width, height));
    }
    let scaled = |side: u32| {
        let side =
            (u64::from(side) * u64::from(LONGER_SIDE) + u64::from(longer) / 2) / u64::from(longer);
        // At most the longer side, so that it never falls outside.
        u32::try_from(side).unwrap_or(LONGER_SIDE).max(1)
    };
    Some((scaled(width), scaled(height)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_photo_is_made_small_and_keeps_its_shape() {
        assert_eq!(fit(8_000, 5_000), Some((1_600, 1_000)));
        assert_eq!(fit(3_024, 4_032), Some((1_200, 1_600)));
        assert_eq!(fit(1_601, 1_601), Some((1_600, 1_600)));
        assert_eq!(fit(u32::MAX, u32::MAX - 1), Some((1_600, 1_600)));
        // To the nearest pixel: 1,000.5 and 1,000.3.
        assert_eq!(fit(3_200, 2_001), Some((1_600, 1_001)));
        assert_eq!(fit(4_800, 3_001), Some((1_600, 1_000)));
    }

    #[test]
    fn a_small_photo_is_not_enlarged() {
        assert_eq!(fit(640, 480), Some((640, 480)));
        assert_eq!(fit(1_600, 1), Some((1_600, 1)));
    }

    #[test]
    fn a_photo_without_size_is_none_and_a_sliver_keeps_a_pixel() {
        assert_eq!(fit(0, 100), None);
        assert_eq!(fit(100, 0), None);
        assert_eq!(fit(100_000, 1), Some((1_600, 1)));
    }

    #[test]
    fn a_file_that_is_no_photo_is_refused_before_it_is_read() {
        assert_eq!(may_be_photo("image/jpeg", 3_000_000), Ok(()));
        assert_eq!(may_be_photo("", 3_000_000), Ok(()));
        for kind in ["application/pdf", "image/svg+xml", "text/plain", "video/mp4"] {
            assert_eq!(may_be_photo(kind, 3_000), Err(Unreadable::NotAPhoto), "{kind}");
        }
        assert_eq!(may_be_photo("image/jpeg", 0), Err(Unreadable::NotAPhoto));
        assert_eq!(may_be_photo("image/jpeg", LARGEST_FILE), Ok(()));
        assert_eq!(may_be_photo("image/jpeg", LARGEST_FILE + 1), Err(Unreadable::TooLarge));
    }
}
