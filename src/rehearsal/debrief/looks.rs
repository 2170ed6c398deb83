//! Looks: late, left out, and of one side alone.

use super::Overdue;
use super::played::Played;
use crate::measure::{Moment, Span};
use crate::protocol::simulation::LOOK_LATE;

/// Looks that came late, or are still due. What is less late than a debrief calls good is not told.
pub(super) fn overdue(played: &Played) -> Overdue {
    let interval = played.case.protocol.round_interval;
    let mut overdue = Overdue::default();
    for (number, round) in (1..).zip(played.case.treatment.rounds()) {
        let Some(finished) = round.finished else { continue };
        let due = finished.after(interval);
        let next = played.case.treatment.rounds().get(number).map(|round| round.begun);
        // A look left out is told as such, and the round after it began without.
        let until = look_after(played, number).or(next).unwrap_or(played.judged);
        let late = until.since(due);
        if late > LOOK_LATE.good {
            overdue.looks += 1;
            overdue.by = Span::millis(overdue.by.as_millis().saturating_add(late.as_millis()));
            overdue.worst = overdue.worst.max(late);
        }
    }
    overdue
}

/// Rounds begun without a look at the one before.
pub(super) fn left_out(played: &Played) -> u32 {
    let rounds = played.case.treatment.rounds().len();
    count((1..rounds).filter(|number| look_after(played, *number).is_none()).count())
}

/// Looks that timed refill on the affected side alone.
pub(super) fn one_sided(played: &Played) -> u32 {
    let refills = played.case.treatment.looks().iter().filter_map(|(_, look)| look.refill);
    count(refills.filter(|refill| refill.opposite.is_none()).count())
}

/// Whether the skin was looked at, or refill read, before the first unit.
pub(super) fn baseline(played: &Played) -> bool {
    let looked = played.case.treatment.rounds_over().first() == Some(&0);
    let first = played.case.treatment.looks().first().map(|(at, _)| *at);
    let before = first.is_some_and(|at| played.first_unit().is_none_or(|unit| at <= unit));
    let read = played.case.findings.as_ref().is_some_and(|found| found.refill.is_some());
    (looked && before) || read
}

/// The first look while just so many rounds were over.
fn look_after(played: &Played, rounds: usize) -> Option<Moment> {
    let treatment = &played.case.treatment;
    let looks = treatment.looks().iter().zip(treatment.rounds_over());
    looks.into_iter().find(|(_, over)| **over == rounds).map(|((at, _), _)| *at)
}

pub(super) fn count(number: usize) -> u32 {
    u32::try_from(number).unwrap_or(u32::MAX)
}
