//! Strokes being drawn: added, pulled into shape, taken back.

use super::{Kind, Outline, Spot, Stroke, Traced, Untraceable, trace};
use crate::measure::order;
use serde::{Deserialize, Serialize};

/// What was drawn so far, and how to take it back, one step after the other.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Sketch {
    strokes: Vec<Stroke>,
    /// The strokes as they were before each change, the latest last.
    #[serde(skip)]
    past: Vec<Vec<Stroke>>,
}

/// A place that a stroke was drawn through.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Handle {
    stroke: usize,
    place: usize,
}

/// Changes that can be taken back.
const REMEMBERED: usize = 50;

impl Sketch {
    /// An outline as a sketch to go on with: each ring is a stroke.
    pub fn of(outline: &Outline) -> Self {
        let ring = |kind, ring: &super::Ring| Stroke { kind, spots: ring.spots().to_vec() };
        // A hole takes away only what was drawn before it; another patch may lie inside it.
        let mut patches: Vec<_> = outline.patches().iter().collect();
        order::by_key(&mut patches, |patch| std::cmp::Reverse(patch.outer.twice().unsigned_abs()));
        let strokes = patches.into_iter().flat_map(|patch| {
            let holes = patch.holes.iter().map(move |hole| ring(Kind::Hole, hole));
            std::iter::once(ring(Kind::Skin, &patch.outer)).chain(holes)
        });
        Self { strokes: strokes.collect(), past: Vec::new() }
    }

    /// Strokes as a sketch to go on with.
    pub const fn of_strokes(strokes: Vec<Stroke>) -> Self {
        Self { strokes, past: Vec::new() }
    }

    /// The strokes, in the order in which they were drawn.
    pub fn strokes(&self) -> &[Stroke] {
        &self.strokes
    }

    /// Whether nothing is drawn.
    pub fn is_empty(&self) -> bool {
        self.strokes.is_empty()
    }

    /// Whether a change can be taken back.
    pub fn can_undo(&self) -> bool {
        !self.past.is_empty()
    }

    /// The outline that the strokes make.
    ///
    /// # Errors
    /// [`Untraceable`], as [`trace()`] says.
    pub fn traced(&self) -> Result<Traced, Untraceable> {
        trace(&self.strokes)
    }

    /// Adds a stroke.
    ///
    /// # Errors
    /// [`Untraceable`] if the stroke by itself encloses nothing; the sketch is then as it was.
    pub fn draw(&mut self, stroke: Stroke) -> Result<(), Untraceable> {
        trace(&[Stroke { kind: Kind::Skin, spots: stroke.spots.clone() }])?;
        self.remember();
        self.strokes.push(stroke);
        Ok(())
    }

    /// Draws a shape, or takes it away again if this very stroke is there already: what a tap on a
    /// named zone does.
    pub fn toggle(&mut self, stroke: Stroke) {
        self.remember();
        match self.strokes.iter().position(|other| *other == stroke) {
            Some(place) => {
                self.strokes.remove(place);
            }
            None => self.strokes.push(stroke),
        }
    }

    /// The place of a stroke nearest to this one, if it is at most so many millimetres away.
    pub fn handle(&self, near: Spot, within_mm: f64) -> Option<Handle> {
        let all = self.strokes.iter().enumerate().flat_map(|(stroke, drawn)| {
            let spots = drawn.spots.iter().enumerate();
            spots.map(move |(place, spot)| (Handle { stroke, place }, spot.distance(near)))
        });
        let nearest = all.min_by(|a, b| a.1.total_cmp(&b.1))?;
        (nearest.1 <= within_mm).then_some(nearest.0)
    }

    /// Where a place of a stroke is; `None` when there is no such place any more.
    pub fn place(&self, handle: Handle) -> Option<Spot> {
        self.strokes.get(handle.stroke)?.spots.get(handle.place).copied()
    }

    /// Takes hold of a place: the pulls that follow are one change, to be taken back together.
    pub fn grab(&mut self) {
        self.remember();
    }

    /// Pulls a place to another, and its neighbours along the stroke with it, less the further they
    /// are, up to `reach_mm` away: a finger shapes an edge, not a spike.
    pub fn pull(&mut self, handle: Handle, to: Spot, reach_mm: f64) {
        let Some(stroke) = self.strokes.get_mut(handle.stroke) else { return };
        let Some(from) = stroke.spots.get(handle.place).copied() else { return };
        let ((fx, fy), (tx, ty)) = (from.mm(), to.mm());
        let share = along(&stroke.spots, handle.place, reach_mm);
        for (spot, share) in stroke.spots.iter_mut().zip(share) {
            let (x, y) = spot.mm();
            let moved = Spot::from_mm(x + (tx - fx) * share, y + (ty - fy) * share);
            *spot = moved.unwrap_or(*spot);
        }
    }

    /// Takes the last change back.
    pub fn undo(&mut self) {
        if let Some(before) = self.past.pop() {
            self.strokes = before;
        }
    }

    /// Puts these strokes in place of all there are; can be taken back.
    pub fn replace(&mut self, strokes: Vec<Stroke>) {
        self.remember();
        self.strokes = strokes;
    }

    /// Takes everything away; can be taken back.
    pub fn clear(&mut self) {
        self.remember();
        self.strokes.clear();
    }

