//! The dose of adrenaline by weight, where the region's table has one.

use super::{Build, Dose, dose};
use crate::measure::{Mass, Volume};
use crate::protocol::Region;
use crate::protocol::adrenaline::{
    DRAWN_TO, HEAVIEST, LIGHTEST, MICROGRAMS_PER_UL, ODD_FOR_AGE, by_weight,
};

/// Why there is no dose for a weight.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoWeight {
    /// The region's table goes by age alone.
    ByAge,
    /// Lighter than anybody in the table; the lightest.
    TooLight(Mass),
    /// Heavier than can be meant; the heaviest.
    TooHeavy(Mass),
}

/// The dose of 1 mg/mL for a weight, to the nearest mark of a 1 mL syringe and no more than the
/// table's most.
///
/// # Errors
/// [`NoWeight`] if the region has none or the weight is out of bounds. The dose by age then stands.
pub fn dose_by_weight(weight: Mass, region: Region) -> Result<Dose, NoWeight> {
    let rule = by_weight(region).ok_or(NoWeight::ByAge)?;
    if weight < LIGHTEST {
        return Err(NoWeight::TooLight(LIGHTEST));
    }
    if weight > HEAVIEST {
        return Err(NoWeight::TooHeavy(HEAVIEST));
    }
    let micrograms = weight.as_grams() * rule.micrograms_per_kg / 1_000;
    let volume = Volume::ul(micrograms / MICROGRAMS_PER_UL).to_mark(DRAWN_TO).min(rule.most);
    Ok(Dose { low: volume, high: volume })
}

/// Whether a weight can hardly be that of somebody of this age, as 7 kg typed for 70: its dose and
/// the one by age are too far apart. Both are then shown, and it is asked which.
pub fn odd_for_age(weight: Mass, months: u32, region: Region) -> bool {
    let by_age = dose(months, Build::Adult, region);
    dose_by_weight(weight, region).is_ok_and(|by_weight| {
        by_weight.high.times(ODD_FOR_AGE) < by_age.low
            || by_weight.low > by_age.high.times(ODD_FOR_AGE)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::protocol::adrenaline::GROWN_MONTHS;

    fn volume(grams: u64) -> Result<u64, NoWeight> {
        let dose = dose_by_weight(Mass::grams(grams), Region::Australia)?;
        assert_eq!(dose.low, dose.high);
        Ok(dose.low.raw())
    }

    #[test]
    fn it_grows_with_the_weight_and_stops_at_the_most() {
        assert_eq!([7_000, 12_400, 12_500, 49_400].map(volume), [70, 120, 130, 490].map(Ok));
        assert_eq!([50_000, 120_000, 300_000].map(volume), [500; 3].map(Ok));
        let volumes: Vec<u64> = (50..=3_000).map(|tenth| volume(tenth * 100).unwrap()).collect();
        assert!(volumes.is_sorted() && volumes.iter().all(|ul| ul % 10 == 0));
    }

    #[test]
    fn what_is_out_of_bounds_has_no_dose() {
        assert_eq!(volume(4_900), Err(NoWeight::TooLight(LIGHTEST)));
        assert_eq!(volume(300_100), Err(NoWeight::TooHeavy(HEAVIEST)));
        assert_eq!(volume(u64::MAX), Err(NoWeight::TooHeavy(HEAVIEST)));
        assert_eq!(dose_by_weight(Mass::kg(70), Region::Uk), Err(NoWeight::ByAge));
    }

    #[test]
    fn a_slipped_digit_shows_against_the_age() {
        let odd = |kg, months| odd_for_age(Mass::kg(kg), months, Region::Australia);
        assert!(odd(7, GROWN_MONTHS) && !odd(40, GROWN_MONTHS) && !odd(70, GROWN_MONTHS));
        // 150 kg for 15 at three years; and children light and heavy for their age.
        assert!(odd(150, 36) && !odd(12, 36) && !odd(20, 36));
        assert!(!odd_for_age(Mass::kg(7), GROWN_MONTHS, Region::Uk), "no dose, no doubt");
    }
}
