//! A path made shorter by exchanging steps and by moving short pieces elsewhere.

use crate::plane::Spot;
use crate::plane::near::{Near, place};
use crate::plane::whole::{length, real, small};

/// Only so many of a point's neighbours are tried as the one beside it.
const COUNT: usize = 8;
/// At most so many points in a row are moved elsewhere.
const PIECE: usize = 3;
/// And at most so many where a path has a jump, for that takes longer.
const LONG_PIECE: usize = 20;
/// So many times as far as the nearest point is on average is a jump.
const FAR: f64 = 1.5;
/// And so many times as far as that is one that is worth another search.
const LEAP: f64 = 1.25;
/// What a jump is longer than that counts so many times more.
const JUMP: f64 = 4.0;
/// Less than this is no gain, in hundredths of a millimetre.
const GAIN: f64 = 1e-4;

/// Points, and the nearest of each, the nearest first.
pub(super) struct Neighbours {
    at: Vec<(f64, f64)>,
    nearest: Vec<u32>,
    /// Where in `nearest` those of each point begin, and where the last end.
    starts: Vec<u32>,
    /// A longer step than this is a jump.
    far: f64,
}

impl Neighbours {
    pub(super) fn of(spots: &[Spot], near: &Near) -> Self {
        let mut sum = 0.0;
        let at: Vec<(f64, f64)> = spots.iter().map(|&spot| place(spot)).collect();
        let (mut nearest, mut starts) = (Vec::with_capacity(at.len() * COUNT), vec![0]);
        let mut found: Vec<(f64, u32)> = Vec::with_capacity(COUNT + 1);
        for (which, &place) in at.iter().enumerate() {
            found.clear();
            let mut most = f64::INFINITY;
            near.around(place, |square, other| {
                if square < most && other.which() != which {
                    let after = found.iter().rposition(|one| one.0 <= square);
                    found
                        .insert(after.map_or(0, |after| after + 1), (square, small(other.which())));
                    found.truncate(COUNT);
                    if let Some(last) = found.get(COUNT - 1) {
                        most = last.0;
                    }
                }
                most
            });
            sum += found.first().map_or(0.0, |first| first.0.sqrt());
            nearest.extend(found.iter().map(|one| one.1));
            starts.push(small(nearest.len()));
        }
        let far = FAR * sum / real(at.len());
        Self { at, nearest, starts, far }
    }

    /// Where in the list those of a point are.
    fn of_point(&self, point: usize) -> std::ops::Range<usize> {
        self.starts[point] as usize..self.starts[point + 1] as usize
    }
}

/// An open path, and how long it is with what jumps count more.
pub(super) struct Path {
    pub(super) order: Vec<u32>,
    pub(super) cost: f64,
}

/// A path shortened until no exchange of two steps (2-opt) and no piece moved elsewhere (or-opt)
/// between neighbours makes it shorter.
pub(super) fn shorter(neighbours: &Neighbours, order: Vec<u32>) -> Path {
    shorter_by(neighbours, order, PIECE)
}

/// The same, by moving long pieces too.
pub(super) fn shorter_still(neighbours: &Neighbours, order: Vec<u32>) -> Path {
    shorter_by(neighbours, order, LONG_PIECE)
}

/// Whether there is a jump in it farther than to the next row but one.
pub(super) fn jumps(neighbours: &Neighbours, path: &Path) -> bool {
    path.order.windows(2).any(|pair| {
        let [from, to] = [0, 1].map(|end| neighbours.at[pair[end] as usize]);
        length((from.0 - to.0, from.1 - to.1)) > LEAP * neighbours.far
    })
}

fn shorter_by(neighbours: &Neighbours, order: Vec<u32>, piece: usize) -> Path {
    let mut round = Round::of(neighbours, order);
    // Nothing can be exchanged between fewer.
    if round.order.len() > 3 {
        round.shorten(piece);
    }
    let cost = round.length();
    Path { order: round.opened(), cost }
}

/// Which way round.
#[derive(Clone, Copy, PartialEq)]
enum Way {
    On,
    Back,
}

impl Way {
    const BOTH: [Self; 2] = [Self::On, Self::Back];

    const fn turned(self) -> Self {
        match self {
            Self::On => Self::Back,
            Self::Back => Self::On,
        }
    }
}

/// The path as a closed round: from its last point over a gap, which is as near to everything as can
/// be, to its first. So its ends need no rules of their own.
struct Round<'a> {
    neighbours: &'a Neighbours,
    /// Which point is where; the gap is the one past the last.
    order: Vec<u32>,
    place: Vec<u32>,
    /// Whether something near a point has changed since it was last looked at.
    stirred: Vec<bool>,
}

impl<'a> Round<'a> {
    fn of(neighbours: &'a Neighbours, mut order: Vec<u32>) -> Self {
        order.push(small(order.len()));
        let mut place = vec![0; order.len()];
        for (at, &which) in order.iter().enumerate() {
            place[which as usize] = small(at);
        }
        let stirred = vec![true; order.len()];
        Self { neighbours, order, place, stirred }
    }

    /// The points in order, from behind the gap.
    fn opened(mut self) -> Vec<u32> {
        let gap = self.place[self.gap()] as usize;
        self.order.rotate_left(gap);
        self.order.swap_remove(0);
        self.order.rotate_left(1);
        self.order
    }

    const fn gap(&self) -> usize {
        self.neighbours.at.len()
    }

