//! Outlines: whatever a finger draws, and whatever a record was altered to.

use freshet::measure::{Area, Length};
use freshet::plane::{Kind, Outline, Ring, Spot, Stroke, simplified, trace};
use proptest::collection::vec;
use proptest::prelude::*;
use std::collections::HashSet;

/// One number of a place: mostly few values, so that places repeat and sides overlap.
fn number() -> impl Strategy<Value = i32> {
    prop_oneof![
        4 => (-4..=4_i32).prop_map(|step| step * 500),
        4 => -5_000..=5_000_i32,
        1 => -1_000_000..=1_000_000_i32,
        1 => any::<i32>(),
    ]
}

fn spots(most: usize) -> impl Strategy<Value = Vec<Spot>> {
    let wild = vec((number(), number()).prop_map(Spot::from), 0..most);
    let near = (-5_000..=5_000_i32, -5_000..=5_000_i32).prop_map(Spot::from);
    // Out along some places and back the same way: nothing enclosed but what the start adds.
    let there_and_back = vec(near.clone(), 1..most / 2).prop_map(|mut spots| {
        spots.extend(spots.clone().into_iter().rev());
        spots
    });
    prop_oneof![2 => wild, 4 => vec(near, 3..most), 1 => there_and_back]
}

fn stroke() -> impl Strategy<Value = Stroke> {
    let kind = prop_oneof![3 => Just(Kind::Skin), 1 => Just(Kind::Hole)];
    (kind, spots(24)).prop_map(|(kind, spots)| Stroke { kind, spots })
}

/// Strokes within 10 cm, each of which encloses something.
fn drawn() -> impl Strategy<Value = Vec<Stroke>> {
    let near = (-5_000..=5_000_i32, -5_000..=5_000_i32).prop_map(Spot::from);
    let kind = prop_oneof![3 => Just(Kind::Skin), 1 => Just(Kind::Hole)];
    let stroke = (kind, vec(near, 3..12)).prop_map(|(kind, spots)| Stroke { kind, spots });
    vec(stroke, 1..5)
}

fn outline() -> impl Strategy<Value = Outline> {
    drawn().prop_filter_map("nothing enclosed", |strokes| Some(trace(&strokes).ok()?.outline))
}

/// Half a square millimetre and what rounding the places of such outlines can add.
const ROUNDING: Area = Area::mm2(8);

fn at_most(one: Area, other: Area) -> bool {
    one <= other + ROUNDING
}

/// Everything that can be asked of an outline; what comes out may be rubbish if it was.
fn ask(outline: &Outline, by: Length) {
    let _ = (outline.area(), outline.bounds(), outline.vertices(), outline.centre());
    let _ = (outline.hull(), outline.holds(Spot::new(0, 0)), outline.moved(i32::MAX, -1));
    for grown in [outline.inset(by), outline.outset(by), outline.scaled(by, Length::tenths(7))] {
        let _ = (outline.shared(&grown), grown.without(outline), grown.area());
    }
}

