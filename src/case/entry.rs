//! One line of a journal: an event, its moment, and its place in the chain.

use super::Event;
use crate::measure::{Hash, Moment};
use serde::{Deserialize, Serialize};
use std::fmt;
use std::str::FromStr;

/// The form in which entries are written by this version. Readers accept this and all before it.
///
/// 2: looks hold readings, temperature, function and a photo; adjuncts, signs noticed at any moment,
/// the clinic's contacts. 3: the kit and what was taken from it, vials that name their solution,
/// reviews and their appointments, photos that were deleted, a treatment taken up again.
pub const SCHEMA: u16 = 3;

/// Names a case: 128 random bits, printed as 32 hexadecimal digits. Says nothing of a person.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(into = "String", try_from = "String")]
pub struct CaseId(u128);

impl CaseId {
    /// The journal of the clinic's own values, which is no case: kept, chained and mended like one.
    pub const CLINIC: Self = Self(0);
    /// The journal of the kit, which is no case either.
    pub const KIT: Self = Self(1);

    /// Whether this names a case, and not one of the clinic's own journals.
    pub fn is_case(self) -> bool {
        self != Self::CLINIC && self != Self::KIT
    }

    /// From 128 random bits.
    pub const fn from_random(bits: u128) -> Self {
        Self(bits)
    }
}

impl fmt::Display for CaseId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:032x}", self.0)
    }
}

impl fmt::Debug for CaseId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(self, f)
    }
}

impl FromStr for CaseId {
    type Err = &'static str;

    /// Reads 32 hexadecimal digits.
    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let wrong = "a case is named by 32 hexadecimal digits";
        if text.len() != 32 || !text.bytes().all(|b| b.is_ascii_hexdigit()) {
            return Err(wrong);
        }
        u128::from_str_radix(text, 16).map(Self).map_err(|_| wrong)
    }
}

impl From<CaseId> for String {
    fn from(id: CaseId) -> Self {
        id.to_string()
    }
}

impl TryFrom<String> for CaseId {
    type Error = &'static str;
    fn try_from(text: String) -> Result<Self, Self::Error> {
        text.parse()
    }
}

/// What an entry says.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Body {
    /// The form it is written in; see [`SCHEMA`].
    pub schema: u16,
    /// The case it belongs to.
    pub case: CaseId,
    /// Its place in the case, from 0.
    pub seq: u32,
    /// When it was recorded.
    pub at: Moment,
    /// Minutes that local time was ahead of UTC, for showing the hour that the clinic's clock said.
    pub zone: i16,
    /// The entry before it; none for the first.
    pub prev: Option<Hash>,
    /// What happened.
    pub event: Event,
}

/// A body with the digest that names it and the very text that was digested.
///
/// The text is kept, not written anew, so that an entry of an older form still has its digest.
/// Written out it is one line, `<digest> <body as JSON>`: `sha256sum` can check it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    id: Hash,
    body: Body,
    text: String,
}

/// Why a line is not an entry.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Damage {
    /// It does not start with a digest and a space.
    NoDigest,
    /// The digest is of another text: the line was changed or cut.
    Altered,
    /// Written by a later version of the app, in a form not known here.
    Newer(u16),
    /// The digest is right but the body cannot be read.
    Unreadable,
}

impl Entry {
    /// Seals a body: writes it out once and digests that text.
    ///
    /// # Panics
    /// Never in practice: a body has no map with keys that JSON cannot write.
    pub fn seal(body: Body) -> Self {
        let text = serde_json::to_string(&body).expect("a body is always JSON");
        Self { id: Hash::of(text.as_bytes()), body, text }
    }

    /// Reads a line as [`line`](Self::line) wrote it.
    ///
    /// # Errors
    /// [`Damage`] that names what is wrong.
    pub fn read(line: &str) -> Result<Self, Damage> {
        #[derive(Deserialize)]
        struct Form {
            schema: u16,
        }
        let (id, text) = line.trim_end().split_once(' ').ok_or(Damage::NoDigest)?;
        let id: Hash = id.parse().map_err(|_| Damage::NoDigest)?;
        if Hash::of(text.as_bytes()) != id {
            return Err(Damage::Altered);
        }
        let form: Form = serde_json::from_str(text).map_err(|_| Damage::Unreadable)?;
        if form.schema > SCHEMA {
            return Err(Damage::Newer(form.schema));
        }
        let body = serde_json::from_str(text).map_err(|_| Damage::Unreadable)?;
        Ok(Self { id, body, text: text.to_owned() })
    }

    /// The line to store.
    pub fn line(&self) -> String {
        format!("{} {}", self.id, self.text)
    }

    /// The digest of its text: its identity.
    pub const fn id(&self) -> Hash {
        self.id
    }

    /// What it says.
    pub const fn body(&self) -> &Body {
        &self.body
    }

    /// The case it belongs to.
    pub const fn case(&self) -> CaseId {
        self.body.case
    }

    /// Its place in the case, from 0.
    pub const fn seq(&self) -> u32 {
        self.body.seq
    }

    /// When it was recorded.
    pub const fn at(&self) -> Moment {
        self.body.at
    }

    /// What happened.
    pub const fn event(&self) -> &Event {
        &self.body.event
    }
}
