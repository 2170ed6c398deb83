//! The vials that a case may take: of each lot, at each place.

use super::{Article, Place, Source, Stock, Vial};
use crate::measure::order;
use crate::measure::{Date, Units};
use std::collections::BTreeMap;

/// Vials of one lot that lie at one place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Shelf {
    /// Where they lie.
    pub from: Source,
    /// What they are.
    pub article: Article,
    /// Units on the label of one.
    pub units: Units,
    /// Batch as printed; empty if it was not noted.
    pub batch: String,
    /// Last day of use, if it was noted.
    pub expiry: Option<Date>,
    /// How many lie there; one at least.
    pub left: u32,
    /// Whether they are past their last day.
    pub expired: bool,
}

impl Shelf {
    /// One of them in the hand, as this number of a preparation.
    pub fn take(&self, number: u32) -> Vial {
        let (units, expiry, from) = (self.units, self.expiry, Some(self.from));
        Vial { number, units, batch: self.batch.clone(), expiry, from, solution: None }
    }
}

impl Stock {
    /// Every shelf with vials, whatever their strength. In date before expired; where a case took one
    /// last before the other place; what expires first before the rest, and without a date last.
    pub fn vials(&self, today: Date) -> Vec<Shelf> {
        let mut shelves: Vec<Shelf> = Vec::new();
        for holding in self.holdings() {
            let Article::Hyaluronidase { units, .. } = holding.lot.article else { continue };
            for place in Place::ALL.into_iter().filter(|place| holding.at(*place) > 0) {
                let expiry = holding.lot.expiry;
                shelves.push(Shelf {
                    from: Source { lot: holding.id, place },
                    article: holding.lot.article,
                    units,
                    batch: holding.lot.batch.clone(),
                    expiry,
                    left: holding.at(place),
                    expired: expiry.is_some_and(|last| today > last),
                });
            }
        }
        let used = self.place_used_last();
        order::by_key(&mut shelves, |shelf| {
            let elsewhere = used.is_some_and(|used| used != shelf.from.place);
            (shelf.expired, elsewhere, shelf.expiry.unwrap_or(Date::MAX))
        });
        shelves
    }

    /// How many vials of each strength are there and not expired, the weakest first.
    pub fn strengths(&self, today: Date) -> BTreeMap<Units, u32> {
        let mut strengths = BTreeMap::<Units, u32>::new();
        for shelf in self.vials(today).into_iter().filter(|shelf| !shelf.expired) {
            let count = strengths.entry(shelf.units).or_default();
            *count = count.saturating_add(shelf.left);
        }
        strengths
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::care::allergy::Species;
    use crate::kit::{Act, Done, Lot, LotId, Taking};
    use crate::measure::{Hash, Moment};

    fn day(year: i16, month: i8, day: i8) -> Date {
        Date::new(year, month, day).unwrap()
    }

    fn name(number: u32) -> LotId {
        LotId(Hash::of(&number.to_le_bytes()))
    }

    fn stock(lots: &[(u64, Option<Date>, u32, Place)], taken: &[Taking]) -> Stock {
        let acts: Vec<Act> = lots
            .iter()
            .map(|&(units, expiry, count, place)| {
                let units = Units::whole(units);
                let article = Article::Hyaluronidase { units, species: Species::Ovine };
                let batch = "DEMO-1".into();
                Act::Received(Box::new(Lot { article, batch, expiry, gtin: None, place, count }))
            })
            .collect();
        let at = Moment::from_millis(0);
        let done = acts.iter().zip(0_u32..).map(|(act, n)| Done { id: name(n), at, act });
        Stock::of(done, taken)
    }

    #[test]
    fn first_what_runs_out_first_where_one_was_taken_last_and_expired_ones_at_the_end() {
        let today = day(2026, 11, 26);
        let lots = [
            (1_500, None, 1, Place::Clinic),
            (1_500, Some(day(2026, 11, 25)), 1, Place::Bag),
            (1_500, Some(day(2028, 1, 31)), 2, Place::Bag),
            (300, Some(day(2027, 1, 31)), 3, Place::Clinic),
            (1_500, Some(day(2027, 9, 30)), 1, Place::Clinic),
            (1_500, Some(day(2027, 1, 1)), 0, Place::Clinic),
        ];
        let order = |taken: &[Taking]| -> Vec<LotId> {
            stock(&lots, taken).vials(today).into_iter().map(|shelf| shelf.from.lot).collect()
        };
        assert_eq!(order(&[]), [3, 4, 2, 0, 1].map(name));
        let at = Moment::from_millis(1);
        let bag = Taking { at, from: Source { lot: name(2), place: Place::Bag } };
        assert_eq!(order(&[bag]), [2, 3, 4, 0, 1].map(name));
        let of = |units| stock(&lots, &[bag]).strengths(today).get(&Units::whole(units)).copied();
        assert_eq!((of(300), of(1_500), of(150)), (Some(3), Some(3), None));
    }

    #[test]
    fn the_vial_in_the_hand_says_where_it_is_from() {
        let lots = [(300, Some(day(2027, 5, 31)), 1, Place::Bag)];
        let shelf = stock(&lots, &[]).vials(day(2026, 11, 26)).remove(0);
        let vial = shelf.take(2);
        assert_eq!((vial.number, vial.units), (2, Units::whole(300)));
        assert_eq!((vial.batch.as_str(), vial.expiry), ("DEMO-1", Some(day(2027, 5, 31))));
        assert_eq!(vial.from, Some(Source { lot: name(0), place: Place::Bag }));
    }
}
