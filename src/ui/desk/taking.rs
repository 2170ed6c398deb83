//! Taking in what a file holds: how it stands to what is here, and keeping what is new.

use super::{Desk, Place};
use crate::case::{CaseId, Journal};
use crate::phone::tabs::Tab;
use crate::record::backup::Backup;
use crate::record::merge::Merge;
use crate::store::{self, Broke, Refusal, photos};
use gloo_timers::future::TimeoutFuture;
use leptos::prelude::*;
use std::sync::Arc;

/// Why nothing was taken in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NotTaken {
    /// Another tab writes.
    OtherTab,
    /// The phone's storage refused.
    Refused(Refusal),
}

/// What was taken in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Taken {
    /// Journals.
    pub journals: usize,
    /// Photos.
    pub photos: usize,
    /// Why a part was not, if one was not. To ask again goes on with it.
    pub broke: Option<Refusal>,
}

/// How far it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Progress {
    /// So many journals of so many.
    Journals(usize, usize),
    /// All journals are in; they are put in their places.
    Placing,
    /// So many photos of so many.
    Photos(usize, usize),
}

/// Milliseconds between two looks whether an entry is still being written.
const LOOK: u32 = 20;

impl Desk {
    /// How each journal and each photo of a file stands to what is here.
    ///
    /// # Errors
    /// [`Refusal`] when not everything here can be read: then nobody knows.
    pub async fn compare(self, file: &Backup) -> Result<Merge, Refusal> {
        let mut merge = Merge::default();
        for journal in &file.journals {
            let here = self.journal_here(journal.case()).await?;
            merge.journal(Arc::clone(journal), here.as_deref());
        }
        if file.photos().next().is_some() {
            merge.photos(file.photos(), &photos::names().await?);
        }
        Ok(merge)
    }

    /// The journal of this name, wherever it is.
    async fn journal_here(self, id: CaseId) -> Result<Option<Arc<Journal>>, Refusal> {
        if untrack(|| self.locked()) {
            return Err(Refusal::Locked);
        }
        self.keeping.with_untracked(|keeping| match (&keeping.archive, keeping.unread) {
            (Some(why), _) => Err(why.clone()),
            (None, 0) => Ok(()),
            (None, _) => Err(Refusal::Silent),
        })?;
        let held = self.cases.with_untracked(|cases| cases.get(&id).cloned());
        if let Some(held) = held {
            return Ok(Some(held.journal));
        }
        if !self.away.with_untracked(|away| away.lines.contains_key(&id)) {
            return Ok(None);
        }
        Ok(store::fetch(id).await?.map(|old| Arc::new(old.journal(id).0)))
    }

    /// Keeps what is new in a file: journals first, each all or none, then photos.
    ///
    /// # Errors
    /// [`NotTaken`]; nothing was changed, unless only the storage's answer was lost.
    pub async fn take(self, file: &Backup, told: impl Fn(Progress)) -> Result<Taken, NotTaken> {
        if self.place != Place::Phone || self.tab.get_untracked() == Tab::Other {
            return Err(NotTaken::OtherTab);
        }
        // What is recorded meanwhile waits, so that it follows from what is taken in.
        self.turn.update_value(|turn| turn.current = false);
        while self.turn.get_value().writing {
            TimeoutFuture::new(LOOK).await;
        }
        let kept = self.take_journals(file, &told).await;
        told(Progress::Placing);
        self.read_anew().await;
        let (merge, journals, broke) = kept.map_err(NotTaken::Refused)?;
        let mut taken = Taken { journals, photos: 0, broke };
        if taken.broke.is_none() {
            let wanted = merge.new_photos();
            for (at, name) in wanted.iter().enumerate() {
                told(Progress::Photos(at, wanted.len()));
                let Some(photo) = file.photo(*name) else { continue };
                match photos::keep(photo).await {
                    Ok(_) => taken.photos += 1,
                    Err(why) => {
                        taken.broke = Some(why);
                        break;
                    }
                }
            }
        }
        Ok(taken)
    }

    async fn take_journals(
        self,
        file: &Backup,
        told: impl Fn(Progress),
    ) -> Result<(Merge, usize, Option<Refusal>), Refusal> {
        // Compared anew: something may have been recorded while the user read.
        let merge = self.compare(file).await?;
        let all = merge.gives();
        told(Progress::Journals(0, all));
        let kept = store::take_in(merge.adds(), |kept| told(Progress::Journals(kept, all))).await;
        match kept {
            Ok(()) => Ok((merge, all, None)),
            Err(Broke { kept: 0, why }) => Err(why),
            Err(Broke { kept, why }) => Ok((merge, kept, Some(why))),
        }
    }
}
