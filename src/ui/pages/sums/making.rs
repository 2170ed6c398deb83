//! The strength is known: how is it made on the marks of the syringe in the hand?

use super::inputs::{Ask, Field, Inputs};
use super::refuse;
use super::syringe::{Picker, SyringeRow};
use crate::care::dilution::{self, Impossible, Plan, plans, strength_of, units_in_nozzle};
use crate::measure::{Strength, Units};
use crate::protocol::diluent::Diluent;
use crate::ui::parts::{Entry, Figure, Figures, Note, Row, Rows, Timeline, Tone, Why};
use crate::ui::words::dilution as way;
use crate::ui::words::{numbers, sums as said};
use leptos::prelude::*;

/// Strength and dose to the movements.
#[component]
pub fn Making(inputs: Inputs) -> impl IntoView {
    let picking = RwSignal::new(false);
    let found = Memo::new(move |_| -> Option<Result<Vec<Plan>, Impossible>> {
        let units = inputs.get::<Units>(Ask::Vial)?;
        let target = inputs.get::<Strength>(Ask::Target)?;
        let dose = inputs.get::<Units>(Ask::Dose)?;
        let syringe = inputs.syringe().ok()?;
        let vial = dilution::Vial { units, holds: inputs.protocol().vial_holds };
        Some(plans(&dilution::Ask::dose(vial, None, target, dose, syringe)))
    });
    let chosen = RwSignal::new(0_usize);
    // Another ask has other ways: the best one is shown first.
    Effect::new(move |_| {
        found.track();
        chosen.set(0);
    });
    let unfit = move || inputs.syringe().err().map(way::unfit);
    let target_slip = move || refuse::strength_slip(inputs.get(Ask::Target), &inputs.protocol());
    view! {
        <Field<Strength>
            ask=Ask::Target
            inputs
            label=said::target()
            unit=said::per_ml()
            refuse=refuse::strength
        />
        {move || target_slip().map(|asked| view! { <Note tone=Tone::Caution>{asked}</Note> })}
        <Field<Units> ask=Ask::Dose inputs label=said::dose() unit=said::units() />
        <Field<Units>
            ask=Ask::Vial
            inputs
            label=said::vial()
            unit=said::units()
            hint=Signal::derive(move || Some(said::vial_holds(inputs.protocol().vial_holds)))
            refuse=refuse::vial
        />
        <SyringeRow inputs picking />
        <Picker inputs picking />
        <section aria-live="polite">
            {move || match (unfit(), found.get()) {
                (Some(unfit), _) => view! { <Note tone=Tone::Caution>{unfit}</Note> }.into_any(),
                (None, None) => view! { <p class="hint">{said::type_dose()}</p> }.into_any(),
                (None, Some(Err(impossible))) => {
                    view! { <Note tone=Tone::Caution>{way::impossible(impossible)}</Note> }.into_any()
                }
                (None, Some(Ok(plans))) => view! { <Ways plans chosen /> }.into_any(),
            }}
        </section>
    }
}

/// The way chosen, whole, and the others to choose instead.
#[component]
fn Ways(plans: Vec<Plan>, chosen: RwSignal<usize>) -> impl IntoView {
    let all = StoredValue::new(plans);
    move || {
        let at = chosen.get().min(all.with_value(Vec::len).saturating_sub(1));
        let plan = all.with_value(|plans| plans.get(at).cloned())?;
        let others = all.with_value(|plans| {
            let others = plans.iter().enumerate().filter(|(place, _)| *place != at);
            others
                .map(|(place, plan)| {
                    view! {
                        <Row
                            label=way::method(plan.method())
                            detail=Some(way::figures(plan))
                            on_press=move |()| chosen.set(place)
                        />
                    }
                })
                .collect::<Vec<_>>()
        });
        let best = (at == 0).then_some(said::show_way());
        Some(view! {
            <Shown plan best />
            {(!others.is_empty())
                .then(|| {
                    view! {
                        <h2>{said::others()}</h2>
                        <Rows>{others}</Rows>
                    }
                })}
        })
    }
}

/// One way: what comes of it, and each movement.
#[component]
fn Shown(plan: Plan, best: Option<&'static str>) -> impl IntoView {
    let delivered = plan.delivered();
    let ask = *plan.ask();
    let expected = *plan.expected();
    let mixes = plan.movements().iter().any(|m| matches!(m, dilution::Movement::MakeUp { .. }));
    let nozzle = strength_of(ask.vial.units, 1, plan.method().diluent())
        .filter(|_| mixes)
        .map(|stock| way::nozzle(ask.syringe.dead_space(), units_in_nozzle(stock, ask.syringe)));
    let vials = plan.vials_used();
    let entries: Vec<Entry> = plan
        .movements()
        .iter()
        .enumerate()
        .map(|(place, movement)| Entry {
            key: place.to_string(),
            time: said::place(place + 1),
            text: way::movement(*movement, vials, Diluent::default()),
            detail: way::with_it(*movement, Diluent::default()),
            struck: None,
        })
        .collect();
    let reasons = way::reasons(&plan);
    let heading = best.unwrap_or(said::result());
    let (strength, nearness) = (plan.strength(), said::nearness(&plan));
    let (syringes, unused) = (plan.syringes().len(), plan.waste().total());
    view! {
        <h2>{heading}</h2>
        <p>{way::method(plan.method())}</p>
        {reasons.map(|reasons| view! { <p class="hint">{reasons}</p> })}
        <Figures>
            <Figure
                label=said::strength()
                number=numbers::strength(strength)
                unit=Some(said::per_ml().to_owned())
                note=Some(nearness)
                wide=true
            />
            <Figure label=said::vials_opened() number=vials.to_string() />
            <Figure label=said::syringes_label() number=syringes.to_string() />
            <Figure
                label=said::delivers()
                number=numbers::units(delivered.units)
                unit=Some(said::units().to_owned())
                note=Some(said::in_volume(delivered.volume))
            />
            <Figure
                label=said::unused()
                number=numbers::units(unused)
                unit=Some(said::units().to_owned())
            />
            <Figure
                label=way::expected()
                number=said::strengths(expected.both.low, expected.both.high)
                unit=Some(said::per_ml().to_owned())
                wide=true
            />
        </Figures>
        <Why summary=way::why_expected() findings=way::causes(&expected, strength) />
        {nozzle.map(|words| view! { <Note tone=Tone::Caution>{words}</Note> })}
        <h2>{said::movements()}</h2>
        <Timeline entries=entries />
        <Note tone=Tone::Caution>{said::check()}</Note>
    }
}
