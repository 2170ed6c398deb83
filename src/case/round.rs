//! What a round is made of: the solution, the syringe in the hand, the volume for each point.

use super::Case;
use crate::care::allergy::Urgency;
use crate::care::dose::RoundPlan;
use crate::care::rounds::{InHand, in_hand, share};
use crate::measure::{Moment, Strength, Volume};

impl Case {
    /// When the solution was made that is meant for the round to come: after the last one was over,
    /// with one syringe of it ready at least. `None` if there is none.
    pub fn solution_for_next(&self) -> Option<Moment> {
        let made = self.preparation.as_ref().filter(|made| made.syringes_ready() > 0)?;
        let for_next = made.rounds_begun == self.treatment.rounds().len() && !made.in_a_round;
        for_next.then_some(made.at)
    }

    /// The strength of the round that is running. What else is made up meanwhile must have it too,
    /// since the round's units are counted at one strength.
    pub fn running_strength(&self) -> Option<Strength> {
        self.treatment.rounds().last().filter(|_| self.injecting()).map(|round| round.plan.strength)
    }

    /// The syringe in the hand, of those last prepared; `None` when they are empty.
    pub fn syringe_in_hand(&self) -> Option<InHand> {
        let made = self.preparation.as_ref()?;
        let syringes: Vec<Volume> =
            made.plan.syringes().iter().map(|syringe| syringe.volume).collect();
        let used = self.treatment.volume().saturating_sub(made.injected_before);
        let bolus = self.treatment.rounds().last().map_or(self.protocol.bolus, |r| r.plan.bolus);
        in_hand(&syringes, used, bolus)
    }

    /// Vials left of those that there were when the solution was planned; `None` if nobody said
    /// how many.
    pub fn vials_left(&self) -> Option<u32> {
        let plan = &self.preparation.as_ref()?.plan;
        Some(plan.ask().vials?.saturating_sub(plan.vials_used()))
    }

    /// Planned work: the volume that holds the dose chosen, to a mark of the syringe in the hand.
    pub fn planned_volume(&self) -> Option<Volume> {
        let plan = &self.preparation.as_ref()?.plan;
        let (_, dose) = self.filler?;
        let volume = plan.strength().volume_of(dose)?;
        // Less than half a mark cannot be laid to a mark; it is then laid as near as can be.
        let marked = volume.to_mark(plan.ask().syringe.interval());
        Some(if marked.is_zero() { volume } else { marked })
    }

    /// What goes into a point of a round: the volume at each point; in planned work what is left
    /// of the dose into the last.
    pub fn share(&self, plan: &RoundPlan, point: u32) -> Volume {
        let planned = self.planned_volume().filter(|_| self.urgency() == Some(Urgency::Planned));
        planned.map_or(plan.bolus, |total| share(point, plan, total))
    }

