//! Where sides of closed strokes meet.

use super::Spot;
use crate::measure::order;

/// One side of one stroke, from its left end to its right.
struct Side {
    stroke: usize,
    place: usize,
    left: Spot,
    right: Spot,
}

/// The places where a stroke crosses or touches itself, each once, in order; `None` when the sides
/// of all strokes together meet more than `most` times, so that nobody waits for a scribble.
///
/// Sides that follow one another share an end; that is no meeting.
pub(super) fn crossings(strokes: &[Vec<Spot>], most: usize) -> Option<Vec<Spot>> {
    let mut sides: Vec<Side> = Vec::new();
    for (stroke, spots) in strokes.iter().enumerate() {
        let ends = spots.iter().cycle().skip(1);
        sides.extend(spots.iter().zip(ends).enumerate().map(|(place, (&a, &b))| Side {
            stroke,
            place,
            left: a.min(b),
            right: a.max(b),
        }));
    }
    order::by_key(&mut sides, |side| side.left);
    let (mut met, mut found) = (0, Vec::new());
    // Only sides that reach as far right as where the next begins can meet it.
    let mut reaching: Vec<&Side> = Vec::new();
    for side in &sides {
        reaching.retain(|other| other.right.x >= side.left.x);
        for other in &reaching {
            if side.follows(other, strokes) || !side.meets(other) {
                continue;
            }
            met += 1;
            if met > most {
                return None;
            }
            if side.stroke == other.stroke {
                found.push(side.meeting(other));
            }
        }
        reaching.push(side);
    }
    order::sort(&mut found);
    found.dedup();
    Some(found)
}

impl Side {
    fn follows(&self, other: &Self, strokes: &[Vec<Spot>]) -> bool {
        let sides = strokes.get(self.stroke).map_or(0, Vec::len);
        let apart = self.place.abs_diff(other.place);
        self.stroke == other.stroke && (apart == 1 || apart + 1 == sides)
    }

    /// Whether they share a place, in whole numbers: exact.
    fn meets(&self, other: &Self) -> bool {
        let heights = |side: &Self| (side.left.y.min(side.right.y), side.left.y.max(side.right.y));
        let ((low, high), (other_low, other_high)) = (heights(self), heights(other));
        if high < other_low || other_high < low || other.right.x < self.left.x {
            return false;
        }
        // Both are in each other's rectangle, so sides on one line overlap.
        let parts = |one: &Self, of: &Self| {
            turn(one.left, one.right, of.left).signum()
                * turn(one.left, one.right, of.right).signum()
        };
        parts(self, other) <= 0 && parts(other, self) <= 0
    }

    /// A place that they share, to the hundredth.
    fn meeting(&self, other: &Self) -> Spot {
        let from = turn(other.left, other.right, self.left);
        let to = turn(other.left, other.right, self.right);
        if from == to {
            // On one line: the later of the left ends lies on both.
            return self.left.max(other.left);
        }
        #[expect(clippy::cast_precision_loss, reason = "below 2^53")]
        let along = from as f64 / (from - to) as f64;
        let at = |a: i32, b: i32| f64::from(a) + along * (f64::from(b) - f64::from(a));
        Spot::nearest(at(self.left.x, self.right.x), at(self.left.y, self.right.y))
    }
}

/// Twice the area of the triangle; its sign tells on which side of the line from `a` to `b` the
/// place `c` lies.
pub(super) fn turn(a: Spot, b: Spot, c: Spot) -> i64 {
    let apart = |from: i32, to: i32| i64::from(to) - i64::from(from);
    apart(a.x, b.x) * apart(a.y, c.y) - apart(a.y, b.y) * apart(a.x, c.x)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn stroke(spots: &[(i32, i32)]) -> Vec<Spot> {
        spots.iter().copied().map(Spot::from).collect()
    }

    #[test]
    fn a_bow_tie_crosses_once_and_a_square_never() {
        let bow = stroke(&[(0, 0), (100, 100), (100, 0), (0, 100)]);
        let square = stroke(&[(0, 0), (100, 0), (100, 100), (0, 100)]);
        assert_eq!(crossings(&[bow], 9), Some(vec![Spot::new(50, 50)]));
        assert_eq!(crossings(&[square], 9), Some(vec![]));
    }

    #[test]
    fn a_touch_is_told_once_and_sides_on_one_line_too() {
        // The fourth place lies on the first side.
        let touch = stroke(&[(0, 0), (100, 0), (100, 50), (50, 0), (0, 50)]);
        assert_eq!(crossings(&[touch], 9), Some(vec![Spot::new(50, 0)]));
        let line = stroke(&[(0, 0), (90, 0), (90, 50), (80, 0), (20, 0), (10, 50)]);
        assert_eq!(crossings(&[line], 9), Some(vec![Spot::new(20, 0), Spot::new(80, 0)]));
    }

    #[test]
    fn strokes_may_cross_each_other_but_not_too_often() {
        let one = stroke(&[(0, 0), (100, 0), (100, 100), (0, 100)]);
        let other = stroke(&[(50, 50), (150, 50), (150, 150), (50, 150)]);
        let both = [one, other];
        assert_eq!(crossings(&both, 2), Some(vec![]));
        assert_eq!(crossings(&both, 1), None);
    }
}
