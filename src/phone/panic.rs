//! When the app itself breaks: the console gets the trace, the page gets the word.

use super::js::window;
use std::panic::set_hook;
use web_sys::{CustomEvent, CustomEventInit};

/// To be called first of all. After a panic the app is dead; boot.js hears `freshet-panic`, shows a
/// plain page in its place and lets nothing more be written. Then `told` says what that page tells of
/// the cases: a panic in its turn would end it in silence, with the page standing there already.
pub fn watch(told: fn() -> Option<String>) {
    set_hook(Box::new(move |info| {
        console_error_panic_hook::hook(info);
        say("freshet-panic", &info.to_string());
        if let Some(told) = told() {
            tell(&told);
        }
    }));
}

/// Hands over what the plain page is to tell.
pub fn tell(told: &str) {
    say("freshet-plain", told);
}

fn say(name: &str, text: &str) {
    let detail = CustomEventInit::new();
    detail.set_detail(&text.into());
    // A hook that panics in turn would end in silence, so every failure is passed over.
    let event = CustomEvent::new_with_event_init_dict(name, &detail).ok();
    if let (Some(window), Some(event)) = (window(), event) {
        let _ = window.dispatch_event(&event);
    }
}
