//! The photos of a case: which were taken, and which were deleted since.

use super::{Case, Removal};
use crate::care::territory::{Ground, Photo};
use crate::measure::order;
use crate::measure::{Hash, Moment};
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;

/// A photo that was taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Picture {
    /// When it was recorded first.
    pub at: Moment,
    /// The digest of its bytes.
    pub name: Hash,
    /// When and why it was deleted, if it was.
    pub removed: Option<(Moment, Removal)>,
}

/// The photos of a case by their names: enough to tell what is still to be deleted.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Album {
    /// Those that it shows.
    pub shown: Vec<Hash>,
    /// Those that it says are deleted.
    pub removed: Vec<Hash>,
}

impl Case {
    /// Every photo once, the oldest first: those that were drawn on, and those of looks and reviews.
    pub fn pictures(&self) -> Vec<Picture> {
        let taken = self.photos.iter().map(|(at, photo)| (*at, photo.name));
        let looks = self.treatment.looks().iter().map(|(at, look)| (*at, look.photo));
        let reviews = self.reviews.iter().map(|(at, review)| (*at, review.look.photo));
        let seen = looks.chain(reviews).filter_map(|(at, photo)| Some((at, photo?)));
        let mut all: Vec<(Moment, Hash)> = taken.chain(seen).collect();
        order::by_key(&mut all, |(at, _)| *at);
        let mut pictures: Vec<Picture> = Vec::new();
        for (at, name) in all {
            if pictures.iter().all(|known| known.name != name) {
                let removed = self.removed.get(&name).copied();
                pictures.push(Picture { at, name, removed });
            }
        }
        pictures
    }

    /// The same by name.
    pub fn album(&self) -> Album {
        let pictures = self.pictures().into_iter();
        let shown = pictures.filter(|picture| picture.removed.is_none());
        Album {
            shown: shown.map(|picture| picture.name).collect(),
            removed: self.removed.keys().copied().collect(),
        }
    }

    /// Whether the record says that this photo was deleted. Then it is shown nowhere, though it may
    /// lie on the phone still.
    pub fn is_deleted(&self, name: Hash) -> bool {
        self.removed.contains_key(&name)
    }

    /// The photo that was taken last to be drawn on and is not deleted.
    pub fn last_photo(&self) -> Option<Photo> {
        let mut photos = self.photos.iter().rev().map(|(_, photo)| *photo);
        photos.find(|photo| !self.is_deleted(photo.name))
    }

    /// The photo that the next one is to match: the last look's, else the one that the skin was traced
    /// on, else the last of the case; none that was deleted.
    pub fn photo_to_match(&self) -> Option<Hash> {
        let there = |name: &Hash| !self.is_deleted(*name);
        let looks = self.treatment.looks().iter().rev();
        let looked = looks.filter_map(|(_, look)| look.photo).find(there);
        let traced = || {
            let grounds = self.territories.iter().rev();
            let on = |ground: &Ground| match ground {
                Ground::Photo { photo, .. } => Some(photo.name),
                Ground::Drawing { .. } => None,
            };
            let mut traced = grounds.filter_map(|told| on(&told.territory.outlined()?.ground));
            traced.find(there)
        };
        looked.or_else(traced).or_else(|| self.last_photo().map(|photo| photo.name))
    }
}

