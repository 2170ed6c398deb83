//! What was done in a rehearsal, and what came of it.

mod besides;
mod findings;
mod looks;
mod outcome;
mod played;

use super::Scenario;
use super::given::until;
use crate::care::rounds::{Point, Round};
use crate::care::situation::RedFlag;
use crate::case::{Case, Journal};
use crate::measure::{Moment, Span, Units, Volume};
use crate::protocol::PerMille;
use crate::protocol::simulation::NEED;
use findings::findings;
use outcome::outcome;
use played::Played;
use serde::{Deserialize, Serialize};

/// How it ended for the patient.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Outcome {
    /// The skin has its blood back.
    Perfused,
    /// It is on its way: treated rightly, and the effect is still coming.
    Recovering,
    /// Skin is still without blood.
    NotPerfused,
    /// Skin is lost.
    SkinLost,
    /// Handed over, and that was right.
    HandedOverRightly,
    /// Handed over though it could have been treated here.
    HandedOverWithoutNeed,
    /// A sign that goes before everything was not acted on.
    Missed(RedFlag),
}

/// How something was done.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Verdict {
    /// As it should be.
    Good,
    /// It can be done better.
    Improve,
    /// A patient can come to harm by it.
    Dangerous,
}

/// What a finding is about. Each comes once at most, in this order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum What {
    /// From the start until it was taken for urgent; the figure is the time.
    Recognised,
    /// Signs that go before everything were asked for at the start.
    FlagsAsked,
    /// Allergy was asked before the first unit.
    AllergyAsked,
    /// Readiness for a reaction was confirmed before the first unit.
    ReadyConfirmed,
    /// There is a look, or refill read at the start, from before the first unit.
    BaselineLook,
    /// The other side was timed at each look that timed refill; the figure is the looks without.
    OtherSideTimed,
    /// Movements of the preparation were checked by a second person; the figure is those that
    /// were not.
    MovementsChecked,
    /// Vials out of date that were used; the figure is how many.
    ExpiredVial,
    /// From the start until the first unit; the figure is the time.
    FirstUnit,
    /// How much of the skin without blood was reached in the round that reached most; the figure is
    /// that part.
    Coverage,
    /// Points left open when a round was over; the figure is how many.
    PointsOpen,
    /// Points left out for a reason; the figure is how many.
    PointsSkipped,
    /// Units on each cm² of the true area, or of the skin told where that is larger, in the round of
    /// fewest; the figure is those units.
    Density,
    /// The strength was too weak for full effect; the figure is the units in one mL.
    Strength,
    /// Looks made later than due, or still due; the figure is how late in all.
    LooksOverdue,
    /// Rounds begun without a look at the one before; the figure is how many.
    LooksLeftOut,
    /// From the moment that sight went until it was noticed; the figure is the time.
    SightNoticed,
    /// From the moment that sight went until the hand-over; the figure is the time.
    SightHandedOver,
    /// Units given after sight went; the figure is how many.
    EnzymeAfterSight,
    /// From the first sign of the reaction until it was noticed; the figure is the time.
    ReactionNoticed,
    /// From the first sign of the reaction until the first adrenaline; the figure is the time.
    Adrenaline,
    /// A dose of adrenaline outside the region's range; the figure is its volume.
    AdrenalineDose,
    /// The emergency number was called in the reaction; the figure is the time from its first sign.
    Called,
    /// Units given while the reaction ran; the figure is how many.
    EnzymeInReaction,
    /// Aspirin was given without all being asked.
    AspirinUnasked,
    /// Aspirin was given though an answer forbids it.
    AspirinForbidden,
    /// It was closed as done before the skin had its blood back; the figure is the part still
    /// blocked.
    ClosedTooEarly,
    /// Treatment went on until the end point, or until it was handed over rightly; the figure is
    /// the rounds given.
    Ended,
}

/// The number beside a finding.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Figure {
    /// A time.
    Span(Span),
    /// How many.
    Count(u32),
    /// Units of enzyme.
    Units(Units),
    /// A volume of adrenaline.
    Volume(Volume),
    /// A part, in thousandths.
    Part(PerMille),
}

/// One thing that was done or left out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Finding {
    /// What.
    pub what: What,
    /// How.
    pub verdict: Verdict,
    /// How much, where that says something.
    pub figure: Option<Figure>,
}

/// How long things took. What did not happen has no time.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Times {
    /// From the first sign seen, in the presence of the clinician, until the way was taken as urgent.
    pub recognition: Option<Span>,
    /// From the start until the first unit.
    pub first_unit: Option<Span>,
    /// From the first sign of the reaction until the first adrenaline.
    pub first_adrenaline: Option<Span>,
    /// From the sign that asked for it until the hand-over.
    pub handover: Option<Span>,
    /// From the start until the skin had its blood back.
    pub perfused: Option<Span>,
}

