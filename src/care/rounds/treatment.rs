//! The state that acts fold into.

use super::{Act, End, Look, Point, Round};
use crate::care::allergy::Urgency;
use crate::care::dose::RoundPlan;
use crate::measure::{Moment, Span, Units, Volume};
use crate::plane::{Grid, Spot};
use crate::protocol::Protocol;

/// Where a treatment stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Phase {
    /// Before the first round.
    Ready,
    /// Injecting.
    Injecting,
    /// The hour between.
    Watching {
        /// When to look.
        due: Moment,
    },
    /// Time to look.
    Due {
        /// Since when.
        due: Moment,
    },
    /// Looked at: repeat, end or hand over.
    Looked,
    /// Over.
    Ended(End),
}

/// Why an act does not fit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Refusal {
    /// The treatment is over.
    Over,
    /// A round is running.
    RoundRuns,
    /// No round is running.
    NoRound,
    /// The round has no such point.
    NoSuchPoint,
    /// The point is settled already.
    PointSettled,
    /// A round of no points, or of more than any face takes.
    NoPoints,
    /// The grid has another number of points than the plan.
    GridDiffers,
}

/// A treatment, folded from its acts.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Treatment {
    /// An occlusion, or planned work.
    pub urgency: Urgency,
    rounds: Vec<Round>,
    looks: Vec<(Moment, Look)>,
    /// For each look, how many rounds were over when it was made. What came after what is told by
    /// the order of the record: the clock may have been set back in between.
    rounds_over: Vec<usize>,
    /// How long after the round before it the last look was made.
    waited: Option<Span>,
    /// By how many milliseconds the clock was set since the last round was over.
    clock_set: i64,
    end: Option<(Moment, End)>,
}

/// More points than any grid on a face; a longer list is a damaged record.
const MOST_POINTS: u32 = 10_000;

impl Treatment {
    /// Before anything happened.
    pub const fn new(urgency: Urgency) -> Self {
        Self {
            urgency,
            rounds: Vec::new(),
            looks: Vec::new(),
            rounds_over: Vec::new(),
            waited: None,
            clock_set: 0,
            end: None,
        }
    }

    /// Applies what happened at a moment.
    ///
    /// # Errors
    /// [`Refusal`] if it does not fit the state, which then stays as it was.
    pub fn apply(&mut self, at: Moment, act: &Act) -> Result<(), Refusal> {
        if self.end.is_some() {
            return Err(Refusal::Over);
        }
        match act {
            Act::Begin(plan) => self.begin(at, *plan, None),
            Act::BeginOn(plan, grid) => self.begin(at, *plan, Some((**grid).clone())),
            Act::Add { spot } => self.add(Point::Open, *spot),
            Act::Inject { point, volume } => self.settle(*point, Point::Injected(*volume)),
            Act::Skip { point, reason } => self.settle(*point, Point::Skipped(*reason)),
            Act::Finish => {
                self.running().ok_or(Refusal::NoRound)?.finished = Some(at);
                self.clock_set = 0;
                Ok(())
            }
            Act::Look(look) => {
                let finished = self.rounds.last().and_then(|round| round.finished);
                self.waited = finished.map(|over| at.since(over.on_clock_set_by(self.clock_set)));
                self.looks.push((at, look.clone()));
                self.rounds_over.push(self.over().count());
                Ok(())
            }
            Act::End(end) => {
                // Ending in the middle of a round closes it with what was given.
                if let Some(round) = self.running() {
                    round.finished = Some(at);
                }
                self.end = Some((at, *end));
                Ok(())
            }
        }
    }

    /// It is not over after all. What runs when there was no end goes on as it was.
    pub const fn take_up(&mut self) {
        self.end = None;
    }

    /// The phone's clock was set by so many milliseconds, back if negative. The look is due after
    /// the same time as before, which a clock set back now shows otherwise.
    ///
    /// A jump forward takes an earlier one back and no more: a device that slept in full view looks
    /// the same, and a look too early does less harm than one too late.
    pub fn clock_jumped(&mut self, millis: i64) {
        self.clock_set = self.clock_set.saturating_add(millis).min(0);
    }

    /// For each look, how many rounds were over when it was made.
    pub fn rounds_over(&self) -> &[usize] {
        &self.rounds_over
    }

    /// The rounds that are over.
    pub fn over(&self) -> impl Iterator<Item = &Round> {
        self.rounds.iter().filter(|round| round.finished.is_some())
    }

