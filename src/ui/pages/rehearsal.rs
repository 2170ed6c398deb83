//! The whole way against a simulated patient: choosing, history, debrief.

mod debrief;

use crate::case::CaseId;
use crate::measure::Moment;
use crate::phone::{clock, random, use_now};
use crate::rehearsal::Scenario;
use crate::store::rehearsals::{self, Played};
use crate::ui::app::{set_title, use_go};
use crate::ui::desk::use_desk;
use crate::ui::page::Page;
use crate::ui::parts::{
    DangerButton, Foot, GoButton, Item, Note, QuietButton, Row, Rows, Screen, Segment, Sheet,
    Title, Tone,
};
use crate::ui::rehearsal::{PACES, use_rehearsals};
use crate::ui::words::{self, rehearsal as said, time};
use debrief::DebriefView;
use leptos::prelude::*;

/// What may be asked for: one patient, or any.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Asked {
    This(Scenario),
    Any,
}

impl Asked {
    /// Which patient comes in. Without random bits the moment chooses.
    fn comes(self) -> Scenario {
        match self {
            Self::This(scenario) => scenario,
            Self::Any => {
                let bits = random::bits()
                    .unwrap_or_else(|_| u128::try_from(clock::now().millis()).unwrap_or_default());
                let count = Scenario::ALL.len() as u128;
                let place = usize::try_from(bits % count).unwrap_or_default();
                Scenario::ALL.get(place).copied().unwrap_or(Scenario::Lip)
            }
        }
    }
}

/// Rehearsal: the debrief that was just made, or the patients to choose from.
#[component]
pub fn RehearsalPage() -> impl IntoView {
    set_title(said::title());
    let rehearsals = use_rehearsals();
    on_cleanup(move || rehearsals.show(None));
    move || match rehearsals.shown() {
        Some(debrief) => view! { <DebriefView debrief /> }.into_any(),
        None => view! { <Choosing /> }.into_any(),
    }
}

/// The patients, and what was played.
#[component]
fn Choosing() -> impl IntoView {
    let go = use_go();
    let rehearsals = use_rehearsals();
    let played = RwSignal::new(rehearsals::all());
    let asked = RwSignal::new(None::<Asked>);
    let held = move || rehearsals.running();
    let rows = move || {
        let played = played.read();
        Scenario::ALL
            .map(|scenario| {
                let last = said::last(&played, scenario);
                view! {
                    <Row
                        label=said::name(scenario)
                        detail=Some(said::hint(scenario).to_owned())
                        trailing=last
                        on_press=move |()| asked.set(Some(Asked::This(scenario)))
                    />
                }
            })
            .collect_view()
    };
    view! {
        <Screen
            back=Callback::new(move |()| go.to(Page::Home))
            back_label=words::app::back()
            on_anaphylaxis=Callback::new(move |()| go.to(Page::Anaphylaxis(None)))
            anaphylaxis_label=words::app::anaphylaxis()
        >
            <Title arrive=true>{said::title()}</Title>
            <p>{said::intro()}</p>
            {move || held().map(|run| view! { <Held case=run.case /> })}
            <Rows>{rows}</Rows>
            <History played />
            <details class="more">
                <summary>{said::model_heading()}</summary>
                {said::model_long().map(|text| view! { <p>{text}</p> })}
            </details>
            <BeginSheet asked />
            <Foot slot>
                <GoButton on_press=move |()| asked.set(Some(Asked::Any))>{said::any()}</GoButton>
            </Foot>
        </Screen>
    }
}

/// One stands still meanwhile.
#[component]
fn Held(case: CaseId) -> impl IntoView {
    let go = use_go();
    let desk = use_desk();
    let now = use_now();
    let rehearsals = use_rehearsals();
    let busy = Memo::new(move |_| desk.busy(now.get()));
    view! {
        <Note heading=Some(said::held().to_owned())>
            {move || {
                if busy.get() {
                    view! { <p>{said::busy()}</p> }.into_any()
                } else {
                    view! {
                        <QuietButton on_press=move |()| {
                            go.to(Page::Case(case, None));
                        }>{said::go_on_held()}</QuietButton>
                    }
                        .into_any()
                }
            }}
            <QuietButton on_press=move |()| rehearsals.end()>{said::end()}</QuietButton>
        </Note>
    }
}

