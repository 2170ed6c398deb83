//! Whether the page is in view, and when it has been painted.

use super::js::window;
use gloo_events::EventListener;
use js_sys::Promise;
use leptos::prelude::*;
use std::cell::Cell;
use std::rc::Rc;
use std::time::Duration;
use wasm_bindgen::JsValue;
use wasm_bindgen_futures::JsFuture;
use web_sys::VisibilityState;

/// A page that is not in view is not painted; what waits for it waits no longer than this.
const UNPAINTED: Duration = Duration::from_millis(100);

/// Whether the page is in view now.
pub fn in_view() -> bool {
    window()
        .and_then(|window| window.document())
        .is_none_or(|document| document.visibility_state() == VisibilityState::Visible)
}

/// Does something each time the page goes out of view, until the present owner is gone.
pub fn on_leaving(act: impl Fn() + 'static) {
    let listening = window().and_then(|window| window.document()).map(|document| {
        EventListener::new(&document, "visibilitychange", move |_| {
            if !in_view() {
                act();
            }
        })
    });
    StoredValue::new_local(listening);
}

/// Does something as soon as the browser has painted what stands now.
pub fn once_painted(act: impl FnOnce() + 'static) {
    let waiting = Rc::new(Cell::new(Some(act)));
    let go_on = move || waiting.take().into_iter().for_each(|act| act());
    let painted = go_on.clone();
    // The frame's callback comes before its paint, a timeout set by it after.
    let framed = request_animation_frame(move || {
        // Refused, the longer wait below goes on.
        let _ = set_timeout(painted, Duration::ZERO);
    });
    if set_timeout(go_on.clone(), UNPAINTED).is_err() && framed.is_err() {
        go_on();
    }
}

/// Waits until the browser has painted what stands now.
pub async fn painted() {
    let wait = Promise::new(&mut |done, _| {
        once_painted(move || {
            // A promise that is kept throws nothing.
            let _ = done.call1(&JsValue::UNDEFINED, &JsValue::UNDEFINED);
        });
    });
    // It is never broken.
    let _ = JsFuture::from(wait).await;
}
