//! The debriefs of rehearsals, kept on this phone apart from every record.

use super::Refusal;
use super::trouble::refusal;
use crate::measure::Moment;
use crate::rehearsal::Debrief;
use gloo_storage::{LocalStorage, Storage};
use serde::{Deserialize, Serialize};

/// Names no line of the journal, so that no rehearsal ever comes into a record or its file.
const KEY: &str = "freshet/rehearsals";

/// So many of the newest are kept.
const KEPT: usize = 200;

/// A rehearsal that was played.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Played {
    /// When it ended, by the phone's clock.
    pub at: Moment,
    /// How it went.
    pub debrief: Debrief,
}

/// Those played, the oldest first. What cannot be read is left out: it is no record.
pub fn all() -> Vec<Played> {
    LocalStorage::raw()
        .get_item(KEY)
        .ok()
        .flatten()
        .and_then(|text| serde_json::from_str::<Vec<serde_json::Value>>(&text).ok())
        .unwrap_or_default()
        .into_iter()
        .filter_map(|played| serde_json::from_value(played).ok())
        .collect()
}

/// Keeps one more.
///
/// # Errors
/// [`Refusal`] when the browser does not take it; those before stay.
pub fn keep(played: Played) -> Result<(), Refusal> {
    let mut played: Vec<Played> = all().into_iter().chain([played]).collect();
    let from = played.len().saturating_sub(KEPT);
    played.drain(..from);
    let text = serde_json::to_string(&played).map_err(|error| Refusal::Other(error.to_string()))?;
    LocalStorage::raw().set_item(KEY, &text).map_err(|error| refusal(&error))
}

/// Forgets them all.
pub fn forget() {
    LocalStorage::delete(KEY);
}
