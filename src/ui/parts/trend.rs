//! What was followed over time, one course under the other on one axis.

use super::chart::{BOTTOM, HEIGHT, LEFT, NUMERALS, RIGHT, TOP, WIDTH, chart, marks};
use super::{Axis, Course, Text, through};
use crate::measure::Span;
use leptos::prelude::*;

/// Courses over one time, each a small chart under its name and its last reading; the rounds are
/// upright lines through all of them, numbered at the top.
#[component]
pub fn Trend(
    /// The courses, from the top.
    #[prop(into)]
    courses: Signal<Vec<Course>>,
    /// When rounds were given, on the same clock.
    #[prop(into)]
    rounds: Signal<Vec<Span>>,
    /// The time that they share.
    #[prop(into)]
    axis: Signal<Axis>,
    /// The left end in words.
    #[prop(into)]
    from: Text,
    /// The right end in words.
    #[prop(into)]
    to: Text,
    /// What the numbered lines are.
    #[prop(into)]
    key: Text,
) -> impl IntoView {
    let marks = Memo::new(move |_| marks(&rounds.read(), axis.get()));
    let lines = move || {
        let line = |&(x, _): &(f64, bool)| view! { <path d=format!("M{x:.1} 0V{HEIGHT}") /> };
        marks.read().iter().map(line).collect_view()
    };
    let numerals = move || {
        let numeral = |(n, &(x, room)): (usize, &(f64, bool))| {
            room.then(|| view! { <text x=x y=NUMERALS - 4.0>{n + 1}</text> })
        };
        marks.read().iter().enumerate().map(numeral).collect_view()
    };
    view! {
        <figure class="drawing trend">
            <div class="trend-plot">
            // Behind all of it, as high as the words beside the charts make it.
            <svg
                class="trend-rounds"
                viewBox=format!("0 0 {WIDTH} {HEIGHT}")
                preserveAspectRatio="none"
                aria-hidden="true"
            >
                {lines}
            </svg>
            <svg
                class="trend-numerals"
                viewBox=format!("0 0 {WIDTH} {NUMERALS}")
                aria-hidden="true"
            >
                {numerals}
            </svg>
            {move || courses.get().into_iter().map(|one| course(&one, axis.get())).collect_view()}
            <p class="trend-time">
                <span>{move || from.get()}</span>
                <span>{move || to.get()}</span>
            </p>
            </div>
            <figcaption class="hint">{move || key.get()}</figcaption>
        </figure>
    }
}

fn course(course: &Course, axis: Axis) -> impl IntoView + use<> {
    let plot = chart(course, axis);
    let across = format!("M{LEFT} {BOTTOM}H{RIGHT}M{LEFT} {TOP}H{RIGHT}");
    let band = plot.limit.map(|y| {
        view! {
            <rect class="band" x=LEFT y=y width=RIGHT - LEFT height=BOTTOM - y />
            <path class="band-edge" d=format!("M{LEFT} {y:.1}H{RIGHT}") />
        }
    });
    let last = plot.points.len().saturating_sub(1);
    let dot = |(n, &(x, y)): (usize, &(f64, f64))| {
        view! { <circle class="dot" class:last=n == last cx=x cy=y r="4" /> }
    };
    let run = |class: &'static str| move |run: &Vec<(f64, f64)>| view! { <path class=class d=through(run) /> };
    // A square on its tip, so that it is told from a dot without its colour.
    let other = |&(x, y): &(f64, f64)| {
        view! { <path class="other-dot" d=format!("M{x:.1} {:.1}l4 4-4 4-4-4z", y - 4.0) /> }
    };
    let gap = |x: &f64| {
        let (x, y) = (x - 3.0, BOTTOM - 9.0);
        view! { <path class="gap" d=format!("M{x:.1} {y:.1}l6 6m0-6-6 6") /> }
    };
    view! {
        <div class="trend-course">
            <p class="drawing-caption">
                <span>{course.name.clone()}</span>
                <strong>{course.last.clone()}</strong>
            </p>
            <svg
                viewBox=format!("0 0 {WIDTH} {HEIGHT}")
                role="img"
                aria-label=course.label.clone()
            >
                {band}
                <path class="across" d=across />
                <text class="scale" x=LEFT - 8.0 y=TOP dy="0.36em">
                    {plot.top}
                </text>
                <text class="scale" x=LEFT - 8.0 y=BOTTOM dy="0.36em">
                    "0"
                </text>
                {plot.other_lines.iter().map(run("other")).collect_view()}
                {plot.others.iter().map(other).collect_view()}
                {plot.lines.iter().map(run("line")).collect_view()}
                {plot.gaps.iter().map(gap).collect_view()}
                {plot.points.iter().enumerate().map(dot).collect_view()}
            </svg>
        </div>
    }
}
