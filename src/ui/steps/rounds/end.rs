//! The end: what was given in all, and when the patient is seen again.

use super::trend::RefillTrend;
use super::{AfterRound, Step5, last_act, strike};
use crate::care::aftercare::visits;
use crate::care::allergy::Urgency;
use crate::care::rounds::{Act, End, Point};
use crate::case::{Case, Event, Step};
use crate::measure::Moment;
use crate::phone::use_now;
use crate::ui::app::use_go;
use crate::ui::page::Page;
use crate::ui::parts::{Figure, Figures, Foot, GoButton, Note, Pair, QuietButton, Title, Tone};
use crate::ui::rehearsal::rehearsed;
use crate::ui::steps::{CaseScreen, Here, use_here};
use crate::ui::words::{followup, handing, numbers, round_screens as said, rounds as words_of};
use leptos::prelude::*;

/// Planned work, injected: no clock runs.
#[component]
pub fn PlannedDone(step: Step5) -> impl IntoView {
    let here = use_here();
    let now = use_now();
    let rehearsed = rehearsed();
    let close = move |()| step.taps.once(|| over(here, End::Done, rehearsed));
    let from = now.get_untracked();
    let left = here.now().treatment.rounds().last().map_or(0, crate::care::rounds::Round::open);
    view! {
        <CaseScreen step=Step::Rounds fraction=0.9>
            <Title arrive=true>{said::done_planned()}</Title>
            <Note tone=Tone::Caution>{said::watch()}</Note>
            <Totals />
            {(left > 0).then(|| view! { <Note tone=Tone::Caution>{said::left_open(left)}</Note> })}
            <Visits end=End::Done from />
            <Note>{said::call_back()}</Note>
            <Foot slot>
                <GoButton on_press=close>{said::end_planned()}</GoButton>
                <AfterRound step take_back=said::stay_open() />
            </Foot>
        </CaseScreen>
    }
}

/// Ends the treatment. The case stays open until the patient was seen again; nobody is seen again in a
/// rehearsal.
pub fn over(here: Here, end: End, rehearsed: bool) {
    here.record(Event::Round(Act::End(end)));
    if rehearsed {
        here.record(Event::Closed(end));
    }
}

/// What comes after the end.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Then {
    FollowUp,
    Close,
    Record,
}

impl Then {
    fn of(case: &Case, rehearsed: bool) -> Self {
        if !case.open() {
            Self::Record
        } else if case.in_follow_up() && !rehearsed {
            Self::FollowUp
        } else {
            Self::Close
        }
    }
}

/// Over, however it ended.
#[component]
pub fn Ended(step: Step5) -> impl IntoView {
    let here = use_here();
    let go = use_go();
    // Closed before treatment, or ended and then killed before it was closed: either names the end.
    let ended = Memo::new(move |_| {
        let case = here.case();
        case.closed.or_else(|| case.treatment.end()).map_or((case.last, End::Stopped), |end| end)
    });
    let rehearsed = rehearsed();
    let then = Memo::new(move |_| Then::of(&here.case(), rehearsed));
    let end = Signal::derive(move || ended.read().1);
    // While a sign stands, the sheet is one tap away at the top already.
    let handed = Memo::new(move |_| {
        matches!(ended.read().1, End::HandedOver(_)) && here.case().flags.is_empty()
    });
    let press = move |()| {
        step.taps.once(|| match then.get_untracked() {
            Then::FollowUp => go.to(Page::FollowUp(here.id)),
            Then::Close => here.record(Event::Closed(end.get_untracked())),
            Then::Record => go.to(Page::Timeline(here.id)),
        });
    };
    view! {
        <CaseScreen
            step=Step::Rounds
            fraction=1.0
            back=Callback::new(move |()| go.to(Page::Home))
        >
            <Title arrive=true>{move || words_of::end(end.get())}</Title>
            <Totals />
            {move || {
                let (from, end) = ended.get();
                view! { <Visits end from /> }
            }}
            <Note tone=Tone::Caution>{said::call_back()}</Note>
            {move || {
                handed.get()
                    .then(|| {
                        view! {
                            <QuietButton on_press=move |()| {
                                go.to(Page::HandOver(here.id));
                            }>{handing::to_sheet()}</QuietButton>
                        }
                    })
            }}
            <RefillTrend />
            <Foot slot>
                <GoButton on_press=press>
                    {move || match then.get() {
                        Then::FollowUp => followup::to_follow_up(),
                        Then::Close => said::close(),
                        Then::Record => said::record(),
                    }}
                </GoButton>
                {move || {
                    (then.get() == Then::Record && !rehearsed)
                        .then(|| {
                            view! {
                                <QuietButton on_press=move |()| {
                                    go.to(Page::FollowUp(here.id));
                                }>{followup::to_follow_up()}</QuietButton>
                            }
                        })
                }}
                <Pair>
                    <QuietButton on_press=move |()| go.to(Page::Home)>{said::home()}</QuietButton>
                    <QuietButton on_press=move |()| reopen(here)>
                        {move || if then.get() == Then::FollowUp { said::go_on() } else { said::reopen() }}
                    </QuietButton>
                </Pair>
            </Foot>
        </CaseScreen>
    }
}

/// Takes back the end and the closing.
fn reopen(here: Here) {
    let held = untrack(|| here.held());
    let case = &held.case;
    let closing = held.journal.entries().iter().rev().find(|entry| {
        matches!(entry.event(), Event::Closed(_)) && !case.struck.contains(&entry.id())
    });
    if let Some(entry) = closing.filter(|_| case.closed.is_some()) {
        strike(here, entry.id());
    }
    if let Some((entry, Act::End(_))) = last_act(&held) {
        strike(here, entry);
    }
}

/// What was given in all.
#[component]
fn Totals() -> impl IntoView {
    let here = use_here();
    move || {
        let case = here.case();
        let rounds = case.treatment.rounds().len();
        let (units, volume) = (case.treatment.units(), case.treatment.volume());
        let vials = case.vials_opened;
        let (label, count) = match case.urgency() {
            Some(Urgency::Planned) => (said::deposits_label(), injected(&case)),
            _ => (said::rounds_label(), rounds),
        };
        // Closed before anything was given: noughts would say nothing.
        (rounds > 0).then(|| {
            view! {
                <Figures>
                    <Figure
                        label=said::given_in_all()
                        number=numbers::units(units)
                        unit=Some(said::units().to_owned())
                    />
                    <Figure
                        label=said::volume()
                        number=numbers::volume(volume)
                        unit=Some(said::ml().to_owned())
                    />
                    <Figure label number=count.to_string() />
                    <Figure label=said::vials() number=vials.to_string() />
                </Figures>
            }
        })
    }
}

/// Points injected in all rounds.
fn injected(case: &Case) -> usize {
    let points = case.treatment.rounds().iter().flat_map(|round| &round.points);
    points.filter(|point| matches!(point, Point::Injected(_))).count()
}

/// When the patient is seen again.
#[component]
fn Visits(end: End, from: Moment) -> impl IntoView {
    let here = use_here();
    let case = here.now();
    let (urgency, aim) = case.way.unwrap_or((Urgency::Urgent, None));
    let visits = visits(urgency, aim, end, &case.protocol);
    let handed = visits.is_empty();
    let line = |visit| {
        let (when, what) = said::visit(&visit, from);
        view! { <Note heading=Some(when)>{what}</Note> }
    };
    view! {
        <section>
            <h2>{said::seen_again()}</h2>
            {handed.then(|| view! { <p>{said::others()}</p> })}
            {visits.into_iter().map(line).collect_view()}
        </section>
    }
}
