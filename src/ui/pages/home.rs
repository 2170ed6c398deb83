//! The start: open cases first, then everything else one tap away.

use crate::care::rounds::Phase;
use crate::case::{Case, Reference};
use crate::measure::Moment;
use crate::phone::{clock, use_now};
use crate::ui::app::{set_title, use_go};
use crate::ui::desk::use_desk;
use crate::ui::page::Page;
use crate::ui::parts::{Foot, GoButton, Note, Row, Rows, Screen, Title, Tone};
use crate::ui::words::app::home as said;
use crate::ui::words::{self, time};
use leptos::prelude::*;

/// The start.
#[component]
pub fn Home() -> impl IntoView {
    let desk = use_desk();
    let go = use_go();
    let now = use_now();
    set_title(said::TITLE);
    let unnamed = RwSignal::new(false);
    let start = move |()| {
        let at = clock::now();
        let day = clock::date(at);
        let text = format!("{:02}-{:02} {}", day.month(), day.day(), time::hour(at));
        let opened = Reference::new(&text)
            .and_then(|reference| desk.open_case(reference, move |id| go.to(Page::Case(id, None))));
        unnamed.set(opened.is_none());
    };
    let list = move |open: bool| {
        desk.all()
            .into_iter()
            .filter(|held| held.case.open() == open)
            .map(|held| {
                let id = held.case.id;
                let case = held.case;
                let name = case
                    .reference
                    .as_ref()
                    .map_or_else(String::new, |name| name.as_str().to_owned());
                let detail = detail(&case);
                let (target, trailing) = if open {
                    let due = Signal::derive(move || trailing(&case, now.get()));
                    (Page::Case(id, None), due)
                } else {
                    let day = time::day(clock::date(case.opened));
                    (Page::Timeline(id), Signal::stored(Some(day)))
                };
                view! {
                    <Row label=name detail=Some(detail) trailing on_press=move |()| go.to(target) />
                }
            })
            .collect::<Vec<_>>()
    };
    let group = move |open: bool, heading: &'static str| {
        let rows = list(open);
        (!rows.is_empty()).then(|| {
            view! {
                <section>
                    <h2>{heading}</h2>
                    <Rows>{rows}</Rows>
                </section>
            }
        })
    };
    // Before the phone has been read nobody knows what is there.
    let kit = Memo::new(move |_| {
        let today = clock::date(now.get());
        desk.ready().then(|| super::kit::state(&desk.stock(), today, &desk.protocol()))
    });
    let leads = [
        (said::SUMS, said::SUMS_DETAIL, Page::Sums),
        (said::KIT, said::KIT_DETAIL, Page::Kit),
        (said::REHEARSAL, said::REHEARSAL_DETAIL, Page::Rehearsal),
        (said::CONTACTS, said::CONTACTS_DETAIL, Page::Contacts),
        (said::RINGING, said::RINGING_DETAIL, Page::Ringing),
        (said::VALUES, said::VALUES_DETAIL, Page::Values),
        (said::ABOUT, said::ABOUT_DETAIL, Page::About),
    ];
    view! {
        <Screen
            reference=Some(words::app::NAME.to_owned())
            on_anaphylaxis=Callback::new(move |()| go.to(Page::Anaphylaxis(None)))
            anaphylaxis_label=words::app::ANAPHYLAXIS
        >
            <Title>{said::TITLE}</Title>
            {move || {
                unnamed.get().then(|| view! { <Note tone=Tone::Danger alert=true>{said::NO_NAME}</Note> })
            }}
            {move || group(true, said::OPEN)}
            <section>
                <h2>{said::MORE}</h2>
                <Rows>
                    {leads
                        .map(|(label, detail, page)| {
                            let detail = Signal::derive(move || {
                                let state = kit.get().filter(|_| page == Page::Kit);
                                Some(state.unwrap_or_else(|| detail.to_owned()))
                            });
                            view! {
                                <Row
                                    label
                                    detail
                                    on_press=move |()| go.to(page)
                                />
                            }
                        })}
                </Rows>
            </section>
            {move || group(false, said::CLOSED)}
            <p class="follow">{words::app::FOLLOW}</p>
            <Foot slot>
                <GoButton on_press=start>{said::NEW}</GoButton>
            </Foot>
        </Screen>
    }
}

/// How urgent, and the step it stands at; how it ended, once closed.
fn detail(case: &Case) -> String {
    let kind = case.urgency().map_or("", words::situation::urgency);
    let state = match case.closed {
        Some((_, outcome)) => words::rounds::end(outcome),
        None => words::app::step(case.step()).to_owned(),
    };
    if kind.is_empty() { state } else { format!("{kind} · {state}") }
}

/// What is due, if anything is.
fn trailing(case: &Case, now: Moment) -> Option<String> {
    match case.treatment.phase(now, &case.protocol) {
        Phase::Watching { due } => Some(time::countdown(due.since(now))),
        Phase::Due { .. } => Some(words::rounds::LOOK_NOW.to_owned()),
        _ => None,
    }
}
