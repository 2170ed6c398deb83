//! In a round: one point after the other.

use super::sheets::{Handing, RestSheet, SkipSheet, open_volume};
use super::{Step5, last_act, strike};
use crate::care::allergy::Urgency;
use crate::care::rounds::{Act, Point, Round};
use crate::care::territory::Territory;
use crate::case::{Event, Preparation, Step};
use crate::measure::{Units, Volume};
use crate::ui::parts::{
    Figure, Figures, Foot, GoButton, GridDrawing, Note, Pair, PointMark, QuietButton, Title, Tone,
};
use crate::ui::steps::{CaseScreen, use_here};
use crate::ui::words::{numbers, round_screens as said};
use leptos::prelude::*;

/// In a round.
#[component]
pub fn Injecting(step: Step5) -> impl IntoView {
    let here = use_here();
    let urgency = here.now().urgency().unwrap_or(Urgency::Urgent);
    let round = Memo::new(move |_| here.case().treatment.rounds().last().cloned());
    let next = Memo::new(move |_| round.read().as_ref().and_then(Round::next));
    let bolus = Signal::derive(move || {
        let plan = round.read().as_ref().map(|round| round.plan);
        plan.zip(next.get()).map_or(Volume::ZERO, |(plan, point)| here.case().share(&plan, point))
    });
    let skipping = RwSignal::new(false);
    let resting = RwSignal::new(false);
    let record = move |act: Act| step.taps.once(|| here.record(Event::Round(act)));
    let press = move |()| {
        if let Some(point) = next.get_untracked() {
            record(Act::Inject { point, volume: bolus.get_untracked() });
        } else {
            step.alarm.arm();
            record(Act::Finish);
        }
    };
    let undo = move |()| {
        step.taps.once(|| {
            if let Some((entry, _)) = last_act(&untrack(|| here.held())) {
                strike(here, entry);
            }
        });
    };
    let undo_words = move || match last_act(&here.held()) {
        Some((_, Act::Inject { point, .. } | Act::Skip { point, .. })) => said::undo(point),
        _ => said::NOT_BEGUN.to_owned(),
    };
    let fraction = Signal::derive(move || round.read().as_ref().map_or(0.0, so_far));
    view! {
        <CaseScreen step=Step::Rounds fraction>
            <Heading urgency round next bolus />
            <Grid round next />
            <Counts round />
            <Note>
                {match urgency {
                    Urgency::Urgent => said::CAUTION_URGENT,
                    Urgency::Planned => said::CAUTION_PLANNED,
                }}
            </Note>
            <Pair>
                <QuietButton on_press=move |()| {
                    step.handing.set(Some(Handing::Flags));
                }>{said::FLAGS}</QuietButton>
                {move || {
                    next.get()
                        .is_some()
                        .then(|| {
                            view! {
                                <QuietButton on_press=move |()| {
                                    resting.set(true);
                                }>{said::REST}</QuietButton>
                            }
                        })
                }}
            </Pair>
            <SkipSheet
                open=skipping
                heading=Signal::derive(move || {
                    next.get().map(|point| said::skip_heading(urgency, point)).unwrap_or_default()
                })
                on_skip=move |reason| {
                    if let Some(point) = next.get_untracked() {
                        here.record(Event::Round(Act::Skip { point, reason }));
                    }
                }
            />
            <RestSheet step open=resting round />
            <Foot slot>
                <GoButton
                    on_press=press
                    why_not=Signal::derive(move || next.get().and_then(|_| here.reaction_first()))
                    on_refused=Callback::new(move |()| here.to_sheet())
                >
                    {move || match next.get() {
                        Some(_) => said::injected(bolus.get()),
                        None => said::done(urgency).to_owned(),
                    }}
                </GoButton>
                <Pair>
                    {move || {
                        next.get()
                            .is_some()
                            .then(|| {
                                view! {
                                    <QuietButton on_press=move |()| {
                                        skipping.set(true);
                                    }>{said::SKIP}</QuietButton>
                                }
                            })
                    }}
                    <QuietButton on_press=undo>{undo_words}</QuietButton>
                </Pair>
            </Foot>
        </CaseScreen>
    }
}

/// How much of the step is done: a round's points are its middle half.
fn so_far(round: &Round) -> f64 {
    let all = f64::from(round.plan.points.max(1));
    0.1 + 0.5 * (all - f64::from(round.open())) / all
}

