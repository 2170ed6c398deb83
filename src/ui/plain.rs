//! What the plain page tells of the cases in hand when the app has stopped.
//!
//! At each entry the cases that it would tell are laid aside, as cheap as a few handles. Put into words
//! they are only when the app stops, and once it has been quiet for a moment: a stop that leaves no
//! word of its own, such as a full stack, finds the page ready all the same.

use super::alarm::{What, dues};
use super::desk::{Desk, Held};
use super::pages::timeline::days;
use super::words::plain as said;
use crate::case::{Contact, Entry, Role};
use crate::measure::{Moment, Span};
use crate::phone::{clock, panic};
use crate::protocol::Region;
use crate::store::gate::Standing;
use leptos::leptos_dom::helpers::TimeoutHandle;
use leptos::prelude::*;
use serde::Serialize;
use std::cell::RefCell;
use std::time::Duration;

/// How many entries of a case are told; the rest is in the record.
const NEWEST: usize = 40;
/// A case that nobody touched for longer is not being worked on.
const FRESH: Span = Span::hours(24);
/// Quiet for so long, the app has time to put it into words.
const QUIET: Duration = Duration::from_secs(1);

thread_local! {
    /// What would be told now.
    static ASIDE: RefCell<Aside> = RefCell::default();
}

/// What is laid aside to be told.
#[derive(Clone, Debug, Default)]
struct Aside {
    /// Whether the phone has been read; before, what is stored is told as it lies.
    ready: bool,
    cases: Vec<Held>,
    contacts: Vec<Contact>,
    region: Region,
    /// Lines that no shelf took: they are in this tab alone.
    unsaved: Vec<String>,
}

/// As `boot.js` reads it.
#[derive(Serialize)]
struct Told {
    ready: bool,
    hour: String,
    region: &'static str,
    cases: Vec<ToldCase>,
    emergency: Vec<(String, String)>,
    calls: Vec<(String, String)>,
    unsaved: Vec<String>,
}

#[derive(Serialize)]
struct ToldCase {
    name: String,
    due: Vec<ToldDue>,
    figures: Vec<(&'static str, String)>,
    heading: &'static str,
    lines: Vec<String>,
    earlier: Option<String>,
}

#[derive(Serialize)]
struct ToldDue {
    at: i64,
    before: String,
    after: String,
}

/// Keeps what would be told up to date, for the life of the app.
pub fn watch(desk: Desk) {
    // At once, and not when the browser has time: what is drawn of an entry may be what stops the app.
    ImmediateEffect::new_scoped(move || {
        let aside = Aside::of(desk);
        ASIDE.with(|kept| {
            if let Ok(mut kept) = kept.try_borrow_mut() {
                *kept = aside;
            }
        });
    });
    Effect::new(move |before: Option<Option<TimeoutHandle>>| {
        if let Some(before) = before.flatten() {
            before.clear();
        }
        desk.all();
        let tell = || {
            if let Some(told) = told() {
                panic::tell(&told);
            }
        };
        set_timeout(tell, QUIET).ok()
    });
}

impl Aside {
    /// With a passcode set, only cases where a patient is waiting: the page shows nothing that a lock
    /// would have hidden. Without one, every open case of the day.
    fn of(desk: Desk) -> Self {
        let now = clock::now();
        let guarded = desk.standing() != Standing::Unset;
        let told = |held: &Held| {
            let fresh = held.case.open() && now.since(held.case.last) < FRESH;
            held.case.in_reach(now) || (fresh && !guarded)
        };
        Self {
            ready: desk.ready(),
            cases: desk.all().into_iter().filter(told).collect(),
            contacts: desk.contacts(),
            region: desk.protocol().region,
            unsaved: desk.keeping().read().unsaved.iter().map(Entry::line).collect(),
        }
    }
}

/// What is told, for `boot.js`; none if nothing can be said of anything.
pub fn told() -> Option<String> {
    let aside = ASIDE.with(|kept| kept.try_borrow().ok().map(|kept| kept.clone()))?;
    let call = |contact: &Contact| (said::call(contact), contact.number.uri());
    let (emergency, others): (Vec<_>, Vec<_>) =
        aside.contacts.iter().partition(|contact| contact.role == Role::Emergency);
    let told = Told {
        ready: aside.ready,
        hour: said::as_of(clock::now()),
        region: said::region(aside.region),
        cases: aside.cases.iter().map(case).collect(),
        emergency: emergency.into_iter().map(call).collect(),
        calls: others.into_iter().map(call).collect(),
        unsaved: aside.unsaved,
    };
    serde_json::to_string(&told).ok()
}

fn case(held: &Held) -> ToldCase {
    let case = &held.case;
    let name = case.reference.as_ref().map_or(said::unnamed(), |reference| reference.as_str());
    let due = |what: What, at: Moment| ToldDue {
        at: at.millis(),
        before: said::due(what, at),
        after: said::late(what, at),
    };
    let mut figures = Vec::new();
    if let Some(at) = case.findings.as_ref().and_then(|found| found.onset) {
        figures.push((said::onset(), super::words::time::day_hour(at)));
    }
    if !case.treatment.rounds().is_empty() {
        figures.push((said::rounds_label(), case.treatment.rounds().len().to_string()));
        figures.push((said::units_so_far(), said::units(case.treatment.units())));
    }
    let lines: Vec<String> = days(held)
        .into_iter()
        .flat_map(|day| day.lines)
        .map(|line| {
            let detail = line.detail.map_or_else(String::new, |detail| format!(". {detail}"));
            let struck = line.struck.map_or_else(String::new, |struck| format!(". {struck}"));
            let mark =
                if struck.is_empty() { String::new() } else { format!("{} ", said::struck_mark()) };
            format!("{} {mark}{}{detail}{struck}", line.time, line.text)
        })
        .collect();
    let more = lines.len().saturating_sub(NEWEST);
    ToldCase {
        name: name.to_owned(),
        due: dues(case).map(|bell| due(bell.what, bell.due)).collect(),
        figures,
        heading: said::lines(),
        lines: lines.into_iter().rev().take(NEWEST).collect(),
        earlier: (more > 0).then(|| said::earlier(more)),
    }
}
