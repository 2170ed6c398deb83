//! What the people who take over are told: situation, background, assessment, recommendation. Facts
//! in the order in which they are read out; the words are the screen's.
//!
//! Who and where is the clinic's to say. Nothing here tells how much time is left: for sight the
//! published figures contradict each other, and none is a promise.

mod ask;
mod fact;

pub use ask::Ask;
pub use fact::{Fact, Noticed};

use super::adjunct::Chosen;
use super::allergy::{Answers, Urgency};
use super::anaphylaxis::Reaction;
use super::perfusion::{State, change, stuck};
use super::refill::Person;
use super::rounds::{HandOver, Treatment};
use super::situation::{Filler, Findings, RedFlag};
use super::skin_test;
use crate::measure::order;
use crate::measure::{Area, Moment, Units};
use crate::protocol::Protocol;
use crate::protocol::zone::Zone;

/// All that is known of a case for its hand-over.
#[derive(Clone, Debug)]
pub struct Known<'a> {
    /// Why it is handed over, if that is said.
    pub reason: Option<HandOver>,
    /// Signs that go before everything, first noticed first.
    pub flags: &'a [Noticed],
    /// How urgent, once that was decided.
    pub urgency: Option<Urgency>,
    /// What was found at the start.
    pub findings: Option<&'a Findings>,
    /// Zones of the skin without blood.
    pub zones: &'a [Zone],
    /// Its surface.
    pub area: Option<Area>,
    /// What was asked about allergy.
    pub answers: Option<&'a Answers>,
    /// What a skin test amounts to.
    pub test: Option<skin_test::Verdict>,
    /// Batches that each round was made from, as far as they were noted; in the rounds' order.
    pub batches: Vec<Vec<String>>,
    /// Rounds and looks.
    pub treatment: &'a Treatment,
    /// Its looks with all that was seen.
    pub states: Vec<State>,
    /// A severe reaction; empty if there was none.
    pub reaction: &'a Reaction,
    /// What was given besides.
    pub besides: &'a [Chosen],
}

/// The sheet, part by part.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sheet {
    /// What is the matter.
    pub situation: Vec<Fact>,
    /// What was before, and what was done.
    pub background: Vec<Fact>,
    /// How it looks now.
    pub assessment: Vec<Fact>,
    /// What is asked, the most urgent first; never empty.
    pub recommendation: Vec<Ask>,
}

/// The short sheet for signs of sight: moments and what was done. It holds no span, so that no screen
/// can count one down.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SightSheet {
    /// When sight was first noticed to be wrong.
    pub noticed: Moment,
    /// Other signs that go before everything.
    pub also: Vec<Noticed>,
    /// A severe reaction, if there was one.
    pub reaction: Option<Fact>,
    /// When the first sign of any kind was seen.
    pub onset: Option<Moment>,
    /// What was injected before.
    pub filler: Filler,
    /// Where.
    pub zones: Vec<Zone>,
    /// Enzyme given so far.
    pub units: Units,
    /// Adrenaline given, dose by dose.
    pub adrenaline: Vec<Fact>,
    /// What is asked, the most urgent first.
    pub asks: Vec<Ask>,
}

