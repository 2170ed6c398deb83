//! One movement of the plunger.

use super::picture::{SyringePicture, VialPicture};
use super::sheets::{CheckSheet, VialSheet};
use super::unnoted::Unnoted;
use super::walk::{Walk, take_back};
use crate::care::dilution::{Contents, Movement, Stage, units_in_nozzle};
use crate::case::{Event, Overridden, Step};
use crate::measure::{Date, Strength};
use crate::ui::parts::{
    DangerButton, Figure, Figures, Foot, GoButton, Note, Pair, QuietButton, Title, Tone, Why,
};
use crate::ui::steps::{CaseScreen, ReasonSheet, use_here};
use crate::ui::tap::{Taps, turn};
use crate::ui::words::{dilution as words_of, numbers, syringe as said};
use leptos::prelude::*;

/// A movement: the next one, or one looked at again.
#[component]
pub fn MovementScreen(
    walk: Memo<Option<Walk>>,
    looking: RwSignal<Option<u32>>,
    taps: Taps,
    index: u32,
    /// Whether it was made, and is only looked at.
    done: bool,
) -> impl IntoView {
    let here = use_here();
    let shown = walk.get_untracked()?;
    let stage = *shown.stage(index)?;
    let movement = stage.movement;
    // What goes into the vial is looked at there; what comes out of it, in the syringe.
    let into = matches!(movement, Movement::Dissolve { .. });
    // Before diluent is added, the caution about the nozzle; after it, how to mix.
    let added = matches!(movement, Movement::MakeUp { .. });
    let with_it = move || {
        words_of::with_it(movement, here.case().diluent).map(|words| view! { <p>{words}</p> })
    };
    let with_vial = shown.clone();
    let vials = shown.plan.vials_used();
    let (place, places) = shown.place(index);
    let syringes = shown.plan.syringes().len();
    let eyebrow = said::place(place, places, stage.totals.syringes + 1, syringes);
    let eyebrow = if done {
        format!("{eyebrow} · {}", said::done_at(shown.made_at(index)))
    } else {
        eyebrow
    };
    let vial = shown.vial_at(index);
    let expired = Memo::new(move |_| {
        let last = walk.read().as_ref()?.expired(vial?)?;
        vial.zip(Some(last)).filter(|_| !done)
    });
    let (checking, noting) = (RwSignal::new(false), RwSignal::new(false));
    let made = move || {
        here.record_then(Event::Drew(index), move || looking.set(None));
    };
    let press = move |()| taps.once(|| if done { turn(looking, None) } else { made() });
    let fraction = Signal::derive(move || walk.read().as_ref().map_or(0.0, Walk::fraction));
    let back = Callback::new(move |()| match index.checked_sub(1) {
        Some(before) => turn(looking, Some(before)),
        None => here.to(Step::Strength),
    });
    Some(view! {
        <CaseScreen step=Step::Syringe fraction back>
            <Title eyebrow=Some(eyebrow) arrive=true>
                {words_of::order(movement, vials, here.now().diluent)}
                {movement.mark().map(|mark| view! { " " <em>{numbers::volume_named(mark)}</em> })}
            </Title>
            <Expired expired noting />
            {(!added).then(with_it)}
            {into.then(|| view! { <VialPicture walk=with_vial.clone() index /> })}
            <SyringePicture walk=shown.clone() index />
            <Cautions walk=shown.clone() stage />
            {added.then(with_it)}
            <Now stage />
            <Range walk=shown.clone() stage />
            {(!into).then(|| view! { <VialPicture walk=with_vial.clone() index /> })}
            <Others walk looking index />
            <Unnoted in_hand=false />
            <CheckSheet open=checking index />
            {vial.map(|number| view! { <VialSheet open=noting solution=None number /> })}
            <Foot slot>
                <GoButton
                    on_press=press
                    why_not=Signal::derive(move || {
                        expired.get().map(|(_, last)| said::expired_short(last))
                    })
                >
                    {if done { said::onward().to_owned() } else { words_of::made(movement) }}
                </GoButton>
                <Pair>
                    <QuietButton on_press=move |()| checking.set(true)>
                        {move || checked(walk, index)}
                    </QuietButton>
                    {vial
                        .map(|number| {
                            view! {
                                <QuietButton on_press=move |()| {
                                    noting.set(true);
                                }>{move || noted(walk, number)}</QuietButton>
                            }
                        })}
                </Pair>
            </Foot>
        </CaseScreen>
    })
}

