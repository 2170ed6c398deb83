//! The cases in hand: what screens read, and the one way to record something.
//!
//! An event is written before it is shown. Taps that come while an earlier one is still being
//! written wait their turn, so that each entry follows from the one before.

use crate::case::{Case, CaseId, Contact, Entry, Event, Fault, Journal, Reference};
use crate::kit::{self, Stock};
use crate::measure::{Hash, Moment, Span};
use crate::phone::tabs::{Tab, use_tab, use_take_over};
use crate::phone::{Clock, clock, random, use_clock};
use crate::protocol::Protocol;
use crate::store::{self, Damaged, Opened, Refusal, Stored, Trouble, persist};
use leptos::prelude::*;
use std::collections::{BTreeMap, BTreeSet, VecDeque};
use std::sync::Arc;
use wasm_bindgen_futures::spawn_local;

/// A case with the journal that it was folded from.
#[derive(Clone, Debug)]
pub struct Held {
    /// As recorded.
    pub journal: Arc<Journal>,
    /// As it stands.
    pub case: Arc<Case>,
    /// What was wrong with the journal when it was read.
    pub aside: Arc<Aside>,
}

/// What did not fit into a journal when it was read.
#[derive(Clone, Debug, Default)]
pub struct Aside {
    /// What is wrong with the chain.
    pub faults: Vec<Fault>,
    /// Lines of entries that are not used. They stay stored and go into every file.
    lines: BTreeSet<String>,
}

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
    /// The phone's clock stands before the last entry, by so much.
    pub clock_behind: Option<Span>,
}

