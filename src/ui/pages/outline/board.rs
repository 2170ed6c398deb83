//! The canvas: a part of the picture that fingers, a mouse or buttons move and enlarge, and what one
//! finger does on it told to whoever asked.

use super::hand::{Act, Hand, Place, Tool};
use super::window::{PRESS, Window};
use crate::ui::parts::{Icon, Sign, Text};
use crate::ui::skin::Frame;
use crate::ui::words::sketching as said;
use js_sys::{Array, Reflect};
use leptos::ev::{self, PointerEvent, WheelEvent};
use leptos::prelude::*;
use leptos::svg;
use wasm_bindgen::JsCast;

/// The canvas.
#[component]
pub fn Board(
    /// All of the picture; when another is shown, all of it is.
    #[prop(into)]
    whole: Signal<Frame>,
    /// The part that is shown; `None` until the canvas is laid out.
    window: RwSignal<Option<Window>>,
    /// What one finger does that comes down here.
    #[prop(into)]
    tool: Callback<Place, Tool>,
    /// What was done, but for what moves the picture.
    #[prop(into)]
    on_act: Callback<Act>,
    /// The stroke that is being drawn, on the canvas.
    #[prop(optional)]
    live: Option<RwSignal<Vec<Place>>>,
    /// The whole of it in words.
    #[prop(into)]
    label: Text,
    /// What lies in the picture's own units.
    under: AnyView,
    /// What lies above it, in pixels of the canvas.
    over: AnyView,
    /// Buttons in its lower corner, beside those that enlarge.
    #[prop(optional)]
    children: Option<Children>,
) -> impl IntoView {
    let (canvas, hand) = (NodeRef::new(), StoredValue::new(Hand::default()));
    let busy = RwSignal::new(false);
    let glass = Glass { canvas, hand, busy, whole, window, tool, on_act, live };
    Effect::new(move |_| {
        whole.track();
        // Another picture has other units: what was shown of the one before means nothing in it.
        if canvas.get().is_some() {
            window.set(None);
            glass.lay_out();
        }
        // Before the first frame the canvas may have no size yet.
        let _ = request_animation_frame(move || glass.lay_out());
    });
    let resized = window_event_listener(ev::resize, move |_| glass.lay_out());
    on_cleanup(move || resized.remove());
    let shown = move || {
        let Frame { left, top, width, height } = window.get()?.frame();
        Some(format!("{left:.3} {top:.3} {width:.3} {height:.3}"))
    };
    view! {
        <figure class="board" class:busy=move || busy.get()>
            <svg
                class="board-canvas"
                node_ref=canvas
                role="group"
                aria-label=move || label.get()
                on:pointerdown=move |event| glass.down(&event)
                on:pointermove=move |event| glass.moved(event)
                on:pointerup=move |event| glass.with(|hand| hand.up(event.pointer_id()))
                on:pointercancel=move |event| glass.with(|hand| hand.lost(event.pointer_id()))
                on:wheel=move |event| glass.wheel(&event)
            >
                <svg
                    class="ground"
                    width=move || window.get().map(|window| window.size().0)
                    height=move || window.get().map(|window| window.size().1)
                    viewBox=shown
                >
                    {under}
                </svg>
                {over}
            </svg>
            <div class="board-tools">
                <div class="board-own">{children.map(|children| children())}</div>
                <ZoomButtons window />
            </div>
        </figure>
    }
}

/// For whoever cannot pinch.
#[component]
fn ZoomButtons(window: RwSignal<Option<Window>>) -> impl IntoView {
    let is = move |which: fn(Window) -> bool| window.get().is_none_or(which);
    let whole = Memo::new(move |_| is(Window::is_whole));
    let button = |icon, label, off: Signal<bool>, factor| {
        view! {
            <button
                type="button"
                class="board-tool"
                aria-label=label
                aria-disabled=move || off.get().then_some("true")
                on:click=move |_| change(window, |window| window.pressed(factor))
            >
                <Sign icon />
            </button>
        }
    };
    let out = move || {
        (!whole.get()).then(|| {
            view! {
                <button
                    type="button"
                    class="board-tool"
                    on:click=move |_| change(window, Window::out)
                >
                    {said::whole()}
                </button>
            }
        })
    };
    let closest = Signal::derive(move || is(Window::is_closest));
    view! {
        <div class="board-zoom">
            {out} {button(Icon::Less, said::further(), whole.into(), 1.0 / PRESS)}
            {button(Icon::More, said::closer(), closest, PRESS)}
        </div>
    }
}

