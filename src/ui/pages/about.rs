//! What the app is, what it is not, where the records are, and how the phone keeps them.

use super::keeping::save_everything;
use super::timeline::passing;
use crate::phone::own;
use crate::phone::update::{self, use_offline};
use crate::store::persist::{self, Persistence};
use crate::ui::app::set_title;
use crate::ui::desk::use_desk;
use crate::ui::pages::Apart;
use crate::ui::parts::{Foot, GoButton, Note, QuietButton, Title, Toast, Tone};
use crate::ui::words::{self, about as said};
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::spawn_local;

/// The page.
#[component]
pub fn About() -> impl IntoView {
    let desk = use_desk();
    set_title(said::title());
    let told = passing();
    let save = move |()| {
        spawn_local(async move {
            told.try_set(match save_everything(desk).await {
                Ok(handed) => words::handing::became(handed),
                Err(why) => Some(why),
            });
        });
    };
    let empty =
        Memo::new(move |_| desk.headlines().is_empty() && desk.keeping().read().damaged.is_empty());
    let why_not = Signal::derive(move || empty.get().then(|| said::nothing().to_owned()));
    view! {
        <Apart>
            <Title arrive=true eyebrow=Some(words::app::name().to_owned())>{said::title()}</Title>
            {section(said::what(), paragraphs(&said::what_words()))}
            {section(said::not(), paragraphs(&said::not_words()))}
            {section(
                said::cautions(),
                view! { <Note tone=Tone::Caution>{paragraphs(&said::caution_words())}</Note> },
            )}
            {section(
                said::data(),
                view! {
                    {paragraphs(&said::data_words())}
                    <p>{said::save_why()}</p>
                },
            )}
            <State />
            {section(said::install(), install())}
            <Licences />
            <p class="follow">{words::app::follow()}</p>
            <Foot slot>
                <Toast text=told />
                <GoButton on_press=save why_not>
                    {words::app::keeping::save_file()}
                </GoButton>
            </Foot>
        </Apart>
    }
}

fn section(heading: &'static str, content: impl IntoView) -> impl IntoView {
    view! {
        <section class="prose">
            <h2>{heading}</h2>
            {content}
        </section>
    }
}

fn paragraphs(words: &[&'static str]) -> impl IntoView + use<> {
    words.iter().map(|text| view! { <p>{*text}</p> }).collect_view()
}

fn install() -> impl IntoView {
    let steps = |steps: &[&'static str]| {
        let steps = steps.iter().map(|step| view! { <li>{*step}</li> }).collect_view();
        view! { <ol class="numbered">{steps}</ol> }
    };
    view! {
        <p>{said::install_why()}</p>
        <h3>{said::android()}</h3>
        {steps(&said::android_steps())}
        <h3>{said::iphone()}</h3>
        {steps(&said::iphone_steps())}
    }
}

/// What this browser promises, and which version runs.
#[component]
fn State() -> impl IntoView {
    let offline = use_offline();
    let persistence = RwSignal::new(None::<Persistence>);
    let room = RwSignal::new(None::<String>);
    let refused = RwSignal::new(false);
    spawn_local(async move {
        persistence.try_set(Some(persist::persisted().await));
        room.try_set(persist::room().await.map(said::room));
    });
    let ask = move |()| {
        spawn_local(async move {
            let answer = persist::persist().await;
            persistence.try_set(Some(answer));
            refused.try_set(answer != Persistence::Granted);
        });
    };
    let version = Some(update::version()).filter(|version| !version.is_empty());
    let can_check = version.is_some();
    let checked = checked();
    let check = move |()| {
        checked.set(Some(said::checking()));
        update::check();
    };
    let fact = |label: &'static str, value: Signal<String>| {
        view! {
            <div class="figure wide">
                <dt>{label}</dt>
                <dd>{move || value.get()}</dd>
            </div>
        }
    };
    let version = version.unwrap_or_else(|| said::build().to_owned());
    view! {
        <section class="prose">
            <h2>{said::state()}</h2>
            <dl class="figures">
                {fact(
                    said::storage(),
                    Signal::derive(move || said::persistence(persistence.get()).to_owned()),
                )}
                {move || {
                    room.get().map(|room| fact(said::room_label(), Signal::stored(room)))
                }}
                {fact(
                    said::no_network(),
                    Signal::derive(move || said::offline(offline.get()).to_owned()),
                )}
                {fact(said::version(), Signal::stored(version))}
            </dl>
            {move || {
                (persistence.get().is_some_and(|state| state != Persistence::Granted))
                    .then(|| view! { <QuietButton on_press=ask>{said::ask()}</QuietButton> })
            }}
            {move || refused.get().then(|| view! { <Note>{said::asked()}</Note> })}
            {can_check
                .then(|| {
                    view! {
                        <QuietButton on_press=check>{said::check()}</QuietButton>
                        <p role="status">{move || checked.get()}</p>
                    }
                })}
        </section>
    }
}

/// Where a release has the licences of what it contains, beside the page.
const LICENCES: &str = "./licences.txt";

/// Others' work in the app and its licences, long and seldom wanted: read once it is opened.
#[component]
fn Licences() -> impl IntoView {
    let text = RwSignal::new(None::<String>);
    let missing = RwSignal::new(false);
    let read = move |_| {
        if text.with_untracked(Option::is_some) {
            return;
        }
        spawn_local(async move {
            let read = own::bytes(LICENCES).await.and_then(|bytes| String::from_utf8(bytes).ok());
            missing.try_set(read.is_none());
            text.try_set(read);
        });
    };
    view! {
        <details class="more" on:toggle=read>
            <summary>{said::licences()}</summary>
            <p>{said::own_licence()}</p>
            {move || missing.get().then(|| view! { <Note>{said::no_licences()}</Note> })}
            {move || text.get().map(|text| view! { <pre class="by-hand">{text}</pre> })}
        </details>
    }
}

/// What came of the last look for a new version, as boot.js says it.
fn checked() -> RwSignal<Option<&'static str>> {
    let checked = RwSignal::new(None);
    let listening = window_event_listener_untyped("freshet-checked", move |event| {
        let answer = event
            .dyn_ref::<web_sys::CustomEvent>()
            .and_then(|event| event.detail().as_string())
            .unwrap_or_default();
        checked.try_set(Some(match answer.as_str() {
            "found" => said::found(),
            "current" => said::current(),
            _ => said::unreachable(),
        }));
    });
    on_cleanup(move || listening.remove());
    checked
}
