//! A shape as a turned lattice sees it, and which of the lattice's points are kept.

use super::cell::{Cell, Lie};
use super::shape::{Place, Shape, rectangle};
use crate::plane::whole::{real, whole};

/// Parts that columns and rows are divided into, as a power of two.
const FINE: u32 = 16;
/// A whole column or row in such parts.
pub(super) const ONE: i32 = 1 << FINE;
/// Bits of a word.
const WORD: usize = 64;
/// Farther than so many cells from the nearest point no place is told from another.
const MOST_RINGS: i32 = 8;

/// A place in the turned frame: along the rows and across them, in 65 536ths of a column and of a
/// row. In whole numbers, for that is quicker where so much is asked.
pub(super) type Fine = (i32, i32);

/// A side in the turned frame.
struct Edge {
    from: Fine,
    to: Fine,
    /// How far along the rows it goes while it crosses one.
    lean: f64,
}

/// A shape in the frame of a lattice. As long as the lattice is not moved, its points lie at whole
/// columns and rows, none of them negative.
pub(super) struct Field {
    cell: Cell,
    direction: Place,
    about: Place,
    /// Where the frame begins, in columns and rows from `about`; the row is even.
    begin: Place,
    columns: usize,
    rows: usize,
    edges: Vec<Edge>,
    samples: Vec<Fine>,
}

/// Which points of a lattice are kept, one bit each, row by row.
#[derive(Default)]
pub(super) struct Kept {
    /// Words to a row; the last of them is never full.
    words: usize,
    inside: Vec<u64>,
    near: Vec<u64>,
}

impl Field {
    /// The shape turned about a place.
    pub(super) fn of(shape: &Shape, cell: Cell, turn: i32, about: Place) -> Self {
        let direction = Lie::direction(turn);
        let turned = |&(x, y): &Place| {
            let ((cos, sin), x, y) = (direction, x - about.0, y - about.1);
            ((x * cos + y * sin) / cell.along, (y * cos - x * sin) / cell.across)
        };
        let corners: Vec<Place> = shape.corners.iter().map(turned).collect();
        let (low, high) = rectangle(&corners);
        // Room for the margin, the shift of a row, an offset of one cell, and a row to keep even.
        let room = |margin: f64| (margin + 2.0).ceil();
        let (beside, over) = (room(cell.margin / cell.along), room(cell.margin / cell.across));
        let begin = (low.0.floor() - beside, ((low.1.floor() - over) / 2.0).floor() * 2.0);
        let fine = |(x, y): Place| (as_fine(x - begin.0), as_fine(y - begin.1));
        let corners: Vec<Fine> = corners.into_iter().map(fine).collect();
        let edge = |(&from, &next): (&Fine, &usize)| {
            let to = corners[next];
            let rows = to.1 - from.1;
            let lean = if rows == 0 { 0.0 } else { f64::from(to.0 - from.0) / f64::from(rows) };
            Edge { from, to, lean }
        };
        Self {
            cell,
            direction,
            about,
            begin,
            columns: whole(high.0 - begin.0 + beside) + 2,
            rows: whole(high.1 - begin.1 + over) + 2,
            edges: corners.iter().zip(&shape.next).map(edge).collect(),
            samples: shape.samples.iter().map(turned).map(fine).collect(),
        }
    }

    /// Finds which points of the lattice moved by so much, less than a column and a row, are inside,
    /// and which no farther than `margin` from a side.
    pub(super) fn keep(&self, moved: Fine, margin: f64, kept: &mut Kept) {
        kept.words = self.columns / WORD + 1;
        for bits in [&mut kept.inside, &mut kept.near] {
            bits.clear();
            bits.resize(kept.words * self.rows, 0);
        }
        for edge in &self.edges {
            let (from, to) = (edge.from.1 - moved.1, edge.to.1 - moved.1);
            // A row that runs through an end is crossed by the side below it only.
            for row in above(from.min(to))..above(from.max(to)) {
                let gone = f64::from(row * ONE - from) * edge.lean;
                let along = edge.from.0 - moved.0 - self.shift(row) + as_whole(gone);
                kept.flip(index(row), index(above(along)));
            }
            if margin > 0.0 {
                self.keep_near(edge, moved, margin, kept);
            }
        }
        kept.spread();
    }

    /// Marks the points no farther than `margin` from a side.
    fn keep_near(&self, edge: &Edge, moved: Fine, margin: f64, kept: &mut Kept) {
        let (beside, over) =
            (as_fine(margin / self.cell.along), as_fine(margin / self.cell.across));
        let (from, to) = (edge.from, edge.to);
        let rows = (from.1.min(to.1) - moved.1 - over, from.1.max(to.1) - moved.1 + over);
        for row in above(rows.0)..=rows.1 >> FINE {
            let moved = (moved.0 + self.shift(row), moved.1);
            let columns =
                (from.0.min(to.0) - moved.0 - beside, from.0.max(to.0) - moved.0 + beside);
            for column in above(columns.0)..=columns.1 >> FINE {
                let point = (column * ONE + moved.0, row * ONE + moved.1);
                if self.to_edge(edge, point) <= margin * margin {
                    kept.mark(index(row), index(column));
                }
            }
        }
    }

