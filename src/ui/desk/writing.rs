//! Writing: one entry after the other, each before it is shown.

use super::{Desk, Held, Place};
use crate::case::{CaseId, Event, Journal};
use crate::measure::Moment;
use crate::phone::clock;
use crate::phone::tabs::Tab;
use crate::store::gate::Standing;
use crate::store::{self, Stored, persist};
use leptos::prelude::*;
use std::collections::VecDeque;
use std::sync::Arc;
use wasm_bindgen_futures::spawn_local;

/// What to record, waiting its turn.
pub(super) struct Wanted {
    pub(super) case: CaseId,
    /// When it was tapped, which may be before it is written.
    pub(super) at: Moment,
    pub(super) event: Event,
    pub(super) then: Option<Box<dyn FnOnce()>>,
}

impl Desk {
    /// Where another tab writes, a tap here takes the writing over: the user is here, and no tap may
    /// be lost. It is written once this tab has read what the other wrote.
    pub(super) fn want(self, wanted: Wanted) {
        if self.place == Place::Phone && self.tab.get_untracked() == Tab::Other {
            self.turn.update_value(|turn| turn.current = false);
            self.take_over.run(());
        }
        self.queue.update_value(|queue| queue.push_back(wanted));
        self.pump();
    }

    /// Writes what waits, one after the other. Before the phone has been read nothing is written:
    /// an entry must follow from those that are there.
    pub(super) fn pump(self) {
        let alone = move || self.place == Place::Desk || self.tab.get_untracked() != Tab::Other;
        let free = move || self.turn.get_value().current && alone();
        if self.turn.get_value().writing || !free() {
            return;
        }
        self.turn.update_value(|turn| turn.writing = true);
        spawn_local(async move {
            while free() {
                let Some(wanted) = self.queue.try_update_value(VecDeque::pop_front).flatten()
                else {
                    break;
                };
                self.write(wanted).await;
            }
            self.turn.update_value(|turn| turn.writing = false);
        });
    }

    async fn write(self, wanted: Wanted) {
        if !self.can_follow(&wanted) {
            self.later.update_value(|later| later.push_back(wanted));
            return;
        }
        let Wanted { case, at, event, then } = wanted;
        let event = match event {
            // A case opened before the phone had been read goes by the clinic's values all the same:
            // they are known by now.
            Event::Opened { reference, .. } => {
                Event::Opened { reference, protocol: Box::new(untrack(|| self.protocol())) }
            }
            other => other,
        };
        if !self.at_hand(case).await {
            // Sealed without the entries before it, it would claim the place of the first. It waits.
            let wanted = Wanted { case, at, event, then };
            self.queue.update_value(|queue| queue.push_front(wanted));
            self.turn.update_value(|turn| turn.current = false);
            return;
        }
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
        if first && self.gate.get_untracked() == Standing::Shut {
            self.letters.update_value(|letters| {
                letters.insert(case);
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
}
