use super::*;
use crate::measure::Length;
use crate::protocol::{Basis, Quantity};

/// CSS pixels that a view is wide on a phone.
const SHOWN: f64 = 312.0;

/// The ring's extent in its narrowest direction, in hundredths of a millimetre.
fn narrowest(ring: &[Spot]) -> f64 {
    let extent = |degrees: u32| {
        let (sin, cos) = f64::from(degrees).to_radians().sin_cos();
        let along = |spot: &Spot| f64::from(spot.x) * cos + f64::from(spot.y) * sin;
        let low = ring.iter().map(along).fold(f64::INFINITY, f64::min);
        ring.iter().map(along).fold(f64::NEG_INFINITY, f64::max) - low
    };
    (0..180).map(extent).fold(f64::INFINITY, f64::min)
}

/// The surface in mm².
fn area(ring: &[Spot]) -> i64 {
    let next = ring.iter().cycle().skip(1);
    let cross =
        |(a, b): (&Spot, &Spot)| i64::from(a.x) * i64::from(b.y) - i64::from(b.x) * i64::from(a.y);
    (ring.iter().zip(next).map(cross).sum::<i64>().abs() + 10_000) / 20_000
}

/// Whether two sides meet anywhere, their ends included.
fn meet((a, b): (Spot, Spot), (c, d): (Spot, Spot)) -> bool {
    let turn = |a: Spot, b: Spot, c: Spot| {
        let cross = i64::from(b.x - a.x) * i64::from(c.y - a.y)
            - i64::from(b.y - a.y) * i64::from(c.x - a.x);
        cross.signum()
    };
    let level = |a: i32, b: i32, c: i32, d: i32| a.min(b) <= c.max(d) && c.min(d) <= a.max(b);
    turn(a, b, c) * turn(a, b, d) <= 0
        && turn(c, d, a) * turn(c, d, b) <= 0
        && level(a.x, b.x, c.x, d.x)
        && level(a.y, b.y, c.y, d.y)
}

#[test]
fn every_zone_is_seen_from_the_front_and_on_a_side() {
    for view in [View::Front, View::Left, View::Right] {
        let zones = view.zones();
        for zone in Zone::ALL {
            let sides = zones.iter().filter(|(other, _)| *other == zone).count();
            let two = matches!(
                zone,
                Zone::NasolabialFold | Zone::Ala | Zone::Temple | Zone::Cheek | Zone::TearTrough
            );
            let expected = if two && view == View::Front { 2 } else { 1 };
            assert_eq!(sides, expected, "{view:?} {zone:?}");
        }
    }
    let close: Vec<Zone> = View::Lips.zones().into_iter().map(|(zone, _)| zone).collect();
    assert!(Zone::ALL.into_iter().all(|zone| close.contains(&zone) == close_up(zone)));
}

#[test]
fn rings_are_simple_and_within_the_bounds() {
    for view in View::ALL {
        let (low, high) = view.bounds();
        for (zone, ring) in view.zones() {
            let within =
                |s: &Spot| (low.x..=high.x).contains(&s.x) && (low.y..=high.y).contains(&s.y);
            assert!(ring.iter().all(within), "{view:?} {zone:?}");
            let sides: Vec<_> =
                ring.iter().copied().zip(ring.iter().copied().cycle().skip(1)).collect();
            for (n, one) in sides.iter().enumerate() {
                assert_ne!(one.0, one.1, "{view:?} {zone:?}");
                let last = if n == 0 { sides.len() - 1 } else { sides.len() };
                for other in sides.get(n + 2..last).unwrap_or_default() {
                    assert!(!meet(*one, *other), "{view:?} {zone:?}: {one:?} {other:?}");
                }
            }
        }
    }
}

#[test]
fn zones_do_not_overlap() {
    // The other two views show the same rings.
    for view in [View::Front, View::Left] {
        let (low, high) = view.bounds();
        let zones = view.zones();
        // So far apart that none slips between, and off the whole numbers on which the lips meet.
        for y in (low.y + 3..high.y).step_by(130) {
            for x in (low.x + 1..high.x).step_by(130) {
                let spot = Spot::new(x, y);
                let hit = zones.iter().filter(|(_, ring)| curve::inside(ring, spot));
                let hit: Vec<_> = hit.map(|(zone, _)| zone).collect();
                assert!(hit.len() <= 1, "{view:?} {spot:?}: {hit:?}");
            }
        }
    }
}

#[test]
fn zones_can_be_tapped() {
    for view in View::ALL {
        let (low, high) = view.bounds();
        let shown = SHOWN / f64::from(high.x - low.x);
        for (zone, ring) in view.zones() {
            let narrow = match zone {
                Zone::Ala | Zone::NasolabialFold | Zone::TearTrough => true,
                Zone::Temple => view == View::Front,
                _ => false,
            };
            let least = if narrow { 24.0 } else { 48.0 };
            let across = narrowest(&ring) * shown;
            assert!(across >= least, "{view:?} {zone:?}: {across:.1}");
        }
    }
}

