//! Doses against what is published or common practice.

use freshet::care::dose::{RoundPlan, Standing, planned, standing, urgent};
use freshet::care::territory::{Refused, Size, Territory};
use freshet::measure::{Area, Length, Strength, Units, Volume};
use freshet::protocol::filler_dose;
use freshet::protocol::zone::Zone;
use freshet::protocol::{Basis, Id, Protocol};

fn skin(zones: &[Zone], size: Size) -> Territory {
    Territory::new(zones.to_vec(), size, &Protocol::default()).unwrap()
}

/// Ciancio 2018, 40 IU per cm (read as cm², to be confirmed), on both vermilions as an ellipse of
/// 52 × 27 mm = 11.0 cm² (Maxillofac Plast Reconstr Surg 2019, derived).
#[test]
fn forty_on_each_square_centimetre() {
    let lips = skin(&[], Size::Typed(Area::cm2(11)));
    let dose = urgent(&lips, Strength::per_ml(500), &Protocol::default());
    assert_eq!(dose.by_published, Units::whole(440));
}

/// Cohen 2015: at least 200 U.
#[test]
fn less_than_the_consensus_is_flagged() {
    let protocol = Protocol::default();
    assert_eq!(standing(Units::whole(150), &protocol), Standing::BelowConsensus);
    assert_eq!(standing(Units::whole(200), &protocol), Standing::Below);
}

/// From memory: 500 for one area, 1000 for two, 1500 for three, each hour.
#[test]
fn one_two_three_areas() {
    let zones = [Zone::UpperLip, Zone::NasolabialFold, Zone::NoseTip];
    for (count, expected) in [(1, 500), (2, 1_000), (3, 1_500)] {
        let skin = skin(&zones[..count], Size::Usual);
        let dose = urgent(&skin, Strength::per_ml(500), &Protocol::default());
        assert_eq!(dose.by_areas, Some(Units::whole(expected)));
    }
}

/// Common practice, no source: one lip about 500; upper lip, fold and nose together 1000 to 1500.
#[test]
fn the_grid_agrees_with_practice() {
    let by_grid = |zones: &[Zone]| {
        urgent(&skin(zones, Size::Usual), Strength::per_ml(500), &Protocol::default()).by_grid
    };
    let lip = by_grid(&[Zone::UpperLip]);
    assert!((450..=650).contains(&(lip.raw() / 1_000)), "{lip}");
    let all = by_grid(&[Zone::UpperLip, Zone::NasolabialFold, Zone::NoseTip]);
    assert!((1_000..=1_500).contains(&(all.raw() / 1_000)), "{all}");
}

/// Common practice, no source: 0.1 mL at each point, 500 to 2000 units a round by surface.
#[test]
fn a_tenth_of_a_millilitre_at_each_point() {
    let protocol = Protocol::default();
    assert_eq!(protocol.bolus, Volume::ul(100));
    let plan = RoundPlan { strength: Strength::per_ml(500), bolus: protocol.bolus, points: 20 };
    assert_eq!(plan.units_per_point(), Units::whole(50));
    assert_eq!(plan.units(), Units::whole(1_000));
    assert_eq!(standing(Units::whole(500), &protocol), Standing::Within);
    assert_eq!(standing(Units::whole(2_000), &protocol), Standing::Within);
    assert_eq!(standing(Units::whole(2_001), &protocol), Standing::Above);
}

/// Common practice, no source: 15 to 30 units for each 0.1 mL of filler; 150 units/mL for part of it.
#[test]
fn planned_work() {
    let dose = planned(Volume::ml(1), Strength::per_ml(150), Volume::ul(100), &Protocol::default());
    let dose = dose.unwrap();
    assert_eq!((dose.low, dose.high), (Units::whole(150), Units::whole(300)));
    assert_eq!((dose.low_volume, dose.high_volume), (Volume::ml(1), Volume::ml(2)));
    assert_eq!((dose.low_deposits, dose.high_deposits), (10, 20));
}

/// Alam 2018: 1.5 to 9 U in 0.1 mL; Safran 2025, in vitro: 150 U for 0.1 mL. A hundredfold.
#[test]
fn published_figures_for_filler_span_a_hundredfold() {
    let low = filler_dose::ALL.iter().map(|report| report.low).min().unwrap();
    let high = filler_dose::ALL.iter().map(|report| report.high).max().unwrap();
    assert!(high >= low.times(100));
    let alam = filler_dose::ALL.iter().find(|r| r.low == Units::milli(1_500)).unwrap();
    assert_eq!(alam.high, Units::whole(9));
    assert!(matches!(alam.basis, Basis::Published(_)));
}

/// Rule of nines: a face is 3 % of body surface, 520 to 600 cm²; more cannot be a territory.
#[test]
fn no_territory_is_larger_than_a_face() {
    let protocol = Protocol::default();
    let face = Territory::new(vec![], Size::Typed(Area::cm2(600)), &protocol);
    assert!(face.is_ok());
    let size = Size::Rectangle { length: Length::mm(300), width: Length::mm(201) };
    let refused = Territory::new(vec![], size, &protocol);
    assert!(matches!(refused, Err(Refused::LargerThanFace { .. })));
}

/// Boey 2024 (88.1 % at or below 500, 69.6 % above, p 0.18) and Schelke 2023 (1519.4 flooding,
/// 122.5 guided) speak against more being better: both stand beside the range.
#[test]
fn what_speaks_against_more_is_shown() {
    let cited = |id, name: &str| {
        let findings = Protocol::entry(id).findings;
        findings.iter().any(|f| f.basis.source().is_some_and(|s| s.citation.contains(name)))
    };
    assert!(cited(Id::RoundLow, "Boey"));
    assert!(cited(Id::RoundHigh, "Schelke"));
    assert!(cited(Id::RoundHigh, "Ors"));
}