/// What stands between the fingers and the picture.
#[derive(Clone, Copy)]
struct Glass {
    canvas: NodeRef<svg::Svg>,
    hand: StoredValue<Hand>,
    /// Whether a finger is down.
    busy: RwSignal<bool>,
    whole: Signal<Frame>,
    window: RwSignal<Option<Window>>,
    tool: Callback<Place, Tool>,
    on_act: Callback<Act>,
    live: Option<RwSignal<Vec<Place>>>,
}

impl Glass {
    /// Fits the window to the canvas as it is laid out now.
    fn lay_out(self) {
        // A frame may come when the screen is gone.
        let (Some(now), Some(canvas)) =
            (self.window.try_get_untracked(), self.canvas.try_get_untracked())
        else {
            return;
        };
        let Some(canvas) = canvas else { return };
        let rect = canvas.get_bounding_client_rect();
        let size = (rect.width(), rect.height());
        let new = match now {
            Some(window) => Some(window.resized(size)),
            None => Window::whole(self.whole.get_untracked(), size),
        };
        if new != now {
            self.window.set(new);
        }
    }

    fn with(self, act: impl FnOnce(&mut Hand) -> Option<Act>) {
        self.perform(self.hand.try_update_value(act).flatten());
        self.busy.set(self.hand.with_value(|hand| !hand.is_off()));
    }

    fn perform(self, act: Option<Act>) {
        match act {
            None => {}
            Some(Act::Slid { from, to }) => change(self.window, |window| window.slid(from, to)),
            Some(Act::Pinched { from, to }) => {
                change(self.window, |window| window.pinched(from, to));
            }
            Some(act) => {
                if let Some(live) = self.live {
                    live.set(match act {
                        Act::Drawing => self.hand.with_value(|hand| hand.stroke().to_vec()),
                        _ => Vec::new(),
                    });
                }
                self.on_act.run(act);
            }
        }
    }

    fn down(self, event: &PointerEvent) {
        let Some(canvas) = self.canvas.get_untracked() else { return };
        // Another button of a mouse opens the browser's own menu.
        if event.button() != 0 {
            return;
        }
        // Bars of the browser come and go without a word.
        self.lay_out();
        let Some(at) = place(&canvas, event) else { return };
        // What is refused leaves the finger to whatever it runs over.
        let _ = canvas.set_pointer_capture(event.pointer_id());
        let alone = self.hand.with_value(Hand::is_off);
        let tool = if alone { self.tool.run(at) } else { Tool::Slide };
        self.with(|hand| hand.down(event.pointer_id(), at, tool));
    }

    fn moved(self, event: PointerEvent) {
        let canvas = self.canvas.get_untracked().filter(|_| self.busy.get_untracked());
        let Some(canvas) = canvas else { return };
        let mut latest = None;
        for event in each(event) {
            let Some(at) = place(&canvas, &event) else { continue };
            let moved = |hand: &mut Hand| hand.moved(event.pointer_id(), at);
            match self.hand.try_update_value(moved).flatten() {
                // Each of these holds what was before it.
                act @ Some(Act::Drawing | Act::Pulled { .. }) => latest = act,
                act => self.perform(act),
            }
        }
        self.perform(latest);
    }

    fn wheel(self, event: &WheelEvent) {
        event.prevent_default();
        let turned = match event.delta_mode() {
            WheelEvent::DOM_DELTA_PIXEL => event.delta_y(),
            // Lines or pages: only the direction is known.
            _ => event.delta_y().signum() * f64::MAX,
        };
        if let Some(at) = self.canvas.get_untracked().and_then(|canvas| place(&canvas, event)) {
            change(self.window, |window| window.wheeled(at, turned));
        }
    }
}

fn change(window: RwSignal<Option<Window>>, how: impl FnOnce(Window) -> Window) {
    if let Some(before) = window.get_untracked() {
        let after = how(before);
        if after != before {
            window.set(Some(after));
        }
    }
}

/// Where on the canvas it was. By name: the typed call gives whole pixels, and a finger is felt more
/// finely, which counts where a pixel of the screen is many of the photo.
fn place(canvas: &web_sys::Element, event: &web_sys::MouseEvent) -> Option<Place> {
    let read = |name: &str| Reflect::get(event, &name.into()).ok()?.as_f64();
    let rect = canvas.get_bounding_client_rect();
    let at = (read("clientX")? - rect.left(), read("clientY")? - rect.top());
    (at.0.is_finite() && at.1.is_finite()).then_some(at)
}

/// What the browser gathered into one event: a finger is felt more often than a screen is drawn. Not
/// every browser tells.
fn each(event: PointerEvent) -> Vec<PointerEvent> {
    let tells = Reflect::has(&event, &"getCoalescedEvents".into()).unwrap_or(false);
    let all = if tells { event.get_coalesced_events() } else { Array::new() };
    if all.length() == 0 {
        return vec![event];
    }
    all.iter().map(JsCast::unchecked_into).collect()
}
