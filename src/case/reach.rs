//! Which cases stay in reach on a phone that locks itself: those where a patient is waiting.

use super::Case;
use crate::care::allergy::Urgency;
use crate::care::rounds::Phase;
use crate::measure::{Moment, Span};

/// An urgent case that nobody touched for longer is not being worked on. No clinical value.
const QUIET: Span = Span::hours(24);

impl Case {
    /// Whether a round or a reaction runs.
    pub fn runs(&self, now: Moment) -> bool {
        let quiet = matches!(
            self.treatment.phase(now, &self.protocol),
            Phase::Ready | Phase::Looked | Phase::Ended(_)
        );
        // A syringe that was drawn up for a treatment that is over waits for nothing.
        let prepared = self.preparation.is_some() && !self.in_follow_up();
        // A reaction may go on after the case was closed.
        self.reaction.active() || (self.open() && (!quiet || prepared))
    }

    /// Whether it stays in reach while the phone is locked: it runs, or it is urgent, or may become
    /// so, and its treatment has not ended.
    pub fn in_reach(&self, now: Moment) -> bool {
        let ended = matches!(self.treatment.phase(now, &self.protocol), Phase::Ended(_));
        let urgent = self.urgency() != Some(Urgency::Planned);
        let fresh = now.since(self.last) < QUIET;
        self.runs(now) || (self.open() && urgent && !ended && fresh)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::care::rounds::End;
    use crate::case::{CaseId, Event, Journal, Reference};
    use crate::protocol::Protocol;

    fn opened() -> (Journal, Moment) {
        let at = Moment::from_millis(1_700_000_000_000);
        let mut journal = Journal::new(CaseId::from_random(7));
        let reference = Reference::new("A").unwrap();
        let protocol = Box::new(Protocol::default());
        journal.append(at, 0, Event::Opened { reference, protocol });
        (journal, at)
    }

    #[test]
    fn a_case_just_begun_is_in_reach_for_a_day() {
        let (journal, at) = opened();
        let case = Case::of(&journal);
        assert!(case.in_reach(at) && !case.runs(at));
        assert!(case.in_reach(at.after(Span::hours(24)).before(Span::millis(1))));
        assert!(!case.in_reach(at.after(Span::hours(24))));
    }

    #[test]
    fn a_closed_case_is_not_in_reach() {
        let (mut journal, at) = opened();
        journal.append(at, 0, Event::Closed(End::Stopped));
        assert!(!Case::of(&journal).in_reach(at));
    }
}
