//! A browser's exceptions as refusals.

use super::Refusal;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::DomException;

/// What a thrown value means.
pub(super) fn refusal(thrown: &JsValue) -> Refusal {
    match thrown.dyn_ref::<DomException>() {
        Some(exception) => named(&exception.name(), &exception.message()),
        None => Refusal::Other(format!("{thrown:?}")),
    }
}

/// What an exception's name means. Names are of the W3C's Storage and Indexed Database standards;
/// the second spelling of a full store is an older one.
fn named(name: &str, message: &str) -> Refusal {
    match name {
        "QuotaExceededError" | "NS_ERROR_DOM_QUOTA_REACHED" => Refusal::Full,
        "SecurityError" | "NotAllowedError" => Refusal::Denied,
        "VersionError" => Refusal::NewerForm,
        // What the browsers throw when they took the connection away: another page deleted the data,
        // or the phone put the app to sleep.
        "AbortError"
        | "InvalidStateError"
        | "TimeoutError"
        | "TransactionInactiveError"
        | "UnknownError" => Refusal::Lost(format!("{name}: {message}")),
        _ => Refusal::Other(format!("{name}: {message}")),
    }
}
