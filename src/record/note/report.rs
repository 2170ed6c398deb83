//! What a report of an adverse reaction can say of a case. Forms and duties are national; the fields
//! are those without which no report counts (ICH E2D: a patient, a reporter, a suspected product, a
//! reaction) and those that such forms share. What the case does not tell is left open, never guessed.

use super::Note;
use crate::care::aftercare::Damage;
use crate::care::allergy::Urgency;
use crate::care::anaphylaxis::{Act, Recognised, recognise};
use crate::care::situation::Findings;
use crate::care::skin_test::Verdict;
use crate::measure::Moment;
use crate::measure::order;
use crate::protocol::Protocol;

/// What of a case is a reaction that can be reported.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reported {
    /// A suspected blocked artery after filler.
    Occlusion,
    /// A severe reaction in the course of treatment, whatever it was to.
    Reaction,
    /// A skin test with the enzyme that was positive.
    Test,
}

/// How a reaction was when it was seen last, as far as the case tells.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Seen {
    /// Refill, colour and pain were back, and no damage was noted.
    Well(Moment),
    /// Not all of them were back, or there was damage.
    NotWell(Moment),
    /// The patient was called better, or the reaction over or taken over: which of them is not told.
    Settled(Moment),
    /// Nothing was recorded.
    Unknown,
}

/// What of a case can be reported, the gravest first; empty where nothing is.
pub fn reported(note: &Note) -> Vec<Reported> {
    let positive = note.test.as_ref().is_some_and(|test| test.verdict == Some(Verdict::Positive));
    [
        (!note.reaction.is_empty(), Reported::Reaction),
        (note.urgency() == Some(Urgency::Urgent), Reported::Occlusion),
        (positive, Reported::Test),
    ]
    .into_iter()
    .filter_map(|(is, what)| is.then_some(what))
    .collect()
}

impl Reported {
    /// When it was first seen; none where nobody noted it.
    pub fn onset(self, note: &Note) -> Option<Moment> {
        let test = || note.test.as_ref();
        match self {
            Self::Occlusion => note.findings.as_ref().and_then(|found| found.onset),
            Self::Reaction => note.reaction.first().map(|(at, _)| *at),
            Self::Test => test()?
                .readings
                .iter()
                .find(|reading| reading.verdict == Verdict::Positive)
                .map(|reading| reading.at),
        }
    }

    /// Whether the case itself tells that it was an important medical event: anaphylaxis by its
    /// criteria or treated as such, or signs of sight or of a stroke beside an occlusion. From
    /// memory of ICH E2A, which names intensive treatment of allergic bronchospasm as an example.
    pub fn important(self, note: &Note) -> bool {
        match self {
            Self::Occlusion => note.noticed.iter().any(|noticed| {
                use crate::care::situation::RedFlag::{Sight, Stroke};
                matches!(noticed.flag, Sight | Stroke)
            }),
            Self::Reaction => note.reaction.iter().any(|(_, act)| match act {
                Act::Adrenaline(_) => true,
                Act::Signs(signs) => recognise(signs) != Recognised::NotMet,
                _ => false,
            }),
            Self::Test => false,
        }
    }

    /// How it was when it was seen last.
    pub fn outcome(self, note: &Note, protocol: &Protocol) -> Seen {
        match self {
            Self::Occlusion => {
                let Some((at, look)) = note.last_look() else { return Seen::Unknown };
                let person = note.findings.as_ref().map(|found: &Findings| found.person);
                let back = look.wanting(person.unwrap_or_default(), protocol).is_empty();
                if back && note.damage().is_empty() { Seen::Well(at) } else { Seen::NotWell(at) }
            }
            Self::Reaction => {
                let last = note.reaction.iter().rev().find(|(_, act)| {
                    matches!(act, Act::Better | Act::NotBetter | Act::Over | Act::Adrenaline(_))
                });
                match last {
                    Some((at, Act::Better | Act::Over)) => Seen::Settled(*at),
                    Some((at, Act::NotBetter | Act::Adrenaline(_))) => Seen::NotWell(*at),
                    _ => Seen::Unknown,
                }
            }
            Self::Test => Seen::Unknown,
        }
    }
}

impl Note {
    /// What the skin came to, at any review; each once.
    pub fn damage(&self) -> Vec<Damage> {
        let mut damage: Vec<Damage> =
            self.reviews.iter().flat_map(|(_, review)| review.damage.iter().copied()).collect();
        order::sort(&mut damage);
        damage.dedup();
        damage
    }
}
