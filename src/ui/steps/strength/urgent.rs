//! The round of an occlusion: where, then everything else follows and can be changed.

use super::drawn::Drawing;
use super::equipment::Equipment;
use super::offers::Strengths;
use super::round::{Evidence, GridFields, RoundFigures};
use super::territory::{SizeFields, Skin, Zones};
use super::vials::Supplies;
use super::ways::{CannotMake, ChosenWay, OtherWays, Ways, why_not};
use crate::care::dilution::Wanted;
use crate::care::dose::{Standing, Urgent, urgent};
use crate::care::territory::Territory;
use crate::case::{Case, Event, Overridden, Step};
use crate::protocol::Id;
use crate::ui::parts::{Foot, GoButton, Note, Title, Tone};
use crate::ui::steps::{CaseScreen, ReasonSheet, use_here};
use crate::ui::words::strength as said;
use crate::ui::words::{self, rounds};
use leptos::prelude::*;

/// One round of an occlusion.
#[component]
pub fn UrgentDose() -> impl IntoView {
    let here = use_here();
    let before = here.now();
    let skin = Skin::of(before.territory());
    let earlier = before.preparation.as_ref().map(|made| &made.plan);
    let vials = RwSignal::new(before.vials_left());
    let territory = Memo::new(move |_| skin.read(&here.case().protocol));
    let method = earlier.map(|plan| plan.method().clone());
    let ways = Ways::of(here, vials, method, move |protocol| {
        let skin = territory.get().ok()?;
        let plan = urgent(&skin, protocol.urgent_strength, protocol).plan;
        Some((protocol.urgent_strength, Wanted::Volume(plan.volume())))
    });
    let dose = Memo::new(move |_| -> Option<Urgent> {
        let case = here.case();
        let strength = ways.chosen.get().map(|plan| plan.strength());
        let strength = strength.unwrap_or(case.protocol.urgent_strength);
        Some(urgent(&territory.get().ok()?, strength, &case.protocol))
    });
    let otherwise = RwSignal::new(false);
    let make = move || {
        let (Ok(skin), Some(plan)) = (territory.get_untracked(), ways.chosen.get_untracked())
        else {
            return;
        };
        if here.now().territory() != Some(&skin) {
            here.record(Event::Territory(skin));
        }
        super::prepare(here, plan);
    };
    let press = move |()| {
        let outside = dose
            .get_untracked()
            .is_some_and(|dose| outside(&dose) && !overridden(&here.now(), &dose));
        if outside {
            otherwise.set(true);
        } else {
            make();
        }
    };
    let missing = Signal::derive(move || {
        let case = here.case();
        match territory.get() {
            Err(words) => Some(words),
            Ok(skin_told) if skin.unsure(&skin_told, &case.protocol) => {
                Some(said::confirm_size().to_owned())
            }
            Ok(_) => ways.blocked().map(why_not).or_else(|| ways.mixed(&case)),
        }
    });
    let against = Signal::derive(move || {
        dose.get().map_or_else(String::new, |dose| {
            let standing = rounds::standing(dose.standing, &here.case().protocol);
            said::outside(&standing, dose.by_grid)
        })
    });
    let eyebrow = Signal::derive(move || {
        let case = here.case();
        Some(said::round(case.treatment.rounds().len() + 1, case.treatment.units()))
    });
    view! {
        <CaseScreen step=Step::Strength fraction=0.5>
            <Title eyebrow arrive=true>{said::zones()}</Title>
            <Where skin territory />
            // The dose stands right under the zones, in sight together with the button.
            {move || {
                let area = territory.get().ok()?.area();
                dose.get().map(|dose| view! { <RoundFigures dose area /> })
            }}
            <details class="more" open=skin.typed()>
                <summary>{said::size()}</summary>
                <SizeFields skin territory />
            </details>
            <CannotMake ways id=Id::UrgentStrength />
            <Show when=move || territory.read().is_ok()>
                <Making dose ways vials />
            </Show>
            <Equipment />
            <Evidence />
            <p class="follow">{words::app::follow()}</p>
            <ReasonSheet
                open=otherwise
                what=Overridden::Dose
                against
                then=move |()| make()
            />
            <Foot slot>
                <GoButton on_press=press why_not=missing>
                    {move || {
                        ways.chosen
                            .get()
                            .map_or_else(|| said::make_label().to_owned(), |plan| said::make(plan.strength()))
                    }}
                </GoButton>
            </Foot>
        </CaseScreen>
    }
}

/// The zones and the drawing: what was drawn stands before the names; else these are the question.
#[component]
fn Where(skin: Skin, territory: Memo<Result<Territory, String>>) -> impl IntoView {
    let drawn = Memo::new(move |_| skin.drawn().is_some());
    let zones = if drawn.get_untracked() {
        view! {
            <details class="more">
                <summary>{said::which_zones()}</summary>
                <Zones skin />
            </details>
        }
        .into_any()
    } else {
        view! { <Zones skin /> }.into_any()
    };
    view! {
        {move || drawn.get().then(|| view! { <Drawing skin territory /> })}
        {zones}
        {move || (!drawn.get()).then(|| view! { <Drawing skin territory /> })}
    }
}

/// How the round is made: strength, way, vials, grid.
#[component]
fn Making(dose: Memo<Option<Urgent>>, ways: Ways, vials: RwSignal<Option<u32>>) -> impl IntoView {
    let units = Signal::derive(move || dose.get().map(|dose| dose.by_grid));
    view! {
        <Strengths id=Id::UrgentStrength />
        <ChosenWay ways />
        <Cautions dose ways />
        <Supplies ways vials dose=units />
        <OtherWays ways />
        <GridFields />
    }
}

/// What the syringe cannot do, and what is left out.
#[component]
fn Cautions(dose: Memo<Option<Urgent>>, ways: Ways) -> impl IntoView {
    let less = move || {
        let (plan, dose) = ways.chosen.get().zip(dose.get())?;
        ways.less().then(|| {
            let words = said::part_of_it(&plan, dose.plan.volume());
            view! { <Note tone=Tone::Caution>{words}</Note> }
        })
    };
    view! {
        {less}
        <MarkOfPoint ways />
    }
}

/// That the syringe has no mark at the volume of each point.
#[component]
pub fn MarkOfPoint(ways: Ways) -> impl IntoView {
    let here = use_here();
    view! {
        {move || {
            let bolus = here.case().protocol.bolus;
            let plan = ways.chosen.get()?;
            (!plan.ask().syringe.has_mark(bolus))
                .then(|| view! { <Note tone=Tone::Caution>{said::no_mark(bolus)}</Note> })
        }}
    }
}

/// Whether a reason is asked for.
fn outside(dose: &Urgent) -> bool {
    matches!(dose.standing, Standing::BelowConsensus | Standing::Above)
}

/// Whether the same dose was overridden before: the next round of it is not asked about again.
fn overridden(case: &Case, dose: &Urgent) -> bool {
    case.overrode(Overridden::Dose)
        && case.treatment.rounds().last().is_some_and(|round| round.plan == dose.plan)
}
