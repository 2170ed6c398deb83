//! From a photo to the plane of the skin and back.

use super::camera::{Camera, Match};
use super::matrix::{Matrix, Pair};
use super::{Card, Dot, Extent, Limits, Scale, Unscaled};
use crate::measure::Length;
use crate::plane::{Outline, Ring, Spot};

/// How far the corners of the card lie from where the camera that fits them best would show them.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Misfit {
    /// The root of the mean square: tenths of a pixel.
    pub rms: u32,
    /// The greatest: tenths of a pixel.
    pub greatest: u32,
    /// The root of the mean square on the skin: hundredths of a millimetre.
    pub skin: u32,
}

/// A photo whose scale is known.
#[derive(Clone, Debug, PartialEq)]
pub struct Rectified {
    pub(super) known: Known,
    pub(super) limits: Limits,
    /// From the skin in millimetres to the photo in pixels, and back.
    pub(super) out: Matrix,
    back: Matrix,
    misfit: Misfit,
    /// The photo's longer side, in pixels.
    pub(super) longer: f64,
}

/// What the scale is known by, the places in pixels.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Known {
    Card { corners: [Pair; 4], view: View, camera: Camera },
    Length { ends: [Pair; 2], mm: f64 },
}

/// How a card is looked at: what turns pixels and millimetres into a [`Match`], and back.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct View {
    /// The middle of the photo in pixels, and its longer side.
    middle: Pair,
    longer: f64,
    /// The side of the card between the first two corners and the one after it, in millimetres.
    sides: Pair,
    focals: (f64, f64),
}

/// Makes a photo measurable in the plane of a flat card, or by a known length, which says nothing
/// of a tilt.
///
/// The origin on the skin is the card's middle, or the photo's corner; the first axis is as the
/// photo's, along whichever side of the card runs most to the right.
///
/// Skin is measured through the camera that fits the card best, not through the one map that takes
/// its four corners exactly: on the 125 views of `tests/fixtures/cards.json` that are turned by less
/// than 39 degrees, corners one pixel off, areas beside the card are off by 1.8 % instead of 2.4 %
/// (root mean square), and corners two pixels off, by 3.3 % instead of 4.9 %.
///
/// # Errors
///
/// When the corners or ends cannot be right, or are not good enough to measure by.
pub fn rectify(
    scale: &Scale,
    photo: Extent,
    card: Card,
    limits: &Limits,
) -> Result<Rectified, Unscaled> {
    let within = |(x, y): Pair| {
        (0.0..=f64::from(photo.width)).contains(&x) && (0.0..=f64::from(photo.height)).contains(&y)
    };
    let inside = |places: &[Pair]| {
        places.iter().all(|&place| within(place)).then_some(()).ok_or(Unscaled::Outside)
    };
    match scale {
        Scale::Card(dots) => {
            let corners = dots.map(Dot::pixels);
            inside(&corners)?;
            by_card(in_order(corners)?, photo, card, limits)
        }
        Scale::Known { ends, length } => {
            let ends = ends.map(Dot::pixels);
            inside(&ends)?;
            by_length(ends, *length, photo, limits)
        }
    }
}

/// The corners clockwise as they are seen, from the one whose side runs most to the right.
fn in_order(mut corners: [Pair; 4]) -> Result<[Pair; 4], Unscaled> {
    let [a, b, c, d] = corners;
    let turn = |a: Pair, b: Pair, c: Pair| (b.0 - a.0) * (c.1 - a.1) - (b.1 - a.1) * (c.0 - a.0);
    let turns = [turn(d, a, b), turn(a, b, c), turn(b, c, d), turn(c, d, a)];
    let right = turns.iter().filter(|&&turn| turn > 0.0).count();
    let left = turns.iter().filter(|&&turn| turn < 0.0).count();
    match (right, left) {
        (4, 0) => {}
        (0, 4) => corners.reverse(),
        (2, 2) => return Err(Unscaled::Crossed),
        _ => return Err(Unscaled::NotConvex),
    }
    let rightwards = |first: usize| {
        let (a, b) = (corners[first], corners[(first + 1) % 4]);
        (b.0 - a.0) / apart(a, b)
    };
    let first = (0..4).max_by(|&a, &b| rightwards(a).total_cmp(&rightwards(b))).unwrap_or(0);
    corners.rotate_left(first);
    Ok(corners)
}

