//! Notifications: what the phone shows over other apps when something falls due.
//!
//! They go through the app's own worker, since phones know no other way, and only while the page still
//! runs: no browser wakes a page at a set time. What they say is passed in, and must name nobody: it
//! shows on a locked screen.

use super::js::{call, get, navigator, window};
use gloo_events::EventListener;
use js_sys::{Array, Object, Promise, Reflect};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::EventTarget;

/// Whether the app may show notifications.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Permission {
    /// This browser has none; on an iPhone none but for an app on the home screen.
    Unable,
    /// The user was not asked.
    NotAsked,
    /// The user allowed them.
    Allowed,
    /// The user, or the browser for them, refused. Only the browser's settings can change that.
    Refused,
}

/// One notification.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Notice {
    /// Names it: another of the same name takes its place.
    pub tag: String,
    /// Its heading.
    pub title: String,
    /// Its text.
    pub body: String,
    /// Which case it is about, by its random name, which is not shown.
    pub case: String,
    /// The query of the page that it leads to where the app is to be opened; empty for its first.
    pub query: String,
}

/// The kind of message by which the worker says that a notification was tapped.
const CHOSEN: &str = "chosen";

/// Whether the app may show notifications.
pub fn permission() -> Permission {
    let worker = navigator().and_then(|navigator| get(&navigator, "serviceWorker"));
    let Some(kind) = notification().filter(|_| worker.is_some()) else {
        return Permission::Unable;
    };
    match get(&kind, "permission").and_then(|word| word.as_string()).as_deref() {
        Some("granted") => Permission::Allowed,
        Some("denied") => Permission::Refused,
        _ => Permission::NotAsked,
    }
}

/// Asks the user. To be called straight from a tap on a button that says so, and from nowhere else.
pub fn ask(then: impl FnOnce(Permission) + 'static) {
    let asked = notification().and_then(|kind| call(&kind, "requestPermission", &[]).ok());
    let asked = asked.and_then(|asked| asked.dyn_into::<Promise>().ok());
    spawn_local(async move {
        if let Some(asked) = asked {
            // Answered or not, what holds is read anew.
            drop(JsFuture::from(asked).await);
        }
        then(permission());
    });
}

/// Whether there is a worker that can show one: not in a build for development.
pub async fn able() -> bool {
    registration().await.is_some()
}

/// Shows a notification, if it may.
pub fn show(notice: Notice) {
    if permission() != Permission::Allowed {
        return;
    }
    spawn_local(async move {
        if let Some(worker) = registration().await {
            // Refused, the alarm still sounds as far as it can.
            let shown = call(&worker, "showNotification", &[(&notice.title).into(), look(&notice)]);
            settle(shown).await;
        }
    });
}

/// Takes a notification away.
pub fn close(tag: String) {
    if permission() != Permission::Allowed {
        return;
    }
    spawn_local(async move {
        let Some(worker) = registration().await else { return };
        let which = object(&[("tag", tag.into())]);
        let shown = settle(call(&worker, "getNotifications", &[which])).await;
        for one in shown.iter().filter_map(|all| all.dyn_ref::<Array>()).flat_map(Array::iter) {
            // One that the user closed meanwhile is closed.
            let _ = call(&one, "close", &[]);
        }
    });
}

/// Does something with the name of the case whose notification was tapped. Listens for as long as
/// what is returned lives.
pub fn on_chosen(act: impl Fn(String) + 'static) -> Option<EventListener> {
    let worker: EventTarget = get(navigator()?.as_ref(), "serviceWorker")?.dyn_into().ok()?;
    Some(EventListener::new(&worker, "message", move |message| {
        let data = get(message, "data");
        let word = |name| data.as_ref().and_then(|data| get(data, name)?.as_string());
        if let Some(case) = word("case").filter(|_| word("type").as_deref() == Some(CHOSEN)) {
            act(case);
        }
    }))
}

fn notification() -> Option<JsValue> {
    get(window()?.as_ref(), "Notification")
}

async fn registration() -> Option<JsValue> {
    let worker = get(navigator()?.as_ref(), "serviceWorker")?;
    let found = settle(call(&worker, "getRegistration", &[])).await?;
    get(&found, "showNotification").map(|_| found)
}

async fn settle(asked: Result<JsValue, JsValue>) -> Option<JsValue> {
    JsFuture::from(asked.ok()?.dyn_into::<Promise>().ok()?).await.ok()
}

fn look(notice: &Notice) -> JsValue {
    object(&[
        ("body", (&notice.body).into()),
        ("tag", (&notice.tag).into()),
        ("renotify", JsValue::TRUE),
        ("requireInteraction", JsValue::TRUE),
        ("icon", "./icons/mark-192.png".into()),
        ("data", object(&[("case", (&notice.case).into()), ("query", (&notice.query).into())])),
    ])
}

fn object(parts: &[(&str, JsValue)]) -> JsValue {
    let object = Object::new();
    for (name, value) in parts {
        // A new object takes any property.
        let _ = Reflect::set(&object, &(*name).into(), value);
    }
    object.into()
}
