//! Traced strokes, margins, hulls and comparisons against Shapely 2.2.0 (GEOS) on 440 outlines:
//! `fixtures/outlines.json`, written by `fixtures/outlines.py`.

use freshet::measure::{Area, Length};
use freshet::plane::{Kind, Outline, Ring, Spot, Stroke, trace};
use serde::Deserialize;

#[derive(Deserialize)]
struct Case {
    kind: String,
    strokes: Vec<Vec<i32>>,
    simple: bool,
    area: u32,
    centre: (f64, f64),
    hull: (f64, f64),
    inset: Vec<(u64, f64)>,
    outset: Vec<(u64, f64)>,
    places: Vec<f64>,
    next: (f64, f64),
}

impl Case {
    fn strokes(&self) -> Vec<Stroke> {
        let stroke = |numbers: &Vec<i32>| Stroke {
            kind: if numbers[0] == 1 { Kind::Skin } else { Kind::Hole },
            spots: numbers[1..].chunks(2).map(|xy| Spot::new(xy[0], xy[1])).collect(),
        };
        self.strokes.iter().map(stroke).collect()
    }

    fn outline(&self) -> Outline {
        trace(&self.strokes()).unwrap().outline
    }

    /// Sampled places with how far inside the edge each lies, in hundredths.
    fn places(&self) -> impl Iterator<Item = (Spot, f64)> {
        #[expect(clippy::cast_possible_truncation, reason = "written as whole numbers")]
        let spot = |part: &[f64]| Spot::new(part[0] as i32, part[1] as i32);
        self.places.chunks(3).map(move |part| (spot(part), part[2]))
    }

    /// No test may pass because the file has lost its cases.
    fn all() -> Vec<Self> {
        let cases: Vec<Self> =
            serde_json::from_str(include_str!("../fixtures/outlines.json")).unwrap();
        assert_eq!(cases.len(), 440);
        cases
    }
}

/// In hundredths squared, not rounded as `Outline::area` is.
fn area(outline: &Outline) -> f64 {
    let patch = |rings: &[&Ring]| -> f64 {
        rings[1..].iter().fold(enclosed(rings[0]), |area, hole| area - enclosed(hole))
    };
    outline.patches().iter().map(|part| patch(&part.rings().collect::<Vec<_>>())).sum()
}

fn enclosed(ring: &Ring) -> f64 {
    let cross =
        |(a, b): (Spot, Spot)| f64::from(a.x) * f64::from(b.y) - f64::from(b.x) * f64::from(a.y);
    (ring.sides().map(cross).sum::<f64>() / 2.0).abs()
}

fn length(rings: &[&Ring]) -> f64 {
    let side = |(a, b): (Spot, Spot)| a.distance(b) * f64::from(Spot::PER_MM);
    rings.iter().flat_map(|ring| ring.sides()).map(side).sum()
}

/// Places rounded to a hundredth move an edge by half of one at most, across and down: what that
/// can do to the area, and a few slivers.
fn rounding(outline: &Outline) -> f64 {
    0.5 * length(&outline.rings().collect::<Vec<_>>()) + 300.0
}

#[test]
fn traced_areas_and_centres() {
    for case in Case::all() {
        let outline = case.outline();
        let off = (area(&outline) - f64::from(case.area)).abs();
        assert!(off <= rounding(&outline), "{}: off by {off}", case.kind);
        let mm2 = outline.area().gap(Area::mm2(u64::from(case.area + 5_000) / 10_000));
        assert!(mm2 <= Area::mm2(1), "{}", case.kind);
        let (centre, (x, y)) = (outline.centre().unwrap(), case.centre);
        let off = (f64::from(centre.x) - x).hypot(f64::from(centre.y) - y);
        assert!(off <= 2.0, "{}: centre off by {off}", case.kind);
    }
}

#[test]
fn a_stroke_that_is_not_simple_shows_where() {
    for case in Case::all() {
        let traced = trace(&case.strokes()).unwrap();
        assert_eq!(traced.crossings.is_empty(), case.simple, "{}", case.kind);
    }
}

