//! What an ask allows before any way is looked for, and how near to its strength is near enough.

use super::ask::{Ask, Ceiling, Impossible};
use crate::measure::{Strength, Units, Volume};
use crate::protocol::{Id, Kind, Protocol, plan_rank};

/// The room that the planner has.
#[derive(Clone, Copy, Debug)]
pub(super) struct Limits {
    /// Vials to count on.
    pub vials: u32,
    /// Most diluent in a vial, on a mark.
    pub holds: Volume,
    /// Least diluent in a vial, on a mark: measured well, and no stronger than is known to be used,
    /// if the vial is large enough for that.
    pub least_stock: Volume,
    /// No stronger target is accepted.
    pub strongest: Strength,
}

/// Bounds that the protocol puts on a value.
fn bounds<T: Kind>(id: Id) -> Option<(T, T)> {
    let entry = Protocol::entry(id);
    Some((T::unwrap(entry.low)?, T::unwrap(entry.high)?))
}

/// Looks at an ask before any way is tried.
pub(super) fn sensible(ask: &Ask) -> Result<Limits, Impossible> {
    if ask.wanted.is_zero() {
        return Err(Impossible::NothingWanted);
    }
    if ask.vials == Some(0) {
        return Err(Impossible::NoVials);
    }
    if ask.target.is_zero() {
        return Err(Impossible::NoStrength);
    }
    let units = ask.vial.units;
    let (low, high) = bounds::<Units>(Id::VialUnits).unwrap_or((units, units));
    if units < low || units > high {
        return Err(Impossible::VialUnits { low, high });
    }
    let syringe = ask.syringe;
    let least = syringe.least_draw();
    let largest = bounds::<Volume>(Id::VialHolds).map_or(ask.vial.holds, |bounds| bounds.1);
    let holds = down_to_mark(ask.vial.holds.min(largest), syringe.interval());
    if holds < least {
        return Err(Impossible::VialTooSmall { least });
    }
    let known = bounds::<Strength>(Id::UrgentStrength).map_or(ask.target, |bounds| bounds.1);
    let densest = Strength::of(units, least).unwrap_or(known);
    let strongest = known.min(densest);
    if ask.target > strongest {
        let ceiling =
            if densest < known { Ceiling::LeastDiluent(least) } else { Ceiling::NoneStrongerKnown };
        return Err(Impossible::TooStrong { strongest, ceiling });
    }
    let most_vials = bounds::<u32>(Id::VialsAtHand).map_or(1, |bounds| bounds.1);
    let known_stock = known.volume_of(units).unwrap_or(holds);
    let known_stock = syringe.interval().times(known_stock.needs(syringe.interval()));
    Ok(Limits {
        vials: ask.vials.unwrap_or(most_vials).min(most_vials),
        holds,
        least_stock: least.max(known_stock).min(holds),
        strongest,
    })
}

/// The last mark at or below `volume`.
fn down_to_mark(volume: Volume, interval: Volume) -> Volume {
    interval.times(volume.fits(interval))
}

/// How near a strength is to the one asked for; nearest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Nearness {
    /// The very same.
    Exact,
    /// As near as one mark in a hundred.
    Close,
    /// No farther than the syringe itself may err.
    Fair,
}

impl Nearness {
    /// `None` if `strength` is too far off to be offered.
    pub(super) fn of(strength: Strength, ask: &Ask) -> Option<Self> {
        let off = off(strength, ask.target);
        let within = |per_mille: u32| off <= u64::from(per_mille) * (MILLION / 1_000);
        if strength == ask.target {
            Some(Self::Exact)
        } else if within(plan_rank::CLOSE.0) {
            Some(Self::Close)
        } else {
            within(ask.syringe.class().large_of_expelled.0).then_some(Self::Fair)
        }
    }
}

const MILLION: u64 = 1_000_000;

