//! A case in a few lines: what a list shows and a search finds, without folding its journal.

use super::{Album, Case, CaseId, Journal, Outcome};
use crate::care::allergy::Urgency;
use crate::kit::Taking;
use crate::measure::Moment;
use serde::{Deserialize, Serialize};

/// What lists and searches need of a case.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Headline {
    /// Its name.
    pub id: CaseId,
    /// The clinic's reference; empty before it has one.
    pub reference: String,
    /// When it was opened.
    pub opened: Moment,
    /// Minutes that local time was ahead of UTC then.
    pub zone: i16,
    /// When its last entry was made.
    pub last: Moment,
    /// How urgent; none before the way was taken.
    pub urgency: Option<Urgency>,
    /// How it was closed, if it was.
    pub closed: Option<(Moment, Outcome)>,
    /// Batches of the enzyme, each once, as noted.
    pub batches: Vec<String>,
    /// What it took from the kit.
    pub taken: Vec<Taking>,
    /// Its photos; none where they are not known, as in headlines written before they were told.
    #[serde(default)]
    pub photos: Option<Album>,
    /// Vials opened of which nothing is noted; none where it is not known, as in headlines written
    /// before they were counted.
    #[serde(default)]
    pub unnoted: Option<usize>,
}

impl Case {
    /// The case in a few lines.
    pub fn headline(&self, journal: &Journal) -> Headline {
        let mut batches: Vec<String> = Vec::new();
        for vial in self.vials(journal) {
            let batch = vial.batch.trim();
            if !batch.is_empty() && batches.iter().all(|known| known != batch) {
                batches.push(batch.to_owned());
            }
        }
        let reference = self.reference.as_ref().map_or("", |reference| reference.as_str());
        Headline {
            id: self.id,
            reference: reference.to_owned(),
            opened: self.opened,
            zone: journal.entries().first().map_or(0, |entry| entry.body().zone),
            last: self.last,
            urgency: self.urgency(),
            closed: self.closed,
            batches,
            taken: self.taken(journal),
            photos: Some(self.album()),
            unnoted: Some(self.unnoted(journal).iter().map(|one| one.vials.len()).sum()),
        }
    }
}

impl Headline {
    /// Whether an earlier version wrote it, which did not know all of what this one tells.
    pub const fn lacks(&self) -> bool {
        self.photos.is_none() || self.unnoted.is_none()
    }
}
