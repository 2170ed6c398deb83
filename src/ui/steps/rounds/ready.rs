//! Before a round: how many points, how much, and what speaks against it.

use super::Step5;
use super::skin::NextSkin;
use super::stop::{StopNote, lead};
use crate::care::allergy::Urgency;
use crate::care::dose::{RoundPlan, Standing, planned, standing};
use crate::care::territory::Territory;
use crate::case::{Case, Event, Step};
use crate::measure::Volume;
use crate::ui::alarm;
use crate::ui::parts::{Figure, Figures, Foot, GoButton, Note, Pair, QuietButton, Title, Tone};
use crate::ui::steps::rounds::sheets::Handing;
use crate::ui::steps::{BesidesRow, CaseScreen, use_here};
use crate::ui::tap::turn;
use crate::ui::words::{self, numbers, round_screens as said, situation};
use leptos::prelude::*;

/// Before a round. Without anything that it needs it leads to the step where that is.
#[component]
pub fn Ready(step: Step5) -> impl IntoView {
    let here = use_here();
    let wanting = Memo::new(move |_| {
        let case = here.case();
        // With one syringe ready the round may begin; the others are drawn on the way.
        let stands = match case.step() {
            Step::Syringe if case.solution_for_next().is_some() => Step::Rounds,
            stands => stands,
        };
        (stands != Step::Rounds || case.next_round().is_none()).then_some(stands)
    });
    view! {
        {move || match wanting.get() {
            Some(stands) => view! { <NotYet step stands /> }.into_any(),
            None => view! { <Begin step /> }.into_any(),
        }}
    }
}

/// Another step comes first.
#[component]
fn NotYet(step: Step5, stands: Step) -> impl IntoView {
    let here = use_here();
    // Here although the plan is missing: how much is decided at the strength step.
    let to = if stands == Step::Rounds { Step::Strength } else { stands };
    view! {
        <CaseScreen step=Step::Rounds>
            <Title arrive=true>{said::not_yet()}</Title>
            <Note tone=Tone::Caution>
                {if stands == Step::Rounds {
                    said::no_plan().to_owned()
                } else {
                    said::first(words::app::step(stands))
                }}
            </Note>
            <Foot slot>
                <GoButton on_press=move |()| here.to(to)>{said::to_step()}</GoButton>
                <QuietButton on_press=move |()| {
                    step.handing.set(Some(Handing::Flags));
                }>{said::flags()}</QuietButton>
            </Foot>
        </CaseScreen>
    }
}

#[component]
fn Begin(step: Step5) -> impl IntoView {
    let here = use_here();
    let case = here.now();
    let Some(plan) = case.next_round() else { return ().into_any() };
    let urgency = case.urgency().unwrap_or(Urgency::Urgent);
    let number = case.treatment.rounds().len() + 1;
    alarm::prepare();
    let begin = move |()| {
        step.taps.once(|| {
            step.alarm.arm();
            if let Some(begin) = here.now().begin_next() {
                here.record(Event::Round(begin));
            }
        });
    };
    let eyebrow = match urgency {
        Urgency::Urgent => {
            said::grid(number, case.territory().map(Territory::area), &plan, case.protocol.spacing)
        }
        Urgency::Planned => {
            case.filler.map(|(filler, dose)| said::filler(filler, dose)).unwrap_or_default()
        }
    };
    let volume = (1..=plan.points).map(|point| case.share(&plan, point)).sum::<Volume>();
    let last = case.share(&plan, plan.points);
    let so_far = case.treatment.units();
    let area_last = number > 1;
    let baseline_open = move || {
        let case = here.case();
        urgency == Urgency::Urgent && case.treatment.looks().is_empty()
    };
    view! {
        <CaseScreen step=Step::Rounds fraction=0.1>
            <Title eyebrow=Some(eyebrow) arrive=true>
                {said::each(urgency, &plan)} ", " <em>{said::of_each(&plan, last)}</em>
                {said::of_last(&plan, last)
                    .map(|last| view! { {said::the_last()} " " <em>{last}</em> })}
            </Title>
            <StopNote step />
            <NextSkin />
            <Figures>
                <Figure
                    label=said::this_round()
                    number=numbers::units(plan.strength.units_in(volume))
                    unit=Some(said::units().to_owned())
                />
                <Figure
                    label=said::volume()
                    number=numbers::volume(volume)
                    unit=Some(said::ml().to_owned())
                />
                <Figure
                    label=said::at_each(urgency)
                    number=numbers::units(plan.units_per_point())
                    unit=Some(said::units().to_owned())
                />
                <Figure
                    label=said::strength()
                    number=numbers::strength(plan.strength)
                    unit=Some(said::per_ml().to_owned())
                />
                {area_last
                    .then(|| {
                        view! {
                            <Figure
                                label=said::so_far()
                                number=numbers::units(so_far)
                                unit=Some(said::units().to_owned())
                            />
                        }
                    })}
            </Figures>
            {cautions(&case, &plan, volume, urgency)
                .into_iter()
                .map(|text| view! { <Note tone=Tone::Caution>{text}</Note> })
                .collect_view()}
            <Note>
                {match urgency {
                    Urgency::Urgent => said::caution_urgent(),
                    Urgency::Planned => said::caution_planned(),
                }}
            </Note>
            <Baseline />
            {(urgency == Urgency::Urgent).then(|| view! { <BesidesRow /> })}
            <Foot slot>
                <GoButton
                    on_press=begin
                    why_not=Signal::derive(move || here.stopped())
                    on_refused=Callback::new(move |()| lead(step, here))
                >
                    {said::begin(urgency, number)}
                </GoButton>
                <Pair>
                    <QuietButton on_press=move |()| {
                        step.handing.set(Some(Handing::Flags));
                    }>{said::flags()}</QuietButton>
                    {move || {
                        baseline_open()
                            .then(|| {
                                view! {
                                    <QuietButton on_press=move |()| {
                                        turn(step.looking, true);
                                    }>{said::look_first()}</QuietButton>
                                }
                            })
                    }}
                </Pair>
            </Foot>
        </CaseScreen>
    }
    .into_any()
}