proptest! {
    #[test]
    fn any_strokes_are_traced_or_refused(strokes in vec(stroke(), 0..6), by in 0_u64..100) {
        let Ok(traced) = trace(&strokes) else { return Ok(()) };
        let outline = traced.outline;
        prop_assert!(!outline.patches().is_empty());
        prop_assert!(outline.rings().all(|ring| ring.spots().len() >= 3));
        let text = serde_json::to_string(&outline).unwrap();
        prop_assert_eq!(serde_json::from_str::<Outline>(&text).unwrap(), outline.clone());
        ask(&outline, Length::tenths(by));
    }

    /// As a record may be altered: too few places, sides that cross, holes outside, places beyond
    /// the world.
    #[test]
    fn any_record_is_borne(
        patches in vec((spots(8), vec(spots(6), 0..3)), 0..4),
        by in prop_oneof![0_u64..100, any::<u64>()],
    ) {
        let patch = |(outer, holes)| serde_json::json!({ "outer": outer, "holes": holes });
        let patches: Vec<_> = patches.into_iter().map(patch).collect();
        let outline: Outline = serde_json::from_value(patches.into()).unwrap();
        ask(&outline, Length::tenths(by));
    }

    /// A round drawn the other way is the same round.
    #[test]
    fn which_way_a_finger_runs_is_all_one(strokes in drawn()) {
        let mut turned = strokes.clone();
        for stroke in &mut turned {
            stroke.spots.reverse();
        }
        let area = |strokes: &[Stroke]| trace(strokes).map(|traced| traced.outline.area());
        if let (Ok(one), Ok(other)) = (area(&strokes), area(&turned)) {
            prop_assert!(one.gap(other) <= Area::mm2(1), "{one} {other}");
        }
    }

    #[test]
    fn skin_adds_and_a_hole_takes_away(strokes in drawn(), more in drawn()) {
        let Ok(before) = trace(&strokes) else { return Ok(()) };
        for mut stroke in more {
            for (kind, adds) in [(Kind::Skin, true), (Kind::Hole, false)] {
                stroke.kind = kind;
                let mut strokes = strokes.clone();
                strokes.push(stroke.clone());
                let after = trace(&strokes).map(|traced| traced.outline.area());
                let (before, after) = (before.outline.area(), after.unwrap_or_default());
                let (less, more) = if adds { (before, after) } else { (after, before) };
                prop_assert!(at_most(less, more), "{less} {more}");
            }
        }
    }

    #[test]
    fn a_margin_only_ever_takes_or_only_ever_adds(outline in outline(), by in 0_u64..60) {
        let by = Length::tenths(by);
        let (inset, outset) = (outline.inset(by), outline.outset(by));
        prop_assert!(at_most(inset.area(), outline.area()));
        prop_assert!(at_most(outline.area(), outset.area()));
        prop_assert!(inset.without(&outline).area() <= ROUNDING);
        prop_assert!(outline.without(&outset).area() <= ROUNDING);
        let hull = serde_json::json!([{ "outer": outline.hull().unwrap() }]);
        let hull: Outline = serde_json::from_value(hull).unwrap();
        let mut places = outline.rings().flat_map(Ring::spots);
        prop_assert!(places.all(|spot| hull.holds(*spot)));
    }

    #[test]
    fn what_is_shared_and_what_is_not_make_the_whole(one in outline(), other in outline()) {
        let shared = one.shared(&other);
        prop_assert!(shared.gap(other.shared(&one)) <= Area::mm2(1));
        let sum = shared + one.without(&other).area();
        prop_assert!(sum.gap(one.area()) <= ROUNDING, "{sum} {}", one.area());
        prop_assert!(one.shared(&one).gap(one.area()) <= ROUNDING);
    }

    #[test]
    fn a_move_there_and_back_changes_nothing(outline in outline(), x in -9_000..9_000, y in -9_000..9_000) {
        prop_assert_eq!(outline.moved(x, y).moved(-x, -y), outline.clone());
        prop_assert_eq!(outline.scaled(Length::mm(52), Length::mm(52)), outline);
    }

    /// No place left out is farther from the kept line than the tolerance, and both ends stay.
    #[test]
    fn a_thinned_stroke_stays_near(mut spots in spots(60), tolerance in 0_u64..200) {
        // Each place once, so that it is known which of them was kept.
        let mut seen = HashSet::new();
        spots.retain(|spot| seen.insert(*spot));
        let kept = simplified(&spots, Length::tenths(tolerance));
        prop_assert_eq!((kept.first(), kept.last()), (spots.first(), spots.last()));
        #[expect(clippy::cast_precision_loss)]
        let tolerance = tolerance as f64 / 10.0;
        let mut at = 0;
        for pair in kept.windows(2) {
            // Between this kept place and the next one are those left out.
            at += spots[at..].iter().position(|spot| *spot == pair[0]).unwrap();
            let upto = at + 1 + spots[at + 1..].iter().position(|spot| *spot == pair[1]).unwrap();
            for spot in &spots[at..upto] {
                let near = from_side(*spot, pair[0], pair[1]);
                prop_assert!(near <= tolerance + 1e-6, "{near} of {tolerance}");
            }
            at = upto;
        }
    }
}

/// By halving the side: slow, and written otherwise than what it checks.
fn from_side(spot: Spot, from: Spot, to: Spot) -> f64 {
    let ((mut ax, mut ay), (mut bx, mut by), (x, y)) = (from.mm(), to.mm(), spot.mm());
    for _ in 0..60 {
        let (mx, my) = (f64::midpoint(ax, bx), f64::midpoint(ay, by));
        if (ax - x).hypot(ay - y) < (bx - x).hypot(by - y) {
            (bx, by) = (mx, my);
        } else {
            (ax, ay) = (mx, my);
        }
    }
    (ax - x).hypot(ay - y)
}
