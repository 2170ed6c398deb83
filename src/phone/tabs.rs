//! One tab writes. A Web Lock held for the life of the tab says which; the others may read.

use super::js::{call, get, navigator};
use js_sys::{Function, Object, Promise, Reflect};
use leptos::prelude::*;
use wasm_bindgen::JsValue;
use wasm_bindgen::closure::Closure;

const LOCK: &str = "freshet-writer";

/// The place of this tab among those of the app.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Tab {
    /// Not known yet; settled within moments of the start.
    #[default]
    Asking,
    /// This tab writes.
    Writer,
    /// Another tab writes; this one may only show. When the other closes this becomes
    /// [`Writer`](Self::Writer), and what it shows is to be read anew first.
    Other,
    /// The browser cannot tell. Two entries for one place then show as a fork, and neither is lost.
    Unknown,
}

/// The place of this tab, as the whole app shares it.
#[derive(Clone, Copy)]
struct Place {
    tab: ReadSignal<Tab>,
    set_tab: WriteSignal<Tab>,
}

/// Asks for the place, for everything below the present owner.
pub fn provide() {
    let (tab, set_tab) = signal(Tab::Asking);
    let place = Place { tab, set_tab };
    provide_context(place);
    if place.ask(Some("ifAvailable")).is_none() {
        set_tab.set(Tab::Unknown);
    }
}

/// The place of this tab.
///
/// # Panics
/// If no component above called [`provide`].
pub fn use_tab() -> ReadSignal<Tab> {
    expect_context::<Place>().tab
}

/// Makes this tab the one that writes; the other becomes [`Tab::Other`].
///
/// # Panics
/// If no component above called [`provide`].
pub fn use_take_over() -> Callback<()> {
    let place = expect_context::<Place>();
    Callback::new(move |()| {
        // Refused, this tab goes on reading and says so.
        let _ = place.ask(Some("steal"));
    })
}

/// Calls `changed` whenever another tab changed something in localStorage, with its name; with none
/// where it cleared everything. For the life of the present owner.
pub fn on_change(changed: impl Fn(Option<String>) + 'static) {
    let listening = window_event_listener_untyped("storage", move |event| {
        changed(get(&event, "key").and_then(|key| key.as_string()));
    });
    on_cleanup(move || listening.remove());
}

impl Place {
    /// Asks for the lock: at once or not at all (`ifAvailable`), taking it away (`steal`), or when
    /// the other tab is gone. `None` if the browser has no locks.
    fn ask(self, how: Option<&str>) -> Option<()> {
        let locks = get(navigator()?.as_ref(), "locks")?;
        // The lock is kept until what this returns settles: for ever, that is until the tab is gone
        // or another takes it away.
        let held = Closure::once_into_js(move |lock: JsValue| {
            if lock.is_null() {
                self.lose();
                return JsValue::UNDEFINED;
            }
            self.set_tab.try_set(Tab::Writer);
            for_ever()
        });
        let options = Object::new();
        if let Some(how) = how {
            Reflect::set(&options, &how.into(), &JsValue::TRUE).ok()?;
        }
        let asked = call(&locks, "request", &[LOCK.into(), options.into(), held]).ok()?;
        // Settles only when the lock was taken away, or when the browser refuses to give any.
        let refused = Closure::once_into_js(move |_: JsValue| match self.tab.try_get_untracked() {
            Some(Tab::Writer) => self.lose(),
            _ => drop(self.set_tab.try_set(Tab::Unknown)),
        });
        call(&asked, "catch", &[refused]).ok().map(drop)
    }

    /// Reads from now on, and writes again when the other tab is gone.
    fn lose(self) {
        self.set_tab.try_set(Tab::Other);
        // If the browser refuses, this tab goes on reading.
        let _ = self.ask(None);
    }
}

fn for_ever() -> JsValue {
    Promise::new(&mut |_: Function, _: Function| {}).into()
}
