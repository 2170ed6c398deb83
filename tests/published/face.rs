//! The drawing of the face against published measures.

use freshet::measure::Length;
use freshet::plane::Spot;
use freshet::protocol::face::landmark::{
    ALARE, CHEILION, ENDOCANTHION, EXOCANTHION, LABIALE_INFERIUS, LABIALE_SUPERIUS, MENTON, NASION,
    STOMION, SUBLABIALE, SUBNASALE, TRICHION, ZYGION,
};
use freshet::protocol::face::{Landmark, View};
use freshet::protocol::zone::Zone;
use freshet::protocol::{Basis, Quantity};

/// How far a drawn length may be from the published one, in millimetres.
const CLOSE: f64 = 0.5;

/// From a place to the same one on the other side of the face.
fn across(spot: Spot) -> f64 {
    spot.distance(Spot::new(-spot.x, spot.y))
}

/// Maxillofac Plast Reconstr Surg 2019, doi:10.1186/s40902-019-0191-7, table 9, VERIFIED. One
/// population; the second of two columns, presumably women, as the header was not seen.
#[test]
fn the_drawn_face_has_the_published_measures() {
    for (what, published, drawn) in [
        ("mouth width, ch-ch", 52.0, across(CHEILION)),
        ("nasal width, al-al", 40.7, across(ALARE)),
        ("nasal height, n-sn", 47.6, NASION.distance(SUBNASALE)),
        ("upper vermilion, ls-sto", 13.4, LABIALE_SUPERIUS.distance(STOMION)),
        ("lower vermilion, sto-li", 13.6, STOMION.distance(LABIALE_INFERIUS)),
        ("upper lip height, sn-sto", 24.0, SUBNASALE.distance(STOMION)),
        ("intercanthal, en-en", 32.1, across(ENDOCANTHION)),
        ("biocular, ex-ex", 94.4, across(EXOCANTHION)),
        ("bizygomatic, zy-zy", 130.1, across(ZYGION)),
        ("forehead height, tr-n", 67.5, TRICHION.distance(NASION)),
        ("lower lip height, sto-sl", 20.7, STOMION.distance(SUBLABIALE)),
        ("lower face height, sn-me", 69.5, SUBNASALE.distance(MENTON)),
    ] {
        assert!((drawn - published).abs() <= CLOSE, "{what}: {drawn:.2} for {published}");
    }
}

/// The same table, both columns: 52.0 and 55.9 mm across the mouth, 47.6 and 51.0 mm along the nose.
#[test]
fn both_columns_stand_beside_the_standard() {
    for (landmark, published, drawn) in [
        (Landmark::MouthWidth, [520, 559], across(CHEILION)),
        (Landmark::NasalHeight, [476, 510], NASION.distance(SUBNASALE)),
    ] {
        let published = published.map(|tenths| Quantity::Length(Length::tenths(tenths)));
        let found: Vec<Quantity> = landmark.findings().iter().map(|f| f.low).collect();
        assert_eq!(found, published);
        let standard = landmark.standard();
        assert!(
            (drawn - f64::from(u16::try_from(standard.length.raw()).unwrap()) / 10.0).abs() < 0.01
        );
        let cited = |basis: Basis| basis.source().unwrap().locator;
        assert_eq!(cited(standard.basis), "doi:10.1186/s40902-019-0191-7");
        assert!(landmark.findings().iter().all(|f| cited(f.basis) == cited(standard.basis)));
    }
    for view in View::ALL {
        let aslant = matches!(view, View::Left | View::Right);
        let expected = if aslant { Landmark::NasalHeight } else { Landmark::MouthWidth };
        assert_eq!(view.measure(), expected.standard());
    }
}

/// The zones sit where the landmarks are: on one face, not on two.
#[test]
fn the_zones_lie_about_the_landmarks() {
    let beside = |spot: Spot, x: i32, y: i32| Spot::new(spot.x + x * 100, spot.y + y * 100);
    for view in [View::Front, View::Lips] {
        for (spot, zone) in [
            (beside(SUBNASALE, 0, 2), Zone::UpperLip),
            (LABIALE_SUPERIUS, Zone::UpperLip),
            (beside(STOMION, 0, -2), Zone::UpperLip),
            (beside(CHEILION, -2, -2), Zone::UpperLip),
            (beside(CHEILION, -2, 2), Zone::LowerLip),
            (beside(STOMION, 0, 2), Zone::LowerLip),
            (LABIALE_INFERIUS, Zone::LowerLip),
            (beside(SUBLABIALE, 0, 4), Zone::Chin),
            (beside(MENTON, 0, -3), Zone::Chin),
            (beside(SUBNASALE, 0, -8), Zone::NoseTip),
            (beside(ALARE, -2, 0), Zone::Ala),
            (beside(ALARE, 6, 5), Zone::NasolabialFold),
        ] {
            assert_eq!(view.zone_at(spot), Some(zone), "{view:?} {spot:?}");
        }
    }
    let front = |spot| View::Front.zone_at(spot);
    assert_eq!(front(beside(NASION, 0, -10)), Some(Zone::Glabella));
    assert_eq!(front(beside(TRICHION, 0, 5)), Some(Zone::Forehead));
    assert_eq!(front(beside(ENDOCANTHION, 10, 12)), Some(Zone::TearTrough));
    assert_eq!(front(beside(EXOCANTHION, 10, 0)), Some(Zone::Temple));
    assert_eq!(front(beside(ZYGION, -4, 15)), Some(Zone::Cheek));
}
