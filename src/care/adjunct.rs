//! What is given besides the enzyme: each a recorded choice, and aspirin only once it was asked who
//! must not have it.

use super::allergy::Answer;
use super::refill::{Person, Sex};
use crate::measure::Moment;
use crate::protocol::adjunct::{
    ASPIRIN_FROM_YEARS, Adjunct, Concern, Conflict, METHOTREXATE_WEEKLY, Milligrams, REGIMENS,
    Regimen, SETTLE, Weight,
};
use serde::{Deserialize, Serialize};

/// What was answered before aspirin. What is not in it was not asked.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Asked(Vec<(Concern, Answer)>);

impl Asked {
    /// What need not be asked because it is known already: the age, and that a man is not pregnant.
    pub fn knowing(person: Person) -> Self {
        let mut asked = Self::default();
        if let Some(years) = person.years {
            let young = years < ASPIRIN_FROM_YEARS;
            asked.put(Concern::Young, if young { Answer::Yes } else { Answer::No });
        }
        if person.sex == Some(Sex::Male) {
            for concern in [Concern::LatePregnancy, Concern::Pregnancy, Concern::Breastfeeding] {
                asked.put(concern, Answer::No);
            }
        }
        asked
    }

    /// Takes an answer; a later one goes before an earlier.
    pub fn put(&mut self, concern: Concern, answer: Answer) {
        self.0.retain(|(other, _)| *other != concern);
        self.0.push((concern, answer));
    }

    /// Takes the dose of methotrexate in a week for an answer.
    pub fn methotrexate(&mut self, weekly: Milligrams) {
        let much = weekly >= METHOTREXATE_WEEKLY;
        self.put(Concern::Methotrexate, if much { Answer::Yes } else { Answer::No });
    }

    /// The answer; unknown if it was not asked.
    pub fn get(&self, concern: Concern) -> Answer {
        let found = self.0.iter().rev().find(|(other, _)| *other == concern);
        found.map_or(Answer::Unknown, |(_, answer)| *answer)
    }

    fn with(&self, answer: Answer, weight: Weight) -> Vec<Concern> {
        Concern::ALL
            .into_iter()
            .filter(|concern| self.get(*concern) == answer && concern.weight().0 == weight)
            .collect()
    }
}

/// Whether aspirin may be given.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Aspirin {
    /// Everything was asked and nothing speaks against it.
    MayBeGiven,
    /// These are to be asked first.
    AskFirst(Vec<Concern>),
    /// These are for a prescriber to weigh first.
    Prescriber(Vec<Concern>),
    /// These forbid it.
    MustNot(Vec<Concern>),
}

/// Whether aspirin may be given, and why not.
///
/// What forbids it goes before what is not asked yet, and that before what a prescriber weighs: one
/// reason against it is enough, while a doubt is not settled by asking a prescriber half of it.
pub fn aspirin(asked: &Asked) -> Aspirin {
    let forbidding = asked.with(Answer::Yes, Weight::Forbids);
    if !forbidding.is_empty() {
        return Aspirin::MustNot(forbidding);
    }
    let unknown: Vec<Concern> = Concern::ALL
        .into_iter()
        .filter(|concern| asked.get(*concern) == Answer::Unknown)
        .filter(|concern| !implied(asked, *concern))
        .collect();
    if !unknown.is_empty() {
        return Aspirin::AskFirst(unknown);
    }
    let weighing = asked.with(Answer::Yes, Weight::Asks);
    if weighing.is_empty() { Aspirin::MayBeGiven } else { Aspirin::Prescriber(weighing) }
}

/// Nobody who is not pregnant is late in a pregnancy.
fn implied(asked: &Asked, concern: Concern) -> bool {
    concern == Concern::LatePregnancy && asked.get(Concern::Pregnancy) == Answer::No
}

/// The doses that the sources have; the first is the one proposed.
pub fn regimens(adjunct: Adjunct) -> impl Iterator<Item = &'static Regimen> {
    REGIMENS.iter().filter(move |regimen| regimen.adjunct == adjunct)
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

    fn all(answer: Answer) -> Asked {
        let mut asked = Asked::default();
        for concern in Concern::ALL {
            asked.put(concern, answer);
        }
        asked
    }

    #[test]
    fn nothing_is_given_unasked() {
        assert_eq!(aspirin(&Asked::default()), Aspirin::AskFirst(Concern::ALL.to_vec()));
        assert_eq!(aspirin(&all(Answer::No)), Aspirin::MayBeGiven);
        for concern in Concern::ALL {
            let mut asked = all(Answer::No);
            asked.put(concern, Answer::Unknown);
            let left = if concern == Concern::LatePregnancy {
                Aspirin::MayBeGiven
            } else {
                Aspirin::AskFirst(vec![concern])
            };
            assert_eq!(aspirin(&asked), left, "{concern:?}");
        }
    }

    #[test]
    fn each_yes_forbids_it_or_is_weighed() {
        for concern in Concern::ALL {
            let mut asked = all(Answer::No);
            asked.put(concern, Answer::Yes);
            let expected = match concern.weight().0 {
                Weight::Forbids => Aspirin::MustNot(vec![concern]),
                Weight::Asks => Aspirin::Prescriber(vec![concern]),
            };
            assert_eq!(aspirin(&asked), expected);
        }
        // One reason against it is enough, whatever else is not known.
        let mut asked = Asked::default();
        asked.put(Concern::Ulcer, Answer::Yes);
        assert_eq!(aspirin(&asked), Aspirin::MustNot(vec![Concern::Ulcer]));
        // And what is not known goes before what is weighed.
        let mut asked = all(Answer::Yes);
        for concern in Concern::ALL.iter().filter(|c| c.weight().0 == Weight::Forbids) {
            asked.put(*concern, Answer::No);
        }
        asked.put(Concern::Bleeding, Answer::Unknown);
        assert_eq!(aspirin(&asked), Aspirin::AskFirst(vec![Concern::Bleeding]));
    }

    #[test]
    fn what_is_known_is_not_asked() {
        let young = |years| Asked::knowing(Person { years: Some(years), sex: None });
        assert_eq!(aspirin(&young(15)), Aspirin::MustNot(vec![Concern::Young]));
        assert_eq!(young(16).get(Concern::Young), Answer::No);
        assert_eq!(young(16).get(Concern::Pregnancy), Answer::Unknown);
        let man = Asked::knowing(Person { years: None, sex: Some(Sex::Male) });
        assert_eq!(man.get(Concern::LatePregnancy), Answer::No);
        assert_eq!(man.get(Concern::Young), Answer::Unknown);
        let mut asked = all(Answer::No);
        asked.methotrexate(Milligrams(14));
        assert_eq!(aspirin(&asked), Aspirin::MayBeGiven);
        asked.methotrexate(Milligrams(15));
        assert_eq!(aspirin(&asked), Aspirin::MustNot(vec![Concern::Methotrexate]));
    }

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
            Act::Asked(all(Answer::No)),
            Act::Chose(Adjunct::Aspirin, Choice::Given(Some(Milligrams(300)))),
            Act::Chose(Adjunct::Oxygen, Choice::NotPossible(Hindrance::NotAtHand)),
        ];
        let text = serde_json::to_string(&acts).unwrap();
        assert_eq!(serde_json::from_str::<[Act; 3]>(&text).unwrap(), acts);
    }
}