fn by_card(
    corners: [Pair; 4],
    photo: Extent,
    card: Card,
    limits: &Limits,
) -> Result<Rectified, Unscaled> {
    let [a, b, c, d] = corners;
    let sides = [apart(a, b), apart(b, c), apart(c, d), apart(d, a)];
    large_enough(sides.into_iter().fold(f64::INFINITY, f64::min), limits)?;
    let hundredths = |side: u32| f64::from(side) / f64::from(Spot::PER_MM);
    let (long, short) = (hundredths(card.width), hundredths(card.height));
    let longer = f64::from(photo.width.max(photo.height));
    let thousandths = |part: u32| f64::from(part) / 1_000.0;
    let view = |sides: Pair| View {
        middle: (f64::from(photo.width) / 2.0, f64::from(photo.height) / 2.0),
        longer,
        sides,
        focals: (thousandths(limits.focal.0), thousandths(limits.focal.1)),
    };
    // The card lies this way or that.
    let read = |sides: Pair| {
        let view = view(sides);
        let camera = Camera::fitted(&view.matches(&corners), view.focals)?;
        let out = view.matrix(&camera);
        let back = out.inverse()?;
        let misfit = misfit(&corners, view.skin(), &out, &back);
        let known = Known::Card { corners, view, camera };
        Some(Rectified { known, limits: *limits, out, back, misfit, longer })
    };
    let readings: Vec<Rectified> =
        [(long, short), (short, long)].into_iter().filter_map(read).collect();
    let best = readings.iter().min_by_key(|reading| reading.misfit.skin);
    let best = best.ok_or(Unscaled::NotConvex)?;
    if best.misfit.skin > limits.most_misfit {
        return Err(Unscaled::Misfit(best.misfit));
    }
    if let Some(tilt) = best.tilt().filter(|&tilt| tilt > limits.most_tilt) {
        return Err(Unscaled::Tilted { tilt });
    }
    // Through a long lens, one that lies across and is turned far looks nearly like one that stands
    // and is turned less, and skin beside it would measure far less than it is.
    let fitting = readings.iter().filter(|reading| reading.misfit.skin <= limits.most_misfit);
    if fitting.count() > 1 { Err(Unscaled::TwoWays) } else { Ok(best.clone()) }
}

fn by_length(
    ends: [Pair; 2],
    length: Length,
    photo: Extent,
    limits: &Limits,
) -> Result<Rectified, Unscaled> {
    #[expect(clippy::cast_precision_loss, reason = "past 2^53 a place is farther than skin is")]
    let mm = length.raw() as f64 / Length::PER as f64;
    if length.is_zero() {
        return Err(Unscaled::NoLength);
    }
    large_enough(apart(ends[0], ends[1]), limits)?;
    let out = by_ends(&ends, mm);
    let back = out.inverse().ok_or(Unscaled::NoLength)?;
    let longer = f64::from(photo.width.max(photo.height));
    let known = Known::Length { ends, mm };
    Ok(Rectified { known, limits: *limits, out, back, misfit: Misfit::default(), longer })
}

fn large_enough(side: f64, limits: &Limits) -> Result<(), Unscaled> {
    let pixels = whole(side.floor());
    if pixels < limits.least_side { Err(Unscaled::TooSmall { pixels }) } else { Ok(()) }
}

/// From millimetres to pixels.
pub(super) fn by_ends([a, b]: &[Pair; 2], mm: f64) -> Matrix {
    let scale = apart(*a, *b) / mm;
    Matrix([[scale, 0.0, 0.0], [0.0, scale, 0.0], [0.0, 0.0, 1.0]])
}

fn misfit(corners: &[Pair; 4], skin: [Pair; 4], out: &Matrix, back: &Matrix) -> Misfit {
    let far = (f64::INFINITY, f64::INFINITY);
    let square = |a: Pair, b: Pair| apart(a, b).powi(2);
    let (mut photo_sum, mut greatest, mut skin_sum) = (0.0, 0.0_f64, 0.0);
    for (&corner, place) in corners.iter().zip(skin) {
        let missed = square(corner, out.map(place).unwrap_or(far));
        photo_sum += missed;
        greatest = greatest.max(missed);
        skin_sum += square(place, back.map(corner).unwrap_or(far));
    }
    let tenths = f64::from(Dot::PER_PIXEL);
    Misfit {
        rms: whole((photo_sum / 4.0).sqrt() * tenths),
        greatest: whole(greatest.sqrt() * tenths),
        skin: whole((skin_sum / 4.0).sqrt() * f64::from(Spot::PER_MM)),
    }
}

