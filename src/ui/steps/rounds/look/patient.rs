//! The patient: pain, movement and feeling, and the signs that go before everything.

use super::LookWays;
use super::draft::{Draft, Part};
use crate::care::rounds::{Function, Pain};
use crate::care::situation::RedFlag;
use crate::case::Step;
use crate::measure::order;
use crate::ui::parts::{Chips, Foot, GoButton, Item, Segment, Tick, Title};
use crate::ui::steps::{CaseScreen, use_here};
use crate::ui::tap::{Taps, turn};
use crate::ui::words::{looking, round_screens as said, situation as words_of};
use leptos::prelude::*;

/// Pain, function, and the signs that go before everything.
#[component]
pub fn Patient(ways: LookWays, draft: Draft) -> impl IntoView {
    let here = use_here();
    let scores: Vec<Item<Pain>> = (Pain::NONE.score()..=Pain::WORST)
        .filter_map(Pain::new)
        .map(|pain| Item::new(pain, pain.score().to_string()))
        .collect();
    let tried = [Function::Normal, Function::Impaired]
        .map(|tried| Item::new(tried, words_of::function(tried)));
    let flags = [RedFlag::Sight, RedFlag::Stroke, RedFlag::Airway]
        .map(|flag| Item::new(flag, words_of::red_flag(flag)).danger());
    let why_not =
        Signal::derive(move || draft.pain.get().is_none().then(|| said::pain_missing().to_owned()));
    let taps = Taps::new();
    let record = Callback::new(move |()| {
        if let Some(look) = draft.look(here) {
            taps.once(|| ways.record.run(look));
        }
    });
    view! {
        <CaseScreen
            step=Step::Rounds
            fraction=0.85
            rail=ways.rail
            back=Callback::new(move |()| turn(draft.part, Part::Skin))
        >
            <Title arrive=true>{said::look_person()}</Title>
            // One tap for a score, and none until it was asked.
            <Chips
                legend=said::pain()
                items=scores
                value=Signal::derive(move || draft.pain.get().into_iter().collect())
                on_change=move |(pain, on): (Pain, bool)| draft.pain.set(on.then_some(pain))
            />
            <Tick
                legend=said::any_of_these()
                items=flags.to_vec()
                value=draft.flags
                on_change=move |(flag, on): (RedFlag, bool)| {
                    draft.flags.update(|flags| {
                        flags.retain(|other| *other != flag);
                        if on {
                            flags.push(flag);
                        }
                        order::sort(flags);
                    });
                }
            />
            <Segment
                legend=looking::function()
                items=tried.to_vec()
                value=draft.function
                on_choose=move |tried| draft.function.set(Some(tried))
            />
            <Foot slot>
                <GoButton on_press=record why_not>
                    {said::take_down()}
                </GoButton>
            </Foot>
        </CaseScreen>
    }
}
