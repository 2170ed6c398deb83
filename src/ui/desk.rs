//! The cases in hand: what screens read, and the one way to record something.
//!
//! An event is written before it is shown. Taps that come while an earlier one is still being
//! written wait their turn, so that each entry follows from the one before.
//!
//! | file | what it is |
//! |---|---|
//! | `held` | a case in hand |
//! | `locking` | the passcode: what goes off the desk, and what stays |
//! | `reading` | what the phone keeps; cases from the archive |
//! | `taking` | what a file holds |
//! | `writing` | the queue, and what comes of a refusal |

mod held;
mod locking;
mod reading;
mod taking;
mod writing;

pub use held::Held;
pub use reading::Whereabouts;
pub use taking::{NotTaken, Progress, Taken};

use crate::case::{CaseId, Contact, Entry, Event, Headline, Reference};
use crate::kit::{self, Stock};
use crate::measure::order;
use crate::measure::{Moment, Span};
use crate::phone::tabs::{Tab, use_tab, use_take_over};
use crate::phone::{Clock, random, use_clock};
use crate::protocol::Protocol;
use crate::store::gate::Standing;
use crate::store::{Damaged, Refusal};
use leptos::prelude::*;
use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet, VecDeque};
use writing::Wanted;

/// How well the records are kept, to be said when it is not well.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Keeping {
    /// Why the last entry is on one shelf only.
    pub weak: Option<Refusal>,
    /// Entries that no shelf took. They live in this tab only.
    pub unsaved: Vec<Entry>,
    /// Lines found damaged at the start.
    pub damaged: Vec<Damaged>,
    /// How many of the two shelves could not be read at the start.
    pub unread: usize,
    /// Why the archive could not be read.
    pub archive: Option<Refusal>,
    /// The phone's clock stands before the last entry, by so much.
    pub clock_behind: Option<Span>,
}

/// What lies in the archive.
#[derive(Clone, Debug, Default)]
struct Away {
    /// Every case there in a few lines; it may be in hand too.
    lines: BTreeMap<CaseId, Headline>,
    /// Those that could not be fetched.
    unread: BTreeMap<CaseId, Refusal>,
}

/// Whose turn it is to write.
#[derive(Clone, Copy, Debug, Default)]
struct Turn {
    /// Whether what is on the desk is what the phone keeps: not while it is being read.
    current: bool,
    /// Whether an entry is being written.
    writing: bool,
}

/// Where a desk keeps what is recorded.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Place {
    /// On this phone, twice.
    Phone,
    /// Nowhere but on the desk: a rehearsal never comes near the records.
    Desk,
}

/// The cases in hand. Copied freely; provided as context by the app.
#[derive(Clone, Copy)]
pub struct Desk {
    place: Place,
    clock: Clock,
    cases: RwSignal<BTreeMap<CaseId, Held>>,
    away: RwSignal<Away>,
    ready: RwSignal<bool>,
    gate: RwSignal<Standing>,
    /// Cases begun while the phone was locked: they stay in reach here.
    letters: StoredValue<BTreeSet<CaseId>>,
    keeping: RwSignal<Keeping>,
    tab: ReadSignal<Tab>,
    take_over: Callback<()>,
    queue: StoredValue<VecDeque<Wanted>, LocalStorage>,
    /// What waits for the keys.
    later: StoredValue<VecDeque<Wanted>, LocalStorage>,
    turn: StoredValue<Turn>,
}

impl Desk {
    /// An empty desk that starts reading what the phone keeps.
    pub fn open() -> Self {
        let desk = Self::new(Place::Phone);
        desk.reload();
        desk
    }

    /// A desk for a rehearsal under the clinic's values: nothing is read, and nothing is kept beyond
    /// the life of the page.
    pub fn rehearse(protocol: Protocol) -> Self {
        let desk = Self::new(Place::Desk);
        desk.ready.set(true);
        desk.turn.update_value(|turn| turn.current = true);
        desk.set_protocol(protocol, || ());
        desk
    }

    fn new(place: Place) -> Self {
        Self {
            place,
            clock: use_clock(),
            cases: RwSignal::new(BTreeMap::new()),
            away: RwSignal::new(Away::default()),
            ready: RwSignal::new(false),
            gate: RwSignal::new(Standing::Unset),
            letters: StoredValue::new(BTreeSet::new()),
            keeping: RwSignal::new(Keeping::default()),
            tab: use_tab(),
            take_over: use_take_over(),
            queue: StoredValue::new_local(VecDeque::new()),
            later: StoredValue::new_local(VecDeque::new()),
            turn: StoredValue::new(Turn::default()),
        }
    }

    /// Whether what the phone keeps has been read.
    pub fn ready(self) -> bool {
        self.ready.get()
    }

    /// The moment at this very call, by the clock that this desk goes by.
    pub fn now(self) -> Moment {
        self.clock.now()
    }

