//! Many journals on their way in, in portions that a phone takes in one step.

use super::archive;
use crate::case::Entry;

/// How many characters go in at once: some eight cases of eighty entries. More, and a phone may take
/// longer than is waited for; fewer, and a thousand cases take a thousand times to the disk.
pub const PORTION: usize = 250_000;

/// Puts journals together into portions; none is torn apart, however long it is.
pub fn portions<'a>(
    journals: impl Iterator<Item = &'a [Entry]>,
    most: usize,
) -> Vec<Vec<&'a [Entry]>> {
    let mut portions: Vec<Vec<&[Entry]>> = Vec::new();
    let mut left = 0;
    for entries in journals {
        let size = archive::size(entries.iter());
        match portions.last_mut() {
            Some(portion) if size <= left => portion.push(entries),
            _ => {
                left = most;
                portions.push(vec![entries]);
            }
        }
        left = left.saturating_sub(size);
    }
    portions
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::case::{CaseId, Event, Journal};
    use crate::measure::Moment;

    #[test]
    fn journals_stay_whole_and_in_order_and_portions_small() {
        let of = |number: u128, notes: usize| {
            let mut journal = Journal::new(CaseId::from_random(number));
            for _ in 0..notes {
                journal.append(Moment::from_millis(0), 0, Event::Note("note".into()));
            }
            journal
        };
        let journals = [of(1, 2), of(2, 1), of(3, 9), of(4, 1), of(5, 1)];
        let one = archive::size(journals[1].entries().iter());
        let all = || journals.iter().map(Journal::entries);
        let portions = portions(all(), 3 * one + one / 2);
        let sizes: Vec<Vec<usize>> =
            portions.iter().map(|portion| portion.iter().map(|e| e.len()).collect()).collect();
        assert_eq!(sizes, [vec![2, 1], vec![9], vec![1, 1]]);
        assert!(portions.concat().into_iter().eq(all()));
    }
}
