//! The chained entries of one case.

use super::{Body, CaseId, Entry, Event, SCHEMA};
use crate::measure::order;
use crate::measure::{Hash, Moment};

/// How many missing places of one gap are told. A line from outside may claim any place at all, and
/// no phone has the room to name all those before it.
const MOST_MISSING: usize = 100;

/// The entries of one case, in order, each holding the digest of the one before.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Journal {
    case: CaseId,
    entries: Vec<Entry>,
}

/// What is wrong with a set of stored entries. The good ones are used all the same; each fault is
/// shown to the user.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Fault {
    /// No entry has this place, though later ones exist.
    Missing {
        /// The place.
        seq: u32,
    },
    /// The entry does not follow from the one before it.
    BrokenChain {
        /// Its place.
        seq: u32,
    },
    /// Two different entries claim one place; the one that the chain goes on from is used.
    Fork {
        /// The place.
        seq: u32,
        /// The entry not used.
        set_aside: Hash,
    },
}

impl Journal {
    /// An empty journal of a new case.
    pub const fn new(case: CaseId) -> Self {
        Self { case, entries: Vec::new() }
    }

    /// Puts stored entries of one case in order. Repeats of an entry count once; entries of other
    /// cases are passed over. Also gives what is wrong with them.
    pub fn from_entries(case: CaseId, stored: Vec<Entry>) -> (Self, Vec<Fault>) {
        let mut stored: Vec<Entry> = stored.into_iter().filter(|e| e.case() == case).collect();
        order::by_key(&mut stored, |entry| (entry.seq(), entry.id()));
        stored.dedup_by_key(|entry| entry.id());
        let mut journal = Self::new(case);
        let mut faults = Vec::new();
        let mut rest = stored.as_slice();
        while let Some(first) = rest.first() {
            let seq = first.seq();
            let same = rest.iter().take_while(|entry| entry.seq() == seq).count();
            let (here, later) = rest.split_at(same);
            rest = later;
            let next = journal.after_last();
            faults.extend((next..seq).take(MOST_MISSING).map(|seq| Fault::Missing { seq }));
            let chosen = choose(here, &journal, later);
            faults.extend(
                here.iter()
                    .filter(|entry| entry.id() != chosen.id())
                    .map(|entry| Fault::Fork { seq, set_aside: entry.id() }),
            );
            if next == seq && chosen.body().prev != journal.head() {
                faults.push(Fault::BrokenChain { seq });
            }
            journal.entries.push(chosen.clone());
        }
        (journal, faults)
    }

    /// Seals `event` as the next entry and adds it.
    ///
    /// The entry is to be stored before anybody is told that it was recorded.
    pub fn append(&mut self, at: Moment, zone: i16, event: Event) -> &Entry {
        let entry = self.next(at, zone, event);
        self.entries.push(entry);
        &self.entries[self.entries.len() - 1]
    }

    /// Seals `event` as what the next entry would be, without adding it.
    pub fn next(&self, at: Moment, zone: i16, event: Event) -> Entry {
        let seq = self.after_last();
        let prev = self.head();
        Entry::seal(Body { schema: SCHEMA, case: self.case, seq, at, zone, prev, event })
    }

    /// The place after the last entry. An entry that claims the last place there is has none after it.
    fn after_last(&self) -> u32 {
        self.entries.last().map_or(0, |entry| entry.seq().saturating_add(1))
    }

    /// Adds an entry that [`next`](Self::next) sealed. Gives it back if it does not follow.
    ///
    /// # Errors
    /// The entry itself, when another was added meanwhile.
    pub fn push(&mut self, entry: Entry) -> Result<(), Box<Entry>> {
        if entry.case() == self.case && entry.body().prev == self.head() {
            self.entries.push(entry);
            Ok(())
        } else {
            Err(Box::new(entry))
        }
    }

    /// The case it is of.
    pub const fn case(&self) -> CaseId {
        self.case
    }

    /// The entries in order.
    pub fn entries(&self) -> &[Entry] {
        &self.entries
    }

    /// The digest of the last entry, which stands for the whole journal.
    pub fn head(&self) -> Option<Hash> {
        self.entries.last().map(Entry::id)
    }

    /// Every line, as stored and as offered as a file.
    pub fn lines(&self) -> String {
        self.entries.iter().fold(String::new(), |mut text, entry| {
            text.push_str(&entry.line());
            text.push('\n');
            text
        })
    }
}

/// Of entries that claim one place, the one that later entries go on from; else the one that
/// follows from what is there; else the first.
fn choose<'a>(here: &'a [Entry], before: &Journal, later: &[Entry]) -> &'a Entry {
    let named = |entry: &&Entry| later.iter().any(|next| next.body().prev == Some(entry.id()));
    let follows = |entry: &&Entry| entry.body().prev == before.head();
    here.iter()
        .find(|entry| named(entry) && follows(entry))
        .or_else(|| here.iter().find(named))
        .or_else(|| here.iter().find(follows))
        .unwrap_or(&here[0])
}
