//! Step 2: who may have the enzyme. Urgent: ask, be ready, go on. Planned: ask, test, read.

mod making;
mod questions;
mod test;

use super::{CaseScreen, Here, ReasonSheet, use_here};
use crate::care::allergy::{self, Screen, Urgency, Way};
use crate::care::rounds::End;
use crate::care::skin_test::Verdict;
use crate::case::{Case, Clearance, Event, Overridden, Step};
use crate::ui::app::use_go;
use crate::ui::page::Page;
use crate::ui::parts::{self, DangerButton, Foot, GoButton, Note, Pair, QuietButton, Title, Tone};
use crate::ui::words::app::allergy as said;
use crate::ui::words::{self, allergy as words_of};
use leptos::prelude::*;
use questions::Draft;

/// The screens of this step.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Part {
    Urgent,
    Ask,
    Way,
    Place,
    Read,
    Came,
}

/// Where a case stands within this step.
fn part_of(case: &Case) -> Part {
    let urgency = case.urgency().unwrap_or(Urgency::Urgent);
    let Some(answers) = &case.answers else {
        return if urgency == Urgency::Urgent { Part::Urgent } else { Part::Ask };
    };
    if urgency == Urgency::Urgent {
        return Part::Urgent;
    }
    let tested = matches!(allergy::screen(answers, urgency).way, Way::Test { .. })
        || case.overrode(Overridden::Allergy);
    match (case.test, case.test_verdict()) {
        _ if !tested || !case.ready => Part::Way,
        // A test first seen too late is made anew.
        (None, _) | (Some(_), Some(Verdict::TooLate)) => Part::Place,
        (Some(_), None | Some(Verdict::TooEarly)) => Part::Read,
        (Some(_), Some(_)) => Part::Came,
    }
}

/// Step 2.
#[component]
pub fn Allergy() -> impl IntoView {
    let here = use_here();
    let asking = RwSignal::new(false);
    let reading = RwSignal::new(false);
    let part = Memo::new(move |_| match part_of(&here.case()) {
        Part::Urgent => Part::Urgent,
        _ if asking.get() => Part::Ask,
        Part::Came if reading.get() => Part::Read,
        part => part,
    });
    view! {
        {move || match part.get() {
            Part::Urgent => view! { <UrgentCheck /> }.into_any(),
            Part::Ask => view! { <Ask asking /> }.into_any(),
            Part::Way => view! { <WayScreen asking /> }.into_any(),
            Part::Place => view! { <test::Place asking /> }.into_any(),
            Part::Read => view! { <test::Read reading /> }.into_any(),
            Part::Came => view! { <test::Came reading /> }.into_any(),
        }}
    }
}

/// What the answers bring up.
fn cautions(screen: &Screen) -> impl IntoView + use<> {
    let said: Vec<(String, &str)> = screen
        .cautions
        .iter()
        .map(|caution| {
            let source = caution.source().map_or("", |source| source.citation);
            (words_of::caution(*caution), source)
        })
        .collect();
    said.into_iter()
        .map(|(text, source)| {
            view! {
                <Note tone=Tone::Caution>
                    {text} " " <small class="source">{source}</small>
                </Note>
            }
        })
        .collect_view()
}

/// Urgent: one screen, one tap when there is nothing to say.
#[component]
fn UrgentCheck() -> impl IntoView {
    let here = use_here();
    let draft = RwSignal::new(Draft::of(here.now().known().as_ref()));
    let screen = Memo::new(move |_| allergy::screen(&draft.read().answers(), Urgency::Urgent));
    let weigh = RwSignal::new(false);
    let unready = RwSignal::new(false);
    let weighing = move || screen.read().way == Way::Weigh;
    let on = move || {
        here.record(Event::Asked(draft.read_untracked().answers()));
        // Not ready and going on was recorded with its reason; ready it is not called.
        if here.now().overrode(Overridden::Readiness) {
            here.onward();
        } else {
            here.record_then(Event::Ready, move || here.onward());
        }
    };
    let next = move |()| {
        if weighing() && !here.now().overrode(Overridden::Allergy) {
            weigh.set(true);
        } else {
            on();
        }
    };
    view! {
        <CaseScreen step=Step::Allergy fraction=0.5>
            <Title eyebrow=Some(said::no_test().to_owned()) arrive=true>{said::ready()}</Title>
            <ul class="checks">
                {said::readiness().map(|line| view! { <li>{line}</li> })}
            </ul>
            <questions::Reaction draft />
            <details class="more">
                <summary>{said::more()}</summary>
                <questions::Stings draft />
                <questions::Rest draft />
            </details>
            {move || weighing().then(|| {
                view! { <Note tone=Tone::Danger>{words_of::way_why(Way::Weigh)}</Note> }
            })}
            {move || cautions(&screen.read())}
            <ReasonSheet
                open=weigh
                what=Overridden::Allergy
                against=Signal::derive(|| words_of::way_why(Way::Weigh))
                then=Callback::new(move |()| on())
            />
            <ReasonSheet
                open=unready
                what=Overridden::Readiness
                against=Signal::derive(|| said::unready_why().to_owned())
                then=Callback::new(next)
            />
            <Foot slot>
                <GoButton on_press=next>
                    {move || if weighing() { said::weigh() } else { said::ready_go() }}
                </GoButton>
                <QuietButton on_press=move |()| unready.set(true)>{said::unready()}</QuietButton>
            </Foot>
        </CaseScreen>
    }
}

