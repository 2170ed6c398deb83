//! Offering a text as a file: the only backup that is the user's own.

use js_sys::{Array, Reflect};
use std::fmt;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{
    Blob, BlobPropertyBag, DomException, File, FilePropertyBag, HtmlAnchorElement, ShareData, Url,
    Window,
};

/// How the file was offered.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Offered {
    /// Handed to the browser's downloads. Whether it was kept is not told.
    Download,
    /// The user chose where it goes.
    Shared,
    /// The user closed the choice: nothing left the app, and nothing is wrong.
    Cancelled,
}

/// The browser did not take the file; its own words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NotOffered(pub String);

impl fmt::Display for NotOffered {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "the file could not be offered: {}", self.0)
    }
}

impl std::error::Error for NotOffered {}

/// Offers `text` as a file. To be called straight from a tap, since browsers share and download only
/// on the user's own act; the offer is made before this returns.
///
/// On an iPhone's home screen a download can lead nowhere, so there the share sheet is opened.
///
/// # Errors
/// [`NotOffered`] when the browser refuses.
pub fn offer(
    name: &str,
    kind: &str,
    text: &str,
) -> impl Future<Output = Result<Offered, NotOffered>> + 'static {
    let begun = begin(name, kind, text);
    async move {
        let Some(sharing) = begun.map_err(|error| said(&error))? else {
            return Ok(Offered::Download);
        };
        match sharing.await {
            Ok(_) => Ok(Offered::Shared),
            Err(error) if is_named(&error, "AbortError") => Ok(Offered::Cancelled),
            Err(error) => Err(said(&error)),
        }
    }
}

/// Starts a share, or a download, which needs no waiting for.
fn begin(name: &str, kind: &str, text: &str) -> Result<Option<JsFuture>, JsValue> {
    let window = web_sys::window().ok_or("no window")?;
    let parts = Array::of1(&text.into());
    if is_iphone_app(&window) {
        let bag = FilePropertyBag::new();
        bag.set_type(kind);
        let file = File::new_with_str_sequence_and_options(&parts, name, &bag)?;
        let data = ShareData::new();
        data.set_files(&Array::of1(&file));
        let navigator = window.navigator();
        if has(&navigator, "canShare") && navigator.can_share_with_data(&data) {
            return Ok(Some(JsFuture::from(navigator.share_with_data(&data))));
        }
    }
    download(&window, name, kind, &parts)?;
    Ok(None)
}

fn download(window: &Window, name: &str, kind: &str, parts: &Array) -> Result<(), JsValue> {
    let document = window.document().ok_or("no document")?;
    let bag = BlobPropertyBag::new();
    bag.set_type(kind);
    let blob = Blob::new_with_str_sequence_and_options(parts, &bag)?;
    let url = Url::create_object_url_with_blob(&blob)?;
    let link: HtmlAnchorElement = document.create_element("a")?.unchecked_into();
    link.set_href(&url);
    link.set_download(name);
    link.click();
    // The download starts after this task: its source must outlive it a little.
    gloo_timers::callback::Timeout::new(60_000, move || {
        let _ = Url::revoke_object_url(&url);
    })
    .forget();
    Ok(())
}

/// Whether this runs from an iPhone's or iPad's home screen: only Safari has this property.
fn is_iphone_app(window: &Window) -> bool {
    Reflect::get(&window.navigator(), &"standalone".into()).is_ok_and(|value| value.is_truthy())
}

fn has(object: &JsValue, name: &str) -> bool {
    Reflect::has(object, &name.into()).unwrap_or(false)
}

fn is_named(error: &JsValue, name: &str) -> bool {
    error.dyn_ref::<DomException>().is_some_and(|error| error.name() == name)
}

fn said(error: &JsValue) -> NotOffered {
    let words = error
        .dyn_ref::<DomException>()
        .map(|error| format!("{}: {}", error.name(), error.message()))
        .or_else(|| error.as_string());
    NotOffered(words.unwrap_or_else(|| format!("{error:?}")))
}
