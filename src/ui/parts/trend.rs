//! Readings over time: the refill against its limit, the skin without blood.

use super::chart::{BOTTOM, HEIGHT, LEFT, RIGHT, Reading, TOP, WIDTH, chart};
use super::{MaybeText, Text, through};
use crate::measure::Span;
use leptos::prelude::*;

/// Readings over time: each a dot, rounds as upright lines, a band in which they are in order.
#[component]
pub fn Trend(
    /// The readings, earliest first.
    #[prop(into)]
    readings: Signal<Vec<Reading>>,
    /// When rounds were given, on the same clock.
    #[prop(optional, into)]
    rounds: Signal<Vec<Span>>,
    /// The greatest reading that is in order, where there is such a thing.
    #[prop(optional, into)]
    limit: Signal<Option<f64>>,
    /// What they are compared with, as a broken line.
    #[prop(optional, into)]
    other: Signal<Option<f64>>,
    /// The last reading in words, at its dot.
    #[prop(optional, into)]
    last_words: MaybeText,
    /// Words above, at the left.
    #[prop(optional, into)]
    caption: MaybeText,
    /// Words above, at the right.
    #[prop(optional, into)]
    caption_end: MaybeText,
    /// The whole drawing in words.
    #[prop(into)]
    label: Text,
) -> impl IntoView {
    let plot =
        Memo::new(move |_| chart(&readings.read(), &rounds.read(), limit.get(), other.get()));
    view! {
        <figure class="drawing trend">
            <figcaption class="drawing-caption">
                <span>{move || caption.get()}</span>
                <span>{move || caption_end.get()}</span>
            </figcaption>
            <svg viewBox=format!("0 0 {WIDTH} {HEIGHT}") role="img" aria-label=move || label.get()>
                {move || {
                    let plot = plot.get();
                    let line = through(&plot.points);
                    let last = plot.points.len().saturating_sub(1);
                    view! {
                        {plot
                            .limit
                            .map(|y| {
                                view! {
                                    <rect
                                        class="band"
                                        x=LEFT
                                        y=y
                                        width=RIGHT - LEFT
                                        height=BOTTOM - y
                                    />
                                    <path class="band-edge" d=format!("M{LEFT} {y:.1}H{RIGHT}") />
                                }
                            })}
                        {plot.lines.iter().map(|&(y, value)| line_across(y, value)).collect_view()}
                        {plot
                            .other
                            .map(|y| {
                                view! { <path class="other" d=format!("M{LEFT} {y:.1}H{RIGHT}") /> }
                            })}
                        {plot
                            .rounds
                            .iter()
                            .enumerate()
                            .map(|(n, &x)| {
                                view! {
                                    <path class="round" d=format!("M{x:.1} {TOP}V{BOTTOM}") />
                                    <text class="round-words" x=x y=TOP - 6.0>
                                        {n + 1}
                                    </text>
                                }
                            })
                            .collect_view()}
                        <path class="line" d=line />
                        {plot
                            .points
                            .iter()
                            .enumerate()
                            .map(|(n, &(x, y))| {
                                view! { <circle class="dot" class:last=n == last cx=x cy=y r="4" /> }
                            })
                            .collect_view()}
                        {plot
                            .points
                            .last()
                            .and_then(|&(x, y)| {
                                let words = last_words.get()?;
                                let y = if y - 12.0 < TOP { y + 22.0 } else { y - 12.0 };
                                Some(
                                    view! {
                                        <text class="last-words" x=x.clamp(60.0, RIGHT) y=y>
                                            {words}
                                        </text>
                                    },
                                )
                            })}
                        <text class="time first" x=LEFT y=HEIGHT - 5.0>
                            {hours(Span::ZERO)}
                        </text>
                        <text class="time end" x=RIGHT y=HEIGHT - 5.0>
                            {hours(plot.end)}
                        </text>
                    }
                }}
            </svg>
        </figure>
    }
}

fn line_across(y: f64, value: u64) -> impl IntoView {
    view! {
        <path class="across" d=format!("M{LEFT} {y:.1}H{RIGHT}") />
        <text class="seconds" x=LEFT - 8.0 y=y dy="0.36em">
            {value}
        </text>
    }
}

/// Hours and minutes, as on a watch.
fn hours(span: Span) -> String {
    format!("{}:{:02}", span.as_hours(), span.as_minutes() % 60)
}