impl View {
    /// The corners on the skin, in millimetres from the card's middle.
    pub(super) fn skin(&self) -> [Pair; 4] {
        let (x, y) = (self.sides.0 / 2.0, self.sides.1 / 2.0);
        [(-x, -y), (x, -y), (x, y), (-x, y)]
    }

    /// How many millimetres a [`Match`] counts as one.
    fn unit(&self) -> f64 {
        self.sides.0.max(self.sides.1)
    }

    fn matches(&self, corners: &[Pair; 4]) -> [Match; 4] {
        let mut matches =
            self.skin().map(|(x, y)| ((x / self.unit(), y / self.unit()), (0.0, 0.0)));
        for ((_, photo), (x, y)) in matches.iter_mut().zip(corners) {
            *photo = ((x - self.middle.0) / self.longer, (y - self.middle.1) / self.longer);
        }
        matches
    }

    /// From millimetres to pixels.
    fn matrix(&self, camera: &Camera) -> Matrix {
        let skin = 1.0 / self.unit();
        let skin = Matrix([[skin, 0.0, 0.0], [0.0, skin, 0.0], [0.0, 0.0, 1.0]]);
        let (x, y) = self.middle;
        let photo = Matrix([[self.longer, 0.0, x], [0.0, self.longer, y], [0.0, 0.0, 1.0]]);
        photo.after(&camera.matrix().after(&skin))
    }
}

impl Rectified {
    /// Where on the skin a place of the photo is, in pixels to the right and down; `None` on the
    /// horizon and beyond, farther than 10 metres off, and for what is no number.
    pub fn to_skin(&self, x: f64, y: f64) -> Option<Spot> {
        let (x, y) = self.back.map((x, y))?;
        Spot::from_mm(x, y)
    }

    /// Where in the photo a place of the skin is seen, in pixels, which may be beyond its edge;
    /// `None` behind the camera.
    pub fn to_photo(&self, spot: Spot) -> Option<(f64, f64)> {
        self.out.map(spot.mm())
    }

    /// How far the card is turned out of the plane of the photo, in tenths of a degree; `None` when
    /// the scale is a known length, which does not tell.
    pub fn tilt(&self) -> Option<u32> {
        match &self.known {
            Known::Card { camera, .. } => Some(whole(camera.tilt().to_degrees() * 10.0)),
            Known::Length { .. } => None,
        }
    }

    /// How badly the corners fit; nothing when the scale is a known length.
    pub const fn misfit(&self) -> Misfit {
        self.misfit
    }

    /// The card's corners on the skin, clockwise; `None` when the scale is a known length.
    pub fn card(&self) -> Option<[Spot; 4]> {
        match &self.known {
            Known::Card { view, .. } => {
                Some(view.skin().map(|(x, y)| Spot::from_mm(x, y).unwrap_or_default()))
            }
            Known::Length { .. } => None,
        }
    }

    /// How far from the card's middle the farthest place of an outline lies, when that is farther
    /// than the limit: skin is not flat, and a small error of the card's corners grows with it.
    pub fn too_far(&self, outline: &Outline) -> Option<Length> {
        let Known::Card { view, .. } = &self.known else { return None };
        let middle = Spot::default();
        let spots = outline.rings().flat_map(Ring::spots);
        let farthest = spots.map(|spot| spot.distance(middle)).fold(0.0, f64::max);
        let most = view.unit() * f64::from(self.limits.farthest) / 1_000.0;
        let tenths = (farthest * 10.0).ceil();
        (farthest > most).then(|| Length::tenths(u64::from(whole(tenths))))
    }
}

fn apart(a: Pair, b: Pair) -> f64 {
    (a.0 - b.0).hypot(a.1 - b.1)
}

/// To the nearest whole number; the greatest there is for what is past it or no number, so that no
/// limit takes it for nothing.
pub(super) fn whole(number: f64) -> u32 {
    if number.is_nan() {
        return u32::MAX;
    }
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "saturates")]
    let whole = number.round() as u32;
    whole
}
