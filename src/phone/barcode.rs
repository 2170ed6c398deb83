//! Codes in a picture, read by the phone itself, by the Shape Detection API of the W3C's community
//! group. Few browsers have it; nothing else is loaded where it is missing.

use super::js::{call, get};
use js_sys::{Array, Function, Object, Promise, Reflect};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::HtmlVideoElement;

/// The kinds of code that packs of medicines carry, by the names that the API gives them.
const KINDS: [&str; 3] = ["data_matrix", "code_128", "qr_code"];

/// The phone reads no codes, or none of those kinds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CannotScan;

/// Whether this browser says that it can read codes. Some say so and then know no kind of them, which
/// [`Reader::open`] finds out.
pub fn can_scan() -> bool {
    detector().is_some()
}

fn detector() -> Option<Function> {
    let window = web_sys::window()?;
    get(&window, "BarcodeDetector")?.dyn_into().ok()
}

/// Reads codes.
#[derive(Debug)]
pub struct Reader(JsValue);

impl Reader {
    /// Asks the phone which kinds it knows, and makes a reader of those that packs carry.
    ///
    /// # Errors
    /// [`CannotScan`].
    pub async fn open() -> Result<Self, CannotScan> {
        let detector = detector().ok_or(CannotScan)?;
        let known = later(&detector, "getSupportedFormats", &[]).await?;
        let known: Array = known.dyn_into().map_err(|_| CannotScan)?;
        let kinds: Array =
            KINDS.into_iter().map(JsValue::from).filter(|kind| known.includes(kind, 0)).collect();
        if kinds.length() == 0 {
            return Err(CannotScan);
        }
        let wanted = Object::new();
        // Fails for no plain object.
        let _ = Reflect::set(&wanted, &"formats".into(), &kinds);
        Reflect::construct(&detector, &Array::of1(&wanted)).map(Self).map_err(|_| CannotScan)
    }

    /// Every code in what a video shows now; none where it shows nothing yet.
    pub async fn read(&self, video: &HtmlVideoElement) -> Vec<String> {
        let seen = later(&self.0, "detect", &[video.into()]).await;
        let seen = seen.ok().and_then(|seen| seen.dyn_into::<Array>().ok()).unwrap_or_default();
        let text = |code: JsValue| get(&code, "rawValue")?.as_string();
        seen.iter().filter_map(text).collect()
    }
}

/// Calls a method and waits for its answer.
async fn later(of: &JsValue, name: &str, with: &[JsValue]) -> Result<JsValue, CannotScan> {
    let promise = call(of, name, with).map_err(|_| CannotScan)?;
    let promise: Promise = promise.dyn_into().map_err(|_| CannotScan)?;
    JsFuture::from(promise).await.map_err(|_| CannotScan)
}
