//! The photos of a case, two side by side over time, and deleting one.

use crate::case::{Event, Picture, Removal};
use crate::measure::{Hash, Moment};
use crate::store::photos;
use crate::ui::app::{set_title, use_go};
use crate::ui::parts::{
    self, Choice, DangerButton, Item, Note, Pair, QuietButton, Screen, Title, Toast, Tone,
};
use crate::ui::photo::{Fetched, fetch};
use crate::ui::steps::{Here, use_here};
use crate::ui::words::{self, photos as said, time};
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

/// The photos of a case, side by side over time.
#[component]
pub fn PhotosPage() -> impl IntoView {
    let go = use_go();
    let here = use_here();
    set_title(said::TITLE);
    let all = Memo::new(move |_| here.case().pictures());
    // The first beside the newest: what is looked for is what became of it.
    let left = RwSignal::new(0);
    let right = RwSignal::new(all.with_untracked(Vec::len).saturating_sub(1));
    let deleting = RwSignal::new(false);
    let told = super::timeline::passing();
    let onset = Memo::new(move |_| here.case().findings.as_ref().and_then(|found| found.onset));
    let reference = here.reference();
    let deletable = Memo::new(move |_| all.read().iter().any(|one| one.removed.is_none()));
    view! {
        <Screen
            reference
            back=Callback::new(move |()| go.back())
            back_label=words::app::BACK
            on_anaphylaxis=Callback::new(move |()| here.to_sheet())
            anaphylaxis_label=words::app::ANAPHYLAXIS
        >
            <Title>{said::TITLE}</Title>
            {move || {
                if all.read().is_empty() {
                    view! { <Note>{said::NONE}</Note> }.into_any()
                } else {
                    view! {
                        <div class="photo-pair">
                            <Side all at=left onset label=said::LEFT />
                            <Side all at=right onset label=said::RIGHT />
                        </div>
                    }
                    .into_any()
                }
            }}
            <Show when=move || deletable.get()>
                <QuietButton on_press=move |()| deleting.set(true)>{said::DELETE}</QuietButton>
            </Show>
            <Deleting here all open=deleting told />
            <Toast text=told />
        </Screen>
    }
}

/// One of the two.
#[component]
fn Side(
    all: Memo<Vec<Picture>>,
    at: RwSignal<usize>,
    onset: Memo<Option<Moment>>,
    label: &'static str,
) -> impl IntoView {
    let shown = Memo::new(move |_| all.read().get(at.get()).copied());
    let fetched = RwSignal::new(Fetched::default());
    Effect::new(move |_| {
        let Some(picture) = shown.get() else { return };
        fetched.set(Fetched::Waiting);
        if picture.removed.is_none() {
            spawn_local(async move {
                let found = fetch(picture.name).await;
                // Another may be wanted by now, or none.
                if shown.try_get_untracked().flatten() == Some(picture) {
                    fetched.try_set(found);
                }
            });
        }
    });
    let picture = move || {
        let picture = shown.get()?;
        let alt = said::named(picture.at);
        Some(match (picture.removed, fetched.get()) {
            (Some(_), _) => view! { <p class="photo-none">{said::DELETED}</p> }.into_any(),
            (None, Fetched::Waiting) => {
                view! { <p class="photo-none">{said::LOADING}</p> }.into_any()
            }
            (None, Fetched::Gone) => view! { <p class="photo-none">{said::GONE}</p> }.into_any(),
            (None, Fetched::Here(url)) => {
                view! { <img src=url.as_str().to_owned() alt=alt /> }.into_any()
            }
        })
    };
    let words = move || {
        let picture = shown.get()?;
        let since = onset.get().map(|onset| said::since(onset, picture.at));
        let gone = picture.removed.map(|(when, why)| said::deleted(when, why));
        Some(view! {
            <figcaption>
                <b>{time::day_hour(picture.at)}</b>
                {since.map(|words| view! { <span>{words}</span> })}
                {gone.map(|words| view! { <span>{words}</span> })}
                <span role="status">{said::place(at.get() + 1, all.read().len())}</span>
            </figcaption>
        })
    };
    let step = move |by: fn(usize, usize) -> usize| {
        move |()| {
            let last = all.with_untracked(Vec::len).saturating_sub(1);
            at.update(|at| *at = by(*at, last));
        }
    };
    view! {
        <section class="photo-side" aria-label=label>
            <figure>{picture} {words}</figure>
            <Pair>
                <QuietButton on_press=step(|at, _| at.saturating_sub(1))>{said::EARLIER}</QuietButton>
                <QuietButton on_press=step(|at, last| (at + 1).min(last))>{said::LATER}</QuietButton>
            </Pair>
        </section>
    }
}

/// Which photo goes, and why: recorded first, and only then deleted. A phone that dies between the two
/// does the rest at its next start.
#[component]
fn Deleting(
    here: Here,
    all: Memo<Vec<Picture>>,
    open: RwSignal<bool>,
    told: RwSignal<Option<String>>,
) -> impl IntoView {
    let which = RwSignal::new(None::<Hash>);
    let why = RwSignal::new(None::<Removal>);
    let asked = RwSignal::new(false);
    let close = move || {
        open.set(false);
        which.set(None);
        why.set(None);
        asked.set(false);
    };
    let delete = move |()| {
        let (Some(photo), Some(why)) = (which.get_untracked(), why.get_untracked()) else {
            asked.set(true);
            return;
        };
        here.record_then(Event::PhotoRemoved { photo, why }, move || {
            close();
            spawn_local(async move {
                let words = match photos::remove(photo).await {
                    Ok(()) => said::DONE,
                    Err(_) => said::NOT_DELETED,
                };
                told.try_set(Some(words.to_owned()));
            });
        });
    };
    let photos = Signal::derive(move || -> Vec<Item<Hash>> {
        let there = all.get().into_iter().filter(|picture| picture.removed.is_none());
        there.map(|picture| Item::new(picture.name, said::named(picture.at))).collect()
    });
    let reasons = said::REMOVALS.map(|why| Item::new(why, said::removal(why)));
    view! {
        <parts::Sheet
            open
            on_close=Callback::new(move |()| close())
            heading=said::DELETE
            close_label=words::app::CLOSE
            danger=true
        >
            <Note tone=Tone::Caution>
                <p>{said::KEEPS}</p>
                <p>{said::COPIES}</p>
            </Note>
            <Choice
                legend=said::WHICH
                items=photos
                value=which
                on_choose=move |one| which.set(Some(one))
            />
            <Choice
                legend=said::WHY
                items=reasons.to_vec()
                value=why
                on_choose=move |one| why.set(Some(one))
            />
            <Show when=move || asked.get() && (which.get().is_none() || why.get().is_none())>
                <Note tone=Tone::Danger alert=true>{said::MISSING}</Note>
            </Show>
            <DangerButton on_press=delete>{said::DO_DELETE}</DangerButton>
        </parts::Sheet>
    }
}