    /// The next round, as far as it is decided: the strength last made, the clinic's volume at each
    /// point, and the points of the territory; in planned work as many deposits as hold the dose.
    pub fn next_round(&self) -> Option<RoundPlan> {
        let strength = self.preparation.as_ref()?.plan.strength();
        let bolus = self.protocol.bolus;
        let points = match self.urgency()? {
            Urgency::Urgent => match self.next_grid() {
                Some(grid) => u32::try_from(grid.spots().len()).unwrap_or(u32::MAX),
                None => self.territory()?.points(self.protocol.spacing, &self.protocol),
            },
            Urgency::Planned => {
                u32::try_from(self.planned_volume()?.needs(bolus)).unwrap_or(u32::MAX)
            }
        };
        Some(RoundPlan { strength, bolus, points })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::care::allergy::Answers;
    use crate::care::dilution::{Ask, Movement, Plan, Syringe, Vial as Powder, plans};
    use crate::care::rounds::{Act, Phase};
    use crate::care::territory::{Size, Territory};
    use crate::case::{CaseId, Event, Journal, Reference, Step, StrikeReason};
    use crate::measure::{Area, Span, Strength, Units};
    use crate::protocol::Protocol;

    /// A case in which one thing happens each minute.
    struct Told(Journal, u64);

    impl Told {
        fn new(urgency: Urgency) -> Self {
            let mut told = Self(Journal::new(CaseId::from_random(1)), 600);
            told.then(Event::Opened {
                reference: Reference::new("Demo").unwrap(),
                protocol: Box::new(Protocol::default()),
            });
            told.then(Event::Way { urgency, aim: None });
            told.then(Event::Asked(Answers::default()));
            told.then(Event::Ready);
            told
        }

        fn then(&mut self, event: Event) {
            self.1 += 1;
            self.0.append(Moment::from_millis(0).after(Span::minutes(self.1)), 0, event);
        }

        fn case(&self) -> Case {
            Case::of(&self.0)
        }

        /// Chooses a solution for a dose, in 0.5 mL syringes.
        fn prepare(&mut self, strength: u64, dose: u64) -> Plan {
            let syringe = Syringe::new(Volume::ul(500), Volume::ul(10)).unwrap();
            let vial = Powder { units: Units::whole(1_500), holds: Volume::ml(3) };
            let strength = Strength::per_ml(strength);
            let ask = Ask::dose(vial, Some(4), strength, Units::whole(dose), syringe);
            let plan = plans(&ask).unwrap().remove(0);
            self.then(Event::Preparation(Box::new(plan.clone())));
            plan
        }

        /// Makes the movements up to and with the one that finishes the syringe.
        fn draw(&mut self, plan: &Plan, syringe: u32) {
            let end = plan.movements().iter().position(|movement| {
                matches!(movement, Movement::Finish { syringe: number } if *number == syringe)
            });
            let made = self.case().preparation.map_or(0, |made| made.done.len());
            for index in made..=end.unwrap() {
                self.then(Event::Drew(u32::try_from(index).unwrap()));
            }
        }

        fn act(&mut self, act: Act) {
            self.then(Event::Round(act));
        }
    }

    #[test]
    fn a_round_begins_with_the_first_syringe_and_its_clock_goes_before_the_second() {
        let mut told = Told::new(Urgency::Urgent);
        let size = Size::Typed(Area::cm2(8));
        told.then(Event::Territory(Territory::new(vec![], size, &Protocol::default()).unwrap()));
        let plan = told.prepare(500, 400);
        assert!(plan.syringes().len() > 1);
        assert_eq!((told.case().step(), told.case().solution_for_next()), (Step::Syringe, None));
        told.draw(&plan, 1);
        let case = told.case();
        assert_eq!(case.step(), Step::Syringe);
        assert!(case.solution_for_next().is_some());
        let round = case.next_round().unwrap();
        assert_eq!(round.points, 8);
        told.act(Act::Begin(round));
        let first = plan.syringes()[0].volume;
        for point in 1..=u32::try_from(first.fits(round.bolus)).unwrap() {
            assert_eq!(told.case().syringe_in_hand().unwrap().number, 1);
            told.act(Act::Inject { point, volume: round.bolus });
        }
        let case = told.case();
        assert_eq!((case.step(), case.preparation.unwrap().syringes_ready()), (Step::Rounds, 1));
        told.act(Act::Finish);
        let case = told.case();
        assert_eq!(case.step(), Step::Rounds, "the clock is not left for a syringe");
        assert_eq!(case.solution_for_next(), None, "made for the round before");
        assert_eq!(case.vials_left(), Some(4 - plan.vials_used()));
        let next = told.prepare(500, 400);
        assert_eq!(told.case().step(), Step::Syringe);
        told.draw(&next, 1);
        assert!(told.case().solution_for_next().is_some());
        assert_eq!(told.case().syringe_in_hand().unwrap().left, next.syringes()[0].volume);
    }

    #[test]
    fn a_solution_made_after_a_round_is_for_the_next_though_the_clock_was_set_back() {
        let mut told = Told::new(Urgency::Urgent);
        let size = Size::Typed(Area::cm2(4));
        told.then(Event::Territory(Territory::new(vec![], size, &Protocol::default()).unwrap()));
        let first = told.prepare(500, 200);
        told.draw(&first, 1);
        told.act(Act::Begin(told.case().next_round().unwrap()));
        told.act(Act::Inject { point: 1, volume: Volume::ul(100) });
        told.act(Act::Finish);
        let due = |told: &Told| {
            let case = told.case();
            match case.treatment.phase(case.last, &case.protocol) {
                Phase::Watching { due } => due,
                other => panic!("{other:?}"),
            }
        };
        let before = due(&told);
        let hours = Span::hours(3);
        told.1 -= hours.as_minutes();
        told.then(Event::ClockJumped(-i64::try_from(hours.as_millis()).unwrap()));
        assert_eq!(due(&told), before.before(hours));
        let next = told.prepare(500, 200);
        assert_eq!(told.case().step(), Step::Syringe);
        told.draw(&next, 1);
        let case = told.case();
        assert!(case.solution_for_next().is_some());
        assert_eq!(case.syringe_in_hand().unwrap().left, next.syringes()[0].volume);
    }

    #[test]
    fn what_was_drawn_for_a_solution_struck_out_is_not_drawn_for_the_one_before() {
        let mut told = Told::new(Urgency::Urgent);
        told.prepare(500, 400);
        let second = told.prepare(300, 400);
        let slip = told.0.head().unwrap();
        told.draw(&second, 1);
        told.then(Event::Struck { entry: slip, reason: StrikeReason::Slip });
        let made = told.case().preparation.unwrap();
        assert_eq!(made.plan.strength(), Strength::per_ml(500));
        assert_eq!((made.done.len(), made.syringes_ready()), (0, 0));
        told.then(Event::Drew(0));
        assert_eq!(told.case().preparation.unwrap().done.len(), 1, "from now on it is");
    }

    #[test]
    fn a_solution_made_in_the_middle_of_a_round_is_used_up_by_what_follows() {
        let mut told = Told::new(Urgency::Urgent);
        let size = Size::Typed(Area::cm2(8));
        told.then(Event::Territory(Territory::new(vec![], size, &Protocol::default()).unwrap()));
        told.prepare(500, 400);
        let plan = told.case().next_round().unwrap();
        told.act(Act::Begin(plan));
        told.act(Act::Inject { point: 1, volume: plan.bolus });
        let more = told.prepare(500, 300);
        told.draw(&more, 1);
        let whole = more.syringes()[0].volume;
        assert_eq!(told.case().syringe_in_hand().unwrap().left, whole);
        told.act(Act::Inject { point: 2, volume: plan.bolus });
        let left = told.case().syringe_in_hand().unwrap().left;
        assert_eq!(left, whole.saturating_sub(plan.bolus));
    }

    #[test]
    fn no_dose_is_lost_when_the_end_of_an_earlier_round_is_struck_out() {
        let mut told = Told::new(Urgency::Urgent);
        let size = Size::Typed(Area::cm2(2));
        told.then(Event::Territory(Territory::new(vec![], size, &Protocol::default()).unwrap()));
        told.prepare(500, 200);
        let plan = told.case().next_round().unwrap();
        let mut ends = Vec::new();
        for _ in 0..2 {
            told.act(Act::Begin(plan));
            for point in 1..=plan.points {
                told.act(Act::Inject { point, volume: plan.bolus });
            }
            told.act(Act::Finish);
            ends.push(told.0.head().unwrap());
        }
        let given = told.case().treatment.units();
        assert_eq!(given, plan.units().times(2));
        told.then(Event::Struck { entry: ends[0], reason: StrikeReason::Slip });
        let case = told.case();
        assert_eq!(case.treatment.units(), given);
        assert_eq!((case.treatment.rounds().len(), case.refused.len()), (2, 0));
        told.then(Event::Struck { entry: ends[1], reason: StrikeReason::Slip });
        assert!(told.case().injecting(), "the last one goes on");
    }

    #[test]
    fn deposits_lay_the_dose_chosen_to_a_mark_and_no_more() {
        let mut told = Told::new(Urgency::Planned);
        told.then(Event::Filler { volume: Volume::ul(300), dose: Units::whole(67) });
        let plan = told.prepare(300, 67);
        told.draw(&plan, 1);
        let case = told.case();
        let round = case.next_round().unwrap();
        let shares: Vec<Volume> =
            (1..=round.points).map(|point| case.share(&round, point)).collect();
        assert_eq!(shares, [Volume::ul(100), Volume::ul(100), Volume::ul(20)]);
        assert_eq!(case.planned_volume(), Some(Volume::ul(220)));
    }
}
