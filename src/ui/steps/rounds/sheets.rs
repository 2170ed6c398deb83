//! Sheets over the rounds: leaving a point out, and settling the rest in one go. Handing over has its
//! own file.

pub use super::handing::{HandOverSheet, Handing};

use super::Step5;
use crate::care::rounds::{Act, Point, Round, SkipReason};
use crate::case::{Case, Event};
use crate::measure::Volume;
use crate::ui::parts::{DangerButton, GoButton, Row, Rows, Sheet};
use crate::ui::steps::use_here;
use crate::ui::words::{self, round_screens as said, rounds as words_of};
use leptos::prelude::*;

/// Asks why a point is left out.
#[component]
pub fn SkipSheet(
    /// Whether it is open.
    open: RwSignal<bool>,
    /// What is left out, in words.
    #[prop(into)]
    heading: Signal<String>,
    /// Left out, for this reason.
    #[prop(into)]
    on_skip: Callback<SkipReason>,
) -> impl IntoView {
    view! {
        <Sheet
            open
            on_close=Callback::new(move |()| open.set(false))
            heading
            close_label=words::app::close()
        >
            <Reasons on_skip=move |reason| {
                open.set(false);
                on_skip.run(reason);
            } />
        </Sheet>
    }
}

#[component]
fn Reasons(#[prop(into)] on_skip: Callback<SkipReason>) -> impl IntoView {
    let row = move |reason: SkipReason| {
        view! { <Row label=words_of::skip(reason) on_press=move |()| on_skip.run(reason) /> }
    };
    view! { <Rows>{words_of::SKIPS.map(row)}</Rows> }
}

/// Settles all points that are left in one go, or finishes with them open.
#[component]
pub fn RestSheet(
    step: Step5,
    /// Whether it is open.
    open: RwSignal<bool>,
    /// The round that runs.
    #[prop(into)]
    round: Signal<Option<Round>>,
) -> impl IntoView {
    let here = use_here();
    let left = move || round.read().as_ref().map_or(0, Round::open);
    let each = move |act: Box<dyn Fn(u32) -> Act>| {
        open.set(false);
        let Some(round) = round.get_untracked() else { return };
        for (number, point) in (1..).zip(&round.points) {
            if *point == Point::Open {
                here.record(Event::Round(act(number)));
            }
        }
    };
    let inject = Callback::new(move |()| {
        let Some(plan) = round.with_untracked(|round| round.as_ref().map(|round| round.plan))
        else {
            return;
        };
        let case = here.now();
        each(Box::new(move |point| Act::Inject { point, volume: case.share(&plan, point) }));
    });
    let skip =
        Callback::new(move |reason| each(Box::new(move |point| Act::Skip { point, reason })));
    let finish = Callback::new(move |()| {
        open.set(false);
        step.alarm.arm();
        here.record(Event::Round(Act::Finish));
    });
    let volume = move || {
        let round = round.read();
        round.as_ref().map(|round| open_volume(&here.case(), round)).unwrap_or_default()
    };
    view! {
        <Sheet
            open
            on_close=Callback::new(move |()| open.set(false))
            heading=Signal::derive(move || said::rest_heading(left()))
            close_label=words::app::close()
        >
            <GoButton on_press=inject>{move || said::rest_injected(left(), volume())}</GoButton>
            <p>{move || said::rest_skipped(left())}</p>
            <Reasons on_skip=skip />
            <p class="hint">{said::finish_early_why()}</p>
            <DangerButton on_press=finish>{move || said::finish_early(left())}</DangerButton>
        </Sheet>
    }
}

/// The volume that the open points still take.
pub fn open_volume(case: &Case, round: &Round) -> Volume {
    (1..)
        .zip(&round.points)
        .filter(|(_, point)| **point == Point::Open)
        .map(|(number, _)| case.share(&round.plan, number))
        .sum()
}
