//! Two shelves and an archive behind them, as one store.
//!
//! Nothing is taken from a shelf before the archive is known to hold it. So the work may break off at
//! any point, and the next start does it again or finishes it:
//!
//! 1. the text of the case goes into the archive, with its headline;
//! 2. it is read back: the same text, every line an entry, the chain whole;
//! 3. its lines are taken off the near shelf, then off the deep one.
//!
//! A case that is in the archive and also has lines on a shelf is one whose move broke off, or that
//! an older version or another tab still had; or it got a new entry. If the archive holds every one
//! of those lines, they are taken away, which finishes the move. Else the case comes back whole: both
//! shelves are given what they lack of it, and the text in the archive stays, until it is closed again
//! and moves again.

use super::archive::{self, Archived, BUDGET, Exchange, RENEWED, Vault, longest_closed};
use super::pair::Found;
use super::portions::{PORTION, portions};
use super::reconcile::Union;
use super::{Damaged, Key, Opened, Pair, Refusal, Shelf, Slip, StoreError, Stored, Trouble};
use crate::case::{Case, CaseId, Entry, Headline, Journal};
use std::collections::{BTreeMap, BTreeSet};

/// Two shelves and an archive behind them.
#[derive(Clone, Copy, Debug, Default)]
pub struct Tiers<Near, Deep, Old> {
    pair: Pair<Near, Deep>,
    vault: Old,
    budget: usize,
    portion: usize,
}

/// Taking in broke off.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Broke {
    /// How many journals are in all the same. One more portion may be, if only the answer was lost.
    pub kept: usize,
    /// Why no more are.
    pub why: Refusal,
}

impl<Near: Shelf, Deep: Shelf, Old: Vault> Tiers<Near, Deep, Old> {
    /// From a near shelf (localStorage), a deep one and an archive (both IndexedDB).
    pub const fn new(near: Near, deep: Deep, vault: Old) -> Self {
        Self { pair: Pair::new(near, deep), vault, budget: BUDGET, portion: PORTION }
    }

    /// The same with another budget than [`BUDGET`].
    #[must_use]
    pub fn with_budget(self, budget: usize) -> Self {
        Self { budget, ..self }
    }

    /// The same with portions of another size.
    #[must_use]
    pub fn with_portion(self, portion: usize) -> Self {
        Self { portion, ..self }
    }

    /// Keeps an entry on both shelves; see [`Pair::append`].
    ///
    /// # Errors
    /// [`StoreError`] with the entry, when both shelves refused it.
    pub fn append(&self, entry: Entry) -> impl Future<Output = Result<Stored, StoreError>> {
        self.pair.append(entry)
    }

    /// Keeps the entries of many journals, as of a file that is taken in: those of each journal all or
    /// none. `done` is told how many journals are in so far. On the deep shelf alone; the near one is
    /// given them by the next [`Tiers::open`], as far as they are to stay there at all.
    ///
    /// # Errors
    /// [`Broke`]; the journals before it are kept, and the same may be asked once more.
    pub async fn take_in(
        &self,
        journals: impl Iterator<Item = &[Entry]>,
        mut done: impl FnMut(usize),
    ) -> Result<(), Broke> {
        let mut kept = 0;
        for portion in portions(journals, self.portion) {
            self.pair.append_all(&portion.concat()).await.map_err(|why| Broke { kept, why })?;
            kept += portion.len();
            done(kept);
        }
        Ok(())
    }

    /// Reads both shelves and the headlines of the archive, makes the shelves equal, and moves the
    /// longest closed cases into the archive while the rest is over the budget; never one of `spare`.
    pub async fn open(&self, spare: &BTreeSet<CaseId>) -> Opened {
        let mut found = self.pair.find().await;
        let names = self.vault.names().await;
        let mut names = names.unwrap_or_else(|why| {
            found.trouble.push(Trouble::Archive(why));
            BTreeSet::new()
        });
        let back = self.come_back(&mut found, &names).await;
        let mut union = found.union(&back);
        if found.trouble.is_empty() {
            // First, so that what is to leave need not be put onto a shelf that lacks it.
            let (moved, trouble) = self.tidy(&union, spare).await;
            union.forget(&moved);
            names.extend(moved);
            found.trouble.extend(trouble);
        }
        let mut opened = self.pair.mend(found, union).await;
        self.read_headlines(&mut opened, names).await;
        opened
    }

    /// The text of a case in the archive, read; none if it has none.
    ///
    /// # Errors
    /// [`Refusal`] when the archive could not be read.
    pub async fn fetch(&self, id: CaseId) -> Result<Option<Archived>, Refusal> {
        Ok(self.vault.text(id).await?.map(|text| Archived::read(id, &text)))
    }

    /// Every text in the archive, by case.
    ///
    /// # Errors
    /// [`Refusal`] when the archive could not be read.
    pub async fn texts(&self) -> Result<BTreeMap<CaseId, String>, Refusal> {
        self.vault.texts().await
    }

