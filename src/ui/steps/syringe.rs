//! Step 4: the solution, one movement a screen, then a label for each syringe; and the vials that
//! nobody noted, of a closed case too.

mod label;
mod movement;
mod picture;
mod sheets;
mod unnoted;
mod walk;

use super::{CaseScreen, use_here};
use crate::case::Step;
use crate::ui::parts::{Figure, Figures, Foot, GoButton, Note, QuietButton, Title};
use crate::ui::tap::{Taps, turn};
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
    let open = Memo::new(move |_| here.case().open());
    view! {
        {move || match at.get() {
            // Nothing more is made in a closed case, but what was opened in it can still be noted.
            _ if !open.get() => view! { <unnoted::Afterwards /> }.into_any(),
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
            <Title arrive=true>{said::nothing_to_make()}</Title>
            <Note>{said::choose_first()}</Note>
            <Foot slot>
                <GoButton on_press=move |()| here.to(Step::Strength)>{said::to_strength()}</GoButton>
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
                    unit=Some(said::units_per_ml().to_owned())
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
            back=Callback::new(move |()| turn(looking, last))
        >
            <Title arrive=true>{said::all_ready()}</Title>
            {syringes}
            <Note>{said::discard()}</Note>
            <unnoted::Unnoted in_hand=true />
            <QuietButton on_press=move |()| turn(looking, last)>{said::look_back()}</QuietButton>
            <QuietButton on_press=move |()| {
                here.to(Step::Strength);
            }>{said::not_what_i_have()}</QuietButton>
            <Foot slot>
                <GoButton on_press=move |()| here.to(Step::Rounds)>{said::to_rounds()}</GoButton>
            </Foot>
        </CaseScreen>
    }
}
