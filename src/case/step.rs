//! Where in the way through a case stands.

use super::{Case, Clearance, Preparation};

/// The five steps of the way through.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Step {
    /// Which it is.
    Situation,
    /// Who may have the enzyme.
    Allergy,
    /// How strong, how much.
    Strength,
    /// Making it.
    Syringe,
    /// Giving it, hour by hour.
    Rounds,
}

impl Step {
    /// In order.
    pub const ALL: [Self; 5] =
        [Self::Situation, Self::Allergy, Self::Strength, Self::Syringe, Self::Rounds];
}

impl Case {
    /// The step that the case stands at.
    pub fn step(&self) -> Step {
        if self.way.is_none() {
            Step::Situation
        } else if self.clearance() != Clearance::Cleared && self.treatment.rounds().is_empty() {
            Step::Allergy
        } else {
            match &self.preparation {
                None => Step::Strength,
                Some(made) if made.next().is_some() && !self.begun_with(made) => Step::Syringe,
                Some(_) => Step::Rounds,
            }
        }
    }

    /// Whether a round was begun with a preparation. The clock of that round then goes before any
    /// syringe of it that is still to be drawn.
    fn begun_with(&self, made: &Preparation) -> bool {
        self.treatment.rounds().len() > made.rounds_begun
    }
}
