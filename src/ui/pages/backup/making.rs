//! Gathers everything that this phone keeps and seals it into one file.

use crate::case::{Case, Entry, Journal};
use crate::measure::{Hash, Moment, order};
use crate::phone::random::{self, Dice, NoRandomness};
use crate::record::backup::{Making, Sorted};
use crate::store::Refusal;
use crate::store::photos::{self, PhotoError};
use crate::ui::desk::Desk;
use crate::ui::words::backup as said;
use std::cmp::Reverse;
use std::collections::BTreeSet;

/// A backup that is ready to be handed out.
#[derive(Clone, Debug)]
pub struct Made {
    /// The file, in parts that follow each other.
    pub parts: Vec<Vec<u8>>,
    /// When it was made.
    pub at: Moment,
    /// Cases that are whole in it.
    pub cases: usize,
    /// Entries of all journals.
    pub entries: usize,
    /// Photos.
    pub photos: usize,
    /// Photos of the record that are not on this phone, or not as they were.
    pub lost: usize,
    /// Photos that would have made it larger than is read again.
    pub left_out: usize,
    /// Lines of journals that are not whole.
    pub damaged: usize,
}

/// Why none was made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NotMade {
    /// Not everything could be read.
    Refused(Refusal),
    /// The browser gives no random bits.
    NoRandomness,
}

impl From<Refusal> for NotMade {
    fn from(why: Refusal) -> Self {
        Self::Refused(why)
    }
}

impl From<NoRandomness> for NotMade {
    fn from(_: NoRandomness) -> Self {
        Self::NoRandomness
    }
}

/// Makes a backup of everything. `told` is told how many photos are in, of how many.
///
/// # Errors
/// [`NotMade`]: it is all or none.
pub async fn make(
    desk: Desk,
    passphrase: &str,
    at: Moment,
    told: impl Fn(usize, usize),
) -> Result<Made, NotMade> {
    random::bits()?;
    let sorted = desk.sorted().await?;
    let there = photos::names().await?;
    let shown = shown(&sorted);
    let mut making =
        Making::begin(passphrase, &sorted, &format!("{}\n", said::explains()), at, &mut Dice);
    let (mut photos, mut lost, mut left_out) = (0, 0, 0);
    for (number, name) in shown.iter().enumerate() {
        told(number, shown.len());
        let found = if there.contains(name) { photos::get(*name).await } else { Ok(None) };
        match found {
            Ok(Some(photo)) if making.has_room(photo.len()) => {
                making.photo(&photo);
                photos += 1;
            }
            Ok(Some(_)) => left_out += 1,
            Ok(None) | Err(PhotoError::Altered) => lost += 1,
            Err(PhotoError::Unread(why)) => return Err(why.into()),
        }
    }
    let Sorted { journals, damaged } = sorted;
    Ok(Made {
        parts: making.end(),
        at,
        cases: journals.iter().filter(|journal| journal.case().is_case()).count(),
        entries: journals.iter().map(|journal| journal.entries().len()).sum(),
        photos,
        lost,
        left_out,
        damaged: damaged.lines().count(),
    })
}

/// The photos that the cases show, those of the case last touched first: should there be no room for
/// all, it is the old ones that stay behind.
fn shown(sorted: &Sorted) -> Vec<Hash> {
    let mut journals: Vec<&Journal> = sorted.journals.iter().collect();
    order::by_key(&mut journals, |journal| Reverse(journal.entries().last().map(Entry::at)));
    let mut known = BTreeSet::new();
    let albums = journals.into_iter().flat_map(|journal| Case::of(journal).album().shown);
    albums.filter(|name| known.insert(*name)).collect()
}

impl Made {
    /// How large it is, in bytes.
    pub fn size(&self) -> u64 {
        self.parts.iter().map(|part| part.len() as u64).sum()
    }
}
