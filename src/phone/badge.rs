//! A number on the app's icon, where the phone has one.

use super::js::{call, get, navigator};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::{JsFuture, spawn_local};

/// Whether this browser knows of badges. Whether the icon then shows one is the phone's own matter.
pub fn able() -> bool {
    navigator().is_some_and(|navigator| get(&navigator, "setAppBadge").is_some())
}

/// Shows how many things are due; none takes the badge away.
pub fn show(count: usize) {
    let Some(navigator) = navigator().filter(|_| able()) else { return };
    let asked = if count == 0 {
        call(&navigator, "clearAppBadge", &[])
    } else {
        let count = u32::try_from(count).unwrap_or(u32::MAX);
        call(&navigator, "setAppBadge", &[JsValue::from(count)])
    };
    if let Some(asked) = asked.ok().and_then(|asked| asked.dyn_into::<js_sys::Promise>().ok()) {
        // Refused, as outside an installed app, nothing is lost: it is an extra.
        spawn_local(async move { drop(JsFuture::from(asked).await) });
    }
}