    /// How well the records are kept.
    pub fn keeping(self) -> ReadSignal<Keeping> {
        self.keeping.read_only()
    }

    /// Every case in hand, the one last touched first. Every open one is among them, and every one
    /// with a reaction that goes on; of those closed long ago, only what was asked for.
    pub fn all(self) -> Vec<Held> {
        let held = self.cases.read();
        let mut cases: Vec<Held> =
            held.values().filter(|held| held.case.id.is_case()).cloned().collect();
        order::by_key(&mut cases, |held| Reverse(held.case.last));
        cases
    }

    /// Every case on this phone in a few lines, those in the archive too: open ones first, the one
    /// last touched first; then those closed, the one closed last first.
    pub fn headlines(self) -> Vec<Headline> {
        let cases = self.cases.read();
        let held = cases.values().filter(|held| held.case.id.is_case());
        let mut lines: Vec<Headline> = held.map(|held| held.case.headline(&held.journal)).collect();
        let away = self.away.read();
        lines.extend(away.lines.values().filter(|line| !cases.contains_key(&line.id)).cloned());
        order::by_key(&mut lines, |line| match line.closed {
            None => (false, Reverse(line.last)),
            Some((at, _)) => (true, Reverse(at)),
        });
        lines
    }

    /// When the last entry of anything on this phone was made, tracked; none while there is nothing.
    pub fn last_entry(self) -> Option<Moment> {
        let cases = self.cases.read();
        let away = self.away.read();
        let away = away.lines.values().map(|line| line.last);
        cases.values().map(|held| held.case.last).chain(away).max()
    }

    /// The kit, less what the cases took, those in the archive too.
    pub fn stock(self) -> Stock {
        let cases = self.cases.read();
        let real = cases.values().filter(|held| held.case.id.is_case());
        let away = self.away.read();
        let away = away.lines.values().filter(|line| !cases.contains_key(&line.id));
        let taken: Vec<_> = real
            .flat_map(|held| held.case.taken(&held.journal))
            .chain(away.flat_map(|line| line.taken.clone()))
            .collect();
        let kit = cases.get(&CaseId::KIT);
        kit.map(|held| held.case.stock(&held.journal, &taken)).unwrap_or_default()
    }

    /// Records what happened to the kit; `then` runs once it is recorded.
    pub fn record_kit(self, act: kit::Act, then: impl FnOnce() + 'static) {
        self.record_then(CaseId::KIT, Event::Kit(act), then);
    }

    /// Whom the clinic calls, in the order of what for.
    pub fn contacts(self) -> Vec<Contact> {
        self.held(CaseId::CLINIC).map(|held| held.case.contacts.clone()).unwrap_or_default()
    }

    /// Sets whom the clinic calls; `then` runs once it is recorded.
    pub fn set_contacts(self, mut contacts: Vec<Contact>, then: impl FnOnce() + 'static) {
        order::by_key(&mut contacts, |contact| contact.role);
        self.record_then(CaseId::CLINIC, Event::Contacts(contacts), then);
    }

    /// One case, tracked.
    pub fn held(self, id: CaseId) -> Option<Held> {
        self.cases.read().get(&id).cloned()
    }

    /// The clinic's values in force.
    pub fn protocol(self) -> Protocol {
        let clinic = self.held(CaseId::CLINIC);
        clinic.map_or_else(Protocol::default, |held| held.case.protocol.clone())
    }

    /// Sets the clinic's values for cases opened from now on; `then` runs once they are recorded.
    pub fn set_protocol(self, protocol: Protocol, then: impl FnOnce() + 'static) {
        self.record_then(CaseId::CLINIC, Event::Values(Box::new(protocol)), then);
    }

    /// Opens a case under the clinic's values; `then` runs once it is recorded. `None` if the phone
    /// gives no random bits to name it by.
    pub fn open_case(
        self,
        reference: Reference,
        then: impl FnOnce(CaseId) + 'static,
    ) -> Option<CaseId> {
        let id = CaseId::from_random(random::bits().ok()?);
        let protocol = Box::new(untrack(|| self.protocol()));
        self.record_then(id, Event::Opened { reference, protocol }, move || then(id));
        Some(id)
    }

    /// Records an event in a case.
    pub fn record(self, case: CaseId, event: Event) {
        self.want(Wanted { case, at: self.clock.now(), event, then: None });
    }

    /// Records an event in a case; `then` runs once it is recorded.
    pub fn record_then(self, case: CaseId, event: Event, then: impl FnOnce() + 'static) {
        self.want(Wanted { case, at: self.clock.now(), event, then: Some(Box::new(then)) });
    }

    /// Whether a round or a reaction runs in any case: not the time for a new version.
    pub fn busy(self, now: Moment) -> bool {
        self.cases.read().values().any(|held| held.case.runs(now))
    }
}

/// The desk.
///
/// # Panics
/// If no component above provided it.
pub fn use_desk() -> Desk {
    expect_context::<Desk>()
}
