//! Vials opened whose batch nobody noted: it can be done at once or later, after the hours and after
//! the case was closed too.

use super::sheets::VialSheet;
use crate::case::{Step, Unnoted as Left};
use crate::measure::Hash;
use crate::ui::page::Page;
use crate::ui::parts::{Foot, GoButton, Note, Row, Rows, Title, Tone};
use crate::ui::steps::{CaseScreen, Here, use_here};
use crate::ui::words::{syringe as said, timeline};
use leptos::prelude::*;

/// How many vials are to be noted, and a row for each.
#[component]
pub fn Unnoted(
    /// Whether those of the solution in hand are among them.
    in_hand: bool,
) -> impl IntoView {
    let here = use_here();
    let unnoted = Memo::new(move |_| {
        let mut left = left(here);
        left.retain(|left| in_hand || left.solution.is_some());
        left
    });
    let open = RwSignal::new(false);
    let chosen = RwSignal::new(None::<(Option<Hash>, u32)>);
    // Which solution is told only where there are several.
    let rows = move |several: bool, left: Left| {
        let Left { solution, at, vials } = left;
        let detail = several.then(|| said::solution(solution.map(|_| at)));
        let row = move |number: u32| {
            let press = move |()| {
                chosen.set(Some((solution, number)));
                open.set(true);
            };
            view! { <Row label=said::vial_notes(number) detail=detail.clone() on_press=press /> }
        };
        vials.into_iter().map(row).collect_view()
    };
    view! {
        {move || {
            let unnoted = unnoted.get();
            let count = unnoted.iter().map(|left| left.vials.len()).sum();
            let several = unnoted.iter().any(|left| left.solution.is_some());
            (count > 0)
                .then(|| {
                    view! {
                        <Note tone=Tone::Caution heading=Some(said::unnoted(count))>
                            {said::note_later()}
                        </Note>
                        <Rows>{unnoted.into_iter().map(|left| rows(several, left)).collect_view()}</Rows>
                    }
                })
        }}
        {move || {
            chosen
                .get()
                .map(|(solution, number)| view! { <VialSheet open solution number /> })
        }}
    }
}

fn left(here: Here) -> Vec<Left> {
    let held = here.held();
    held.case.unnoted(&held.journal)
}

/// The vials of a closed case.
#[component]
pub fn Afterwards() -> impl IntoView {
    let here = use_here();
    let none = Memo::new(move |_| left(here).is_empty());
    let record = move || here.go.to(Page::Timeline(here.id));
    view! {
        <CaseScreen step=Step::Syringe rail=false back=Callback::new(move |()| record())>
            <Title eyebrow=Some(timeline::closed().to_owned()) arrive=true>{said::vials()}</Title>
            {move || none.get().then(|| view! { <Note>{said::all_noted()}</Note> })}
            <Unnoted in_hand=true />
            <Foot slot>
                <GoButton on_press=move |()| record()>{said::to_record()}</GoButton>
            </Foot>
        </CaseScreen>
    }
}
