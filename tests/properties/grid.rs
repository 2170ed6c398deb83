//! Grids: whatever is drawn, every point is where it may be and no skin is forgotten.

use freshet::measure::Length;
use freshet::plane::{
    Grid, Kind, Lattice, Lie, Outline, Spot, Stroke, fill, in_order, lay, longest_step,
    nearest_neighbour, path_length, reach, rows, trace,
};
use proptest::collection::vec;
use proptest::prelude::*;

/// Hundredths of a millimetre that rounding may take from between two points.
const ROUNDING: f64 = 2.5;

fn hundredths(length: Length) -> f64 {
    f64::from(u32::try_from(length.raw()).unwrap()) * 10.0
}

fn apart(one: Spot, other: Spot) -> f64 {
    one.distance(other) * 100.0
}

/// A round with bays and noses: radii in millimetres, one after the other round a centre.
fn star(centre: (f64, f64), radii: &[f64]) -> Vec<Spot> {
    let count = f64::from(u32::try_from(radii.len()).unwrap());
    let spot = |(place, radius): (u32, &f64)| {
        let turn = std::f64::consts::TAU * f64::from(place) / count;
        Spot::from_mm(centre.0 + radius * turn.cos(), centre.1 + radius * turn.sin()).unwrap()
    };
    (0..).zip(radii).map(spot).collect()
}

/// Up to three patches, apart, beside each other or as one, and a hole.
fn outline() -> impl Strategy<Value = Outline> {
    let round = |least: f64, most: f64| {
        (-40.0..40.0, -40.0..40.0, vec(least..most, 3..24))
            .prop_map(|(x, y, radii)| star((x, y), &radii))
    };
    let patch = prop_oneof![4 => round(5.0, 40.0), 1 => round(0.3, 4.0), 1 => round(1.0, 60.0)];
    let skin = patch.prop_map(|spots| Stroke { kind: Kind::Skin, spots });
    let hole = round(1.0, 12.0).prop_map(|spots| Stroke { kind: Kind::Hole, spots });
    (vec(skin, 1..4), vec(hole, 0..2)).prop_filter_map("nothing is left", |(skin, holes)| {
        Some(trace(&[skin, holes].concat()).ok()?.outline)
    })
}

fn lattice() -> impl Strategy<Value = Lattice> {
    prop_oneof![Just(Lattice::Square), Just(Lattice::Hexagonal)]
}

fn spacing() -> impl Strategy<Value = Length> {
    (40_u64..=200).prop_map(Length::tenths)
}

fn margin() -> impl Strategy<Value = Length> {
    prop_oneof![Just(Length::ZERO), (0_u64..=60).prop_map(Length::tenths)]
}

/// How far a place is from the nearest side, in hundredths.
fn from_edge(outline: &Outline, spot: Spot) -> f64 {
    let number = |hundredths: i32| f64::from(hundredths);
    let sides = outline.rings().flat_map(freshet::plane::Ring::sides);
    let distance = |(from, to): (Spot, Spot)| {
        let (dx, dy) = (number(to.x - from.x), number(to.y - from.y));
        let (px, py) = (number(spot.x - from.x), number(spot.y - from.y));
        let part = ((px * dx + py * dy) / (dx * dx + dy * dy)).clamp(0.0, 1.0);
        (px - part * dx).hypot(py - part * dy)
    };
    sides.map(distance).fold(f64::INFINITY, f64::min)
}

/// Every point of a lattice that may be kept, and whether it must be, judged one by one.
fn one_by_one(
    outline: &Outline,
    lattice: Lattice,
    (spacing, margin): (Length, Length),
    lie: Lie,
) -> Vec<(Spot, bool)> {
    let (along, half) = (spacing.raw(), f64::from(lie.turn) / 4_096.0);
    let along = hundredths(Length::tenths(along));
    let across = if lattice == Lattice::Square { along } else { along * 0.75_f64.sqrt() };
    let turn = 2.0 * half.atan();
    let (low, high) = outline.bounds().unwrap();
    let most = i32::try_from(margin.raw() * 10).unwrap() + 10;
    let near = |spot: Spot| {
        let within = |at: i32, low: i32, high: i32| (low - most..=high + most).contains(&at);
        within(spot.x, low.x, high.x) && within(spot.y, low.y, high.y)
    };
    let mut found = Vec::new();
    for row in -60..=60_i32 {
        for column in -60..=60_i32 {
            let shift = f64::from(row.rem_euclid(2)) / 2.0;
            let shift = if lattice == Lattice::Square { 0.0 } else { shift };
            let (x, y) = ((f64::from(column) + shift) * along, f64::from(row) * across);
            let x_turned = f64::from(lie.at.x) + x * turn.cos() - y * turn.sin();
            let y_turned = f64::from(lie.at.y) + x * turn.sin() + y * turn.cos();
            let spot = Spot::from_mm(x_turned / 100.0, y_turned / 100.0).unwrap();
            if !near(spot) {
                continue;
            }
            let off = if outline.holds(spot) { 0.0 } else { from_edge(outline, spot) };
            // Where rounding decides, either will do.
            if off <= hundredths(margin) + ROUNDING {
                found.push((spot, off <= hundredths(margin) - ROUNDING || outline.holds(spot)));
            }
        }
    }
    found
}

