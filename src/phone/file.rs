//! Reading a file that the user chose.

use crate::record::backup::LARGEST;
use js_sys::{ArrayBuffer, Uint8Array};
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::JsFuture;
use web_sys::File;

/// Why a file gives no bytes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FileError {
    /// Larger than anything that is read.
    TooLarge,
    /// The browser does not give it.
    Unreadable,
}

/// What is in a file. Its size is asked before anything of it is read.
///
/// # Errors
/// [`FileError`].
pub async fn bytes(file: File) -> Result<Vec<u8>, FileError> {
    #[expect(clippy::cast_precision_loss, reason = "JavaScript's own sizes are no finer")]
    let largest = LARGEST as f64;
    if file.size() > largest {
        return Err(FileError::TooLarge);
    }
    let read = JsFuture::from(file.array_buffer()).await.map_err(|_| FileError::Unreadable)?;
    let read: ArrayBuffer = read.dyn_into().map_err(|_| FileError::Unreadable)?;
    Ok(Uint8Array::new(&read).to_vec())
}
