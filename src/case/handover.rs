//! The hand-over of a case, gathered from its journal.

use super::{Case, Event, Journal};
use crate::care::handover::{Known, Noticed, Sheet, SightSheet};
use crate::care::rounds::{Act, End, HandOver};
use crate::care::situation::RedFlag;
use crate::care::territory::Territory;
use crate::measure::Moment;

impl Case {
    /// What is told when the case is handed over for this reason, or for the one that it was closed
    /// with.
    pub fn handover(&self, journal: &Journal, reason: Option<HandOver>, now: Moment) -> Sheet {
        let flags = self.noticed(journal);
        self.told(reason, &flags).sheet(now, &self.protocol)
    }

    /// The short sheet for signs of sight; `None` unless one was noticed.
    pub fn sight(&self, journal: &Journal) -> Option<SightSheet> {
        self.told(None, &self.noticed(journal)).sight()
    }

    /// Signs that go before everything, each with the moment it was first recorded, first noticed
    /// first. One that was not seen again later was noticed all the same; one struck out was not.
    pub fn noticed(&self, journal: &Journal) -> Vec<Noticed> {
        let mut noticed: Vec<Noticed> = Vec::new();
        let standing = journal.entries().iter().filter(|e| !self.struck.contains(&e.id()));
        for entry in standing {
            let flags: &[RedFlag] = match entry.event() {
                Event::Found(findings) => &findings.red_flags,
                Event::Round(Act::Look(look)) => &look.red_flags,
                Event::Noticed(flag) => std::slice::from_ref(flag),
                _ => &[],
            };
            for flag in flags {
                if noticed.iter().all(|known| known.flag != *flag) {
                    noticed.push(Noticed { flag: *flag, at: entry.at() });
                }
            }
        }
        noticed
    }

    fn told<'a>(&'a self, reason: Option<HandOver>, flags: &'a [Noticed]) -> Known<'a> {
        let ended = self.closed.or(self.treatment.end()).and_then(|(_, end)| match end {
            End::HandedOver(reason) => Some(reason),
            End::Done | End::Stopped => None,
        });
        Known {
            reason: reason.or(ended),
            flags,
            urgency: self.urgency(),
            findings: self.findings.as_ref(),
            zones: self.territory().map_or(&[], Territory::zones),
            area: self.territory().map(Territory::area),
            answers: self.answers.as_ref(),
            test: self.test_verdict(),
            treatment: &self.treatment,
            states: self.states(),
            reaction: &self.reaction,
            besides: self.adjuncts.chosen(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::care::allergy::Urgency;
    use crate::care::handover::{Ask, Fact};
    use crate::care::refill::Colour;
    use crate::care::rounds::{Look, Pain};
    use crate::care::situation::Findings;
    use crate::case::{CaseId, StrikeReason};
    use crate::measure::Span;

    fn at(minutes: u64) -> Moment {
        Moment::from_millis(0).after(Span::minutes(minutes))
    }

    fn found(flags: &[RedFlag]) -> Event {
        let findings = Findings { red_flags: flags.to_vec(), ..Findings::default() };
        Event::Found(Box::new(findings))
    }

    fn looked(flags: &[RedFlag]) -> Event {
        let look = Look::of(Colour::Pale, Pain::NONE);
        Event::Round(Act::Look(Look { red_flags: flags.to_vec(), ..look }))
    }

    #[test]
    fn a_sign_is_told_with_the_moment_it_was_first_noticed() {
        let mut journal = Journal::new(CaseId::from_random(1));
        let slip = journal.append(at(1), 0, found(&[RedFlag::Stroke])).id();
        journal.append(at(2), 0, Event::Struck { entry: slip, reason: StrikeReason::Slip });
        journal.append(at(3), 0, found(&[]));
        journal.append(at(4), 0, Event::Way { urgency: Urgency::Urgent, aim: None });
        journal.append(at(70), 0, looked(&[RedFlag::Sight]));
        assert_eq!(Case::of(&journal).flags, [RedFlag::Sight]);
        journal.append(at(75), 0, looked(&[]));
        assert!(Case::of(&journal).flags.is_empty(), "gone, and noticed all the same");
        journal.append(at(80), 0, Event::Noticed(RedFlag::Airway));
        let case = Case::of(&journal);
        assert_eq!(case.flags, [RedFlag::Airway]);
        let noticed = [
            Noticed { flag: RedFlag::Sight, at: at(70) },
            Noticed { flag: RedFlag::Airway, at: at(80) },
        ];
        assert_eq!(case.noticed(&journal), noticed);
        assert_eq!(case.sight(&journal).unwrap().noticed, at(70));
        let sheet = case.handover(&journal, Some(HandOver::Sight), at(90));
        assert_eq!(sheet.situation[..2], [Fact::Reason(HandOver::Sight), Fact::Flag(noticed[0])]);
        assert!(sheet.recommendation.contains(&Ask::EyesAtOnce));
    }

    #[test]
    fn the_reason_it_was_closed_with_stands_until_another_is_said() {
        let mut journal = Journal::new(CaseId::from_random(1));
        journal.append(at(0), 0, Event::Way { urgency: Urgency::Urgent, aim: None });
        journal.append(at(1), 0, Event::Closed(End::HandedOver(HandOver::Necrosis)));
        let case = Case::of(&journal);
        let first = |reason| case.handover(&journal, reason, at(2)).situation[0].clone();
        assert_eq!(first(None), Fact::Reason(HandOver::Necrosis));
        assert_eq!(first(Some(HandOver::NoEnzyme)), Fact::Reason(HandOver::NoEnzyme));
        assert_eq!(case.sight(&journal), None);
    }
}
