//! Whether the page is in view.

use super::js::window;
use gloo_events::EventListener;
use leptos::prelude::*;
use web_sys::VisibilityState;

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
