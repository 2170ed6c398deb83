//! Between a round and the next look: the clock, and what it cannot do.

use super::sheets::Handing;
use super::trend::RefillTrend;
use super::{Step5, last_act, strike};
use crate::care::dose::supply;
use crate::care::rounds::{Act, Phase, Round};
use crate::case::Step;
use crate::measure::{Moment, Span};
use crate::phone::use_now;
use crate::phone::wake::Wake;
use crate::ui::app::use_go;
use crate::ui::page::Page;
use crate::ui::parts::{
    Bar, Clock, Figure, Figures, Foot, GoButton, Note, Pair, QuietButton, Title, Tone,
};
use crate::ui::steps::{CaseScreen, use_here};
use crate::ui::words::{self, numbers, round_screens as said, time};
use leptos::prelude::*;

/// When the look is due, and whether it is.
#[derive(Clone, Copy, PartialEq, Eq)]
struct Due {
    at: Moment,
    over: bool,
}

/// The hour between.
#[component]
pub fn Hour(step: Step5) -> impl IntoView {
    let here = use_here();
    let go = use_go();
    let now = use_now();
    let due = Memo::new(move |_| {
        let case = here.case();
        match case.treatment.phase(now.get(), &case.protocol) {
            Phase::Watching { due } => Some(Due { at: due, over: false }),
            Phase::Due { due } => Some(Due { at: due, over: true }),
            _ => None,
        }
    });
    let over = Signal::derive(move || due.get().is_some_and(|due| due.over));
    let at = move || due.get().map_or(Moment::default(), |due| due.at);
    // A second is shown until it is over, so that the clock says nought only when it is due.
    let left = Signal::derive(move || {
        let (now, due) = (now.get(), at());
        if over.get() { now.since(due) } else { due.since(now) + Span::millis(999) }
    });
    let part = Signal::derive(move || {
        let whole = here.case().protocol.round_interval;
        1.0 - share(at().since(now.get()), whole)
    });
    let round = here.now().treatment.rounds().len();
    let look = move |()| {
        step.taps.once(|| {
            step.alarm.silence();
            step.looking.set(true);
        });
    };
    let alarm = step.alarm;
    let warned = Memo::new(move |_| asleep(&alarm.wake()) || alarm.mute() || alarm.unarmed());
    let left_open = move || here.case().treatment.rounds().last().map_or(0, Round::open);
    view! {
        <CaseScreen
            step=Step::Rounds
            fraction=0.7
            back=Callback::new(move |()| go.to(Page::Home))
        >
            <Title eyebrow=Some(said::round_done(round)) arrive=true>
                {move || if over.get() { said::LOOK_DUE } else { said::LOOK_IN }}
            </Title>
            <div>
                <Clock
                    span=left
                    label=said::TO_LOOK
                    overdue=over
                    overdue_word=Signal::derive(|| Some(said::OVERDUE.to_owned()))
                />
                <p class="hint">{move || due.get().map(|due| said::due_at(due.at))}</p>
                <Bar fraction=part label=said::OF_INTERVAL />
            </div>
            {move || {
                over.get()
                    .then(|| {
                        view! { <Note tone=Tone::Danger alert=true>{said::DUE_ALERT}</Note> }
                    })
            }}
            {move || {
                alarm
                    .rings()
                    .then(|| {
                        view! {
                            <QuietButton on_press=move |()| {
                                alarm.silence();
                            }>{said::SILENCE}</QuietButton>
                        }
                    })
            }}
            // What may go wrong stands before the figures, what is in order after them.
            {move || warned.get().then(|| view! { <Wakeful step /> })}
            <Sums />
            <RefillTrend />
            {move || {
                let count = left_open();
                (count > 0)
                    .then(|| view! { <Note tone=Tone::Caution>{said::left_open(count)}</Note> })
            }}
            {move || (!warned.get()).then(|| view! { <Wakeful step /> })}
            <Note>{said::meanwhile_source()}</Note>
            <Pair>
                <QuietButton on_press=move |()| {
                    step.handing.set(Some(Handing::Flags));
                }>{said::FLAGS}</QuietButton>
                <QuietButton on_press=move |()| {
                    if let Some((entry, Act::Finish)) = last_act(&untrack(|| here.held())) {
                        strike(here, entry);
                    }
                }>{said::NOT_DONE}</QuietButton>
            </Pair>
            <Foot slot>
                <GoButton on_press=look>{words::rounds::LOOK_NOW}</GoButton>
                <Pair>
                    <QuietButton on_press=move |()| {
                        step.handing.set(Some(Handing::Any(None)));
                    }>{said::HAND_OVER}</QuietButton>
                    <QuietButton on_press=move |()| {
                        go.to(Page::Timeline(here.id));
                    }>{said::RECORD}</QuietButton>
                </Pair>
            </Foot>
        </CaseScreen>
    }
}

/// How much of `whole` a part is.
#[expect(clippy::cast_precision_loss, reason = "for drawing only")]
fn share(part: Span, whole: Span) -> f64 {
    part.as_millis() as f64 / (whole.as_millis().max(1)) as f64
}

/// Time gone, units given, vials opened; what is left, where that is known.
#[component]
fn Sums() -> impl IntoView {
    let here = use_here();
    let now = use_now();
    let since = Memo::new(move |_| {
        let case = here.case();
        let onset = case.findings.as_ref().and_then(|found| found.onset);
        let from = onset.unwrap_or(case.opened);
        (onset.is_some(), time::span(now.get().since(from)))
    });
    let label = move || if since.read().0 { said::SINCE_ONSET } else { said::SINCE_OPENED };
    let left = Memo::new(move |_| {
        let case = here.case();
        let left = case.vials_left()?;
        let vial = case.preparation.as_ref()?.plan.ask().vial.units;
        Some((left, supply(case.next_round()?.units(), vial, left).rounds))
    });
    view! {
        <Figures>
            <Figure
                label=Signal::derive(move || label().to_owned())
                number=Signal::derive(move || since.read().1.clone())
            />
            <Figure
                label=said::UNITS_SO_FAR
                number=Signal::derive(move || numbers::units(here.case().treatment.units()))
            />
            <Figure
                label=said::VIALS_OPENED
                number=Signal::derive(move || here.case().vials_opened.to_string())
            />
            <Figure
                label=said::ROUNDS
                number=Signal::derive(move || here.case().treatment.rounds().len().to_string())
            />
            {move || {
                left.get()
                    .map(|(left, serves)| {
                        view! {
                            <Figure label=said::VIALS_LEFT number=left.to_string() />
                            <Figure
                                label=said::SERVES
                                number=serves.to_string()
                                unit=Some(said::rounds(serves).to_owned())
                            />
                        }
                    })
            }}
        </Figures>
    }
}

/// Whether the phone will ring, said plainly.
#[component]
fn Wakeful(step: Step5) -> impl IntoView {
    let alarm = step.alarm;
    move || {
        let wake = alarm.wake();
        let tone = if asleep(&wake) { Tone::Caution } else { Tone::Plain };
        view! {
            <Note tone>
                {asleep(&wake).then(|| view! { <p>{said::NO_WAKE}</p> })}
                <p>{if wake == Wake::Held { said::AWAKE } else { said::ASLEEP }}</p>
                {alarm.mute().then(|| view! { <p>{said::MUTE}</p> })}
                {alarm.unarmed().then(|| view! { <p>{said::UNARMED}</p> })}
            </Note>
        }
    }
}

/// Whether the phone refused to keep its screen on.
fn asleep(wake: &Wake) -> bool {
    matches!(wake, Wake::Absent | Wake::Refused(_))
}
