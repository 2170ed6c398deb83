//! Reading: what the phone keeps, at the start and whenever another tab wrote; cases from the archive
//! when they are wanted.

use super::{Desk, Held, Place};
use crate::case::{CaseId, Entry, Headline};
use crate::measure::Span;
use crate::phone::clock;
use crate::phone::tabs::Tab;
use crate::record::backup::{self, Sorted};
use crate::store::{self, Opened, Refusal, Trouble};
use leptos::prelude::*;
use std::collections::{BTreeMap, BTreeSet};
use wasm_bindgen_futures::spawn_local;

/// Where a case is, for a page of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Whereabouts {
    /// In hand.
    Here,
    /// On its way: the phone is being read, or its archive.
    Coming,
    /// Behind the passcode, if it is on this phone.
    Locked,
    /// In the archive, which could not be read.
    Unread(Refusal),
    /// Not on this phone.
    Nowhere,
}

impl Desk {
    /// Reads anew what the phone keeps, as after another tab wrote.
    pub fn reload(self) {
        if self.place == Place::Desk {
            return;
        }
        spawn_local(self.read_anew());
    }

    /// The same, done when it is read.
    pub(super) async fn read_anew(self) {
        self.turn.update_value(|turn| turn.current = false);
        // What no shelf took yet is to be written to a shelf first.
        self.look_at_gate().await;
        let spare = self.keeping.with_untracked(|keeping| {
            keeping.unsaved.iter().map(Entry::case).collect::<BTreeSet<_>>()
        });
        let mut opened = store::open(&spare).await;
        self.fetch_again(&mut opened).await;
        self.take_in(opened);
        self.away.update(|away| away.unread.clear());
        // Once: pages that wait for it would be drawn anew, and what is half typed lost.
        if !self.ready.get_untracked() {
            self.ready.set(true);
        }
        self.turn.update_value(|turn| turn.current = true);
        self.pump();
    }

    /// What is in hand and lies in the archive may have gone on in another tab and moved there since.
    async fn fetch_again(self, opened: &mut Opened) {
        for id in opened.archived.iter().map(|headline| headline.id).collect::<Vec<_>>() {
            if self.cases.with_untracked(|cases| cases.contains_key(&id)) {
                match store::fetch(id).await {
                    Ok(old) => opened.entries.extend(old.into_iter().flat_map(|old| old.entries)),
                    Err(why) => opened.trouble.push(Trouble::Archive(why)),
                }
            }
        }
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
        let read = |(id, entries)| (id, Held::read(id, entries, Vec::new()));
        let cases: BTreeMap<CaseId, Held> = entries.into_iter().map(read).collect();
        // A clock set back while the app was closed leaves entries from the future.
        let held = cases.values().map(|held| held.case.last);
        let last = held.chain(opened.archived.iter().map(|headline| headline.last)).max();
        let behind = last.unwrap_or_default().since(clock::now());
        self.cases.set(cases);
        self.keeping.update(|keeping| {
            // A damaged line whose entry was found whole on the other shelf takes nothing away.
            keeping.damaged = opened.damaged.into_iter().filter(|line| !line.mended).collect();
            keeping.unread = opened
                .trouble
                .iter()
                .filter(|trouble| matches!(trouble, Trouble::Unread(..)))
                .count();
            keeping.archive = opened.trouble.iter().find_map(|trouble| match trouble {
                Trouble::Archive(why) => Some(why.clone()),
                _ => None,
            });
            if opened.trouble.is_empty() {
                keeping.weak = None;
            }
            keeping.clock_behind = (behind > Span::ZERO).then_some(behind);
        });
        let archived: BTreeMap<CaseId, Headline> =
            opened.archived.into_iter().map(|headline| (headline.id, headline)).collect();
        // What was known of an archive that cannot be read now is better than nothing.
        if !archived.is_empty() || self.keeping.with_untracked(|k| k.archive.is_none()) {
            self.away.update(|away| away.lines = archived);
        }
    }

    /// Where a case is, tracked.
    pub fn whereabouts(self, id: CaseId) -> Whereabouts {
        if self.cases.read().contains_key(&id) {
            Whereabouts::Here
        } else if self.ready.get() && self.locked() {
            Whereabouts::Locked
        } else if let Some(why) = self.away.read().unread.get(&id) {
            Whereabouts::Unread(why.clone())
        } else if !self.ready.get() || self.away.read().lines.contains_key(&id) {
            Whereabouts::Coming
        } else if let Some(why) = &self.keeping.read().archive {
            Whereabouts::Unread(why.clone())
        } else {
            Whereabouts::Nowhere
        }
    }

