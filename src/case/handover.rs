//! The hand-over of a case, gathered from its journal.

use super::{Case, Event, Journal};
use crate::care::handover::{Known, Noticed, Sheet, SightSheet};
use crate::care::rounds::{End, HandOver};
use crate::care::situation::RedFlag;
use crate::care::territory::Territory;
use crate::measure::{Hash, Moment};

impl Case {
    /// What is told when the case is handed over for this reason, or for the one that it was closed
    /// with.
    pub fn handover(&self, journal: &Journal, reason: Option<HandOver>, now: Moment) -> Sheet {
        let flags = self.noticed(journal);
        self.told(journal, reason, &flags).sheet(now, &self.protocol)
    }

    /// The short sheet for signs of sight; `None` unless one was noticed.
    pub fn sight(&self, journal: &Journal) -> Option<SightSheet> {
        self.told(journal, None, &self.noticed(journal)).sight()
    }

    /// Signs that go before everything, each with the moment it was first recorded, first noticed
    /// first. One that was not seen again later was noticed all the same; one struck out was not.
    pub fn noticed(&self, journal: &Journal) -> Vec<Noticed> {
        let mut noticed: Vec<Noticed> = Vec::new();
        for entry in self.standing(journal) {
            let flags: &[RedFlag] = match entry.event() {
                Event::Found(findings) => &findings.red_flags,
                Event::Noticed(flag) => std::slice::from_ref(flag),
                other => other.look().map_or(&[], |look| &look.red_flags),
            };
            for flag in flags {
                if noticed.iter().all(|known| known.flag != *flag) {
                    noticed.push(Noticed { flag: *flag, at: entry.at() });
                }
            }
        }
        noticed
    }

    /// What a sign that stands was noticed with, and when: the entry that a slip of the finger made,
    /// to be struck out. None where a look, or what was found, has said since how it is: striking
    /// out the entry would then hide a sign that was there.
    pub fn noticing(&self, journal: &Journal, flag: RedFlag) -> Option<(Hash, Moment)> {
        let mut noticing = None;
        for entry in self.standing(journal) {
            match entry.event() {
                Event::Noticed(noticed) if *noticed == flag => {
                    noticing = Some((entry.id(), entry.at()));
                }
                Event::Found(findings) if findings.red_flags.contains(&flag) => noticing = None,
                other if other.look().is_some() => noticing = None,
                _ => {}
            }
        }
        noticing.filter(|_| self.flags.contains(&flag))
    }

    /// Whether the short sheet for sight is the one to begin with: not where another reason is said,
    /// or where a severe reaction goes along with it, which the whole sheet tells first.
    pub fn sight_first(&self, journal: &Journal, reason: Option<HandOver>) -> bool {
        let said = reason.or(self.ended_for()).is_none_or(|reason| reason == HandOver::Sight);
        said && self.reaction.started().is_none() && self.sight(journal).is_some()
    }

    /// The reason that it was handed over for, once it was.
    pub fn ended_for(&self) -> Option<HandOver> {
        self.closed.or(self.treatment.end()).and_then(|(_, end)| match end {
            End::HandedOver(reason) => Some(reason),
            End::Done | End::Stopped => None,
        })
    }

