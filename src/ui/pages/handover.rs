//! What the people who take a case over are told: whom to call, then the sheet, to be read out or
//! handed on as text.

use crate::care::rounds::HandOver;
use crate::case::{CaseId, Event, Role};
use crate::measure::Moment;
use crate::phone::share::{self, Handed};
use crate::phone::use_now;
use crate::ui::app::{set_title, use_go};
use crate::ui::calling::Calls;
use crate::ui::page::Page;
use crate::ui::pages::Framed;
use crate::ui::parts::{
    Choice, Finding, Foot, GoButton, Item, Note, Pair, QuietButton, Segment, Title, Toast, Why,
};
use crate::ui::rehearsal::rehearsed;
use crate::ui::steps::{Here, use_here};
use crate::ui::words::handing::{self as said, Part};
use crate::ui::words::{self, contacts, rounds};
use leptos::prelude::*;
use std::cell::Cell;
use wasm_bindgen_futures::spawn_local;

thread_local! {
    /// Why a case is handed over, from the screen that leads here; for that case alone.
    static BECAUSE: Cell<Option<(CaseId, HandOver)>> = const { Cell::new(None) };
}

/// Says why, for the sheet that is opened next.
pub fn because(id: CaseId, reason: HandOver) {
    BECAUSE.set(Some((id, reason)));
}

/// Which sheet is shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Which {
    /// The short one for signs of sight.
    Sight,
    /// The whole case.
    Whole,
}

/// What is shown, worked out once a minute and at each entry.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Told {
    parts: Vec<Part>,
    roles: Vec<Role>,
    founded: Vec<Finding>,
}

/// What the people who take a case over are told.
#[component]
pub fn HandOverPage() -> impl IntoView {
    set_title(said::title());
    let here = use_here();
    let go = use_go();
    let now = use_now();
    let because = BECAUSE.take().filter(|(id, _)| *id == here.id).map(|(_, reason)| reason);
    let reason = RwSignal::new(because);
    let chosen = RwSignal::new(None::<Which>);
    let which = Memo::new(move |_| {
        let held = here.held();
        let sight = || held.case.sight_first(&held.journal, reason.get());
        chosen.get().unwrap_or_else(|| if sight() { Which::Sight } else { Which::Whole })
    });
    // "12 min ago" changes once a minute, not four times a second.
    let minute = Memo::new(move |_| now.get().since(Moment::default()).as_minutes());
    let sighted = Memo::new(move |_| {
        let held = here.held();
        held.case.sight(&held.journal).is_some()
    });
    let told = Memo::new(move |_| {
        minute.track();
        told(here, which.get(), reason.get(), now.get_untracked())
    });
    let roles = Signal::derive(move || told.read().roles.clone());
    let call = Callback::new(move |contact| {
        here.record(Event::Note(contacts::begun(&contact)));
    });
    let passed = super::timeline::passing();
    let by_hand = RwSignal::new(None::<String>);
    let rehearsed = rehearsed();
    let hand_on = move |()| {
        let text =
            said::text(&told.read_untracked().parts, &words::time::day_hour(now.get_untracked()));
        let text = if rehearsed { said::rehearsed(&text) } else { text };
        let sharing = share::text(&text);
        spawn_local(async move {
            let handed = sharing.await;
            by_hand.try_set((handed == Handed::Refused).then_some(text));
            passed.try_set(said::became(handed));
        });
    };
    view! {
        <Framed>
            <Title arrive=true>{said::title()}</Title>
            <Calls roles on_call=call />
            {move || sighted.get().then(|| view! { <Sheets which chosen /> })}
            <section class="read-out">
                <h2 class="unseen">{said::read()}</h2>
                {move || told.get().parts.into_iter().map(part).collect_view()}
            </section>
            <Note>{said::no_name()}</Note>
            <Why summary=said::sources() findings=Signal::derive(move || told.read().founded.clone()) />
            <Reason here reason />
            <ByHand by_hand />
            <Toast text=passed />
            <Foot slot>
                <GoButton on_press=hand_on>{said::share()}</GoButton>
                <Pair>
                    <QuietButton on_press=move |()| go.to(Page::Timeline(here.id))>
                        {said::record()}
                    </QuietButton>
                    {(!rehearsed)
                        .then(|| {
                            view! {
                                <QuietButton on_press=move |()| {
                                    go.to(Page::Papers(here.id));
                                }>{words::papers::title()}</QuietButton>
                            }
                        })}
                </Pair>
            </Foot>
        </Framed>
    }
}

/// The text itself, where the phone neither shares nor copies.
#[component]
fn ByHand(by_hand: RwSignal<Option<String>>) -> impl IntoView {
    view! {
        <div role="status">
            {move || {
                by_hand
                    .get()
                    .map(|text| {
                        view! {
                            <p>{said::by_hand()}</p>
                            <pre class="by-hand" role="region" tabindex="0" aria-label=said::text_label()>
                                {text}
                            </pre>
                        }
                    })
            }}
        </div>
    }
}

/// What is told now.
fn told(here: Here, which: Which, reason: Option<HandOver>, now: Moment) -> Told {
    let held = here.held();
    let sheet = held.case.handover(&held.journal, reason, now);
    let short = held.case.sight(&held.journal).filter(|_| which == Which::Sight);
    let asks = short.as_ref().map_or(&sheet.recommendation, |short| &short.asks);
    Told {
        parts: match &short {
            Some(short) => said::sight(short, now),
            None => said::whole(&sheet, now),
        },
        roles: Role::asked(asks),
        founded: said::founded(asks),
    }
}

/// A part of the sheet, large enough to be read out at arm's length.
fn part((name, sentences): Part) -> impl IntoView {
    let sentences = sentences.into_iter().map(|one| view! { <li>{one}</li> }).collect_view();
    view! {
        <h3>{name}</h3>
        <ul>{sentences}</ul>
    }
}

/// The short sheet or the whole, where sight is concerned.
#[component]
fn Sheets(which: Memo<Which>, chosen: RwSignal<Option<Which>>) -> impl IntoView {
    let items = vec![
        Item::new(Which::Sight, said::sight_label()),
        Item::new(Which::Whole, said::whole_label()),
    ];
    view! {
        <Segment
            legend=said::shown()
            items
            value=Signal::derive(move || Some(which.get()))
            on_choose=move |which| chosen.set(Some(which))
        />
    }
}

/// Why it is handed over, where no end says it.
#[component]
fn Reason(here: Here, reason: RwSignal<Option<HandOver>>) -> impl IntoView {
    let open = Memo::new(move |_| here.case().ended_for().is_none());
    let items: Vec<Item<HandOver>> = rounds::HAND_OVERS
        .into_iter()
        .map(|reason| Item::new(reason, rounds::hand_over(reason)))
        .collect();
    move || {
        let items = items.clone();
        open.get().then(|| {
            view! {
                <details class="more">
                    <summary>{said::why()}</summary>
                    <Choice
                        legend=said::reason()
                        items
                        value=reason
                        on_choose=move |chosen| reason.set(Some(chosen))
                    />
                </details>
            }
        })
    }
}
