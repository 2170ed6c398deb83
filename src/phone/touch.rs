//! Whether anybody touches the app.

use super::js::window;
use gloo_events::{EventListener, EventListenerOptions};
use leptos::prelude::*;

/// Does something at each touch and each key, until the present owner is gone.
pub fn on_touch(act: impl Fn() + Clone + 'static) {
    let Some(document) = window().and_then(|window| window.document()) else { return };
    // Before the page's own: what a touch does must not come before what it is looked at for.
    let options = EventListenerOptions::run_in_capture_phase();
    let listen = |kind: &'static str| {
        let act = act.clone();
        EventListener::new_with_options(&document, kind, options, move |_| act())
    };
    StoredValue::new_local(["pointerdown", "keydown"].map(listen));
}
