//! Photos: whatever corners are dragged to, whatever a record was altered to.

use freshet::measure::{Area, Length};
use freshet::plane::{
    Dot, Extent, Kind, Rectified, Ring, Scale, Spot, Stroke, Unscaled, rectify, trace,
};
use freshet::protocol::card::{ID_1, LIMITS};
use proptest::prelude::*;

const PHOTO: Extent = Extent { width: 2_000, height: 1_500 };

fn by_card(corners: [(i32, i32); 4]) -> Result<Rectified, Unscaled> {
    rectify(&Scale::Card(corners.map(Dot::from)), PHOTO, ID_1, &LIMITS)
}

/// The corners of a card lying flat to the photo, turned and moved, so many pixels to a millimetre.
fn straight(scale: f64, turn: f64, to: (i32, i32)) -> [(i32, i32); 4] {
    let (sin, cos) = turn.sin_cos();
    #[expect(clippy::cast_possible_truncation)]
    let tenths = |at: f64| (at * scale * 10.0).round() as i32;
    [(-42.8, -26.99), (42.8, -26.99), (42.8, 26.99), (-42.8, 26.99)].map(|(x, y): (f64, f64)| {
        (to.0 + tenths(x * cos - y * sin), to.1 + tenths(x * sin + y * cos))
    })
}

fn good() -> impl Strategy<Value = [(i32, i32); 4]> {
    let off = || prop::array::uniform4((-15..=15_i32, -15..=15_i32));
    let to = (6_000..14_000_i32, 6_000..9_000_i32);
    (3.0..6.0_f64, 0.0..std::f64::consts::TAU, to, off()).prop_map(|(scale, turn, to, off)| {
        let mut corners = straight(scale, turn, to);
        for (corner, off) in corners.iter_mut().zip(off) {
            *corner = (corner.0 + off.0, corner.1 + off.1);
        }
        corners
    })
}

fn any_number() -> impl Strategy<Value = f64> {
    prop_oneof![-4_000.0..4_000.0_f64, any::<f64>(), Just(f64::NAN), Just(f64::INFINITY)]
}

fn any_dot() -> impl Strategy<Value = (i32, i32)> {
    let number = || prop_oneof![4 => 0..20_000_i32, 1 => (0..5_i32).prop_map(|n| n * 3_000), 1 => any::<i32>()];
    (number(), number())
}

/// Everything that can be asked.
fn ask(rectified: &Rectified, (x, y): (f64, f64), spots: Vec<Spot>) {
    let _ = (rectified.to_skin(x, y), rectified.to_photo(Spot::new(i32::MAX, i32::MIN)));
    let _ = (rectified.tilt(), rectified.misfit(), rectified.card());
    if let Ok(traced) = trace(&[Stroke { kind: Kind::Skin, spots }]) {
        let _ = (rectified.too_far(&traced.outline), rectified.area_error(&traced.outline));
    }
}