/// Within a third of the usual, but for what is seen aslant; the module says which and why.
#[test]
fn drawn_areas_agree_with_the_usual_where_the_skin_faces_the_viewer() {
    for view in View::ALL {
        for (zone, ring) in view.zones() {
            let (drawn, (usual, _)) = (area(&ring), zone.usual());
            let usual = i64::try_from(usual.raw()).unwrap();
            let aslant = match view {
                View::Front | View::Lips => matches!(zone, Zone::Ala | Zone::Cheek | Zone::Temple),
                View::Left | View::Right => {
                    matches!(zone, Zone::Ala | Zone::Temple | Zone::Forehead | Zone::Glabella)
                }
            };
            let close = (usual - drawn).abs() * 3 <= usual;
            assert_ne!(close, aslant, "{view:?} {zone:?}: {drawn} of {usual}");
            assert!(drawn * 3 <= usual * 4, "{view:?} {zone:?}: never much larger");
        }
    }
}

/// The table in the module's text.
#[test]
fn drawn_areas_are_as_told() {
    let told = |view: View| {
        Zone::ALL.map(|zone| {
            let zones = view.zones();
            zones.iter().find(|(other, _)| *other == zone).map(|(_, ring)| area(ring)).unwrap()
        })
    };
    let mut rows = include_str!("../face.rs").lines().filter(|line| line.starts_with("//! | "));
    assert!(rows.next().unwrap().contains("front"));
    let (front, side) = (told(View::Front), told(View::Left));
    for (n, row) in rows.enumerate() {
        let cells: Vec<i64> = row.split('|').filter_map(|cell| cell.trim().parse().ok()).collect();
        let usual = i64::try_from(Zone::ALL[n].usual().0.raw()).unwrap();
        assert_eq!(cells, [usual, front[n], side[n]], "{row}");
    }
}

#[test]
fn right_is_left_in_a_mirror() {
    let (low, high) = View::Left.bounds();
    assert_eq!(View::Right.bounds(), (Spot::new(-high.x, low.y), Spot::new(-low.x, high.y)));
    for spot in [Spot::new(5_000, 0), Spot::new(-700, -1_200), Spot::new(6_500, -6_000)] {
        assert!(View::Left.zone_at(spot).is_some());
        assert_eq!(View::Right.zone_at(mirrored(spot)), View::Left.zone_at(spot));
    }
}

#[test]
fn a_place_tells_its_zone() {
    let at = |x, y| View::Front.zone_at(Spot::new(x * 100, y * 100));
    assert_eq!(at(0, 5), Some(Zone::UpperLip));
    assert_eq!(at(10, 30), Some(Zone::LowerLip));
    assert_eq!(at(0, 60), Some(Zone::Chin));
    assert_eq!(at(0, -95), Some(Zone::Forehead));
    assert_eq!(at(-50, 0), Some(Zone::Cheek));
    // On an eye, and outside of the face.
    assert_eq!(at(30, -42), None);
    assert_eq!(at(0, 90), None);
    assert_eq!(View::Front.zone_at(Spot::new(i32::MAX, i32::MIN)), None);
    // On the line of the mouth, and in the gap above the lip.
    let lip = View::Lips.zone_at(landmark::STOMION).unwrap();
    assert!(matches!(lip, Zone::UpperLip | Zone::LowerLip));
    assert_eq!(View::Lips.zone_at(Spot::new(600, 40)), Some(Zone::UpperLip));
    assert_eq!(View::Lips.zone_at(Spot::new(5_000, 0)), None);
}

#[test]
fn a_tap_gets_the_ring_of_its_own_side() {
    let (zone, ring) = View::Front.shape_at(Spot::new(-5_000, 0)).unwrap();
    assert_eq!(zone, Zone::Cheek);
    assert!(ring.iter().all(|spot| spot.x < 0));
}

#[test]
fn a_corner_is_kept_and_a_curve_goes_through_its_places() {
    let corner = curve::spots(&[0, 0, 0, 0, 100, 0, 100, 0, 100, 100, 100, 100, 0, 100, 0, 100]);
    let square = curve::ring(corner);
    assert_eq!(square.len(), 16);
    assert!(square.iter().all(|s| s.x == 0 || s.x == 100 || s.y == 0 || s.y == 100));
    let round = curve::ring(curve::spots(&[0, 0, 100, 0, 100, 100, 0, 100]));
    assert!([(0, 0), (100, 0), (100, 100), (0, 100)].iter().all(|&s| round.contains(&s.into())));
    // Bulging: half way from (0, 0) to (100, 0) by hand, 9/16 and -1/16 of the places.
    assert!(round.contains(&Spot::new(50, -13)) || round.contains(&Spot::new(50, -12)));
}

#[test]
fn the_standard_is_the_first_finding_and_within_the_bounds() {
    for landmark in Landmark::ALL {
        let standard = landmark.standard();
        let (low, high) = landmark.bounds();
        for finding in landmark.findings() {
            let Quantity::Length(length) = finding.low else { panic!("{landmark:?} is a length") };
            assert!(low < length && length < high);
        }
        assert_eq!(landmark.findings()[0].low, Quantity::Length(standard.length));
        assert!(matches!(standard.basis, Basis::Published(_)));
        // A length typed in centimetres is not taken.
        assert!(Length::tenths(standard.length.raw() / 10) < low);
    }
}
