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

/// Asks for the place, for everything below the present owner.
pub fn provide() {
    let (tab, set_tab) = signal(Tab::Asking);
    provide_context(tab);
    if ask(set_tab).is_none() {
        set_tab.set(Tab::Unknown);
    }
}

/// The place of this tab.
///
/// # Panics
/// If no component above called [`provide`].
pub fn use_tab() -> ReadSignal<Tab> {
    expect_context::<ReadSignal<Tab>>()
}

fn ask(set_tab: WriteSignal<Tab>) -> Option<()> {
    let locks = get(navigator()?.as_ref(), "locks")?;
    let queue = locks.clone();
    // The lock is kept until what these return settles: for ever, that is until the tab is gone.
    let first = Closure::once_into_js(move |lock: JsValue| {
        if !lock.is_null() {
            set_tab.try_set(Tab::Writer);
            return for_ever();
        }
        set_tab.try_set(Tab::Other);
        let then = Closure::once_into_js(move |_: JsValue| {
            set_tab.try_set(Tab::Writer);
            for_ever()
        });
        // Waits until the other tab is gone. If the browser refuses, this tab goes on reading.
        let _ = call(&queue, "request", &[LOCK.into(), then]);
        JsValue::UNDEFINED
    });
    let options = Object::new();
    Reflect::set(&options, &"ifAvailable".into(), &JsValue::TRUE).ok()?;
    let asked = call(&locks, "request", &[LOCK.into(), options.into(), first]).ok()?;
    let refused = Closure::once_into_js(move |_: JsValue| {
        set_tab.try_set(Tab::Unknown);
    });
    call(&asked, "catch", &[refused]).ok().map(drop)
}

fn for_ever() -> JsValue {
    Promise::new(&mut |_: Function, _: Function| {}).into()
}
