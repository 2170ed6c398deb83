//! What is given besides the enzyme, seen from the case: what it knows already, and what would not
//! go together.

use super::Case;
use crate::care::adjunct::{Act, Asked, Choice};
use crate::measure::Moment;
use crate::protocol::adjunct::{Adjunct, Conflict};

impl Case {
    /// What need not be asked before aspirin, because the findings or the allergy answers tell it.
    pub fn known_before_aspirin(&self) -> Asked {
        let person = self.findings.as_ref().map(|found| found.person).unwrap_or_default();
        let known = Asked::knowing(person);
        match &self.answers {
            Some(answers) => known.telling(answers),
            None => known,
        }
    }

    /// All that is known before aspirin: what was asked, and over it what the case tells.
    pub fn before_aspirin(&self) -> Asked {
        self.adjuncts.asked.clone().under(&self.known_before_aspirin())
    }

    /// What does not go together in what was given.
    pub fn conflicts(&self, now: Moment) -> Vec<Conflict> {
        self.adjuncts.conflicts(now, self.reaction.active())
    }

    /// What would not go together if this were given now, beyond what does not already.
    pub fn conflicts_with(&self, adjunct: Adjunct, now: Moment) -> Vec<Conflict> {
        let mut then = self.adjuncts.clone();
        then.apply(now, &Act::Chose(adjunct, Choice::Given(None)));
        let already = self.conflicts(now);
        let conflicts = then.conflicts(now, self.reaction.active());
        conflicts.into_iter().filter(|conflict| !already.contains(conflict)).collect()
    }
}

#[cfg(test)]
mod tests {
    use crate::care::adjunct::{Act, Asked, Aspirin, Choice, aspirin};
    use crate::care::allergy::{Answer, Answers, Pregnancy};
    use crate::care::refill::{Person, Sex};
    use crate::care::situation::Findings;
    use crate::case::{Case, CaseId, Event, Journal};
    use crate::measure::{Moment, Span};
    use crate::protocol::adjunct::{Adjunct, Concern, Conflict};

    fn told(events: Vec<Event>) -> (Case, Moment) {
        let mut journal = Journal::new(CaseId::from_random(3));
        let mut at = Moment::from_millis(0);
        for event in events {
            at = at.after(Span::minutes(1));
            journal.append(at, 0, event);
        }
        (Case::of(&journal), at)
    }

    fn given(adjunct: Adjunct) -> Event {
        Event::Adjunct(Act::Chose(adjunct, Choice::Given(None)))
    }

    #[test]
    fn what_the_case_tells_is_not_asked_and_goes_before_what_was() {
        let person = Person { years: Some(15), sex: Some(Sex::Female) };
        let found = Findings { person, ..Findings::default() };
        let answers = Answers { pregnancy: Pregnancy::Neither, ..Answers::default() };
        let mut asked = Asked::default();
        asked.put(Concern::Young, Answer::No);
        asked.put(Concern::Ulcer, Answer::No);
        let (case, _) = told(vec![
            Event::Found(Box::new(found)),
            Event::Asked(answers),
            Event::Adjunct(Act::Asked(asked)),
        ]);
        let known = case.known_before_aspirin();
        assert_eq!(known.get(Concern::Pregnancy), Answer::No);
        assert_eq!(known.get(Concern::Ulcer), Answer::Unknown);
        let all = case.before_aspirin();
        assert_eq!((all.get(Concern::Young), all.get(Concern::Ulcer)), (Answer::Yes, Answer::No));
        assert_eq!(aspirin(&all), Aspirin::MustNot(vec![Concern::Young]));
    }

    #[test]
    fn a_conflict_is_known_before_the_second_is_given() {
        let (case, now) = told(vec![given(Adjunct::Warmth), given(Adjunct::Clopidogrel)]);
        let standing = case.conflicts(now);
        assert_eq!(standing, [Conflict::WarmthBeforeReading]);
        let with = |adjunct| case.conflicts_with(adjunct, now);
        let cold = [Conflict::WarmthWithCold, Conflict::ColdBeforeReading];
        assert_eq!(with(Adjunct::Cold), cold);
        let aspirin = [Conflict::AspirinWithClopidogrel, Conflict::AspirinWithEnzyme];
        assert_eq!(with(Adjunct::Aspirin), aspirin);
        assert!(with(Adjunct::Massage).is_empty() && with(Adjunct::Warmth).is_empty());
        assert_eq!(case.conflicts(now), standing, "asking changes nothing");
    }
}
