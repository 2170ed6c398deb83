//! How many rounds the vials serve, and which vials a round takes.

use super::LotId;
use crate::measure::order;
use crate::measure::{Date, Units};
use std::collections::BTreeMap;

/// Vials of one lot that lie there in date.
#[derive(Clone, Copy, Debug)]
pub(super) struct Lying {
    pub lot: LotId,
    pub units: Units,
    pub last: Date,
    pub count: u32,
}

/// So many vials of a lot.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Picked {
    /// Of which lot.
    pub lot: LotId,
    /// How many.
    pub count: u32,
}

/// Rounds of one size.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Rounds {
    /// For how many areas.
    pub areas: u64,
    /// Units of one round.
    pub units: Units,
    /// How many rounds can be given.
    pub served: u32,
    /// The vials of the first round; empty where none can be given.
    pub first: Vec<Picked>,
    /// Units in those vials: as much as the round or more.
    pub in_vials: Units,
}

/// How many rounds for so many areas the vials serve.
pub(super) fn serve(areas: u64, area: Units, vials: &[Lying]) -> Rounds {
    let units = Units::milli(area.raw().saturating_mul(areas));
    let mut left = vials.to_vec();
    // What expires first is taken first.
    order::by_key(&mut left, |lying| (lying.last, lying.lot));
    let mut rounds = Rounds { areas, units, served: 0, first: Vec::new(), in_vials: Units::ZERO };
    while let Some((in_vials, strengths)) = least_waste(units, &left) {
        let picked = take(&mut left, strengths);
        if rounds.served == 0 {
            rounds.first = picked;
            rounds.in_vials = in_vials;
        }
        rounds.served += 1;
    }
    rounds
}

/// How many vials of each strength hold the units with the least waste, and of those the fewest;
/// `None` if all together do not hold them.
fn least_waste(units: Units, left: &[Lying]) -> Option<(Units, BTreeMap<Units, u32>)> {
    let mut strengths: BTreeMap<Units, u32> = BTreeMap::new();
    for lying in left.iter().filter(|lying| lying.count > 0 && lying.units > Units::ZERO) {
        let count = strengths.entry(lying.units).or_default();
        *count = count.saturating_add(lying.count);
    }
    // Each sum that can be made, with the fewest vials that make it. A sum that is enough is not
    // added to.
    let mut sums = BTreeMap::from([(Units::ZERO, (0_u32, BTreeMap::new()))]);
    for (strength, there) in strengths.into_iter().rev() {
        for (mut sum, (mut vials, mut taken)) in sums.clone() {
            let mut count = 0;
            while sum < units && count < there {
                count += 1;
                vials += 1;
                sum += strength;
                taken.insert(strength, count);
                let known = sums.get(&sum).is_some_and(|(known, _)| *known <= vials);
                if !known {
                    sums.insert(sum, (vials, taken.clone()));
                }
            }
        }
    }
    let (sum, (_, taken)) = sums.into_iter().find(|(sum, _)| *sum >= units)?;
    (units > Units::ZERO).then_some((sum, taken))
}

/// Takes so many of each strength, those that expire first.
fn take(left: &mut [Lying], strengths: BTreeMap<Units, u32>) -> Vec<Picked> {
    let mut picked = Vec::new();
    for (strength, mut wanted) in strengths {
        for lying in left.iter_mut().filter(|lying| lying.units == strength) {
            let count = wanted.min(lying.count);
            if count > 0 {
                lying.count -= count;
                wanted -= count;
                picked.push(Picked { lot: lying.lot, count });
            }
        }
    }
    picked
}
