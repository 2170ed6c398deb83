//! The walk along the edge and through the corners of the points' cells.

use super::super::near::{Held, Near, place};
use super::super::sides::Sides;
use super::super::whole::length;
use super::super::{Ring, Spot};
use super::{Far, HAIR};

type Place = (f64, f64);
/// How far a place is from its nearest point, and which that is.
type Nearest = (f64, Held);

/// A ring is first cut into so many pieces: their ends tell how far to look for something farther.
const PIECES: usize = 48;

/// What was found so far.
pub(super) struct Walk<'a> {
    near: &'a Near,
    /// Nothing nearer than this matters.
    limit: f64,
    /// Whether only what is farther than the last found matters.
    rises: bool,
    pub(super) found: Vec<Far>,
}

impl<'a> Walk<'a> {
    /// For the farthest place, if it is farther than `least`.
    pub(super) fn to_farthest(near: &'a Near, least: f64) -> Self {
        Self { near, limit: least, rises: true, found: vec![] }
    }

    /// For all places farther than `limit`.
    pub(super) fn to_all(near: &'a Near, limit: f64) -> Self {
        Self { near, limit, rises: false, found: vec![] }
    }

    /// Along every ring.
    pub(super) fn edges<'r>(&mut self, rings: impl Iterator<Item = &'r Ring>) {
        for ring in rings {
            let mut places: Vec<Place> = ring.spots().iter().map(|&spot| place(spot)).collect();
            places.extend(places.first().copied());
            let mut gone = 0.0;
            let mut ways = vec![0.0];
            for pair in places.windows(2) {
                gone += length((pair[1].0 - pair[0].0, pair[1].1 - pair[0].1));
                ways.push(gone);
            }
            // An altered record may have rings of nothing.
            let Some(last) = places.len().checked_sub(1) else { continue };
            let step = (last / PIECES).max(1);
            let ends: Vec<usize> = (0..last).step_by(step).chain([last]).collect();
            let nearest: Vec<Nearest> = ends.iter().map(|&end| self.look(places[end])).collect();
            for (ends, nearest) in ends.windows(2).zip(nearest.windows(2)) {
                self.span(&places, &ways, (ends[0], ends[1]), (nearest[0], nearest[1]));
            }
        }
    }

    /// Between two places of a ring. The distance from the nearest point changes by no more than
    /// the way that is gone, so most of a ring need not be looked at.
    fn span(
        &mut self,
        places: &[Place],
        ways: &[f64],
        (from, to): (usize, usize),
        (one, other): (Nearest, Nearest),
    ) {
        if one.0 + other.0 + ways[to] - ways[from] <= 2.0 * self.limit {
            return;
        }
        if to - from <= 1 {
            self.side(places[from], places[to], one.1, other.1);
            return;
        }
        let middle = usize::midpoint(from, to);
        let nearest = self.look(places[middle]);
        self.span(places, ways, (from, middle), (one, nearest));
        self.span(places, ways, (middle, to), (nearest, other));
    }

    /// Along one side, whose ends are nearest to `one` and to `other`. Farther from both than its
    /// ends are, if at all, is where it is as far from one as from the other.
    fn side(&mut self, from: Place, to: Place, one: Held, other: Held) {
        if one.which() == other.which() {
            return;
        }
        let (p, q) = (one.at, other.at);
        let way = (to.0 - from.0, to.1 - from.1);
        let square = |a: Place, b: Place| (a.0 - b.0) * (a.0 - b.0) + (a.1 - b.1) * (a.1 - b.1);
        let gain = 2.0 * (way.0 * (q.0 - p.0) + way.1 * (q.1 - p.1));
        if gain <= 0.0 {
            return;
        }
        let part = ((square(from, q) - square(from, p)) / gain).clamp(0.0, 1.0);
        let at = (from.0 + part * way.0, from.1 + part * way.1);
        let both = square(at, p).sqrt();
        if both <= self.limit {
            return;
        }
        let (distance, third) = self.look(at);
        if distance < both - HAIR {
            self.side(from, at, one, third);
            self.side(at, to, third, other);
        }
    }

    /// Through the corners of the points' Voronoi cells, as far as the outline holds them.
    pub(super) fn within(&mut self, spots: &[Spot], sides: &Sides, bounds: (Spot, Spot)) {
        let (low, high) = (place(bounds.0), place(bounds.1));
        let (mut cell, mut spare) = (Vec::new(), Vec::new());
        for &spot in spots {
            let at = place(spot);
            // Nothing outside the outline's rectangle matters. Where any place beyond the limit will
            // do, nothing much farther from the point does either: if all of the edge is within the
            // limit, what is beyond it lies in one piece inside, and so do the places where sides of
            // cells leave this square.
            let (mut low, mut high) = (low, high);
            if !self.rises {
                let far = self.limit + 1.0;
                low = (low.0.max(at.0 - far), low.1.max(at.1 - far));
                high = (high.0.min(at.0 + far), high.1.min(at.1 + far));
            }
            if low.0 >= high.0 || low.1 >= high.1 {
                continue;
            }
            cell.clear();
            cell.extend([low, (high.0, low.1), high, (low.0, high.1)]);
            let mut farthest = greatest(&cell, at);
            let limit = self.limit * self.limit;
            self.near.around(at, |square, other| {
                // A cell without corners far enough is done with.
                if farthest <= limit {
                    return 0.0;
                }
                if square > 0.0 && square < 4.0 * farthest && cut(&cell, at, other.at, &mut spare) {
                    std::mem::swap(&mut cell, &mut spare);
                    farthest = greatest(&cell, at);
                }
                4.0 * farthest
            });
            for &corner in &cell {
                let distance = length((corner.0 - at.0, corner.1 - at.1));
                if distance > self.limit && sides.hold(Spot::nearest(corner.0, corner.1)) {
                    self.note(distance, corner);
                }
            }
        }
    }

    fn look(&mut self, at: Place) -> Nearest {
        let nearest = self.near.nearest(at);
        self.note(nearest.0, at);
        nearest
    }

    fn note(&mut self, distance: f64, at: Place) {
        if distance > self.limit {
            if self.rises {
                self.limit = distance;
                self.found.clear();
            }
            self.found.push(Far { distance, at });
        }
    }
}

/// The square of the distance to the farthest corner.
fn greatest(cell: &[Place], at: Place) -> f64 {
    let square = |&(x, y): &Place| (x - at.0) * (x - at.0) + (y - at.1) * (y - at.1);
    cell.iter().map(square).fold(0.0, f64::max)
}

/// The part of a cell that is no nearer to `other` than to `at`, into `rest`; whether that is less
/// than all of it.
fn cut(cell: &[Place], at: Place, other: Place, rest: &mut Vec<Place>) -> bool {
    let way = (other.0 - at.0, other.1 - at.1);
    let half = f64::midpoint(way.0 * way.0, way.1 * way.1);
    // How far beyond the line in the middle; negative on this side of it.
    let past = |&(x, y): &Place| (x - at.0) * way.0 + (y - at.1) * way.1 - half;
    if cell.iter().all(|corner| past(corner) <= 0.0) {
        return false;
    }
    rest.clear();
    let Some(mut from) = cell.last().copied() else { return false };
    let mut before = past(&from);
    for &to in cell {
        let after = past(&to);
        if (before < 0.0 && after > 0.0) || (before > 0.0 && after < 0.0) {
            let way = before / (before - after);
            rest.push((from.0 + way * (to.0 - from.0), from.1 + way * (to.1 - from.1)));
        }
        if after <= 0.0 {
            rest.push(to);
        }
        (from, before) = (to, after);
    }
    true
}