proptest! {
    #[test]
    fn any_scale_is_taken_or_refused(
        corners in prop::array::uniform4(any_dot()),
        length in any::<u64>(),
        extent in prop_oneof![Just((2_000, 1_500)), any::<(u32, u32)>()],
        at in (any_number(), any_number()),
        spots in prop::collection::vec(any::<(i32, i32)>().prop_map(Spot::from), 0..9),
    ) {
        let corners = corners.map(Dot::from);
        let photo = Extent { width: extent.0, height: extent.1 };
        let ends = [corners[0], corners[1]];
        let known = Scale::Known { ends, length: Length::tenths(length) };
        for scale in [Scale::Card(corners), known] {
            let text = serde_json::to_string(&scale).unwrap();
            prop_assert_eq!(&serde_json::from_str::<Scale>(&text).unwrap(), &scale);
            if let Ok(rectified) = rectify(&scale, photo, ID_1, &LIMITS) {
                ask(&rectified, at, spots.clone());
            }
        }
    }

    /// To within the half hundredth that a place is rounded to.
    #[test]
    fn there_and_back(corners in good(), x in 0.0..2_000.0_f64, y in 0.0..1_500.0_f64) {
        let Ok(rectified) = by_card(corners) else { return Ok(()) };
        let Some(spot) = rectified.to_skin(x, y) else { return Ok(()) };
        let back = rectified.to_photo(spot).unwrap();
        // Less than 7 pixels to a millimetre, more where the skin comes nearer.
        let off = (back.0 - x).hypot(back.1 - y);
        prop_assert!(off < 0.1, "{off}");
        let (there_x, there_y) = spot.mm();
        let again = rectified.to_skin(back.0, back.1).unwrap();
        prop_assert!(again.distance(spot) < 0.015, "{there_x} {there_y}");
    }

    /// Which corner comes first, and which way round, is all one.
    #[test]
    fn corners_may_start_anywhere(corners in good(), first in 0_usize..4, back in any::<bool>()) {
        let Ok(one) = by_card(corners) else { return Ok(()) };
        let mut other = corners;
        other.rotate_left(first);
        if back {
            other.reverse();
        }
        let other = by_card(other).unwrap();
        prop_assert_eq!(one.tilt(), other.tilt());
        prop_assert_eq!(one.misfit(), other.misfit());
        prop_assert_eq!(one.to_skin(300.0, 400.0), other.to_skin(300.0, 400.0));
    }

    /// Skin is not mirrored, and the card itself measures what it is.
    #[test]
    fn a_card_seen_straight_measures_itself(corners in good()) {
        let Ok(rectified) = by_card(corners) else { return Ok(()) };
        let spots: Vec<Spot> = corners
            .map(Dot::from)
            .map(|corner| rectified.to_skin(corner.pixels().0, corner.pixels().1).unwrap())
            .to_vec();
        let turns = |at: [(i64, i64); 3]| {
            (at[1].0 - at[0].0) * (at[2].1 - at[0].1) - (at[1].1 - at[0].1) * (at[2].0 - at[0].0)
        };
        let spot = |place: usize| (i64::from(spots[place].x), i64::from(spots[place].y));
        prop_assert!(turns([spot(0), spot(1), spot(2)]) > 0);
        let outline = trace(&[Stroke { kind: Kind::Skin, spots }]).unwrap().outline;
        // 85.60 × 53.98 mm; corners half a millimetre off at most.
        prop_assert!(outline.area().gap(Area::mm2(4_621)) < Area::mm2(70), "{}", outline.area());
        prop_assert_eq!(rectified.too_far(&outline), None);
    }

    #[test]
    fn crossed_flat_and_tiny_cards_are_refused(corners in good(), part in 0..=10_i32) {
        let [a, b, c, d] = corners;
        prop_assert_eq!(by_card([a, c, b, d]).unwrap_err(), Unscaled::Crossed);
        prop_assert_eq!(by_card([a, b, b, d]).unwrap_err(), Unscaled::NotConvex);
        prop_assert_eq!(by_card([a, a, a, a]).unwrap_err(), Unscaled::NotConvex);
        let on = |from: i32, to: i32| from + (to - from) * part / 10;
        let flat = by_card([a, b, (on(a.0, b.0), on(a.1, b.1)), d]);
        prop_assert!(flat.is_err());
        let tiny = corners.map(|(x, y)| (8_000 + (x - a.0) / 8, 8_000 + (y - a.1) / 8));
        if let Err(refused) = by_card(tiny) {
            let small = matches!(refused, Unscaled::TooSmall { pixels } if pixels < 100);
            prop_assert!(small, "{refused:?}");
        } else {
            prop_assert!(false, "{tiny:?} taken");
        }
        let outside = corners.map(|(x, y)| (x + 20_000, y));
        prop_assert_eq!(by_card(outside).unwrap_err(), Unscaled::Outside);
    }

    /// Seen nearly from its edge, or with one corner dragged off by a fifth of the card.
    #[test]
    fn what_no_flat_card_looks_like_is_refused(scale in 3.0..5.0_f64, way in any::<bool>()) {
        let [a, b, c, d] = straight(scale, 0.0, (10_000, 7_500));
        let low = |corner: (i32, i32)| (corner.0, 7_500 + (corner.1 - 7_500) * 7 / 10);
        // Half as wide it would look like one that stands upright and is turned by less.
        let high = |corner: (i32, i32)| (10_000 + (corner.0 - 10_000) / 4, corner.1);
        let edge = if way { [a, b, c, d].map(low) } else { [a, b, c, d].map(high) };
        let refused = by_card(edge).unwrap_err();
        let known = matches!(
            refused,
            Unscaled::Tilted { .. } | Unscaled::Misfit(_) | Unscaled::TooSmall { .. }
        );
        prop_assert!(known, "{refused:?}");
        let off = by_card([a, b, (c.0 + c.0 / 10, c.1), d]).unwrap_err();
        prop_assert!(matches!(off, Unscaled::Tilted { .. } | Unscaled::Misfit(_)), "{off:?}");
    }

    /// Skin farther off than the limit is told with its distance.
    #[test]
    fn skin_far_from_the_card(far in 0..40_000_i32) {
        let rectified = by_card(straight(4.0, 0.0, (10_000, 7_500))).unwrap();
        let at = [(far, 0), (far - 500, 0), (far - 500, 500)].map(Spot::from).to_vec();
        let outline = trace(&[Stroke { kind: Kind::Skin, spots: at }]).unwrap().outline;
        let most = f64::from(LIMITS.farthest) / 1_000.0 * 85.6;
        let places = outline.rings().flat_map(Ring::spots);
        let farthest = places.map(|spot| spot.distance(Spot::new(0, 0))).fold(0.0, f64::max);
        match rectified.too_far(&outline) {
            Some(told) => {
                prop_assert!(farthest > most);
                #[expect(clippy::cast_precision_loss)]
                let told = told.raw() as f64 / 10.0;
                prop_assert!((told - farthest).abs() <= 0.1);
            }
            None => prop_assert!(farthest <= most),
        }
    }
}
