//! Lists: what happened and when, and where one can go.

use super::{Icon, MaybeText, Sign, Text};
use crate::ui::tap::press;
use leptos::prelude::*;

/// One line of a record.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Entry {
    /// Its id in the record.
    pub key: String,
    /// When, as it is to be read.
    pub time: String,
    /// What happened.
    pub text: String,
    /// More in small.
    pub detail: Option<String>,
    /// Why it was struck out, if it was. It stays readable.
    pub struck: Option<String>,
}

/// A record, line by line.
#[component]
pub fn Timeline(
    /// The lines, in the order to be shown.
    #[prop(into)]
    entries: Signal<Vec<Entry>>,
    /// A line was pressed, by its key; without it lines are only read.
    #[prop(optional, into)]
    on_press: Option<Callback<String>>,
) -> impl IntoView {
    let line = move |entry: Entry| {
        let Entry { key, time, text, detail, struck } = entry;
        let out = struck.is_some();
        let text = if out {
            view! { <s class="entry-text">{text}</s> }.into_any()
        } else {
            view! { <span class="entry-text">{text}</span> }.into_any()
        };
        let words = view! {
            <span class="entry-time">{time}</span>
            <span class="entry-words">
                {text} {detail.map(|detail| view! { <span class="entry-detail">{detail}</span> })}
                {struck.map(|reason| view! { <span class="entry-reason">{reason}</span> })}
            </span>
        };
        let inside = match on_press {
            Some(on_press) => view! {
                <button type="button" class="entry" on:click=move |_| on_press.run(key.clone())>
                    {words}
                </button>
            }
            .into_any(),
            None => view! { <div class="entry">{words}</div> }.into_any(),
        };
        view! { <li class:struck=out>{inside}</li> }
    };
    view! {
        <ol class="timeline">
            // The whole line is the key: a line never changes but by being struck out.
            <For
                each=move || entries.get()
                key=|entry| (entry.key.clone(), entry.struck.clone(), entry.text.clone())
                children=line
            />
        </ol>
    }
}

/// A list of places to go.
#[component]
pub fn Rows(
    /// [`Row`]s.
    children: Children,
) -> impl IntoView {
    view! { <div class="rows">{children()}</div> }
}

/// A place to go: a large row. Stands in [`Rows`].
#[component]
pub fn Row(
    /// Its name.
    #[prop(into)]
    label: Text,
    /// A few words under the name.
    #[prop(optional, into)]
    detail: MaybeText,
    /// A figure or a state at its end.
    #[prop(optional, into)]
    trailing: MaybeText,
    /// Pressed.
    #[prop(into)]
    on_press: Callback<()>,
) -> impl IntoView {
    view! {
        <button type="button" class="row" on:click=move |click| press(&click, || on_press.run(()))>
            <span class="row-line">
                <span class="row-words">
                    <span class="row-name">{move || label.get()}</span>
                    {move || {
                        detail.get().map(|detail| view! { <span class="row-detail">{detail}</span> })
                    }}
                </span>
                {move || {
                    trailing.get().map(|text| view! { <span class="row-trailing">{text}</span> })
                }}
            </span>
            <Sign icon=Icon::Onward />
        </button>
    }
}
