//! The kit, whatever happens to it.

use freshet::care::allergy::Species;
use freshet::kit::ready::readiness;
use freshet::kit::{
    Act, Article, Discard, Done, Holding, Lot, LotId, Place, Source, Stock, Taking,
};
use freshet::measure::{Date, Hash, Moment, Units};
use freshet::protocol::Protocol;
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::select;

const LOTS: usize = 4;

fn id(number: usize) -> LotId {
    LotId(Hash::of(&number.to_le_bytes()))
}

fn today() -> Date {
    Date::new(2026, 11, 26).unwrap()
}

fn place() -> impl Strategy<Value = Place> {
    select(&Place::ALL[..])
}

fn lot() -> impl Strategy<Value = Lot> {
    let units = select(&[150_u64, 300, 500, 1_500][..]);
    (units, 0_u32..6, place(), select(&[2025_i16, 2027, 2028][..])).prop_map(
        |(units, count, place, year)| Lot {
            article: Article::Hyaluronidase { units: Units::whole(units), species: Species::Ovine },
            batch: "DEMO-1".into(),
            expiry: Date::new(year, 5, 31),
            gtin: None,
            place,
            count,
        },
    )
}

/// An act on one of the lots, some of which never came in.
fn act() -> impl Strategy<Value = Act> {
    let which = (0..LOTS + 1).prop_map(id);
    prop_oneof![
        (which.clone(), place(), 0_u32..6).prop_map(|(lot, place, count)| Act::Counted {
            lot,
            place,
            count
        }),
        (which.clone(), place(), 0_u32..6).prop_map(|(lot, place, count)| Act::Delivered {
            lot,
            place,
            count
        }),
        (which.clone(), place(), 0_u32..6).prop_map(|(lot, to, count)| Act::Moved {
            lot,
            to,
            count
        }),
        (which, place(), 0_u32..6, select(&Discard::ALL[..]))
            .prop_map(|(lot, place, count, why)| Act::Discarded { lot, place, count, why }),
    ]
}

fn takings() -> impl Strategy<Value = Vec<Taking>> {
    let one = (0_i64..40, 0..LOTS + 1, place()).prop_map(|(at, lot, place)| Taking {
        at: Moment::from_millis(at),
        from: Source { lot: id(lot), place },
    });
    vec(one, 0..12)
}

/// Lots that come in first, then acts, one each moment.
fn happened() -> impl Strategy<Value = Vec<(LotId, Act)>> {
    (vec(lot(), 1..=LOTS), vec(act(), 0..16)).prop_map(|(lots, acts)| {
        let received = lots.into_iter().map(|lot| Act::Received(Box::new(lot)));
        received.chain(acts).enumerate().map(|(number, act)| (id(number), act)).collect()
    })
}

fn fold(acts: &[(LotId, Act)], taken: &[Taking]) -> Stock {
    let done = acts.iter().zip(0_i64..).map(|((id, act), at)| Done {
        id: *id,
        at: Moment::from_millis(at),
        act,
    });
    Stock::of(done, taken)
}

fn all(stock: &Stock) -> u32 {
    stock.holdings().iter().map(Holding::left).sum()
}

/// Whole units of a vial of a lot.
fn strength(lot: &Lot) -> u64 {
    let Article::Hyaluronidase { units, .. } = lot.article else { unreachable!() };
    units.raw() / 1_000
}

/// The least units that vials can hold which hold at least so many, by trying every number of each.
fn least(units: u64, vials: &[(u64, u32)]) -> Option<u64> {
    let Some(((strength, count), rest)) = vials.split_first() else {
        return (units == 0).then_some(0);
    };
    (0..=u64::from(*count))
        .filter_map(|taken| {
            let held = taken * strength;
            least(units.saturating_sub(held), rest).map(|more| held + more)
        })
        .min()
}

