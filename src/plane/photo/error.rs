//! How exact an area in a photo is.

use super::Dot;
use super::matrix::{Matrix, Pair};
use super::rectified::{Known, Rectified, by_ends, whole};
use crate::plane::{Outline, Spot};

impl Rectified {
    /// How far off the area of an outline may be because the corners or ends are not placed
    /// exactly: one standard deviation, in thousandths of the area.
    ///
    /// Each of them is moved across and down by what it misses the best fit by, or by how exactly
    /// anyone places it if that is more; the changes of the area add up as squares. For that the
    /// map that takes the corners exactly is used, which trusts no camera and so tells rather too
    /// much than too little. That skin is curved is not in it, nor, for a known length, a tilt.
    pub fn area_error(&self, outline: &Outline) -> u32 {
        let placing = self.longer * f64::from(self.limits.placing) / 100_000.0;
        let by = placing.max(f64::from(self.misfit().greatest) / f64::from(Dot::PER_PIXEL));
        // Traced in the photo: what moves is where on the skin that is.
        let seen = |spot: &Spot| self.out.map(spot.mm());
        let rings: Vec<(bool, Vec<Pair>)> = outline
            .patches()
            .iter()
            .flat_map(|patch| patch.rings().enumerate())
            .map(|(place, ring)| (place == 0, ring.spots().iter().filter_map(seen).collect()))
            .collect();
        let area = |places: &[Pair]| {
            let back = self.known.map(places)?.inverse()?;
            let ring = |(outer, places): &(bool, Vec<Pair>)| {
                let area = enclosed(places.iter().filter_map(|&place| back.map(place)));
                if *outer { area } else { -area }
            };
            Some(rings.iter().map(ring).sum::<f64>())
        };
        let placed = self.known.places();
        let mut squares = 0.0;
        for moved in 0..placed.len() {
            for (dx, dy) in [(by, 0.0), (0.0, by)] {
                let shift = |(place, &(x, y)): (usize, &Pair)| {
                    if place == moved { (x + dx, y + dy) } else { (x, y) }
                };
                let shifted: Vec<Pair> = placed.iter().enumerate().map(shift).collect();
                let change = area(&shifted).zip(area(placed)).map(|(then, now)| then / now - 1.0);
                squares += change.unwrap_or(f64::INFINITY).powi(2);
            }
        }
        whole((squares.sqrt() * 1_000.0).ceil())
    }
}

impl Known {
    fn places(&self) -> &[Pair] {
        match self {
            Self::Card { corners, .. } => corners,
            Self::Length { ends, .. } => ends,
        }
    }

    /// From millimetres to pixels if the corners or ends were these.
    fn map(&self, places: &[Pair]) -> Option<Matrix> {
        match (self, places) {
            (Self::Card { view, .. }, &[a, b, c, d]) => {
                let skin = Matrix::of_square(view.skin()).inverse()?;
                Some(Matrix::of_square([a, b, c, d]).after(&skin))
            }
            (Self::Length { mm, .. }, &[a, b]) => Some(by_ends(&[a, b], *mm)),
            _ => None,
        }
    }
}

/// The area within a closed line.
fn enclosed(mut places: impl Iterator<Item = Pair>) -> f64 {
    let Some(first) = places.next() else { return 0.0 };
    let (mut last, mut twice) = (first, 0.0);
    for place in places.chain(Some(first)) {
        twice += last.0 * place.1 - place.0 * last.1;
        last = place;
    }
    twice.abs() / 2.0
}
