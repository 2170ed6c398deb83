//! Taps: seen at once, and not taken twice by mistake.
//!
//! A frightened hand bounces. Where one tap stands for one dose, a second within a moment is not
//! another dose. And a hand that sees nothing happen taps again, so a press shows before what it is
//! for is done.

use crate::measure::Span;
use crate::phone::clock;
use crate::phone::view::once_painted;
use leptos::prelude::*;
use std::cell::Cell;
use wasm_bindgen::JsCast;
use web_sys::{Element, MouseEvent};

/// Marks what was pressed until that is done; the style sheets show it.
const PRESSED: &str = "data-pressed";

/// When a press does what it is for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum When {
    /// Once the press has been painted: within a frame, also where a whole screen has to be built.
    #[default]
    Seen,
    /// Within the tap itself, where alone browsers allow some things: a file, sharing, asking leave.
    AtOnce,
}

impl When {
    /// Does what a press is for.
    pub fn press(self, click: &MouseEvent, act: Callback<()>) {
        if self == Self::AtOnce {
            return act.run(());
        }
        let pressed = click.current_target().and_then(|target| target.dyn_into::<Element>().ok());
        if let Some(pressed) = &pressed {
            if pressed.has_attribute(PRESSED) {
                // It bounced: what it is for is about to be done.
                return;
            }
            // Refused, the press only looks as it did before.
            let _ = pressed.set_attribute(PRESSED, "");
        }
        let at = clock::steady();
        once_painted(move || {
            ACTED_ON.set(Some(at));
            // A screen that left in this moment has taken what its buttons did along.
            let _ = act.try_run(());
            ACTED_ON.set(None);
            if let Some(pressed) = pressed {
                let _ = pressed.remove_attribute(PRESSED);
            }
        });
    }
}

thread_local! {
    /// When the tap came that is being acted on, a little later than it came.
    static ACTED_ON: Cell<Option<Span>> = const { Cell::new(None) };
}

/// When the tap that is being acted on came.
fn tapped() -> Span {
    ACTED_ON.get().unwrap_or_else(clock::steady)
}

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
        let now = tapped();
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