    fn begin(&mut self, at: Moment, plan: RoundPlan, grid: Option<Grid>) -> Result<(), Refusal> {
        if self.running().is_some() {
            return Err(Refusal::RoundRuns);
        }
        if plan.points == 0 || plan.points > MOST_POINTS {
            return Err(Refusal::NoPoints);
        }
        if grid.as_ref().is_some_and(|grid| grid.spots().len() != plan.points as usize) {
            return Err(Refusal::GridDiffers);
        }
        let points = vec![Point::Open; plan.points as usize];
        let added = Vec::new();
        self.rounds.push(Round { plan, begun: at, grid, points, added, finished: None });
        Ok(())
    }

    /// A point was added, which later turned out to be a slip. What was injected there all the same
    /// still counts: no dose gets lost.
    ///
    /// # Errors
    /// [`Refusal`] if it did not fit when it was added.
    pub fn added_by_mistake(&mut self, spot: Option<Spot>) -> Result<(), Refusal> {
        self.add(Point::Withdrawn, spot)
    }

    fn add(&mut self, point: Point, spot: Option<Spot>) -> Result<(), Refusal> {
        let round = self.running().ok_or(Refusal::NoRound)?;
        if round.points.len() >= MOST_POINTS as usize {
            return Err(Refusal::NoPoints);
        }
        round.points.push(point);
        round.added.push(spot);
        Ok(())
    }

    fn settle(&mut self, number: u32, settled: Point) -> Result<(), Refusal> {
        let round = self.running().ok_or(Refusal::NoRound)?;
        let index = number.checked_sub(1).ok_or(Refusal::NoSuchPoint)?;
        let point = round.points.get_mut(index as usize).ok_or(Refusal::NoSuchPoint)?;
        if !matches!(*point, Point::Open | Point::Withdrawn) {
            return Err(Refusal::PointSettled);
        }
        *point = settled;
        Ok(())
    }

    fn running(&mut self) -> Option<&mut Round> {
        self.rounds.last_mut().filter(|round| round.finished.is_none())
    }

    /// The rounds, first to last.
    pub fn rounds(&self) -> &[Round] {
        &self.rounds
    }

    /// The looks, first to last.
    pub fn looks(&self) -> &[(Moment, Look)] {
        &self.looks
    }

    /// How long after the round before it the last look was made, whatever the clock was set to in
    /// between; `None` for a look before treatment or in the middle of a round.
    pub const fn waited(&self) -> Option<Span> {
        self.waited
    }

    /// When and how it ended.
    pub const fn end(&self) -> Option<(Moment, End)> {
        self.end
    }

    /// Units injected in all rounds.
    pub fn units(&self) -> Units {
        self.rounds.iter().map(Round::units).sum()
    }

    /// Volume injected in all rounds.
    pub fn volume(&self) -> Volume {
        self.rounds.iter().map(Round::volume).sum()
    }

    /// Where it stands at `now`.
    pub fn phase(&self, now: Moment, protocol: &Protocol) -> Phase {
        if let Some((_, end)) = self.end {
            return Phase::Ended(end);
        }
        let Some(round) = self.rounds.last() else {
            return Phase::Ready;
        };
        let Some(finished) = round.finished else {
            return Phase::Injecting;
        };
        if self.rounds_over.last() == Some(&self.rounds.len()) {
            return Phase::Looked;
        }
        let due = finished.after(protocol.round_interval).on_clock_set_by(self.clock_set);
        if now < due { Phase::Watching { due } } else { Phase::Due { due } }
    }
}

#[cfg(test)]
mod tests {
    use super::super::Pain;
    use super::*;
    use crate::care::refill::{Colour, Refill};
    use crate::measure::{Span, Strength};

    const PLAN: RoundPlan =
        RoundPlan { strength: Strength::per_ml(500), bolus: Volume::ul(100), points: 3 };

    fn at(minutes: u64) -> Moment {
        Moment::from_millis(0).after(Span::minutes(minutes))
    }

    fn look(affected: u64, colour: Colour) -> Act {
        let refill =
            Refill { affected: Span::millis(affected), opposite: Some(Span::millis(1_500)) };
        Act::Look(Look { refill: Some(refill), ..Look::of(colour, Pain::NONE) })
    }

    fn round(treatment: &mut Treatment, start: u64) {
        treatment.apply(at(start), &Act::Begin(PLAN)).unwrap();
        for point in 1..=3 {
            let act = Act::Inject { point, volume: PLAN.bolus };
            treatment.apply(at(start), &act).unwrap();
        }
        treatment.apply(at(start + 5), &Act::Finish).unwrap();
    }

