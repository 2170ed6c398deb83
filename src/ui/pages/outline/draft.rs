//! What is being drawn, kept for the moment: a phone may load the page anew behind the camera, or
//! end it. It is no record. What cannot be kept or read is let go without a word.

use super::work::Work;
use crate::case::CaseId;

/// What is longer than this, in characters, is not kept: the room belongs to the record.
const LONGEST: usize = 300_000;

/// Keeps it.
pub fn keep(case: CaseId, work: &Work) {
    let text = serde_json::to_string(work).ok().filter(|text| text.len() <= LONGEST);
    if let Some((storage, text)) = storage().zip(text) {
        // No room, or forbidden: after a reload it is then as it was kept last.
        let _ = storage.set_item(&key(case), &text);
    }
}

/// What was kept.
pub fn kept(case: CaseId) -> Option<Work> {
    let text = storage()?.get_item(&key(case)).ok()??;
    serde_json::from_str(&text).ok()
}

/// Lets it go.
pub fn forget(case: CaseId) {
    if let Some(storage) = storage() {
        // What stays is found again when this case is drawn next, and can be drawn anew.
        let _ = storage.remove_item(&key(case));
    }
}

fn key(case: CaseId) -> String {
    format!("freshet/drawing/{case}")
}

/// Asked for carefully: with cookies forbidden the mere question throws.
fn storage() -> Option<web_sys::Storage> {
    web_sys::window()?.local_storage().ok()?
}