/// A vial past its expiry: another, or a reason.
#[component]
fn Expired(expired: Memo<Option<(u32, Date)>>, noting: RwSignal<bool>) -> impl IntoView {
    let otherwise = RwSignal::new(false);
    let against = Signal::derive(move || {
        expired.get().map_or_else(String::new, |(_, last)| said::expired_short(last))
    });
    let stopped = move |(number, last)| {
        view! {
            <Note tone=Tone::Danger alert=true>{said::expired(number, last)}</Note>
            <Pair>
                <QuietButton on_press=move |()| noting.set(true)>{said::another_vial()}</QuietButton>
                <DangerButton on_press=move |()| otherwise.set(true)>{said::use_expired()}</DangerButton>
            </Pair>
        }
    };
    view! {
        {move || expired.get().map(stopped)}
        <ReasonSheet open=otherwise what=Overridden::Expired against then=move |()| () />
    }
}

fn checked(walk: Memo<Option<Walk>>, index: u32) -> String {
    let walk = walk.read();
    let by = walk.as_ref().and_then(|walk| walk.checked.get(&index));
    by.map_or_else(|| said::check().to_owned(), |by| said::checked_by(by))
}

/// The words on the button of a vial.
pub fn noted(walk: Memo<Option<Walk>>, number: u32) -> String {
    let walk = walk.read();
    let vial = walk.as_ref().and_then(|walk| walk.vials.get(&number));
    vial.map_or_else(|| said::vial_notes(number), |vial| said::vial_noted(number, &vial.batch))
}

/// What is in the syringe, or in the vial, once the movement is made.
#[component]
fn Now(stage: Stage) -> impl IntoView {
    let (label, contents): (&str, Contents) = match (stage.movement, stage.vial) {
        (Movement::Dissolve { .. }, Some((_, change))) => (said::in_vial(), change.after),
        _ => (said::in_syringe(), stage.syringe.after),
    };
    let strength = Strength::of(contents.units, contents.volume).filter(|now| !now.is_zero());
    let unit = |unit: &str| Some(unit.to_owned());
    view! {
        <Figures>
            {match strength {
                None => {
                    view! {
                        <Figure
                            label=label
                            number=numbers::volume(contents.volume)
                            unit=unit(said::ml())
                            note=unit(said::only_diluent())
                        />
                    }
                        .into_any()
                }
                Some(strength) => {
                    view! {
                        <Figure
                            label=label
                            number=numbers::units(contents.units)
                            unit=unit(said::units())
                        />
                        <Figure
                            label=said::strength_now()
                            number=numbers::strength(strength)
                            unit=unit(said::units_per_ml())
                        />
                    }
                        .into_any()
                }
            }}
        </Figures>
    }
}

/// How far the strength may lie from the one computed, once it is decided by what was drawn.
#[component]
fn Range(walk: Walk, stage: Stage) -> impl IntoView {
    let drawn = matches!(
        stage.movement,
        Movement::DrawFromVial { .. } | Movement::MakeUp { .. } | Movement::Expel { .. }
    );
    drawn.then(|| {
        let expected = walk.plan.expected();
        let findings = words_of::causes(expected, walk.plan.strength());
        view! {
            <div class="range">
                <p>{words_of::when_ready(&walk.plan)}</p>
                <Why summary=words_of::why_expected() findings />
            </div>
        }
    })
}

/// What can go wrong with this very movement.
#[component]
fn Cautions(walk: Walk, stage: Stage) -> impl IntoView {
    let syringe = walk.plan.ask().syringe;
    let before = Strength::of(stage.syringe.before.units, stage.syringe.before.volume);
    let nozzle = match (stage.movement, before) {
        (Movement::MakeUp { .. }, Some(before)) => {
            Some(words_of::nozzle(syringe.dead_space(), units_in_nozzle(before, syringe)))
        }
        _ => None,
    };
    nozzle.map(|words| view! { <Note tone=Tone::Caution>{words}</Note> })
}

/// What else can be done here: take it back, inject first, choose other things.
#[component]
fn Others(walk: Memo<Option<Walk>>, looking: RwSignal<Option<u32>>, index: u32) -> impl IntoView {
    let here = use_here();
    let back = move || {
        let standing = walk.read().as_ref()?.standing_on(index);
        (walk.read().as_ref()?.is_done(index)).then(|| {
            let words = (standing.len() > 1).then(|| said::taken_back(standing.len()));
            view! {
                <QuietButton on_press=move |()| {
                    take_back(here, standing.clone(), move || looking.set(None));
                }>{said::take_back()}</QuietButton>
                {words.map(|words| view! { <p class="hint">{words}</p> })}
            }
        })
    };
    view! {
        {back}
        <Show when=move || walk.read().as_ref().is_some_and(Walk::one_ready)>
            <QuietButton on_press=move |()| here.to(Step::Rounds)>{said::inject_first()}</QuietButton>
        </Show>
        <QuietButton on_press=move |()| {
            here.to(Step::Strength);
        }>{said::not_what_i_have()}</QuietButton>
    }
}
