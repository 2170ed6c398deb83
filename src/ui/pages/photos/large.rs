//! One photo large, and deleting it.

use super::{Album, Shown, to_heading, when};
use crate::case::{Event, Removal};
use crate::ui::parts::{Choice, DangerButton, Item, Note, Pair, QuietButton, Sheet, Tone};
use crate::ui::photo::{Deleted, use_sweep};
use crate::ui::steps::use_here;
use crate::ui::tap::Taps;
use crate::ui::words::{self, photos as said};
use leptos::ev::MouseEvent;
use leptos::html;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::spawn_local;

/// Where in a photo, as shares of its width and height.
type Spot = (f64, f64);

const MIDDLE: Spot = (0.5, 0.5);

/// One photo over the whole width. Enlarged it is moved as any page is, by keys too; or tapped whole
/// and enlarged elsewhere.
#[component]
pub(super) fn Large(album: Album) -> impl IntoView {
    let large = album.large;
    let enlarged = RwSignal::new(false);
    let deleting = RwSignal::new(false);
    let frame = NodeRef::<html::Div>::new();
    let close = move |()| {
        deleting.set(false);
        enlarged.set(false);
        large.set(None);
    };
    let enlarge = move |(across, down): Spot| {
        enlarged.set(true);
        // Once it has its new size.
        let _ = request_animation_frame(move || {
            let Some(frame) = frame.get_untracked() else { return };
            frame.set_scroll_left(to_middle(across, frame.scroll_width(), frame.client_width()));
            frame.set_scroll_top(to_middle(down, frame.scroll_height(), frame.client_height()));
        });
    };
    let tapped = move |tap: MouseEvent| {
        if enlarged.get_untracked() {
            enlarged.set(false);
            return;
        }
        let on = tap.target().and_then(|on| on.dyn_into::<web_sys::HtmlElement>().ok());
        let share = |at: i32, of: i32| f64::from(at) / f64::from(of.max(1));
        enlarge(on.map_or(MIDDLE, |on| {
            (share(tap.offset_x(), on.client_width()), share(tap.offset_y(), on.client_height()))
        }));
    };
    let press = move |()| {
        if enlarged.get_untracked() {
            enlarged.set(false);
        } else {
            enlarge(MIDDLE);
        }
    };
    view! {
        <Sheet
            open=Signal::derive(move || large.with(Option::is_some))
            on_close=Callback::new(close)
            heading=said::large()
            close_label=words::app::close()
        >
            <p class="photo-when">{move || large.get().map(|one| when(album, one.at))}</p>
            <div
                node_ref=frame
                class="photo-frame"
                class:enlarged=move || enlarged.get()
                tabindex=0
                role="group"
                aria-label=said::large()
                on:click=tapped
            >
                <Shown picture=large.into() named=true />
            </div>
            <Pair>
                <QuietButton on_press=press>
                    {move || if enlarged.get() { said::whole() } else { said::enlarge() }}
                </QuietButton>
                <QuietButton on_press=move |()| deleting.set(true)>{said::delete()}</QuietButton>
            </Pair>
            <p class="hint">{said::tap_large()}</p>
        </Sheet>
        <Deleting album open=deleting done=Callback::new(close) />
    }
}

/// How far to scroll so that a place comes into the middle of what is seen, in pixels.
fn to_middle(share: f64, all: i32, seen: i32) -> i32 {
    #[expect(clippy::cast_possible_truncation, reason = "saturates, and NaN becomes zero")]
    let place = (share * f64::from(all)) as i32;
    place - seen / 2
}

/// Why it goes: recorded first, and only then deleted. A phone that dies between the two does the rest
/// at its next start.
#[component]
fn Deleting(album: Album, open: RwSignal<bool>, done: Callback<()>) -> impl IntoView {
    let here = use_here();
    let sweep = use_sweep();
    let taps = Taps::new();
    let why = RwSignal::new(None::<Removal>);
    let asked = RwSignal::new(false);
    let close = move || {
        open.set(false);
        why.set(None);
        asked.set(false);
    };
    let delete = move |()| {
        let (Some(one), Some(why)) = (album.large.get_untracked(), why.get_untracked()) else {
            asked.set(true);
            return;
        };
        let photo = one.name;
        let go = move || {
            close();
            done.run(());
            spawn_local(async move {
                // What the phone did not let go of stands at the top of the page.
                let words = match sweep.delete(photo).await {
                    Deleted::Gone => Some(said::done()),
                    Deleted::Shared => Some(said::shared()),
                    Deleted::Refused => None,
                };
                album.told.try_set(words.map(str::to_owned));
                to_heading();
            });
        };
        taps.once(|| here.record_then(Event::PhotoRemoved { photo, why }, go));
    };
    let reasons = said::REMOVALS.map(|why| Item::new(why, said::removal(why)));
    view! {
        <Sheet
            open
            on_close=Callback::new(move |()| close())
            heading=said::delete()
            close_label=words::app::close()
            danger=true
        >
            <p>{move || album.large.get().map(|one| said::named(one.at))}</p>
            <Note tone=Tone::Caution>
                <p>{said::keeps()}</p>
                <p>{said::copies()}</p>
            </Note>
            <Choice
                legend=said::why()
                items=reasons.to_vec()
                value=why
                on_choose=move |one| why.set(Some(one))
            />
            <Show when=move || asked.get() && why.get().is_none()>
                <Note tone=Tone::Danger alert=true>{said::missing()}</Note>
            </Show>
            <DangerButton on_press=delete>{said::do_delete()}</DangerButton>
        </Sheet>
    }
}