    /// The square of the distance from a place of the frame to an edge, in hundredths.
    fn to_edge(&self, edge: &Edge, point: Fine) -> f64 {
        let ((dx, dy), (px, py)) = (self.way(edge.from, edge.to), self.way(edge.from, point));
        let square = dx * dx + dy * dy;
        let part = if square > 0.0 { ((px * dx + py * dy) / square).clamp(0.0, 1.0) } else { 0.0 };
        let (x, y) = (px - part * dx, py - part * dy);
        x * x + y * y
    }

    /// From one place of the frame to another, in hundredths.
    fn way(&self, from: Fine, to: Fine) -> Place {
        let part = |from: i32, to: i32, whole: f64| f64::from(to - from) * whole / f64::from(ONE);
        (part(from.0, to.0, self.cell.along), part(from.1, to.1, self.cell.across))
    }

    /// How far the points of this row are shifted.
    const fn shift(&self, row: i32) -> i32 {
        if self.cell.shifts() { (row & 1) * (ONE / 2) } else { 0 }
    }

    /// Every point of the lattice as it is that is inside or near, and whether it is inside and not
    /// near.
    pub(super) fn each(&self, kept: &Kept, mut visit: impl FnMut(Place, bool)) {
        for row in 0..self.rows {
            for column in 0..self.columns {
                let (inside, near) = kept.get(row, column);
                if inside || near {
                    let shift = if self.cell.shifts() && row % 2 == 1 { 0.5 } else { 0.0 };
                    let place = self.place((real(column) + shift, real(row)));
                    visit(place, inside && !near);
                }
            }
        }
    }

    /// Where a place of the frame lies, by columns and rows.
    fn place(&self, (along, across): Place) -> Place {
        let x = (along + self.begin.0) * self.cell.along;
        let y = (across + self.begin.1) * self.cell.across;
        let (cos, sin) = self.direction;
        (self.about.0 + x * cos - y * sin, self.about.1 + x * sin + y * cos)
    }

    /// Where a point of the lattice lies, moved by so much, that is near what was turned about.
    pub(super) fn anchor(&self, moved: Fine) -> Place {
        let part = |fine: i32| f64::from(fine) / f64::from(ONE);
        // Back to where `about` lies, which is an even row.
        self.place((part(moved.0) - self.begin.0, part(moved.1) - self.begin.1))
    }

    /// The greatest distance of a sample from its nearest kept point; `least` if none is as far,
    /// `None` if one is farther than `most`. That one is put first, for the next lattice is likely
    /// to fail at the same place; `shape` is kept in the same order.
    pub(super) fn farthest(
        &mut self,
        shape: &mut Shape,
        moved: Fine,
        kept: &Kept,
        (least, most): (f64, f64),
    ) -> Option<f64> {
        let (mut worst, most) = (self.cell.square(least), self.cell.square(most));
        for which in 0..self.samples.len() {
            let sample = self.samples[which];
            let place = (sample.0 - moved.0, sample.1 - moved.1);
            worst = worst.max(self.to_kept(place, kept, worst, most));
            if worst > most {
                self.samples[..=which].rotate_right(1);
                shape.samples[..=which].rotate_right(1);
                return None;
            }
        }
        Some(self.cell.distance(worst))
    }

    /// The square of the distance from a place to its nearest kept point, as the cell counts it;
    /// whatever is no greater than `enough`, or greater than `most`, may be told wrongly on that
    /// side.
    fn to_kept(&self, (x, y): Fine, kept: &Kept, enough: i64, most: i64) -> i64 {
        let square = |row: i32, column: i32| {
            self.cell.fine_square(x - self.shift(row) - column * ONE, y - row * ONE)
        };
        // Most have the one point next to them.
        let row = (y + ONE / 2) >> FINE;
        let column = (x - self.shift(row) + ONE / 2) >> FINE;
        if kept.window(row, column, 1) != 0 {
            let square = square(row, column);
            if square <= enough {
                return square;
            }
        }
        let row = y >> FINE;
        for ring in 1..MOST_RINGS {
            let mut best = i64::MAX;
            for at in (row - ring).max(0)..row + ring + 2 {
                let first = (((x - self.shift(at)) >> FINE) - ring).max(0);
                let mut window = kept.window(at, first, 2 * ring + 2);
                while window != 0 {
                    best = best.min(square(at, first + window.trailing_zeros().cast_signed()));
                    window &= window - 1;
                }
            }
            // Any other is farther than this.
            let seen = self.cell.fine_square(0, (ring + 1) * ONE);
            if best <= seen || seen > most {
                return best;
            }
        }
        i64::MAX
    }
}

