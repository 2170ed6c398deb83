//! Reading a file that the user chose.

use crate::record::lines::{LARGEST, Unread};
use js_sys::{ArrayBuffer, Uint8Array};
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::JsFuture;
use web_sys::File;

/// The text of a file. Its size is asked before anything of it is read.
///
/// # Errors
/// [`Unread::TooLarge`], [`Unread::NotText`]; the latter also where the browser cannot read it.
pub async fn text(file: File) -> Result<String, Unread> {
    #[expect(clippy::cast_precision_loss, reason = "JavaScript's own sizes are no finer")]
    let largest = LARGEST as f64;
    if file.size() > largest {
        return Err(Unread::TooLarge);
    }
    let read = JsFuture::from(file.array_buffer()).await.map_err(|_| Unread::NotText)?;
    let read: ArrayBuffer = read.dyn_into().map_err(|_| Unread::NotText)?;
    String::from_utf8(Uint8Array::new(&read).to_vec()).map_err(|_| Unread::NotText)
}
