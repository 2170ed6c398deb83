//! How a text leaves the phone: shared or copied, printed, kept as a file.

use crate::phone::print;
use crate::phone::share::{self, Handed};
use crate::ui::app::use_go;
use crate::ui::desk::use_desk;
use crate::ui::page::Page;
use crate::ui::parts::{GoButton, Note, Pair, QuietButton, Tone};
use crate::ui::words::document::Document;
use crate::ui::words::{handing, note as said, patient};
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

/// What can be done with a text; nothing where there is none.
#[component]
pub(super) fn Ways(
    /// The text.
    document: Signal<Option<Document>>,
    /// The name of its file, without what it ends in.
    name: &'static str,
    /// What was said last, and left again by itself.
    passed: RwSignal<Option<String>>,
    /// The text, where the phone neither shares nor copies.
    by_hand: RwSignal<Option<String>>,
) -> impl IntoView {
    let text = move || {
        let document = document.get_untracked();
        document.map(|document| document.text()).unwrap_or_default()
    };
    let hand_on = move |()| {
        let text = text();
        let sharing = share::text(&text);
        spawn_local(async move {
            let handed = sharing.await;
            by_hand.try_set((handed == Handed::Refused).then_some(text));
            passed.try_set(handing::became(handed));
        });
    };
    let on_paper = move |()| {
        if !print::print() {
            passed.set(Some(said::no_print().to_owned()));
        }
    };
    let file = move |()| {
        let keeping = share::keep(&format!("{name}.txt"), "text/plain", &text());
        spawn_local(async move {
            passed.try_set(match keeping.await {
                Handed::Refused => Some(said::file_failed().to_owned()),
                handed => handing::became(handed),
            });
        });
    };
    let some = Memo::new(move |_| document.read().is_some());
    move || {
        some.get().then(|| {
            view! {
                <GoButton on_press=on_paper>{said::print()}</GoButton>
                <Pair>
                    <QuietButton on_press=hand_on>{said::share()}</QuietButton>
                    <QuietButton on_press=file>{said::file()}</QuietButton>
                </Pair>
            }
        })
    }
}

/// The text itself, where the phone neither shares nor copies.
#[component]
pub(super) fn ByHand(
    /// The text.
    by_hand: RwSignal<Option<String>>,
) -> impl IntoView {
    view! {
        <div role="status" class="no-print">
            {move || {
                by_hand
                    .get()
                    .map(|text| {
                        view! {
                            <p>{handing::by_hand()}</p>
                            <pre class="by-hand" role="region" tabindex=0 aria-label=handing::text_label()>
                                {text}
                            </pre>
                        }
                    })
            }}
        </div>
    }
}

/// What is missing of the numbers on the patient's sheet, and the way to set them.
#[component]
pub(super) fn SetNumbers() -> impl IntoView {
    let go = use_go();
    let desk = use_desk();
    move || {
        patient::missing(&desk.contacts()).map(|missing| {
            view! {
                <div class="no-print paper-aside">
                    <Note tone=Tone::Caution>{missing}</Note>
                    <QuietButton on_press=move |()| go.to(Page::Contacts)>
                        {patient::set_numbers()}
                    </QuietButton>
                </div>
            }
        })
    }
}