    #[test]
    fn an_hour_after_the_round_it_is_due() {
        let protocol = Protocol::default();
        let mut treatment = Treatment::new(Urgency::Urgent);
        assert_eq!(treatment.phase(at(0), &protocol), Phase::Ready);
        round(&mut treatment, 0);
        assert_eq!(treatment.units(), Units::whole(150));
        assert_eq!(treatment.phase(at(64), &protocol), Phase::Watching { due: at(65) });
        assert_eq!(treatment.phase(at(65), &protocol), Phase::Due { due: at(65) });
        treatment.apply(at(70), &look(1_500, Colour::Normal)).unwrap();
        assert_eq!(treatment.phase(at(70), &protocol), Phase::Looked);
    }

    #[test]
    fn a_look_counts_though_the_clock_was_set_back() {
        let protocol = Protocol::default();
        let mut treatment = Treatment::new(Urgency::Urgent);
        treatment.apply(at(999), &look(5_000, Colour::Pale)).unwrap();
        round(&mut treatment, 1_000);
        treatment.apply(at(900), &look(4_000, Colour::Pale)).unwrap();
        assert_eq!(treatment.phase(at(900), &protocol), Phase::Looked);
        assert_eq!(treatment.rounds_over(), [0, 1]);
        round(&mut treatment, 901);
        assert_eq!(treatment.phase(at(910), &protocol), Phase::Watching { due: at(966) });
    }

    #[test]
    fn a_clock_set_back_moves_what_is_due_with_it_and_none_puts_it_off() {
        let protocol = Protocol::default();
        let half_an_hour = 30 * 60_000;
        let mut treatment = Treatment::new(Urgency::Urgent);
        round(&mut treatment, 100);
        treatment.clock_jumped(-half_an_hour);
        assert_eq!(treatment.phase(at(100), &protocol), Phase::Watching { due: at(135) });
        treatment.clock_jumped(half_an_hour);
        treatment.clock_jumped(half_an_hour);
        assert_eq!(treatment.phase(at(164), &protocol), Phase::Watching { due: at(165) });
        treatment.apply(at(195), &look(5_000, Colour::Pale)).unwrap();
        assert_eq!(treatment.waited(), Some(Span::minutes(90)), "as it was, no clock being set");
        round(&mut treatment, 200);
        assert_eq!(treatment.phase(at(210), &protocol), Phase::Watching { due: at(265) });
    }

    #[test]
    fn a_point_is_settled_once() {
        let mut treatment = Treatment::new(Urgency::Urgent);
        let inject = Act::Inject { point: 1, volume: PLAN.bolus };
        assert_eq!(treatment.apply(at(0), &inject), Err(Refusal::NoRound));
        treatment.apply(at(0), &Act::Begin(PLAN)).unwrap();
        treatment.apply(at(0), &inject).unwrap();
        assert_eq!(treatment.apply(at(0), &inject), Err(Refusal::PointSettled));
        let beyond = Act::Inject { point: 4, volume: PLAN.bolus };
        assert_eq!(treatment.apply(at(0), &beyond), Err(Refusal::NoSuchPoint));
        assert_eq!(treatment.apply(at(0), &Act::Begin(PLAN)), Err(Refusal::RoundRuns));
        assert_eq!(treatment.rounds()[0].next(), Some(2));
    }

    #[test]
    fn a_point_added_by_hand_takes_the_next_number() {
        let mut treatment = Treatment::new(Urgency::Urgent);
        let spot = Some(Spot::new(1_200, 300));
        assert_eq!(treatment.apply(at(0), &Act::Add { spot }), Err(Refusal::NoRound));
        treatment.apply(at(0), &Act::Begin(PLAN)).unwrap();
        treatment.apply(at(0), &Act::Add { spot }).unwrap();
        let round = &treatment.rounds()[0];
        assert_eq!((round.points.len(), round.spot(4), round.spot(1)), (4, spot, None));
        assert!(round.is_open(4) && !round.is_open(0) && !round.is_open(5));
        treatment.apply(at(0), &Act::Inject { point: 4, volume: PLAN.bolus }).unwrap();
        let round = &treatment.rounds()[0];
        assert_eq!((round.open(), round.next()), (3, Some(1)));
        assert_eq!(round.units(), Units::whole(50));
        // A slip is not offered, keeps its number, and what was injected there counts.
        treatment.added_by_mistake(None).unwrap();
        treatment.apply(at(0), &Act::Add { spot: None }).unwrap();
        let round = &treatment.rounds()[0];
        assert!(round.is_open(6) && !round.is_open(5) && round.open() == 4);
        treatment.apply(at(0), &Act::Inject { point: 5, volume: PLAN.bolus }).unwrap();
        assert_eq!(treatment.units(), Units::whole(100));
    }
}
