//! Step 4: the solution, one movement a screen, then a label for each syringe.

mod label;
mod movement;
mod picture;
mod sheets;
mod walk;

use super::{CaseScreen, use_here};
use crate::case::Step;
use crate::ui::parts::{Figure, Figures, Foot, GoButton, Note, QuietButton, Title, Tone};
use crate::ui::tap::Taps;
use crate::ui::words::{self, syringe as said};
use leptos::prelude::*;
use walk::{At, Walk, use_walk};

/// Step 4.
#[component]
pub fn Syringe() -> impl IntoView {
    let here = use_here();
    // Another movement than the next one, looked at again.
    let looking = RwSignal::new(None::<u32>);
    let walk = use_walk(here);
    // The next movement's button comes under the same finger. The first one too: it comes where the
    // strength's button was.
    let taps = Taps::new();
    taps.once(|| ());
    let at = Memo::new(move |_| walk.read().as_ref().map(|walk| walk.at(looking.get())));
    view! {
        {move || match at.get() {
            None => view! { <NothingToMake /> }.into_any(),
            Some(At::Ready) => view! { <Ready walk looking /> }.into_any(),
            Some(At::Movement { index, done }) => {
                view! { <movement::MovementScreen walk looking taps index done /> }.into_any()
            }
            Some(At::Label { index, syringe, done }) => {
                view! { <label::LabelScreen walk looking taps index syringe done /> }.into_any()
            }
        }}
    }
}

/// No strength was chosen yet.
#[component]
fn NothingToMake() -> impl IntoView {
    let here = use_here();
    view! {
        <CaseScreen step=Step::Syringe>
            <Title arrive=true>{said::NOTHING_TO_MAKE}</Title>
            <Note>{said::CHOOSE_FIRST}</Note>
            <Foot slot>
                <GoButton on_press=move |()| here.to(Step::Strength)>{said::TO_STRENGTH}</GoButton>
            </Foot>
        </CaseScreen>
    }
}

/// Every syringe is filled and labelled.
#[component]
fn Ready(walk: Memo<Option<Walk>>, looking: RwSignal<Option<u32>>) -> impl IntoView {
    let here = use_here();
    let last = walk.read_untracked().as_ref().and_then(Walk::last);
    let syringes = move || {
        let walk = walk.get()?;
        let figure = |(place, contents): (usize, &_)| {
            view! {
                <Figure
                    label=said::syringe(place + 1)
                    number=words::numbers::strength(walk.plan.strength())
                    unit=Some(said::UNITS_PER_ML.to_owned())
                    note=Some(said::contents(*contents))
                />
            }
        };
        let figures = walk.plan.syringes().iter().enumerate().map(figure).collect_view();
        Some(view! { <Figures>{figures}</Figures> })
    };
    view! {
        <CaseScreen
            step=Step::Syringe
            fraction=1.0
            back=Callback::new(move |()| looking.set(last))
        >
            <Title arrive=true>{said::ALL_READY}</Title>
            {syringes}
            <Note>{said::DISCARD}</Note>
            <Unnoted walk />
            <QuietButton on_press=move |()| looking.set(last)>{said::LOOK_BACK}</QuietButton>
            <QuietButton on_press=move |()| {
                here.to(Step::Strength);
            }>{said::NOT_WHAT_I_HAVE}</QuietButton>
            <Foot slot>
                <GoButton on_press=move |()| here.to(Step::Rounds)>{said::TO_ROUNDS}</GoButton>
            </Foot>
        </CaseScreen>
    }
}

/// Vials opened whose batch nobody noted: it can be done now or later, after the hours too.
#[component]
fn Unnoted(walk: Memo<Option<Walk>>) -> impl IntoView {
    let here = use_here();
    let unnoted = Memo::new(move |_| {
        let held = here.held();
        held.case.unnoted(&held.journal)
    });
    let open = RwSignal::new(false);
    let chosen = RwSignal::new(None::<u32>);
    let button = move |number: u32| {
        let press = move |()| {
            chosen.set(Some(number));
            open.set(true);
        };
        view! { <QuietButton on_press=press>{said::vial_notes(number)}</QuietButton> }
    };
    view! {
        {move || {
            let unnoted = unnoted.get();
            (unnoted.count() > 0)
                .then(|| {
                    let earlier = (unnoted.earlier > 0).then(|| said::earlier(unnoted.earlier));
                    view! {
                        <Note tone=Tone::Caution heading=Some(said::unnoted(unnoted.count()))>
                            {said::NOTE_LATER}
                            {earlier.map(|words| view! { <p>{words}</p> })}
                        </Note>
                        {unnoted.in_hand.into_iter().map(button).collect_view()}
                    }
                })
        }}
        {move || {
            chosen.get().map(|number| view! { <sheets::VialSheet open walk number /> })
        }}
    }
}
