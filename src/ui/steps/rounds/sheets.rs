//! Sheets over the rounds: leaving a point out, settling the rest in one go, handing over.

use super::Step5;
use crate::care::rounds::{Act, End, HandOver, Point, Round, SkipReason};
use crate::care::situation::RedFlag;
use crate::case::{Case, Event};
use crate::measure::Volume;
use crate::ui::app::use_go;
use crate::ui::page::Page;
use crate::ui::parts::{
    Choice, DangerButton, GoButton, Item, Note, QuietButton, Row, Rows, Sheet, TextField, Tone,
};
use crate::ui::steps::use_here;
use crate::ui::words::{self, round_screens as said, rounds as words_of, situation};
use leptos::prelude::*;

/// How handing over is asked about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Handing {
    /// Only for the signs that go before everything.
    Flags,
    /// For any reason; one may be proposed.
    Any(Option<HandOver>),
}

const FLAGS: [RedFlag; 3] = [RedFlag::Sight, RedFlag::Stroke, RedFlag::Airway];

/// Asks why and to do what first; then ends the treatment and closes the case.
#[component]
pub fn HandOverSheet(step: Step5) -> impl IntoView {
    let handing = step.handing;
    let heading = move || match handing.get() {
        Some(Handing::Flags) => said::ANY_OF_THESE.to_owned(),
        _ => said::HAND_OVER_TO.to_owned(),
    };
    view! {
        <Sheet
            open=Signal::derive(move || handing.get().is_some())
            on_close=Callback::new(move |()| handing.set(None))
            heading=Signal::derive(heading)
            close_label=words::app::CLOSE
            danger=true
        >
            <HandOverForm step />
        </Sheet>
    }
}

/// The sheet's content; it exists only while the sheet is open, and starts anew each time.
#[component]
fn HandOverForm(step: Step5) -> impl IntoView {
    let here = use_here();
    let go = use_go();
    let handing = step.handing;
    let asked = handing.get_untracked();
    let only_flags = asked == Some(Handing::Flags);
    let chosen = RwSignal::new(match asked {
        Some(Handing::Any(reason)) => reason,
        _ => None,
    });
    let note = RwSignal::new(String::new());
    let items: Vec<Item<HandOver>> = if only_flags {
        let item = |flag| Item::new(HandOver::of(flag), situation::red_flag(flag)).danger();
        FLAGS.into_iter().map(item).collect()
    } else {
        words_of::HAND_OVERS
            .into_iter()
            .map(|reason| Item::new(reason, words_of::hand_over(reason)))
            .collect()
    };
    let act = move || {
        let flag = FLAGS.into_iter().find(|flag| Some(HandOver::of(*flag)) == chosen.get())?;
        Some(situation::red_flag_act(flag))
    };
    let other = move || chosen.get() == Some(HandOver::Other);
    let why_not = Signal::derive(move || match chosen.get() {
        None => Some(said::WHY_MISSING.to_owned()),
        Some(HandOver::Other) if note.read().trim().is_empty() => {
            Some(words::app::REASON_WANTED.to_owned())
        }
        Some(_) => None,
    });
    let close = Callback::new(move |()| {
        let Some(reason) = chosen.get_untracked() else { return };
        let end = End::HandedOver(reason);
        let text = note.get_untracked().trim().to_owned();
        step.alarm.silence();
        handing.set(None);
        if !text.is_empty() {
            here.record(Event::Note(text));
        }
        here.record(Event::Round(Act::End(end)));
        here.record(Event::Closed(end));
    });
    view! {
        <Choice
            legend=said::HAND_OVER_WHY
            legend_hidden=true
            items
            value=chosen
            on_choose=move |reason| chosen.set(Some(reason))
        />
        {move || {
            act().map(|act| view! { <Note tone=Tone::Danger alert=true>{act}</Note> })
        }}
        {move || {
            other()
                .then(|| {
                    view! {
                        <TextField
                            label=said::NOTE
                            value=note
                            on_input=move |text| note.set(text)
                            long=true
                        />
                    }
                })
        }}
        {move || {
            if chosen.get() == Some(HandOver::Reaction) {
                // The sheet comes first; handing over is taken down when there is a hand free.
                view! {
                    <GoButton on_press=move |()| {
                        go.to(Page::Anaphylaxis(Some(here.id)));
                    }>{said::TO_SHEET}</GoButton>
                    <DangerButton on_press=close>{said::HANDED_OVER}</DangerButton>
                }
                    .into_any()
            } else {
                view! {
                    <GoButton on_press=close why_not>
                        {said::HANDED_OVER}
                    </GoButton>
                }
                    .into_any()
            }
        }}
        <QuietButton on_press=move |()| handing.set(None)>{said::GO_ON_MEANWHILE}</QuietButton>
    }
}

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
            close_label=words::app::CLOSE
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
            close_label=words::app::CLOSE
        >
            <GoButton on_press=inject>{move || said::rest_injected(left(), volume())}</GoButton>
            <p>{move || said::rest_skipped(left())}</p>
            <Reasons on_skip=skip />
            <p class="hint">{said::FINISH_EARLY_WHY}</p>
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
