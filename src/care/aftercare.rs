//! When to see the patient again, what is found then, and when it is enough.
//!
//! | after | seen again | until |
//! |---|---|---|
//! | an occlusion | daily at first, in person; later spaced out | the three signs are back and no skin is breaking down, seen in person once the days are over in which pustules come |
//! | planned work | at two weeks | the result was seen, and is as meant |
//! | a hand-over | as the other team says | at once |
//!
//! Whatever comes back is treated as an occlusion again, at once.

mod course;
mod review;

pub use course::{Advice, Course, Holds, Planned, Rule, Standing};
pub use review::{Corrected, Damage, Review, Seen};

use super::allergy::Urgency;
use super::rounds::End;
use super::situation::Aim;
use crate::measure::Span;
use crate::protocol::{Protocol, source};

/// A visit after the treatment, counted from its end.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Visit {
    /// How long after.
    pub after: Span,
    /// What for.
    pub purpose: Purpose,
    /// Who says so; `None` for common practice or the clinic's own value.
    pub source: Option<source::Source>,
}

/// What a visit is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Purpose {
    /// In person, daily at first, until the skin is well.
    Daily,
    /// The result of planned work.
    Result,
    /// Not before then: new filler.
    NewFiller,
}

/// The visits that follow from how it ended. None after a hand-over: the other team sets them.
pub fn visits(urgency: Urgency, aim: Option<Aim>, end: End, protocol: &Protocol) -> Vec<Visit> {
    let visit = |after, purpose, source| Visit { after, purpose, source };
    match (urgency, end) {
        (_, End::HandedOver(_)) => Vec::new(),
        (Urgency::Urgent, _) => {
            vec![visit(protocol.review_daily, Purpose::Daily, Some(source::OCCLUSION_2020))]
        }
        (Urgency::Planned, _) => {
            let mut visits = vec![visit(protocol.planned_review, Purpose::Result, None)];
            if aim == Some(Aim::All) {
                visits.push(visit(protocol.new_filler, Purpose::NewFiller, None));
            }
            visits
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::care::rounds::HandOver;

    #[test]
    fn daily_after_an_occlusion_and_two_weeks_after_planned_work() {
        let protocol = Protocol::default();
        let days = |urgency, aim, end| {
            let visits = visits(urgency, aim, end, &protocol);
            visits.iter().map(|visit| visit.after.as_hours() / 24).collect::<Vec<_>>()
        };
        assert_eq!(days(Urgency::Urgent, None, End::Done), [1]);
        assert_eq!(days(Urgency::Planned, Some(Aim::All), End::Done), [14, 14]);
        assert_eq!(days(Urgency::Planned, Some(Aim::Part), End::Done), [14]);
        assert!(days(Urgency::Urgent, None, End::HandedOver(HandOver::Other)).is_empty());
    }
}
