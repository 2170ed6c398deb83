//! The sides of an outline by height, so that a place is judged without looking at all of them.

use super::whole::{real, small, whole};
use super::{Ring, Spot};

/// About so many sides begin in a band.
const SIDES_PER_BAND: usize = 8;

/// No two places are farther apart than this, in hundredths.
const FARTHEST: f64 = 4_000_000.0;

/// Sides by the bands of equal height that they pass through.
pub(super) struct Sides {
    top: f64,
    height: f64,
    /// Where in `held` each band begins, and where the last ends.
    starts: Vec<u32>,
    held: Vec<(Spot, Spot)>,
}

impl Sides {
    pub(super) fn of<'a>(rings: impl Iterator<Item = &'a Ring>) -> Self {
        let mut sides: Vec<(Spot, Spot)> = Vec::new();
        for ring in rings {
            sides.extend(ring.sides());
        }
        let heights = || sides.iter().map(|(from, _)| from.y);
        let top = f64::from(heights().min().unwrap_or(0));
        let bottom = f64::from(heights().max().unwrap_or(0));
        let bands = sides.len() / SIDES_PER_BAND + 1;
        let height = ((bottom - top) / real(bands)).max(1.0);
        let mut all = Self { top, height, starts: vec![0; bands + 2], held: vec![] };
        for (from, to) in &sides {
            let (first, last) = all.bands(from.y.min(to.y), from.y.max(to.y));
            for band in first..=last {
                all.starts[band + 1] += 1;
            }
        }
        for band in 1..all.starts.len() {
            all.starts[band] += all.starts[band - 1];
        }
        let mut next = all.starts.clone();
        let count = next.last().map_or(0, |&count| count as usize);
        all.held = vec![(Spot::default(), Spot::default()); count];
        for &(from, to) in &sides {
            let (first, last) = all.bands(from.y.min(to.y), from.y.max(to.y));
            for next in &mut next[first..=last] {
                all.held[*next as usize] = (from, to);
                *next += 1;
            }
        }
        all
    }

    fn bands(&self, from: i32, to: i32) -> (usize, usize) {
        let last = self.starts.len() - 2;
        let band = |y: i32| whole((f64::from(y) - self.top) / self.height).min(last);
        (band(from), band(to))
    }

    fn between(&self, from: i32, to: i32) -> &[(Spot, Spot)] {
        let (first, last) = self.bands(from, to);
        &self.held[self.starts[first] as usize..self.starts[last + 1] as usize]
    }

    /// Whether a place lies inside or on a side: the same answer as `Outline::holds`.
    pub(super) fn hold(&self, spot: Spot) -> bool {
        let mut inside = false;
        for (a, b) in self.between(spot.y, spot.y) {
            if (a.y < spot.y && b.y < spot.y) || (a.y > spot.y && b.y > spot.y) {
                continue;
            }
            let apart = |from: i32, to: i32| i64::from(to) - i64::from(from);
            let (ax, ay) = (apart(spot.x, a.x), apart(spot.y, a.y));
            let (bx, by) = (apart(spot.x, b.x), apart(spot.y, b.y));
            let cross = ax * by - bx * ay;
            if cross == 0 && ax * bx <= 0 && ay * by <= 0 {
                return true;
            }
            if (ay > 0) != (by > 0) && (cross > 0) == (by > ay) {
                inside = !inside;
            }
        }
        inside
    }

    /// How far the nearest side is in hundredths, if no farther than `most`; else infinitely far.
    pub(super) fn distance(&self, spot: Spot, most: f64) -> f64 {
        let reach = small(whole(most.min(FARTHEST)) + 1).cast_signed();
        let mut best = f64::INFINITY;
        for &side in self.between(spot.y.saturating_sub(reach), spot.y.saturating_add(reach)) {
            best = best.min(square_to_side(spot, side));
        }
        let distance = best.sqrt();
        if distance <= most { distance } else { f64::INFINITY }
    }
}

/// The square of the distance from a place to a side.
fn square_to_side(spot: Spot, (from, to): (Spot, Spot)) -> f64 {
    let apart = |a: i32, b: i32| f64::from(b) - f64::from(a);
    let (dx, dy) = (apart(from.x, to.x), apart(from.y, to.y));
    let (px, py) = (apart(from.x, spot.x), apart(from.y, spot.y));
    let (along, length) = (px * dx + py * dy, dx * dx + dy * dy);
    if along <= 0.0 || length <= 0.0 {
        px * px + py * py
    } else if along >= length {
        (px - dx) * (px - dx) + (py - dy) * (py - dy)
    } else {
        // Not by the foot of the perpendicular: this stays exact where the place is on the line.
        let cross = px * dy - py * dx;
        cross * cross / length
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample;
    use super::*;

    #[test]
    fn it_judges_as_the_outline_does() {
        let outline = sample::wavy(300, 60.0);
        let sides = Sides::of(outline.rings());
        let (low, high) = outline.bounds().unwrap();
        let mut inside = 0;
        for x in (low.x - 50..high.x + 50).step_by(97) {
            for y in (low.y - 50..high.y + 50).step_by(89) {
                let spot = Spot::new(x, y);
                assert_eq!(sides.hold(spot), outline.holds(spot), "{spot:?}");
                inside += i32::from(sides.hold(spot));
            }
        }
        assert!(inside > 1_000, "{inside}");
        for spot in outline.rings().flat_map(Ring::spots) {
            assert!(sides.hold(*spot) && sides.distance(*spot, 1.0) == 0.0);
        }
    }

    #[test]
    fn the_nearest_side_is_found_whatever_band_it_is_in() {
        let outline = sample::wavy(300, 60.0);
        let sides = Sides::of(outline.rings());
        let (low, high) = outline.bounds().unwrap();
        for x in (low.x - 500..high.x + 500).step_by(331) {
            for y in (low.y - 500..high.y + 500).step_by(317) {
                let spot = Spot::new(x, y);
                let all = outline.rings().flat_map(Ring::sides);
                let least =
                    all.map(|side| square_to_side(spot, side)).fold(f64::INFINITY, f64::min);
                let within =
                    |most: f64| if least.sqrt() <= most { least.sqrt() } else { f64::INFINITY };
                assert_eq!(sides.distance(spot, 400.0).to_bits(), within(400.0).to_bits());
            }
        }
    }
}
