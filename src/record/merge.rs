//! What a file would change on this phone, decided before anything is written.
//!
//! Nothing here is ever replaced or taken away. A journal of the file is taken whole where none of its
//! name is here; where one is, only entries that follow from its last are added. Two that go on
//! differently both stand as they are: which of them is right, no rule can know.

use crate::case::{Album, Case, Entry, Journal};
use crate::measure::Hash;
use std::collections::BTreeSet;
use std::sync::Arc;

/// How a journal in a file stands to the one that is here.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// None of this name is here.
    New,
    /// The very same is here.
    Same,
    /// What is here goes on by so many entries.
    Older(usize),
    /// The file goes on by so many entries.
    Newer(usize),
    /// After so many entries they go on differently: neither is a part of the other.
    Forked(usize),
}

impl Standing {
    /// Whether the file has anything to give.
    pub const fn gives(self) -> bool {
        matches!(self, Self::New | Self::Newer(_))
    }

    /// The entries of the file's journal that are to be added here.
    pub fn adds(self, file: &Journal) -> &[Entry] {
        let entries = file.entries();
        match self {
            Self::New => entries,
            Self::Newer(more) => &entries[entries.len() - more..],
            Self::Same | Self::Older(_) | Self::Forked(_) => &[],
        }
    }
}

/// How a journal in a file stands to the one that is here.
pub fn standing(file: &Journal, here: Option<&Journal>) -> Standing {
    let Some(here) = here else { return Standing::New };
    let (file, here) = (file.entries(), here.entries());
    let common = file.iter().zip(here).take_while(|(one, other)| one.id() == other.id()).count();
    match (file.len() - common, here.len() - common) {
        (0, 0) => Standing::Same,
        (0, more) => Standing::Older(more),
        (more, 0) => Standing::Newer(more),
        _ => Standing::Forked(common),
    }
}

/// How a photo in a file stands to what is here.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Print {
    /// It is not here: to be added.
    New,
    /// The very same is here.
    Same,
    /// No case shows it once the file is taken in: it was deleted since, or its case is not taken.
    Unwanted,
}

/// What a file would change here, journal by journal and photo by photo.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Merge {
    journals: Vec<(Arc<Journal>, Standing)>,
    photos: Vec<(Hash, Print)>,
    /// What the file's cases will show once it is taken in.
    shown: BTreeSet<Hash>,
}

impl Merge {
    /// Adds a journal of the file, with the one of its name that is here.
    pub fn journal(&mut self, file: Arc<Journal>, here: Option<&Journal>) {
        let standing = standing(&file, here);
        let after = if standing.gives() { Some(&*file) } else { here };
        let album = after.map_or_else(Album::default, |after| Case::of(after).album());
        self.shown.extend(album.shown);
        self.journals.push((file, standing));
    }

    /// Adds the photos of the file, once all its journals are in; `there` are those that are here.
    pub fn photos(&mut self, file: impl Iterator<Item = Hash>, there: &BTreeSet<Hash>) {
        let print = |name: Hash| match (there.contains(&name), self.shown.contains(&name)) {
            (true, _) => Print::Same,
            (false, true) => Print::New,
            (false, false) => Print::Unwanted,
        };
        self.photos = file.map(|name| (name, print(name))).collect();
    }

    /// Each journal of the file, and how it stands to what is here.
    pub fn journals(&self) -> &[(Arc<Journal>, Standing)] {
        &self.journals
    }

    /// How many journals of the file have something to give.
    pub fn gives(&self) -> usize {
        self.journals.iter().filter(|(_, standing)| standing.gives()).count()
    }

    /// For each journal that gives something, the entries to be added.
    pub fn adds(&self) -> impl Iterator<Item = &[Entry]> {
        let adds = self.journals.iter().map(|(file, standing)| standing.adds(file));
        adds.filter(|entries| !entries.is_empty())
    }

    /// The photos to be added.
    pub fn new_photos(&self) -> Vec<Hash> {
        self.printed(Print::New).collect()
    }

    /// How many photos of the file stand so.
    pub fn count(&self, print: Print) -> usize {
        self.printed(print).count()
    }

    fn printed(&self, print: Print) -> impl Iterator<Item = Hash> {
        self.photos.iter().filter(move |(_, other)| *other == print).map(|(name, _)| *name)
    }

    /// Whether the file has nothing to give.
    pub fn is_empty(&self) -> bool {
        self.gives() == 0 && self.count(Print::New) == 0
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::care::refill::Colour;
    use crate::care::rounds::{Act, Look, Pain};
    use crate::case::{CaseId, Event, Removal};
    use crate::measure::Moment;

    const AT: Moment = Moment::from_millis(1);

    fn journal(case: u128, notes: &[&str]) -> Journal {
        let mut journal = Journal::new(CaseId::from_random(case));
        for note in notes {
            journal.append(AT, 0, Event::Note((*note).to_owned()));
        }
        journal
    }

    #[test]
    fn how_a_file_stands_to_what_is_here() {
        let (long, short) = (journal(7, &["a", "b", "c"]), journal(7, &["a"]));
        assert_eq!(standing(&long, None), Standing::New);
        assert_eq!(standing(&long, Some(&long)), Standing::Same);
        assert_eq!(standing(&long, Some(&short)), Standing::Newer(2));
        assert_eq!(standing(&short, Some(&long)), Standing::Older(2));
        let other = journal(7, &["a", "x"]);
        assert_eq!(standing(&other, Some(&long)), Standing::Forked(1));
        assert_eq!(standing(&long, Some(&short)).adds(&long), &long.entries()[1..]);
        let given: Vec<bool> = [
            Standing::New,
            Standing::Newer(1),
            Standing::Same,
            Standing::Older(1),
            Standing::Forked(0),
        ]
        .map(Standing::gives)
        .to_vec();
        assert_eq!(given, [true, true, false, false, false]);
    }

    fn with_photo(notes: &[&str], photo: u8) -> Journal {
        let mut journal = journal(7, notes);
        let look = Look { photo: Some(Hash::of(&[photo])), ..Look::of(Colour::Pale, Pain::NONE) };
        journal.append(AT, 0, Event::Round(Act::Look(look)));
        journal
    }

    #[test]
    fn a_photo_is_added_if_a_case_will_show_it_and_it_is_not_here() {
        let name = |photo: u8| Hash::of(&[photo]);
        let told = |file: &Journal, here: Option<&Journal>, there: &[Hash]| {
            let mut merge = Merge::default();
            merge.journal(Arc::new(file.clone()), here);
            merge.photos([name(1)].into_iter(), &there.iter().copied().collect());
            [Print::New, Print::Same, Print::Unwanted].map(|print| merge.count(print))
        };
        let one = with_photo(&["a"], 1);
        let (new, same, unwanted) = ([1, 0, 0], [0, 1, 0], [0, 0, 1]);
        assert_eq!(told(&one, None, &[]), new);
        assert_eq!(told(&one, None, &[name(1)]), same);
        // The record came in before, and this photo did not: restoring again goes on.
        assert_eq!(told(&one, Some(&one), &[name(2)]), new);
        assert_eq!(told(&one, Some(&journal(7, &["x"])), &[]), unwanted, "its case is not taken");
        let mut deleted = one.clone();
        let why = Removal::PatientsWish;
        deleted.append(AT, 0, Event::PhotoRemoved { photo: name(1), why });
        assert_eq!(told(&one, Some(&deleted), &[]), unwanted, "deleted here since");
        assert_eq!(told(&deleted, Some(&one), &[]), unwanted, "deleted there since");
    }
}
