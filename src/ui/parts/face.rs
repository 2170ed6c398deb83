//! The face in lines, and the zones in it. All in the places of [`View`]: hundredths of a
//! millimetre, so that outlines and points lie on top of it as they are.

mod lines;

use crate::protocol::face::View;
use crate::protocol::zone::Zone;
use leptos::prelude::*;
use lines::{FRONT, LEFT, LIPS, Line, MIDDLE, Pen};
use std::fmt::Write;

/// The face drawn in a few lines, as a group for a drawing whose `viewBox` is [`face_box`].
/// Decoration: the drawing that holds it says what it shows.
#[component]
pub fn FaceLines(
    /// From where it is seen.
    view: View,
) -> impl IntoView {
    let paths = Pen::ALL.map(|pen| view! { <path class=pen.class() d=drawn(view, pen) /> });
    view! { <g class="face-lines">{paths.into_iter().collect_view()}</g> }
}

/// The zones of a view with a light broken edge, those chosen with a full one, as a group for a
/// drawing whose `viewBox` is [`face_box`]. Which one was tapped is asked of [`View::shape_at`].
#[component]
pub fn ZoneShapes(
    /// From where they are seen.
    view: View,
    /// The zones that stand out, on both sides where both are seen.
    #[prop(into)]
    chosen: Signal<Vec<Zone>>,
) -> impl IntoView {
    let shapes = view.zones().into_iter().map(|(zone, ring)| {
        let mut path = String::new();
        for (n, spot) in ring.iter().enumerate() {
            // Writing to a string cannot fail.
            let _ = write!(path, "{}{} {}", if n == 0 { 'M' } else { 'L' }, spot.x, spot.y);
        }
        path.push('Z');
        let class = move || {
            if chosen.with(|chosen| chosen.contains(&zone)) { "zone chosen" } else { "zone" }
        };
        view! { <path class=class d=path /> }
    });
    view! { <g class="face-zones">{shapes.collect_view()}</g> }
}

/// The `viewBox` of a drawing that shows all of a view.
pub fn face_box(view: View) -> String {
    let (low, high) = view.bounds();
    format!("{} {} {} {}", low.x, low.y, high.x - low.x, high.y - low.y)
}

type Place = (i32, i32);

/// All that one pen draws of a view, as SVG path data.
fn drawn(view: View, pen: Pen) -> String {
    let mut path = String::new();
    for places in strokes(view, pen) {
        curve(&mut path, &places, pen.closed());
    }
    path
}

/// The strokes of one pen, on both sides.
fn strokes(view: View, pen: Pen) -> Vec<Vec<Place>> {
    let (some, others): (&[Line], &[Line]) = match view {
        View::Front => (MIDDLE, FRONT),
        View::Lips => (MIDDLE, LIPS),
        View::Left | View::Right => (LEFT, &[]),
    };
    let mut strokes = Vec::new();
    for (_, flat) in some.iter().chain(others).filter(|(other, _)| *other == pen) {
        let pair = |pair: &[i16]| match pair {
            [x, y] => Some((i32::from(*x), i32::from(*y))),
            _ => None,
        };
        let places: Vec<Place> = flat.chunks(2).filter_map(pair).collect();
        let other = || places.iter().map(|(x, y)| (-x, *y));
        match view {
            View::Left => strokes.push(places),
            View::Right => strokes.push(other().collect()),
            // From one side over the middle to the other it is one stroke.
            View::Front | View::Lips if places.last().is_some_and(|(x, _)| *x == 0) => {
                let back = other().rev().filter(|(x, _)| *x != 0);
                strokes.push(places.iter().copied().chain(back).collect());
            }
            View::Front | View::Lips if places.first().is_some_and(|(x, _)| *x == 0) => {
                let back = places.iter().skip(1).copied();
                strokes.push(other().rev().chain(back).collect());
            }
            View::Front | View::Lips => {
                strokes.push(other().collect());
                strokes.push(places);
            }
        }
    }
    strokes
}

