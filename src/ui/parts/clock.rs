//! Time that is left, or that is over, and how far along something is.

use super::{MaybeText, Text};
use crate::measure::Span;
use leptos::prelude::*;

/// The pieces of a span as a clock shows it: minutes and seconds, with hours before them from one
/// hour on.
fn pieces(span: Span) -> Vec<String> {
    let (hours, minutes, seconds) =
        (span.as_hours(), span.as_minutes() % 60, span.as_seconds() % 60);
    if hours > 0 {
        vec![hours.to_string(), format!("{minutes:02}"), format!("{seconds:02}")]
    } else {
        vec![minutes.to_string(), format!("{seconds:02}")]
    }
}

/// Large numerals that count down or, once over, up.
#[component]
pub fn Clock(
    /// The time left or, when overdue, the time since. Parts of a second are cut off.
    #[prop(into)]
    span: Signal<Span>,
    /// Its name for a screen reader.
    #[prop(into)]
    label: Text,
    /// Whether it is over.
    #[prop(optional, into)]
    overdue: Signal<bool>,
    /// The word before the numerals when it is over.
    #[prop(optional, into)]
    overdue_word: MaybeText,
    /// Whether it shares the screen with something larger.
    #[prop(optional)]
    small: bool,
) -> impl IntoView {
    // Ticks come several times a second; the page changes only with the numerals.
    let shown = Memo::new(move |_| pieces(span.get()));
    view! {
        <div
            class="clock"
            class:overdue=move || overdue.get()
            class:long=move || shown.with(|pieces| pieces.len() > 2)
            class:small=small
            role="timer"
            aria-live="off"
            aria-label=move || label.get()
        >
            {move || {
                overdue
                    .get()
                    .then(|| overdue_word.get())
                    .flatten()
                    .map(|word| view! { <span class="clock-word">{word}</span> })
            }}
            <span class="clock-face">
                {move || {
                    shown
                        .get()
                        .into_iter()
                        .enumerate()
                        .map(|(n, piece)| {
                            view! {
                                {(n > 0).then(|| view! { <span class="clock-colon">":"</span> })}
                                {piece}
                            }
                        })
                        .collect_view()
                }}
            </span>
        </div>
    }
}

/// How far along something is.
#[component]
pub fn Bar(
    /// 0 to 1.
    #[prop(into)]
    fraction: Signal<f64>,
    /// What it measures, for a screen reader.
    #[prop(into)]
    label: Text,
) -> impl IntoView {
    view! {
        <progress
            class="bar"
            max="1"
            value=move || format!("{:.4}", fraction.get().clamp(0.0, 1.0))
            aria-label=move || label.get()
        ></progress>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn face(span: Span) -> String {
        pieces(span).join(":")
    }

    #[test]
    fn hours_show_only_when_there_are_any() {
        assert_eq!(face(Span::ZERO), "0:00");
        assert_eq!(face(Span::millis(2_530_999)), "42:10");
        assert_eq!(face(Span::millis(3_599_999)), "59:59");
        assert_eq!(face(Span::hours(1)), "1:00:00");
        assert_eq!(face(Span::seconds(4_500 + 7)), "1:15:07");
    }
}