/// The distance of two strengths in millionths of `target`, rounded up, so that only equal ones are
/// zero apart; stops at the largest count.
pub(super) fn off(strength: Strength, target: Strength) -> u64 {
    let (here_units, here_volume) = strength.into();
    let (there_units, there_volume): (u64, u64) = target.into();
    let here = u128::from(here_units) * u128::from(there_volume);
    let there = u128::from(there_units) * u128::from(here_volume);
    let gap = here.abs_diff(there);
    let parts = match gap.checked_mul(u128::from(MILLION)) {
        Some(gap) => gap.div_ceil(there.max(1)),
        // So large that a millionth of the target is still a large number.
        None => gap / (there / u128::from(MILLION)).max(1),
    };
    u64::try_from(parts).unwrap_or(u64::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::care::dilution::{Syringe, Vial};

    fn ask(units: u64, holds: Volume, target: Strength) -> Ask {
        let vial = Vial { units: Units::whole(units), holds };
        let syringe = Syringe::new(Volume::ml(1), Volume::ul(10)).unwrap();
        Ask::dose(vial, None, target, Units::whole(500), syringe)
    }

    #[test]
    fn senseless_asks_say_which() {
        let good = ask(1500, Volume::ml(3), Strength::per_ml(500));
        let refused = |change: &dyn Fn(&mut Ask)| {
            let mut ask = good;
            change(&mut ask);
            sensible(&ask).unwrap_err()
        };
        let none = super::super::Wanted::Volume(Volume::ZERO);
        assert_eq!(refused(&|ask| ask.wanted = none), Impossible::NothingWanted);
        assert_eq!(refused(&|ask| ask.vials = Some(0)), Impossible::NoVials);
        assert_eq!(refused(&|ask| ask.target = Strength::per_ml(0)), Impossible::NoStrength);
        let (low, high) = (Units::whole(50), Units::whole(10_000));
        let bounds = Impossible::VialUnits { low, high };
        assert_eq!(refused(&|ask| ask.vial.units = Units::ZERO), bounds);
        assert_eq!(refused(&|ask| ask.vial.units = Units::milli(u64::MAX)), bounds);
        let least = Volume::ul(90);
        assert_eq!(
            refused(&|ask| ask.vial.holds = Volume::ul(89)),
            Impossible::VialTooSmall { least }
        );
    }

    #[test]
    fn the_strongest_is_what_is_known_or_what_the_vial_gives() {
        let strongest =
            |units, target| sensible(&ask(units, Volume::ml(3), Strength::per_ml(target))).err();
        assert_eq!(strongest(1500, 1500), None);
        let known = Strength::per_ml(1500);
        let ceiling = Ceiling::NoneStrongerKnown;
        let too_strong = Impossible::TooStrong { strongest: known, ceiling };
        assert_eq!(strongest(1500, 1501), Some(too_strong));
        let least = Volume::ul(90);
        let strongest_of_50 = Strength::of(Units::whole(50), least).unwrap();
        let ceiling = Ceiling::LeastDiluent(least);
        let too_strong = Impossible::TooStrong { strongest: strongest_of_50, ceiling };
        assert_eq!(strongest(50, 556), Some(too_strong));
        assert_eq!(strongest(50, 555), None);
    }

    #[test]
    fn a_stock_is_no_stronger_than_known_unless_the_vial_is_too_small() {
        let least = |units, holds| {
            sensible(&ask(units, Volume::ul(holds), Strength::per_ml(500))).unwrap().least_stock
        };
        assert_eq!(least(1500, 3_000), Volume::ml(1));
        assert_eq!(least(150, 3_000), Volume::ul(100));
        assert_eq!(least(1500, 805), Volume::ul(800));
        assert_eq!(least(10_000, 10_000), Volume::ul(6_670));
    }

    #[test]
    fn nearness_has_its_two_limits() {
        let near = |strength| {
            let ask = ask(1500, Volume::ml(3), Strength::per_ml(1000));
            Nearness::of(Strength::per_ml(strength), &ask)
        };
        assert_eq!(near(1000), Some(Nearness::Exact));
        assert_eq!(near(990), Some(Nearness::Close));
        assert_eq!(near(1011), Some(Nearness::Fair));
        assert_eq!(near(1050), Some(Nearness::Fair));
        assert_eq!(near(949), None);
    }

    #[test]
    fn distances_of_any_two_strengths_can_be_told() {
        assert_eq!(off(Strength::per_ml(495), Strength::per_ml(500)), 10_000);
        assert_eq!(off(Strength::per_ml(1), Strength::per_ml(u64::MAX)), MILLION);
        assert_eq!(off(Strength::per_ml(u64::MAX), Strength::per_ml(1)), u64::MAX);
        assert_eq!(off(Strength::per_ml(u64::MAX), Strength::per_ml(u64::MAX - 1)), 1);
    }
}
