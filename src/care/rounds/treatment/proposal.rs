//! What the looks at the skin propose, and why. The clinician decides.

use super::super::{Change, HandOver, Sign, compare};
use super::Treatment;
use crate::care::refill::{Colour, Person};
use crate::care::situation::RedFlag;
use crate::protocol::Protocol;

/// What is proposed after a look. The clinician decides.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Proposal {
    /// All three signs are back: end.
    End,
    /// Another round.
    Repeat,
    /// Call for help.
    HandOver(HandOver),
}

/// What a proposal rests on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reason {
    /// This sign is not back.
    Wanting(Sign),
    /// All three are back.
    AllBack,
    /// Refill was timed on the affected side alone.
    NotCompared,
    /// What changed since the look before.
    Changed(Change),
    /// So many looks in a row without improvement, the clinic's number being reached.
    NoImprovement(u32),
    /// A sign that goes before everything.
    RedFlag(RedFlag),
    /// Skin is turning black.
    Blackening,
}

impl Treatment {
    /// What the last look proposes and why; `None` before any look.
    ///
    /// Sight, stroke and airway signs override the rest; then skin turning black; then the three
    /// signs of the end point; then the clinic's number of rounds without improvement.
    pub fn proposal(&self, person: Person, protocol: &Protocol) -> Option<(Proposal, Vec<Reason>)> {
        let (_, look) = self.looks.last()?;
        if let Some(flag) = look.red_flags.first() {
            let to = match flag {
                RedFlag::Sight => HandOver::Sight,
                RedFlag::Stroke => HandOver::Stroke,
                RedFlag::Airway => HandOver::Reaction,
            };
            let reasons = look.red_flags.iter().map(|flag| Reason::RedFlag(*flag)).collect();
            return Some((Proposal::HandOver(to), reasons));
        }
        let wanting = look.wanting(person, protocol);
        if wanting.is_empty() {
            let compared = look.refill.is_some_and(|refill| refill.opposite.is_some());
            let alone = (!compared).then_some(Reason::NotCompared);
            return Some((Proposal::End, [Reason::AllBack].into_iter().chain(alone).collect()));
        }
        let mut reasons: Vec<Reason> = wanting.into_iter().map(Reason::Wanting).collect();
        if let [.., (_, before), (_, now)] = self.looks.as_slice() {
            reasons.push(Reason::Changed(compare(before, now, protocol)));
        }
        if look.colour == Colour::Black {
            reasons.insert(0, Reason::Blackening);
            return Some((Proposal::HandOver(HandOver::Necrosis), reasons));
        }
        let stuck = self.rounds_without_improvement(protocol);
        if stuck >= protocol.rounds_before_handover {
            reasons.insert(0, Reason::NoImprovement(stuck));
            return Some((Proposal::HandOver(HandOver::NoImprovement), reasons));
        }
        Some((Proposal::Repeat, reasons))
    }

    /// Finished rounds since the last look that was better than the one before it.
    ///
    /// With no look from before treatment, the first round's look has nothing to be compared with
    /// and does not count as improvement.
    pub fn rounds_without_improvement(&self, protocol: &Protocol) -> u32 {
        let before_better = self
            .looks
            .windows(2)
            .zip(self.rounds_over.iter().skip(1))
            .rev()
            .find(|(pair, _)| compare(&pair[0].1, &pair[1].1, protocol) == Change::Better)
            .map_or(0, |(_, over)| *over);
        u32::try_from(self.over().count() - before_better).unwrap_or(u32::MAX)
    }
}
