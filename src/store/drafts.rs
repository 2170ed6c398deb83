//! What is half done, kept for the moment: no record, and a patient's all the same, so that it lies
//! sealed like the rest. In localStorage alone; what cannot be kept or read is let go without a word.

use super::gate::Gate;
use super::local::storage;
use super::lock::{Lock, Warden};
use crate::case::CaseId;
use crate::seal::{is_letter, is_sealed};
use web_sys::Storage;

/// Names no line of the journal.
const DRAFTS: &str = "freshet/drawing/";

/// Keeps what is half done in a case, in place of what was before.
pub fn keep(case: CaseId, text: String) {
    if let Ok(storage) = storage() {
        let name = name(case);
        let text = Gate.lock().seal_text(&name, text, &mut Gate.random());
        // No room, or forbidden: after a reload it is then as it was kept last.
        let _ = storage.set_item(&name, &text);
    }
}

/// What was kept.
pub fn kept(case: CaseId) -> Option<String> {
    let name = name(case);
    let text = storage().ok()?.get_item(&name).ok()??;
    opened(&Gate.lock(), &name, text)
}

/// Lets it go.
pub fn forget(case: CaseId) {
    if let Ok(storage) = storage() {
        // What stays is found again, and can be begun anew.
        let _ = storage.remove_item(&name(case));
    }
}

/// Brings every draft into the form that the lock wants now. One that cannot be is let go: nothing is
/// to lie open behind a passcode.
pub(super) fn turn(from: &Lock) {
    let Ok(storage) = storage() else { return };
    let lock = Gate.lock();
    for name in names(&storage) {
        let Ok(Some(lies)) = storage.get_item(&name) else { continue };
        let well = match lock {
            Lock::Off => !is_sealed(&lies),
            Lock::Shut(_) => true,
            Lock::Open(_) => is_sealed(&lies) && !is_letter(&lies),
        };
        if well {
            continue;
        }
        let text = opened(from, &name, lies);
        let turned = text.map(|text| lock.seal_text(&name, text, &mut Gate.random()));
        let written = turned.is_some_and(|text| storage.set_item(&name, &text).is_ok());
        if !written {
            let _ = storage.remove_item(&name);
        }
    }
}

fn names(storage: &Storage) -> Vec<String> {
    let count = storage.length().unwrap_or(0);
    let names = (0..count).filter_map(|at| storage.key(at).ok().flatten());
    names.filter(|name| name.starts_with(DRAFTS)).collect()
}

fn opened(lock: &Lock, name: &str, text: String) -> Option<String> {
    if !is_sealed(&text) {
        return Some(text);
    }
    match lock {
        Lock::Off => None,
        Lock::Shut(letterbox) => letterbox.open_text(name, &text).ok(),
        Lock::Open(keys) => keys.open_text(name, &text).ok(),
    }
}

fn name(case: CaseId) -> String {
    format!("{DRAFTS}{case}")
}
