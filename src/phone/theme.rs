//! What the screen looks like. The page itself wears a theme, so that it stands before the app runs.

use super::js::window;
use web_sys::{CustomEvent, CustomEventInit};

/// Has the page wear a theme, by the name that boot.js knows. Where it does not hear, the page stays
/// as it is.
pub fn wear(name: &str) {
    let detail = CustomEventInit::new();
    detail.set_detail(&name.into());
    let event = CustomEvent::new_with_event_init_dict("freshet-theme", &detail).ok();
    if let (Some(window), Some(event)) = (window(), event) {
        let _ = window.dispatch_event(&event);
    }
}
