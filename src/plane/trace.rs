//! From strokes of a finger to an outline.

use super::contact;
use super::shapes::{How, Shapes, enclosed, from_shapes, overlay};
use super::{Outline, Spot};
use serde::{Deserialize, Serialize};

/// More strokes than this are no drawing.
const MOST_STROKES: usize = 1_000;
/// More places than this in all strokes together are no drawing.
const MOST_PLACES: usize = 20_000;
/// More meetings of one side with another than this are a scribble.
const MOST_MEETINGS: usize = 20_000;

/// What a stroke goes round.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Kind {
    /// Skin that belongs to the outline.
    Skin,
    /// Skin that does not.
    Hole,
}

/// A closed stroke of a finger: from its last place it goes back to its first.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Stroke {
    /// What it goes round.
    pub kind: Kind,
    /// The places that it runs through. It may cross itself.
    pub spots: Vec<Spot>,
}

/// An outline, and what had to be mended for it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Traced {
    /// What was drawn.
    pub outline: Outline,
    /// Where a stroke crossed or touched itself, each place once; to be shown.
    pub crossings: Vec<Spot>,
}

/// Why strokes make no outline.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Untraceable {
    /// There is no stroke.
    Empty,
    /// A stroke has fewer than three places, a place repeated at once counted once.
    TooFew,
    /// Nothing is enclosed, or holes take all of it away.
    NoArea,
    /// Too many strokes, places, or sides that meet, to be a drawing of skin.
    TooMany,
}

/// What the strokes enclose together, in the order in which they were drawn: skin is added to what
/// was there and counts once where it overlaps, a hole is taken away from what was there before it.
///
/// A stroke that crosses itself is mended by the non-zero rule: whatever it goes round, once or
/// twice, this way or that, is inside, so that both loops of a figure of eight are, and the overlap
/// where a finger closes its round. Slivers below 0.01 mm² are dropped.
///
/// Rings do not cross and patches do not overlap, but a ring may touch itself or another: in a
/// place, or along a line where two sides came nearer to each other than the hundredths that places
/// are counted in.
///
/// # Errors
///
/// When the strokes enclose nothing, or are no drawing.
pub fn trace(strokes: &[Stroke]) -> Result<Traced, Untraceable> {
    if strokes.is_empty() {
        return Err(Untraceable::Empty);
    }
    let places: usize = strokes.iter().map(|stroke| stroke.spots.len()).sum();
    if strokes.len() > MOST_STROKES || places > MOST_PLACES {
        return Err(Untraceable::TooMany);
    }
    let rounds: Vec<Vec<Spot>> = strokes.iter().map(|stroke| round(&stroke.spots)).collect();
    if rounds.iter().any(|spots| spots.len() < 3) {
        return Err(Untraceable::TooFew);
    }
    let crossings = contact::crossings(&rounds, MOST_MEETINGS).ok_or(Untraceable::TooMany)?;
    let mut drawn = Shapes::new();
    for (stroke, spots) in strokes.iter().zip(&rounds) {
        let how = match stroke.kind {
            Kind::Skin => How::Union,
            Kind::Hole => How::Difference,
        };
        drawn = overlay(&drawn, &enclosed(spots), how);
    }
    let outline = from_shapes(&drawn);
    if outline.patches().is_empty() {
        return Err(Untraceable::NoArea);
    }
    Ok(Traced { outline, crossings })
}

