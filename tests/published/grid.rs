//! Grids against what is known of lattices, and distances that geometry gives.

use freshet::measure::Length;
use freshet::plane::{
    Kind, Lattice, Lie, Outline, Spot, Stroke, fill, in_order, lay, longest_step, path_length,
    reach,
};

/// One spacing in hundredths of a millimetre.
const CELL: i32 = 1_000;
const SPACING: Length = Length::mm(10);

fn outline(kinds: &[(Kind, Vec<(f64, f64)>)]) -> Outline {
    let stroke = |(kind, places): &(Kind, Vec<(f64, f64)>)| {
        let spots = places.iter().map(|&(x, y)| Spot::from_mm(x, y).unwrap()).collect();
        Stroke { kind: *kind, spots }
    };
    freshet::plane::trace(&kinds.iter().map(stroke).collect::<Vec<_>>()).unwrap().outline
}

fn skin(places: &[(f64, f64)]) -> Outline {
    outline(&[(Kind::Skin, places.to_vec())])
}

/// A circle by a polygon of so many corners, in millimetres.
fn circle(radius: f64, corners: u32) -> Vec<(f64, f64)> {
    let turn = |corner: u32| std::f64::consts::TAU * f64::from(corner) / f64::from(corners);
    (0..corners).map(|corner| (radius * turn(corner).cos(), radius * turn(corner).sin())).collect()
}

/// How many points of a lattice lie in a circle round one of them, its radius the root of `norm`
/// spacings. The polygon is wider by 0.2 mm: no other point comes so near.
fn in_circle(lattice: Lattice, norm: u32, lie: Lie) -> usize {
    let radius = f64::from(norm).sqrt() * 10.0 + 0.2;
    fill(&skin(&circle(radius, 720)), lattice, SPACING, Length::ZERO, lie).len()
}

/// The On-Line Encyclopedia of Integer Sequences, A000328: points of the square lattice in a circle
/// of radius 0, 1, 2 … round one of them (the circle problem of Gauss).
const SQUARE: [usize; 13] = [1, 5, 13, 29, 49, 81, 113, 149, 197, 253, 317, 377, 441];

/// The same, A038589: points of the hexagonal lattice in a circle of radius √0, √1, √2 … .
const HEXAGONAL: [usize; 37] = [
    1, 7, 7, 13, 19, 19, 19, 31, 31, 37, 37, 37, 43, 55, 55, 55, 61, 61, 61, 73, 73, 85, 85, 85,
    85, 91, 91, 97, 109, 109, 109, 121, 121, 121, 121, 121, 127,
];

#[test]
fn points_in_a_circle_are_as_many_as_is_known() {
    // However the lattice is turned.
    for turn in [0, 700, -1_500] {
        let lie = Lie { turn, at: Spot::new(0, 0) };
        for (radius, known) in (0..).zip(SQUARE) {
            assert_eq!(in_circle(Lattice::Square, radius * radius, lie), known, "{radius} {turn}");
        }
        for (norm, known) in (0..).zip(HEXAGONAL) {
            assert_eq!(in_circle(Lattice::Hexagonal, norm, lie), known, "{norm} {turn}");
        }
    }
}

/// The same numbers by counting, so that the lists above are no typing mistakes.
#[test]
fn the_lists_are_right() {
    let count = |most: i64, norm: fn(i64, i64) -> i64| {
        let range = || -20..=20_i64;
        let near = |x: i64| range().filter(|&y| norm(x, y) <= most).count();
        range().map(near).sum::<usize>()
    };
    for (radius, known) in (0..).zip(SQUARE) {
        assert_eq!(count(radius * radius, |x, y| x * x + y * y), known);
    }
    for (most, known) in (0..).zip(HEXAGONAL) {
        assert_eq!(count(most, |x, y| x * x + x * y + y * y), known);
    }
}

