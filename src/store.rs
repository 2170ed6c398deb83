//! Where the journal is kept: twice, so that neither a killed browser nor a lost database takes it.
//!
//! | part | what it does | needs a browser |
//! |---|---|---|
//! | [`Key`] | names a line, the same on both shelves | no |
//! | [`Shelf`] | what a place to keep lines must promise, and how it refuses | no |
//! | [`reconcile`] | from what two shelves hold, what is whole and what each lacks | no |
//! | [`Pair`] | writes to both shelves, acknowledges, opens again | no |
//! | `local`, `indexed` | the two shelves of a browser | yes |
//! | `database` | the connection that `indexed` and [`photos`] share | yes |
//! | [`photos`] | photos, by the digest of their bytes | yes |
//! | `persist` | asks the browser not to throw it all away | yes |
//! | `export` | offers the record as a file | yes |
//! | `rehearsals` | the debriefs of rehearsals, which are no record | yes |
//! | [`habits`] | what is set for this phone, which is no record | to be kept |
//!
//! Browsers write localStorage out lazily: a killed process can lose its last seconds. IndexedDB with
//! strict durability answers only once the line is on the disk, but phones cut its connection off and
//! whole databases have been lost. So each entry goes to both, is acknowledged by the second, and
//! [`Pair::open`] makes the two equal again at each start. Photos, which are too large for
//! localStorage, are kept once. Nothing is ever deleted here.

pub mod habits;
pub mod key;
pub mod pair;
pub mod photos;
pub mod reconcile;
pub mod shelf;

#[cfg(feature = "app")]
mod database;
#[cfg(feature = "app")]
pub mod export;
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

pub use key::Key;
pub use pair::{Opened, Pair, StoreError, Stored, Trouble};
pub use reconcile::{Damaged, Repaired};
pub use shelf::{Refusal, Shelf, Side, Slip};

#[cfg(feature = "app")]
pub use here::{Store, append, open};

#[cfg(feature = "app")]
mod here {
    use super::indexed::Indexed;
    use super::local::Local;
    use super::{Opened, Pair, StoreError, Stored};
    use crate::case::Entry;

    /// The two shelves of this browser.
    pub type Store = Pair<Local, Indexed>;

    static STORE: Store = Pair::new(Local, Indexed);

    /// Keeps an entry in this browser; see [`Pair::append`]. localStorage has it when this returns,
    /// even if the future is never awaited.
    ///
    /// # Errors
    /// [`StoreError`] with the entry, when both refused it.
    pub fn append(entry: Entry) -> impl Future<Output = Result<Stored, StoreError>> + 'static {
        STORE.append(entry)
    }

    /// Reads what this browser keeps and makes both shelves equal; see [`Pair::open`].
    pub async fn open() -> Opened {
        STORE.open().await
    }
}