    fn told<'a>(
        &'a self,
        journal: &Journal,
        reason: Option<HandOver>,
        flags: &'a [Noticed],
    ) -> Known<'a> {
        Known {
            reason: reason.or(self.ended_for()),
            flags,
            urgency: self.urgency(),
            findings: self.findings.as_ref(),
            zones: self.territory().map_or(&[], Territory::zones),
            area: self.territory().map(Territory::area),
            answers: self.answers.as_ref(),
            test: self.test_verdict(),
            batches: self.batches(journal),
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
    use crate::care::anaphylaxis;
    use crate::care::handover::{Ask, Fact};
    use crate::care::refill::Colour;
    use crate::care::rounds::{Act, Look, Pain};
    use crate::care::situation::Findings;
    use crate::case::{CaseId, StrikeReason};
    use crate::measure::{Span, Volume};

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
    fn a_sign_noticed_by_a_slip_is_struck_out() {
        let mut journal = Journal::new(CaseId::from_random(1));
        journal.append(at(1), 0, found(&[RedFlag::Stroke]));
        let case = Case::of(&journal);
        assert_eq!(case.noticing(&journal, RedFlag::Stroke), None, "found, not tapped by the way");
        let tap = journal.append(at(2), 0, Event::Noticed(RedFlag::Sight)).id();
        assert_eq!(Case::of(&journal).noticing(&journal, RedFlag::Sight), Some((tap, at(2))));
        journal.append(at(3), 0, Event::Struck { entry: tap, reason: StrikeReason::Slip });
        let case = Case::of(&journal);
        assert_eq!((case.noticing(&journal, RedFlag::Sight), case.sight(&journal)), (None, None));
        assert_eq!(case.flags, [RedFlag::Stroke]);
    }

    #[test]
    fn a_sign_that_was_there_is_not_offered_to_be_struck_out() {
        let mut journal = Journal::new(CaseId::from_random(1));
        journal.append(at(0), 0, Event::Way { urgency: Urgency::Urgent, aim: None });
        let old = journal.append(at(60), 0, Event::Noticed(RedFlag::Sight)).id();
        let noticing = |journal: &Journal| Case::of(journal).noticing(journal, RedFlag::Sight);
        assert_eq!(noticing(&journal), Some((old, at(60))));
        journal.append(at(120), 0, looked(&[]));
        assert_eq!(noticing(&journal), None, "gone");
        let look = journal.append(at(180), 0, looked(&[RedFlag::Sight])).id();
        assert_eq!(noticing(&journal), None, "found again by a look");
        // The look struck out, the one before it has said that the sign is gone.
        let slip = StrikeReason::Slip;
        let mut without = journal.clone();
        without.append(at(181), 0, Event::Struck { entry: look, reason: slip });
        assert_eq!(noticing(&without), None);
        // Noticed anew, it is the new entry.
        without.append(at(190), 0, found(&[]));
        let new = without.append(at(200), 0, Event::Noticed(RedFlag::Sight)).id();
        assert_eq!(noticing(&without), Some((new, at(200))));
        without.append(at(201), 0, found(&[RedFlag::Sight]));
        assert_eq!(noticing(&without), None, "found as well");
        // A look that did not fit says nothing.
        let mut ended = Journal::new(CaseId::from_random(2));
        ended.append(at(0), 0, Event::Way { urgency: Urgency::Urgent, aim: None });
        ended.append(at(1), 0, Event::Round(Act::End(End::Stopped)));
        let tap = ended.append(at(2), 0, Event::Noticed(RedFlag::Sight)).id();
        ended.append(at(3), 0, looked(&[RedFlag::Stroke]));
        let case = Case::of(&ended);
        assert_eq!(case.refused.len(), 1);
        assert_eq!(noticing(&ended), Some((tap, at(2))));
        assert_eq!(case.noticed(&ended), [Noticed { flag: RedFlag::Sight, at: at(2) }]);
    }

    #[test]
    fn what_is_found_adds_signs_and_takes_away_only_what_was_found() {
        let mut journal = Journal::new(CaseId::from_random(1));
        let mut then = |minutes, event| {
            journal.append(at(minutes), 0, event);
            Case::of(&journal).flags
        };
        assert_eq!(then(1, Event::Noticed(RedFlag::Sight)), [RedFlag::Sight]);
        assert_eq!(then(2, found(&[])), [RedFlag::Sight]);
        let both = [RedFlag::Sight, RedFlag::Airway];
        assert_eq!(then(3, found(&[RedFlag::Airway])), both);
        assert_eq!(then(4, found(&[RedFlag::Sight])), [RedFlag::Sight], "the other only found");
        assert_eq!(then(5, found(&[])), [RedFlag::Sight], "noticed before it was found");
        // Found first and noticed then, it was noticed.
        let three = [RedFlag::Sight, RedFlag::Stroke];
        assert_eq!(then(6, found(&[RedFlag::Stroke])), three);
        assert_eq!(then(7, Event::Noticed(RedFlag::Stroke)), three);
        assert_eq!(then(8, found(&[])), three);
        then(9, Event::Way { urgency: Urgency::Urgent, aim: None });
        assert_eq!(then(10, looked(&[RedFlag::Stroke])), [RedFlag::Stroke]);
        assert_eq!(then(11, found(&[])), [RedFlag::Stroke], "seen by a look");
        assert!(then(12, looked(&[])).is_empty());
    }

    #[test]
    fn the_sheet_to_begin_with_tells_what_it_is_reached_for() {
        let mut journal = Journal::new(CaseId::from_random(1));
        let first = |journal: &Journal, reason| Case::of(journal).sight_first(journal, reason);
        assert!(!first(&journal, None), "no sign of sight");
        journal.append(at(1), 0, Event::Noticed(RedFlag::Sight));
        assert!(first(&journal, None) && first(&journal, Some(HandOver::Sight)));
        assert!(!first(&journal, Some(HandOver::Reaction)));
        let mut closed = journal.clone();
        closed.append(at(2), 0, Event::Closed(End::HandedOver(HandOver::NoEnzyme)));
        assert!(!first(&closed, None), "closed for another reason");
        let dose = anaphylaxis::Act::Adrenaline(Volume::ul(500));
        journal.append(at(3), 0, Event::Anaphylaxis(dose));
        assert!(!first(&journal, None) && !first(&journal, Some(HandOver::Sight)));
        // And whoever turns to the short one is told of it there too.
        let sheet = Case::of(&journal).sight(&journal).unwrap();
        let started = Fact::Reaction { started: at(3), active: true, better: false };
        assert_eq!(sheet.reaction, Some(started));
        assert_eq!(sheet.adrenaline, [Fact::Adrenaline { at: at(3), volume: Volume::ul(500) }]);
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