/// What comes in, how fast the clock goes, and the start.
#[component]
fn BeginSheet(asked: RwSignal<Option<Asked>>) -> impl IntoView {
    let close = Callback::new(move |()| asked.set(None));
    view! {
        <Sheet
            open=Signal::derive(move || asked.get().is_some())
            on_close=close
            heading=Signal::derive(move || match asked.get() {
                Some(Asked::This(scenario)) => said::name(scenario).to_owned(),
                _ => said::any().to_owned(),
            })
            close_label=words::app::close()
        >
            <Begin asked />
        </Sheet>
    }
}

#[component]
fn Begin(asked: RwSignal<Option<Asked>>) -> impl IntoView {
    let go = use_go();
    let desk = use_desk();
    let now = use_now();
    let rehearsals = use_rehearsals();
    let pace = RwSignal::new(PACES[2]);
    let why_not = Signal::derive(move || desk.busy(now.get()).then(|| said::busy().to_owned()));
    let paces = PACES.map(|times| Item::new(times, said::times(times))).to_vec();
    let begin = move |()| {
        let Some(which) = asked.get_untracked() else { return };
        asked.set(None);
        let protocol = untrack(|| desk.protocol());
        rehearsals.begin(which.comes(), pace.get_untracked(), protocol, move |case| {
            go.to(Page::Case(case, None));
        });
    };
    view! {
        <p>
            {match asked.get_untracked() {
                Some(Asked::This(scenario)) => said::story(scenario),
                _ => said::any_story().to_owned(),
            }}
        </p>
        <Segment
            legend=said::how_fast()
            items=paces
            value=Signal::derive(move || Some(pace.get()))
            on_choose=move |times| pace.set(times)
        />
        <p class="hint">{said::pace_why()}</p>
        <Note tone=Tone::Caution>{said::apart()}</Note>
        <GoButton on_press=begin why_not>
            {said::begin()}
        </GoButton>
    }
}

/// What was played, the newest first, and how it came on.
#[component]
fn History(played: RwSignal<Vec<Played>>) -> impl IntoView {
    let rehearsals = use_rehearsals();
    let asking = RwSignal::new(false);
    let rows = move || {
        played
            .get()
            .into_iter()
            .rev()
            .map(|Played { at, debrief }| {
                let shown = debrief.clone();
                view! {
                    <Row
                        label=said::ended(&debrief)
                        detail=Some(said::name(debrief.scenario).to_owned())
                        trailing=Some(day(at))
                        on_press=move |()| rehearsals.show(Some(shown.clone()))
                    />
                }
            })
            .collect_view()
    };
    move || {
        (!played.read().is_empty()).then(|| {
            view! {
                <section>
                    <h2>{said::history()}</h2>
                    <ul class="patient-lines">
                        {said::came_on(&played.read())
                            .into_iter()
                            .map(|text| view! { <li>{text}</li> })
                            .collect_view()}
                    </ul>
                    <Rows>{rows}</Rows>
                    <QuietButton on_press=move |()| asking.set(true)>{said::forget()}</QuietButton>
                    <Sheet
                        open=asking
                        on_close=Callback::new(move |()| asking.set(false))
                        heading=said::forget()
                        close_label=words::app::close()
                    >
                        <p>{said::forget_why()}</p>
                        <DangerButton on_press=move |()| {
                            asking.set(false);
                            rehearsals::forget();
                            played.set(Vec::new());
                        }>{said::forget_now()}</DangerButton>
                    </Sheet>
                </section>
            }
        })
    }
}

fn day(at: Moment) -> String {
    time::day(clock::date(at))
}
