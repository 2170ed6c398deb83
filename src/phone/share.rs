//! Handing a text on: to another app where the phone has a way, else to the clipboard.

use super::js::{call, get, navigator};
use js_sys::Promise;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{DomException, ShareData};

/// What became of a text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shared {
    /// The user chose where it went.
    HandedOn,
    /// It lies on the clipboard.
    Copied,
    /// The user closed the choice: nothing left the app.
    Cancelled,
    /// The phone has neither way, or refused: the text is to be shown, so that it can be marked and
    /// copied by hand.
    Neither,
}

/// Hands `text` on. To be called straight from a tap, since browsers share and copy only on the
/// user's own act; it is begun before this returns.
pub fn share(text: &str) -> impl Future<Output = Shared> + 'static {
    let sharing = begin_share(text);
    let copying = if sharing.is_none() { begin_copy(text) } else { None };
    let text = text.to_owned();
    async move {
        if let Some(sharing) = sharing {
            match sharing.await {
                Ok(_) => return Shared::HandedOn,
                Err(error) if is_abort(&error) => return Shared::Cancelled,
                // Some browsers have the way and do not let it be taken.
                Err(_) => return copied(begin_copy(&text)).await,
            }
        }
        copied(copying).await
    }
}

fn begin_share(text: &str) -> Option<JsFuture> {
    let navigator = navigator()?;
    get(&navigator, "share")?;
    let data = ShareData::new();
    data.set_text(text);
    promised(call(&navigator, "share", &[data.into()]))
}

fn begin_copy(text: &str) -> Option<JsFuture> {
    let clipboard = get(&navigator()?.into(), "clipboard")?;
    promised(call(&clipboard, "writeText", &[text.into()]))
}

fn promised(called: Result<JsValue, JsValue>) -> Option<JsFuture> {
    called.ok()?.dyn_into::<Promise>().ok().map(JsFuture::from)
}

async fn copied(copying: Option<JsFuture>) -> Shared {
    let Some(copying) = copying else { return Shared::Neither };
    if copying.await.is_ok() { Shared::Copied } else { Shared::Neither }
}

fn is_abort(error: &JsValue) -> bool {
    error.dyn_ref::<DomException>().is_some_and(|error| error.name() == "AbortError")
}