/// How the skin was before treatment.
#[component]
fn Baseline() -> impl IntoView {
    let here = use_here();
    move || {
        let case = here.case();
        if !case.treatment.rounds().is_empty() || case.urgency() != Some(Urgency::Urgent) {
            return None;
        }
        let text = match case.treatment.looks().last() {
            Some((_, look)) => look_words(look),
            None => case.findings.as_ref().and_then(said::findings)?,
        };
        let first = case.treatment.looks().is_empty();
        Some(view! {
            <Note heading=Some(said::baseline().to_owned())>
                <p>{text}</p>
                {first.then(|| view! { <p>{said::look_first_why()}</p> })}
            </Note>
        })
    }
}

/// A look in one line.
fn look_words(look: &crate::care::rounds::Look) -> String {
    let refill = look.refill.map(|refill| said::refill_pair(refill.affected, refill.opposite));
    let colour = situation::colour(look.colour).to_owned();
    let pain = said::pain_score(look.pain);
    refill.into_iter().chain([colour, pain]).collect::<Vec<_>>().join(" · ")
}

/// What speaks against the round as it is planned.
fn cautions(case: &Case, plan: &RoundPlan, take: Volume, urgency: Urgency) -> Vec<String> {
    let mut texts = Vec::new();
    match urgency {
        Urgency::Urgent => {
            let found = standing(plan.units(), &case.protocol);
            if found != Standing::Within {
                texts.push(said::dose_note(found, &case.protocol));
            }
        }
        Urgency::Planned => {
            if let Some((filler, dose)) = case.filler {
                let given = plan.strength.units_in(take);
                if given != dose {
                    texts.push(said::rounded(dose, given));
                }
                let range = planned(filler, plan.strength, plan.bolus, &case.protocol);
                if let Some(range) = range.filter(|range| dose < range.low || dose > range.high) {
                    texts.push(said::outside(range.low, range.high));
                }
            }
        }
    }
    if let Some(made) = &case.preparation {
        let (ready, all) = (made.syringes_ready(), made.plan.syringes().len());
        if made.next().is_some() {
            texts.push(said::part_ready(ready, all));
        }
        let hold = made.plan.delivered().volume;
        if hold < take {
            texts.push(said::short(hold, take));
        }
    }
    let looked = case.treatment.looks().last().map(|(at, _)| *at);
    if let (Some(made), Some(looked)) = (case.solution_for_next(), looked)
        && made < looked
        && !case.treatment.rounds().is_empty()
    {
        texts.push(said::made_at(made));
    }
    texts
}