/// The places without repeats, none farther off than skin can be.
fn round(spots: &[Spot]) -> Vec<Spot> {
    let mut round: Vec<Spot> = spots.iter().map(|spot| Spot::new(spot.x, spot.y)).collect();
    round.dedup();
    while round.len() > 1 && round.first() == round.last() {
        round.pop();
    }
    round
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::Area;

    fn stroke(kind: Kind, spots: &[(i32, i32)]) -> Stroke {
        let spots = spots.iter().map(|(x, y)| Spot::new(x * 100, y * 100)).collect();
        Stroke { kind, spots }
    }

    fn square(kind: Kind, at: i32, side: i32) -> Stroke {
        let to = at + side;
        stroke(kind, &[(at, at), (to, at), (to, to), (at, to)])
    }

    fn area(strokes: &[Stroke]) -> Area {
        trace(strokes).unwrap().outline.area()
    }

    #[test]
    fn skin_adds_once_and_a_hole_takes_from_what_was_before() {
        let (skin, over) = (square(Kind::Skin, 0, 10), square(Kind::Skin, 5, 10));
        let hole = square(Kind::Hole, 4, 2);
        assert_eq!(area(&[skin.clone(), over.clone()]), Area::mm2(175));
        assert_eq!(area(&[skin.clone(), hole.clone()]), Area::mm2(96));
        // Skin drawn later fills a quarter of the hole again.
        assert_eq!(area(&[skin.clone(), hole.clone(), over.clone()]), Area::mm2(172));
        assert_eq!(area(&[skin.clone(), over, hole.clone()]), Area::mm2(171));
        assert_eq!(area(&[hole, skin]), Area::mm2(100));
    }

    #[test]
    fn both_loops_of_an_eight_are_skin() {
        let eight = stroke(Kind::Skin, &[(0, 0), (10, 10), (10, 0), (0, 10)]);
        let traced = trace(&[eight]).unwrap();
        assert_eq!(traced.outline.area(), Area::mm2(50));
        assert_eq!(traced.outline.patches().len(), 2);
        assert_eq!(traced.crossings, [Spot::new(500, 500)]);
    }

    #[test]
    fn a_round_closed_with_an_overlap_counts_once_whichever_way_it_runs() {
        let mut spots = vec![(0, 0), (10, 0), (10, 10), (0, 10), (0, 0), (10, 0), (10, 10)];
        assert_eq!(area(&[stroke(Kind::Skin, &spots)]), Area::mm2(100));
        spots.reverse();
        assert_eq!(area(&[stroke(Kind::Skin, &spots)]), Area::mm2(100));
    }

    #[test]
    fn what_encloses_nothing_is_refused() {
        let line = stroke(Kind::Skin, &[(0, 0), (5, 5), (9, 9)]);
        let tap = stroke(Kind::Skin, &[(1, 1), (1, 1), (1, 1), (2, 2), (1, 1)]);
        let skin = square(Kind::Skin, 0, 10);
        assert_eq!(trace(&[]), Err(Untraceable::Empty));
        assert_eq!(trace(&[skin.clone(), tap]), Err(Untraceable::TooFew));
        assert_eq!(trace(&[line]), Err(Untraceable::NoArea));
        assert_eq!(trace(&[skin, square(Kind::Hole, -1, 12)]), Err(Untraceable::NoArea));
        let sliver = [(0, 0), (9, 0), (9, 9)].map(Spot::from).to_vec();
        assert_eq!(trace(&[Stroke { kind: Kind::Skin, spots: sliver }]), Err(Untraceable::NoArea));
    }

    #[test]
    fn what_is_no_drawing_is_refused() {
        let many = |strokes: usize| vec![square(Kind::Skin, 0, 10); strokes];
        assert_eq!(trace(&many(1_001)), Err(Untraceable::TooMany));
        let long = Stroke { kind: Kind::Skin, spots: vec![Spot::new(0, 0); 20_001] };
        assert_eq!(trace(&[long]), Err(Untraceable::TooMany));
        // Each side crosses most of the others.
        let star = (0..399).map(|turn| f64::from(turn) * std::f64::consts::TAU * 199.0 / 399.0);
        let star = star.map(|turn| Spot::from_mm(50.0 * turn.cos(), 50.0 * turn.sin()).unwrap());
        let star = Stroke { kind: Kind::Skin, spots: star.collect() };
        assert_eq!(trace(&[star]), Err(Untraceable::TooMany));
    }

    #[test]
    fn a_place_out_of_the_world_is_brought_to_its_edge() {
        let corners = [(i32::MAX, i32::MAX), (i32::MIN, i32::MIN), (i32::MIN, i32::MAX)];
        let mut spots = corners.map(|(x, y)| Spot { x, y }).to_vec();
        spots.push(Spot { x: i32::MAX, y: i32::MIN });
        let traced = trace(&[Stroke { kind: Kind::Skin, spots }]).unwrap();
        assert_eq!(traced.outline.area(), Area::mm2(200_000_000));
        assert_eq!(traced.crossings, [Spot::new(0, 0)]);
    }
}
