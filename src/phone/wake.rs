//! Keeping the screen on, by the W3C's Screen Wake Lock.

use super::js::{call, get, navigator, window, words};
use gloo_events::EventListener;
use leptos::prelude::*;
use std::cell::RefCell;
use std::rc::Rc;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{EventTarget, VisibilityState};

/// Whether the screen stays on.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum Wake {
    /// Nobody asked for it, or it is being asked for.
    #[default]
    Off,
    /// It stays on.
    Held,
    /// The phone refuses, as at low battery; the browser's own words.
    Refused(String),
    /// This browser cannot.
    Absent,
}

/// Whether this browser can keep the screen on. The phone may still refuse.
pub fn able() -> bool {
    navigator().is_some_and(|navigator| get(&navigator, "wakeLock").is_some())
}

/// The lock held now, if any, and whether one is wanted.
#[derive(Default)]
struct Hold {
    wanted: bool,
    asking: bool,
    lock: Option<(JsValue, EventListener)>,
}

/// Keeps the screen on while `asked` says so and the present owner lives, and takes hold again each
/// time the page comes back into view, since browsers let go when it leaves.
pub fn hold_screen(asked: impl Fn() -> bool + 'static) -> ReadSignal<Wake> {
    let (wake, set_wake) = signal(Wake::Off);
    let hold = Rc::new(RefCell::new(Hold::default()));

    let wanted = Rc::clone(&hold);
    Effect::new(move || {
        wanted.borrow_mut().wanted = asked();
        settle(&wanted, set_wake);
    });

    let again = Rc::clone(&hold);
    let listening = window().and_then(|window| window.document()).map(|document| {
        EventListener::new(&document, "visibilitychange", move |_| settle(&again, set_wake))
    });
    let guard = StoredValue::new_local((hold, listening));
    on_cleanup(move || {
        guard.try_with_value(|(hold, _)| {
            hold.borrow_mut().wanted = false;
            settle(hold, set_wake);
        });
    });
    wake
}

/// Makes what is held match what is wanted.
fn settle(hold: &Rc<RefCell<Hold>>, set_wake: WriteSignal<Wake>) {
    if !hold.borrow().wanted {
        if let Some((lock, listener)) = hold.borrow_mut().lock.take() {
            drop(listener);
            // What is already let go cannot be let go again; both are well.
            let _ = call(&lock, "release", &[]);
        }
        set_wake.try_set(Wake::Off);
        return;
    }
    let seen = window()
        .and_then(|window| window.document())
        .is_some_and(|document| document.visibility_state() == VisibilityState::Visible);
    if !seen || hold.borrow().asking || hold.borrow().lock.is_some() {
        return;
    }
    let Some(wake_lock) = navigator().and_then(|navigator| get(&navigator, "wakeLock")) else {
        set_wake.try_set(Wake::Absent);
        return;
    };
    hold.borrow_mut().asking = true;
    let hold = Rc::clone(hold);
    spawn_local(async move {
        let got = request(&wake_lock).await;
        hold.borrow_mut().asking = false;
        match got {
            Ok(lock) => {
                let target: EventTarget = lock.clone().unchecked_into();
                let gone = Rc::downgrade(&hold);
                let listener = EventListener::once(&target, "release", move |_| {
                    if let Some(hold) = gone.upgrade() {
                        hold.borrow_mut().lock = None;
                        set_wake.try_set(Wake::Off);
                    }
                });
                hold.borrow_mut().lock = Some((lock, listener));
                set_wake.try_set(Wake::Held);
                // It may have been called off while the browser thought.
                if !hold.borrow().wanted {
                    settle(&hold, set_wake);
                }
            }
            Err(error) => {
                set_wake.try_set(Wake::Refused(words(&error)));
            }
        }
    });
}

async fn request(wake_lock: &JsValue) -> Result<JsValue, JsValue> {
    let asked = call(wake_lock, "request", &["screen".into()])?;
    JsFuture::from(asked.unchecked_into::<js_sys::Promise>()).await
}
