//! What a place to keep lines must promise, and how it refuses.

use super::Key;
use std::fmt;

/// A line and the name that it lies under.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Slip {
    /// Its name.
    pub key: Key,
    /// Its text.
    pub line: String,
}

/// Which of the two shelves.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// localStorage: written at once, put on the disk when the browser sees fit.
    Local,
    /// IndexedDB: on the disk when it says so.
    Indexed,
}

/// Why a shelf did not do what was asked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Refusal {
    /// No room: the browser's limit or the disk's.
    Full,
    /// The user's or the browser's settings forbid it.
    Denied,
    /// This browser has no such storage.
    Absent,
    /// The connection was cut off or the transaction given up, and a second try failed too.
    Lost(String),
    /// No answer in time.
    Silent,
    /// Another tab holds an older form of the database open.
    Blocked,
    /// A later version of the app made the database; this one must not write to it.
    NewerForm,
    /// It said that the line was written, but the line read back was another or none.
    NotReadBack,
    /// Another tab wrote the same meanwhile, or what lies there holds more than what was to replace it.
    Overtaken,
    /// It lies sealed, and the keys are away.
    Locked,
    /// Something else; the browser's own words.
    Other(String),
}

impl Refusal {
    /// Whether the same may work on a fresh connection.
    pub const fn may_pass(&self) -> bool {
        matches!(self, Self::Lost(_) | Self::Silent | Self::NotReadBack)
    }
}

impl fmt::Display for Refusal {
    /// For logs and error reports; screens word it themselves.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Full => f.write_str("storage is full"),
            Self::Denied => f.write_str("storage is not allowed"),
            Self::Absent => f.write_str("no such storage"),
            Self::Lost(what) => write!(f, "storage was lost: {what}"),
            Self::Silent => f.write_str("storage does not answer"),
            Self::Blocked => f.write_str("storage is held by another tab"),
            Self::NewerForm => f.write_str("storage is of a later version"),
            Self::NotReadBack => f.write_str("storage did not keep what was written"),
            Self::Overtaken => f.write_str("storage holds more than was to be written"),
            Self::Locked => f.write_str("storage is locked"),
            Self::Other(what) => write!(f, "storage failed: {what}"),
        }
    }
}

/// A place to keep lines. A line is removed only once the archive is known to hold it.
pub trait Shelf {
    /// Keeps the lines, in their order; a line under the same name is replaced. Stops at the first
    /// that cannot be kept. Done only when each line has been read back the same.
    ///
    /// A shelf that can, does the work before it returns the future.
    fn put(&self, slips: Vec<Slip>) -> impl Future<Output = Result<(), Refusal>> + 'static;

    /// Every line of the journal that it holds, those kept aside too.
    fn all(&self) -> impl Future<Output = Result<Vec<Slip>, Refusal>> + 'static;

    /// Takes lines away, in their order; where there is none, nothing is done.
    fn remove(&self, keys: Vec<Key>) -> impl Future<Output = Result<(), Refusal>> + 'static;
}
