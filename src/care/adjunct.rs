//! What is given besides the enzyme: each a recorded choice, and aspirin only once it was asked who
//! must not have it.

mod asked;

pub use asked::{Asked, Aspirin, aspirin, weekly};

use crate::measure::Moment;
use crate::protocol::adjunct::{Adjunct, Conflict, Milligrams, REGIMENS, Regimen, SETTLE};
use serde::{Deserialize, Serialize};

/// The doses that the sources have; the first is the one proposed.
pub fn regimens(adjunct: Adjunct) -> impl Iterator<Item = &'static Regimen> {
    REGIMENS.iter().filter(move |regimen| regimen.adjunct == adjunct)
}

/// Whether it is given only if a prescriber says so, whatever was asked.
pub const fn prescribed(adjunct: Adjunct) -> bool {
    matches!(adjunct, Adjunct::Clopidogrel)
}

/// Whether of two that do not go together one is to be left; the other conflicts are to be kept in
/// mind.
pub const fn excludes(conflict: Conflict) -> bool {
    match conflict {
        Conflict::WarmthWithCold
        | Conflict::AspirinWithClopidogrel
        | Conflict::NitroglycerinInReaction => true,
        Conflict::ColdBeforeReading
        | Conflict::WarmthBeforeReading
        | Conflict::AspirinWithEnzyme => false,
    }
}

/// Whether it spoils a reading of refill.
pub const fn spoils_reading(conflict: Conflict) -> bool {
    matches!(conflict, Conflict::ColdBeforeReading | Conflict::WarmthBeforeReading)
}

/// Why an adjunct was not possible.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Hindrance {
    /// Something speaks against it in this patient.
    Contraindicated,
    /// It is not at hand.
    NotAtHand,
    /// Nobody here may prescribe it.
    NotAllowed,
    /// Another reason, in the notes.
    Other,
}

/// What was chosen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Choice {
    /// It was given; how much, where it is measured.
    Given(Option<Milligrams>),
    /// It was stopped, or taken away.
    Stopped,
    /// The patient or the clinician did not want it.
    Declined,
    /// It could not be given.
    NotPossible(Hindrance),
}

/// What is recorded of adjuncts.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Act {
    /// What was asked before aspirin.
    Asked(Asked),
    /// One was chosen or not.
    Chose(Adjunct, Choice),
}

/// A choice with its moment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Chosen {
    /// When.
    pub at: Moment,
    /// Which.
    pub adjunct: Adjunct,
    /// What.
    pub choice: Choice,
}

/// What was given besides, folded from its acts.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Adjuncts {
    /// What was asked before aspirin, last.
    pub asked: Asked,
    chosen: Vec<Chosen>,
}

impl Adjuncts {
    /// Applies what happened at a moment.
    pub fn apply(&mut self, at: Moment, act: &Act) {
        match act {
            Act::Asked(asked) => self.asked = asked.clone(),
            Act::Chose(adjunct, choice) => {
                self.chosen.push(Chosen { at, adjunct: *adjunct, choice: *choice });
            }
        }
    }

    /// The choices, first to last.
    pub fn chosen(&self) -> &[Chosen] {
        &self.chosen
    }

    /// What was chosen last of one.
    pub fn last(&self, adjunct: Adjunct) -> Option<Chosen> {
        self.chosen.iter().rev().find(|chosen| chosen.adjunct == adjunct).copied()
    }

    /// When it was given, if it still counts as given.
    pub fn given(&self, adjunct: Adjunct) -> Option<Moment> {
        self.last(adjunct)
            .filter(|chosen| matches!(chosen.choice, Choice::Given(_)))
            .map(|chosen| chosen.at)
    }

    /// Those that nothing was chosen of yet.
    pub fn open(&self) -> impl Iterator<Item = Adjunct> {
        Adjunct::ALL.into_iter().filter(|adjunct| self.last(*adjunct).is_none())
    }