/// Adds the smooth curve through these places, the same that runs along a zone: from each place it
/// leaves in the direction from the one before to the one after, and it ends where it begins if it
/// is closed.
fn curve(path: &mut String, places: &[Place], closed: bool) {
    let count = places.len();
    // Beyond an end there is the end.
    let at = |n: usize| match (closed, n.checked_sub(1)) {
        (true, _) => places.get((n + count - 1) % count),
        (false, None) => places.first(),
        (false, Some(n)) => places.get(n).or(places.last()),
    };
    let at = |n| at(n).copied().unwrap_or_default();
    let (x, y) = at(1);
    // Writing to a string cannot fail.
    let _ = write!(path, "M{x} {y}");
    let spans = if closed { count } else { count.saturating_sub(1) };
    for n in 1..=spans {
        let (before, from, to, after) = (at(n - 1), at(n), at(n + 1), at(n + 2));
        if from != to {
            let (x1, y1) = (from.0 + (to.0 - before.0) / 6, from.1 + (to.1 - before.1) / 6);
            let (x2, y2) = (to.0 - (after.0 - from.0) / 6, to.1 - (after.1 - from.1) / 6);
            let _ = write!(path, "C{x1} {y1} {x2} {y2} {} {}", to.0, to.1);
        }
    }
    if closed {
        path.push('Z');
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::protocol::face::landmark::{
        ALARE, CHEILION, ENDOCANTHION, EXOCANTHION, LABIALE_INFERIUS, LABIALE_SUPERIUS, MENTON,
        STOMION, SUBLABIALE, TRICHION, ZYGION,
    };

    #[test]
    fn the_lines_run_through_the_landmarks() {
        for (pen, landmark, close_up) in [
            (Pen::Fine, TRICHION, false),
            (Pen::Strong, ENDOCANTHION, false),
            (Pen::Strong, EXOCANTHION, false),
            (Pen::Line, ZYGION, false),
            (Pen::Line, ALARE, true),
            (Pen::Lip, LABIALE_SUPERIUS, true),
            (Pen::Strong, STOMION, true),
            (Pen::Strong, CHEILION, true),
            (Pen::Lip, CHEILION, true),
            (Pen::Lip, LABIALE_INFERIUS, true),
            (Pen::Fine, SUBLABIALE, true),
            (Pen::Line, MENTON, true),
        ] {
            for x in [landmark.x, -landmark.x] {
                let runs = |view| {
                    strokes(view, pen).iter().any(|stroke| stroke.contains(&(x, landmark.y)))
                };
                assert!(runs(View::Front), "{pen:?} {landmark:?}");
                assert_eq!(runs(View::Lips), close_up, "{pen:?} {landmark:?}");
            }
        }
    }

    #[test]
    fn nothing_is_drawn_outside_of_the_bounds() {
        for view in View::ALL {
            let (low, high) = view.bounds();
            for pen in Pen::ALL {
                for (x, y) in strokes(view, pen).into_iter().flatten() {
                    assert!((low.x..=high.x).contains(&x), "{view:?} {pen:?} {x} {y}");
                    assert!((low.y..=high.y).contains(&y), "{view:?} {pen:?} {x} {y}");
                }
            }
        }
    }

    #[test]
    fn the_front_is_the_same_on_both_sides() {
        for pen in Pen::ALL {
            let strokes = strokes(View::Front, pen);
            for stroke in &strokes {
                let mut other: Vec<Place> = stroke.iter().map(|(x, y)| (-x, *y)).collect();
                let same = strokes.contains(&other) || {
                    other.reverse();
                    strokes.contains(&other) || {
                        // A closed one begins elsewhere.
                        other.rotate_right(1);
                        strokes.contains(&other)
                    }
                };
                assert!(same, "{pen:?} {stroke:?}");
            }
        }
    }

    #[test]
    fn right_is_left_in_a_mirror() {
        for pen in Pen::ALL {
            let (left, right) = (strokes(View::Left, pen), strokes(View::Right, pen));
            let back: Vec<Vec<Place>> =
                right.iter().map(|s| s.iter().map(|(x, y)| (-x, *y)).collect()).collect();
            assert_eq!(left, back);
        }
        assert_eq!(face_box(View::Left), "-3000 -11900 14000 19300");
        assert_eq!(face_box(View::Right), "-11000 -11900 14000 19300");
    }

    #[test]
    fn a_curve_has_corners_and_ends() {
        let data = |places: &[Place], closed| {
            let mut path = String::new();
            curve(&mut path, places, closed);
            path
        };
        assert_eq!(data(&[(0, 0), (60, 0)], false), "M0 0C10 0 50 0 60 0");
        assert_eq!(
            data(&[(0, 0), (60, 0), (60, 0), (60, 60)], false),
            "M0 0C10 0 50 0 60 0C60 10 60 50 60 60"
        );
        assert_eq!(
            data(&[(0, 0), (60, 0), (0, 60)], true),
            "M0 0C10 -10 60 -10 60 0C60 10 10 60 0 60C-10 60 -10 10 0 0Z"
        );
        assert_eq!(data(&[], false), "M0 0");
    }
}
