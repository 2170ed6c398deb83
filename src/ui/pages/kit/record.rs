//! The kit's own record: every act, with its time; and striking one out.

use super::{Kit, Sheet};
use crate::case::{CaseId, Entry, Event};
use crate::kit::{Act, Lot, LotId, Stock};
use crate::measure::{Date, Hash};
use crate::phone::clock;
use crate::ui::desk::Held;
use crate::ui::pages::timeline::{Strike, strikes};
use crate::ui::parts::{self, Note, Timeline};
use crate::ui::words::{self, kit as said, time, timeline};
use leptos::prelude::*;

/// A day and its entries.
#[derive(Clone, Debug, PartialEq)]
struct Day {
    date: Date,
    lines: Vec<parts::Entry>,
}

/// The lot that an act is about.
fn about(entry: &Entry) -> Option<LotId> {
    match entry.event() {
        Event::Kit(Act::Received(_)) => Some(LotId(entry.id())),
        Event::Kit(
            Act::Delivered { lot, .. }
            | Act::Counted { lot, .. }
            | Act::Moved { lot, .. }
            | Act::Discarded { lot, .. }
            | Act::Amended { lot, .. },
        ) => Some(*lot),
        _ => None,
    }
}

/// The lot as it stands; as it came in where that was struck out.
fn lot(held: &Held, stock: &Stock, id: LotId) -> Option<Lot> {
    if let Some(holding) = stock.holding(id) {
        return Some(holding.lot.clone());
    }
    let all = held.journal.entries();
    all.iter().find(|entry| entry.id() == id.0).and_then(|entry| match entry.event() {
        Event::Kit(Act::Received(lot)) => Some((**lot).clone()),
        _ => None,
    })
}

/// An entry in words: of a strike, what it struck.
fn told(held: &Held, stock: &Stock, entry: &Entry) -> (String, Option<String>) {
    match entry.event() {
        Event::Kit(act) => {
            let lot = about(entry).and_then(|id| lot(held, stock, id));
            said::act_of(act, lot.as_ref())
        }
        Event::Struck { entry: struck, reason } => {
            let all = held.journal.entries();
            let struck = all.iter().find(|other| other.id() == *struck);
            let text = struck.map(|struck| told(held, stock, struck).0).unwrap_or_default();
            (timeline::struck_out(&text), Some(timeline::strike_reason(reason)))
        }
        other => timeline::event(other),
    }
}

/// The entries, the last first, parted by days; of one lot, only what happened to it.
fn days(held: &Held, stock: &Stock, of: Option<LotId>) -> Vec<Day> {
    let struck = strikes(&held.journal);
    let mut days: Vec<Day> = Vec::new();
    let wanted = |entry: &&Entry| of.is_none() || about(entry) == of;
    for entry in held.journal.entries().iter().rev().filter(wanted) {
        let (text, detail) = told(held, stock, entry);
        let line = parts::Entry {
            key: entry.id().to_string(),
            time: time::hour(entry.at()),
            text,
            detail,
            struck: struck.get(&entry.id()).map(|(at, reason)| timeline::struck(*at, reason)),
        };
        let date = clock::date(entry.at());
        match days.iter_mut().find(|day| day.date == date) {
            Some(day) => day.lines.push(line),
            None => days.push(Day { date, lines: vec![line] }),
        }
    }
    days
}

/// The entries of all lots or of one.
#[component]
pub fn Days(kit: Kit, of: Option<LotId>) -> impl IntoView {
    let days = Memo::new(move |_| {
        let held = kit.desk.held(CaseId::KIT);
        held.map(|held| days(&held, &kit.stock.read(), of)).unwrap_or_default()
    });
    let open = Callback::new(move |key: String| {
        if let Ok(id) = key.parse::<Hash>() {
            kit.sheet.set(Sheet::Entry(id));
        }
    });
    let day = move |day: Day| {
        let heading = if day.date == kit.today.get_untracked() {
            timeline::today(day.date)
        } else {
            time::day(day.date)
        };
        view! {
            <div class="kit-day">
                <h3>{heading}</h3>
                <Timeline entries=day.lines on_press=open />
            </div>
        }
    };
    move || {
        let days = days.get();
        if days.is_empty() {
            view! { <p class="hint">{said::record_none()}</p> }.into_any()
        } else {
            days.into_iter().map(day).collect_view().into_any()
        }
    }
}

/// Everything that happened to the kit, closed until wanted.
#[component]
pub fn Record(kit: Kit) -> impl IntoView {
    view! {
        <details class="more">
            <summary>{said::record()}</summary>
            <p class="hint">{said::record_why()}</p>
            <Days kit of=None />
        </details>
    }
}

/// One entry whole, and striking it out.
#[component]
pub fn EntrySheet(kit: Kit) -> impl IntoView {
    let shown = Memo::new(move |_| match kit.sheet.get() {
        Sheet::Entry(id) => Some(id),
        _ => None,
    });
    // Not tracked but for which entry: what is typed here outlives what a case takes meanwhile.
    let of = move |id: Hash| {
        let held = kit.desk.held(CaseId::KIT)?;
        let all = held.journal.entries();
        let entry = all.iter().find(|entry| entry.id() == id)?;
        let (text, detail) = told(&held, &kit.stock.read(), entry);
        let place = timeline::place(entry.seq(), all.len(), id);
        let struck = strikes(&held.journal).remove(&id);
        let struck = struck.map(|(at, reason)| timeline::struck(at, &reason));
        let strike = match (entry.event(), &struck) {
            (Event::Kit(Act::Received(_)), None) => Ok(said::received_hint()),
            (Event::Kit(_), None) => Ok(said::strike_hint()),
            (Event::Struck { .. }, _) => Err(timeline::kept_strike()),
            (_, Some(_)) => Err(timeline::kept_struck()),
            _ => Err(timeline::kept_phone()),
        };
        let strike = match strike {
            Ok(hint) => {
                let on_strike = move |reason| {
                    let event = Event::Struck { entry: id, reason };
                    kit.desk.record_then(CaseId::KIT, event, move || {
                        kit.sheet.try_set(Sheet::None);
                        kit.told.try_set(Some(said::struck().to_owned()));
                    });
                };
                view! { <Strike hint on_strike /> }.into_any()
            }
            Err(kept) => view! { <Note>{kept}</Note> }.into_any(),
        };
        Some(view! {
            <p class="hint">{time::day_hour(entry.at())}</p>
            <p class="finding-figure">{text}</p>
            {detail.map(|detail| view! { <p>{detail}</p> })}
            {struck.map(|reason| view! { <Note>{reason}</Note> })}
            <p class="hint">{place}</p>
            {strike}
        })
    };
    view! {
        <parts::Sheet
            open=Signal::derive(move || shown.read().is_some())
            on_close=Callback::new(move |()| kit.close())
            heading=said::entry()
            close_label=words::app::close()
        >
            {move || shown.get().map(|id| untrack(|| of(id)))}
        </parts::Sheet>
    }
}
