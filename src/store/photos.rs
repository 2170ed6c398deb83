//! Photos, kept on this phone only.
//!
//! A photo lies in IndexedDB under the SHA-256 of its bytes, so that the journal names it by a digest
//! and nobody can change it unseen. It is written as the journal's lines are: with strict durability,
//! read back, tried once more on a fresh connection. Two things differ. Photos are **not** mirrored
//! into localStorage, whose few megabytes belong to the journal: a lost database takes them, and
//! [`get`] then finds none. And a photo is refused while the browser tells of little room, so that
//! the last of it stays the journal's, which cannot do without. Not every browser tells the truth
//! there (Chromium tells of 10 GiB, whatever its limit); a photo that the database itself refuses
//! leaves everything as it was. A photo is deleted only after the journal says so.

use super::Refusal;
use crate::measure::Hash;
use std::fmt;

#[cfg(feature = "app")]
pub(super) use here::turn;
#[cfg(feature = "app")]
pub use here::{get, keep, names, remove};

/// Room that photos leave free, in bytes: more than what localStorage commonly holds (5 Mi characters
/// of two bytes), and so more than a journal that is kept twice can still need.
pub const RESERVE: u64 = 12_000_000;

/// Why a photo that was kept cannot be shown.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PhotoError {
    /// What lies under its name is not what was kept.
    Altered,
    /// The storage could not be read: the photo may be there all the same.
    Unread(Refusal),
}

impl fmt::Display for PhotoError {
    /// For logs and error reports; screens word it themselves.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Altered => f.write_str("the photo is not what was kept"),
            Self::Unread(why) => write!(f, "photo not read: {why}"),
        }
    }
}

impl std::error::Error for PhotoError {}

/// Whether a photo of `size` bytes leaves the [`RESERVE`] free, where `used` of `limit` bytes are in
/// use.
pub const fn leaves_room(used: u64, limit: u64, size: u64) -> bool {
    limit.saturating_sub(used) >= RESERVE.saturating_add(size)
}

/// A photo's bytes, if they are those that were kept under this name.
///
/// # Errors
/// [`PhotoError::Altered`] when they are not.
pub fn unaltered(name: Hash, bytes: Vec<u8>) -> Result<Vec<u8>, PhotoError> {
    if Hash::of(&bytes) == name { Ok(bytes) } else { Err(PhotoError::Altered) }
}

#[cfg(feature = "app")]
mod here {
    use super::super::database::{Part, delete, read, read_keys, twice, write};
    use super::super::gate::Gate;
    use super::super::lock::{Lock, Warden};
    use super::super::{Refusal, persist};
    use super::{PhotoError, leaves_room, unaltered};
    use crate::measure::Hash;
    use crate::seal::are_sealed;
    use js_sys::Uint8Array;
    use std::collections::BTreeSet;
    use wasm_bindgen::{JsCast, JsValue};
    use web_sys::IdbDatabase;

    /// Keeps a photo and returns its name. When it has returned, the photo is on the disk. A photo
    /// may be kept again: it stays one.
    ///
    /// # Errors
    /// [`Refusal`]; [`Refusal::Full`] while it would leave less room than the journal may need. What
    /// was kept before stays as it is.
    pub async fn keep(bytes: &[u8]) -> Result<Hash, Refusal> {
        let name = Hash::of(bytes);
        let sealed = Gate.lock().seal(&place(name), bytes.to_vec(), &mut Gate.random());
        put(&key(name), &sealed).await?;
        Ok(name)
    }

    /// Writes what is to lie under a key, and reads it back.
    async fn put(key: &JsValue, bytes: &[u8]) -> Result<(), Refusal> {
        // As bytes and not as a Blob: WebKit has lost Blobs from its database.
        let pair = [(key.clone(), Uint8Array::from(bytes).into())];
        twice(Part::Photos, async |database: &IdbDatabase| {
            let room = persist::room().await;
            if room.is_some_and(|room| !leaves_room(room.used, room.limit, size(bytes))) {
                return Err(Refusal::Full);
            }
            write(database, Part::Photos, &pair).await?;
            let back = lying(database, &pair[0].0).await?;
            if back.as_deref() == Some(bytes) { Ok(()) } else { Err(Refusal::NotReadBack) }
        })
        .await
    }

    /// The photo of this name; none if none is kept.
    ///
    /// # Errors
    /// [`PhotoError`] when it cannot be read, or is not what was kept.
    pub async fn get(name: Hash) -> Result<Option<Vec<u8>>, PhotoError> {
        let key = key(name);
        let found = twice(Part::Photos, async |database: &IdbDatabase| lying(database, &key).await);
        let found = found.await.map_err(PhotoError::Unread)?;
        let Some(bytes) = found else { return Ok(None) };
        opened(&Gate.lock(), name, bytes).and_then(|bytes| unaltered(name, bytes)).map(Some)
    }

