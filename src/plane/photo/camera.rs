//! The camera that would show a flat card where its corners were found.
//!
//! A pinhole with square pixels that looks through the middle of the photo; where it stands, how it
//! is turned and its focal length are sought, seven numbers from the four corners' eight. The one
//! left over is what tells misplaced corners: a map of plane to plane alone would fit any four.

use super::matrix::{Matrix, Pair, Triple, cross, dot, plus, scaled, solved, unit};

/// A card's corner on the skin and in the photo, the photo's measured from its middle in its longer
/// sides, the skin's from the card's middle in its own.
pub(super) type Match = (Pair, Pair);

/// The camera.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Camera {
    /// Which way the card's sides and its back lie, seen from the camera.
    turn: [Triple; 3],
    /// Where the card's middle is: to the right, down, and away in focal lengths.
    place: Triple,
    /// One over the focal length: how much smaller what is farther away is seen. Sought in its
    /// stead, and the distance in focal lengths, because a longer lens from farther off shows
    /// nearly the same; steps in both at once would creep.
    shrink: f64,
}

/// Seven numbers sought: a turn, a step, a change of the focal length.
const SOUGHT: usize = 7;
/// With the right side.
const ROW: usize = SOUGHT + 1;
/// With ten times as many, four areas beside the card in 30,000 random views, corners up to four
/// pixels off, changed by more than a thousandth, and none by two.
const STEPS: usize = 60;
/// When a step takes less than this part of the error away, it is the last.
const DONE: f64 = 1e-10;
/// Nor is a sum of squares below this worth another: a five-thousandth of a pixel in 2,000.
const CLOSE: f64 = 1e-14;

impl Camera {
    /// The camera that misses the corners by least, in the sum of squares, beginning from several
    /// focal lengths between the bounds: from one alone it now and then stops short.
    pub(super) fn fitted(corners: &[Match; 4], focals: (f64, f64)) -> Option<Self> {
        let bounds = (1.0 / focals.1, 1.0 / focals.0);
        let starts = [bounds.0, f64::midpoint(bounds.0, bounds.1), bounds.1];
        let fits = starts
            .into_iter()
            .filter_map(|shrink| Some(Self::flat(corners, shrink)?.refined(corners, bounds)));
        let best = fits.min_by(|(_, a), (_, b)| a.total_cmp(b));
        best.filter(|(_, missed)| missed.is_finite()).map(|(camera, _)| camera)
    }

    /// From the skin to the photo, both as in a [`Match`].
    pub(super) fn matrix(&self) -> Matrix {
        let shrunk = |[x, y, away]: Triple| [x, y, away * self.shrink];
        let [across, down, _] = self.turn;
        Matrix::columns([shrunk(across), shrunk(down), self.place])
    }

    /// How far the card is turned out of the plane of the photo, in radians.
    pub(super) fn tilt(&self) -> f64 {
        let [_, _, [_, _, away]] = self.turn;
        away.abs().min(1.0).acos()
    }

    /// A first guess for a focal length, from the map that fits the corners exactly.
    fn flat(corners: &[Match; 4], shrink: f64) -> Option<Self> {
        let square = Matrix::of_square(corners.map(|(_, photo)| photo));
        let card = Matrix::of_square(corners.map(|(skin, _)| skin)).inverse()?;
        let [across, down, place] = square.after(&card).transposed();
        let grown = |[x, y, away]: Triple| [x, y, away / shrink];
        let (across, down) = (grown(across), grown(down));
        // In front of the camera, and the card's sides as long as they are.
        let size = (dot(across, across) * dot(down, down)).sqrt().sqrt();
        let size = if place[2] < 0.0 { -size } else { size };
        let turn = squared([scaled(across, 1.0 / size), scaled(down, 1.0 / size)]);
        let camera = Self { turn, place: scaled(place, 1.0 / size), shrink };
        camera.missed(corners).is_finite().then_some(camera)
    }

    /// Levenberg and Marquardt's steps downhill.
    fn refined(self, corners: &[Match; 4], bounds: (f64, f64)) -> (Self, f64) {
        let (mut best, mut missed) = (self, self.missed(corners));
        let mut damping = 1e-3;
        for _ in 0..STEPS {
            let (square, slope) = best.slopes(corners);
            // At its bound the focal length stays, should it want to go beyond.
            let held = (best.shrink <= bounds.0 && slope[SOUGHT - 1] > 0.0)
                || (best.shrink >= bounds.1 && slope[SOUGHT - 1] < 0.0);
            let before = missed;
            while damping < 1e12 {
                let next = step(&square, &slope, damping, held)
                    .map(|step| best.moved(step, bounds))
                    .map(|next| (next, next.missed(corners)))
                    .filter(|(_, less)| *less < missed);
                if let Some((next, less)) = next {
                    (best, missed) = (next, less);
                    damping = (damping * 0.1).max(1e-12);
                    break;
                }
                damping *= 10.0;
            }
            if missed < CLOSE || before - missed <= DONE * before {
                break;
            }
        }
        (best, missed)
    }

