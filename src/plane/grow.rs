//! An outline with a margin taken off or added.

use super::shapes::{Contour, How, Shapes, from_shapes, overlay, to_shapes};
use super::simplify::thinned;
use super::{Outline, Spot};
use crate::measure::Length;
use i_overlay::i_float::int::point::IntPoint;

/// Hundredths of a millimetre in a tenth.
const PER_TENTH: u64 = 10;
/// No margin is wider than the world, in hundredths.
const WIDEST: u32 = 1_000_000;
/// Round a corner the margin turns by no more than this at a time, in radians: it then falls short
/// of a true arc by an eight-hundredth of its width at most.
const TURN: f64 = 0.1;
/// Before that, places of a ring that lie no farther from its line than this are left out, in
/// hundredths: the overlay's time grows with their square, and rounding moves a line as far.
const SLACK: f64 = 1.0;

impl Outline {
    /// What is farther than `by` from its edge; empty, or in several patches, where it is narrow.
    ///
    /// Here as with [`outset`](Self::outset), to a hundredth or two of a millimetre and an
    /// eight-hundredth of `by`.
    pub fn inset(&self, by: Length) -> Self {
        self.grown(by, false)
    }

    /// What is no farther than `by` from it. Corners become arcs.
    pub fn outset(&self, by: Length) -> Self {
        self.grown(by, true)
    }

    fn grown(&self, by: Length, outwards: bool) -> Self {
        let by = by.raw().saturating_mul(PER_TENTH);
        let by = f64::from(u32::try_from(by).unwrap_or(WIDEST).min(WIDEST));
        if by == 0.0 {
            return self.clone();
        }
        let thin = self.mapped(|ring| {
            let closed: Vec<Spot> =
                ring.spots().iter().chain(ring.spots().first()).copied().collect();
            thinned(&closed, SLACK)
        });
        // Rings that cross, as an altered record may have them, are mended first.
        let sound = overlay(&to_shapes(&thin), &Shapes::new(), How::Union);
        let mut strips = Shapes::new();
        sound.iter().flatten().for_each(|ring| lay(ring, by, outwards, &mut strips));
        let how = if outwards { How::Union } else { How::Difference };
        from_shapes(&overlay(&sound, &strips, how))
    }
}

/// A place, or a step from one to another.
type Pair = (f64, f64);

/// Lays a strip along each side of a ring that has what it encloses on its left, and a fan round
/// each corner that leaves a gap between two strips. Each is a shape of its own; where they overlap
/// they count once.
fn lay(ring: &Contour, wide: f64, outwards: bool, strips: &mut Shapes) {
    let place = |at: IntPoint| (f64::from(at.x), f64::from(at.y));
    let to = if outwards { -wide } else { wide };
    // Each side with the step across it, to its left or to its right.
    let ends = ring.iter().cycle().skip(1);
    let sides: Vec<(Pair, Pair, Pair)> = ring
        .iter()
        .zip(ends)
        .filter(|(a, b)| a != b)
        .map(|(&a, &b)| {
            let (a, b) = (place(a), place(b));
            let scale = to / (b.0 - a.0).hypot(b.1 - a.1);
            (a, b, ((a.1 - b.1) * scale, (b.0 - a.0) * scale))
        })
        .collect();
    let nexts = sides.iter().cycle().skip(1);
    for (&(a, b, step), &(_, _, next)) in sides.iter().zip(nexts) {
        let mut strip = vec![whole(a), whole(b), beyond(b, step), beyond(a, step)];
        let (cross, dot) = (step.0 * next.1 - step.1 * next.0, step.0 * next.0 + step.1 * next.1);
        let mut fan = fan(b, step, cross.atan2(dot));
        if outwards {
            strip.reverse();
        } else {
            fan.reverse();
        }
        strips.push(vec![strip]);
        if (cross > 0.0) == outwards && cross != 0.0 {
            strips.push(vec![fan]);
        }
    }
}

/// The part of a round about `centre` from a step away from it through an angle.
fn fan(centre: Pair, step: Pair, angle: f64) -> Contour {
    let steps = (angle.abs() / TURN).ceil().max(1.0);
    let mut fan = vec![whole(centre)];
    let mut done = 0.0;
    while done <= steps {
        let (sin, cos) = (angle * done / steps).sin_cos();
        fan.push(beyond(centre, (step.0 * cos - step.1 * sin, step.0 * sin + step.1 * cos)));
        done += 1.0;
    }
    fan
}

fn beyond(place: Pair, step: Pair) -> IntPoint {
    whole((place.0 + step.0, place.1 + step.1))
}

/// May lie beyond the world by the widest margin, which the engine still bears.
#[expect(clippy::cast_possible_truncation, reason = "a place and a margin, two million at most")]
fn whole(place: Pair) -> IntPoint {
    IntPoint::new(place.0.round() as i32, place.1.round() as i32)
}
