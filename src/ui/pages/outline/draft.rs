//! What is being drawn, kept for the moment: a phone may load the page anew behind the camera, or
//! end it. It is no record. What cannot be kept or read is let go without a word.

use super::work::Work;
use crate::case::CaseId;
use crate::store::drafts;

pub use drafts::forget;

/// What is longer than this, in characters, is not kept: the room belongs to the record.
const LONGEST: usize = 300_000;

/// Keeps it.
pub fn keep(case: CaseId, work: &Work) {
    let text = serde_json::to_string(work).ok().filter(|text| text.len() <= LONGEST);
    if let Some(text) = text {
        drafts::keep(case, text);
    }
}

/// What was kept.
pub fn kept(case: CaseId) -> Option<Work> {
    serde_json::from_str(&drafts::kept(case)?).ok()
}
