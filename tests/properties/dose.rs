//! Doses: enough points, honest ranges.

use freshet::care::dose::{Remedy, RoundPlan, Standing, planned, standing, supply, urgent};
use freshet::care::territory::{Size, Territory};
use freshet::measure::{Area, Length, Strength, Units, Volume};
use freshet::protocol::Protocol;
use proptest::prelude::*;

proptest! {
    /// The grid leaves no skin out and lays no point too many.
    #[test]
    fn points_cover_the_skin(mm2 in 1_u64..60_000, spacing in 4_u64..=20) {
        let size = Size::Typed(Area::mm2(mm2));
        let skin = Territory::new(vec![], size, &Protocol::default()).unwrap();
        let cell = spacing * spacing;
        let points = u64::from(skin.points(Length::mm(spacing), &Protocol::default()));
        prop_assert!(points * cell >= mm2);
        prop_assert!((points - 1) * cell < mm2);
    }

    /// The round's units are points × bolus × strength, and each remedy does bring it into the range.
    #[test]
    fn remedies_remedy(mm2 in 1_u64..60_000, strength in 150_u64..=1_500) {
        let protocol = Protocol::default();
        let skin = Territory::new(vec![], Size::Typed(Area::mm2(mm2)), &protocol).unwrap();
        let dose = urgent(&skin, Strength::per_ml(strength), &protocol);
        let expected = u64::from(dose.plan.points) * protocol.bolus.raw() * strength;
        prop_assert_eq!(dose.by_grid, Units::milli(expected));
        prop_assert_eq!(dose.remedies.is_empty() || dose.standing != Standing::Within, true);
        for remedy in dose.remedies {
            let plan = match remedy {
                Remedy::Spacing(spacing) => {
                    RoundPlan { points: skin.points(spacing, &protocol), ..dose.plan }
                }
                Remedy::Bolus(bolus) => RoundPlan { bolus, ..dose.plan },
                Remedy::Strength(strength) => RoundPlan { strength, ..dose.plan },
            };
            prop_assert_eq!(standing(plan.units(), &protocol), Standing::Within);
        }
    }

    /// Deposits lay at least the dose, and one fewer would not.
    #[test]
    fn deposits_hold_the_dose(filler in 1_u64..20_000, strength in 15_u64..1_500, deposit in 10_u64..300) {
        let (strength, deposit) = (Strength::per_ml(strength), Volume::ul(deposit));
        let dose = planned(Volume::ul(filler), strength, deposit, &Protocol::default()).unwrap();
        prop_assert!(dose.low <= dose.high && dose.low_volume <= dose.high_volume);
        let laid = deposit.times(u64::from(dose.high_deposits));
        prop_assert!(laid >= dose.high_volume);
        prop_assert!(laid.saturating_sub(deposit) < dose.high_volume);
    }

    /// Vials needed hold the dose; missing ones are those that are not there.
    #[test]
    fn vials(dose in 1_u64..20_000, vial in 50_u64..3_000, at_hand in 0_u32..40) {
        let (dose, vial) = (Units::whole(dose), Units::whole(vial));
        let supply = supply(dose, vial, at_hand);
        prop_assert!(vial.times(u64::from(supply.needed)) >= dose);
        prop_assert_eq!(supply.missing > 0, supply.needed > at_hand);
        prop_assert!(supply.rounds * supply.needed <= at_hand);
    }
}
