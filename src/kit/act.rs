//! What happens to the kit.

use super::{Kind, Lot, LotId, Place, Source};
use crate::measure::{Date, Moment};
use serde::{Deserialize, Serialize};

/// Why things were thrown away.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Discard {
    /// Past their date.
    Expired,
    /// Broken, opened, stored too warm.
    Spoilt,
    /// Recalled by the maker or an authority.
    Recalled,
    /// Given to somebody else, used outside a case.
    Other,
}

impl Discard {
    /// All of them.
    pub const ALL: [Self; 4] = [Self::Expired, Self::Spoilt, Self::Recalled, Self::Other];
}

/// What happened to the kit.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Act {
    /// A lot came in.
    Received(Box<Lot>),
    /// More of a lot that came in before.
    Delivered {
        /// Which lot.
        lot: LotId,
        /// Where they were put.
        place: Place,
        /// How many.
        count: u32,
    },
    /// Counted by hand: so many lie there now.
    Counted {
        /// Which lot.
        lot: LotId,
        /// Where.
        place: Place,
        /// How many.
        count: u32,
    },
    /// Carried from the other place.
    Moved {
        /// Which lot.
        lot: LotId,
        /// Where to.
        to: Place,
        /// How many.
        count: u32,
    },
    /// Thrown away.
    Discarded {
        /// Which lot.
        lot: LotId,
        /// Where it lay.
        place: Place,
        /// How many.
        count: u32,
        /// Why.
        why: Discard,
    },
    /// Batch and expiry are to read so.
    Amended {
        /// Which lot.
        lot: LotId,
        /// Batch as printed; empty if it was not noted.
        batch: String,
        /// Last day of use, if it was noted.
        expiry: Option<Date>,
    },
    /// How many the clinic wants to hold.
    Wanted {
        /// Of what.
        kind: Kind,
        /// How many.
        count: u32,
    },
}

/// A vial that a case took.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Taking {
    /// When.
    pub at: Moment,
    /// From where.
    pub from: Source,
}
