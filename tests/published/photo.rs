//! Photos of a card against OpenCV 5.0.0: `fixtures/cards.json`, written by `fixtures/cards.py` with
//! `projectPoints`. The map by four corners alone is checked beside it, in `plane::photo::matrix`.

use freshet::measure::Length;
use freshet::plane::{Dot, Extent, Kind, Outline, Rectified, Ring, Scale, Stroke, Unscaled};
use freshet::plane::{rectify, trace};
use freshet::protocol::card::{ID_1, LIMITS};
use serde::Deserialize;

#[derive(Deserialize)]
struct View {
    photo: (u32, u32),
    tilt: f64,
    corners: [i32; 8],
    shape: Vec<f64>,
    area: f64,
    noisy: Vec<[i32; 8]>,
}

impl View {
    fn all() -> Vec<Self> {
        let views: Vec<Self> =
            serde_json::from_str(include_str!("../fixtures/cards.json")).unwrap();
        assert_eq!(views.len(), 160);
        views
    }

    /// Those within the limits, whose tilt is not so near the greatest that rounding decides.
    fn good() -> impl Iterator<Item = Self> {
        Self::all().into_iter().filter(|view| view.tilt < 39.0)
    }

    fn rectified(&self, corners: &[i32; 8]) -> Result<Rectified, Unscaled> {
        let [ax, ay, bx, by, cx, cy, dx, dy] = *corners;
        let corners = [(ax, ay), (bx, by), (cx, cy), (dx, dy)].map(Dot::from);
        let photo = Extent { width: self.photo.0, height: self.photo.1 };
        rectify(&Scale::Card(corners), photo, ID_1, &LIMITS)
    }

    fn traced(&self, rectified: &Rectified) -> Outline {
        let spot = |place: &[f64]| rectified.to_skin(place[0], place[1]).unwrap();
        let spots = self.shape.chunks(2).map(spot).collect();
        trace(&[Stroke { kind: Kind::Skin, spots }]).unwrap().outline
    }

    /// How far off an area is, in parts of the true one.
    fn off(&self, outline: &Outline) -> f64 {
        let twice: f64 = outline
            .rings()
            .flat_map(Ring::sides)
            .map(|(a, b)| (a.mm(), b.mm()))
            .map(|(a, b)| a.0 * b.1 - b.0 * a.1)
            .sum();
        twice.abs() / 2.0 / self.area - 1.0
    }
}

#[test]
fn areas_beside_a_tilted_card() {
    let mut seen = 0;
    for view in View::good() {
        let rectified = match view.rectified(&view.corners) {
            // Two of them, seen through the longest lens.
            Err(Unscaled::TwoWays) if view.tilt > 30.0 => continue,
            other => other.unwrap(),
        };
        let off = view.off(&view.traced(&rectified));
        assert!(off.abs() <= 0.01, "tilted by {}: {off}", view.tilt);
        assert!(rectified.misfit().greatest <= 2, "{:?}", rectified.misfit());
        seen += 1;
    }
    assert_eq!(seen, 123);
}

#[test]
fn its_tilt_is_told_and_a_great_one_refused() {
    for view in View::all() {
        match view.rectified(&view.corners) {
            Ok(rectified) => {
                let tilt = f64::from(rectified.tilt().unwrap()) / 10.0;
                // A small tilt hardly shows: a tenth of a pixel is then some degrees.
                let near = if view.tilt < 10.0 { 4.0 } else { 1.0 };
                assert!((tilt - view.tilt).abs() <= near, "{tilt} of {}", view.tilt);
                assert!(view.tilt < 41.0);
            }
            Err(Unscaled::TwoWays) => assert!(view.tilt > 30.0),
            Err(refused) => {
                assert!(matches!(refused, Unscaled::Tilted { tilt } if tilt > 400), "{refused:?}");
                assert!(view.tilt > 39.0);
            }
        }
    }
}

/// Corners off by one pixel and by two: the areas' errors, and whether what is told of them holds.
#[test]
fn areas_when_corners_are_misplaced() {
    let mut errors = [Vec::new(), Vec::new()];
    let (mut refused, mut told) = (0, Vec::new());
    for view in View::good() {
        for (place, corners) in view.noisy.iter().enumerate() {
            let Ok(rectified) = view.rectified(corners) else {
                refused += 1;
                continue;
            };
            let outline = view.traced(&rectified);
            let off = view.off(&outline);
            errors[place / 4].push(off);
            if place >= 4 {
                told.push(off * 1_000.0 / f64::from(rectified.area_error(&outline)));
            }
        }
    }
    #[expect(clippy::cast_precision_loss)]
    let rms = |of: &[f64]| (of.iter().map(|off| off * off).sum::<f64>() / of.len() as f64).sqrt();
    let spread = [rms(&errors[0]), rms(&errors[1])];
    println!("{spread:?}, {refused} refused, {} told", rms(&told));
    assert!(spread[0] < 0.025 && spread[1] < 0.05, "{spread:?}");
    // Told as a standard deviation, for corners about as exact as the limits have them; rather too
    // much than too little.
    let told = rms(&told);
    assert!((0.6..1.0).contains(&told), "{told}");
    // Of 1,000; two views that can be read in two ways account for 16.
    assert!(refused <= 40, "{refused}");
}

/// A card of another shape is no ID-1 card: a square one of 54 mm, seen from straight above.
#[test]
fn another_card_does_not_fit() {
    let corners = [(5_000, 5_000), (8_000, 5_000), (8_000, 8_000), (5_000, 8_000)].map(Dot::from);
    let photo = Extent { width: 2_000, height: 1_500 };
    let refused = rectify(&Scale::Card(corners), photo, ID_1, &LIMITS).unwrap_err();
    assert!(matches!(refused, Unscaled::Misfit(_) | Unscaled::Tilted { .. }), "{refused:?}");
}

/// By hand: 50 mm over 500 pixels are 0.1 mm a pixel.
#[test]
fn a_known_length() {
    let ends = [(1_000, 2_000), (4_000, 6_000)].map(Dot::from);
    let photo = Extent { width: 2_000, height: 1_500 };
    let known = |length| Scale::Known { ends, length };
    let rectified = rectify(&known(Length::mm(50)), photo, ID_1, &LIMITS).unwrap();
    assert_eq!(rectified.to_skin(300.0, 400.0).unwrap().mm(), (30.0, 40.0));
    let nothing = rectify(&known(Length::ZERO), photo, ID_1, &LIMITS);
    assert_eq!(nothing.unwrap_err(), Unscaled::NoLength);
    // Two ends off by two pixels each: √2 × 2 / 500 of the length, twice that of the area.
    let square = [(0.0, 0.0), (300.0, 0.0), (300.0, 300.0), (0.0, 300.0)];
    let spots = square.map(|(x, y)| rectified.to_skin(x, y).unwrap()).to_vec();
    let outline = trace(&[Stroke { kind: Kind::Skin, spots }]).unwrap().outline;
    assert_eq!(outline.area().to_string(), "9");
    assert_eq!(rectified.area_error(&outline), 12);
}