/// Of places on a net, and of places close to each other on the edge, the one farthest from its
/// nearest point; and how much farther any other place of the skin can be, in hundredths. For in a
/// straight line from it to the next of the net either that is skin too, or the edge comes first.
fn by_sampling(outline: &Outline, spots: &[Spot]) -> (f64, f64) {
    const ON_EDGE: f64 = 20.0;
    let (low, high) = outline.bounds().unwrap();
    let mesh = usize::try_from((high.x - low.x).max(high.y - low.y) / 80 + 1).unwrap();
    let mut places = Vec::new();
    for x in (low.x..=high.x).step_by(mesh) {
        for y in (low.y..=high.y).step_by(mesh) {
            places.push(Spot::new(x, y));
        }
    }
    places.retain(|&place| outline.holds(place));
    for (from, to) in outline.rings().flat_map(freshet::plane::Ring::sides) {
        let parts = (apart(from, to) / ON_EDGE).ceil();
        let mut part = 0.0;
        while part < parts {
            let at = |from: i32, to: i32| f64::from(from) + f64::from(to - from) * part / parts;
            places.extend(Spot::from_mm(at(from.x, to.x) / 100.0, at(from.y, to.y) / 100.0));
            part += 1.0;
        }
    }
    let nearest =
        |place: &Spot| spots.iter().map(|&spot| apart(*place, spot)).fold(f64::INFINITY, f64::min);
    let farthest = places.iter().map(nearest).fold(0.0, f64::max);
    let mesh = f64::from(u32::try_from(mesh).unwrap());
    (farthest, mesh / 2.0_f64.sqrt() + ON_EDGE / 2.0 + ROUNDING)
}

fn closest(spots: &[Spot]) -> f64 {
    let mut least = f64::INFINITY;
    for (place, &one) in spots.iter().enumerate() {
        for &other in &spots[place + 1..] {
            least = least.min(apart(one, other));
        }
    }
    least
}

/// As a record may be altered: rings of nothing, rings that cross, holes outside, places anywhere.
fn record() -> impl Strategy<Value = Outline> {
    let number = || prop_oneof![6 => -3_000..=3_000_i32, 1 => any::<i32>(), 1 => Just(0)];
    let ring = || vec((number(), number()), 0..9);
    let patch = (ring(), vec(ring(), 0..3));
    vec(patch, 0..5).prop_map(|patches| {
        let patch = |(outer, holes)| serde_json::json!({ "outer": outer, "holes": holes });
        let patches: Vec<_> = patches.into_iter().map(patch).collect();
        serde_json::from_value(patches.into()).unwrap()
    })
}

fn any_length() -> impl Strategy<Value = Length> {
    prop_oneof![0_u64..300, Just(u64::MAX), any::<u64>()].prop_map(Length::tenths)
}

