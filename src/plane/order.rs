//! The way from point to point.

mod better;

use super::Spot;
use super::near::{Near, apart, place};
use super::whole::{length, small, sort};
use crate::measure::Length;
use better::Neighbours;

/// Hundredths of a millimetre in a tenth.
const PER_TENTH: f64 = 10.0;

/// The points in the order of a short path through all of them, one by one and without long jumps.
/// It begins at whichever of its ends is nearer to the top left.
///
/// Never longer than going row by row, or always to the nearest point left: both are bettered, a
/// jump counting for more than its length, and the better of them is taken. Of 720 grids over wavy
/// outlines two had a step of more than 1.8 spacings left, of 2.2 and of 3.2.
pub fn in_order(spots: Vec<Spot>) -> Vec<Spot> {
    let Some(near) = Near::of(&spots) else { return spots };
    let neighbours = Neighbours::of(&spots, &near);
    let [rows, columns] = row_by_row(&spots, &near);
    let starts = [rows, nearest_first(&spots, &near)];
    let bettered = |start: &Vec<u32>| better::shorter(&neighbours, start.clone());
    let [rows, nearest] = starts.each_ref().map(bettered);
    let (mut best, other) =
        if nearest.cost < rows.cost { (nearest, rows) } else { (rows, nearest) };
    // As long as there is a jump: harder, then from the other, then from rows the other way.
    if better::jumps(&neighbours, &best) {
        best = better::shorter_still(&neighbours, best.order);
        for order in [other.order, columns] {
            if better::jumps(&neighbours, &best) {
                let other = better::shorter_still(&neighbours, order);
                best = if other.cost < best.cost { other } else { best };
            }
        }
    }
    let mut path = taken(&spots, &best.order);
    for start in starts {
        let start = taken(&spots, &start);
        if along(&start) < along(&path) {
            path = start;
        }
    }
    let corner = |spot: Option<&Spot>| spot.copied().map(from_corner);
    if corner(path.last()) < corner(path.first()) {
        path.reverse();
    }
    path
}

/// The points row by row, to and fro: along the line from the middle point to its neighbour or
/// across it, whichever is shorter.
pub fn rows(spots: Vec<Spot>) -> Vec<Spot> {
    let Some(near) = Near::of(&spots) else { return spots };
    let [rows, _] = row_by_row(&spots, &near);
    taken(&spots, &rows)
}

/// The points from the one nearest to the top left, each time on to the nearest that is left.
pub fn nearest_neighbour(spots: Vec<Spot>) -> Vec<Spot> {
    let Some(near) = Near::of(&spots) else { return spots };
    taken(&spots, &nearest_first(&spots, &near))
}

/// How long the whole path is, to the nearest tenth of a millimetre.
pub fn path_length(spots: &[Spot]) -> Length {
    tenths(along(spots))
}

/// The longest way from one point to the next, to the nearest tenth of a millimetre.
pub fn longest_step(spots: &[Spot]) -> Length {
    tenths(steps(spots).fold(0.0, f64::max))
}

fn taken(spots: &[Spot], order: &[u32]) -> Vec<Spot> {
    order.iter().map(|&which| spots[which as usize]).collect()
}

/// How far from the top left, aslant; of two as far, the upper one first.
const fn from_corner(spot: Spot) -> (i32, i32) {
    (spot.x + spot.y, spot.y)
}

/// The rows of both directions, those first that make the shorter path.
fn row_by_row(spots: &[Spot], near: &Near) -> [Vec<u32>; 2] {
    let middle = near.nearest(near.middle()).1.at;
    let mut best = (f64::INFINITY, (1.0, 0.0));
    near.around(middle, |square, other| {
        if square > 0.0 && square < best.0 {
            best = (square, (other.at.0 - middle.0, other.at.1 - middle.1));
        }
        best.0
    });
    let far = length(best.1);
    let (dx, dy) = (best.1.0 / far, best.1.1 / far);
    // Points farther aside than this are in another row.
    let aside = far / 2.0;
    let (one, other) = (to_and_fro(spots, (dx, dy), aside), to_and_fro(spots, (-dy, dx), aside));
    let shorter = along(&taken(spots, &other)) < along(&taken(spots, &one));
    if shorter { [other, one] } else { [one, other] }
}

/// Rows along a direction, every other one backwards: from the top left if may be.
fn to_and_fro(spots: &[Spot], way: (f64, f64), aside: f64) -> Vec<u32> {
    let turned = |(x, y): (f64, f64), backwards: bool| if backwards { (-x, -y) } else { (x, y) };
    let (along, across) = (way, (-way.1, way.0));
    let (ax, ay) = turned(along, along.0 < 0.0 || along.0 == 0.0 && along.1 < 0.0);
    let (cx, cy) = turned(across, across.1 < 0.0 || across.1 == 0.0 && across.0 < 0.0);
    let mut placed: Vec<(f64, u32)> = Vec::with_capacity(spots.len());
    for (which, &spot) in spots.iter().enumerate() {
        let (x, y) = place(spot);
        placed.push((x * cx + y * cy, small(which)));
    }
    sort(&mut placed);
    let (mut begin, mut forth) = (0, 1.0);
    while let Some(&(first, _)) = placed.get(begin) {
        let count = placed[begin..].iter().take_while(|other| other.0 <= first + aside).count();
        let row = &mut placed[begin..begin + count];
        for one in row.iter_mut() {
            let (x, y) = place(spots[one.1 as usize]);
            one.0 = forth * (x * ax + y * ay);
        }
        sort(row);
        (begin, forth) = (begin + count, -forth);
    }
    placed.into_iter().map(|one| one.1).collect()
}

fn nearest_first(spots: &[Spot], near: &Near) -> Vec<u32> {
    let mut left = vec![true; spots.len()];
    let mut next = (0..spots.len()).min_by_key(|&which| from_corner(spots[which]));
    let mut order = Vec::with_capacity(spots.len());
    while let Some(which) = next.take() {
        left[which] = false;
        order.push(small(which));
        if order.len() < spots.len() {
            let mut best = f64::INFINITY;
            near.around(place(spots[which]), |square, other| {
                if left[other.which()] && square < best {
                    (best, next) = (square, Some(other.which()));
                }
                best
            });
        }
    }
    order
}

fn along(spots: &[Spot]) -> f64 {
    steps(spots).sum()
}

fn steps(spots: &[Spot]) -> impl Iterator<Item = f64> {
    spots.iter().zip(spots.iter().skip(1)).map(|(&from, &to)| apart(from, to))
}

fn tenths(hundredths: f64) -> Length {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "saturates")]
    let tenths = (hundredths / PER_TENTH + 0.5) as u64;
    Length::tenths(tenths)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plane::{Lattice, lay, sample};

    #[test]
    fn a_path_through_bays_has_no_jump() {
        for step in 10..60_u32 {
            let outline = sample::wavy(60, f64::from(step) * 4.7);
            for lattice in [Lattice::Square, Lattice::Hexagonal] {
                for margin in [Length::ZERO, Length::tenths(25)] {
                    let grid = lay(&outline, lattice, Length::mm(10), margin);
                    let longest = longest_step(grid.spots());
                    assert!(longest <= Length::mm(18), "{longest}, {step} {lattice:?} {margin}");
                }
            }
        }
    }
}