/// Planned: everything is asked.
#[component]
fn Ask(
    /// Whether the questions were asked for again.
    asking: RwSignal<bool>,
) -> impl IntoView {
    let here = use_here();
    let draft = RwSignal::new(Draft::of(here.now().known().as_ref()));
    let next = move |()| {
        let answers = draft.read_untracked().answers();
        here.record_then(Event::Asked(answers), move || asking.set(false));
    };
    let stung = Memo::new(move |_| draft.read().stung());
    let why_not =
        Signal::derive(move || (!draft.read().asked()).then(|| said::not_asked().to_owned()));
    view! {
        <CaseScreen step=Step::Allergy fraction=0.2>
            <Title eyebrow=Some(said::planned().to_owned()) arrive=true>{said::ask()}</Title>
            <questions::Reaction draft />
            <questions::Stings draft />
            {move || stung.get().then(|| view! { <questions::Desensitised draft /> })}
            <questions::Rest draft />
            <Foot slot>
                <GoButton on_press=next why_not>{said::on()}</GoButton>
            </Foot>
        </CaseScreen>
    }
}

/// Planned: the way that the answers leave.
#[component]
fn WayScreen(
    /// Whether the questions were asked for again.
    asking: RwSignal<bool>,
) -> impl IntoView {
    let here = use_here();
    let go = use_go();
    let otherwise = RwSignal::new(false);
    let screen = Memo::new(move |_| {
        let answers = here.case().answers.clone().unwrap_or_default();
        allergy::screen(&answers, Urgency::Planned)
    });
    let way = Memo::new(move |_| screen.read().way);
    let free =
        move || matches!(way.get(), Way::Test { .. }) || here.case().overrode(Overridden::Allergy);
    let kind = Signal::derive(move || {
        if matches!(way.get(), Way::Test { .. }) {
            parts::Outcome::Planned
        } else {
            parts::Outcome::NotForIt
        }
    });
    let next = move |()| {
        if free() && here.now().clearance() != Clearance::Barred {
            here.record(Event::Ready);
        } else {
            close(here, go);
        }
    };
    view! {
        <CaseScreen step=Step::Allergy fraction=0.4>
            <parts::Verdict
                alone=true
                outcome=kind
                word=said::way()
                heading=Signal::derive(move || words_of::way(way.get()).to_owned())
            >
                <p>{move || words_of::way_why(way.get())}</p>
            </parts::Verdict>
            {move || cautions(&screen.read())}
            {move || free().then(|| view! {
                <ul class="checks">
                    {said::readiness().map(|line| view! { <li>{line}</li> })}
                </ul>
            })}
            <p class="follow">{words::app::follow()}</p>
            <ReasonSheet
                open=otherwise
                what=Overridden::Allergy
                against=Signal::derive(move || words_of::way_why(way.get()))
                then=Callback::new(|()| ())
            />
            <Foot slot>
                <GoButton on_press=next>
                    {move || if free() { said::ready_test() } else { said::close() }}
                </GoButton>
                <Pair>
                    <QuietButton on_press=move |()| asking.set(true)>{said::ask_again()}</QuietButton>
                    {move || matches!(way.get(), Way::Allergist | Way::Postpone)
                        .then(|| view! {
                            <DangerButton on_press=move |()| otherwise.set(true)>
                                {words::app::otherwise()}
                            </DangerButton>
                        })}
                </Pair>
            </Foot>
        </CaseScreen>
    }
}

/// Closes the case untreated.
fn close(here: Here, go: crate::ui::app::Go) {
    here.record_then(Event::Closed(End::Stopped), move || go.to(Page::Timeline(here.id)));
}