impl Kept {
    /// How many are inside, or near.
    pub(super) fn count(&self) -> u32 {
        self.inside.iter().map(|word| word.count_ones()).sum()
    }

    /// Counts those near a side as inside.
    pub(super) fn join(&mut self) {
        for (inside, near) in self.inside.iter_mut().zip(&self.near) {
            *inside |= near;
        }
    }

    fn flip(&mut self, row: usize, column: usize) {
        self.inside[row * self.words + column / WORD] ^= 1 << (column % WORD);
    }

    fn mark(&mut self, row: usize, column: usize) {
        self.near[row * self.words + column / WORD] |= 1 << (column % WORD);
    }

    fn get(&self, row: usize, column: usize) -> (bool, bool) {
        let (word, bit) = (row * self.words + column / WORD, 1 << (column % WORD));
        (self.inside[word] & bit != 0, self.near[word] & bit != 0)
    }

    /// Each flip turns over everything to its right.
    fn spread(&mut self) {
        for row in self.inside.chunks_exact_mut(self.words) {
            let mut carry = 0;
            for word in row {
                for by in [1, 2, 4, 8, 16, 32] {
                    *word ^= *word << by;
                }
                *word ^= carry;
                carry = if *word >> (WORD - 1) == 1 { u64::MAX } else { 0 };
            }
        }
    }

    /// So many points of a row from a column on, fewer than fit a word; none past the field's end.
    fn window(&self, row: i32, column: i32, count: i32) -> u64 {
        let (place, shift) = (index(column) / WORD, index(column) % WORD);
        let word = index(row) * self.words + place;
        let mut bits = self.inside.get(word).map_or(0, |word| word >> shift);
        if shift + index(count) > WORD && place + 1 < self.words {
            bits |= self.inside.get(word + 1).map_or(0, |word| word << (WORD - shift));
        }
        bits & ((1 << count) - 1)
    }
}

/// The next whole column or row.
const fn above(fine: i32) -> i32 {
    (fine + ONE - 1) >> FINE
}

fn as_fine(whole: f64) -> i32 {
    as_whole((whole * f64::from(ONE)).floor())
}

#[expect(clippy::cast_possible_truncation, reason = "a field has far fewer than 2^15 columns")]
const fn as_whole(value: f64) -> i32 {
    value as i32
}

/// Of what is not negative in a field.
const fn index(value: i32) -> usize {
    value.cast_unsigned() as usize
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::Length;
    use crate::plane::near::{Near, place};
    use crate::plane::{Lattice, Spot, sample};

    /// On a field of more than one word to a row.
    #[test]
    fn the_farthest_sample_is_the_one_found_among_all_points() {
        let outline = sample::wavy(90, 800.0);
        let about = outline.bounds().unwrap();
        let mut shape = Shape::default();
        outline.rings().for_each(|ring| shape.add(ring.spots()));
        shape.sample(700.0);
        for lattice in [Lattice::Square, Lattice::Hexagonal] {
            let cell = Cell::of(lattice, Length::mm(10), Length::mm(2), about).unwrap();
            for turn in [0, 311, -900] {
                let mut field = Field::of(&shape, cell, turn, place(about.0));
                let mut kept = Kept::default();
                field.keep((0, 0), cell.margin, &mut kept);
                kept.join();
                assert!(kept.words > 1 && kept.count() > 3_000);
                let mut spots = vec![];
                field.each(&kept, |(x, y), _| spots.push(Spot::nearest(x, y)));
                let near = Near::of(&spots).unwrap();
                let distances = shape.samples.iter().map(|&sample| near.nearest(sample).0);
                let farthest = distances.fold(0.0, f64::max);
                let found = field.farthest(&mut shape, (0, 0), &kept, (0.0, 9_999.0)).unwrap();
                assert!((found - farthest).abs() < 1.0, "{found} {farthest}");
                // Told to be too far off if it is, and not if it is not.
                let mut within = |most| field.farthest(&mut shape, (0, 0), &kept, (0.0, most));
                assert_eq!(within(farthest - 2.0), None);
                assert!(within(farthest + 2.0).is_some_and(|again| (again - found).abs() < 0.1));
            }
        }
    }

    #[test]
    fn what_is_flipped_twice_is_outside_again_across_words() {
        let mut kept = Kept { words: 2, inside: vec![0; 4], near: vec![0; 4] };
        kept.flip(1, 3);
        kept.flip(1, 70);
        kept.spread();
        assert_eq!(kept.inside, [0, 0, u64::MAX << 3, 0b11_1111]);
        assert_eq!((kept.window(1, 60, 16), kept.window(1, 1, 4)), (0b11_1111_1111, 0b1100));
        // The next row is not looked into.
        assert_eq!((kept.window(0, 120, 16), kept.count()), (0, 67));
    }
}
