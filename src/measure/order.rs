//! Sorting, made once for the machine.
//!
//! The standard library makes its sort anew for every type that is sorted and every way to compare:
//! a phone would load some fifty of them, each larger than a screen of this app. Here places are
//! sorted, which are of one type, and the things follow.

use std::cmp::Ordering;

/// Sorts by a key; things of equal keys stay in their order. The key is asked for at each comparison.
pub fn by_key<T, K: Ord>(things: &mut [T], key: impl Fn(&T) -> K) {
    by(things, |one, other| key(one).cmp(&key(other)));
}

/// Sorts things that have an order of their own.
pub fn sort<T: Ord>(things: &mut [T]) {
    by(things, T::cmp);
}

/// Sorts by a comparison; equal things stay in their order.
pub fn by<T>(things: &mut [T], compare: impl Fn(&T, &T) -> Ordering) {
    let order = places(things.len(), &|one, other| compare(&things[one], &things[other]));
    for place in 0..order.len() {
        // What belongs here may have been swapped on, once or more.
        let mut from = order[place];
        while from < place {
            from = order[from];
        }
        things.swap(place, from);
    }
}

/// Where the things that belong to each place stand.
fn places(count: usize, compare: &dyn Fn(usize, usize) -> Ordering) -> Vec<usize> {
    let mut places: Vec<usize> = (0..count).collect();
    places.sort_by(|one, other| compare(*one, *other));
    places
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn as_the_standard_library_sorts(
            things in prop::collection::vec((0_u8..20, any::<u8>()), 0..200),
        ) {
            let mut expected = things.clone();
            expected.sort_by_key(|(key, _)| *key);
            let mut sorted = things.clone();
            by_key(&mut sorted, |(key, _)| *key);
            prop_assert_eq!(&sorted, &expected, "equal keys stay in their order");
            expected.sort_unstable();
            sort(&mut sorted);
            prop_assert_eq!(&sorted, &expected);
            expected.sort_by(|one, other| other.cmp(one));
            by(&mut sorted, |one, other| other.cmp(one));
            prop_assert_eq!(sorted, expected);
        }
    }
}
