//! A button that times a press and what follows it: held and let go, or tapped step by step.
//!
//! Pointers are captured, so that a finger that slides off is still followed; what the browser takes
//! away, and a page that leaves the screen, break the press off instead of ending it.

mod stage;

pub use stage::{PressLost, PressStage, Pressed};

use super::Text;
use crate::measure::Span;
use crate::phone::clock;
use leptos::ev::{KeyboardEvent, PointerEvent};
use leptos::html;
use leptos::prelude::*;
use stage::Came;
use std::time::Duration;

/// How the button is worked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Handling {
    /// It is held for as long as is pressed.
    Hold,
    /// A tap begins, a second lets go, a third ends.
    Taps,
}

/// The words on the button.
#[derive(Clone, Copy, Debug)]
pub struct PressWords {
    /// Ready, to be held.
    pub hold: &'static str,
    /// Ready, to be tapped.
    pub start: &'static str,
    /// Pressed, not long enough yet.
    pub pressing: &'static str,
    /// Pressed long enough, to be let go.
    pub let_go: &'static str,
    /// Tapped to let go.
    pub release: &'static str,
    /// To be tapped when it is over.
    pub over: &'static str,
    /// A time as it is shown.
    pub time: fn(Span) -> String,
}

/// How often what is shown is drawn anew.
const TICK: Duration = Duration::from_millis(50);
/// A hand that bounces taps again within this time.
const REST: Span = Span::millis(400);

/// What the handlers share.
#[derive(Clone, Copy)]
struct Button {
    stage: RwSignal<PressStage>,
    /// How long the stage has lasted, for display.
    lasted: RwSignal<Span>,
    /// The pointer that holds it.
    pointer: StoredValue<Option<i32>>,
    /// When a press ended last.
    ended: StoredValue<Option<Span>>,
    /// When a step was last tapped.
    tapped: StoredValue<Option<Span>>,
    on_timed: Callback<Pressed>,
    on_lost: Callback<PressLost>,
}

impl Button {
    fn came(self, now: Span, (stage, came): (PressStage, Came)) {
        if stage != self.stage.get_untracked() {
            self.lasted.set(Span::ZERO);
            self.stage.set(stage);
        }
        match came {
            Came::Onward => {}
            Came::Timed(pressed) => {
                self.ended.set_value(Some(now));
                self.on_timed.run(pressed);
            }
            Came::Lost(lost) => self.on_lost.run(lost),
        }
    }

    /// A finger or a key comes down. A second tap of the same hand begins no new press.
    fn down(self) -> bool {
        let now = clock::steady();
        let bounced = within(self.ended, now) && self.stage.get_untracked() == PressStage::Ready;
        if !bounced {
            self.came(now, self.stage.get_untracked().down(now));
        }
        !bounced
    }

    fn up(self) {
        let now = clock::steady();
        self.came(now, self.stage.get_untracked().up(now));
    }

    fn tap(self) {
        let now = clock::steady();
        if within(self.tapped, now) || within(self.ended, now) {
            return;
        }
        self.tapped.set_value(Some(now));
        self.came(now, self.stage.get_untracked().tap(now));
    }

    fn broken(self) {
        // The page may be on its way out.
        if let Some(stage) = self.stage.try_get_untracked() {
            self.came(clock::steady(), stage.broken());
        }
    }
}

fn within(last: StoredValue<Option<Span>>, now: Span) -> bool {
    last.get_value().is_some_and(|last| now.saturating_sub(last) < REST)
}

fn pressing(stage: PressStage) -> bool {
    matches!(stage, PressStage::Pressing { .. })
}

fn is_key(key: &KeyboardEvent) -> bool {
    matches!(key.key().as_str(), " " | "Enter")
}

/// Draws what runs anew as long as it runs, and breaks it off when the page leaves the screen.
fn keep_up(button: Button) {
    let Button { stage, lasted, .. } = button;
    let running = Memo::new(move |_| stage.get() != PressStage::Ready);
    Effect::new(move |_| {
        if !running.get() {
            return;
        }
        let draw = move || {
            if let Some(stage) = stage.try_get_untracked() {
                lasted.try_set(stage.lasted(clock::steady()));
            }
        };
        if let Ok(handle) = set_interval(draw, TICK) {
            on_cleanup(move || handle.clear());
        }
    });
    let seen = window_event_listener(leptos::ev::visibilitychange, move |_| {
        if document().hidden() {
            button.broken();
        }
    });
    on_cleanup(move || seen.remove());
}