#[test]
fn sampled_places_inside_and_outside() {
    for case in Case::all() {
        let outline = case.outline();
        for (spot, inside) in case.places() {
            assert_eq!(outline.holds(spot), inside > 0.0, "{}: {spot:?}", case.kind);
        }
    }
}

/// The margin's arcs are of chords that turn by a tenth of a radian: on a full round they enclose
/// 1 − sin θ / θ less than their circle.
fn arcs(by: f64, corners: usize) -> f64 {
    const SHORT: f64 = 0.001_67 * std::f64::consts::PI;
    #[expect(clippy::cast_precision_loss)]
    let rounds = 1.0 + corners as f64 / 8.0;
    SHORT * by * by * rounds
}

#[test]
fn insets_and_outsets() {
    for case in Case::all() {
        let outline = case.outline();
        let corners = outline.vertices();
        let inset = |by| outline.inset(Length::tenths(by));
        let outset = |by| outline.outset(Length::tenths(by));
        let grown = case.inset.iter().map(|&(by, wanted)| (by, wanted, -1.0, inset(by / 10)));
        let other = case.outset.iter().map(|&(by, wanted)| (by, wanted, 1.0, outset(by / 10)));
        for (by, wanted, way, grown) in grown.chain(other) {
            #[expect(clippy::cast_precision_loss)]
            let by = by as f64;
            let off = area(&grown) - wanted;
            let allowed = rounding(&grown) + arcs(by, corners);
            assert!(off.abs() <= allowed, "{} {}: {off} of {allowed}", case.kind, way * by);
            // Where the arc falls short by an eight-hundredth, and rounding by one more.
            let unsure = by / 800.0 + 2.0;
            for (spot, inside) in case.places() {
                let inside = inside + way * by;
                let sure = inside.abs() > unsure;
                assert!(!sure || grown.holds(spot) == (inside > 0.0), "{}: {spot:?}", case.kind);
            }
        }
    }
}

#[test]
fn hulls() {
    for case in Case::all() {
        let hull = case.outline().hull().unwrap();
        let (area, around) = case.hull;
        let off = (enclosed(&hull) - area).abs();
        assert!(off <= 0.1 * around + 1.0, "{}: off by {off}", case.kind);
        let off = (length(&[&hull]) - around).abs();
        assert!(off <= 4.0, "{}: off by {off}", case.kind);
    }
}

#[test]
fn one_outline_against_the_next() {
    let cases = Case::all();
    let cornered = |case: &Case| {
        let outline = case.outline();
        let (corner, _) = outline.bounds().unwrap();
        outline.moved(-corner.x, -corner.y)
    };
    let outlines: Vec<Outline> = cases.iter().map(cornered).collect();
    let nexts = outlines.iter().cycle().skip(1);
    for ((case, one), next) in cases.iter().zip(&outlines).zip(nexts) {
        let (shared, without) = case.next;
        let allowed = rounding(one) + rounding(next);
        let off = area(&one.without(next)) - without;
        assert!(off.abs() <= allowed, "{}: {off} of {allowed}", case.kind);
        #[expect(clippy::cast_precision_loss)]
        let off = (one.shared(next).raw() as f64) * 10_000.0 - shared;
        assert!(off.abs() <= allowed + 5_000.0, "{}: {off} of {allowed}", case.kind);
    }
}

/// Both vermilions as an ellipse 52 × 27 mm are 11.0 cm²: widths from FACE_2019, table 9
/// (doi:10.1186/s40902-019-0191-7), the area by π a b.
#[test]
fn both_lips() {
    let place = |step: i32| {
        let turn = f64::from(step) / 240.0 * std::f64::consts::TAU;
        Spot::from_mm(26.0 * turn.cos(), 13.5 * turn.sin()).unwrap()
    };
    let stroke = Stroke { kind: Kind::Skin, spots: (0..240).map(place).collect() };
    let lips = trace(&[stroke]).unwrap().outline;
    // 1102.7 mm², less 0.01 % for the chords.
    assert_eq!(lips.area(), Area::mm2(1_103));
    assert_eq!(format!("{:.1}", lips.area()), "11.0");
}