/// A square of n cells holds (n + 1)² points when its corner is one and n² when its corner is the
/// middle of a cell; an edge belongs to it. With a margin of half a cell (n + 1)² again, and with
/// one of a cell (n + 3)² less the four corners, which are √2 cells off.
#[test]
fn points_in_a_square() {
    for n in [1_u32, 2, 5, 9, 70] {
        let side = f64::from(n) * 10.0;
        let square = skin(&[(0.0, 0.0), (side, 0.0), (side, side), (0.0, side)]);
        let n = n as usize;
        let at = |at: i32, margin: Length| {
            let lie = Lie { turn: 0, at: Spot::new(at, at) };
            fill(&square, Lattice::Square, SPACING, margin, lie).len()
        };
        assert_eq!(at(0, Length::ZERO), (n + 1) * (n + 1));
        assert_eq!(at(CELL / 2, Length::ZERO), n * n);
        assert_eq!(at(-7 * CELL, Length::ZERO), (n + 1) * (n + 1));
        assert_eq!(at(CELL / 2, Length::mm(4)), n * n);
        assert_eq!(at(CELL / 2, Length::mm(5)), (n + 2) * (n + 2) - 4);
        assert_eq!(at(0, Length::mm(10)), (n + 3) * (n + 3) - 4);
    }
}

/// Conway and Sloane, Sphere Packings, Lattices and Groups (from memory): no place is farther from
/// a point than 1/√2 of the spacing in the square lattice and 1/√3 in the hexagonal one, which at
/// the same density covers best of all.
#[test]
fn lattices_cover_as_is_known() {
    let disc = skin(&circle(60.0, 200));
    let covered = |lattice, spacing: Length| {
        let grid = lay(&disc, lattice, spacing, Length::mm(8));
        (grid.len(), reach(&disc, grid.spots()).unwrap())
    };
    let (square, square_reach) = covered(Lattice::Square, SPACING);
    let (_, hexagonal_reach) = covered(Lattice::Hexagonal, SPACING);
    assert_eq!((square_reach, hexagonal_reach), (Length::tenths(71), Length::tenths(58)));
    // Wider than √(2/√3) spacings, which would be as many points to the area: fewer points.
    let (fewer, still_better) = covered(Lattice::Hexagonal, Length::mm(11));
    assert!(fewer < square && still_better < square_reach, "{fewer} {square} {still_better}");
}

#[test]
fn distances_that_can_be_worked_out() {
    let far = |outline: &Outline, spots: &[(i32, i32)]| {
        let spots: Vec<Spot> = spots.iter().map(|&(x, y)| Spot::new(x * 100, y * 100)).collect();
        reach(outline, &spots).map(Length::raw)
    };
    let square = skin(&[(0.0, 0.0), (40.0, 0.0), (40.0, 30.0), (0.0, 30.0)]);
    // 3, 4, 5.
    assert_eq!(far(&square, &[(0, 0)]), Some(500));
    assert_eq!(far(&square, &[(20, 15)]), Some(250));
    // Half the diagonal of a cell of 20 × 15, in the middle: 12.5.
    let corners =
        [(0, 0), (20, 0), (40, 0), (0, 15), (20, 15), (40, 15), (0, 30), (20, 30), (40, 30)];
    assert_eq!(far(&square, &corners), Some(125));
    // Between corners only: in the middle of the square.
    assert_eq!(far(&square, &[(0, 0), (40, 0), (40, 30), (0, 30)]), Some(250));
    // The same with the middle cut out: (15, 10) is √325 from the corner, told as 18.1.
    let hole = vec![(15.0, 10.0), (25.0, 10.0), (25.0, 20.0), (15.0, 20.0)];
    let square = [(0.0, 0.0), (40.0, 0.0), (40.0, 30.0), (0.0, 30.0)].to_vec();
    let frame = outline(&[(Kind::Skin, square), (Kind::Hole, hole)]);
    // The farthest is then the middle of the hole's upper side: √(20² + 10²).
    assert_eq!(far(&frame, &[(0, 0), (40, 0), (40, 30), (0, 30)]), Some(224));
    assert_eq!(far(&frame, &[]), None);
    assert_eq!(far(&Outline::default(), &[(0, 0)]), None);
}

/// No step is shorter than the spacing, so n points need n − 1 of them at least; in a square of
/// points there is such a way (row by row), and none is longer.
#[test]
fn a_square_of_points_is_gone_through_without_a_detour() {
    for side in [2_u32, 5, 10, 22] {
        let all = (0..side * side).map(|place| {
            // In a muddle: every 7th, round and round.
            let place = place * 7 % (side * side);
            Spot::from_mm(f64::from(place % side) * 10.0, f64::from(place / side) * 10.0).unwrap()
        });
        let path = in_order(all.collect());
        assert_eq!(path_length(&path), SPACING.times(u64::from(side * side - 1)));
        assert_eq!(longest_step(&path), SPACING);
        assert_eq!(path[0], Spot::new(0, 0));
    }
}
