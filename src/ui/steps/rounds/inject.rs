//! In a round: one point after the other.

mod taking;

use super::Step5;
use super::sheets::{Handing, RestSheet, SkipSheet, open_volume};
use super::stop::{StopNote, lead};
use crate::care::allergy::Urgency;
use crate::care::rounds::Round;
use crate::care::territory::Territory;
use crate::case::{Case, Preparation, Step};
use crate::measure::{Length, Units, Volume};
use crate::plane::Grid;
use crate::ui::parts::{Figure, Figures, Foot, GoButton, Note, Pair, QuietButton, Title, Tone};
use crate::ui::steps::{CaseScreen, use_here};
use crate::ui::words::{numbers, points as words_of, round_screens as said};
use leptos::prelude::*;
use taking::{Points, Taking};

/// In a round.
#[component]
pub fn Injecting(step: Step5) -> impl IntoView {
    let taking = Taking::of(step);
    let urgency = taking.urgency;
    let skipping = RwSignal::new(false);
    let resting = RwSignal::new(false);
    let Taking { here, round, next, .. } = taking;
    let fraction = Signal::derive(move || round.read().as_ref().map_or(0.0, so_far));
    view! {
        <CaseScreen step=Step::Rounds fraction>
            <Heading urgency round next bolus=taking.bolus />
            <StopNote step />
            <Points taking=StoredValue::new(taking) />
            <Counts round />
            <Note>
                {match urgency {
                    Urgency::Urgent => said::caution_urgent(),
                    Urgency::Planned => said::caution_planned(),
                }}
            </Note>
            <Beside taking resting />
            <SkipSheet
                open=skipping
                heading=Signal::derive(move || {
                    next.get().map(|point| said::skip_heading(urgency, point)).unwrap_or_default()
                })
                on_skip=move |reason| taking.skip(reason)
            />
            <RestSheet step open=resting round />
            <Foot slot>
                <GoButton
                    on_press=move |()| taking.press()
                    why_not=Signal::derive(move || next.get().and_then(|_| here.stopped()))
                    on_refused=Callback::new(move |()| lead(step, here))
                >
                    {move || match next.get() {
                        Some(_) => said::injected(taking.bolus.get()),
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
                                    }>{said::skip()}</QuietButton>
                                }
                            })
                    }}
                    <QuietButton on_press=move |()| {
                        step.handing.set(Some(Handing::Flags));
                    }>{said::flags()}</QuietButton>
                </Pair>
            </Foot>
        </CaseScreen>
    }
}

/// What is seldom needed in a round.
#[component]
fn Beside(taking: Taking, resting: RwSignal<bool>) -> impl IntoView {
    let Taking { next, placing, .. } = taking;
    view! {
        <Pair>
            <QuietButton on_press=move |()| {
                taking.undo();
            }>{move || taking.undo_words()}</QuietButton>
            {move || {
                next.get()
                    .is_some()
                    .then(|| {
                        view! {
                            <QuietButton on_press=move |()| {
                                resting.set(true);
                            }>{said::rest()}</QuietButton>
                        }
                    })
            }}
            <QuietButton on_press=move |()| {
                taking.ask_for_a_point();
            }>{move || if placing.get() { words_of::not_now() } else { words_of::add() }}</QuietButton>
        </Pair>
    }
}

/// How far apart the points lie: as the round's grid was laid, else as is in force.
fn spacing(case: &Case, round: Option<&Round>) -> Length {
    let grid = round.and_then(|round| round.grid.as_ref());
    grid.map_or(case.protocol.spacing, Grid::spacing)
}

/// How much of the step is done: a round's points are its middle half.
fn so_far(round: &Round) -> f64 {
    let all = f64::from(u32::try_from(round.points.len()).unwrap_or(u32::MAX).max(1));
    0.1 + 0.5 * (all - f64::from(round.open())) / all
}

/// Which point, and how much into it.
#[component]
fn Heading(
    urgency: Urgency,
    round: Memo<Option<Round>>,
    next: Memo<Option<u32>>,
    bolus: Memo<Volume>,
) -> impl IntoView {
    let here = use_here();
    let eyebrow = move || {
        let case = here.case();
        let plan = round.read().as_ref()?.plan;
        Some(match urgency {
            Urgency::Urgent => said::grid(
                case.treatment.rounds().len(),
                case.territory_of(case.treatment.rounds().len().saturating_sub(1))
                    .map(Territory::area),
                &plan,
                spacing(&case, round.read().as_ref()),
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
            " "
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

/// How much so far, how much still, from which syringe.
#[component]
fn Counts(round: Memo<Option<Round>>) -> impl IntoView {
    let here = use_here();
    let given = Memo::new(move |_| round.read().as_ref().map(Round::units).unwrap_or_default());
    let laid = Memo::new(move |_| round.read().as_ref().map(Round::volume).unwrap_or_default());
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
                label=said::given()
                number=Signal::derive(move || numbers::units(given.get()))
                unit=Some(said::units().to_owned())
                note=Signal::derive(move || Some(numbers::volume_named(laid.get())))
            />
            <Figure
                label=said::still()
                number=Signal::derive(move || numbers::units(still.get()))
                unit=Signal::derive(move || Some(said::of(total())))
                note=Signal::derive(move || Some(numbers::volume_named(volume.get())))
            />
            {move || {
                hand.get()
                    .filter(|_| open())
                    .map(|hand| {
                        view! {
                            <Figure
                                label=said::syringe_label()
                                number=said::syringe(&hand)
                                note=Some(said::change(&hand, volume.get()))
                            />
                        }
                    })
            }}
        </Figures>
        {move || {
            (open() && hand.get().is_none())
                .then(|| view! { <Note tone=Tone::Caution>{said::no_syringe()}</Note> })
        }}
        {move || {
            undrawn
                .get()
                .map(|number| {
                    view! {
                        <Note tone=Tone::Caution>{said::not_drawn(number)}</Note>
                        <QuietButton on_press=move |()| {
                            here.to(Step::Syringe);
                        }>{said::draw_next()}</QuietButton>
                    }
                })
        }}
    }
}
