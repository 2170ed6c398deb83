//! Taps: seen at once, and not taken twice by mistake.
//!
//! A frightened hand bounces. Where one tap stands for one dose, a second within a moment is not
//! another dose. And a hand that sees nothing happen taps again, so a press shows in the next frame.

use crate::measure::Span;
use crate::phone::clock;
use crate::phone::view::once_painted;
use leptos::prelude::*;
use std::cell::Cell;
use wasm_bindgen::JsCast;
use web_sys::{Element, MouseEvent};

/// Marks what was pressed until that has been painted; the style sheets show it.
const PRESSED: &str = "data-pressed";

/// Does what a press is for, and shows it as pressed until the next frame.
///
/// It is done within the tap itself. Later it could be lost with the screen that it stood on, or come
/// after the next tap, and browsers allow some things only there: a file, sharing, asking leave. The
/// frame is there all the same: what is recorded shows once it is kept, and a page is built after it
/// ([`once_pressed`]).
pub fn press(click: &MouseEvent, act: impl FnOnce()) {
    ACTED_ON.set(Some(clock::came(click)));
    let pressed = click.current_target().and_then(|target| target.dyn_into::<Element>().ok());
    if let Some(pressed) = &pressed {
        // Refused, the press only looks as it did before.
        let _ = pressed.set_attribute(PRESSED, "");
    }
    act();
    ACTED_ON.set(None);
    if let Some(pressed) = pressed {
        once_painted(move || {
            let _ = pressed.remove_attribute(PRESSED);
        });
    }
}

/// Does what brings another screen, once the press that asks for it has been painted: to build one takes
/// a slow phone longer than a press may stay unseen. At once where no press asks.
///
/// Nothing that is recorded may wait so.
pub fn once_pressed(act: impl FnOnce() + 'static) {
    let Some(press) = ACTED_ON.get() else { return act() };
    BUILDING.set(Some(press));
    once_painted(move || {
        act();
        once_painted(move || {
            if BUILDING.get() == Some(press) {
                BUILDING.set(None);
            }
        });
    });
}

/// Turns a page to another of its screens, [`once_pressed`].
pub fn turn<T: Send + Sync + 'static>(screen: RwSignal<T>, to: T) {
    once_pressed(move || {
        // A page that was left in this moment has no screen to show.
        screen.try_set(to);
    });
}

thread_local! {
    /// When the tap came that is being acted on.
    static ACTED_ON: Cell<Option<Span>> = const { Cell::new(None) };
    /// When the tap came whose screen is not on the glass yet.
    static BUILDING: Cell<Option<Span>> = const { Cell::new(None) };
}

/// When the tap that is being acted on came. The time when it is acted on would not do: a phone that
/// still builds a screen takes a tap that bounced for one that came after it.
fn tapped() -> Span {
    ACTED_ON.get().unwrap_or_else(clock::steady)
}

/// Nobody does two of the things that are taken down so within this time, from when one was acted on
/// until the next tap came. Before, nobody has seen anything of the first.
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
        let bounced = self.0.get_value().is_some_and(|last| tapped().saturating_sub(last) < REST);
        self.0.set_value(Some(clock::steady()));
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
/// that nobody has lost sight, or that adrenaline is within reach. Nor is one taken while a screen that
/// was asked for is not on the glass yet.
pub fn onward(click: &MouseEvent, act: impl FnOnce()) {
    let came = clock::came(click);
    let bounced = ONWARD.get().is_some_and(|last| came.saturating_sub(last) < REST);
    if !bounced && BUILDING.get().is_none() {
        ONWARD.set(Some(clock::steady()));
        press(click, act);
    }
}
