//! An address for bytes that are in memory only.

use js_sys::{Array, Uint8Array};
use web_sys::{Blob, BlobPropertyBag, Url};

/// An address under which this page, and no other, can show a picture. It holds for as long as this
/// value lives, and the bytes stay in memory for as long.
#[derive(Debug)]
pub struct ObjectUrl(String);

impl ObjectUrl {
    /// For the bytes of a JPEG file; none if the browser refuses.
    pub fn of(bytes: &[u8]) -> Option<Self> {
        let bag = BlobPropertyBag::new();
        bag.set_type("image/jpeg");
        let parts = Array::of1(&Uint8Array::from(bytes));
        let blob = Blob::new_with_u8_array_sequence_and_options(&parts, &bag).ok()?;
        Self::of_blob(&blob)
    }

    /// For a file or a Blob; none if the browser refuses.
    pub(super) fn of_blob(blob: &Blob) -> Option<Self> {
        Url::create_object_url_with_blob(blob).ok().map(Self)
    }

    /// The address.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl Drop for ObjectUrl {
    fn drop(&mut self) {
        // Fails for no address that was made here.
        let _ = Url::revoke_object_url(&self.0);
    }
}
