//! The case after its treatment.

use super::Case;
use crate::care::aftercare::{Course, Planned, Review, Seen};
use crate::care::allergy::Urgency;
use crate::care::rounds::{Act, End, Look};
use crate::measure::Moment;

impl Case {
    /// What the rules of aftercare need of it. Handed over when it was closed, it is in other hands.
    pub fn course(&self) -> Course<'_> {
        let found = self.findings.as_ref();
        let handed =
            self.closed.map(|(_, end)| end).filter(|end| matches!(end, End::HandedOver(_)));
        Course {
            urgency: self.urgency().unwrap_or(Urgency::Urgent),
            treated: !self.treatment.rounds().is_empty(),
            end: self.treatment.end().map(|(at, end)| (at, handed.unwrap_or(end))),
            since: found.and_then(|found| found.onset).unwrap_or(self.opened),
            before: self.treatment.looks().last().map(|(_, look)| look),
            reviews: &self.reviews,
            appointed: self.appointed,
            flags: &self.flags,
            reacting: self.reaction.active(),
            person: found.map(|found| found.person).unwrap_or_default(),
            protocol: &self.protocol,
        }
    }

    /// Whether the treatment is over and the patient is to be seen again before the case is closed.
    /// After a hand-over that is the other team's.
    pub fn in_follow_up(&self) -> bool {
        let ended = self.treatment.end();
        self.open() && ended.is_some_and(|(_, end)| !matches!(end, End::HandedOver(_)))
    }

    /// The next review of a case in follow-up, if one is to come.
    pub fn next_review(&self) -> Option<Planned> {
        self.in_follow_up().then(|| self.course().next()).flatten()
    }

    /// A review says which signs stand. From afar a sign that stood is not seen to be gone.
    pub(super) fn reviewed(&mut self, review: &Review) {
        match review.seen {
            Seen::InPerson => self.looked(&review.look),
            Seen::Remotely => {
                for flag in &review.look.red_flags {
                    self.notice(*flag);
                }
            }
        }
    }

    /// The treatment goes on, on this look. Whatever it was for, it is an occlusion now.
    pub(super) fn taken_up(&mut self, at: Moment, look: &Look) {
        self.treatment.take_up();
        self.closed = None;
        self.appointed = None;
        self.way = Some((Urgency::Urgent, None));
        self.treatment.urgency = Urgency::Urgent;
        // Nothing refuses a look once there is no end.
        let _ = self.treatment.apply(at, &Act::Look(look.clone()));
        self.looked(look);
    }
}

#[cfg(test)]
mod tests;
