//! A stroke with fewer places.

use super::Spot;
use crate::measure::Length;

/// Hundredths of a millimetre in a tenth.
const PER_TENTH: f64 = 10.0;

/// The stroke through fewer of its places, none of those left out farther from it than `tolerance`
/// (Ramer, Douglas and Peucker). A finger is sampled far more often than its line bends.
///
/// Both ends stay. A closed stroke may repeat its first place at the end or not.
pub fn simplified(spots: &[Spot], tolerance: Length) -> Vec<Spot> {
    #[expect(clippy::cast_precision_loss, reason = "a tolerance past 2^53 keeps the ends only")]
    thinned(spots, tolerance.raw() as f64 * PER_TENTH)
}

/// The same, with a tolerance in hundredths of a millimetre.
pub(super) fn thinned(spots: &[Spot], tolerance: f64) -> Vec<Spot> {
    let mut kept = vec![false; spots.len()];
    let mut todo = Vec::new();
    if let Some(last) = spots.len().checked_sub(1) {
        todo.push((0, last));
    }
    while let Some((first, last)) = todo.pop() {
        for end in [first, last] {
            if let Some(kept) = kept.get_mut(end) {
                *kept = true;
            }
        }
        let (Some(&from), Some(&to)) = (spots.get(first), spots.get(last)) else { continue };
        let mut farthest = (tolerance, None);
        let between = spots.iter().enumerate().take(last).skip(first + 1);
        for (place, &spot) in between {
            let distance = from_side(spot, from, to);
            if distance > farthest.0 {
                farthest = (distance, Some(place));
            }
        }
        if let (_, Some(place)) = farthest {
            todo.extend([(first, place), (place, last)]);
        }
    }
    spots.iter().zip(kept).filter_map(|(&spot, kept)| kept.then_some(spot)).collect()
}

/// How far a place is from the side between two others, in hundredths.
fn from_side(spot: Spot, from: Spot, to: Spot) -> f64 {
    let apart = |a: i32, b: i32| f64::from(b) - f64::from(a);
    let (dx, dy) = (apart(from.x, to.x), apart(from.y, to.y));
    let (px, py) = (apart(from.x, spot.x), apart(from.y, spot.y));
    let length = dx * dx + dy * dy;
    let along = if length > 0.0 { ((px * dx + py * dy) / length).clamp(0.0, 1.0) } else { 0.0 };
    (px - along * dx).hypot(py - along * dy)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn spots(spots: &[(i32, i32)]) -> Vec<Spot> {
        spots.iter().copied().map(Spot::from).collect()
    }

    #[test]
    fn a_small_wave_goes_and_a_corner_stays() {
        let wave = spots(&[(0, 0), (100, 9), (200, -9), (300, 9), (400, 0), (400, 300)]);
        let kept = simplified(&wave, Length::tenths(1));
        assert_eq!(kept, spots(&[(0, 0), (400, 0), (400, 300)]));
        assert_eq!(simplified(&wave, Length::ZERO), wave);
        let line = spots(&[(0, 0), (100, 100), (300, 300)]);
        assert_eq!(simplified(&line, Length::ZERO), spots(&[(0, 0), (300, 300)]));
    }

    #[test]
    fn a_closed_stroke_keeps_its_shape() {
        let square = spots(&[(0, 0), (50, 0), (100, 0), (100, 100), (0, 100), (0, 50), (0, 0)]);
        let kept = simplified(&square, Length::tenths(1));
        assert_eq!(kept, spots(&[(0, 0), (100, 0), (100, 100), (0, 100), (0, 0)]));
    }

    #[test]
    fn one_that_turns_back_on_itself_keeps_its_turn() {
        let spike = spots(&[(0, 0), (900, 0), (100, 0)]);
        assert_eq!(simplified(&spike, Length::tenths(1)), spike);
        assert_eq!(simplified(&[], Length::mm(1)), []);
        assert_eq!(simplified(&spike[..1], Length::mm(1)), spike[..1]);
    }
}
