//! When the app itself breaks: the console gets the trace, the page gets the word.

use super::js::window;
use std::panic::set_hook;
use web_sys::{CustomEvent, CustomEventInit};

/// To be called first of all. After a panic the app is dead; boot.js hears `freshet-panic` and shows
/// a plain page in its place.
pub fn watch() {
    set_hook(Box::new(|info| {
        console_error_panic_hook::hook(info);
        let detail = CustomEventInit::new();
        detail.set_detail(&info.to_string().into());
        // A hook that panics in turn would end in silence, so every failure is passed over.
        let event = CustomEvent::new_with_event_init_dict("freshet-panic", &detail).ok();
        if let (Some(window), Some(event)) = (window(), event) {
            let _ = window.dispatch_event(&event);
        }
    }));
}
