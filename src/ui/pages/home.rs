//! The start: open cases first, then everything else one tap away.

use super::backup::use_state;
use super::language::{Missed, Unreviewed};
use super::listed::{CaseRow, Rank, leads};
use super::lock::Unlock;
use crate::case::{CaseId, Headline, Reference};
use crate::measure::order;
use crate::phone::{clock, use_now};
use crate::store::gate::Standing;
use crate::ui::app::{set_title, use_go};
use crate::ui::desk::use_desk;
use crate::ui::page::Page;
use crate::ui::parts::{Foot, GoButton, Note, Row, Rows, Screen, Title, Tone, TopBar};
use crate::ui::theme::ThemeButton;
use crate::ui::words::app::home as said;
use crate::ui::words::{self, time};
use leptos::prelude::*;
use std::collections::BTreeMap;

/// How many closed cases stand here; the others are among the records.
const CLOSED: usize = 5;

/// The start.
#[component]
pub fn Home() -> impl IntoView {
    let desk = use_desk();
    let go = use_go();
    set_title(said::title());
    let unnamed = RwSignal::new(false);
    let start = move |()| {
        let at = clock::now();
        let day = clock::date(at);
        let text = format!("{:02}-{:02} {}", day.month(), day.day(), time::hour(at));
        let opened = Reference::new(&text)
            .and_then(|reference| desk.open_case(reference, move |id| go.to(Page::Case(id, None))));
        unnamed.set(opened.is_none());
    };
    let lines = Memo::new(move |_| desk.headlines());
    let ranks = ranks(lines);
    let group = move |open: bool, heading: &'static str| {
        let lines = lines.read();
        let lines = if open { first_due(&lines, &ranks.read()) } else { closed(&lines) };
        let most = if open { usize::MAX } else { CLOSED };
        let (rows, rest): (Vec<_>, Vec<_>) =
            lines.into_iter().enumerate().partition(|(place, _)| *place < most);
        let count = rows.len() + rest.len();
        let rows: Vec<_> = rows
            .into_iter()
            .map(|(_, line)| {
                let id = line.id;
                let held = open.then(|| untrack(|| desk.held(id))).flatten();
                let to = held.map_or(Page::Timeline(id), |held| leads(&held.case));
                view! { <CaseRow line to /> }
            })
            .collect();
        let all = (!rest.is_empty()).then(|| {
            view! {
                <Row
                    label=words::records::all()
                    detail=Some(words::records::closed(count))
                    on_press=move |()| go.to(Page::Records)
                />
            }
        });
        (!rows.is_empty()).then(|| {
            view! {
                <section>
                    <h2>{heading}</h2>
                    <Rows>{rows} {all}</Rows>
                </section>
            }
        })
    };
    view! {
        <Screen
            reference=Some(words::app::name().to_owned())
            on_anaphylaxis=Callback::new(move |()| go.to(Page::Anaphylaxis(None)))
            anaphylaxis_label=words::app::anaphylaxis()
        >
            <TopBar slot>
                <ThemeButton />
            </TopBar>
            <Title arrive=true>{said::title()}</Title>
            <Missed />
            {move || {
                unnamed.get().then(|| view! { <Note tone=Tone::Danger alert=true>{said::no_name()}</Note> })
            }}
            {move || group(true, said::open())}
            <Locked />
            <Beside />
            {move || group(false, said::closed())}
            <p class="follow">{words::app::follow()}</p>
            <Unreviewed />
            <Foot slot>
                <GoButton on_press=start>{said::new()}</GoButton>
            </Foot>
        </Screen>
    }
}

/// While the records lie sealed: the way to them. Below what waits, which is in reach all the same.
#[component]
fn Locked() -> impl IntoView {
    let desk = use_desk();
    let locked = Memo::new(move |_| desk.locked());
    move || {
        locked.get().then(|| {
            view! {
                <section>
                    <h2>{words::lock::locked()}</h2>
                    <p class="hint">{words::lock::locked_why()}</p>
                    <Unlock />
                </section>
            }
        })
    }
}

/// Everything that needs no case.
#[component]
fn Beside() -> impl IntoView {
    let (desk, go, now) = (use_desk(), use_go(), use_now());
    // Before the phone has been read nobody knows what is there.
    let kit = Memo::new(move |_| {
        let today = clock::date(now.get());
        (desk.ready() && !desk.locked())
            .then(|| super::kit::state(&desk.stock(), today, &desk.protocol()))
    });
    let backed = use_state();
    let set = Memo::new(move |_| matches!(desk.standing(), Standing::Open | Standing::Shut));
    let leads = [
        (said::sums(), said::sums_detail(), Page::Sums),
        (said::kit(), said::kit_detail(), Page::Kit),
        (said::records(), said::records_detail(), Page::Records),
        (said::rehearsal(), said::rehearsal_detail(), Page::Rehearsal),
        (said::contacts(), said::contacts_detail(), Page::Contacts),
        (said::ringing(), said::ringing_detail(), Page::Ringing),
        (words::backup::title(), words::backup::home_detail(), Page::Backup),
        (words::lock::title(), words::lock::home_detail(), Page::Lock),
        (said::values(), said::values_detail(), Page::Values),
        (words::language::home(), words::language::home_detail(), Page::Language),
        (said::about(), said::about_detail(), Page::About),
    ];
    view! {
        <section>
            <h2>{said::more()}</h2>
            <Rows>
                {leads
                    .map(|(label, detail, page)| {
                        let detail = Signal::derive(move || {
                            let state = match page {
                                Page::Kit => kit.get(),
                                Page::Backup => backed.get(),
                                Page::Lock => set.get().then(|| words::lock::home_set().to_owned()),
                                _ => None,
                            };
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
    }
}

/// What each open case waits for; drawn anew when a review comes due, not at each tick of the clock.
fn ranks(lines: Memo<Vec<Headline>>) -> Memo<BTreeMap<CaseId, Rank>> {
    let (desk, now) = (use_desk(), use_now());
    Memo::new(move |_| {
        let lines = lines.read();
        let open = lines.iter().filter(|line| line.closed.is_none());
        let rank = |id| Some((id, Rank::of(&desk.held(id)?.case, now.get())));
        open.filter_map(|line| rank(line.id)).collect()
    })
}

/// Open cases, what is due before what is not.
fn first_due(lines: &[Headline], ranks: &BTreeMap<CaseId, Rank>) -> Vec<Headline> {
    let mut open: Vec<_> = lines.iter().filter(|line| line.closed.is_none()).cloned().collect();
    order::by_key(&mut open, |line| ranks.get(&line.id).copied().unwrap_or(Rank::Later));
    open
}

/// Closed cases, as they stand.
fn closed(lines: &[Headline]) -> Vec<Headline> {
    lines.iter().filter(|line| line.closed.is_some()).cloned().collect()
}
