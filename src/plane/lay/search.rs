//! Which turn and which offset of the lattice cover a shape best.

use super::cell::{Cell, Lie};
use super::field::{Field, Fine, Kept, ONE};
use super::shape::{Place, Shape, rectangle};
use crate::plane::Spot;
use crate::plane::reach::told;

/// So many lies are handed on to be judged by the real outline.
const FINALISTS: usize = 4;
/// How hard is searched, by the places asked about: many of them take longer, and the best of many
/// lies is then hardly better than that of a few. Turns, even over the angle after which the lattice
/// is the same again; offsets at each, along a row and across it; and how often the steps round the
/// best lies are halved.
const EFFORTS: [(usize, i32, i32, i32); 3] =
    [(150, 16, 8, 4), (350, 10, 5, 3), (usize::MAX, 8, 4, 2)];

/// How good a lie is, the least the best: how far skin is from its point, as it will be told; how
/// many points that takes; how far it is exactly.
#[derive(Clone, Copy, PartialEq, PartialOrd)]
pub(super) struct Worth {
    told: u32,
    points: u32,
    exact: f64,
}

impl Worth {
    /// Worse than any.
    pub(super) const NONE: Self = Self { told: u32::MAX, points: u32::MAX, exact: f64::INFINITY };

    /// By hundredths of a millimetre and a count.
    pub(super) fn of(exact: f64, points: u32) -> Self {
        Self { told: told(exact), points, exact }
    }

    /// What reaches farther than this is worse.
    fn most(self) -> f64 {
        f64::from(self.told) * 10.0
    }
}

/// A lie in the frame of the search.
#[derive(Clone, Copy)]
struct Try {
    turn: i32,
    moved: Fine,
    worth: Worth,
}

struct Search<'a> {
    shape: &'a mut Shape,
    cell: Cell,
    about: Place,
    kept: Kept,
    best: Vec<Try>,
}

/// The lies that cover the shape best, the best first.
pub(super) fn best_lies(shape: &mut Shape, cell: Cell) -> Vec<Lie> {
    let (low, high) = rectangle(&shape.corners);
    let about = (f64::midpoint(low.0, high.0), f64::midpoint(low.1, high.1));
    let count = shape.samples.len();
    let Some(&(_, turns, offsets, halvings)) = EFFORTS.iter().find(|effort| count <= effort.0)
    else {
        return vec![];
    };
    let mut search = Search { shape, cell, about, kept: Kept::default(), best: vec![] };
    for step in 0..turns {
        let turn = cell.last_turn() * (2 * step - turns) / turns;
        let mut field = search.field(turn);
        for place in 0..offsets * offsets {
            let part = |step: i32| step * ONE / offsets;
            search.attempt(&mut field, turn, (part(place / offsets), part(place % offsets)));
        }
    }
    let (mut turning, mut moving) = (cell.last_turn() / turns, ONE / offsets / 2);
    for _ in 0..halvings {
        for one in search.best.clone() {
            for turn in [one.turn - turning, one.turn, one.turn + turning] {
                let mut field = search.field(turn);
                let (x, y) = one.moved;
                let beside = [(x - moving, y), (x + moving, y), (x, y - moving), (x, y + moving)];
                for moved in [one.moved].into_iter().chain(beside) {
                    search.attempt(&mut field, turn, cell.within(moved));
                }
            }
        }
        turning /= 2;
        moving /= 2;
    }
    search.best.iter().map(|one| search.lie(one)).collect()
}

impl Search<'_> {
    fn field(&self, turn: i32) -> Field {
        Field::of(self.shape, self.cell, turn, self.about)
    }

    /// Judges a lie and keeps it if it is among the best.
    fn attempt(&mut self, field: &mut Field, turn: i32, moved: Fine) {
        if self.best.iter().any(|one| one.turn == turn && one.moved == moved) {
            return;
        }
        let last = self.best.get(FINALISTS - 1).map_or(Worth::NONE, |last| last.worth);
        field.keep(moved, self.cell.margin, &mut self.kept);
        self.kept.join();
        let points = self.kept.count();
        let bounds = (self.cell.reach(), last.most());
        let exact = field.farthest(self.shape, moved, &self.kept, bounds);
        if let Some(exact) = exact.filter(|_| points > 0) {
            let worth = Worth::of(exact, points);
            let place = self.best.partition_point(|one| one.worth <= worth);
            self.best.insert(place, Try { turn, moved, worth });
            self.best.truncate(FINALISTS);
        }
    }

    fn lie(&self, one: &Try) -> Lie {
        let at = self.field(one.turn).anchor(one.moved);
        Lie { turn: one.turn, at: Spot::nearest(at.0, at.1) }
    }
}