/// Times a press and what follows it.
#[component]
pub fn PressTimer(
    /// How it is worked.
    #[prop(into)]
    handling: Signal<Handling>,
    /// How long is to be pressed.
    #[prop(into)]
    guide: Signal<Span>,
    /// The words on it.
    words: PressWords,
    /// What is timed, for a screen reader, before the words.
    #[prop(into)]
    label: Text,
    /// How it stands: written here, for what is drawn beside it.
    stage: RwSignal<PressStage>,
    /// A press was timed.
    #[prop(into)]
    on_timed: Callback<Pressed>,
    /// A press came to nothing.
    #[prop(into)]
    on_lost: Callback<PressLost>,
) -> impl IntoView {
    let lasted = RwSignal::new(Span::ZERO);
    let button = Button {
        stage,
        lasted,
        pointer: StoredValue::new(None),
        ended: StoredValue::new(None),
        tapped: StoredValue::new(None),
        on_timed,
        on_lost,
    };
    stage.set(PressStage::Ready);
    keep_up(button);
    // Whoever changes the way in the middle of a press begins anew.
    Effect::new(move |before: Option<Handling>| {
        let now = handling.get();
        if before.is_some_and(|before| before != now) {
            button.broken();
        }
        now
    });
    let long_enough = Memo::new(move |_| lasted.get() >= guide.get());
    let said = Memo::new(move |_| match (stage.get(), handling.get()) {
        (PressStage::Ready, Handling::Hold) => words.hold,
        (PressStage::Ready, Handling::Taps) => words.start,
        (PressStage::Pressing { .. }, Handling::Hold) if long_enough.get() => words.let_go,
        (PressStage::Pressing { .. }, Handling::Hold) => words.pressing,
        (PressStage::Pressing { .. }, Handling::Taps) => words.release,
        (PressStage::Released { .. }, _) => words.over,
    });
    let figure =
        Memo::new(move |_| (stage.get() != PressStage::Ready).then(|| (words.time)(lasted.get())));
    let filled = move || match stage.get() {
        PressStage::Pressing { .. } => share(lasted.get(), guide.get()),
        PressStage::Ready | PressStage::Released { .. } => 0.0,
    };
    view! {
        <div class="press">
            <PressButton button handling label said>
                <span
                    class="press-fill"
                    aria-hidden="true"
                    style:width=move || format!("{:.1}%", filled() * 100.0)
                ></span>
                <span class="press-words" class:due=move || pressing(stage.get()) && long_enough.get()>
                    {move || said.get()}
                </span>
                <span class="press-figure" aria-hidden="true">
                    {move || figure.get()}
                </span>
            </PressButton>
            <p class="unseen" role="status">
                {move || (stage.get() != PressStage::Ready).then(|| said.get())}
            </p>
        </div>
    }
}

/// The button itself, with all that a finger, a key and a screen reader do to it.
#[component]
fn PressButton(
    button: Button,
    handling: Signal<Handling>,
    label: Text,
    said: Memo<&'static str>,
    children: Children,
) -> impl IntoView {
    let Button { stage, pointer, .. } = button;
    let place = NodeRef::<html::Button>::new();
    let hold = move || handling.get_untracked() == Handling::Hold;
    let ours = move |event: &PointerEvent| pointer.get_value() == Some(event.pointer_id());
    let down = move |event: PointerEvent| {
        if !hold() || !event.is_primary() || event.button() != 0 || !button.down() {
            return;
        }
        pointer.set_value(Some(event.pointer_id()));
        if let Some(place) = place.get_untracked() {
            // A browser that cannot still tells of a finger lifted over the button.
            let _ = place.set_pointer_capture(event.pointer_id());
        }
    };
    let up = move |event: PointerEvent| {
        if ours(&event) {
            pointer.set_value(None);
            button.up();
        }
    };
    let taken = move |event: PointerEvent| {
        if ours(&event) {
            pointer.set_value(None);
            if pressing(stage.get_untracked()) {
                button.broken();
            }
        }
    };
    let key_down = move |key: KeyboardEvent| {
        if hold() && is_key(&key) {
            key.prevent_default();
            if !key.repeat() {
                button.down();
            }
        }
    };
    let key_up = move |key: KeyboardEvent| {
        if hold() && is_key(&key) {
            // Or the browser makes a click of it.
            key.prevent_default();
            button.up();
        }
    };
    view! {
        <button
            node_ref=place
            type="button"
            class="press-button"
            class:running=move || stage.get() != PressStage::Ready
            aria-label=move || format!("{}: {}", label.get(), said.get())
            on:pointerdown=down
            on:pointerup=up
            on:pointercancel=taken
            on:lostpointercapture=taken
            on:keydown=key_down
            on:keyup=key_up
            on:blur=move |_| {
                if pressing(stage.get_untracked()) && hold() {
                    button.broken();
                }
            }
            on:click=move |click| {
                // Held, a click without a finger or a key is a screen reader's.
                if !hold() || (click.detail() == 0 && pointer.get_value().is_none()) {
                    button.tap();
                }
            }
            on:contextmenu=move |menu| menu.prevent_default()
        >
            {children()}
        </button>
    }
}

/// How much of `whole` a part is, at most all of it.
#[expect(clippy::cast_precision_loss, reason = "for drawing only")]
fn share(part: Span, whole: Span) -> f64 {
    (part.as_millis() as f64 / whole.as_millis().max(1) as f64).min(1.0)
}
