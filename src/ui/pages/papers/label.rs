//! The label of a syringe, as text and as a picture.

use super::tell;
use crate::phone::picture::{self, ObjectUrl};
use crate::phone::share;
use crate::record::label::{Label, labels};
use crate::ui::parts::{GoButton, Note, QuietButton, Sheet, Stepper, TextField, Tone};
use crate::ui::steps::use_here;
use crate::ui::words::papers as said;
use leptos::prelude::*;
use std::sync::Arc;
use wasm_bindgen_futures::spawn_local;

/// A label as it was drawn last, with what it was drawn from.
#[derive(Clone)]
struct Drawn {
    png: Arc<Vec<u8>>,
    url: Arc<ObjectUrl>,
}

/// A sheet with the label of one syringe of the solution made last.
#[component]
pub(super) fn LabelSheet(
    /// Whether it is open.
    open: RwSignal<bool>,
    /// What became of the last one that left.
    told: RwSignal<Option<String>>,
) -> impl IntoView {
    let here = use_here();
    let all = Memo::new(move |_| {
        let held = here.held();
        labels(&held.case, &held.journal)
    });
    // Neither is kept: who made it stands on the label alone.
    let (by, which) = (RwSignal::new(String::new()), RwSignal::new(1_u32));
    view! {
        <Sheet
            open
            on_close=move |()| open.set(false)
            heading=said::label_label()
            close_label=said::label_close()
        >
            {move || {
                let count = all.read().len();
                if count == 0 {
                    view! { <Note>{said::label_none()}</Note> }.into_any()
                } else {
                    view! { <One all count by which told open /> }.into_any()
                }
            }}
        </Sheet>
    }
}

#[component]
fn One(
    all: Memo<Vec<Label>>,
    count: usize,
    by: RwSignal<String>,
    which: RwSignal<u32>,
    told: RwSignal<Option<String>>,
    open: RwSignal<bool>,
) -> impl IntoView {
    let lines = Memo::new(move |_| {
        let all = all.read();
        let index = usize::try_from(which.get().saturating_sub(1)).unwrap_or_default();
        all.get(index).or(all.first()).map(|label| said::label(label, &by.read()))
    });
    let drawn = RwSignal::new(None::<Drawn>);
    let failed = RwSignal::new(false);
    Effect::new(move |_| {
        let Some(now) = lines.get() else { return };
        spawn_local(async move {
            let png = picture::label(&now).await.ok();
            let made = png.and_then(|png| {
                let url = Arc::new(ObjectUrl::of(&png)?);
                Some(Drawn { png: Arc::new(png), url })
            });
            // Another may have been typed meanwhile, and the sheet may be gone.
            if lines.try_get_untracked().flatten() == Some(now) {
                failed.try_set(made.is_none());
                drawn.try_set(made);
            }
        });
    });
    let hand_text = move |()| {
        let text = lines.get_untracked().unwrap_or_default().join("\n");
        let sharing = share::text(&text);
        open.set(false);
        spawn_local(async move { tell(told, sharing.await) });
    };
    let hand_picture = move |()| {
        let Some(picture) = drawn.get_untracked() else {
            return;
        };
        let sharing = share::file(said::label_file(), "image/png", picture.png.as_slice());
        open.set(false);
        spawn_local(async move { tell(told, sharing.await) });
    };
    let most = u32::try_from(count).unwrap_or(u32::MAX);
    view! {
        {(count > 1)
            .then(|| {
                view! {
                    <Stepper
                        label=said::syringe()
                        value=which
                        on_change=move |number| which.set(number)
                        least=1
                        most
                        less_label=said::syringe_less()
                        more_label=said::syringe_more()
                    />
                }
            })}
        <TextField
            label=said::by()
            hint=Some(said::by_hint().to_owned())
            value=by
            on_input=move |typed: String| by.set(typed)
        />
        {move || {
            drawn
                .get()
                .map(|drawn| {
                    let alt = said::picture_of(&lines.get().unwrap_or_default());
                    view! { <img class="label-picture" src=drawn.url.as_str().to_owned() alt=alt /> }
                })
        }}
        {move || failed.get().then(|| view! { <Note tone=Tone::Caution>{said::not_drawn()}</Note> })}
        <GoButton on_press=hand_picture>{said::label_picture()}</GoButton>
        <QuietButton on_press=hand_text>{said::label_text()}</QuietButton>
    }
}
