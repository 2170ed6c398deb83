//! What forbids to inject now.

use super::{Case, Entry, Event, Overridden};
use crate::care::situation::RedFlag;

/// What forbids to inject now.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stop {
    /// A severe reaction, of which the enzyme may be the cause, is not over. Nothing lifts it.
    Reaction,
    /// One was treated with adrenaline: no more enzyme unless somebody decides so.
    AfterReaction,
    /// A sign that goes before everything stands.
    Sign(RedFlag),
}

/// What warned last, and what was decided all the same, by their places in the record: the clock
/// may have been set in between.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Warned {
    last: Option<u32>,
    lifted: Option<u32>,
}

impl Warned {
    /// Takes an entry that counts.
    pub(super) fn take(&mut self, entry: &Entry) {
        let warns = match entry.event() {
            Event::Found(found) => !found.red_flags.is_empty(),
            Event::Noticed(_) | Event::Anaphylaxis(_) => true,
            Event::Override { what: Overridden::Stop, .. } => {
                self.lifted = Some(entry.seq());
                false
            }
            other => other.look().is_some_and(|look| !look.red_flags.is_empty()),
        };
        if warns {
            self.last = Some(entry.seq());
        }
    }

    fn is_lifted(self) -> bool {
        self.lifted > self.last
    }
}

impl Case {
    /// What forbids to inject now; `None` if nothing does, or if it was decided otherwise with a
    /// reason since it came up.
    pub fn stop(&self) -> Option<Stop> {
        if self.reaction.active() {
            return Some(Stop::Reaction);
        }
        if self.warned.is_lifted() {
            return None;
        }
        let sign = self.flags.first().map(|flag| Stop::Sign(*flag));
        let after = (!self.reaction.doses().is_empty()).then_some(Stop::AfterReaction);
        sign.or(after)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::care::anaphylaxis::Act as Reaction;
    use crate::care::refill::Colour;
    use crate::care::rounds::{Act, Look, Pain};
    use crate::case::{CaseId, Journal};
    use crate::measure::{Moment, Volume};

    /// What forbids to inject after each of these.
    fn stops(events: &[Event]) -> Vec<Option<Stop>> {
        let mut journal = Journal::new(CaseId::from_random(1));
        events
            .iter()
            .map(|event| {
                journal.append(Moment::default(), 0, event.clone());
                Case::of(&journal).stop()
            })
            .collect()
    }

    fn decided() -> Event {
        Event::Override { what: Overridden::Stop, reason: "demo".to_owned() }
    }

    #[test]
    fn a_sign_stops_until_a_look_clears_it_or_somebody_decides() {
        let sight = Some(Stop::Sign(RedFlag::Sight));
        let look = Event::Round(Act::Look(Look::of(Colour::Pale, Pain::NONE)));
        let noticed = || Event::Noticed(RedFlag::Sight);
        assert_eq!(stops(&[noticed(), look]), [sight, None]);
        assert_eq!(stops(&[noticed(), decided(), noticed()]), [sight, None, sight]);
    }

    #[test]
    fn a_reaction_stops_whatever_is_decided_and_its_enzyme_after_it() {
        let act = |act| Event::Anaphylaxis(act);
        let dose = || act(Reaction::Adrenaline(Volume::ul(500)));
        let (runs, after) = (Some(Stop::Reaction), Some(Stop::AfterReaction));
        assert_eq!(
            stops(&[dose(), decided(), act(Reaction::Over), decided()]),
            [runs, runs, after, None]
        );
        // The sign that it was is over with it.
        let airway = Event::Noticed(RedFlag::Airway);
        assert_eq!(stops(&[airway, act(Reaction::Called), act(Reaction::Over)])[2], None);
        // Without adrenaline it was a doubt that came to nothing.
        assert_eq!(stops(&[act(Reaction::Called), act(Reaction::Over)]), [runs, None]);
    }
}