    /// Brings every photo into the form that the lock wants now, one after the other: each is written
    /// in place of what lay there, which is one step.
    ///
    /// # Errors
    /// [`Refusal`]; what was not turned lies as it lay.
    pub(in crate::store) async fn turn(from: &Lock) -> Result<(), Refusal> {
        let sealing = matches!(Gate.lock(), Lock::Open(_));
        for name in names().await? {
            let key = key(name);
            let found =
                twice(Part::Photos, async |database: &IdbDatabase| lying(database, &key).await);
            let Some(bytes) = found.await? else { continue };
            if are_sealed(&bytes) == sealing {
                continue;
            }
            // What is not what was kept stays as it lies, to be told when it is looked at.
            let Ok(bytes) = opened(from, name, bytes) else { continue };
            put(&key, &Gate.lock().seal(&place(name), bytes, &mut Gate.random())).await?;
        }
        Ok(())
    }

    /// Bytes as they were before they were sealed.
    fn opened(lock: &Lock, name: Hash, bytes: Vec<u8>) -> Result<Vec<u8>, PhotoError> {
        if !are_sealed(&bytes) {
            return Ok(bytes);
        }
        match lock {
            Lock::Off => Err(PhotoError::Altered),
            Lock::Shut(letterbox) => letterbox
                .open(&place(name), &bytes)
                .map_err(|_| PhotoError::Unread(Refusal::Locked)),
            Lock::Open(keys) => keys.open(&place(name), &bytes).map_err(|_| PhotoError::Altered),
        }
    }

    /// Where a photo lies, for what is sealed.
    fn place(name: Hash) -> String {
        format!("photo/{name}")
    }

    /// The names of all photos that are kept here.
    ///
    /// # Errors
    /// [`Refusal`] when that cannot be read.
    pub async fn names() -> Result<BTreeSet<Hash>, Refusal> {
        let keys = twice(Part::Photos, async |database: &IdbDatabase| {
            read_keys(database, Part::Photos).await
        });
        Ok(keys.await?.iter().filter_map(|key| key.as_string()?.parse().ok()).collect())
    }

    /// Deletes the photo of this name, and looks that it is gone. Where there is none, nothing is done.
    ///
    /// # Errors
    /// [`Refusal`]: it may lie there still, and is to be deleted once more.
    pub async fn remove(name: Hash) -> Result<(), Refusal> {
        let key = [key(name)];
        twice(Part::Photos, async |database: &IdbDatabase| {
            delete(database, Part::Photos, &key).await?;
            let left = lying(database, &key[0]).await?;
            if left.is_none() { Ok(()) } else { Err(Refusal::NotReadBack) }
        })
        .await
    }

    /// The bytes under a key; none where there is nothing. What is no bytes has none, which is not
    /// what was kept.
    async fn lying(database: &IdbDatabase, key: &JsValue) -> Result<Option<Vec<u8>>, Refusal> {
        let found = read(database, Part::Photos, std::iter::once(key)).await?.pop();
        let found = found.filter(|value| !value.is_undefined());
        Ok(found
            .map(|value| value.dyn_into().map_or_else(|_| Vec::new(), |b: Uint8Array| b.to_vec())))
    }

    fn key(name: Hash) -> JsValue {
        JsValue::from(name.to_string())
    }

    const fn size(bytes: &[u8]) -> u64 {
        bytes.len() as u64
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_photo_leaves_the_journal_its_room() {
        let limit = 100_000_000;
        let last = limit - RESERVE - 300_000;
        assert!(leaves_room(last, limit, 300_000));
        assert!(!leaves_room(last + 1, limit, 300_000));
        assert!(!leaves_room(0, RESERVE, 1));
        assert!(!leaves_room(u64::MAX, u64::MAX, 1), "more than can be counted is full");
    }

    #[test]
    fn an_altered_photo_is_told() {
        let bytes = vec![0xff, 0xd8, 0xff, 0x00];
        let name = Hash::of(&bytes);
        assert_eq!(unaltered(name, bytes.clone()), Ok(bytes.clone()));
        let mut altered = bytes;
        altered[3] ^= 1;
        assert_eq!(unaltered(name, altered), Err(PhotoError::Altered));
        assert_eq!(unaltered(name, Vec::new()), Err(PhotoError::Altered));
    }
}