/// What was given, against what the patient of the model needed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Given {
    /// Rounds begun.
    pub rounds: u32,
    /// Units in all.
    pub units: Units,
    /// Units in the round of fewest; zero without a round.
    pub fewest: Units,
    /// Units in the round of most; zero without a round.
    pub most: Units,
    /// Units on each cm² of the true area, or of the skin told where that is larger, in the round of
    /// fewest; zero without a round.
    pub per_cm2: Units,
    /// What the model needs on each cm², each round.
    pub needed: Units,
    /// Fewest units usual in a round, as the case had it.
    pub round_low: Units,
    /// Most units usual in a round, as the case had it.
    pub round_high: Units,
    /// How much of the skin without blood was reached in the round that reached most.
    pub coverage: PerMille,
    /// Points left open when a round was over.
    pub open: u32,
    /// Points left out for a reason.
    pub skipped: u32,
}

/// Looks that came late.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Overdue {
    /// How many.
    pub looks: u32,
    /// How late in all.
    pub by: Span,
    /// The latest.
    pub worst: Span,
}

/// A rehearsal, looked back on.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Debrief {
    /// Which scenario.
    pub scenario: Scenario,
    /// When it was begun.
    pub start: Moment,
    /// When it was looked back on.
    pub at: Moment,
    /// How it ended for the patient.
    pub outcome: Outcome,
    /// Whether that is as good an end as this patient could have.
    pub good: bool,
    /// How long things took.
    pub times: Times,
    /// What was given.
    pub given: Given,
    /// Looks that came late.
    pub overdue: Overdue,
    /// What was done and left out, in the order of [`What`].
    pub findings: Vec<Finding>,
}

/// Looks back on a rehearsal as it stands at `now`, or as it was ended.
pub fn debrief(scenario: Scenario, start: Moment, journal: &Journal, now: Moment) -> Debrief {
    let now = now.max(start);
    let journal = until(journal, now);
    let case = Case::of(&journal);
    let played = Played::of(scenario, start, &journal, &case, now);
    let (outcome, good) = outcome(&played);
    let (given, overdue) = (given(&played), looks::overdue(&played));
    let findings = findings(&played, &given, overdue, good);
    Debrief {
        scenario,
        start,
        at: now,
        outcome,
        good,
        times: times(&played),
        given,
        overdue,
        findings,
    }
}

fn times(played: &Played) -> Times {
    let onset = played.reaction.as_ref().map(|(onset, _)| *onset);
    let from_start = |at: Option<Moment>| at.map(|at| played.since_start(at));
    let handover = match (played.sight, onset) {
        (Some(gone), _) => played.handed_over(gone).map(|at| at.since(gone)),
        (None, Some(onset)) => played.called(onset).map(|at| at.since(onset)),
        (None, None) => from_start(played.handed_over(played.start)),
    };
    Times {
        recognition: from_start(played.urgent()),
        first_unit: from_start(played.first_unit()),
        first_adrenaline: onset.and_then(|onset| Some(played.adrenaline(onset)?.since(onset))),
        handover,
        perfused: played.skin.back,
    }
}

fn given(played: &Played) -> Given {
    let rounds = played.case.treatment.rounds();
    // A round that a sign cut short was rightly stopped, and is not held against anybody.
    let whole = || rounds.iter().filter(|round| !played.cut_short(round));
    let each = || played.laid.iter().zip(&played.skin.at_round);
    let densities = each().zip(rounds).filter(|(_, round)| !played.cut_short(round)).map(
        |((laid, area), _)| {
            laid.per_cm2(*area, laid.injections.iter().map(|injection| injection.units).sum())
        },
    );
    let covered = each().map(|(round, area)| {
        let reaches = round.injections.iter().map(|injection| injection.reaches).sum();
        round.covered(*area, reaches)
    });
    let over = || whole().filter(|round| round.finished.is_some());
    let skipped = rounds.iter().flat_map(|round| &round.points);
    let skipped = skipped.filter(|point| matches!(point, Point::Skipped(_))).count();
    Given {
        rounds: looks::count(rounds.len()),
        units: played.case.treatment.units(),
        fewest: whole().map(Round::units).min().unwrap_or_default(),
        most: rounds.iter().map(Round::units).max().unwrap_or_default(),
        per_cm2: densities.min().unwrap_or_default(),
        needed: NEED,
        round_low: played.case.protocol.round_low,
        round_high: played.case.protocol.round_high,
        coverage: PerMille(u32::try_from(covered.max().unwrap_or(0)).unwrap_or_default()),
        open: over().map(Round::open).fold(0, u32::saturating_add),
        skipped: looks::count(skipped),
    }
}