    /// What does not go together in what was given. `reacting` while a severe reaction runs.
    pub fn conflicts(&self, now: Moment, reacting: bool) -> Vec<Conflict> {
        let given = |adjunct| self.given(adjunct).is_some();
        // Taken away, warmth and cold still are in the skin for a while.
        let in_skin = |adjunct| {
            self.last(adjunct).is_some_and(|chosen| match chosen.choice {
                Choice::Given(_) => true,
                Choice::Stopped => now.since(chosen.at) < SETTLE,
                Choice::Declined | Choice::NotPossible(_) => false,
            })
        };
        Conflict::ALL
            .into_iter()
            .filter(|conflict| match conflict {
                Conflict::WarmthWithCold => given(Adjunct::Warmth) && given(Adjunct::Cold),
                Conflict::ColdBeforeReading => in_skin(Adjunct::Cold),
                Conflict::WarmthBeforeReading => in_skin(Adjunct::Warmth),
                Conflict::AspirinWithClopidogrel => {
                    given(Adjunct::Aspirin) && given(Adjunct::Clopidogrel)
                }
                Conflict::AspirinWithEnzyme => given(Adjunct::Aspirin),
                Conflict::NitroglycerinInReaction => reacting && given(Adjunct::Nitroglycerin),
            })
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::Span;

    #[test]
    fn a_later_choice_goes_before_an_earlier() {
        let at = |minutes| Moment::from_millis(0).after(Span::minutes(minutes));
        let mut adjuncts = Adjuncts::default();
        let chose = Act::Chose;
        assert_eq!(adjuncts.open().count(), Adjunct::ALL.len());
        adjuncts.apply(at(0), &chose(Adjunct::Cold, Choice::Given(None)));
        adjuncts.apply(at(1), &chose(Adjunct::Warmth, Choice::Given(None)));
        assert_eq!(
            adjuncts.conflicts(at(1), true),
            [Conflict::WarmthWithCold, Conflict::ColdBeforeReading, Conflict::WarmthBeforeReading]
        );
        adjuncts.apply(at(2), &chose(Adjunct::Cold, Choice::Stopped));
        adjuncts.apply(at(2), &chose(Adjunct::Warmth, Choice::Stopped));
        let settling = [Conflict::ColdBeforeReading, Conflict::WarmthBeforeReading];
        assert_eq!(adjuncts.conflicts(at(6), false), settling);
        assert!(adjuncts.conflicts(at(7), false).is_empty());
        assert_eq!(adjuncts.given(Adjunct::Warmth), None);
        assert_eq!((adjuncts.chosen().len(), adjuncts.open().count()), (4, 5));
    }

    #[test]
    fn what_does_not_go_together() {
        let conflicts = |given: &[Adjunct], reacting| {
            let mut adjuncts = Adjuncts::default();
            for adjunct in given {
                let act = Act::Chose(*adjunct, Choice::Given(None));
                adjuncts.apply(Moment::default(), &act);
            }
            adjuncts.conflicts(Moment::default(), reacting)
        };
        let both = [Adjunct::Aspirin, Adjunct::Clopidogrel];
        assert_eq!(
            conflicts(&both, false),
            [Conflict::AspirinWithClopidogrel, Conflict::AspirinWithEnzyme]
        );
        assert!(conflicts(&[Adjunct::Clopidogrel, Adjunct::Massage], false).is_empty());
        assert!(conflicts(&[Adjunct::Nitroglycerin], false).is_empty());
        assert_eq!(conflicts(&[Adjunct::Nitroglycerin], true), [Conflict::NitroglycerinInReaction]);
    }

    #[test]
    fn choices_are_kept() {
        let acts = [
            Act::Asked(Asked::default()),
            Act::Chose(Adjunct::Aspirin, Choice::Given(Some(Milligrams(300)))),
            Act::Chose(Adjunct::Oxygen, Choice::NotPossible(Hindrance::NotAtHand)),
        ];
        let text = serde_json::to_string(&acts).unwrap();
        assert_eq!(serde_json::from_str::<[Act; 3]>(&text).unwrap(), acts);
    }
}