/// Convex, and nowhere narrower than two spacings or so.
fn round_grid() -> impl Strategy<Value = Grid> {
    (15.0..60.0_f64, 1.0..2.0_f64, 0.0..3.2_f64, lattice(), 50_u64..=120).prop_map(
        |(radius, longer, tilt, lattice, spacing)| {
            let turn = |place: i32| std::f64::consts::TAU * f64::from(place) / 60.0;
            let spot = |place: i32| {
                let (x, y) = (radius * longer * turn(place).cos(), radius * turn(place).sin());
                let (cos, sin) = (tilt.cos(), tilt.sin());
                Spot::from_mm(x * cos - y * sin, x * sin + y * cos).unwrap()
            };
            let stroke = Stroke { kind: Kind::Skin, spots: (0..60).map(spot).collect() };
            let outline = trace(&[stroke]).unwrap().outline;
            lay(&outline, lattice, Length::tenths(spacing), Length::ZERO)
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn every_point_is_where_it_may_be(
        outline in outline(),
        lattice in lattice(),
        spacing in spacing(),
        margin in margin(),
    ) {
        let grid = lay(&outline, lattice, spacing, margin);
        for &spot in grid.spots() {
            let off = if outline.holds(spot) { 0.0 } else { from_edge(&outline, spot) };
            prop_assert!(off <= hundredths(margin) + 0.001, "{spot:?} is {off} off");
        }
        // A whole spacing apart, but for the point of a small patch beside another.
        let least = closest(grid.spots());
        let patches = outline.patches().len();
        let wanted = if patches == 1 { hundredths(spacing) } else { hundredths(spacing) / 2.0 };
        prop_assert!(least >= wanted - ROUNDING, "{least} of {spacing}");
        prop_assert_eq!(lay(&outline, lattice, spacing, margin), grid);
    }

    #[test]
    fn no_skin_is_forgotten(
        outline in outline(),
        lattice in lattice(),
        spacing in spacing(),
        margin in margin(),
    ) {
        let grid = lay(&outline, lattice, spacing, margin);
        let told = reach(&outline, grid.spots()).unwrap();
        prop_assert!(told <= spacing, "{told} of {spacing}");
        for patch in outline.patches() {
            // Each has its own, or lies nearer than half a spacing to another's.
            let own = |spot: &Spot| {
                let alone = serde_json::to_value([patch]).unwrap();
                let alone: Outline = serde_json::from_value(alone).unwrap();
                alone.holds(*spot) || from_edge(&alone, *spot) <= hundredths(margin)
            };
            let beside = |corner: &Spot| {
                let near = |&spot: &Spot| apart(spot, *corner) < hundredths(spacing) / 2.0;
                grid.spots().iter().any(near)
            };
            let corners = patch.outer.spots();
            prop_assert!(grid.spots().iter().any(own) || corners.iter().all(beside));
        }
    }

    #[test]
    fn the_points_of_a_lie_are_those_found_one_by_one(
        outline in outline(),
        lattice in lattice(),
        spacing in spacing(),
        margin in margin(),
        turn in -1_700..1_700_i32,
        at in (-30_000..30_000_i32, -30_000..30_000_i32),
    ) {
        let lie = Lie { turn, at: Spot::from(at) };
        let sizes = (spacing, margin);
        // Not farther off than the count below goes.
        let lie = Lie { at: Spot::new(lie.at.x % 2_000, lie.at.y % 2_000), ..lie };
        let mut filled = fill(&outline, lattice, spacing, margin, lie);
        filled.sort();
        let known = one_by_one(&outline, lattice, sizes, lie);
        let near = |one: Spot, other: Spot| one.x.abs_diff(other.x) <= 1 && one.y.abs_diff(other.y) <= 1;
        for &(spot, must) in &known {
            prop_assert!(!must || filled.iter().any(|&other| near(spot, other)), "{spot:?}");
        }
        for &spot in &filled {
            prop_assert!(known.iter().any(|&(other, _)| near(spot, other)), "{spot:?}");
        }
    }

    #[test]
    fn what_is_told_is_the_greatest_distance(
        outline in outline(),
        spots in vec((-5_000..5_000_i32, -5_000..5_000_i32).prop_map(Spot::from), 1..40),
    ) {
        let told = hundredths(reach(&outline, &spots).unwrap());
        let (found, more) = by_sampling(&outline, &spots);
        prop_assert!(told >= found - ROUNDING, "{told} told, {found} found");
        // Rounded up to a tenth, which is ten hundredths.
        prop_assert!(told <= found + more + 10.0, "{told} told, {found} found");
    }

    #[test]
    fn any_record_is_borne(
        outline in record(),
        lattice in lattice(),
        spacing in any_length(),
        margin in any_length(),
        turn in any::<i32>(),
        at in (any::<i32>(), any::<i32>()).prop_map(Spot::from),
    ) {
        let grid = lay(&outline, lattice, spacing, margin);
        prop_assert!(!spacing.is_zero() || grid.is_empty());
        let spots = fill(&outline, lattice, spacing, margin, Lie { turn, at });
        for spots in [grid.spots(), &spots, &[at]] {
            let _ = reach(&outline, spots);
        }
        let text = serde_json::to_string(&grid).unwrap();
        prop_assert_eq!(serde_json::from_str::<Grid>(&text).unwrap(), grid);
    }

    #[test]
    fn a_path_goes_through_every_point_once_and_no_longer_than_simpler_ones(
        spots in vec((-5_000..5_000_i32, -5_000..5_000_i32).prop_map(Spot::from), 0..80),
    ) {
        let path = in_order(spots.clone());
        let sorted = |mut spots: Vec<Spot>| {
            spots.sort();
            spots
        };
        prop_assert_eq!(sorted(path.clone()), sorted(spots.clone()));
        prop_assert!(path_length(&path) <= path_length(&nearest_neighbour(spots.clone())));
        prop_assert!(path_length(&path) <= path_length(&rows(spots)));
        if let (Some(first), Some(last)) = (path.first(), path.last()) {
            prop_assert!(first.x + first.y <= last.x + last.y);
        }
    }

    /// On 20 000 such outlines the longest step was 1.74 spacings, that is to the next row but one of
    /// the hexagonal lattice, and no path was longer than its points need by more than a twentieth
    /// and a spacing and a half.
    #[test]
    fn no_step_over_a_round_outline_is_a_jump(grid in round_grid()) {
        let (steps, spacing) = (grid.len() - 1, grid.spacing());
        let longest = longest_step(grid.spots());
        prop_assert!(longest.raw() * 10 <= spacing.raw() * 18, "{longest} of {spacing}");
        let least = spacing.times(u64::try_from(steps).unwrap());
        let length = path_length(grid.spots());
        let allowed = least.raw() * 21 / 20 + spacing.raw() * 2;
        prop_assert!(length.raw() <= allowed, "{length} of {least}");
    }
}

/// How far skin is at most from its nearest point in each of many lies, the nearest first.
fn by_trying(outline: &Outline, lattice: Lattice, margin: Length) -> Vec<Length> {
    let mut found = Vec::new();
    for turn in (-1_500..=1_500).step_by(500) {
        for place in 0..36 {
            let lie = Lie { turn, at: Spot::new(place % 6 * 167, place / 6 * 167) };
            let spots = fill(outline, lattice, Length::mm(10), margin, lie);
            found.extend(reach(outline, &spots));
        }
    }
    found.sort();
    found
}

/// No luck: the lie that is chosen covers about as well as the best of 252, and far better than
/// most of them.
#[test]
fn the_lie_is_chosen_well() {
    let strip = |place: i32| {
        let (turn, radius) = (f64::from(place % 20) * 0.06, if place < 20 { 50.0 } else { 58.0 });
        let turn = if place < 20 { turn } else { 1.14 - turn };
        Spot::from_mm(radius * turn.cos(), radius * turn.sin()).unwrap()
    };
    let round = |x: f64, y: f64| {
        let turn = |place: i32| std::f64::consts::TAU * f64::from(place) / 90.0;
        let spot = |place: i32| {
            let wave = 1.0 + 0.08 * (5.0 * turn(place)).sin();
            Spot::from_mm(x * wave * turn(place).cos(), y * wave * turn(place).sin()).unwrap()
        };
        (0..90).map(spot).collect::<Vec<_>>()
    };
    let shapes = [
        (0..40).map(strip).collect(),
        round(7.0, 5.0),
        round(26.0, 13.5),
        round(40.0, 30.0),
        round(90.0, 80.0),
    ];
    let (mut chosen, mut best, mut middling) = (0, 0, 0);
    for spots in shapes {
        let outline = trace(&[Stroke { kind: Kind::Skin, spots }]).unwrap().outline;
        for lattice in [Lattice::Square, Lattice::Hexagonal] {
            for margin in [Length::ZERO, Length::mm(2)] {
                let tried = by_trying(&outline, lattice, margin);
                let grid = lay(&outline, lattice, Length::mm(10), margin);
                chosen += reach(&outline, grid.spots()).unwrap().raw();
                best += tried[0].raw();
                middling += tried[tried.len() / 2].raw();
            }
        }
    }
    assert!(chosen + 10 <= best, "{chosen} {best} {middling}");
}
