//! What is asked before aspirin, and what it comes to.

use crate::care::allergy::{Answer, Answers, Medicine, Pregnancy};
use crate::care::refill::{Person, Sex};
use crate::protocol::adjunct::{
    ASPIRIN_FROM_YEARS, Concern, METHOTREXATE_WEEKLY, Milligrams, Weight,
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

    /// The same with what the allergy answers tell: a pregnancy, nursing, heparin. That somebody is
    /// not on heparin does not tell that there is no other anticoagulant.
    #[must_use]
    pub fn telling(mut self, answers: &Answers) -> Self {
        match answers.pregnancy {
            Pregnancy::Neither => {
                for concern in [Concern::LatePregnancy, Concern::Pregnancy, Concern::Breastfeeding]
                {
                    self.put(concern, Answer::No);
                }
            }
            Pregnancy::Pregnant => self.put(Concern::Pregnancy, Answer::Yes),
            Pregnancy::Breastfeeding => self.put(Concern::Breastfeeding, Answer::Yes),
            Pregnancy::Unknown => {}
        }
        if answers.medicines.contains(&Medicine::Heparin) {
            self.put(Concern::Anticoagulant, Answer::Yes);
        }
        self
    }

    /// These answers, with those of `other` in place of them where it has any.
    #[must_use]
    pub fn under(mut self, other: &Self) -> Self {
        for (concern, answer) in &other.0 {
            if *answer != Answer::Unknown {
                self.put(*concern, *answer);
            }
        }
        self
    }

    /// Takes an answer; a later one goes before an earlier. Who is said not to be pregnant after all
    /// is asked anew how far on she is, should she be.
    pub fn put(&mut self, concern: Concern, answer: Answer) {
        let not_pregnant = concern == Concern::Pregnancy && answer == Answer::No;
        let late = |(other, answer): &(Concern, Answer)| {
            *other == Concern::LatePregnancy && *answer != Answer::No
        };
        self.0.retain(|told| told.0 != concern && !(not_pregnant && late(told)));
        self.0.push((concern, answer));
    }

    /// Takes the dose of methotrexate in a week for an answer.
    pub fn methotrexate(&mut self, weekly: Milligrams) {
        let much = weekly >= METHOTREXATE_WEEKLY;
        self.put(Concern::Methotrexate, if much { Answer::Yes } else { Answer::No });
    }

    /// The answer; unknown if it was not asked. Nobody who is not pregnant is late in a pregnancy.
    pub fn get(&self, concern: Concern) -> Answer {
        let answered = |concern| {
            let found = self.0.iter().rev().find(|(other, _)| *other == concern);
            found.map_or(Answer::Unknown, |(_, answer)| *answer)
        };
        match answered(concern) {
            Answer::Unknown
                if concern == Concern::LatePregnancy
                    && answered(Concern::Pregnancy) == Answer::No =>
            {
                Answer::No
            }
            answer => answer,
        }
    }

    fn with(&self, answer: Answer, weight: Weight) -> Vec<Concern> {
        Concern::ALL
            .into_iter()
            .filter(|concern| self.get(*concern) == answer && concern.weight().0 == weight)
            .collect()
    }
}

/// Milligrams in a week as they are typed, cut to whole ones: from which dose on aspirin is not given
/// does not hang on what is cut. `None` for what is no such number, or may be two.
pub fn weekly(text: &str) -> Option<Milligrams> {
    /// More decimals than this may have been meant as thousands.
    const DECIMALS: usize = 2;
    let text = text.trim();
    let (whole, part) = text.split_once(['.', ',']).unwrap_or((text, ""));
    let fine = part.len() <= DECIMALS && part.bytes().all(|digit| digit.is_ascii_digit());
    if fine { whole.parse().ok().map(Milligrams) } else { None }
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
    let unknown: Vec<Concern> =
        Concern::ALL.into_iter().filter(|concern| asked.get(*concern) == Answer::Unknown).collect();
    if !unknown.is_empty() {
        return Aspirin::AskFirst(unknown);
    }
    let weighing = asked.with(Answer::Yes, Weight::Asks);
    if weighing.is_empty() { Aspirin::MayBeGiven } else { Aspirin::Prescriber(weighing) }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn all(answer: Answer) -> Asked {
        let mut asked = Asked::default();
        for concern in Concern::ALL {
            asked.put(concern, answer);
        }
        asked
    }

    #[test]
    fn a_slip_about_a_pregnancy_does_not_answer_how_far_it_is() {
        let mut asked = all(Answer::No);
        for (concern, answer) in [
            (Concern::Pregnancy, Answer::Yes),
            (Concern::LatePregnancy, Answer::Yes),
            (Concern::Pregnancy, Answer::No),
        ] {
            asked.put(concern, answer);
        }
        assert_eq!(aspirin(&asked), Aspirin::MayBeGiven);
        asked.put(Concern::Pregnancy, Answer::Yes);
        assert_eq!(aspirin(&asked), Aspirin::AskFirst(vec![Concern::LatePregnancy]));
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
        let typed = ["12.5", " 15 ", "14,9", "1,500", "", "much"].map(weekly);
        let read = |mg| Some(Milligrams(mg));
        assert_eq!(typed, [read(12), read(15), read(14), None, None, None]);
    }

    #[test]
    fn the_allergy_answers_tell_some_of_it() {
        let telling = |answers: Answers| Asked::default().telling(&answers);
        let of = |pregnancy| telling(Answers { pregnancy, ..Answers::default() });
        let neither = of(Pregnancy::Neither);
        assert_eq!(neither.get(Concern::Pregnancy), Answer::No);
        assert_eq!(neither.get(Concern::Breastfeeding), Answer::No);
        assert!(!matches!(aspirin(&neither), Aspirin::AskFirst(open)
            if open.contains(&Concern::LatePregnancy)));
        let pregnant = of(Pregnancy::Pregnant);
        assert_eq!(pregnant.get(Concern::Pregnancy), Answer::Yes);
        assert_eq!(pregnant.get(Concern::LatePregnancy), Answer::Unknown);
        assert_eq!(of(Pregnancy::Unknown), Asked::default());
        let heparin = telling(Answers { medicines: vec![Medicine::Heparin], ..Answers::default() });
        assert_eq!(heparin.get(Concern::Anticoagulant), Answer::Yes);
        assert_eq!(telling(Answers::default()).get(Concern::Anticoagulant), Answer::Unknown);
    }

    #[test]
    fn what_is_known_goes_before_what_was_asked() {
        let mut asked = all(Answer::No);
        asked.put(Concern::Ulcer, Answer::Yes);
        let known = Asked::knowing(Person { years: Some(15), sex: None });
        let both = asked.under(&known);
        assert_eq!(
            (both.get(Concern::Young), both.get(Concern::Ulcer)),
            (Answer::Yes, Answer::Yes)
        );
        // A doubt does not wipe out an answer.
        let mut doubt = Asked::default();
        doubt.put(Concern::Ulcer, Answer::Unknown);
        assert_eq!(both.under(&doubt).get(Concern::Ulcer), Answer::Yes);
        // Late in a pregnancy, until it turned out that there is none.
        let mut asked = all(Answer::No);
        asked.put(Concern::LatePregnancy, Answer::Yes);
        asked.put(Concern::Pregnancy, Answer::No);
        assert_eq!(aspirin(&asked), Aspirin::MayBeGiven);
    }
}