    fn remember(&mut self) {
        if self.past.len() == REMEMBERED {
            self.past.remove(0);
        }
        self.past.push(self.strokes.clone());
    }
}

/// How much each place of a closed stroke follows the one that is pulled: all of it there, none
/// beyond the reach, by the way along the stroke in the shorter direction.
fn along(spots: &[Spot], pulled: usize, reach_mm: f64) -> Vec<f64> {
    let count = spots.len();
    let mut shares = vec![0.0; count];
    if count == 0 {
        return shares;
    }
    let mut follow = |step: usize| {
        let (mut at, mut way) = (pulled, 0.0);
        for _ in 0..count {
            // From one end of the reach to the other as smoothly as half a wave.
            let share = if reach_mm > 0.0 { (way / reach_mm).min(1.0) } else { 1.0 };
            let share = if at == pulled {
                1.0
            } else {
                f64::midpoint(1.0, (share * std::f64::consts::PI).cos())
            };
            if share <= 0.0 || share < shares[at] {
                break;
            }
            shares[at] = share;
            let next = (at + step) % count;
            way += spots[at].distance(spots[next]);
            at = next;
            if at == pulled {
                break;
            }
        }
    };
    follow(1);
    follow(count - 1);
    shares
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::Area;

    fn square(x: i32, size: i32) -> Stroke {
        let mm = |x: i32, y: i32| Spot::new(x * Spot::PER_MM, y * Spot::PER_MM);
        // A place on each millimetre of its sides.
        let sides = (0..size).map(|n| mm(x + n, 0));
        let sides = sides.chain((0..size).map(|n| mm(x + size, n)));
        let sides = sides.chain((0..size).map(|n| mm(x + size - n, size)));
        let spots = sides.chain((0..size).map(|n| mm(x, size - n))).collect();
        Stroke { kind: Kind::Skin, spots }
    }

    fn area(sketch: &Sketch) -> Area {
        sketch.traced().map_or(Area::ZERO, |traced| traced.outline.area())
    }

    #[test]
    fn each_change_is_taken_back_in_turn() {
        let mut sketch = Sketch::default();
        sketch.draw(square(0, 10)).unwrap();
        sketch.draw(square(20, 10)).unwrap();
        sketch.draw(Stroke { kind: Kind::Hole, ..square(22, 5) }).unwrap();
        let left = 200 - 25;
        // The hole's upper side lies on the patch's own.
        assert_eq!(area(&sketch), Area::mm2(left));
        sketch.undo();
        assert_eq!(area(&sketch), Area::mm2(200));
        sketch.undo();
        sketch.undo();
        assert!(sketch.is_empty() && !sketch.can_undo());
        assert_eq!(sketch.traced().unwrap_err(), Untraceable::Empty);
        sketch.undo();
    }

    #[test]
    fn what_encloses_nothing_is_refused_and_harms_nothing() {
        let mut sketch = Sketch::default();
        sketch.draw(square(0, 10)).unwrap();
        let before = sketch.clone();
        let two = Stroke { kind: Kind::Skin, spots: vec![Spot::new(0, 0), Spot::new(9, 9)] };
        assert_eq!(sketch.draw(two), Err(Untraceable::TooFew));
        assert_eq!(sketch, before);
    }

    #[test]
    fn an_edge_is_pulled_with_its_neighbours_and_back() {
        let mut sketch = Sketch::default();
        sketch.draw(square(0, 20)).unwrap();
        let middle = Spot::new(1_000, 0);
        let handle = sketch.handle(Spot::new(1_010, -150), 3.0).unwrap();
        assert_eq!(sketch.handle(Spot::new(1_000, 900), 3.0), None);
        sketch.grab();
        sketch.pull(handle, Spot::new(1_000, -300), 5.0);
        sketch.pull(handle, Spot::new(1_000, -500), 5.0);
        let spots = &sketch.strokes()[0].spots;
        assert_eq!(spots[10], Spot::new(1_000, -500));
        assert!(spots[9].y < -300 && spots[9].y > -500 && spots[9] == Spot::new(900, spots[11].y));
        assert_eq!(spots[4], Spot::new(400, 0), "out of reach");
        assert!(area(&sketch) > Area::mm2(415));
        sketch.undo();
        assert_eq!(sketch.strokes()[0].spots[10], middle);
        assert_eq!(area(&sketch), Area::mm2(400));
    }

    #[test]
    fn a_tap_on_a_zone_draws_it_and_a_second_takes_it_away() {
        let mut sketch = Sketch::default();
        sketch.toggle(square(0, 10));
        sketch.toggle(square(30, 10));
        assert_eq!(area(&sketch), Area::mm2(200));
        sketch.toggle(square(0, 10));
        assert_eq!(area(&sketch), Area::mm2(100));
    }

    #[test]
    fn an_outline_goes_on_as_a_sketch_of_the_same_area() {
        let mut sketch = Sketch::default();
        sketch.draw(square(0, 30)).unwrap();
        sketch.draw(Stroke { kind: Kind::Hole, ..square(5, 20) }).unwrap();
        sketch.draw(square(10, 5)).unwrap();
        let traced = sketch.traced().unwrap().outline;
        assert_eq!(Sketch::of(&traced).traced().unwrap().outline.area(), traced.area());
    }
}
