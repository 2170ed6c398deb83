//! The skin to be flooded, from time to time: its outline, and the grid that the next round takes.

use super::Case;
use crate::care::allergy::Urgency;
use crate::care::perfusion::State;
use crate::care::rounds::{Act, SyringeChange, changes};
use crate::care::territory::Territory;
use crate::measure::{Moment, Volume};
use crate::plane::Grid;

/// The territory as it was told at a moment.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Told {
    /// When.
    pub at: Moment,
    /// What it was.
    pub territory: Territory,
    /// Rounds that had begun by then. What came after what is told by the order of the record: the
    /// clock may have been set back in between.
    pub rounds_begun: usize,
}

impl Case {
    /// The skin to be flooded, as it was told last.
    pub fn territory(&self) -> Option<&Territory> {
        self.territories.last().map(|told| &told.territory)
    }

    /// The skin that a round, counted from 0, was begun on: what was told last before it.
    pub fn territory_of(&self, round: usize) -> Option<&Territory> {
        let before = self.territories.iter().rev().find(|told| told.rounds_begun <= round);
        before.map(|told| &told.territory)
    }

    /// The territories that show how the skin without blood grew or shrank: for each round the one
    /// that it was begun on, and what was told since the last.
    pub fn shrinking(&self) -> Vec<&Told> {
        let mut shown: Vec<&Told> = Vec::new();
        for told in &self.territories {
            // What was told anew before the same round replaces what was told first.
            if shown.last().is_some_and(|last| last.rounds_begun == told.rounds_begun) {
                shown.pop();
            }
            shown.push(told);
        }
        shown
    }

    /// The looks with all that was seen, first to last. The outline beside a look is the one told
    /// between the same two rounds; without one its surface is not compared.
    pub fn states(&self) -> Vec<State> {
        let looks = self.treatment.looks().iter().zip(self.treatment.rounds_over());
        looks
            .map(|((_, look), over)| {
                let told = self.territories.iter().rev().find(|told| told.rounds_begun == *over);
                State::of(look, told.map(|told| told.territory.area()))
            })
            .collect()
    }

    /// The grid of the round to come, where there is an outline to lay it on.
    pub fn next_grid(&self) -> Option<&Grid> {
        let lay = || self.territory()?.grid(self.protocol.spacing, &self.protocol);
        self.next_grid.get_or_init(lay).as_ref()
    }

    /// What begins the next round as it is planned; `None` as long as it is not.
    pub fn begin_next(&self) -> Option<Act> {
        let plan = self.next_round()?;
        let grid = self.next_grid().filter(|_| self.urgency() == Some(Urgency::Urgent));
        Some(match grid {
            Some(grid) => Act::BeginOn(plan, Box::new(grid.clone())),
            None => Act::Begin(plan),
        })
    }

