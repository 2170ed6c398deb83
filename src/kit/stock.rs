//! What is left, folded from what happened to the kit and what cases took.

use super::{Act, Discard, Kind, Lot, LotId, Place, Taking};
use crate::measure::Moment;
use crate::measure::order;
use std::collections::BTreeMap;

/// An act that stands, with its place in the record.
#[derive(Clone, Copy, Debug)]
pub struct Done<'a> {
    /// The entry that says it, which names the lot where one was received.
    pub id: LotId,
    /// When.
    pub at: Moment,
    /// What.
    pub act: &'a Act,
}

/// A lot and how much of it is left.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Holding {
    /// Its name.
    pub id: LotId,
    /// As it came in, its batch and expiry as they were put right since.
    pub lot: Lot,
    /// When it came in.
    pub since: Moment,
    /// How many lie at each place; none of them is nought.
    left: BTreeMap<Place, u32>,
    /// How many were taken that nobody had counted there: the book is wrong, and somebody is to count.
    pub short: u32,
    /// How many were thrown away, and why.
    pub discarded: Vec<(Moment, Discard, u32)>,
}

impl Holding {
    /// How many lie there.
    pub fn at(&self, place: Place) -> u32 {
        self.left.get(&place).copied().unwrap_or_default()
    }

    /// How many are left in all.
    pub fn left(&self) -> u32 {
        self.left.values().fold(0, |sum, count| sum.saturating_add(*count))
    }

    fn put(&mut self, place: Place, count: u32) {
        if count == 0 {
            self.left.remove(&place);
        } else {
            self.left.insert(place, count);
        }
    }

    /// Takes away what is there of `count`; what was wanting.
    fn take(&mut self, place: Place, count: u32) -> u32 {
        let there = self.at(place);
        self.put(place, there.saturating_sub(count));
        count.saturating_sub(there)
    }
}

/// The kit.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Stock {
    holdings: Vec<Holding>,
    wanted: BTreeMap<Kind, u32>,
    used_last: Option<Place>,
}

impl Stock {
    /// Folds what happened, in the order of the record, and what cases took, in any order.
    ///
    /// A count by hand is what lies there: what was taken before it is in it already, and so is what
    /// is given back later of that. What was taken of a lot before that was booked is taken once it
    /// is. A clock set back does not turn the record's order round.
    pub fn of<'a>(acts: impl IntoIterator<Item = Done<'a>>, taken: &[Taking]) -> Self {
        let mut taken = taken.to_vec();
        order::by_key(&mut taken, |taking| taking.at);
        let mut taken = taken.into_iter().peekable();
        let (mut stock, mut unbooked) = (Self::default(), Vec::new());
        let mut latest = Moment::from_millis(i64::MIN);
        for done in acts {
            latest = latest.max(done.at);
            while let Some(taking) = taken.next_if(|taking| taking.at < latest) {
                match stock.holding(taking.from.lot) {
                    Some(_) => stock.took(taking),
                    None => unbooked.push(taking),
                }
            }
            stock.apply(done);
            let booked = unbooked.extract_if(.., |taking: &mut Taking| taking.from.lot == done.id);
            booked.for_each(|taking| stock.took(taking));
        }
        taken.for_each(|taking| stock.took(taking));
        stock
    }

    fn apply(&mut self, Done { id, at, act }: Done) {
        match act {
            Act::Received(lot) => {
                let lot = (**lot).clone();
                let (left, discarded) = (BTreeMap::new(), Vec::new());
                let mut holding =
                    Holding { id, since: at, left, short: 0, discarded, lot: lot.clone() };
                holding.put(lot.place, lot.count);
                self.holdings.push(holding);
            }
            Act::Delivered { lot, place, count } => self.change(*lot, |holding| {
                holding.put(*place, holding.at(*place).saturating_add(*count));
            }),
            Act::Counted { lot, place, count } => self.change(*lot, |holding| {
                holding.put(*place, *count);
                holding.short = 0;
            }),
            Act::Moved { lot, to, count } => self.change(*lot, |holding| {
                let moved = count - holding.take(to.other(), *count);
                holding.put(*to, holding.at(*to).saturating_add(moved));
            }),
            Act::Discarded { lot, place, count, why } => self.change(*lot, |holding| {
                let gone = count - holding.take(*place, *count);
                holding.discarded.push((at, *why, gone));
            }),
            Act::Amended { lot, batch, expiry } => self.change(*lot, |holding| {
                holding.lot.batch.clone_from(batch);
                holding.lot.expiry = *expiry;
            }),
            Act::Wanted { kind, count } => {
                self.wanted.insert(*kind, *count);
            }
        }
    }

    fn took(&mut self, Taking { from, .. }: Taking) {
        self.used_last = Some(from.place);
        self.change(from.lot, |holding| holding.short += holding.take(from.place, 1));
    }

    /// A lot that is not known, as of an entry struck out, is passed over.
    fn change(&mut self, id: LotId, change: impl FnOnce(&mut Holding)) {
        if let Some(holding) = self.holdings.iter_mut().find(|holding| holding.id == id) {
            change(holding);
        }
    }

    /// Every lot that ever came in, in the order in which it did.
    pub fn holdings(&self) -> &[Holding] {
        &self.holdings
    }

    /// One lot.
    pub fn holding(&self, id: LotId) -> Option<&Holding> {
        self.holdings.iter().find(|holding| holding.id == id)
    }

    /// Where a case took a vial last.
    pub const fn place_used_last(&self) -> Option<Place> {
        self.used_last
    }

    /// How many of a kind the clinic wants to hold, where it said so.
    pub fn wanted(&self, kind: Kind) -> Option<u32> {
        self.wanted.get(&kind).copied()
    }
}
