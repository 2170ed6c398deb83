//! A kept photo, fetched to be shown; and deleting those that the record says are gone.

use crate::care::territory::Ground;
use crate::case::{Case, to_sweep};
use crate::measure::Hash;
use crate::phone::picture::ObjectUrl;
use crate::store::{self, Refusal, photos};
use crate::ui::desk::Desk;
use crate::ui::steps::Here;
use leptos::prelude::*;
use std::collections::BTreeSet;
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

/// The photo of this name, as it changes; waiting while there is none. One that the record says was
/// deleted is gone, though the phone may not have let go of it.
pub fn use_named(name: Signal<Option<Hash>>) -> Signal<Fetched> {
    let here = use_context::<Here>();
    let fetched = RwSignal::new(Fetched::default());
    Effect::new(move |_| {
        let wanted = name.get();
        fetched.set(Fetched::Waiting);
        let Some(wanted) = wanted else { return };
        if here.is_some_and(|here| here.now().is_deleted(wanted)) {
            fetched.set(Fetched::Gone);
            return;
        }
        spawn_local(async move {
            let found = fetch(wanted).await;
            // By now the screen may be gone, or show another.
            if name.try_get_untracked().flatten() == Some(wanted) {
                fetched.try_set(found);
            }
        });
    });
    fetched.into()
}

/// The photo of a ground, once it is there. Without one the outline and the points stand alone.
pub fn use_photo(ground: &Ground) -> Signal<Fetched> {
    use_named(Signal::stored(match ground {
        Ground::Photo { photo, .. } => Some(photo.name),
        Ground::Drawing { .. } => None,
    }))
}

/// Deletes the photos that the record says are gone. Copied freely; provided as context by the app.
#[derive(Clone, Copy)]
pub struct Sweep {
    desk: Desk,
    left: RwSignal<BTreeSet<Hash>>,
}

/// What became of a photo that the record says is gone.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Deleted {
    /// It is not on this phone any more.
    Gone,
    /// The phone did not let go of it.
    Refused,
    /// Another case shows the same photo.
    Shared,
}

/// Sweeps once the phone has been read, since it may have died over a deletion.
pub fn provide_sweep(desk: Desk) {
    let sweep = Sweep { desk, left: RwSignal::new(BTreeSet::new()) };
    provide_context(sweep);
    Effect::new(move |_| {
        // While the archive cannot be read or lies sealed, nobody knows what its cases still show.
        if desk.ready() && !desk.locked() && untrack(|| desk.keeping().read().archive.is_none()) {
            spawn_local(async move { drop(sweep.run(None).await) });
        }
    });
}

/// What deletes photos.
///
/// # Panics
/// If no component above provided it.
pub fn use_sweep() -> Sweep {
    expect_context::<Sweep>()
}

impl Sweep {
    /// Whether the phone did not let go of this photo; tracked.
    pub fn refused(self, name: Hash) -> bool {
        self.left.read().contains(&name)
    }

    /// Deletes a photo that the record says is gone.
    pub async fn delete(self, name: Hash) -> Deleted {
        let wanted = self.run(Some(name)).await;
        if self.left.with_untracked(|left| left.contains(&name)) {
            Deleted::Refused
        } else if wanted.contains(&name) {
            Deleted::Gone
        } else {
            Deleted::Shared
        }
    }

    /// Tries once more what the phone did not let go of; whether it did of all.
    pub async fn again(self) -> bool {
        self.run(None).await;
        self.left.with_untracked(BTreeSet::is_empty)
    }

    /// What is to be deleted in every case, those of the archive too.
    ///
    /// # Errors
    /// [`Refusal`] when a case of the archive could not be asked: it may show what another deleted.
    async fn wanted(self) -> Result<BTreeSet<Hash>, Refusal> {
        if untrack(|| self.desk.locked()) {
            return Err(Refusal::Locked);
        }
        let mut albums = Vec::new();
        for line in untrack(|| self.desk.headlines()) {
            let album = if let Some(album) = line.photos {
                album
            } else {
                let old = store::fetch(line.id).await?.unwrap_or_default();
                Case::of(&old.journal(line.id).0).album()
            };
            albums.push(album);
        }
        Ok(to_sweep(albums.iter()))
    }

    /// Deletes what is to be deleted and still lies here. Gives what was to be.
    async fn run(self, also: Option<Hash>) -> BTreeSet<Hash> {
        let (wanted, there) = (self.wanted().await, photos::names().await);
        let mut left = BTreeSet::new();
        match (&wanted, there) {
            (Ok(wanted), Ok(there)) => {
                for name in wanted.intersection(&there) {
                    if photos::remove(*name).await.is_err() {
                        left.insert(*name);
                    }
                }
            }
            // What was asked for is not known to be gone.
            _ => {
                left = self.left.with_untracked(|left| left.iter().copied().chain(also).collect());
            }
        }
        self.left.set(left);
        wanted.unwrap_or_default()
    }
}