    fn shorten(&mut self, most: usize) {
        let mut again = true;
        while again {
            again = false;
            for point in 0..self.gap() {
                while self.stirred[point] {
                    self.stirred[point] = self.exchange(point) || self.carry(point, most);
                    again |= self.stirred[point];
                }
            }
        }
    }

    fn length(&self) -> f64 {
        let steps = self.order.iter().zip(self.order.iter().cycle().skip(1));
        steps.map(|(&from, &to)| self.apart(from as usize, to as usize)).sum()
    }

    fn apart(&self, one: usize, other: usize) -> f64 {
        let Neighbours { at, far, .. } = self.neighbours;
        let (Some(one), Some(other)) = (at.get(one), at.get(other)) else { return 0.0 };
        let apart = length((one.0 - other.0, one.1 - other.1));
        apart + JUMP * (apart - far).max(0.0)
    }

    fn step(&self, point: usize, way: Way) -> usize {
        let (place, last) = (self.place[point] as usize, self.order.len() - 1);
        let next = match way {
            Way::On if place == last => 0,
            Way::On => place + 1,
            Way::Back if place == 0 => last,
            Way::Back => place - 1,
        };
        self.order[next] as usize
    }

    /// Takes out the step from a point and that from a neighbour, and joins the two and the two
    /// behind them; whether that was shorter.
    fn exchange(&mut self, a: usize) -> bool {
        for way in Way::BOTH {
            let b = self.step(a, way);
            let old = self.apart(a, b);
            for which in self.neighbours.of_point(a) {
                let c = self.neighbours.nearest[which] as usize;
                let new = self.apart(a, c);
                if new >= old {
                    break;
                }
                let d = self.step(c, way);
                if new + self.apart(b, d) < old + self.apart(c, d) - GAIN {
                    match way {
                        Way::On => self.swap(a, b, c, d),
                        Way::Back => self.swap(b, a, d, c),
                    }
                    self.stir([a, b, c, d]);
                    return true;
                }
            }
        }
        false
    }

    /// Carries a piece that begins at a point to beside one of the point's neighbours; whether that
    /// was shorter.
    fn carry(&mut self, first: usize, most: usize) -> bool {
        for way in Way::BOTH {
            let before = self.step(first, way.turned());
            let mut piece = [first; LONG_PIECE];
            for count in 1..=most {
                let last = if count == 1 { first } else { self.step(piece[count - 2], way) };
                if last == self.gap() {
                    break;
                }
                piece[count - 1] = last;
                let after = self.step(last, way);
                if after == before {
                    break;
                }
                let saved =
                    self.apart(before, first) + self.apart(last, after) - self.apart(before, after);
                if let Some((c, e, aside)) = self.berth(&piece[..count], saved) {
                    self.put((before, first, last, after), (c, e), aside == way);
                    self.stir([before, first, last, after]);
                    self.stir([c, e, c, e]);
                    return true;
                }
            }
        }
        false
    }

    /// Between which two a piece could be put for less than was saved: the first of them beside the
    /// piece's first. And on which side of the first the second is.
    fn berth(&self, piece: &[usize], saved: f64) -> Option<(usize, usize, Way)> {
        let (&first, &last) = (piece.first()?, piece.last()?);
        for which in self.neighbours.of_point(first) {
            let c = self.neighbours.nearest[which] as usize;
            let beside = self.apart(first, c);
            if beside >= saved {
                return None;
            }
            if piece.contains(&c) {
                continue;
            }
            for way in Way::BOTH {
                let e = self.step(c, way);
                let cost = beside + self.apart(last, e) - self.apart(c, e);
                if !piece.contains(&e) && cost < saved - GAIN {
                    return Some((c, e, way));
                }
            }
        }
        None
    }

    /// Puts a piece between two others: three exchanges of steps, or two where it is turned round.
    fn put(
        &mut self,
        (before, first, last, after): (usize, usize, usize, usize),
        (c, e): (usize, usize),
        straight: bool,
    ) {
        let (x, y) = if straight { (c, e) } else { (e, c) };
        self.swap(before, first, x, y);
        self.swap(before, x, after, last);
        if straight {
            self.swap(x, last, first, y);
        }
    }

    /// For the steps from `a` to `b` and from `c` to `d`, which run the same way round, those from
    /// `a` to `c` and from `b` to `d`.
    fn swap(&mut self, a: usize, b: usize, c: usize, d: usize) {
        if self.step(a, Way::On) == b {
            self.reverse(b, c);
        } else {
            debug_assert_eq!(self.step(d, Way::On), c);
            self.reverse(c, b);
        }
    }

    /// Turns round what lies from one point on to another, or all the rest, whichever is shorter:
    /// the round is then the same.
    fn reverse(&mut self, from: usize, to: usize) {
        let size = self.order.len();
        let (mut from, mut to) = (self.place[from] as usize, self.place[to] as usize);
        let mut count = (to + size - from) % size + 1;
        if 2 * count > size {
            (from, to) = ((to + 1) % size, (from + size - 1) % size);
            count = size - count;
        }
        for _ in 0..count / 2 {
            self.order.swap(from, to);
            self.place[self.order[from] as usize] = small(from);
            self.place[self.order[to] as usize] = small(to);
            from = if from + 1 == size { 0 } else { from + 1 };
            to = if to == 0 { size - 1 } else { to - 1 };
        }
    }

    fn stir(&mut self, points: [usize; 4]) {
        for point in points {
            self.stirred[point] = true;
        }
    }
}
