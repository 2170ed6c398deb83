//! The readings of both sides, side under side.

use super::Timing;
use crate::care::refill::readings::{Reading, Side};
use crate::ui::parts::{Icon, Sign};
use crate::ui::steps::use_here;
use crate::ui::words::{looking as said, numbers};
use leptos::prelude::*;

/// Both sides.
#[component]
pub fn Rows(timing: Timing) -> impl IntoView {
    view! {
        <div class="refill-sides">
            {Side::BOTH.map(|side| view! { <Row timing side /> }).collect_view()}
        </div>
        <p class="unseen" role="status">
            {move || timing.taken.get().map(|(side, reading)| said::taken(side, reading))}
        </p>
    }
}

/// One side: its readings, their median, and the last taken back.
#[component]
fn Row(timing: Timing, side: Side) -> impl IntoView {
    let here = use_here();
    let cells = move || {
        let readings = timing.readings.read();
        let protocol = here.case().protocol.clone();
        let read = readings.of(side).iter().map(|reading| {
            let mark = said::mark(reading.press(&protocol));
            view! { <Cell reading=*reading mark /> }.into_any()
        });
        let wanted = (0..readings.wanted(side)).map(|_| {
            view! { <li class="refill-cell wanted" aria-hidden="true">"–"</li> }.into_any()
        });
        read.chain(wanted).collect_view()
    };
    let summary = move || {
        let case = here.case();
        timing.readings.read().summary(side, &case.protocol).map(said::summary)
    };
    let read = Memo::new(move |_| !timing.readings.read().of(side).is_empty());
    let next = Memo::new(move |_| timing.next() == Some(side));
    view! {
        <section class="refill-side" class:next=move || next.get()>
            <h3 class="refill-name">{said::side(side)}</h3>
            <ol class="refill-cells">{cells}</ol>
            {move || {
                read.get()
                    .then(|| {
                        view! {
                            <button
                                type="button"
                                class="refill-back"
                                aria-label=said::take_back(side)
                                on:click=move |_| timing.take_back(side)
                            >
                                <Sign icon=Icon::Close />
                            </button>
                        }
                    })
            }}
            <p class="refill-summary">{summary}</p>
        </section>
    }
}

/// One reading, with what is marked at it.
#[component]
fn Cell(reading: Reading, mark: Option<&'static str>) -> impl IntoView {
    view! {
        <li class="refill-cell">
            <span>{numbers::seconds(reading.time)}</span>
            {mark.map(|mark| view! { <span class="refill-mark">{mark}</span> })}
        </li>
    }
}
