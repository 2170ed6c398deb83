//! Dilution against what is printed outside: labels, the syringe standard, common practice.

use freshet::care::dilution::{
    Ask, Cost, Method, Movement, Plan, Step, Syringe, Vial, plans, strength_of, syringes_needed,
    units_in_nozzle, volume_for,
};
use freshet::measure::{Strength, Units, Volume};
use freshet::protocol::barrel::CLASSES;

fn one_ml() -> Syringe {
    Syringe::new(Volume::ml(1), Volume::ul(10)).unwrap()
}

fn big_vial() -> Vial {
    Vial { units: Units::whole(1500), holds: Volume::ml(3) }
}

/// The plan that starts from the big vial in 1 mL, for one full syringe of 1 mL.
fn from_one_ml(target: u64) -> Plan {
    let target = Strength::per_ml(target);
    let ask = Ask::volume(big_vial(), Some(1), target, Volume::ml(1), one_ml());
    let answer = plans(&ask).unwrap();
    let by_one_ml = |plan: &Plan| plan.method().diluent() == Volume::ml(1);
    answer.into_iter().find(by_one_ml).unwrap()
}

/// UK product characteristics, 1500 IU powder: dissolved in 1 mL.
#[test]
fn one_big_vial_in_one_millilitre() {
    let stock = strength_of(Units::whole(1500), 1, Volume::ml(1)).unwrap();
    assert_eq!(stock, Strength::per_ml(1500));
    assert_eq!(stock.units_in(Volume::ul(100)), Units::whole(150));
    let plan = from_one_ml(1500);
    assert_eq!(plan.strength(), stock);
    assert_eq!(plan.method(), &Method::WholeVial { diluent: Volume::ml(1) });
}

/// US labels, preliminary skin test: 0.02 mL of 150 units/mL is 3 units.
#[test]
fn the_skin_test_of_the_us_label() {
    let drawn = volume_for(Units::whole(3), Strength::per_ml(150), one_ml()).unwrap();
    assert_eq!((drawn.mark, drawn.cost), (Volume::ul(20), Cost::Nothing));
    assert_eq!(drawn.delivered, Units::whole(3));
    // ISO 7886-1, derived: ±0.0154 mL, 77 % of it.
    assert_eq!(drawn.tolerance.nanolitres(), 15_400);
    assert_eq!(drawn.tolerance.per_mille_of(drawn.mark), 770);
    assert!(!drawn.measured_well);
}

/// US labels name vials of 200 units/mL too; 0.02 mL of it is 4 units, by arithmetic.
#[test]
fn the_skin_test_at_200() {
    let drawn = volume_for(Units::whole(4), Strength::per_ml(200), one_ml()).unwrap();
    assert_eq!((drawn.mark, drawn.cost), (Volume::ul(20), Cost::Nothing));
}

/// Common practice, no source: a test of 15 to 30 units, which 150 to 300 per mL hold in 0.1 mL.
#[test]
fn the_usual_skin_test() {
    for (dose, strength, mark) in [(15, 150, 100), (30, 300, 100), (15, 300, 50)] {
        let strength = Strength::per_ml(strength);
        let drawn = volume_for(Units::whole(dose), strength, one_ml()).unwrap();
        assert_eq!((drawn.mark, drawn.cost), (Volume::ul(mark), Cost::Nothing));
    }
}

/// Common practice, no source: 1500 units in 1 mL, of which 0.1, 0.2, 0.4 mL made up to 1 mL.
#[test]
fn three_strengths_of_the_trade() {
    for (target, drawn) in [(150, 100), (300, 200), (600, 400)] {
        let plan = from_one_ml(target);
        let step = Step { from: Volume::ul(drawn), to: Volume::ml(1) };
        assert_eq!(plan.method(), &Method::StockThenDilute { stock: Volume::ml(1), step });
        assert_eq!(plan.strength(), Strength::per_ml(target));
        assert_eq!(plan.delivered().units, Units::whole(target));
        assert_eq!(
            plan.movements(),
            [
                Movement::DrawDiluent { to: Volume::ml(1) },
                Movement::Dissolve { vial: 1 },
                Movement::DrawFromVial { vial: 1, to: Volume::ul(drawn) },
                Movement::MakeUp { to: Volume::ml(1) },
                Movement::Finish { syringe: 1 },
            ]
        );
        // It takes the fewest movements, so it stands first.
        let ask =
            Ask::dose(big_vial(), None, Strength::per_ml(target), Units::whole(target), one_ml());
        assert_eq!(plans(&ask).unwrap()[0].movements(), plan.movements());
    }
}

/// Common practice, no source: 500 per mL for an occlusion, one lip about 500 units, three areas
/// 1500. The vial in 3 mL has that strength itself.
#[test]
fn an_occlusion_from_the_whole_vial() {
    let ask = Ask::dose(big_vial(), Some(1), Strength::per_ml(500), Units::whole(1500), one_ml());
    let best = &plans(&ask).unwrap()[0];
    assert_eq!(best.method(), &Method::WholeVial { diluent: Volume::ml(3) });
    assert!(best.is_exact());
    assert_eq!(best.syringes().len(), 3);
    assert_eq!(best.waste().total(), Units::ZERO);
}

/// A third of a millilitre is no mark: 0.33 mL of 1500 made up to 1 mL is 495. Arithmetic.
#[test]
fn a_third_is_no_mark() {
    let stock = Strength::per_ml(1500);
    let drawn = volume_for(Units::whole(500), stock, one_ml()).unwrap();
    assert_eq!(drawn.mark, Volume::ul(330));
    assert_eq!(drawn.cost, Cost::Under(Units::whole(5)));
    // But 0.3 in 0.9 mL is a third.
    let plan = from_one_ml(500);
    let step = Step { from: Volume::ul(300), to: Volume::ul(900) };
    assert_eq!(plan.method(), &Method::StockThenDilute { stock: Volume::ml(1), step });
    assert!(plan.is_exact());
}

