//! The language that the app speaks.

use crate::phone::own;
use crate::store::habits::Language;
use crate::ui::app::set_title;
use crate::ui::habits::use_habits;
use crate::ui::language::in_force;
use crate::ui::pages::Apart;
use crate::ui::parts::{Choice, Foot, GoButton, Item, Note, QuietButton, Title, Tone};
use crate::ui::words::language as said;
use leptos::prelude::*;

/// The page.
#[component]
pub fn LanguagePage() -> impl IntoView {
    set_title(said::home());
    let set = use_habits();
    let chosen = RwSignal::new(in_force());
    let refused = RwSignal::new(false);
    let items = Language::ALL
        .map(|language| Item::new(language, said::name(language)).hint(said::hint(language)));
    let start = move |()| {
        if set.keep_language(chosen.get_untracked()) {
            own::start_again();
        } else {
            refused.set(true);
        }
    };
    let why_not =
        Signal::derive(move || (chosen.get() == in_force()).then(|| said::same().to_owned()));
    view! {
        <Apart>
            <Title arrive=true>{said::home()}</Title>
            <Choice
                legend=said::home()
                legend_hidden=true
                items=Signal::stored(Vec::from(items))
                value=Signal::derive(move || Some(chosen.get()))
                on_choose=move |language| chosen.set(language)
            />
            {move || {
                (chosen.get() != Language::English)
                    .then(|| view! { <Note tone=Tone::Caution>{said::caution()}</Note> })
            }}
            <p class="hint">{said::starts_anew()}</p>
            {move || {
                refused
                    .get()
                    .then(|| view! { <Note tone=Tone::Danger alert=true>{said::not_kept()}</Note> })
            }}
            <Foot slot>
                <GoButton on_press=start why_not>{said::choose()}</GoButton>
            </Foot>
        </Apart>
    }
}

/// At the start, where another language was chosen and could not be read.
#[component]
pub fn Missed() -> impl IntoView {
    let set = use_habits();
    move || {
        (set.language() != in_force()).then(|| {
            view! {
                <Note tone=Tone::Caution>{said::missed()}</Note>
                <QuietButton on_press=move |()| own::start_again()>{said::again()}</QuietButton>
            }
        })
    }
}

/// At the end of each page, while the app speaks a language that no clinician has reviewed.
#[component]
pub fn Unreviewed() -> impl IntoView {
    said::mark().map(|mark| view! { <p class="follow no-print">{mark}</p> })
}
