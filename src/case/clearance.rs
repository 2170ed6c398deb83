//! Whether the way to the enzyme is free, by what was asked and tested.

use super::{Case, Overridden};
use crate::care::allergy::{self, Answer, Answers};
use crate::care::skin_test::Verdict;

/// Whether the way to the enzyme is free.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Clearance {
    /// Something is still to be done at the allergy step.
    Wanting,
    /// Free.
    Cleared,
    /// The case is closed to treatment.
    Barred,
}

impl Case {
    /// What is known of allergy: the answers, and a positive skin test as the reaction that it is.
    pub fn known(&self) -> Option<Answers> {
        let mut answers = self.answers.clone()?;
        if self.test_verdict() == Some(Verdict::Positive) {
            answers.previous_reaction = Answer::Yes;
        }
        Some(answers)
    }

    /// Whether the way to the enzyme is free.
    ///
    /// A reaction known before, a positive skin test among them, bars planned work whatever was
    /// overridden, and has to be weighed in urgent work. The rest is free once asked, tested, or
    /// overridden with a reason.
    pub fn clearance(&self) -> Clearance {
        let (Some((urgency, _)), Some(answers)) = (self.way, self.known()) else {
            return Clearance::Wanting;
        };
        let free = |free: bool| if free { Clearance::Cleared } else { Clearance::Wanting };
        match allergy::screen(&answers, urgency).way {
            allergy::Way::GoOn => free(self.ready_or_known()),
            allergy::Way::Weigh => {
                free(self.ready_or_known() && self.overrode(Overridden::Allergy))
            }
            allergy::Way::Closed => Clearance::Barred,
            allergy::Way::Postpone | allergy::Way::Allergist => {
                free(self.overrode(Overridden::Allergy) && self.tested_negative())
            }
            allergy::Way::Test { .. } => free(self.tested_negative()),
        }
    }

    /// Ready for a reaction, or known not to be and going on for a reason: skin may be dying.
    fn ready_or_known(&self) -> bool {
        self.ready || self.overrode(Overridden::Readiness)
    }

    fn tested_negative(&self) -> bool {
        self.ready
            && (self.test_verdict() == Some(Verdict::Negative)
                || self.overrode(Overridden::SkinTest))
    }
}
