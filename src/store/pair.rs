//! Two shelves as one store: what is acknowledged is on both, or its lack is said.

use super::reconcile::Union;
use super::{Damaged, Key, Refusal, Repaired, Shelf, Side, Slip};
use crate::case::{CaseId, Entry, Headline};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt;

#[cfg(test)]
pub(super) mod tests;

/// Two shelves: a near one that is quick and a deep one that is sure.
#[derive(Clone, Copy, Debug, Default)]
pub struct Pair<Near, Deep> {
    near: Near,
    deep: Deep,
}

/// How well an entry is kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Stored {
    /// On both shelves.
    Twice,
    /// On one only. To be said to the user, with the record offered as a file. Without IndexedDB a
    /// killed browser can lose it.
    Once {
        /// The shelf that does not have it.
        missing: Side,
        /// Why.
        why: Refusal,
    },
}

/// Neither shelf took the entry.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StoreError {
    /// The entry, so that nothing is lost: it can be tried again or offered as a file.
    pub entry: Box<Entry>,
    /// Why localStorage refused.
    pub local: Refusal,
    /// Why IndexedDB refused.
    pub indexed: Refusal,
}

impl fmt::Display for StoreError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "entry not stored: {}; {}", self.local, self.indexed)
    }
}

impl std::error::Error for StoreError {}

/// What went wrong with a shelf at the start.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Trouble {
    /// It could not be read: what only it holds is not here, though not gone.
    Unread(Side, Refusal),
    /// It was read but could not be given what it lacks.
    Unmended(Side, Refusal),
    /// The archive could not be read: what it holds is not here, though not gone.
    Archive(Refusal),
    /// A case could not be put into the archive and stays where it was.
    Unmoved(Refusal),
}

/// What was found at the start.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Opened {
    /// Each whole entry once, by case and place; those that lie in the archive alone are not here.
    pub entries: Vec<Entry>,
    /// The cases that lie in the archive alone.
    pub archived: Vec<Headline>,
    /// Lines that are no entries; they stay on the shelves.
    pub damaged: Vec<Damaged>,
    /// How many entries each shelf lacked and now has.
    pub repaired: Repaired,
    /// What went wrong.
    pub trouble: Vec<Trouble>,
}

impl<Near: Shelf, Deep: Shelf> Pair<Near, Deep> {
    /// From a near shelf (localStorage) and a deep one (IndexedDB).
    pub const fn new(near: Near, deep: Deep) -> Self {
        Self { near, deep }
    }

    /// Keeps an entry. The near shelf has it when this returns; the future is done when the deep one
    /// has it too, and only then may anybody be told that it is recorded. An entry may be kept again:
    /// it stays one.
    ///
    /// # Errors
    /// [`StoreError`] with the entry, when both shelves refused it.
    pub fn append(&self, entry: Entry) -> impl Future<Output = Result<Stored, StoreError>> {
        let slip = Slip { key: Key::of(&entry), line: entry.line() };
        let near = self.near.put(vec![slip.clone()]);
        let deep = self.deep.put(vec![slip]);
        async move {
            match (near.await, deep.await) {
                (Ok(()), Ok(())) => Ok(Stored::Twice),
                (Ok(()), Err(why)) => Ok(Stored::Once { missing: Side::Indexed, why }),
                (Err(why), Ok(())) => Ok(Stored::Once { missing: Side::Local, why }),
                (Err(local), Err(indexed)) => {
                    Err(StoreError { entry: Box::new(entry), local, indexed })
                }
            }
        }
    }

    /// Keeps many entries on the deep shelf, all or none. The near one is given them when both are
    /// opened next.
    ///
    /// # Errors
    /// [`Refusal`] of the deep shelf; nothing was kept, unless only its answer was lost.
    pub async fn append_all(&self, entries: &[Entry]) -> Result<(), Refusal> {
        let slip = |entry: &Entry| Slip { key: Key::of(entry), line: entry.line() };
        self.deep.put(entries.iter().map(slip).collect()).await
    }

    /// Reads both shelves, gives each what only the other holds, and keeps damaged lines aside on
    /// both. A shelf that could not be read is not written to either. May be called again at any
    /// time, as when a shelf had refused and may have recovered.
    pub async fn open(&self) -> Opened {
        let found = self.find().await;
        let union = found.union(&[]);
        self.mend(found, union).await
    }

    /// Reads both shelves.
    pub(super) async fn find(&self) -> Found {
        let mut trouble = Vec::new();
        let mut read = |side, held: Result<Vec<Slip>, Refusal>| {
            held.map_err(|why| trouble.push(Trouble::Unread(side, why))).ok()
        };
        let near = read(Side::Local, self.near.all().await);
        let deep = read(Side::Indexed, self.deep.all().await);
        Found { near, deep, trouble }
    }

    /// Makes both shelves equal to the union of what was found on either.
    pub(super) async fn mend(&self, found: Found, union: Union) -> Opened {
        let Found { near, deep, mut trouble } = found;
        let mut repaired = Repaired::default();
        if let Some(lacking) = near.map(|held| union.lacking(&held)).filter(|l| !l.is_empty()) {
            let entries = count_entries(&lacking);
            match self.near.put(lacking).await {
                Ok(()) => repaired.local = entries,
                Err(why) => trouble.push(Trouble::Unmended(Side::Local, why)),
            }
        }
        if let Some(lacking) = deep.map(|held| union.lacking(&held)).filter(|l| !l.is_empty()) {
            let entries = count_entries(&lacking);
            match self.deep.put(lacking).await {
                Ok(()) => repaired.indexed = entries,
                Err(why) => trouble.push(Trouble::Unmended(Side::Indexed, why)),
            }
        }
        let (entries, damaged) = (union.entries, union.damaged);
        Opened { entries, damaged, repaired, trouble, ..Opened::default() }
    }

    /// Takes lines off both shelves. Only for what is known to lie in the archive.
    pub(super) async fn remove(&self, keys: Vec<Key>) -> Result<(), Refusal> {
        self.near.remove(keys.clone()).await?;
        self.deep.remove(keys).await
    }
}

/// What the two shelves hold, before anything is done about it.
pub(super) struct Found {
    /// None if it could not be read.
    pub(super) near: Option<Vec<Slip>>,
    /// None if it could not be read.
    pub(super) deep: Option<Vec<Slip>>,
    pub(super) trouble: Vec<Trouble>,
}

impl Found {
    /// What lies there, with what lies elsewhere.
    pub(super) fn union(&self, more: &[Slip]) -> Union {
        Union::of(self.near.iter().chain(&self.deep).flatten().chain(more))
    }

    /// What lies there, each line once, by case. Lines whose names tell no case are not among them.
    pub(super) fn by_case(&self) -> BTreeMap<CaseId, BTreeSet<Slip>> {
        let mut cases: BTreeMap<CaseId, BTreeSet<Slip>> = BTreeMap::new();
        for slip in self.near.iter().chain(&self.deep).flatten() {
            if let Some(case) = slip.key.case() {
                cases.entry(case).or_default().insert(slip.clone());
            }
        }
        cases
    }

    /// Passes over the lines of a case.
    pub(super) fn forget(&mut self, case: CaseId) {
        for shelf in self.near.iter_mut().chain(&mut self.deep) {
            shelf.retain(|slip| slip.key.case() != Some(case));
        }
    }
}

fn count_entries(slips: &[Slip]) -> usize {
    slips.iter().filter(|slip| !slip.key.is_aside()).count()
}