/// What is still to be deleted, so that no photo lies on the phone that the record says is gone: it is
/// recorded first, and the phone may have died before it was done. What a case still shows stays, since
/// the same bytes may have been kept for two.
pub fn to_sweep<'a>(albums: impl Iterator<Item = &'a Album> + Clone) -> BTreeSet<Hash> {
    let shown: BTreeSet<&Hash> = albums.clone().flat_map(|album| &album.shown).collect();
    let removed = albums.flat_map(|album| &album.removed);
    removed.filter(|name| !shown.contains(name)).copied().collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::care::refill::Colour;
    use crate::care::rounds::{Act, Look, Pain};
    use crate::care::territory::{Outlined, Size, Territory};
    use crate::case::{CaseId, Event, Journal, StrikeReason};
    use crate::measure::{Length, Span};
    use crate::plane::{Dot, Extent, Kind, Scale, Spot, Stroke, trace};
    use crate::protocol::Protocol;

    fn name(n: u8) -> Hash {
        Hash::of(&[n])
    }

    /// Looks with these photos, a minute apart.
    fn case(id: u128, photos: &[u8], removed: &[u8]) -> Journal {
        let mut journal = Journal::new(CaseId::from_random(id));
        let at = |n: usize| Moment::from_millis(0).after(Span::minutes(n as u64));
        for (n, photo) in photos.iter().enumerate() {
            let look = Look { photo: Some(name(*photo)), ..Look::of(Colour::Pale, Pain::NONE) };
            journal.append(at(n), 0, Event::Round(Act::Look(look)));
        }
        for photo in removed {
            let why = Removal::PatientsWish;
            journal.append(at(60), 0, Event::PhotoRemoved { photo: name(*photo), why });
        }
        journal
    }

    #[test]
    fn each_photo_is_there_once_and_a_deleted_one_says_so() {
        let case = Case::of(&case(1, &[1, 2, 1], &[2]));
        let at = |minutes| Moment::from_millis(0).after(Span::minutes(minutes));
        let told: Vec<_> =
            case.pictures().iter().map(|one| (one.at, one.name, one.removed)).collect();
        let gone = Some((at(60), Removal::PatientsWish));
        assert_eq!(told, [(at(0), name(1), None), (at(1), name(2), gone)]);
    }

    #[test]
    fn what_the_record_says_is_gone_is_swept_unless_another_case_shows_it() {
        let of = |journal: &Journal| Case::of(journal).album();
        let (one, other) = (of(&case(1, &[1, 2], &[1, 2])), of(&case(2, &[2], &[])));
        assert_eq!(to_sweep([&one, &other].into_iter()), [name(1)].into());
        assert_eq!(to_sweep([&one].into_iter()), [name(1), name(2)].into());
    }

    #[test]
    fn what_was_deleted_by_a_slip_and_struck_out_is_not_swept() {
        let mut journal = case(1, &[1], &[1]);
        let entry = journal.head().unwrap();
        let reason = StrikeReason::Slip;
        journal.append(Moment::from_millis(0), 0, Event::Struck { entry, reason });
        assert!(to_sweep([&Case::of(&journal).album()].into_iter()).is_empty());
    }

    #[test]
    fn no_photo_that_was_deleted_is_drawn_on_or_matched() {
        let extent = Extent { width: 4, height: 3 };
        let mut journal = case(1, &[1, 2], &[]);
        for n in [3, 4] {
            let photo = Photo { name: name(n), extent };
            journal.append(Moment::from_millis(0), 0, Event::Photo(photo));
        }
        let mut told = |removed: &[u8]| {
            for n in removed {
                let why = Removal::PatientsWish;
                journal.append(
                    Moment::from_millis(0),
                    0,
                    Event::PhotoRemoved { photo: name(*n), why },
                );
            }
            let case = Case::of(&journal);
            (case.last_photo().map(|photo| photo.name), case.photo_to_match())
        };
        assert_eq!(told(&[]), (Some(name(4)), Some(name(2))));
        assert_eq!(told(&[4]), (Some(name(3)), Some(name(2))));
        assert_eq!(told(&[2]), (Some(name(3)), Some(name(1))));
        assert_eq!(told(&[1]), (Some(name(3)), Some(name(3))), "without one of a look, the last");
        assert_eq!(told(&[3]), (None, None));
    }

    #[test]
    fn skin_traced_on_a_deleted_photo_leads_to_the_one_before() {
        let mut journal = case(1, &[], &[]);
        for n in [1, 2] {
            let photo = Photo { name: name(n), extent: Extent { width: 400, height: 300 } };
            let ends = [Dot { x: 0, y: 0 }, Dot { x: 100, y: 0 }];
            let ground =
                Ground::Photo { photo, scale: Scale::Known { ends, length: Length::mm(50) } };
            let spots = [(0, 0), (2_000, 0), (2_000, 2_000), (0, 2_000)];
            let spots = spots.map(|(x, y)| Spot::new(x, y)).to_vec();
            let outline = trace(&[Stroke { kind: Kind::Skin, spots }]).unwrap().outline;
            let size = Size::Outlined(Box::new(Outlined { ground, outline }));
            let skin = Territory::new(vec![], size, &Protocol::default()).unwrap();
            journal.append(Moment::from_millis(0), 0, Event::Territory(skin));
        }
        assert_eq!(Case::of(&journal).photo_to_match(), Some(name(2)));
        let gone = Event::PhotoRemoved { photo: name(2), why: Removal::NotUsable };
        journal.append(Moment::from_millis(0), 0, gone);
        assert_eq!(Case::of(&journal).photo_to_match(), Some(name(1)));
    }
}
