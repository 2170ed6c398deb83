//! Whether the page is in view, and when it has been painted.

use super::js::window;
use gloo_events::EventListener;
use js_sys::Promise;
use leptos::prelude::*;
use std::cell::Cell;
use std::rc::Rc;
use std::time::Duration;
use wasm_bindgen::prelude::Closure;
use wasm_bindgen::{JsCast, JsValue};
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

/// Does something as soon as the browser has painted what stands now; whatever becomes of the screen that
/// asked for it, with which timers of Leptos would end.
pub fn once_painted(act: impl FnOnce() + 'static) {
    type Act = Box<dyn FnOnce()>;
    let waiting = Rc::new(Cell::new(Some(Box::new(act) as Act)));
    let go_on =
        |waiting: Rc<Cell<Option<Act>>>| move || waiting.take().into_iter().for_each(|act| act());
    let painted = go_on(Rc::clone(&waiting));
    // The frame's callback comes before its paint, a timeout set by it after.
    let framed = at_frame(move || {
        // Refused, the longer wait below goes on.
        after(Duration::ZERO, painted);
    });
    if !after(UNPAINTED, go_on(Rc::clone(&waiting))) && !framed {
        go_on(waiting)();
    }
}

/// False if the browser refuses.
fn at_frame(act: impl FnOnce() + 'static) -> bool {
    let act = Closure::once_into_js(act);
    window().is_some_and(|window| window.request_animation_frame(act.unchecked_ref()).is_ok())
}

/// False if the browser refuses.
fn after(time: Duration, act: impl FnOnce() + 'static) -> bool {
    let act = Closure::once_into_js(act);
    let millis = i32::try_from(time.as_millis()).unwrap_or(i32::MAX);
    window().is_some_and(|window| {
        window
            .set_timeout_with_callback_and_timeout_and_arguments_0(act.unchecked_ref(), millis)
            .is_ok()
    })
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
