//! The label of a finished syringe.

use super::movement::noted;
use super::sheets::{CheckSheet, VialSheet};
use super::walk::{Walk, take_back};
use crate::care::dilution::Contents;
use crate::case::{Event, Step};
use crate::measure::Strength;
use crate::phone::use_now;
use crate::ui::parts::{Figure, Figures, Foot, GoButton, Note, Pair, QuietButton, Title, Why};
use crate::ui::steps::{CaseScreen, use_here};
use crate::ui::tap::{Taps, turn};
use crate::ui::words::{self, numbers, syringe as said, time};
use leptos::prelude::*;

/// What to write on a syringe.
#[component]
pub fn LabelScreen(
    walk: Memo<Option<Walk>>,
    looking: RwSignal<Option<u32>>,
    taps: Taps,
    index: u32,
    /// Which syringe, from 1.
    syringe: u32,
    /// Whether it was set aside, and is only looked at.
    done: bool,
) -> impl IntoView {
    let here = use_here();
    let shown = walk.get_untracked()?;
    let contents = shown.stage(index)?.syringe.before;
    let syringes = shown.plan.syringes().len();
    let last = shown.last() == Some(index);
    let vial = shown.vial_before(index);
    let (checking, noting) = (RwSignal::new(false), RwSignal::new(false));
    let made = move |inject: bool| {
        here.record_then(Event::Drew(index), move || {
            if inject { here.to(Step::Rounds) } else { looking.set(None) }
        });
    };
    let press = move |()| taps.once(|| if done { turn(looking, None) } else { made(last) });
    let by = move || {
        let walk = walk.read();
        walk.as_ref().and_then(|walk| walk.checked.get(&index)).map(|by| said::checked_by(by))
    };
    let standing = shown.standing_on(index);
    let fraction = Signal::derive(move || walk.read().as_ref().map_or(0.0, Walk::fraction));
    Some(view! {
        <CaseScreen
            step=Step::Syringe
            fraction
            back=Callback::new(move |()| turn(looking, index.checked_sub(1)))
        >
            <Title eyebrow=Some(said::ready(syringe, syringes)) arrive=true>
                {said::write_label()}
            </Title>
            <Label walk index strength=shown.plan.strength() contents by=Signal::derive(by) />
            {vial
                .map(|number| {
                    view! {
                        <QuietButton on_press=move |()| {
                            noting.set(true);
                        }>{move || noted(walk, number)}</QuietButton>
                        <VialSheet open=noting solution=None number />
                    }
                })}
            <Note>{said::discard()}</Note>
            <Why summary=said::why_at_once() findings=said::losses()>
                <p>{said::at_once()}</p>
            </Why>
            <p class="follow">{words::app::follow()}</p>
            {done
                .then(|| {
                    view! {
                        <QuietButton on_press=move |()| {
                            take_back(here, standing.clone(), move || looking.set(None));
                        }>{said::take_back()}</QuietButton>
                    }
                })}
            <CheckSheet open=checking index />
            <Foot slot>
                <GoButton on_press=press>
                    {if done {
                        said::onward()
                    } else if last {
                        said::all_ready()
                    } else {
                        said::labelled()
                    }}
                </GoButton>
                <Pair>
                    <QuietButton on_press=move |()| checking.set(true)>
                        {move || by().unwrap_or_else(|| said::check().to_owned())}
                    </QuietButton>
                    {(!last)
                        .then(|| {
                            view! {
                                <QuietButton on_press=move |()| {
                                    taps.once(|| if done { here.to(Step::Rounds) } else { made(true) });
                                }>{said::inject_first()}</QuietButton>
                            }
                        })}
                </Pair>
            </Foot>
        </CaseScreen>
    })
}

/// The text of the label, large enough to be copied from arm's length.
#[component]
fn Label(
    walk: Memo<Option<Walk>>,
    index: u32,
    strength: Strength,
    contents: Contents,
    /// Who checked it.
    by: Signal<Option<String>>,
) -> impl IntoView {
    let now = use_now();
    let here = use_here();
    // Made when its last movement was; before that is known, now.
    let made_at = move || {
        let walk = walk.read();
        let before = index.checked_sub(1).and_then(|before| walk.as_ref()?.made_at(before));
        time::hour(before.unwrap_or_else(|| now.get()))
    };
    let batches = move || {
        let walk = walk.read();
        said::batches(&walk.as_ref().map(Walk::batches).unwrap_or_default())
    };
    let unit = |unit: &str| Some(unit.to_owned());
    view! {
        <Figures>
            <Figure
                label=said::drug()
                number=numbers::strength(strength)
                unit=unit(said::units_per_ml())
                note=Signal::derive(move || Some(words::dilution::diluent(here.case().diluent)))
                wide=true
            />
            <Figure
                label=said::volume()
                number=numbers::volume(contents.volume)
                unit=unit(said::ml())
            />
            <Figure
                label=said::in_all()
                number=numbers::units(contents.units)
                unit=unit(said::units())
            />
            <Figure label=said::made_at() number=Signal::derive(made_at) />
            <Figure label=said::use_label() number=said::at_once_label() />
            <Figure label=said::batch() number=Signal::derive(batches) />
            <Figure label=said::made_by() number=said::sign_here() note=by />
        </Figures>
    }
}
