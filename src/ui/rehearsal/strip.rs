//! The mark on each screen of a rehearsal: that it is one, its hour, the patient, its pace, the end.

use super::patient::PatientSheet;
use super::{Run, moment, use_rehearsals};
use crate::care::rounds::Phase;
use crate::measure::{Moment, Span};
use crate::rehearsal::Condition;
use crate::ui::app::use_go;
use crate::ui::page::Page;
use crate::ui::parts::{DangerButton, Item, QuietButton, Segment, Sheet};
use crate::ui::tap::once_pressed;
use crate::ui::words::{self, rehearsal as said, time};
use leptos::prelude::*;

/// How many times faster than time the clock may go while something is awaited.
pub const PACES: [u32; 4] = [1, 10, 60, 120];
/// How long before something is due the clock stops when it is moved on.
const BEFORE_DUE: Span = Span::seconds(5);

/// What is open over the screen.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Open {
    /// Nothing of the rehearsal's own.
    Nothing,
    /// The patient.
    Patient,
    /// The clock.
    Clock,
}

/// The strip above each screen.
#[component]
pub fn Strip(run: Run, patient: Memo<Option<Condition>>, open: RwSignal<Open>) -> impl IntoView {
    let now = moment(run);
    // Changes with the minute, so that a screen reader is left alone.
    let hour = Memo::new(move |_| time::hour(now.get()));
    let pace = move || said::pace(run.hands.read().times(), run.paused.get());
    let calls = Memo::new(move |_| patient.read().as_ref().is_some_and(said::calls));
    let over = Memo::new(move |_| run.held_case().is_some_and(|case| !case.open()));
    let close = Callback::new(move |()| open.set(Open::Nothing));
    view! {
        <div class="strip" role="region" aria-label=said::mark()>
            <p class="strip-mark">
                <strong>{said::mark()}</strong>
                <span class="strip-hour">{move || hour.get()}</span>
            </p>
            {move || {
                if over.get() {
                    view! { <End word=said::debrief() class="strip-button" /> }.into_any()
                } else {
                    view! {
                        <button
                            type="button"
                            class="strip-button"
                            class:calls=move || calls.get()
                            on:click=move |_| open.set(Open::Patient)
                        >
                            {move || if calls.get() { said::patient_calls() } else { said::patient() }}
                        </button>
                    }
                        .into_any()
                }
            }}
            <button
                type="button"
                class="strip-button"
                aria-label=move || said::pace_label(&pace())
                on:click=move |_| open.set(Open::Clock)
            >
                {pace}
            </button>
        </div>
        <Sheet
            open=Signal::derive(move || open.get() == Open::Patient)
            on_close=close
            heading=said::patient()
            close_label=words::app::close()
        >
            <PatientSheet run patient />
        </Sheet>
        <Sheet
            open=Signal::derive(move || open.get() == Open::Clock)
            on_close=close
            heading=said::clock()
            close_label=words::app::close()
        >
            <ClockSheet run close />
        </Sheet>
    }
}

/// Ends the rehearsal and goes to its debrief.
#[component]
fn End(word: &'static str, class: &'static str) -> impl IntoView {
    let go = use_go();
    let rehearsals = use_rehearsals();
    let end = move |_| finish(rehearsals, go);
    view! {
        <button type="button" class=class on:click=end>
            {word}
        </button>
    }
}

fn finish(rehearsals: super::Rehearsals, go: crate::ui::app::Go) {
    once_pressed(move || {
        // The page is left first: what it shows must not outlive its desk.
        go.to(Page::Rehearsal);
        rehearsals.end();
    });
}

/// How fast, held, moved on, ended.
#[component]
fn ClockSheet(run: Run, close: Callback<()>) -> impl IntoView {
    let go = use_go();
    let rehearsals = use_rehearsals();
    let paces = PACES.map(|times| Item::new(times, said::times(times))).to_vec();
    let due = Memo::new(move |_| due(run));
    view! {
        <Segment
            legend=said::how_fast()
            items=paces
            value=Signal::derive(move || Some(run.pace.get()))
            on_choose=move |times| run.pace.set(times)
        />
        <QuietButton on_press=move |()| {
            let paused = !run.paused.get_untracked();
            run.paused.set(paused);
            run.hold(paused);
        }>{move || if run.paused.get() { said::go_on() } else { said::pause() }}</QuietButton>
        {move || {
            due.get()
                .map(|due| {
                    view! {
                        <QuietButton on_press=move |()| {
                            run.forward(due.before(BEFORE_DUE));
                            close.run(());
                        }>{said::to_due()}</QuietButton>
                    }
                })
        }}
        <p class="hint">{said::end_why()}</p>
        <DangerButton on_press=move |()| {
            close.run(());
            finish(rehearsals, go);
        }>{said::end()}</DangerButton>
    }
}

/// What is awaited: the next dose in a reaction, else the next look.
fn due(run: Run) -> Option<Moment> {
    let case = run.held_case()?;
    let look = match case.treatment.phase(case.last, &case.protocol) {
        Phase::Watching { due } => Some(due),
        _ => None,
    };
    if case.reaction.active() { case.reaction.next_dose(&case.protocol) } else { look }
}
