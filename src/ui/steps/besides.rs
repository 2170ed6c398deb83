//! What is given besides the enzyme, as other screens show it: the way to its page, and what does not
//! go together.

use super::use_here;
use crate::phone::use_now;
use crate::protocol::adjunct::Conflict;
use crate::ui::app::use_go;
use crate::ui::page::Page;
use crate::ui::parts::{Note, Row, Rows, Tone};
use crate::ui::words::adjunct as said;
use leptos::prelude::*;

/// The way to what is given besides, with what is given now.
#[component]
pub fn BesidesRow() -> impl IntoView {
    let here = use_here();
    let go = use_go();
    let given = Memo::new(move |_| said::given_now(&here.case().adjuncts));
    view! {
        <Rows>
            <Row
                label=said::title()
                detail=Signal::derive(move || {
                    Some(given.get().unwrap_or_else(|| said::row_detail().to_owned()))
                })
                on_press=move |()| go.to(Page::Besides(here.id))
            />
        </Rows>
    }
}

/// What does not go together in what was given; nothing if all does.
#[component]
pub fn ConflictNote(
    /// Which of them are told here.
    #[prop(default = |_| true)]
    which: fn(Conflict) -> bool,
) -> impl IntoView {
    let here = use_here();
    let now = use_now();
    let found = Memo::new(move |_| {
        let conflicts = here.case().conflicts(now.get());
        conflicts.into_iter().filter(|conflict| which(*conflict)).collect::<Vec<_>>()
    });
    move || {
        let found = found.get();
        (!found.is_empty()).then(|| view! { <Conflicts found heading=said::in_mind() /> })
    }
}

/// Conflicts in words, each with its source.
#[component]
pub fn Conflicts(found: Vec<Conflict>, heading: &'static str) -> impl IntoView {
    let line = |conflict: Conflict| {
        view! {
            <p>
                {said::conflict(conflict)}
                <span class="source">{said::conflict_source(conflict)}</span>
            </p>
        }
    };
    view! {
        <Note tone=Tone::Caution heading=Some(heading.to_owned())>
            {found.into_iter().map(line).collect_view()}
        </Note>
    }
}
