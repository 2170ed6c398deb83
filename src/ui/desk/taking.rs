//! Taking in what a file holds: how it stands to what is here, and keeping what is new.

use super::{Desk, Place};
use crate::case::{CaseId, Entry, Journal};
use crate::phone::tabs::Tab;
use crate::record::lines::{Standing, standing};
use crate::store::{self, Refusal};
use leptos::prelude::*;

/// Why nothing was taken in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NotTaken {
    /// Another tab writes.
    OtherTab,
    /// The phone's storage refused.
    Refused(Refusal),
}

impl Desk {
    /// How each journal of a file stands to what is here; those in the archive are fetched for it.
    ///
    /// # Errors
    /// [`Refusal`] when the archive cannot be read: then nobody knows.
    pub async fn compare(self, journals: &[Journal]) -> Result<Vec<Standing>, Refusal> {
        for id in journals.iter().map(Journal::case) {
            if !self.at_hand(id).await {
                let why = self.away.with_untracked(|away| away.unread.get(&id).cloned());
                return Err(why.unwrap_or(Refusal::Silent));
            }
        }
        Ok(journals.iter().map(|journal| self.stands(journal)).collect())
    }

    fn stands(self, journal: &Journal) -> Standing {
        self.cases.with_untracked(|cases| {
            standing(journal, cases.get(&journal.case()).map(|held| &*held.journal))
        })
    }

    /// Keeps what is new in a file, all of it or nothing. Gives the cases that were taken.
    ///
    /// # Errors
    /// [`NotTaken`]; nothing was changed, unless only the storage's answer was lost.
    pub async fn take(self, journals: &[Journal]) -> Result<Vec<CaseId>, NotTaken> {
        if self.place != Place::Phone || self.tab.get_untracked() == Tab::Other {
            return Err(NotTaken::OtherTab);
        }
        // Compared anew: something may have been recorded while the user read.
        self.compare(journals).await.map_err(NotTaken::Refused)?;
        let mut entries: Vec<Entry> = Vec::new();
        let mut taken = Vec::new();
        for journal in journals {
            let known = match self.stands(journal) {
                Standing::New => 0,
                Standing::Newer(more) => journal.entries().len() - more,
                Standing::Same | Standing::Older(_) | Standing::Forked(_) => continue,
            };
            entries.extend_from_slice(&journal.entries()[known..]);
            taken.push(journal.case());
        }
        store::append_all(&entries).await.map_err(NotTaken::Refused)?;
        self.read_anew().await;
        Ok(taken)
    }
}
