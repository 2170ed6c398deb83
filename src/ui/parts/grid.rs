//! The points of a round on an even grid, ticked off one by one.

use super::lattice::lattice;
use super::{Text, through};
use leptos::prelude::*;

/// How a point stands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum PointMark {
    /// Still to come.
    #[default]
    Todo,
    /// The one to do now.
    Next,
    /// Injected.
    Done,
    /// Left out.
    Skipped,
}

/// An even grid of points for a territory that has no outline: ticked, struck, the next one
/// ringed and numbered.
#[component]
pub fn GridDrawing(
    /// The points in the order they are taken.
    #[prop(into)]
    points: Signal<Vec<PointMark>>,
    /// Whether each point shows its number, whatever its state: to be read later.
    #[prop(optional)]
    numbered: bool,
    /// The whole drawing in words.
    #[prop(into)]
    label: Text,
) -> impl IntoView {
    let count = Memo::new(move |_| points.read().len());
    let layout = Memo::new(move |_| lattice(count.get()));
    view! {
        <figure class="drawing grid">
            <svg
                viewBox=move || {
                    let layout = layout.read();
                    format!("0 0 {} {:.1}", layout.width, layout.height)
                }
                role="img"
                aria-label=move || label.get()
            >
                <path class="way" d=move || through(&layout.read().spots) />
                {move || {
                    let layout = layout.read();
                    let points = points.read();
                    // The ring of the next point lies over its neighbours.
                    let (next, others): (Vec<_>, Vec<_>) = layout
                        .spots
                        .iter()
                        .zip(points.iter())
                        .enumerate()
                        .partition(|(_, (_, mark))| **mark == PointMark::Next);
                    others
                        .into_iter()
                        .chain(next)
                        .map(|(n, (&spot, &mark))| {
                            if numbered {
                                numbered_point(n + 1, spot, mark, layout.radius).into_any()
                            } else {
                                point(n + 1, spot, mark, layout.radius, layout.numbered).into_any()
                            }
                        })
                        .collect_view()
                }}
            </svg>
        </figure>
    }
}

/// One point: ticked, struck, ringed or numbered.
pub(in crate::ui) fn point(
    number: usize,
    (x, y): (f64, f64),
    mark: PointMark,
    radius: f64,
    numerals: bool,
) -> impl IntoView + use<> {
    let (class, radius) = match mark {
        PointMark::Todo => ("point todo", radius),
        PointMark::Next => ("point next", (radius + 3.0).max(14.0)),
        PointMark::Done => ("point done", radius),
        PointMark::Skipped => ("point skipped", radius),
    };
    let numbered = match mark {
        PointMark::Next => true,
        PointMark::Todo => numerals,
        PointMark::Done | PointMark::Skipped => false,
    };
    let r = radius * 0.5;
    let stroke = match mark {
        PointMark::Done => Some(format!(
            "M{:.1} {:.1}L{:.1} {:.1}L{:.1} {:.1}",
            x - r * 0.9,
            y + r * 0.05,
            x - r * 0.2,
            y + r * 0.75,
            x + r,
            y - r * 0.7
        )),
        PointMark::Skipped => {
            Some(format!("M{:.1} {:.1}l{:.1} {:.1}", x - r, y + r, 2.0 * r, -2.0 * r))
        }
        PointMark::Todo | PointMark::Next => None,
    };
    view! {
        <g class=class>
            <circle cx=x cy=y r=radius />
            {stroke.map(|d| view! { <path d=d /> })}
            {numbered
                .then(|| {
                    view! {
                        <text x=x y=y dy="0.36em">
                            {number}
                        </text>
                    }
                })}
        </g>
    }
}

/// The radius that a numeral of the usual size fits into.
const NUMERAL: f64 = 12.0;

/// How a mark looks where nothing is next any more.
const fn kept(mark: PointMark) -> &'static str {
    match mark {
        PointMark::Todo | PointMark::Next => "point todo",
        PointMark::Done => "point done",
        PointMark::Skipped => "point skipped",
    }
}

/// One point with its number, its state told by its shape: done is a full disc, left out a dashed
/// square, still to do an open ring.
pub(in crate::ui) fn numbered_point(
    number: usize,
    (x, y): (f64, f64),
    mark: PointMark,
    radius: f64,
) -> impl IntoView + use<> {
    let class = kept(mark);
    let shape = if mark == PointMark::Skipped {
        let side = radius * 1.8;
        let (x, y) = (x - side * 0.5, y - side * 0.5);
        view! { <rect x=x y=y width=side height=side /> }.into_any()
    } else {
        view! { <circle cx=x cy=y r=radius /> }.into_any()
    };
    let place = format!("translate({x:.1} {y:.1}) scale({:.2})", (radius / NUMERAL).min(1.0));
    view! {
        <g class=class>
            {shape} <text transform=place dy="0.36em">
                {number}
            </text>
        </g>
    }
}

/// The three shapes with what they stand for.
#[component]
pub fn PointKey(
    /// Each with its words.
    marks: Vec<(PointMark, &'static str)>,
) -> impl IntoView {
    let one = |(mark, words): (PointMark, &'static str)| {
        let shape = if mark == PointMark::Skipped {
            view! { <rect x="2" y="2" width="16" height="16" /> }.into_any()
        } else {
            view! { <circle cx="10" cy="10" r="9" /> }.into_any()
        };
        let class = kept(mark);
        view! {
            <li>
                <svg class="sign" viewBox="0 0 20 20" aria-hidden="true">
                    <g class=class>{shape}</g>
                </svg>
                {words}
            </li>
        }
    };
    view! { <ul class="point-key">{marks.into_iter().map(one).collect_view()}</ul> }
}
