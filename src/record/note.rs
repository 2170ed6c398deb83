//! What a clinical note says of a case, as facts; and from the same facts what the patient is told
//! and what an adverse reaction's report asks for. The words are the screen's.

mod hours;
mod leaf;
mod report;

pub use hours::{Hours, Local};
pub use leaf::{Avoid, Back, Did, Leaf, Watch, Whom};
pub use report::{Reported, Seen, reported};

use crate::care::adjunct::Chosen;
use crate::care::aftercare::Review;
use crate::care::allergy::{Answers, Species, Urgency};
use crate::care::anaphylaxis;
use crate::care::dilution::Plan;
use crate::care::handover::Noticed;
use crate::care::rounds::{End, Look, Round};
use crate::care::situation::{Aim, Findings};
use crate::care::skin_test::{Placed, Verdict};
use crate::care::territory::Territory;
use crate::case::{Case, Entry, Event, Fault, Journal, Overridden, StrikeReason, TestReading};
use crate::kit::Vial;
use crate::measure::order;
use crate::measure::{Hash, Moment, Units, Volume};
use crate::protocol::diluent::Diluent;

/// A skin test with what was seen of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Tested {
    /// When it was placed.
    pub at: Moment,
    /// What was injected.
    pub placed: Placed,
    /// Its readings.
    pub readings: Vec<TestReading>,
    /// What they amount to; none before the first.
    pub verdict: Option<Verdict>,
}

/// A solution that was made, with its vials.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Solution {
    /// When it was chosen.
    pub at: Moment,
    /// How it is made.
    pub plan: Plan,
    /// What the powder was dissolved in, as it was chosen when it was drawn up.
    pub diluent: Diluent,
    /// Vials as they were noted last, in their numbers' order. Those not noted are not among them.
    pub vials: Vec<Vial>,
}

/// A round with what led up to it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Given {
    /// The round itself.
    pub round: Round,
    /// Units of this round and all before it.
    pub units_so_far: Units,
    /// Volume of this round and all before it.
    pub volume_so_far: Volume,
    /// Batches that it was made from, as far as they were noted.
    pub batches: Vec<String>,
    /// The skin that it was begun on.
    pub territory: Option<Territory>,
}

/// An entry that was struck out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Struck {
    /// When it was made.
    pub at: Moment,
    /// What it said.
    pub event: Event,
    /// When it was struck out.
    pub struck: Moment,
    /// Why.
    pub reason: StrikeReason,
}

/// What is wrong, if anything, with the record that the note is drawn from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Chain {
    /// How many entries there are.
    pub entries: usize,
    /// The digest of the last, which stands for all of them.
    pub head: Option<Hash>,
    /// What is wrong; empty where the chain is whole.
    pub faults: Vec<Fault>,
    /// Entries struck out, the first first.
    pub struck: Vec<Struck>,
    /// Entries that did not fit when they came.
    pub refused: usize,
}

/// All that a text about a case is made of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Note {
    /// What the clinic's clock showed.
    pub hours: Hours,
    /// When it was written out.
    pub printed: Moment,
    /// The clinic's reference; empty before it has one.
    pub reference: String,
    /// When the case was opened.
    pub opened: Moment,
    /// The way taken.
    pub way: Option<(Urgency, Option<Aim>)>,
    /// Signs that go before everything, first noticed first.
    pub noticed: Vec<Noticed>,
    /// What was found at the start.
    pub findings: Option<Findings>,
    /// What was done otherwise than advised, and why.
    pub overrides: Vec<(Moment, Overridden, String)>,
    /// What was asked about allergy.
    pub answers: Option<Answers>,
    /// Whether readiness for anaphylaxis was confirmed.
    pub ready: bool,
    /// The skin test placed last.
    pub test: Option<Tested>,
    /// Planned work: filler and the dose chosen.
    pub filler: Option<(Volume, Units)>,
    /// Solutions, the first first.
    pub solutions: Vec<Solution>,
    /// Rounds, the first first.
    pub rounds: Vec<Given>,
    /// Looks at the skin.
    pub looks: Vec<(Moment, Look)>,
    /// What was given besides, or why not.
    pub besides: Vec<Chosen>,
    /// A severe reaction, act by act.
    pub reaction: Vec<(Moment, anaphylaxis::Act)>,
    /// What was written down in free text.
    pub remarks: Vec<(Moment, String)>,
    /// How the treatment ended.
    pub ended: Option<(Moment, End)>,
    /// How the case was closed.
    pub closed: Option<(Moment, End)>,
    /// When the patient was seen again, and how it was.
    pub reviews: Vec<(Moment, Review)>,
    /// When the treatment was taken up again, and why.
    pub taken_up: Vec<(Moment, String)>,
    /// When the patient is to be seen again, as agreed last.
    pub appointed: Option<Moment>,
    /// The record behind it.
    pub chain: Chain,
}

