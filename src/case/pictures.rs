//! The photos of a case: which were taken, and which were deleted since.

use super::{Case, Removal};
use crate::measure::{Hash, Moment};

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

impl Case {
    /// Every photo once, the oldest first: those that were drawn on, and those of looks and reviews.
    pub fn pictures(&self) -> Vec<Picture> {
        let taken = self.photos.iter().map(|(at, photo)| (*at, photo.name));
        let looks = self.treatment.looks().iter().map(|(at, look)| (*at, look.photo));
        let reviews = self.reviews.iter().map(|(at, review)| (*at, review.look.photo));
        let seen = looks.chain(reviews).filter_map(|(at, photo)| Some((at, photo?)));
        let mut all: Vec<(Moment, Hash)> = taken.chain(seen).collect();
        all.sort_by_key(|(at, _)| *at);
        let mut pictures: Vec<Picture> = Vec::new();
        for (at, name) in all {
            if pictures.iter().all(|known| known.name != name) {
                let removed = self.removed.get(&name).copied();
                pictures.push(Picture { at, name, removed });
            }
        }
        pictures
    }
}

/// What is still to be deleted, so that no photo lies on the phone that the record says is gone: it is
/// recorded first, and the phone may have died before it was done. What a case still shows stays, since
/// the same bytes may have been kept for two.
pub fn to_sweep<'a>(cases: impl Iterator<Item = &'a Case> + Clone) -> Vec<Hash> {
    let shown = |name: &Hash| {
        let mut pictures = cases.clone().flat_map(Case::pictures);
        pictures.any(|picture| picture.name == *name && picture.removed.is_none())
    };
    let removed = cases.clone().flat_map(|case| case.removed.keys().copied());
    removed.filter(|name| !shown(name)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::care::refill::Colour;
    use crate::care::rounds::{Act, Look, Pain};
    use crate::case::{CaseId, Event, Journal, StrikeReason};
    use crate::measure::Span;

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
        let (one, other) = (Case::of(&case(1, &[1, 2], &[1, 2])), Case::of(&case(2, &[2], &[])));
        assert_eq!(to_sweep([&one, &other].into_iter()), [name(1)]);
        let both: Vec<Hash> = to_sweep([&one].into_iter());
        assert_eq!(both.len(), 2);
    }

    #[test]
    fn what_was_deleted_by_a_slip_and_struck_out_is_not_swept() {
        let mut journal = case(1, &[1], &[1]);
        let entry = journal.head().unwrap();
        let reason = StrikeReason::Slip;
        journal.append(Moment::from_millis(0), 0, Event::Struck { entry, reason });
        assert!(to_sweep([&Case::of(&journal)].into_iter()).is_empty());
    }
}
