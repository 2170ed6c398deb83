//! A case in hand: its journal, what folds from it, and what did not fit into it.

use crate::case::{Case, CaseId, Entry, Fault, Journal};
use crate::measure::Hash;
use std::collections::BTreeSet;
use std::sync::Arc;

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
    pub(super) lines: BTreeSet<String>,
}

impl Held {
    pub(super) fn of(journal: Journal, aside: Arc<Aside>) -> Self {
        let case = Arc::new(Case::of(&journal));
        Self { journal: Arc::new(journal), case, aside }
    }

    /// From the entries that were found of it, in any order, and lines that are no entries.
    pub(super) fn read(id: CaseId, entries: Vec<Entry>, unread: Vec<String>) -> Self {
        let all = entries.clone();
        let (journal, faults) = Journal::from_entries(id, entries);
        let used: BTreeSet<Hash> = journal.entries().iter().map(Entry::id).collect();
        let aside = all.iter().filter(|entry| !used.contains(&entry.id())).map(Entry::line);
        let lines = aside.chain(unread).collect();
        Self::of(journal, Arc::new(Aside { faults, lines }))
    }

    /// Every line of the case for a file, those that are not used last.
    pub fn lines(&self) -> String {
        let aside = self.aside.lines.iter().map(|line| format!("{line}\n"));
        self.journal.lines() + &aside.collect::<String>()
    }
}
