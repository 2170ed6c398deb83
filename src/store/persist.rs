//! Asking the browser not to throw the records away when the phone runs short of room.

use js_sys::Promise;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{StorageEstimate, StorageManager};

/// What the browser promises.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Persistence {
    /// Records stay until the user clears them.
    Granted,
    /// The browser may clear them when room runs short.
    Refused,
    /// It does not say.
    Unknown,
}

/// How much this origin uses and may use, in bytes; both are rough by design.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Room {
    /// In use.
    pub used: u64,
    /// At most.
    pub limit: u64,
}

/// Asks for persistent storage. To be called once something is worth keeping: some browsers ask the
/// user, and some decide by how much the app is used.
pub async fn persist() -> Persistence {
    answer(manager().and_then(|manager| manager.persist().ok())).await
}

/// What was promised before, without asking anew.
pub async fn persisted() -> Persistence {
    answer(manager().and_then(|manager| manager.persisted().ok())).await
}

/// How much room there is, if the browser says.
pub async fn room() -> Option<Room> {
    let told = JsFuture::from(manager()?.estimate().ok()?).await.ok()?;
    let told: StorageEstimate = told.unchecked_into();
    Some(Room { used: bytes(told.get_usage()?), limit: bytes(told.get_quota()?) })
}

async fn answer(asked: Option<Promise>) -> Persistence {
    let Some(asked) = asked else { return Persistence::Unknown };
    match JsFuture::from(asked).await.ok().as_ref().and_then(JsValue::as_bool) {
        Some(true) => Persistence::Granted,
        Some(false) => Persistence::Refused,
        None => Persistence::Unknown,
    }
}

/// None outside a secure context, where browsers have no such thing.
fn manager() -> Option<StorageManager> {
    let manager = web_sys::window()?.navigator().storage();
    (!manager.is_undefined()).then_some(manager)
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "saturates")]
const fn bytes(told: f64) -> u64 {
    told as u64
}