    /// Where in the round that runs, or in the one to come, the syringe is changed: each point that
    /// is still open, in the order of their numbers.
    pub fn syringe_changes(&self) -> Vec<SyringeChange> {
        let Some(made) = &self.preparation else { return Vec::new() };
        let running = self.treatment.rounds().last().filter(|_| self.injecting());
        let (plan, open): (_, Vec<u32>) = match (running, self.next_round()) {
            (Some(round), _) => {
                let all = u32::try_from(round.points.len()).unwrap_or(u32::MAX);
                (round.plan, (1..=all).filter(|point| round.is_open(*point)).collect())
            }
            (None, Some(plan)) => (plan, (1..=plan.points).collect()),
            (None, None) => return Vec::new(),
        };
        let ahead: Vec<(u32, Volume)> =
            open.into_iter().map(|point| (point, self.share(&plan, point))).collect();
        let syringes: Vec<Volume> =
            made.plan.syringes().iter().map(|syringe| syringe.volume).collect();
        let used = self.treatment.volume().saturating_sub(made.injected_before);
        changes(&syringes, used, &ahead)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::care::allergy::Answers;
    use crate::care::dilution::{Ask, Movement, Syringe, Vial, plans};
    use crate::care::rounds::Refusal;
    use crate::care::territory::{Ground, Outlined, Size};
    use crate::case::{CaseId, Event, Journal, Reference, StrikeReason};
    use crate::measure::{Span, Strength, Units};
    use crate::plane::{Kind, Spot, Stroke, trace};
    use crate::protocol::Protocol;
    use crate::protocol::face::View;

    struct Record(Journal);

    impl Record {
        /// An urgent case that may be treated.
        fn new() -> Self {
            let mut record = Self(Journal::new(CaseId::from_random(2)));
            record.then(Event::Opened {
                reference: Reference::new("Demo").unwrap(),
                protocol: Box::new(Protocol::default()),
            });
            record.then(Event::Way { urgency: Urgency::Urgent, aim: None });
            record.then(Event::Asked(Answers::default()));
            record.then(Event::Ready);
            record
        }

        fn then(&mut self, event: Event) {
            let minutes = 1 + self.0.entries().len() as u64;
            self.0.append(Moment::from_millis(0).after(Span::minutes(minutes)), 0, event);
        }

        fn case(&self) -> Case {
            Case::of(&self.0)
        }

        /// Draws round a square of so many millimetres.
        fn draw(&mut self, mm: i32) {
            let corners = [(0, 0), (mm, 0), (mm, mm), (0, mm)];
            let spots = corners.map(|(x, y)| Spot::new(x * 100, y * 100)).to_vec();
            let outline = trace(&[Stroke { kind: Kind::Skin, spots }]).unwrap().outline;
            let ground = Ground::Drawing { view: View::Front, measured: None };
            let size = Size::Outlined(Box::new(Outlined { ground, outline }));
            let skin = Territory::new(vec![], size, &Protocol::default()).unwrap();
            self.then(Event::Territory(skin));
        }

        /// Makes a solution for so many points, in 1 mL syringes.
        fn prepare(&mut self, points: u64) {
            let syringe = Syringe::new(Volume::ml(1), Volume::ul(10)).unwrap();
            let vial = Vial { units: Units::whole(1_500), holds: Volume::ml(3) };
            let dose = Units::whole(50 * points);
            let ask = Ask::dose(vial, None, Strength::per_ml(500), dose, syringe);
            let plan = plans(&ask).unwrap().remove(0);
            let last = plan
                .movements()
                .iter()
                .rposition(|movement| matches!(movement, Movement::Finish { .. }));
            self.then(Event::Preparation(Box::new(plan)));
            for movement in 0..=last.unwrap() {
                self.then(Event::Drew(u32::try_from(movement).unwrap()));
            }
        }

        fn begin(&mut self) {
            let begin = self.case().begin_next().unwrap();
            self.then(Event::Round(begin));
        }

        fn inject(&mut self, point: u32) {
            self.then(Event::Round(Act::Inject { point, volume: Volume::ul(100) }));
        }
    }

    #[test]
    fn a_round_keeps_the_grid_that_it_was_begun_on() {
        let mut record = Record::new();
        record.draw(40);
        record.prepare(16);
        record.begin();
        let case = record.case();
        let round = &case.treatment.rounds()[0];
        let grid = round.grid.clone().unwrap();
        assert_eq!((round.plan.points, grid.spots().len()), (16, 16));
        assert_eq!(round.spot(16), grid.spots().last().copied());
        record.draw(20);
        record.inject(3);
        let case = record.case();
        assert_eq!(case.treatment.rounds()[0].grid, Some(grid));
        assert_eq!(case.territory_of(0).map(Territory::area), Some(crate::measure::Area::cm2(16)));
        let next = case.next_grid().unwrap();
        assert!(next.len() < 16 && next.spots().iter().all(|spot| spot.x <= 2_000));
        assert_eq!(case.next_round().map(|plan| plan.points as usize), Some(next.len()));
        assert_eq!(case.refused, []);
    }

    #[test]
    fn a_grid_of_another_size_than_the_plan_begins_nothing() {
        let mut record = Record::new();
        record.draw(40);
        record.prepare(16);
        let Some(Act::BeginOn(mut plan, grid)) = record.case().begin_next() else { panic!() };
        plan.points += 1;
        record.then(Event::Round(Act::BeginOn(plan, grid)));
        let case = record.case();
        assert_eq!(case.refused.first().map(|(_, why)| *why), Some(Refusal::GridDiffers));
        assert!(case.treatment.rounds().is_empty());
    }

    #[test]
    fn the_second_syringe_is_said_before_it_is_needed_in_whatever_order_points_are_taken() {
        let mut record = Record::new();
        record.draw(40);
        record.prepare(16);
        let second = |point| [SyringeChange { syringe: 2, point }];
        let first = record.case().preparation.unwrap().plan.syringes()[0].volume;
        let last_of_first = u32::try_from(first.needs(Volume::ul(100))).unwrap();
        assert_eq!(record.case().syringe_changes(), second(last_of_first + 1));
        record.begin();
        for point in [1, 2, 16] {
            record.inject(point);
        }
        assert_eq!(record.case().syringe_changes(), second(last_of_first));
        record.then(Event::Round(Act::Add { spot: Some(Spot::new(500, 500)) }));
        record.inject(17);
        assert_eq!(record.case().syringe_changes(), second(last_of_first - 1));
        assert_eq!(record.case().treatment.units(), Units::whole(200));
    }

    #[test]
    fn no_dose_is_lost_when_the_point_that_it_went_into_is_struck_out() {
        let mut record = Record::new();
        record.draw(40);
        record.prepare(16);
        record.begin();
        let mut added = Vec::new();
        for number in [17, 18] {
            record.then(Event::Round(Act::Add { spot: Some(Spot::new(100 * number, 500)) }));
            added.push(record.0.head().unwrap());
        }
        record.inject(17);
        record.inject(18);
        let given = record.case().treatment.units();
        record.then(Event::Struck { entry: added[0], reason: StrikeReason::Slip });
        let case = record.case();
        assert_eq!((case.treatment.units(), case.refused.len()), (given, 0));
        assert_eq!(case.treatment.rounds()[0].spot(18), Some(Spot::new(1_800, 500)));
    }

    #[test]
    fn the_outline_shrinks_from_round_to_round() {
        let mut record = Record::new();
        record.draw(50);
        record.draw(40);
        record.prepare(16);
        record.begin();
        record.inject(1);
        record.then(Event::Round(Act::Finish));
        record.draw(30);
        record.prepare(9);
        record.begin();
        record.then(Event::Round(Act::Finish));
        record.draw(20);
        record.draw(10);
        let case = record.case();
        let areas: Vec<u64> =
            case.shrinking().iter().map(|told| told.territory.area().raw()).collect();
        assert_eq!(areas, [1_600, 900, 100]);
        let of = |round| case.territory_of(round).map(|skin| skin.area().raw());
        assert_eq!((of(0), of(1), of(2)), (Some(1_600), Some(900), Some(100)));
    }
}
