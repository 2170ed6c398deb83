//! Where the journal is kept: what is worked on twice, so that neither a killed browser nor a lost
//! database takes it; what was closed long ago once, in an archive.
//!
//! | part | what it does | needs a browser |
//! |---|---|---|
//! | [`Key`] | names a line, the same on both shelves | no |
//! | [`Shelf`] | what a place to keep lines must promise, and how it refuses | no |
//! | [`reconcile`] | from what two shelves hold, what is whole and what each lacks | no |
//! | [`Pair`] | writes to both shelves, acknowledges, opens again | no |
//! | [`archive`] | what a place for whole cases must promise, and which cases go there | no |
//! | [`lock`], [`sealed`] | the same behind a passcode: who has the keys, and the places sealed | no |
//! | [`Tiers`] | the shelves and the archive as one store; moves cases, takes files in | no |
//! | `portions` | many journals on their way in | no |
//! | `local`, `indexed` | the two shelves of a browser | yes |
//! | `vault` | the archive of a browser | yes |
//! | `database` | the connection that `indexed`, `vault` and [`photos`] share | yes |
//! | [`photos`] | photos, by the digest of their bytes | yes |
//! | `drafts` | what is half done, which is no record | yes |
//! | `gate` | whether a passcode is set, and who has the keys in this tab | yes |
//! | `persist` | asks the browser not to throw it all away | yes |
//! | `rehearsals` | the debriefs of rehearsals, which are no record | yes |
//! | [`habits`] | what is set for this phone, which is no record | to be kept |
//!
//! Browsers write localStorage out lazily: a killed process can lose its last seconds. IndexedDB with
//! strict durability answers only once the line is on the disk, but phones cut its connection off and
//! whole databases have been lost. So each entry goes to both, is acknowledged by the second, and
//! [`Tiers::open`] makes the two equal again at each start.
//!
//! localStorage is small and is read whole at each start. Past [`archive::BUDGET`] the cases that
//! were closed longest ago move into the archive, which is in IndexedDB alone, like the photos, for
//! which localStorage has no room at all. A line is taken off the shelves only once the archive has
//! been read back and holds it; no line is ever taken out of the archive.

pub mod archive;
pub mod habits;
pub mod key;
pub mod lock;
pub mod pair;
pub mod photos;
mod portions;
pub mod reconcile;
pub mod sealed;
pub mod shelf;
mod tiers;

#[cfg(feature = "app")]
mod database;
#[cfg(feature = "app")]
pub mod drafts;
#[cfg(feature = "app")]
pub mod gate;
#[cfg(feature = "app")]
mod indexed;
#[cfg(feature = "app")]
mod local;
#[cfg(feature = "app")]
pub mod persist;
#[cfg(feature = "app")]
pub mod rehearsals;
#[cfg(feature = "app")]
mod trouble;
#[cfg(feature = "app")]
mod vault;

pub use key::Key;
pub use lock::{Lock, Warden};
pub use pair::{Opened, Pair, StoreError, Stored, Trouble};
pub use reconcile::{Damaged, Repaired};
pub use sealed::Sealed;
pub use shelf::{Refusal, Shelf, Side, Slip};
pub use tiers::{Broke, Tiers};

#[cfg(feature = "app")]
pub use here::{Store, append, fetch, open, take_in, texts};

#[cfg(feature = "app")]
mod here {
    use super::archive::Archived;
    use super::gate::Gate;
    use super::indexed::Indexed;
    use super::local::Local;
    use super::lock::Lock;
    use super::vault::Old;
    use super::{Broke, Opened, Refusal, Sealed, StoreError, Stored, Tiers};
    use crate::case::{CaseId, Entry};
    use std::collections::{BTreeMap, BTreeSet};

    /// The two shelves and the archive of this browser, behind its gate.
    pub type Store = Tiers<Sealed<Local, Gate>, Sealed<Indexed, Gate>, Sealed<Old, Gate>>;

    const NEAR: Sealed<Local, Gate> = Sealed::new(Local, Gate);
    const DEEP: Sealed<Indexed, Gate> = Sealed::new(Indexed, Gate);
    const OLD: Sealed<Old, Gate> = Sealed::new(Old, Gate);
    static STORE: Store = Tiers::new(NEAR, DEEP, OLD);

    /// Brings every line and every text into the form that the lock wants now.
    pub(super) async fn turn(from: &Lock) -> Result<(), Refusal> {
        DEEP.turn(from).await?;
        NEAR.turn(from).await?;
        OLD.turn_texts(from).await?;
        Ok(())
    }

    /// Keeps an entry in this browser; see [`Tiers::append`]. localStorage has it when this returns,
    /// even if the future is never awaited.
    ///
    /// # Errors
    /// [`StoreError`] with the entry, when both refused it.
    pub fn append(entry: Entry) -> impl Future<Output = Result<Stored, StoreError>> + 'static {
        STORE.append(entry)
    }

    /// Keeps the entries of many journals in this browser; see [`Tiers::take_in`].
    ///
    /// # Errors
    /// [`Broke`] with how many are kept.
    pub async fn take_in(
        journals: impl Iterator<Item = &[Entry]>,
        done: impl FnMut(usize),
    ) -> Result<(), Broke> {
        STORE.take_in(journals, done).await
    }

    /// Reads what this browser keeps, makes both shelves equal and moves what was closed long ago;
    /// see [`Tiers::open`].
    pub async fn open(spare: &BTreeSet<CaseId>) -> Opened {
        STORE.open(spare).await
    }

    /// A case from the archive; see [`Tiers::fetch`].
    ///
    /// # Errors
    /// [`Refusal`] when the archive could not be read.
    pub async fn fetch(id: CaseId) -> Result<Option<Archived>, Refusal> {
        STORE.fetch(id).await
    }

    /// Every text in the archive; see [`Tiers::texts`].
    ///
    /// # Errors
    /// [`Refusal`] when the archive could not be read.
    pub async fn texts() -> Result<BTreeMap<CaseId, String>, Refusal> {
        STORE.texts().await
    }
}
