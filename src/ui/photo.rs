//! A kept photo, fetched to be shown.

use crate::care::territory::Ground;
use crate::case::to_sweep;
use crate::measure::Hash;
use crate::phone::picture::ObjectUrl;
use crate::store::photos;
use crate::ui::desk::Desk;
use leptos::prelude::*;
use std::sync::Arc;
use wasm_bindgen_futures::spawn_local;

/// How the fetching of a photo stands.
#[derive(Clone, Debug, Default)]
pub enum Fetched {
    /// No photo is wanted, or it is on its way.
    #[default]
    Waiting,
    /// Here it is.
    Here(Arc<ObjectUrl>),
    /// It is not on this phone, or cannot be read.
    Gone,
}

/// The photo of this name.
pub async fn fetch(name: Hash) -> Fetched {
    let found = photos::get(name).await.ok().flatten();
    found.map_or(Fetched::Gone, |bytes| Fetched::of(&bytes))
}

impl Fetched {
    /// A photo whose bytes are at hand.
    pub fn of(bytes: &[u8]) -> Self {
        ObjectUrl::of(bytes).map_or(Self::Gone, |url| Self::Here(Arc::new(url)))
    }
}

/// The photo of a ground, once it is there. Without one the outline and the points stand alone.
pub fn use_photo(ground: &Ground) -> Signal<Fetched> {
    let fetched = RwSignal::new(Fetched::default());
    if let Ground::Photo { photo, .. } = ground {
        let name = photo.name;
        spawn_local(async move {
            let found = fetch(name).await;
            // The screen may be gone by now.
            fetched.try_set(found);
        });
    }
    fetched.into()
}

/// Deletes, once the phone has been read, the photos that the record says were deleted and that the
/// phone may have died over. One that is not let go now is tried at the next start.
pub fn sweep(desk: Desk) {
    Effect::new(move |_| {
        if !desk.ready() {
            return;
        }
        let cases = untrack(|| desk.all());
        let left = to_sweep(cases.iter().map(|held| &*held.case));
        spawn_local(async move {
            for name in left {
                let _ = photos::remove(name).await;
            }
        });
    });
}
