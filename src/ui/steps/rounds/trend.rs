//! The refill over the looks, for the screens between rounds.

use crate::case::Case;
use crate::measure::{Moment, Span};
use crate::protocol::refill_limit;
use crate::ui::parts::{Reading, Trend};
use crate::ui::steps::use_here;
use crate::ui::words::round_screens as said;
use leptos::prelude::*;

/// What is drawn.
#[derive(Clone, PartialEq)]
struct Course {
    looks: Vec<(Span, Span)>,
    rounds: Vec<Span>,
    limit: Span,
    other: Option<Span>,
}

/// Readings of refill, the one from the findings first unless a look was taken before treatment.
fn course(case: &Case) -> Option<Course> {
    let start = case.opened;
    let begun: Vec<Moment> = case.treatment.rounds().iter().map(|round| round.begun).collect();
    let taken = case.treatment.looks();
    let first = begun.first().copied();
    let before = taken
        .iter()
        .any(|(at, look)| look.refill.is_some() && first.is_none_or(|first| *at <= first));
    let found = case.findings.as_ref().and_then(|found| found.refill).filter(|_| !before);
    let mut readings: Vec<(Span, crate::care::refill::Refill)> =
        found.map(|refill| (Span::ZERO, refill)).into_iter().collect();
    readings.extend(
        taken.iter().filter_map(|(at, look)| look.refill.map(|refill| (at.since(start), refill))),
    );
    let (_, last) = readings.last()?;
    let other = last.opposite;
    let person = case.findings.as_ref().map(|found| found.person).unwrap_or_default();
    Some(Course {
        looks: readings.iter().map(|(at, refill)| (*at, refill.affected)).collect(),
        rounds: begun.iter().map(|at| at.since(start)).collect(),
        limit: refill_limit::guidance(person.group()),
        other,
    })
}

/// For drawing only.
#[expect(clippy::cast_precision_loss, reason = "for drawing only")]
fn seconds(span: Span) -> f64 {
    span.as_millis() as f64 / 1_000.0
}

/// The drawing; nothing without a reading.
#[component]
pub fn RefillTrend() -> impl IntoView {
    let here = use_here();
    let drawn = Memo::new(move |_| course(&here.case()));
    move || {
        let Course { looks, rounds, limit, other } = drawn.get()?;
        let (first, last) = (looks.first()?.1, looks.last()?.1);
        let label = said::trend(first, last, looks.len(), rounds.len());
        let readings: Vec<Reading> =
            looks.iter().map(|(at, refill)| Reading { at: *at, value: seconds(*refill) }).collect();
        Some(view! {
            <Trend
                readings
                rounds
                limit=Some(seconds(limit))
                other=Signal::stored(other.map(seconds))
                last_words=Some(said::seconds_named(last))
                caption=Some(said::REFILL.to_owned())
                caption_end=other.map(said::other_side)
                label
            />
        })
    }
}
