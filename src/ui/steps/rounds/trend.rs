//! The refill over the looks, for the screens between rounds.

use crate::case::Case;
use crate::measure::{Moment, Span};
use crate::protocol::refill_limit;
use crate::ui::parts::{Look, Trend};
use crate::ui::steps::use_here;
use crate::ui::words::round_screens as said;
use leptos::prelude::*;

/// What is drawn.
#[derive(Clone, PartialEq)]
struct Course {
    looks: Vec<Look>,
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
        looks: readings
            .iter()
            .map(|(at, refill)| Look { at: *at, refill: refill.affected })
            .collect(),
        rounds: begun.iter().map(|at| at.since(start)).collect(),
        limit: refill_limit::guidance(person.group()),
        other,
    })
}

/// The drawing; nothing without a reading.
#[component]
pub fn RefillTrend() -> impl IntoView {
    let here = use_here();
    let drawn = Memo::new(move |_| course(&here.case()));
    move || {
        let Course { looks, rounds, limit, other } = drawn.get()?;
        let (first, last) = (looks.first()?.refill, looks.last()?.refill);
        let label = said::trend(first, last, looks.len(), rounds.len());
        Some(view! {
            <Trend
                looks
                rounds
                limit
                other=Signal::stored(other)
                last_words=Some(said::seconds_named(last))
                caption=Some(said::REFILL.to_owned())
                caption_end=other.map(said::other_side)
                label
            />
        })
    }
}
