//! Taps that come twice by mistake.
//!
//! A frightened hand bounces. Where one tap stands for one dose, a second within a moment is not
//! another dose.

use crate::measure::Span;
use crate::phone::clock;
use leptos::prelude::*;
use std::cell::Cell;

/// Nobody does two of the things that are taken down so within this time.
const REST: Span = Span::millis(400);

/// Lets a tap through unless another came just before. Shared by the buttons of a page, since the
/// next screen may put another button under the same finger.
#[derive(Clone, Copy)]
pub struct Taps(StoredValue<Option<Span>>);

impl Taps {
    /// Nothing tapped yet.
    pub fn new() -> Self {
        Self(StoredValue::new(None))
    }

    /// Does it, or leaves it.
    pub fn once(self, act: impl FnOnce()) {
        let now = clock::steady();
        let bounced = self.0.get_value().is_some_and(|last| now.saturating_sub(last) < REST);
        self.0.set_value(Some(now));
        if !bounced {
            act();
        }
    }
}

thread_local! {
    /// When a next action was last taken, on whatever screen.
    static ONWARD: Cell<Option<Span>> = const { Cell::new(None) };
}

/// Takes the next action, unless another was taken just before. Each screen has its next action at
/// the same place, so a tap that bounces would answer the question that comes up under the finger:
/// that nobody has lost sight, or that adrenaline is within reach.
pub fn onward(act: impl FnOnce()) {
    let now = clock::steady();
    let bounced = ONWARD.get().is_some_and(|last| now.saturating_sub(last) < REST);
    if !bounced {
        ONWARD.set(Some(now));
        act();
    }
}
