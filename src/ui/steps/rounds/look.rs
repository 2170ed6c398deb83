//! Looking: the skin, then the patient. Nothing is recorded before the end.

use super::Step5;
use super::sheets::Handing;
use crate::care::refill::{Colour, Refill, judge};
use crate::care::rounds::{Act, HandOver, Look, Pain};
use crate::care::situation::RedFlag;
use crate::case::{Event, Step};
use crate::measure::Span;
use crate::ui::parts::{Chips, Choice, Foot, GoButton, Item, Note, QuantityField, Tick, Title};
use crate::ui::steps::{CaseScreen, use_here};
use crate::ui::words::app::situation as fields;
use crate::ui::words::{self, round_screens as said, situation as words_of, typed};
use leptos::prelude::*;

/// What is being taken down.
#[derive(Clone, Copy)]
struct Draft {
    person: RwSignal<bool>,
    affected: RwSignal<String>,
    opposite: RwSignal<String>,
    colour: RwSignal<Option<Colour>>,
    /// Not asked yet is not the same as none.
    pain: RwSignal<Option<Pain>>,
    flags: RwSignal<Vec<RedFlag>>,
}

impl Draft {
    /// Both readings, or what is wrong with them.
    fn refill(self) -> Result<Option<Refill>, String> {
        let affected = typed::field::<Span>(&self.affected.read())?;
        let opposite = typed::field::<Span>(&self.opposite.read())?;
        match (affected, opposite) {
            (Some(affected), opposite) => Ok(Some(Refill { affected, opposite })),
            (None, Some(_)) => Err(said::AFFECTED_MISSING.to_owned()),
            (None, None) => Ok(None),
        }
    }
}

/// A look being taken down.
#[component]
pub fn Looking(step: Step5) -> impl IntoView {
    let draft = Draft {
        person: RwSignal::new(false),
        affected: RwSignal::new(String::new()),
        opposite: RwSignal::new(String::new()),
        colour: RwSignal::new(None),
        pain: RwSignal::new(None),
        flags: RwSignal::new(Vec::new()),
    };
    move || {
        if draft.person.get() {
            view! { <Patient step draft /> }.into_any()
        } else {
            view! { <Skin step draft /> }.into_any()
        }
    }
}

/// Refill and colour.
#[component]
fn Skin(step: Step5, draft: Draft) -> impl IntoView {
    let here = use_here();
    let colours = words_of::COLOURS.map(|colour| Item::new(colour, words_of::colour(colour)));
    let error =
        |text: RwSignal<String>| Signal::derive(move || typed::field::<Span>(&text.read()).err());
    let unit = || Some(fields::SECONDS.to_owned());
    let why_not = Signal::derive(move || {
        draft
            .refill()
            .err()
            .or_else(|| draft.colour.get().is_none().then(|| said::COLOUR_MISSING.to_owned()))
    });
    let judged = move || {
        let case = here.case();
        let refill = draft.refill().ok()??;
        let person = case.findings.as_ref().map(|found| found.person).unwrap_or_default();
        let colour = draft.colour.get().unwrap_or(Colour::Normal);
        Some(words_of::refill(&judge(refill, colour, person, &case.protocol)))
    };
    view! {
        <CaseScreen
            step=Step::Rounds
            fraction=0.8
            back=Callback::new(move |()| step.looking.set(false))
        >
            <Title arrive=true>{said::LOOK_SKIN}</Title>
            <div>
                <h2>{said::REFILL_BOTH}</h2>
                <p class="hint">{move || words::app::press(here.case().protocol.refill_press)}</p>
            </div>
            <div class="beside">
                <QuantityField
                    label=said::AFFECTED
                    value=draft.affected
                    unit=unit()
                    error=error(draft.affected)
                    on_input=move |text| draft.affected.set(text)
                />
                <QuantityField
                    label=said::OTHER_SIDE
                    value=draft.opposite
                    unit=unit()
                    error=error(draft.opposite)
                    on_input=move |text| draft.opposite.set(text)
                />
            </div>
            <Note>
                {move || judged().unwrap_or_else(|| said::NOT_TIMED.to_owned())}
            </Note>
            <Choice
                legend=said::COLOUR
                items=colours.to_vec()
                value=draft.colour
                on_choose=move |colour| draft.colour.set(Some(colour))
            />
            <Foot slot>
                <GoButton on_press=move |()| draft.person.set(true) why_not>
                    {said::ON}
                </GoButton>
            </Foot>
        </CaseScreen>
    }
}

/// Pain, and the signs that go before everything.
#[component]
fn Patient(step: Step5, draft: Draft) -> impl IntoView {
    let here = use_here();
    let scores: Vec<Item<Pain>> = (Pain::NONE.score()..=Pain::WORST)
        .filter_map(Pain::new)
        .map(|pain| Item::new(pain, pain.score().to_string()))
        .collect();
    let flags = [RedFlag::Sight, RedFlag::Stroke, RedFlag::Airway]
        .map(|flag| Item::new(flag, words_of::red_flag(flag)).danger());
    let why_not =
        Signal::derive(move || draft.pain.get().is_none().then(|| said::PAIN_MISSING.to_owned()));
    let record = Callback::new(move |()| {
        let (Some(colour), Some(pain)) = (draft.colour.get_untracked(), draft.pain.get_untracked())
        else {
            return;
        };
        let refill = untrack(|| draft.refill()).ok().flatten();
        let red_flags = draft.flags.get_untracked();
        let flag = red_flags.first().copied();
        let look = Look { refill, red_flags, ..Look::of(colour, pain) };
        step.taps.once(|| {
            step.alarm.silence();
            here.record_then(Event::Round(Act::Look(look)), move || {
                step.looking.set(false);
                if let Some(flag) = flag {
                    step.handing.set(Some(Handing::Any(Some(HandOver::of(flag)))));
                }
            });
        });
    });
    view! {
        <CaseScreen
            step=Step::Rounds
            fraction=0.85
            back=Callback::new(move |()| draft.person.set(false))
        >
            <Title arrive=true>{said::LOOK_PERSON}</Title>
            // One tap for a score, and none until it was asked.
            <Chips
                legend=said::pain()
                items=scores
                value=Signal::derive(move || draft.pain.get().into_iter().collect())
                on_change=move |(pain, on): (Pain, bool)| draft.pain.set(on.then_some(pain))
            />
            <Tick
                legend=said::ANY_OF_THESE
                items=flags.to_vec()
                value=draft.flags
                on_change=move |(flag, on): (RedFlag, bool)| {
                    draft.flags.update(|flags| {
                        flags.retain(|other| *other != flag);
                        if on {
                            flags.push(flag);
                        }
                        flags.sort_unstable();
                    });
                }
            />
            <Foot slot>
                <GoButton on_press=record why_not>
                    {said::TAKE_DOWN}
                </GoButton>
            </Foot>
        </CaseScreen>
    }
}