/// What to record, waiting its turn.
struct Wanted {
    case: CaseId,
    /// When it was tapped, which may be before it is written.
    at: Moment,
    event: Event,
    then: Option<Box<dyn FnOnce()>>,
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
    ready: RwSignal<bool>,
    /// Whether what is on the desk is what the phone keeps: not while it is being read.
    current: StoredValue<bool>,
    keeping: RwSignal<Keeping>,
    tab: ReadSignal<Tab>,
    take_over: Callback<()>,
    queue: StoredValue<VecDeque<Wanted>, LocalStorage>,
    writing: StoredValue<bool>,
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
        desk.current.set_value(true);
        desk.set_protocol(protocol, || ());
        desk
    }

    fn new(place: Place) -> Self {
        Self {
            place,
            clock: use_clock(),
            cases: RwSignal::new(BTreeMap::new()),
            ready: RwSignal::new(false),
            current: StoredValue::new(false),
            keeping: RwSignal::new(Keeping::default()),
            tab: use_tab(),
            take_over: use_take_over(),
            queue: StoredValue::new_local(VecDeque::new()),
            writing: StoredValue::new(false),
        }
    }

    /// Reads anew what the phone keeps, as after another tab wrote.
    pub fn reload(self) {
        if self.place == Place::Desk {
            return;
        }
        self.current.set_value(false);
        spawn_local(async move {
            let opened = store::open().await;
            self.take_in(opened);
            self.ready.set(true);
            self.current.set_value(true);
            self.pump();
        });
    }

    fn take_in(self, opened: Opened) {
        let mut entries: BTreeMap<CaseId, Vec<Entry>> = BTreeMap::new();
        // What is in hand counts too: it may not be on a shelf yet, or on none at all.
        let in_hand: Vec<Entry> = self.cases.with_untracked(|cases| {
            cases.values().flat_map(|held| held.journal.entries().to_vec()).collect()
        });
        for entry in opened.entries.into_iter().chain(in_hand) {
            entries.entry(entry.case()).or_default().push(entry);
        }
        let cases = entries.into_iter().map(|(id, entries)| {
            let all = entries.clone();
            let (journal, faults) = Journal::from_entries(id, entries);
            let used: BTreeSet<Hash> = journal.entries().iter().map(Entry::id).collect();
            let aside = all.iter().filter(|entry| !used.contains(&entry.id())).map(Entry::line);
            let aside = Aside { faults, lines: aside.collect::<BTreeSet<_>>() };
            (id, Held::of(journal, Arc::new(aside)))
        });
        let cases: BTreeMap<CaseId, Held> = cases.collect();
        // A clock set back while the app was closed leaves entries from the future.
        let last = cases.values().map(|held| held.case.last).max().unwrap_or_default();
        let behind = last.since(clock::now());
        self.cases.set(cases);
        self.keeping.update(|keeping| {
            // A damaged line whose entry was found whole on the other shelf takes nothing away.
            keeping.damaged = opened.damaged.into_iter().filter(|line| !line.mended).collect();
            keeping.unread = opened
                .trouble
                .iter()
                .filter(|trouble| matches!(trouble, Trouble::Unread(..)))
                .count();
            if opened.trouble.is_empty() {
                keeping.weak = None;
            }
            keeping.clock_behind = (behind > Span::ZERO).then_some(behind);
        });
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

    /// Every case, the one last touched first.
    pub fn all(self) -> Vec<Held> {
        let held = self.cases.read();
        let mut cases: Vec<Held> =
            held.values().filter(|held| held.case.id.is_case()).cloned().collect();
        cases.sort_by_key(|held| std::cmp::Reverse(held.case.last));
        cases
    }

    /// The kit, less what the cases in hand took.
    pub fn stock(self) -> Stock {
        let cases = self.cases.read();
        let real = cases.values().filter(|held| held.case.id.is_case());
        let taken: Vec<_> = real.flat_map(|held| held.case.taken(&held.journal)).collect();
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
        contacts.sort_by_key(|contact| contact.role);
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

    /// Where another tab writes, a tap here takes the writing over: the user is here, and no tap may
    /// be lost. It is written once this tab has read what the other wrote.
    fn want(self, wanted: Wanted) {
        if self.place == Place::Phone && self.tab.get_untracked() == Tab::Other {
            self.current.set_value(false);
            self.take_over.run(());
        }
        self.queue.update_value(|queue| queue.push_back(wanted));
        self.pump();
    }

    /// Writes what waits, one after the other. Before the phone has been read nothing is written:
    /// an entry must follow from those that are there.
    fn pump(self) {
        let alone = move || self.place == Place::Desk || self.tab.get_untracked() != Tab::Other;
        let free = move || self.current.get_value() && alone();
        if self.writing.get_value() || !free() {
            return;
        }
        self.writing.set_value(true);
        spawn_local(async move {
            while free() {
                let Some(wanted) = self.queue.try_update_value(VecDeque::pop_front).flatten()
                else {
                    break;
                };
                self.write(wanted).await;
            }
            self.writing.set_value(false);
        });
    }

    async fn write(self, Wanted { case, at, event, then }: Wanted) {
        let held = self.cases.with_untracked(|cases| cases.get(&case).cloned());
        let first = held.is_none();
        let (mut journal, aside) = match held {
            Some(held) => (Arc::unwrap_or_clone(held.journal), held.aside),
            None => (Journal::new(case), Arc::default()),
        };
        let entry = journal.next(at, clock::zone(at), event);
        let outcome = match self.place {
            Place::Phone => store::append(entry.clone()).await,
            Place::Desk => Ok(Stored::Twice),
        };
        let recovered = matches!(outcome, Ok(Stored::Twice))
            && self.keeping.with_untracked(|keeping| keeping.weak.is_some());
        self.keeping.update(|keeping| match &outcome {
            Ok(Stored::Twice) => {}
            Ok(Stored::Once { why, .. }) => keeping.weak = Some(why.clone()),
            Err(_) => keeping.unsaved.push(entry.clone()),
        });
        // Refused by both shelves it still counts in this tab: what was injected was injected.
        if journal.push(entry).is_ok() {
            let held = Held::of(journal, aside);
            self.cases.update(|cases| {
                cases.insert(case, held);
            });
        }
        if first && outcome.is_ok() && self.place == Place::Phone {
            spawn_local(async {
                persist::persist().await;
            });
        }
        if let Some(then) = then {
            then();
        }
        if recovered {
            // The shelf that failed before takes again: give it what it lacks.
            self.reload();
        }
    }

    /// Tries again to keep what no shelf took.
    pub fn save_again(self) {
        let unsaved = self.keeping.with_untracked(|keeping| keeping.unsaved.clone());
        spawn_local(async move {
            for entry in unsaved {
                let id = entry.id();
                if store::append(entry).await.is_ok() {
                    // One by one: others may have become unsaved meanwhile.
                    self.keeping.update(|keeping| keeping.unsaved.retain(|other| other.id() != id));
                }
            }
        });
    }

    /// Everything recorded, and every damaged line, as one text for a file.
    pub fn everything(self) -> String {
        let mut text: String =
            self.cases.with_untracked(|cases| cases.values().map(Held::lines).collect());
        self.keeping.with_untracked(|keeping| {
            for damaged in &keeping.damaged {
                text.push_str(&damaged.line);
                text.push('\n');
            }
        });
        text
    }

    /// Whether a round or a reaction runs in any case: not the time for a new version.
    pub fn busy(self, now: Moment) -> bool {
        use crate::care::rounds::Phase;
        self.cases.read().values().any(|held| {
            let case = &held.case;
            let quiet = matches!(
                case.treatment.phase(now, &case.protocol),
                Phase::Ready | Phase::Looked | Phase::Ended(_)
            );
            // A reaction may go on after the case was closed.
            case.reaction.active() || (case.open() && (!quiet || case.preparation.is_some()))
        })
    }
}

impl Held {
    fn of(journal: Journal, aside: Arc<Aside>) -> Self {
        let case = Arc::new(Case::of(&journal));
        Self { journal: Arc::new(journal), case, aside }
    }

    /// Every line of the case for a file, those that are not used last.
    pub fn lines(&self) -> String {
        let aside = self.aside.lines.iter().map(|line| format!("{line}\n"));
        self.journal.lines() + &aside.collect::<String>()
    }
}

/// The desk.
///
/// # Panics
/// If no component above provided it.
pub fn use_desk() -> Desk {
    expect_context::<Desk>()
}
