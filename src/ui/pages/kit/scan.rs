//! The code on a pack: read by the camera where the phone can, else typed or pasted.

use super::Kit;
use super::draft::Draft;
use crate::kit::gs1::{self, Gtin, Misread};
use crate::kit::{Article, Stock};
use crate::phone::barcode::{self, Reader};
use crate::phone::camera::{Camera, NoCamera};
use crate::ui::parts::{Note, QuietButton, TextField, Tone};
use crate::ui::words::kit as said;
use leptos::html;
use leptos::prelude::*;
use std::rc::Rc;
use std::time::Duration;
use wasm_bindgen_futures::spawn_local;

/// Between two looks at what the camera sees: often enough for a hand that aims, seldom enough for a
/// phone that gets warm.
const EVERY: Duration = Duration::from_millis(250);

/// What was read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Read {
    /// Filled in; whether the article was known by its number.
    Filled { known: bool },
    /// Not a code of a pack.
    Wrong(Misread),
}

/// What the camera does.
#[derive(Clone)]
enum Lens {
    Shut,
    Opening,
    Live(Rc<Camera>),
    Without(NoCamera),
    /// The browser says that it reads codes and knows none that packs carry.
    Unable,
}

/// The way from a code to what is typed. Copied freely.
#[derive(Clone, Copy)]
struct Scan {
    kit: Kit,
    draft: RwSignal<Draft>,
    read: RwSignal<Option<Read>>,
    lens: RwSignal<Lens, LocalStorage>,
    video: NodeRef<html::Video>,
}

/// What was received under this number before, last.
fn known(stock: &Stock, gtin: &Gtin) -> Option<Article> {
    let mut lots = stock.holdings().iter().rev().map(|holding| &holding.lot);
    lots.find(|lot| lot.gtin.as_ref() == Some(gtin)).map(|lot| lot.article)
}

impl Scan {
    /// Fills in what the code says; whether it was a code of a pack.
    fn fill(self, text: &str) -> bool {
        let year = self.kit.today.get_untracked().year();
        let pack = match gs1::read(text, year) {
            Ok(pack) => pack,
            Err(misread) => {
                self.read.set(Some(Read::Wrong(misread)));
                return false;
            }
        };
        let stock = self.kit.stock.read_untracked();
        let article = pack.gtin.as_ref().and_then(|gtin| known(&stock, gtin));
        self.draft.update(|draft| draft.fill(&pack, article));
        self.read.set(Some(Read::Filled { known: article.is_some() }));
        true
    }

    fn set(self, lens: Lens) {
        // The sheet may be closed by now; what is not set is let go.
        drop(self.lens.try_set(lens));
    }

    /// Opens the camera and looks until a code is read.
    fn open(self) {
        self.read.set(None);
        self.set(Lens::Opening);
        spawn_local(async move {
            let Ok(reader) = Reader::open().await else {
                self.set(Lens::Unable);
                return;
            };
            let opened = Camera::open(move || self.set(Lens::Without(NoCamera::Failed))).await;
            let waited = self.lens.try_with_untracked(|lens| matches!(lens, Lens::Opening));
            if waited == Some(true) {
                self.set(opened.map_or_else(Lens::Without, |camera| Lens::Live(Rc::new(camera))));
                self.look(&reader).await;
            }
        });
    }

    async fn look(self, reader: &Reader) {
        let live = move || self.lens.try_with_untracked(|lens| matches!(lens, Lens::Live(_)));
        while live() == Some(true) {
            let video = self.video.try_get_untracked().flatten();
            if let Some(video) = video {
                let codes = reader.read(&video).await;
                // Of several codes on a pack the one that says most is taken.
                let code = codes.into_iter().max_by_key(String::len);
                if live() == Some(true) && code.is_some_and(|code| self.fill(&code)) {
                    self.set(Lens::Shut);
                }
            }
            gloo_timers::future::sleep(EVERY).await;
        }
    }
}

/// The code on the pack fills in what it says.
#[component]
pub fn Code(kit: Kit, draft: RwSignal<Draft>) -> impl IntoView {
    let scan = Scan {
        kit,
        draft,
        read: RwSignal::new(None),
        lens: RwSignal::new_local(Lens::Shut),
        video: NodeRef::new(),
    };
    let hidden = window_event_listener(leptos::ev::visibilitychange, move |_| {
        if document().hidden() {
            scan.set(Lens::Shut);
        }
    });
    on_cleanup(move || hidden.remove());
    let told = move || {
        let (tone, words) = match scan.read.get()? {
            Read::Filled { known: false } => (Tone::Plain, said::read()),
            Read::Filled { known: true } => (Tone::Plain, said::read_known()),
            Read::Wrong(misread) => (Tone::Caution, said::code_misread(misread)),
        };
        Some(view! { <Note tone>{words}</Note> })
    };
    view! {
        <div class="kit-camera">
            {if barcode::can_scan() {
                view! { <Looking scan /> }.into_any()
            } else {
                view! { <p class="hint">{said::cannot_scan()}</p> }.into_any()
            }}
            <div role="status">{told}</div>
        </div>
        <Typed scan />
    }
}

/// By the camera.
#[component]
fn Looking(scan: Scan) -> impl IntoView {
    let shut =
        move || view! { <QuietButton on_press=move |()| scan.open()>{said::scan()}</QuietButton> };
    move || match scan.lens.get() {
        Lens::Shut => shut().into_any(),
        Lens::Opening => view! { <Note>{said::opening()}</Note> }.into_any(),
        Lens::Without(why) => view! {
            {shut()}
            <Note tone=Tone::Caution alert=true>
                {said::no_camera(why)}
            </Note>
        }
        .into_any(),
        Lens::Unable => view! { <p class="hint">{said::cannot_scan()}</p> }.into_any(),
        Lens::Live(camera) => view! { <Live scan camera /> }.into_any(),
    }
}

/// What the camera sees.
#[component]
fn Live(scan: Scan, camera: Rc<Camera>) -> impl IntoView {
    let video = scan.video;
    Effect::new(move |_| {
        if let Some(video) = video.get() {
            camera.show_in(&video);
        }
    });
    view! {
        <video node_ref=video muted=true playsinline=true aria-label=said::seen()></video>
        <p class="hint">{said::scanning()}</p>
        <QuietButton on_press=move |()| scan.set(Lens::Shut)>{said::scan_stop()}</QuietButton>
    }
}

/// By hand, or from the clipboard.
#[component]
fn Typed(scan: Scan) -> impl IntoView {
    let code = RwSignal::new(String::new());
    let read = move |()| {
        scan.fill(&code.read_untracked());
    };
    view! {
        <details class="more">
            <summary>{said::type_code()}</summary>
            <TextField
                label=said::code()
                value=code
                hint=Some(said::type_code_hint().to_owned())
                on_input=move |text| code.set(text)
            />
            <QuietButton on_press=read>{said::read_code()}</QuietButton>
        </details>
    }
}