    fn missed(&self, corners: &[Match; 4]) -> f64 {
        let matrix = self.matrix();
        let miss = |&(skin, photo): &Match| {
            let (x, y) = matrix.map(skin).unwrap_or((f64::INFINITY, f64::INFINITY));
            (x - photo.0).powi(2) + (y - photo.1).powi(2)
        };
        corners.iter().map(miss).sum()
    }

    /// The squared slopes of all misses, and the slope of half their sum.
    fn slopes(&self, corners: &[Match; 4]) -> ([[f64; SOUGHT]; SOUGHT], [f64; SOUGHT]) {
        let mut square = [[0.0; SOUGHT]; SOUGHT];
        let mut slope = [0.0; SOUGHT];
        let [across, down, _] = self.turn;
        for &((x, y), photo) in corners {
            let arm = plus(scaled(across, x), scaled(down, y));
            let [x, y, away] = plus(arm, self.place);
            let behind = arm[2];
            let depth = away - behind + behind * self.shrink;
            for (at, found, first, second) in
                [(x / depth, photo.0, 1.0, 0.0), (y / depth, photo.1, 0.0, 1.0)]
            {
                let along = [first / depth, second / depth, -at * self.shrink / depth];
                let [about_x, about_y, about_z] = cross(arm, along);
                let ([by_x, by_y, _], farther) = (along, -at / depth);
                let row = [about_x, about_y, about_z, by_x, by_y, farther, farther * behind];
                for ((square, slope), of) in square.iter_mut().zip(&mut slope).zip(row) {
                    *slope += of * (at - found);
                    square.iter_mut().zip(row).for_each(|(sum, other)| *sum += of * other);
                }
            }
        }
        (square, slope)
    }

    fn moved(&self, step: [f64; SOUGHT], bounds: (f64, f64)) -> Self {
        let [about_x, about_y, about_z, by_x, by_y, by_z, shrink] = step;
        let axis = [about_x, about_y, about_z];
        let [across, down, _] = self.turn.map(|side| turned(side, axis));
        Self {
            turn: squared([across, down]),
            place: plus(self.place, [by_x, by_y, by_z]),
            // Not `clamp`, whose complaint about its bounds would write out floats: 10 kB of code.
            shrink: (self.shrink + shrink).max(bounds.0).min(bounds.1),
        }
    }
}

/// The step downhill, shorter the more it is damped.
fn step(
    square: &[[f64; SOUGHT]; SOUGHT],
    slope: &[f64; SOUGHT],
    damping: f64,
    held: bool,
) -> Option<[f64; SOUGHT]> {
    let mut rows = [[0.0; ROW]; SOUGHT];
    for (place, (row, from)) in rows.iter_mut().zip(square).enumerate() {
        row.iter_mut().zip(from).for_each(|(number, from)| *number = *from);
        row[place] = row[place] * (1.0 + damping) + 1e-15;
        row[SOUGHT] = -slope[place];
        if held {
            row[SOUGHT - 1] = 0.0;
        }
    }
    if held {
        rows[SOUGHT - 1] = [0.0; ROW];
        rows[SOUGHT - 1][SOUGHT - 1] = 1.0;
    }
    solved(rows)
}

/// Turned about an axis by as many radians as it is long.
fn turned(side: Triple, axis: Triple) -> Triple {
    let angle = dot(axis, axis).sqrt();
    if angle < 1e-12 {
        return plus(side, cross(axis, side));
    }
    let axis = scaled(axis, 1.0 / angle);
    let (sin, cos) = angle.sin_cos();
    let kept = plus(scaled(side, cos), scaled(cross(axis, side), sin));
    plus(kept, scaled(axis, dot(axis, side) * (1.0 - cos)))
}

/// Two sides made square and as long as one, and what is square to both.
fn squared([across, down]: [Triple; 2]) -> [Triple; 3] {
    let across = unit(across);
    let down = unit(plus(down, scaled(across, -dot(across, down))));
    [across, down, cross(across, down)]
}
