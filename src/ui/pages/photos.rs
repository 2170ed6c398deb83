//! The photos of a case: two side by side over time, one large, and deleting one.

mod compare;
mod large;

use crate::case::Picture;
use crate::measure::Moment;
use crate::ui::app::set_title;
use crate::ui::pages::Framed;
use crate::ui::parts::{Banner, Note, Title, Toast, Tone};
use crate::ui::photo::{Fetched, use_named, use_sweep};
use crate::ui::steps::use_here;
use crate::ui::words::{photos as said, time};
use compare::Compare;
use large::Large;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::spawn_local;

/// What the parts of the page share. Copied freely.
#[derive(Clone, Copy)]
struct Album {
    /// The photos that are not deleted, the oldest first.
    there: Memo<Vec<Picture>>,
    /// When the first sign was seen.
    onset: Memo<Option<Moment>>,
    /// The one that is seen large.
    large: RwSignal<Option<Picture>>,
    /// What is said of what was just done.
    told: RwSignal<Option<String>>,
}

/// The photos of a case.
#[component]
pub fn PhotosPage() -> impl IntoView {
    let here = use_here();
    let sweep = use_sweep();
    set_title(said::title());
    let all = Memo::new(move |_| here.case().pictures());
    let (there, deleted) = (
        Memo::new(move |_| all.get().into_iter().filter(|one| one.removed.is_none()).collect()),
        Memo::new(move |_| -> Vec<Picture> {
            all.get().into_iter().filter(|one| one.removed.is_some()).collect()
        }),
    );
    let album = Album {
        there,
        onset: Memo::new(move |_| here.case().findings.as_ref().and_then(|found| found.onset)),
        large: RwSignal::new(None),
        told: super::timeline::passing(),
    };
    let refused = Memo::new(move |_| deleted.read().iter().any(|one| sweep.refused(one.name)));
    let again = move |()| {
        spawn_local(async move {
            let gone = sweep.again().await;
            album
                .told
                .try_set(Some(if gone { said::done() } else { said::still_there() }.to_owned()));
            if gone {
                to_heading();
            }
        });
    };
    let how_many = Memo::new(move |_| there.read().len());
    view! {
        <Framed>
            <Title arrive=true>{said::title()}</Title>
            <Banner
                text=Signal::derive(move || refused.get().then(|| said::not_deleted().to_owned()))
                tone=Tone::Caution
                action=said::try_again()
                on_action=Callback::new(again)
            />
            {move || match how_many.get() {
                0 if deleted.read().is_empty() => view! { <Note>{said::none()}</Note> }.into_any(),
                0 => view! { <Note>{said::none_left()}</Note> }.into_any(),
                1 => {
                    let only = Signal::derive(move || there.read().first().copied());
                    view! {
                        <One album picture=only />
                        <p class="hint">{said::tap()}</p>
                    }
                    .into_any()
                }
                _ => view! { <Compare album /> }.into_any(),
            }}
            {move || {
                let gone = deleted.get();
                (!gone.is_empty()).then(|| view! { <Gone gone /> })
            }}
            <Large album />
            <Toast text=album.told />
        </Framed>
    }
}

/// One photo, when it was taken, and the way to see it large.
#[component]
fn One(
    album: Album,
    picture: Signal<Option<Picture>>,
    /// Which of two it is.
    #[prop(optional)]
    label: Option<&'static str>,
) -> impl IntoView {
    view! {
        <figure class="photo-one" aria-label=label>
            <button
                type="button"
                class="photo-open"
                on:click=move |_| album.large.set(picture.get_untracked())
            >
                <span class="unseen">{move || picture.get().map(|one| said::see_large(one.at))}</span>
                <Shown picture named=false />
            </button>
            <figcaption>{move || picture.get().map(|one| when(album, one.at))}</figcaption>
        </figure>
    }
}

/// When it was taken: large how long after the first sign, where that is known.
fn when(album: Album, at: Moment) -> impl IntoView {
    let since = album.onset.get().map(|onset| {
        let (span, of) = said::since(onset, at);
        view! {
            <span>
                <b class="photo-since">{span}</b>
                " "
                {of}
            </span>
        }
    });
    view! {
        {since}
        <b>{time::day_hour(at)}</b>
    }
}

/// The photo itself, or why there is none.
#[component]
fn Shown(
    picture: Signal<Option<Picture>>,
    /// Whether it is named for a screen reader: not where something round it is.
    named: bool,
) -> impl IntoView {
    let name = Memo::new(move |_| picture.get().map(|one| one.name));
    let fetched = use_named(name.into());
    move || match fetched.get() {
        Fetched::Waiting => view! { <span class="photo-none">{said::loading()}</span> }.into_any(),
        Fetched::Gone => view! { <span class="photo-none">{said::gone()}</span> }.into_any(),
        Fetched::Here(url) => {
            let one = picture.get_untracked().filter(|_| named);
            let alt = one.map(|one| said::named(one.at)).unwrap_or_default();
            view! { <img src=url.as_str().to_owned() alt=alt /> }.into_any()
        }
    }
}

/// Those that are deleted, by when and why.
#[component]
fn Gone(gone: Vec<Picture>) -> impl IntoView {
    let line = |one: Picture| {
        let (when, why) = one.removed?;
        Some(view! { <li>{said::deleted(one.at, when, why)}</li> })
    };
    view! {
        <section>
            <h2>{said::deleted_label()}</h2>
            <ul class="photo-gone">{gone.into_iter().map(line).collect_view()}</ul>
        </section>
    }
}

/// To the page's heading, where what had the focus is no longer there.
fn to_heading() {
    let heading = document().query_selector("hgroup > [tabindex]").ok().flatten();
    if let Some(heading) = heading {
        // One that cannot take the focus leaves it where it was; nothing is lost.
        let _ = heading.unchecked_into::<web_sys::HtmlElement>().focus();
    }
}