/// Which point, and how much into it.
#[component]
fn Heading(
    urgency: Urgency,
    round: Memo<Option<Round>>,
    next: Memo<Option<u32>>,
    bolus: Signal<Volume>,
) -> impl IntoView {
    let here = use_here();
    let eyebrow = move || {
        let case = here.case();
        let plan = round.read().as_ref()?.plan;
        Some(match urgency {
            Urgency::Urgent => said::grid(
                case.treatment.rounds().len(),
                case.territory.as_ref().map(Territory::area),
                &plan,
                case.protocol.spacing,
            ),
            Urgency::Planned => said::deposits(&plan),
        })
    };
    let words = move || {
        let Some(point) = next.get() else {
            let plan = round.read().as_ref().map(|round| round.plan);
            return plan.map(|plan| said::settled(urgency, &plan)).into_any();
        };
        view! {
            {said::point(urgency, point)}
            <em>{numbers::volume_named(bolus.get())}</em>
        }
        .into_any()
    };
    view! {
        <Title eyebrow=Signal::derive(eyebrow) arrive=true>
            {words}
        </Title>
        <p class="unseen" role="status">
            {move || next.get().map(said::now_point)}
        </p>
    }
}

/// The points as they stand.
#[component]
fn Grid(round: Memo<Option<Round>>, next: Memo<Option<u32>>) -> impl IntoView {
    let marks = Memo::new(move |_| -> Vec<PointMark> {
        let next = next.get();
        round.read().as_ref().map_or_else(Vec::new, |round| {
            let mark = |(number, point): (u32, &Point)| match point {
                Point::Injected(_) => PointMark::Done,
                Point::Skipped(_) => PointMark::Skipped,
                Point::Open if Some(number) == next => PointMark::Next,
                Point::Open => PointMark::Todo,
            };
            (1..).zip(&round.points).map(mark).collect()
        })
    });
    let label = move || {
        let marks = marks.read();
        let count = |wanted| marks.iter().filter(|mark| **mark == wanted).count();
        said::drawing(marks.len(), count(PointMark::Done), count(PointMark::Skipped))
    };
    view! { <GridDrawing points=marks label=Signal::derive(label) /> }
}

/// How much so far, how much still, from which syringe.
#[component]
fn Counts(round: Memo<Option<Round>>) -> impl IntoView {
    let here = use_here();
    let given = Memo::new(move |_| round.read().as_ref().map(Round::units).unwrap_or_default());
    let volume = Memo::new(move |_| -> Volume {
        round.read().as_ref().map_or(Volume::ZERO, |round| open_volume(&here.case(), round))
    });
    let still = Memo::new(move |_| -> Units {
        let round = round.read();
        round.as_ref().map_or(Units::ZERO, |round| round.plan.strength.units_in(volume.get()))
    });
    let total = move || given.get() + still.get();
    let hand = Memo::new(move |_| here.case().syringe_in_hand());
    let open = move || round.read().as_ref().is_some_and(|round| round.open() > 0);
    let undrawn = Memo::new(move |_| {
        let ready = here.case().preparation.as_ref().map_or(0, Preparation::syringes_ready);
        hand.get().map(|hand| hand.number).filter(|number| open() && *number > ready)
    });
    view! {
        <Figures>
            <Figure
                label=said::GIVEN
                number=Signal::derive(move || numbers::units(given.get()))
                unit=Some(said::UNITS.to_owned())
            />
            <Figure
                label=said::STILL
                number=Signal::derive(move || numbers::units(still.get()))
                unit=Signal::derive(move || Some(said::of(total())))
            />
            {move || {
                hand.get()
                    .filter(|_| open())
                    .map(|hand| {
                        view! {
                            <Figure
                                label=said::SYRINGE
                                number=said::syringe(&hand)
                                note=Some(said::change(&hand, volume.get()))
                            />
                        }
                    })
            }}
        </Figures>
        {move || {
            (open() && hand.get().is_none())
                .then(|| view! { <Note tone=Tone::Caution>{said::NO_SYRINGE}</Note> })
        }}
        {move || {
            undrawn
                .get()
                .map(|number| {
                    view! {
                        <Note tone=Tone::Caution>{said::not_drawn(number)}</Note>
                        <QuietButton on_press=move |()| {
                            here.to(Step::Syringe);
                        }>{said::DRAW_NEXT}</QuietButton>
                    }
                })
        }}
    }
}
