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
