//! News of the app's own files, between the app and boot.js.

use super::js::window;
use gloo_events::EventListener;
use leptos::prelude::*;
use web_sys::CustomEvent;

/// Whether another version of the app is at hand.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Update {
    /// None is known of.
    #[default]
    None,
    /// A new version is on the phone and can take over.
    Waiting,
    /// It took over in another tab; this one runs on the old files and is to be loaded again.
    Replaced,
}

/// Whether the app is on the phone.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Offline {
    /// Not known yet.
    #[default]
    Unknown,
    /// It starts without a network.
    Ready,
    /// It could not be put on the phone.
    Failed,
    /// This browser or this build does not do it.
    Unable,
}

#[derive(Clone, Copy)]
struct News {
    update: ReadSignal<Update>,
    offline: ReadSignal<Offline>,
}

/// Starts listening for everything below the present owner.
pub fn provide() {
    let (update, set_update) = signal(read_update(&told("data-update")));
    let (offline, set_offline) = signal(read_offline(&told("data-offline")));
    provide_context(News { update, offline });
    let Some(window) = window() else { return };
    let listening = [
        EventListener::new(&window, "freshet-update", move |_| {
            set_update.try_set(read_update(&told("data-update")));
        }),
        EventListener::new(&window, "freshet-offline", move |_| {
            set_offline.try_set(read_offline(&told("data-offline")));
        }),
    ];
    StoredValue::new_local(listening);
}

/// Whether another version is at hand.
///
/// # Panics
/// If no component above called [`provide`].
pub fn use_update() -> ReadSignal<Update> {
    expect_context::<News>().update
}

/// Whether the app is on the phone.
///
/// # Panics
/// If no component above called [`provide`].
pub fn use_offline() -> ReadSignal<Offline> {
    expect_context::<News>().offline
}

/// Lets the new version take over; the page then loads again. Never while a round runs.
pub fn take_over() {
    say("freshet-take-over");
}

/// Looks for a new version now.
pub fn check() {
    say("freshet-check");
}

/// The version of this page; empty in a build for development.
pub fn version() -> String {
    told("data-version")
}

fn say(name: &str) {
    if let (Some(window), Ok(event)) = (window(), CustomEvent::new(name)) {
        let _ = window.dispatch_event(&event);
    }
}

/// What boot.js last wrote on the root element, which is true for who comes late too.
fn told(name: &str) -> String {
    let root = window().and_then(|window| window.document()?.document_element());
    root.and_then(|root| root.get_attribute(name)).unwrap_or_default()
}

fn read_update(word: &str) -> Update {
    match word {
        "waiting" => Update::Waiting,
        "replaced" => Update::Replaced,
        _ => Update::None,
    }
}

fn read_offline(word: &str) -> Offline {
    match word {
        "ready" => Offline::Ready,
        "failed" => Offline::Failed,
        "none" => Offline::Unable,
        _ => Offline::Unknown,
    }
}