proptest! {
    /// In whatever order cases are read, what they took comes to the same.
    #[test]
    fn the_order_of_takings_is_nothing(acts in happened(), taken in takings(), seed in any::<u64>()) {
        let mut other = taken.clone();
        if !other.is_empty() {
            let by = usize::try_from(seed % other.len() as u64).unwrap();
            other.rotate_left(by);
        }
        // Those of one moment may change places: what is left is the same.
        let (one, two) = (fold(&acts, &taken), fold(&acts, &other));
        prop_assert_eq!(one.holdings(), two.holdings());
    }

    /// A vial that is given back is there again, once: unless it was counted since, or was not there.
    #[test]
    fn a_vial_given_back_is_there_once(acts in happened(), taken in takings()) {
        for given_back in 0..taken.len() {
            let mut fewer = taken.clone();
            let one = fewer.remove(given_back);
            let (with, without) = (fold(&acts, &taken), fold(&acts, &fewer));
            let back = i64::from(all(&without)) - i64::from(all(&with));
            prop_assert!((0..=1).contains(&back));
            let short = |stock: &Stock| stock.holdings().iter().map(|h| i64::from(h.short)).sum::<i64>();
            let counted = acts.iter().any(|(_, act)| !matches!(act, Act::Received(_)));
            let known = with.holding(one.from.lot).is_some();
            if known && !counted {
                // Either it is on its shelf again, or it was one that nobody had booked there.
                prop_assert_eq!(back + short(&with) - short(&without), 1);
            }
        }
    }

    /// A count by hand is what lies there, whatever was before.
    #[test]
    fn a_count_by_hand_is_what_lies_there(
        mut acts in happened(),
        taken in takings(),
        count in 0_u32..9,
        place in place(),
    ) {
        let counted = Moment::from_millis(i64::try_from(acts.len()).unwrap());
        acts.push((id(acts.len()), Act::Counted { lot: id(0), place, count }));
        let before: Vec<Taking> =
            taken.into_iter().filter(|one| one.at < counted).collect();
        let stock = fold(&acts, &before);
        let holding = stock.holding(id(0)).unwrap();
        prop_assert_eq!((holding.at(place), holding.short), (count, 0));
    }

    /// Nothing is made by carrying it about, and nothing but a count makes more.
    #[test]
    fn nothing_comes_from_nothing(acts in happened(), taken in takings()) {
        let came: u32 = acts
            .iter()
            .map(|(_, act)| match act {
                Act::Received(lot) => lot.count,
                Act::Counted { count, .. } | Act::Delivered { count, .. } => *count,
                _ => 0,
            })
            .sum();
        prop_assert!(all(&fold(&acts, &taken)) <= came);
        let moved: Vec<_> = acts
            .iter()
            .filter(|(_, act)| matches!(act, Act::Received(_) | Act::Moved { .. }))
            .cloned()
            .collect();
        let received: Vec<_> =
            moved.iter().filter(|(_, act)| matches!(act, Act::Received(_))).cloned().collect();
        prop_assert_eq!(all(&fold(&moved, &[])), all(&fold(&received, &[])));
    }

    /// What came in, and what counts by hand put right, is what cases took, what was thrown away and
    /// what is left; a second delivery adds up, carrying changes nothing, and a vial struck out in a
    /// case is back.
    #[test]
    fn what_was_taken_and_what_is_left_is_what_came_in(
        first in lot(),
        steps in vec((0_u8..6, 0_u32..6, place(), any::<prop::sample::Index>()), 0..30),
    ) {
        let (mut acts, mut taken) = (Vec::new(), Vec::<Taking>::new());
        acts.push((id(0), Act::Received(Box::new(first.clone()))));
        // Kept by hand beside the fold: what lies there, and the takings booked since a count.
        let (mut came, mut at) = (i64::from(first.count), 0_i64);
        let mut moments = vec![at];
        let mut counted_at = at;
        for (kind, count, place, which) in steps {
            at += 2;
            match kind {
                0 => {
                    taken.push(Taking {
                        at: Moment::from_millis(at),
                        from: Source { lot: id(0), place },
                    });
                }
                1 => {
                    // Only what was taken since the last count can come back.
                    let since = taken.iter().filter(|one| one.at.millis() > counted_at).count();
                    if since > 0 {
                        let older = taken.len() - since;
                        taken.remove(older + which.index(since));
                    }
                }
                2 => {
                    acts.push((id(acts.len()), Act::Delivered { lot: id(0), place, count }));
                    moments.push(at);
                    came += i64::from(count);
                }
                3 => {
                    acts.push((id(acts.len()), Act::Moved { lot: id(0), to: place, count }));
                    moments.push(at);
                }
                4 => {
                    let why = Discard::Spoilt;
                    acts.push((id(acts.len()), Act::Discarded { lot: id(0), place, count, why }));
                    moments.push(at);
                }
                _ => {
                    // Every place is counted, so that nothing is left of what was booked before.
                    for place in Place::ALL {
                        acts.push((id(acts.len()), Act::Counted { lot: id(0), place, count }));
                        moments.push(at);
                    }
                    came = 2 * i64::from(count);
                    counted_at = at;
                }
            }
        }
        let done = acts.iter().zip(&moments).map(|((id, act), at)| Done {
            id: *id,
            at: Moment::from_millis(*at),
            act,
        });
        let stock = Stock::of(done, &taken);
        let holding = stock.holding(id(0)).unwrap();
        let took = taken.iter().filter(|one| one.at.millis() > counted_at).count();
        let thrown = holding.discarded.iter().filter(|(when, ..)| when.millis() > counted_at);
        let thrown: i64 = thrown.map(|(.., count)| i64::from(*count)).sum();
        let left = i64::from(holding.left()) - i64::from(holding.short);
        prop_assert_eq!(left + i64::try_from(took).unwrap() + thrown, came);
    }

    /// Rounds are given out of vials that are there, in date, each once; and the first wastes least.
    #[test]
    fn rounds_are_given_from_what_is_there(lots in vec(lot(), 0..LOTS), area in 100_u64..900) {
        let acts: Vec<(LotId, Act)> = lots
            .iter()
            .enumerate()
            .map(|(number, lot)| (id(number), Act::Received(Box::new(lot.clone()))))
            .collect();
        let stock = fold(&acts, &[]);
        let protocol = Protocol { area_units: Units::whole(area), ..Protocol::default() };
        let readiness = readiness(&stock, None, today(), &protocol);
        let vials: Vec<(u64, u32)> = lots
            .iter()
            .filter(|lot| lot.expiry.unwrap() >= today())
            .map(|lot| (strength(lot), lot.count))
            .collect();
        let held: u64 = vials.iter().map(|(units, count)| units * u64::from(*count)).sum();
        for rounds in &readiness.rounds {
            let units = rounds.units.raw() / 1_000;
            prop_assert!(units * u64::from(rounds.served) <= held);
            let picked: u64 = rounds
                .first
                .iter()
                .map(|picked| {
                    let holding = stock.holding(picked.lot).unwrap();
                    assert!(picked.count <= holding.left());
                    assert!(holding.lot.expiry.unwrap() >= today());
                    u64::from(picked.count) * strength(&holding.lot)
                })
                .sum();
            prop_assert_eq!(picked, rounds.in_vials.raw() / 1_000);
            prop_assert_eq!(least(units, &vials), (rounds.served > 0).then_some(picked));
        }
        // More areas are never served more often.
        prop_assert!(readiness.rounds.is_sorted_by(|few, many| few.served >= many.served));
    }
}
