//! A round that a finger closed: it runs on past where it began, and both ends stick out. What sticks
//! out is no skin.

use super::hand::Place;

/// An end longer than this share of the stroke does not stick out: it is part of what was meant.
const END: f64 = 0.25;
/// Nor do ends that go round more than this share of what lies between: they are a round of their own,
/// as in an eight, and no skin is to be lost.
const ROUND: f64 = 0.125;

/// The stroke from where its end first met its beginning, to there; all of it if they do not meet.
pub fn closed(stroke: &[Place]) -> Vec<Place> {
    let Some((first, last, at)) = meeting(stroke) else { return stroke.to_vec() };
    let part = |places: Option<&[Place]>| places.unwrap_or_default().to_vec();
    let (head, tail) = (part(stroke.get(..=first)), part(stroke.get(last + 1..)));
    let ends = [head, vec![at], tail].concat();
    let between = [vec![at], part(stroke.get(first + 1..=last))].concat();
    if twice_area(&ends) > twice_area(&between) * ROUND { stroke.to_vec() } else { between }
}

/// Twice the area that these places go round.
fn twice_area(places: &[Place]) -> f64 {
    let next = places.iter().cycle().skip(1);
    places.iter().zip(next).map(|(a, b)| a.0 * b.1 - b.0 * a.1).sum::<f64>().abs()
}

/// The side of the beginning and the side of the end that meet first as the finger came round, each
/// by the place it starts from, and where.
fn meeting(stroke: &[Place]) -> Option<(usize, usize, Place)> {
    let sides: Vec<(Place, Place)> =
        stroke.iter().copied().zip(stroke.iter().copied().skip(1)).collect();
    let length = |(a, b): &(Place, Place)| (a.0 - b.0).hypot(a.1 - b.1);
    let whole: f64 = sides.iter().map(length).sum();
    let mut way = 0.0;
    let ways: Vec<f64> = sides
        .iter()
        .map(|side| {
            let before = way;
            way += length(side);
            before
        })
        .collect();
    let head = ways.iter().take_while(|way| **way <= whole * END).count();
    let tail = ways.iter().take_while(|way| **way < whole * (1.0 - END)).count();
    (tail..sides.len()).find_map(|last| {
        // Beside each other they have an end in common, which is no meeting.
        let met = (0..head.min(last.saturating_sub(1)))
            .find_map(|first| Some((first, crossing(sides[first], sides[last])?)));
        met.map(|(first, at)| (first, last, at))
    })
}

/// Where two sides cross.
fn crossing((a, b): (Place, Place), (c, d): (Place, Place)) -> Option<Place> {
    let along = |from: Place, to: Place| (to.0 - from.0, to.1 - from.1);
    let cross = |u: Place, v: Place| u.0 * v.1 - u.1 * v.0;
    let (ab, cd, ac) = (along(a, b), along(c, d), along(a, c));
    let turn = cross(ab, cd);
    let (on_ab, on_cd) = (cross(ac, cd) / turn, cross(ac, ab) / turn);
    // Neither is a number where they run alongside.
    let meet = (0.0..=1.0).contains(&on_ab) && (0.0..=1.0).contains(&on_cd);
    meet.then_some((a.0 + ab.0 * on_ab, a.1 + ab.1 * on_ab))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::TAU;

    /// A finger that goes round, a little further in with each turn.
    fn round(turns: f64, inwards: f64) -> Vec<Place> {
        let count = 200_i32;
        (0..=count)
            .map(|n| {
                let turn = f64::from(n) / f64::from(count) * turns;
                let radius = 50.0 - inwards * turn;
                (radius * (turn * TAU).cos(), radius * (turn * TAU).sin())
            })
            .collect()
    }

    fn crossings(stroke: &[Place]) -> usize {
        let next = stroke.iter().cycle().skip(1);
        let sides: Vec<_> = stroke.iter().copied().zip(next.copied()).collect();
        let apart = |a: usize, b: usize| b - a > 1 && !(a == 0 && b == sides.len() - 1);
        let pairs = (0..sides.len()).flat_map(|a| (a + 1..sides.len()).map(move |b| (a, b)));
        pairs.filter(|(a, b)| apart(*a, *b) && crossing(sides[*a], sides[*b]).is_some()).count()
    }

    #[test]
    fn the_ends_that_stick_out_are_taken_off() {
        // Comes back over its beginning, which went out to the right first.
        let mut stroke = vec![(80.0, -4.0), (60.0, -2.0)];
        stroke.extend(round(1.1, 0.0));
        assert!(crossings(&stroke) > 0);
        let closed = closed(&stroke);
        assert_eq!(crossings(&closed), 0);
        assert!(closed.len() < stroke.len() && closed.iter().all(|at| at.0 < 61.0));
    }

    #[test]
    fn a_round_that_is_not_closed_is_left_alone() {
        for turns in [0.5, 0.9] {
            let stroke = round(turns, 0.0);
            assert_eq!(closed(&stroke), stroke);
        }
        assert_eq!(closed(&[]), []);
        assert_eq!(closed(&[(1.0, 1.0)]), [(1.0, 1.0)]);
        assert_eq!(closed(&[(0.0, 0.0), (1.0, 0.0), (0.0, 0.0)]).len(), 3);
    }

    #[test]
    fn an_eight_keeps_its_crossing() {
        // Begun at the far end of one loop, whichever is the larger: each of its ends is up to a
        // quarter of the stroke.
        for larger in [0.5, 1.0, 1.5] {
            let stroke: Vec<Place> = (0..=200)
                .map(|n| f64::from(n) / 200.0 * TAU)
                .map(|turn| (50.0 * turn.cos(), 25.0 * (2.0 * turn).sin()))
                .map(|(x, y)| if x < 0.0 { (x * larger, y * larger) } else { (x, y) })
                .collect();
            assert_eq!(crossings(&closed(&stroke)), 1, "{larger}");
        }
    }
}