    /// Finishes the moves that broke off. What the archive holds of the cases that are on the shelves
    /// all the same.
    async fn come_back(&self, found: &mut Found, names: &BTreeSet<CaseId>) -> Vec<Slip> {
        let mut back = Vec::new();
        for (id, slips) in found.by_case() {
            if !names.contains(&id) {
                continue;
            }
            let old = match self.fetch(id).await {
                Ok(Some(old)) => old,
                Ok(None) => continue,
                Err(why) => {
                    found.trouble.push(Trouble::Archive(why));
                    continue;
                }
            };
            if found.trouble.is_empty() && old.whole(id) && old.holds(slips.iter()) {
                let keys = slips.into_iter().map(|slip| slip.key).collect();
                // What a shelf does not let go now, it does at the next start.
                let _ = self.pair.remove(keys).await;
                found.forget(id);
            } else {
                back.extend(old.slips());
            }
        }
        back
    }

    /// Moves cases until the rest is within the budget. Gives the cases that were moved, and what kept
    /// another from moving.
    async fn tidy(
        &self,
        union: &Union,
        spare: &BTreeSet<CaseId>,
    ) -> (BTreeSet<CaseId>, Option<Trouble>) {
        let mut moved = BTreeSet::new();
        let mut left = archive::size(union.entries.iter());
        if left <= self.budget {
            return (moved, None);
        }
        for journal in longest_closed(union, spare) {
            if left <= self.budget {
                break;
            }
            match self.put_away(&journal).await {
                Ok(()) => {
                    left -= archive::size(journal.entries().iter());
                    moved.insert(journal.case());
                }
                // This case alone cannot go; the next may.
                Err(Refusal::Overtaken) => {}
                Err(why) => return (moved, Some(Trouble::Unmoved(why))),
            }
        }
        (moved, None)
    }

    /// Puts one case into the archive and takes it off the shelves.
    async fn put_away(&self, journal: &Journal) -> Result<(), Refusal> {
        let id = journal.case();
        let text = journal.lines();
        let before = self.vault.text(id).await?;
        if let Some(before) = &before {
            let lines: BTreeSet<&str> = text.lines().collect();
            if !before.lines().all(|line| lines.contains(line)) {
                return Err(Refusal::Overtaken);
            }
        }
        self.exchange(&Case::of(journal).headline(journal), before, &text).await?;
        let back = self.vault.text(id).await?;
        let same = back.as_ref() == Some(&text);
        let whole = back.map(|back| Archived::read(id, &back));
        let whole = whole.is_some_and(|back| back.whole(id) && back.entries == journal.entries());
        if !(same && whole) {
            return Err(Refusal::NotReadBack);
        }
        self.pair.remove(journal.entries().iter().map(Key::of).collect()).await
    }

    async fn exchange(
        &self,
        headline: &Headline,
        before: Option<String>,
        text: &str,
    ) -> Result<(), Refusal> {
        let json = serde_json::to_string(headline).map_err(|e| Refusal::Other(e.to_string()))?;
        let (id, text) = (headline.id, text.to_owned());
        self.vault.exchange(Exchange { id, before, text, headline: json }).await
    }

    /// The headlines of the cases that lie in the archive alone. One that is missing or cannot be read
    /// is made anew from the text.
    async fn read_headlines(&self, opened: &mut Opened, names: BTreeSet<CaseId>) {
        let here: BTreeSet<CaseId> = opened.entries.iter().map(Entry::case).collect();
        let known = match self.vault.headlines().await {
            Ok(known) => known,
            Err(why) => {
                opened.trouble.push(Trouble::Archive(why));
                return;
            }
        };
        let mut renewed = 0;
        for id in names.into_iter().filter(|id| !here.contains(id)) {
            let read = known.get(&id).and_then(|json| serde_json::from_str::<Headline>(json).ok());
            match read.filter(|headline| headline.id == id) {
                Some(old) if old.lacks() && renewed < RENEWED => {
                    renewed += 1;
                    let headline = self.renew(old).await;
                    opened.archived.push(headline);
                }
                Some(headline) => opened.archived.push(headline),
                None => self.make_headline(opened, id).await,
            }
        }
    }

    /// A headline of an earlier version, made anew from its text; as it is where that is not whole.
    async fn renew(&self, old: Headline) -> Headline {
        let Ok(Some(text)) = self.vault.text(old.id).await else { return old };
        let read = Archived::read(old.id, &text);
        let Some(new) = read.headline(old.id).filter(|_| read.whole(old.id)) else { return old };
        // Not kept, it is made again at the next start.
        let _ = self.exchange(&new, Some(text.clone()), &text).await;
        new
    }

    async fn make_headline(&self, opened: &mut Opened, id: CaseId) {
        let text = match self.vault.text(id).await {
            Ok(Some(text)) => text,
            Ok(None) => return,
            Err(why) => {
                opened.trouble.push(Trouble::Archive(why));
                return;
            }
        };
        let old = Archived::read(id, &text);
        if let Some(headline) = old.headline(id) {
            // Not kept, it is made again at the next start.
            let _ = self.exchange(&headline, Some(text.clone()), &text).await;
            opened.archived.push(headline);
        } else {
            opened.damaged.extend(old.damaged.into_iter().map(|(place, line, damage)| {
                let key = Key::in_archive(id, place);
                Damaged { key, line, damage, mended: false }
            }));
        }
    }
}