    /// Fetches a case from the archive, if that is where it is; tracked, so that it is fetched once
    /// the phone has been read.
    pub fn want_at_hand(self, id: CaseId) {
        if self.ready.get() && self.whereabouts(id) == Whereabouts::Coming {
            spawn_local(async move {
                self.at_hand(id).await;
            });
        }
    }

    /// Fetches a case from the archive once more after it could not be read.
    pub fn fetch_anew(self, id: CaseId) {
        self.away.update(|away| drop(away.unread.remove(&id)));
        if self.away.with_untracked(|away| !away.lines.contains_key(&id)) {
            self.reload();
        }
    }

    /// Whether a case is in hand, or is no case of the archive; it is fetched if it is one.
    pub(super) async fn at_hand(self, id: CaseId) -> bool {
        let archived = self.away.with_untracked(|away| away.lines.contains_key(&id));
        if !archived || self.cases.with_untracked(|cases| cases.contains_key(&id)) {
            return true;
        }
        match store::fetch(id).await {
            Ok(old) => {
                let old = old.unwrap_or_default();
                let unread = old.damaged.into_iter().map(|(_, line, _)| line).collect();
                let held = Held::read(id, old.entries, unread);
                // Another fetch may have been quicker, and an entry may have been added to that.
                self.cases.update(|cases| {
                    cases.entry(id).or_insert(held);
                });
                true
            }
            Err(why) => {
                self.keeping.update(|keeping| keeping.archive = Some(why.clone()));
                self.away.update(|away| drop(away.unread.insert(id, why)));
                false
            }
        }
    }

    /// Everything recorded, and every damaged line, as one text for a file. Also why the archive is
    /// not in it, if it could not be read.
    pub async fn everything(self) -> (String, Option<Refusal>) {
        let (cases, damaged, missing) = self.gathered().await;
        let text: String = cases.into_values().collect();
        (text + &damaged, missing)
    }

    /// Everything recorded for a backup: what is whole, and the rest.
    ///
    /// # Errors
    /// [`Refusal`] when not everything could be read: a backup is all or none.
    pub async fn sorted(self) -> Result<Sorted, Refusal> {
        if self.tab.get_untracked() == Tab::Other {
            // What the other wrote since is to be in it.
            self.read_anew().await;
        }
        let (cases, damaged, missing) = self.gathered().await;
        // With both shelves unread nobody knows what is missing.
        let unread = self.keeping.with_untracked(|keeping| keeping.unread > 1);
        let missing = missing.or_else(|| unread.then_some(Refusal::Silent));
        if let Some(why) = missing {
            return Err(why);
        }
        let hurt = self.keeping.with_untracked(|keeping| {
            keeping.damaged.iter().filter_map(|damaged| damaged.key.case()).collect()
        });
        let mut sorted = backup::sorted(cases, &hurt);
        sorted.damaged.push_str(&damaged);
        Ok(sorted)
    }

    /// Every line of each case, and the damaged lines of none. Also why the archive is not among them,
    /// if it could not be read.
    async fn gathered(self) -> (BTreeMap<CaseId, String>, String, Option<Refusal>) {
        let held = self.cases.with_untracked(Clone::clone);
        let mut cases: BTreeMap<CaseId, String> =
            held.into_iter().map(|(id, held)| (id, held.lines())).collect();
        let texts = match self.place {
            Place::Phone if untrack(|| self.locked()) => Err(Refusal::Locked),
            Place::Phone => store::texts().await,
            Place::Desk => Ok(BTreeMap::new()),
        };
        let (texts, missing) = match texts {
            Ok(texts) => (texts, None),
            Err(why) => (BTreeMap::new(), Some(why)),
        };
        for (id, old) in texts {
            // What is in hand is there already, but for lines of it that were not read.
            match cases.get_mut(&id) {
                Some(text) => lines_but(&there([&*text]), old.lines(), text),
                None => drop(cases.insert(id, old)),
            }
        }
        let lines = self.keeping.with_untracked(|keeping| keeping.damaged.clone());
        let mut damaged = String::new();
        let known = there(cases.values());
        lines_but(&known, lines.iter().map(|damaged| damaged.line.as_str()), &mut damaged);
        (cases, damaged, missing)
    }
}

/// The lines of these texts.
fn there<'a>(texts: impl IntoIterator<Item = &'a String>) -> BTreeSet<String> {
    texts.into_iter().flat_map(|text| text.lines()).map(str::to_owned).collect()
}

/// Adds the lines that are not there yet.
fn lines_but<'a>(
    there: &BTreeSet<String>,
    lines: impl Iterator<Item = &'a str>,
    text: &mut String,
) {
    for line in lines.filter(|line| !there.contains(*line)) {
        text.push_str(line);
        text.push('\n');
    }
}