impl Note {
    /// Gathers what a case and its journal tell, for a text written out at `printed` where local time
    /// is `zone` minutes ahead of UTC. `faults` are what was wrong with the journal when it was read.
    pub fn of(
        case: &Case,
        journal: &Journal,
        faults: &[Fault],
        printed: Moment,
        zone: i16,
    ) -> Self {
        let said = |pick: fn(&Event) -> bool| {
            case.standing(journal).filter(move |entry| pick(entry.event()))
        };
        let reaction = said(|event| matches!(event, Event::Anaphylaxis(_)));
        let remarks = said(|event| matches!(event, Event::Note(_)));
        let taken_up = said(|event| matches!(event, Event::TakenUp { .. }));
        Self {
            hours: Hours::of(journal, printed, zone),
            printed,
            reference: case.reference.as_ref().map_or("", |name| name.as_str()).to_owned(),
            opened: case.opened,
            way: case.way,
            noticed: case.noticed(journal),
            findings: case.findings.clone(),
            overrides: case.overrides.clone(),
            answers: case.answers.clone(),
            ready: case.ready,
            test: case.test.map(|(at, placed)| Tested {
                at,
                placed,
                readings: case.readings.clone(),
                verdict: case.test_verdict(),
            }),
            filler: case.filler,
            solutions: solutions(case, journal),
            rounds: rounds(case, journal),
            looks: case.treatment.looks().to_vec(),
            besides: case.adjuncts.chosen().to_vec(),
            reaction: reaction
                .filter_map(|entry| match entry.event() {
                    Event::Anaphylaxis(act) => Some((entry.at(), act.clone())),
                    _ => None,
                })
                .collect(),
            remarks: remarks
                .filter_map(|entry| match entry.event() {
                    Event::Note(text) => Some((entry.at(), text.clone())),
                    _ => None,
                })
                .collect(),
            ended: case.treatment.end(),
            closed: case.closed,
            reviews: case.reviews.clone(),
            taken_up: taken_up
                .filter_map(|entry| match entry.event() {
                    Event::TakenUp { reason, .. } => Some((entry.at(), reason.clone())),
                    _ => None,
                })
                .collect(),
            appointed: case.appointed,
            chain: Chain {
                entries: journal.entries().len(),
                head: journal.head(),
                faults: faults.to_vec(),
                struck: struck(case, journal),
                refused: case.refused.len(),
            },
        }
    }

    /// How urgent; none before the way was taken.
    pub fn urgency(&self) -> Option<Urgency> {
        self.way.map(|(urgency, _)| urgency)
    }

    /// How the treatment, or without one the case, ended. A hand-over after it goes before it.
    pub fn end(&self) -> Option<(Moment, End)> {
        let handed = self.closed.filter(|(_, end)| matches!(end, End::HandedOver(_)));
        handed.or(self.ended).or(self.closed)
    }

    /// Units given in all rounds.
    pub fn units(&self) -> Units {
        self.rounds.last().map_or(Units::ZERO, |given| given.units_so_far)
    }

    /// Volume given in all rounds.
    pub fn volume(&self) -> Volume {
        self.rounds.last().map_or(Volume::ZERO, |given| given.volume_so_far)
    }

    /// The look at the skin that was the last, at a review or before.
    pub fn last_look(&self) -> Option<(Moment, &Look)> {
        let review = self.reviews.last().map(|(at, review)| (*at, &review.look));
        let look = self.looks.last().map(|(at, look)| (*at, look));
        // Of two at one moment the review is the later one.
        look.into_iter().chain(review).max_by_key(|(at, _)| *at)
    }

    /// Where the enzyme comes from, as it was answered when allergy was asked about.
    pub fn species(&self) -> Species {
        self.answers.as_ref().map(|answers| answers.species).unwrap_or_default()
    }
}

/// Solutions that stand, each with its vials and its diluent: the one in force when the first
/// movement was made, for until then another can be chosen.
fn solutions(case: &Case, journal: &Journal) -> Vec<Solution> {
    let mut made: Vec<(Hash, Solution)> = Vec::new();
    let mut diluent = Diluent::default();
    let mut begun = false;
    for entry in case.standing(journal) {
        match entry.event() {
            Event::Diluent(chosen) => {
                diluent = *chosen;
                if let Some((_, solution)) = made.last_mut().filter(|_| !begun) {
                    solution.diluent = diluent;
                }
            }
            Event::Drew(_) => begun = true,
            Event::Preparation(plan) => {
                begun = false;
                let plan = (**plan).clone();
                let solution = Solution { at: entry.at(), plan, diluent, vials: Vec::new() };
                made.push((entry.id(), solution));
            }
            Event::Vial(vial) => {
                if let Some(solution) = vial.solution_in(&mut made) {
                    solution.vials.retain(|known| known.number != vial.number);
                    solution.vials.push(vial.clone());
                    order::by_key(&mut solution.vials, |known| known.number);
                }
            }
            _ => {}
        }
    }
    made.into_iter().map(|(_, solution)| solution).collect()
}

/// What was struck out, with when and why.
fn struck(case: &Case, journal: &Journal) -> Vec<Struck> {
    let entries = journal.entries();
    let strikes = |of: &Entry| {
        entries.iter().rev().find_map(|entry| match entry.event() {
            Event::Struck { entry: struck, reason } if *struck == of.id() => {
                Some((entry.at(), reason.clone()))
            }
            _ => None,
        })
    };
    let told = |entry: &Entry| {
        let (struck, reason) = strikes(entry)?;
        Some(Struck { at: entry.at(), event: entry.event().clone(), struck, reason })
    };
    entries.iter().filter(|entry| case.struck.contains(&entry.id())).filter_map(told).collect()
}

fn rounds(case: &Case, journal: &Journal) -> Vec<Given> {
    let mut units = Units::ZERO;
    let mut volume = Volume::ZERO;
    let mut batches = case.batches(journal).into_iter();
    let given = |(index, round): (usize, &Round)| {
        units += round.units();
        volume += round.volume();
        Given {
            round: round.clone(),
            units_so_far: units,
            volume_so_far: volume,
            batches: batches.next().unwrap_or_default(),
            territory: case.territory_of(index).cloned(),
        }
    };
    case.treatment.rounds().iter().enumerate().map(given).collect()
}

#[cfg(test)]
mod tests;
