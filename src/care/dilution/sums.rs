//! Single sums, without a plan.

use super::{Syringe, Tolerance};
use crate::measure::{Strength, Units, Volume};

/// What `vials` vials of `vial_units` give, all dissolved in `diluent` together; `None` if there is
/// no vial or no diluent, or more units than can be counted.
pub fn strength_of(vial_units: Units, vials: u32, diluent: Volume) -> Option<Strength> {
    let units = vial_units.raw().checked_mul(u64::from(vials)).filter(|&units| units > 0)?;
    Strength::of(Units::milli(units), diluent)
}

/// A dose as it can be drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Drawn {
    /// The volume that holds the dose, to the nearest microlitre.
    pub exact: Volume,
    /// The nearest mark to it, but at least one. Above the capacity it is the sum of several
    /// syringes, the last one part-filled.
    pub mark: Volume,
    /// Units up to that mark.
    pub delivered: Units,
    /// What rounding to the mark costs.
    pub cost: Cost,
    /// How far the drawn volume may err: of each syringe, all to the same side.
    pub tolerance: Tolerance,
    /// Whether that is little enough; see [`Syringe::measures_well`].
    pub measured_well: bool,
}

/// The price of rounding to a mark.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cost {
    /// The dose falls on a mark.
    Nothing,
    /// So much more than the dose.
    Over(Units),
    /// So much less than the dose.
    Under(Units),
}

/// The volume of `strength` that holds `dose`, to the mark of `syringe`. `None` if either is zero,
/// or the volume is more than can be counted.
pub fn volume_for(dose: Units, strength: Strength, syringe: Syringe) -> Option<Drawn> {
    let exact = strength.volume_of(dose).filter(|volume| volume.raw() < u64::MAX / 1_000)?;
    let interval = syringe.interval();
    if dose.is_zero() {
        return None;
    }
    // The mark is found from the units, so that it does not inherit the rounding of `exact`.
    let below = interval.times(exact.fits(interval));
    let nearest =
        [below.saturating_sub(interval), below, below + interval, below + interval.times(2)]
            .into_iter()
            .filter(|mark| !mark.is_zero())
            .min_by_key(|&mark| (strength.units_in(mark).gap(dose), u64::MAX - mark.raw()))?;
    let delivered = strength.units_in(nearest);
    let cost = match (delivered.checked_sub(dose), dose.saturating_sub(delivered)) {
        (Some(over), _) if !over.is_zero() => Cost::Over(over),
        (_, under) if !under.is_zero() => Cost::Under(under),
        _ => Cost::Nothing,
    };
    let full = nearest.fits(syringe.capacity());
    let rest = nearest.saturating_sub(syringe.capacity().times(full));
    let whole = syringe.tolerance(syringe.capacity());
    let tolerance = whole.times(full).and(syringe.tolerance(rest));
    let measured_well = tolerance.within(nearest);
    Some(Drawn { exact, mark: nearest, delivered, cost, tolerance, measured_well })
}

/// Syringes that hold `volume`; none for no volume.
pub fn syringes_needed(volume: Volume, syringe: Syringe) -> u64 {
    volume.needs(syringe.capacity())
}

/// Most units that may stay in the nozzle of `syringe` filled with `strength`.
pub fn units_in_nozzle(strength: Strength, syringe: Syringe) -> Units {
    strength.units_in(syringe.dead_space())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn one_ml() -> Syringe {
        Syringe::new(Volume::ml(1), Volume::ul(10)).unwrap()
    }

    fn drawn(dose: u64, strength: u64) -> Drawn {
        volume_for(Units::milli(dose), Strength::per_ml(strength), one_ml()).unwrap()
    }

    #[test]
    fn vials_together_have_the_strength_of_one_in_its_part() {
        let strength = strength_of(Units::whole(150), 2, Volume::ml(1));
        assert_eq!(strength, Some(Strength::per_ml(300)));
        assert_eq!(strength_of(Units::whole(150), 2, Volume::ZERO), None);
        assert_eq!(strength_of(Units::whole(150), 0, Volume::ml(1)), None);
        assert_eq!(strength_of(Units::milli(u64::MAX), 2, Volume::ml(1)), None);
    }

    #[test]
    fn the_nearest_mark_and_its_price() {
        let over = drawn(20_000, 600);
        assert_eq!((over.exact, over.mark), (Volume::ul(33), Volume::ul(30)));
        assert_eq!(over.cost, Cost::Under(Units::whole(2)));
        let over = drawn(16_500, 600);
        assert_eq!((over.mark, over.cost), (Volume::ul(30), Cost::Over(Units::milli(1_500))));
        // Halfway the larger mark is taken: the dose is not cut.
        let halfway = drawn(15_000, 600);
        assert_eq!((halfway.mark, halfway.cost), (Volume::ul(30), Cost::Over(Units::whole(3))));
        assert_eq!(halfway.delivered, Units::whole(18));
    }

    #[test]
    fn the_least_is_one_mark() {
        let tiny = drawn(1, 600);
        assert_eq!((tiny.exact, tiny.mark), (Volume::ZERO, Volume::ul(10)));
        assert_eq!(tiny.cost, Cost::Over(Units::milli(5_999)));
        assert!(!tiny.measured_well);
    }

    #[test]
    fn several_syringes_err_together() {
        let long = drawn(1_230_000, 500);
        assert_eq!(long.mark, Volume::ul(2_460));
        // Two full ones at 0.05 mL each, and 0.46 mL by the rule below half.
        assert_eq!(long.tolerance.nanolitres(), 2 * 50_000 + 15_000 + 9_200);
        assert!(long.measured_well);
    }

    #[test]
    fn no_dose_or_no_strength_has_no_volume() {
        assert_eq!(volume_for(Units::ZERO, Strength::per_ml(150), one_ml()), None);
        assert_eq!(volume_for(Units::whole(1), Strength::per_ml(0), one_ml()), None);
        assert_eq!(volume_for(Units::milli(u64::MAX), Strength::per_ml(1), one_ml()), None);
    }
}