/// UK product characteristics: 15 IU per mL in ophthalmic anaesthesia. The others are quarters of
/// the weakest strength that is common practice. All three need a second look at the marks: a
/// single draw from 1500 in 1 mL would be 0.01, 0.025 and 0.05 mL.
#[test]
fn weak_strengths_from_the_big_vial() {
    for (milli, stepwise) in [(15_000, true), (37_500, true), (75_000, false)] {
        let target = Strength::of(Units::milli(milli), Volume::ml(1)).unwrap();
        let ask = Ask::volume(big_vial(), Some(1), target, Volume::ml(1), one_ml());
        let best = &plans(&ask).unwrap()[0];
        assert!(best.is_exact());
        assert_eq!(matches!(best.method(), Method::Stepwise { .. }), stepwise);
        for movement in best.movements() {
            assert!(movement.mark().is_none_or(|mark| mark >= Volume::ul(90)));
        }
    }
}

/// ISO 7886-1, derived for a 1 mL syringe: tolerances in nanolitres.
#[test]
fn tolerances_of_a_one_millilitre_syringe() {
    let table =
        [(20, 15_400), (50, 16_000), (100, 17_000), (200, 19_000), (500, 25_000), (1_000, 50_000)];
    for (drawn, tolerance) in table {
        assert_eq!(one_ml().tolerance(Volume::ul(drawn)).nanolitres(), tolerance, "{drawn}");
    }
    assert_eq!(one_ml().tolerance(Volume::ul(50)).per_mille_of(Volume::ul(50)), 320);
    assert_eq!(one_ml().tolerance(Volume::ul(200)).per_mille_of(Volume::ul(200)), 95);
}

/// ISO 7886-1 as worked by a test laboratory, 2016: 4 mL from a 10 mL syringe, ±0.19 mL.
#[test]
fn the_laboratory_s_worked_example() {
    let syringe = Syringe::new(Volume::ml(10), Volume::ul(500)).unwrap();
    assert_eq!(syringe.tolerance(Volume::ml(4)).volume(), Volume::ul(190));
}

/// ISO 7886-1, from memory: dead space 0.07 mL, which holds 105, 35 or 10.5 units.
#[test]
fn what_stays_in_the_nozzle() {
    for (strength, milli) in [(1500, 105_000), (500, 35_000), (150, 10_500)] {
        let there = units_in_nozzle(Strength::per_ml(strength), one_ml());
        assert_eq!(there, Units::milli(milli));
    }
}

/// ISO 7886-1, from memory: the widest marks of each class, and no wider.
#[test]
fn marks_may_be_as_wide_as_the_standard_allows() {
    for (capacity, widest) in [(1_000, 50), (2_000, 200), (5_000, 500), (10_000, 1_000)] {
        let capacity = Volume::ul(capacity);
        assert!(Syringe::new(capacity, Volume::ul(widest)).is_ok());
        assert!(Syringe::new(capacity, Volume::ul(2 * widest)).is_err());
    }
    assert_eq!(CLASSES.len(), 4);
}

/// British Pharmacopoeia: 90 to 115 % of the stated units, so 1350 to 1725 of 1500.
#[test]
fn the_band_of_the_monograph() {
    let vial = from_one_ml(1500).expected().vial;
    assert_eq!((vial.low, vial.high), (Strength::per_ml(1350), Strength::per_ml(1725)));
}

/// The worst case of the usual dilution, by hand from the two published rules: diluent 1 mL ±5 %,
/// draw 0.1 mL ±0.017, made up to 1 mL ±5 %, vial 90 to 115 %.
#[test]
fn the_worst_case_of_the_usual_dilution() {
    let expected = *from_one_ml(150).expected();
    let milli = |count| Strength::of(Units::milli(count), Volume::ml(1)).unwrap();
    // 1500 / 1.05 × 0.083 / 1.05 = 112.925…; 1500 / 0.95 × 0.117 / 0.95 = 194.459…
    assert_eq!((expected.syringe.low, expected.syringe.high), (milli(112_925), milli(194_460)));
    assert_eq!((expected.both.low, expected.both.high), (milli(101_632), milli(223_629)));
    // 0.07 mL more of 1500 out of the nozzle.
    assert_eq!(expected.nozzle, Strength::per_ml(255));
}

/// Common practice, no source: vials of 150, 200, 300 and 1500 units. 300 per mL from each.
#[test]
fn every_usual_vial_gives_300() {
    for units in [150, 200, 300, 1500] {
        let vial = Vial { units: Units::whole(units), holds: Volume::ml(3) };
        let dose = Units::whole(300);
        let ask = Ask::dose(vial, None, Strength::per_ml(300), dose, one_ml());
        let best = &plans(&ask).unwrap()[0];
        assert!(best.delivered().units >= dose);
        assert!(best.deviation().abs() <= 10, "{units}: {}", best.deviation());
        assert_eq!(u64::from(best.vials_used()), 300_u64.div_ceil(units));
    }
}

/// 1.2 mL in 1 mL syringes is two of them. Arithmetic.
#[test]
fn a_little_over_a_syringe_is_two() {
    assert_eq!(syringes_needed(Volume::ul(1_200), one_ml()), 2);
    assert_eq!(syringes_needed(Volume::ml(1), one_ml()), 1);
    assert_eq!(syringes_needed(Volume::ZERO, one_ml()), 0);
}
