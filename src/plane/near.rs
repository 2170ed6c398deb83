//! Points in square boxes, so that the nearest is found without looking at all.

use super::Spot;
use super::whole::{length, real, small, whole};

/// A point, and which of all it is.
#[derive(Clone, Copy, Default)]
pub(super) struct Held {
    pub(super) at: (f64, f64),
    which: u32,
}

impl Held {
    pub(super) const fn which(self) -> usize {
        self.which as usize
    }
}

/// Points by the box that they lie in, row by row.
pub(super) struct Near {
    left: f64,
    top: f64,
    side: f64,
    wide: usize,
    high: usize,
    /// Where in `held` each box begins, and where the last ends.
    starts: Vec<u32>,
    held: Vec<Held>,
}

impl Near {
    /// About one point to a box; `None` without points.
    pub(super) fn of(spots: &[Spot]) -> Option<Self> {
        let (low, high) = rectangle(spots)?;
        let (left, top) = (f64::from(low.x), f64::from(low.y));
        let (across, down) = (f64::from(high.x) - left, f64::from(high.y) - top);
        let count = real(spots.len());
        let side = (across * down / count).sqrt().max(across.max(down) / count).max(1.0);
        let (wide, high) = (whole(across / side) + 1, whole(down / side) + 1);
        let mut near = Self { left, top, side, wide, high, starts: vec![], held: vec![] };
        near.fill(spots);
        Some(near)
    }

    /// Counts how many come into each box, then puts each at its place.
    fn fill(&mut self, spots: &[Spot]) {
        let boxes: Vec<usize> = spots
            .iter()
            .map(|spot| {
                let (column, row) = self.place(f64::from(spot.x), f64::from(spot.y));
                row * self.wide + column
            })
            .collect();
        self.starts = vec![0; self.wide * self.high + 1];
        for &one in &boxes {
            self.starts[one + 1] += 1;
        }
        for one in 1..self.starts.len() {
            self.starts[one] += self.starts[one - 1];
        }
        let mut next = self.starts.clone();
        self.held = vec![Held::default(); spots.len()];
        for (which, (spot, &one)) in spots.iter().zip(&boxes).enumerate() {
            let at = (f64::from(spot.x), f64::from(spot.y));
            self.held[next[one] as usize] = Held { at, which: small(which) };
            next[one] += 1;
        }
    }

    /// The middle of the rectangle round all points.
    pub(super) fn middle(&self) -> (f64, f64) {
        let middle = |from: f64, boxes: usize| from + real(boxes) * self.side / 2.0;
        (middle(self.left, self.wide), middle(self.top, self.high))
    }

    /// The box of a place, or the one nearest to it.
    fn place(&self, x: f64, y: f64) -> (usize, usize) {
        let column = whole((x - self.left) / self.side).min(self.wide - 1);
        let row = whole((y - self.top) / self.side).min(self.high - 1);
        (column, row)
    }

    /// Looks at points from near to far, roughly. `visit` gets the square of the distance and the
    /// point, and says the square of how far it still wants to look.
    pub(super) fn around(&self, (x, y): (f64, f64), mut visit: impl FnMut(f64, Held) -> f64) {
        let (column, row) = self.place(x, y);
        let mut wanted = f64::INFINITY;
        for ring in 0.. {
            let (first, last) = (column.saturating_sub(ring), (column + ring).min(self.wide - 1));
            let (top, bottom) = (row.saturating_sub(ring), (row + ring).min(self.high - 1));
            for at in top..=bottom {
                let line = at * self.wide;
                let mut look = |from: usize, to: usize| {
                    let held =
                        self.starts[line + from] as usize..self.starts[line + to + 1] as usize;
                    for &one in &self.held[held] {
                        let (dx, dy) = (one.at.0 - x, one.at.1 - y);
                        wanted = visit(dx * dx + dy * dy, one);
                    }
                };
                if at.abs_diff(row) == ring {
                    look(first, last);
                } else {
                    if column >= ring {
                        look(first, first);
                    }
                    if column + ring < self.wide {
                        look(last, last);
                    }
                }
            }
            // How far it is to the nearest box not yet looked at.
            let mut free = f64::INFINITY;
            let line = |from: f64, boxes: usize| from + real(boxes) * self.side;
            if first > 0 {
                free = free.min(x - line(self.left, first));
            }
            if last + 1 < self.wide {
                free = free.min(line(self.left, last + 1) - x);
            }
            if top > 0 {
                free = free.min(y - line(self.top, top));
            }
            if bottom + 1 < self.high {
                free = free.min(line(self.top, bottom + 1) - y);
            }
            // Infinite when there is no such box.
            if free > 0.0 && free * free >= wanted || free == f64::INFINITY {
                return;
            }
        }
    }

    /// The nearest point, and how far it is.
    pub(super) fn nearest(&self, at: (f64, f64)) -> (f64, Held) {
        let mut best = (f64::INFINITY, Held::default());
        self.around(at, |square, held| {
            if square < best.0 {
                best = (square, held);
            }
            best.0
        });
        (best.0.sqrt(), best.1)
    }
}

/// The least rectangle that holds them all, as its least and greatest corner; `None` for none.
pub(super) fn rectangle(spots: &[Spot]) -> Option<(Spot, Spot)> {
    let &first = spots.first()?;
    let (mut low, mut high) = (first, first);
    for spot in spots {
        low = Spot { x: low.x.min(spot.x), y: low.y.min(spot.y) };
        high = Spot { x: high.x.max(spot.x), y: high.y.max(spot.y) };
    }
    Some((low, high))
}

/// A place as floats.
pub(super) fn place(spot: Spot) -> (f64, f64) {
    (f64::from(spot.x), f64::from(spot.y))
}

/// How far apart two places are, in hundredths.
pub(super) fn apart(a: Spot, b: Spot) -> f64 {
    length((f64::from(a.x) - f64::from(b.x), f64::from(a.y) - f64::from(b.y)))
}
