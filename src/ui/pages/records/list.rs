//! The search and the cases that it finds.

use crate::case::{Headline, Hit, Search};
use crate::ui::desk::use_desk;
use crate::ui::page::Page;
use crate::ui::pages::listed::CaseRow;
use crate::ui::parts::{QuietButton, Rows, TextField};
use crate::ui::words::records as said;
use leptos::prelude::*;

/// How many cases are drawn at once: as many as anybody reads through. Longer, and each letter typed
/// would be waited for.
const SHOWN: usize = 50;

/// A case that was found, and why.
type Found = (Headline, Vec<Hit>);

/// The search and what it finds.
#[component]
pub fn List(
    /// What is typed.
    typed: RwSignal<String>,
) -> impl IntoView {
    let desk = use_desk();
    let all = Memo::new(move |_| desk.headlines());
    let found = Memo::new(move |_| {
        let search = Search::read(&typed.read());
        let hits = |line: &Headline| {
            let hits = search.hits(line);
            (search.is_empty() || !hits.is_empty()).then(|| (line.clone(), hits))
        };
        all.read().iter().filter_map(hits).collect::<Vec<Found>>()
    });
    let shown = RwSignal::new(SHOWN);
    let change = move |text: String| {
        shown.set(SHOWN);
        typed.set(text);
    };
    let more = move || found.read().len() > shown.get();
    let searched = move || !typed.read().trim().is_empty();
    view! {
        <TextField
            label=said::search()
            value=typed
            on_input=Callback::new(change)
            hint=Some(said::search_hint().to_owned())
        />
        <p class="hint" role="status">
            {move || match (all.read().len(), found.read().len()) {
                (0, _) => said::none().to_owned(),
                (_, 0) => said::nothing_found().to_owned(),
                (all, found) => said::counted(found, all),
            }}
        </p>
        {move || group(&found.read(), shown.get(), true)}
        {move || group(&found.read(), shown.get(), false)}
        {move || {
            more()
                .then(|| {
                    view! {
                        <QuietButton on_press=move |()| {
                            shown.update(|shown| *shown += SHOWN);
                        }>{said::more()}</QuietButton>
                    }
                })
        }}
        {move || {
            (searched() && found.read().is_empty())
                .then(|| {
                    view! {
                        <QuietButton on_press=move |()| {
                            change(String::new());
                        }>{said::all_again()}</QuietButton>
                    }
                })
        }}
    }
}

/// Those that are open, or closed, of the first so many.
fn group(found: &[Found], shown: usize, open: bool) -> Option<impl IntoView + use<>> {
    let rows: Vec<_> = found
        .iter()
        .take(shown)
        .filter(|(line, _)| line.closed.is_none() == open)
        .map(|(line, hits)| {
            let (line, hits, to) = (line.clone(), hits.clone(), Page::Timeline(line.id));
            view! { <CaseRow line to hits /> }
        })
        .collect();
    let heading = if open { said::open() } else { said::closed_label() };
    (!rows.is_empty()).then(|| {
        view! {
            <section>
                <h2>{heading}</h2>
                <Rows>{rows}</Rows>
            </section>
        }
    })
}