impl Known<'_> {
    /// The sheet as it stands at `now`.
    pub fn sheet(&self, now: Moment, protocol: &Protocol) -> Sheet {
        Sheet {
            situation: self.situation(now),
            background: self.background(),
            assessment: self.assessment(protocol),
            recommendation: self.asks(),
        }
    }

    /// The short sheet; `None` unless a sign of sight was noticed.
    pub fn sight(&self) -> Option<SightSheet> {
        let noticed = self.flags.iter().find(|noticed| noticed.flag == RedFlag::Sight)?.at;
        let others = self.flags.iter().filter(|noticed| noticed.flag != RedFlag::Sight);
        Some(SightSheet {
            noticed,
            also: others.copied().collect(),
            reaction: self.reacted(),
            onset: self.findings.and_then(|findings| findings.onset),
            filler: self.findings.map_or(Filler::Unknown, |findings| findings.filler),
            zones: self.zones.to_vec(),
            units: self.treatment.units(),
            adrenaline: self.adrenaline().collect(),
            asks: self.asks(),
        })
    }

    fn reacted(&self) -> Option<Fact> {
        let (active, better) = (self.reaction.active(), self.reaction.better());
        self.reaction.started().map(|started| Fact::Reaction { started, active, better })
    }

    fn adrenaline(&self) -> impl Iterator<Item = Fact> {
        let doses = self.reaction.doses().iter();
        doses.map(|(at, volume)| Fact::Adrenaline { at: *at, volume: *volume })
    }

    fn situation(&self, now: Moment) -> Vec<Fact> {
        let mut facts: Vec<Fact> = self.reason.map(Fact::Reason).into_iter().collect();
        facts.extend(self.flags.iter().copied().map(Fact::Flag));
        facts.extend(self.reacted());
        facts.extend(self.urgency.map(Fact::Way));
        if self.urgency != Some(Urgency::Planned) {
            let onset = self.findings.and_then(|findings| findings.onset);
            facts.push(Fact::Onset(onset.map(|at| (at, now.since(at)))));
        }
        if !self.zones.is_empty() {
            facts.push(Fact::Zones(self.zones.to_vec()));
        }
        facts.extend(self.area.map(Fact::Area));
        facts
    }

    fn background(&self) -> Vec<Fact> {
        let filler = self.findings.map_or(Filler::Unknown, |findings| findings.filler);
        let mut facts = vec![Fact::Filler(filler)];
        let person = self.findings.map(|findings| findings.person).unwrap_or_default();
        if person != Person::default() {
            facts.push(Fact::Person(person));
        }
        facts.push(Fact::Allergy(self.answers.cloned()));
        facts.extend(self.test.map(Fact::SkinTest));
        let rounds = self.treatment.rounds();
        facts.extend((1..).zip(rounds).map(|(number, round)| Fact::Round {
            number,
            begun: round.begun,
            finished: round.finished,
            strength: round.plan.strength,
            volume: round.volume(),
            units: round.units(),
            batches: self.batches.get(number - 1).cloned().unwrap_or_default(),
        }));
        let (units, volume) = (self.treatment.units(), self.treatment.volume());
        facts.push(if rounds.is_empty() {
            Fact::NoEnzyme
        } else {
            Fact::InAll { rounds: rounds.len(), units, volume }
        });
        facts.extend(self.adrenaline());
        facts.extend(self.besides.iter().copied().map(Fact::Besides));
        facts
    }

    fn assessment(&self, protocol: &Protocol) -> Vec<Fact> {
        let looks = self.treatment.looks();
        let found = self
            .findings
            .map(|findings| Fact::Found { signs: findings.signs.clone(), refill: findings.refill });
        let mut facts: Vec<Fact> = found.into_iter().collect();
        facts.extend(looks.iter().map(|(at, look)| Fact::Look {
            at: *at,
            refill: look.refill,
            colour: look.colour,
            pain: look.pain,
            temperature: look.temperature,
            function: look.function,
        }));
        let Some((_, last)) = looks.last() else {
            facts.push(Fact::NotLooked);
            return facts;
        };
        if let [first, .., last] = self.states.as_slice() {
            facts.push(Fact::Trend(change(first, last, protocol).whole()));
        }
        let person = self.findings.map(|findings| findings.person).unwrap_or_default();
        facts.push(Fact::Wanting(last.wanting(person, protocol)));
        let stuck = stuck(self.treatment, &self.states, protocol);
        if self.urgency == Some(Urgency::Urgent) && stuck > 0 {
            facts.push(Fact::Stuck(stuck));
        }
        facts
    }

    /// What is asked: for the reason said, and for each sign whether or not it is the reason.
    fn asks(&self) -> Vec<Ask> {
        let signs = self.flags.iter().map(|noticed| HandOver::of(noticed.flag));
        let reasons = signs.chain(self.reason);
        let mut asks: Vec<Ask> =
            reasons.flat_map(|reason| Ask::of(reason).iter().copied()).collect();
        if self.reaction.active() {
            asks.extend(Ask::of(HandOver::Reaction));
        } else if self.reaction.started().is_some() {
            // Over, it wants watching and no ambulance of its own.
            asks.push(Ask::WatchReaction);
        }
        order::sort(&mut asks);
        asks.dedup();
        if asks.is_empty() {
            asks.push(Ask::TakeOver);
        }
        asks
    }
}

#[cfg(test)]
mod tests;
