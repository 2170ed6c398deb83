//! The archive: closed cases as one text each, so that the shelves hold what is worked on.
//!
//! A text says what the lines of a case say, one below the other, as in a file. It is never replaced
//! by less: [`Vault::exchange`] writes only where what lies there is what was read before, and
//! `Tiers` only gives it what holds every line of that.

use super::reconcile::Union;
use super::{Key, Refusal, Slip};
use crate::case::{Case, CaseId, Damage, Entry, Fault, Headline, Journal};
use crate::measure::order;
use crate::measure::{Hash, Moment};
use std::collections::{BTreeMap, BTreeSet};

/// How many characters the entries on the near shelf may come to before closed cases leave it.
///
/// At each start every one of them is read, digested and folded, on a phone in a hurry; and the
/// browser with the least room (5 MB of two bytes a character) ends at 2,600,000 characters. A case
/// of eighty entries is some 30,000, so that thirty cases stay at hand, and more than half of the
/// room is left to the cases that are open.
pub const BUDGET: usize = 1_000_000;

/// How many headlines of an earlier version a start makes anew: few, since each takes a case's whole
/// text to be read. The rest wait for the next start.
pub const RENEWED: usize = 25;

/// A place to keep whole cases.
pub trait Vault {
    /// Every case that has a text here.
    fn names(&self) -> impl Future<Output = Result<BTreeSet<CaseId>, Refusal>>;

    /// The text of a case; none if it has none.
    fn text(&self, id: CaseId) -> impl Future<Output = Result<Option<String>, Refusal>>;

    /// Every text.
    fn texts(&self) -> impl Future<Output = Result<BTreeMap<CaseId, String>, Refusal>>;

    /// Every headline, as it was written.
    fn headlines(&self) -> impl Future<Output = Result<BTreeMap<CaseId, String>, Refusal>>;

    /// Writes the text and the headline of a case, both or neither, onto the disk; only if its text
    /// still is what it was `before`.
    ///
    /// # Errors
    /// [`Refusal::Overtaken`] if it is not; any other with nothing changed, or with all of it written
    /// and the answer lost.
    fn exchange(&self, exchange: Exchange) -> impl Future<Output = Result<(), Refusal>>;
}

/// What takes the place of what.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Exchange {
    /// Of which case.
    pub id: CaseId,
    /// The text that lies there; none if there is none.
    pub before: Option<String>,
    /// The text that is to lie there.
    pub text: String,
    /// The headline, as it is to be read back.
    pub headline: String,
}

/// A case as its text in the archive says.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Archived {
    /// Each whole entry, as they stand in the text.
    pub entries: Vec<Entry>,
    /// Lines that are no entries of this case, with their places in the text.
    pub damaged: Vec<(usize, String, Damage)>,
}

impl Archived {
    /// Reads the text of a case.
    pub fn read(id: CaseId, text: &str) -> Self {
        let mut read = Self::default();
        for (place, line) in text.lines().enumerate() {
            match Entry::read(line) {
                Ok(entry) if entry.case() == id => read.entries.push(entry),
                Ok(_) => read.damaged.push((place, line.to_owned(), Damage::Unreadable)),
                Err(damage) => read.damaged.push((place, line.to_owned(), damage)),
            }
        }
        read
    }

    /// The entries in order, with what is wrong with their chain.
    pub fn journal(&self, id: CaseId) -> (Journal, Vec<Fault>) {
        Journal::from_entries(id, self.entries.clone())
    }

    /// Whether every line is an entry and each follows from the one before.
    pub fn whole(&self, id: CaseId) -> bool {
        self.damaged.is_empty() && !self.entries.is_empty() && self.journal(id).1.is_empty()
    }

    /// Whether all these lines are entries that it holds.
    pub(super) fn holds<'a>(&self, mut slips: impl Iterator<Item = &'a Slip>) -> bool {
        let held: BTreeSet<Hash> = self.entries.iter().map(Entry::id).collect();
        slips.all(|slip| {
            // The text too: what lies there may be an entry that was changed under its old name.
            !slip.key.is_aside()
                && Entry::read(&slip.line).is_ok_and(|entry| held.contains(&entry.id()))
        })
    }

    /// The lines as they would lie on a shelf.
    pub(super) fn slips(&self) -> impl Iterator<Item = Slip> {
        self.entries.iter().map(|entry| Slip { key: Key::of(entry), line: entry.line() })
    }

    /// The case in a few lines; none if no entry of it can be read.
    pub(super) fn headline(&self, id: CaseId) -> Option<Headline> {
        let (journal, _) = self.journal(id);
        (!journal.entries().is_empty()).then(|| Case::of(&journal).headline(&journal))
    }
}

/// The cases that may leave the shelves, the longest closed first: closed, with no reaction that goes
/// on, every line whole and each entry following from the one before; none of `spare`.
pub(super) fn longest_closed(union: &Union, spare: &BTreeSet<CaseId>) -> Vec<Journal> {
    let hurt: BTreeSet<CaseId> =
        union.damaged.iter().filter_map(|damaged| damaged.key.case()).collect();
    let mut cases: BTreeMap<CaseId, Vec<Entry>> = BTreeMap::new();
    for entry in &union.entries {
        cases.entry(entry.case()).or_default().push(entry.clone());
    }
    cases.retain(|id, _| id.is_case() && !hurt.contains(id) && !spare.contains(id));
    let mut closed: Vec<(Moment, Journal)> = cases
        .into_iter()
        .filter_map(|(id, entries)| {
            let (journal, faults) = Journal::from_entries(id, entries);
            let case = Case::of(&journal);
            let (since, _) = case.closed?;
            (faults.is_empty() && !case.reaction.active()).then_some((since, journal))
        })
        .collect();
    order::by_key(&mut closed, |(since, journal)| (*since, journal.case()));
    closed.into_iter().map(|(_, journal)| journal).collect()
}

/// How many characters these entries take on the near shelf, their names too.
pub(super) fn size<'a>(entries: impl Iterator<Item = &'a Entry>) -> usize {
    // Lines are ASCII but for what people typed, of which a character is at least as many bytes.
    entries.map(|entry| Key::of(entry).as_str().len() + entry.line().len()).sum()
}
