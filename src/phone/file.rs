//! Reading a file that the user chose.

use super::js;
use crate::record::backup::LARGEST;
use wasm_bindgen::JsCast;
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
    js::bytes(file.array_buffer().unchecked_into()).await.map_err(|_| FileError::Unreadable)
}
