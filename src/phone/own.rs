//! The app's own files and its own page, beside the code.

use super::js::{self, window};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::Response;

/// What is in one of the app's own files, by its path beside the page. None if it cannot be had, as
/// without a network where the app was never put on the phone.
pub async fn bytes(path: &str) -> Option<Vec<u8>> {
    read(path).await.ok()
}

async fn read(path: &str) -> Result<Vec<u8>, JsValue> {
    let window = window().ok_or(JsValue::NULL)?;
    let response: Response = JsFuture::from(window.fetch_with_str(path)).await?.dyn_into()?;
    if !response.ok() {
        return Err(JsValue::NULL);
    }
    js::bytes(response.array_buffer()?.unchecked_into()).await
}

/// Says in the page which language it speaks, by its tag, for screen readers and for hyphens.
pub fn set_language(tag: &str) {
    let root = window().and_then(|window| window.document()?.document_element());
    if let Some(root) = root {
        let _ = root.set_attribute("lang", tag);
    }
}

/// Starts the app anew, at its first page.
pub fn start_again() {
    if let Some(window) = window() {
        let _ = window.location().set_href("./");
    }
}
