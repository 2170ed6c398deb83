//! The moment, as a signal: four times a second while the page is in view, and at once when it comes
//! back. Timers are moments in the future and are compared with it; nothing counts ticks. While
//! something is to fall due it is read out of view too, as often as the browser lets it, so that the
//! alarm rings behind another page or app for as long as the phone does not sleep.
//!
//! A rehearsal has a clock of its own, whose [`Hands`] may run faster than time. It stands still while
//! the page is out of view, and nobody sets it.

use super::clock;
use super::hands::Hands;
use super::js::window;
use super::jump::{Jump, JumpGuard};
use super::view::in_view;
use crate::measure::Moment;
use gloo_events::EventListener;
use gloo_timers::callback::Interval;
use leptos::prelude::*;
use std::cell::RefCell;
use std::rc::Rc;

const TICK_MS: u32 = 250;
/// Browsers let no page out of view be called more often.
const AWAY_TICK_MS: u32 = 1_000;

/// The clock that everything below its provider goes by. Copied freely.
#[derive(Clone, Copy)]
pub struct Clock {
    now: ReadSignal<Moment>,
    jump: ReadSignal<Option<Jump>>,
    /// The hands of a rehearsal; the phone's own clock has none.
    hands: Option<RwSignal<Hands>>,
    /// Whether something is to fall due, so that it is read out of view too.
    expecting: StoredValue<bool>,
}

impl Clock {
    /// The moment, kept current.
    pub const fn shown(self) -> ReadSignal<Moment> {
        self.now
    }

    /// The moment at this very call, for what is taken down.
    pub fn now(self) -> Moment {
        self.hands.map_or_else(clock::now, |hands| hands.get_untracked().read(clock::steady()))
    }

    /// Whether it is a rehearsal's and not the phone's own.
    pub const fn rehearsed(self) -> bool {
        self.hands.is_some()
    }

    /// Says whether something is to fall due: the phone's own clock is then read out of view too.
    pub fn expect(self, something: bool) {
        self.expecting.set_value(something);
    }
}

/// The clock.
///
/// # Panics
/// If no component above called [`provide`].
pub fn use_clock() -> Clock {
    expect_context::<Clock>()
}

/// Starts the clock for everything below the present owner.
pub fn provide() {
    let (now, set_now) = signal(clock::now());
    let (jump, set_jump) = signal(None);
    let expecting = StoredValue::new(false);
    provide_context(Clock { now, jump, hands: None, expecting });

    let guard = Rc::new(RefCell::new(JumpGuard::new()));
    let tick = move |guard: &RefCell<JumpGuard>| {
        let wall = clock::now();
        if let Some(seen) = guard.borrow_mut().see(wall, clock::steady()) {
            set_jump.try_set(Some(seen));
        }
        // An event may still come while the app is being taken down.
        set_now.try_set(wall);
    };
    tick(&guard);

    let running = Rc::new(RefCell::new(None::<(u32, Interval)>));
    let look = {
        let running = Rc::clone(&running);
        move || {
            tick(&guard);
            let seen = in_view();
            if !seen {
                guard.borrow_mut().look_away();
            }
            let wanted = if seen {
                Some(TICK_MS)
            } else {
                expecting.try_get_value().unwrap_or(false).then_some(AWAY_TICK_MS)
            };
            let mut running = running.borrow_mut();
            if running.as_ref().map(|(every, _)| *every) != wanted {
                let guard = Rc::clone(&guard);
                let again = move || {
                    tick(&guard);
                    if !in_view() {
                        guard.borrow_mut().look_away();
                    }
                };
                *running = wanted.map(|every| (every, Interval::new(every, again)));
            }
        }
    };
    look();

    let Some(window) = window() else { return };
    let mut listening = Vec::new();
    for event in ["pageshow", "pagehide", "focus"] {
        let look = look.clone();
        listening.push(EventListener::new(&window, event, move |_| look()));
    }
    if let Some(document) = window.document() {
        listening.push(EventListener::new(&document, "visibilitychange", move |_| look()));
    }
    // Dropped with the owner, and the timer and the listeners with them.
    StoredValue::new_local((running, listening));
}

/// Starts a clock with these hands for everything below the present owner, beside the phone's own.
/// It stands still while the page is out of view.
pub fn provide_rehearsed(hands: RwSignal<Hands>) {
    let read = move || hands.get_untracked().read(clock::steady());
    let (now, set_now) = signal(read());
    let (jump, _) = signal(None);
    provide_context(Clock { now, jump, hands: Some(hands), expecting: StoredValue::new(false) });
    Effect::new(move |_| {
        hands.track();
        set_now.set(read());
    });
    let ticking = Interval::new(TICK_MS, move || {
        set_now.try_set(read());
    });
    let document = window().and_then(|window| window.document());
    let looking = document.map(|document| {
        EventListener::new(&document, "visibilitychange", move |_| {
            let steady = clock::steady();
            hands.try_update(|hands| *hands = hands.in_view(in_view(), steady));
        })
    });
    StoredValue::new_local((ticking, looking));
}

/// The moment, kept current.
///
/// # Panics
/// If no component above called [`provide`].
pub fn use_now() -> ReadSignal<Moment> {
    use_clock().now
}

/// The last jump of the clock that was noticed since the app started.
///
/// # Panics
/// If no component above called [`provide`].
pub fn use_jump() -> ReadSignal<Option<Jump>> {
    use_clock().jump
}
