//! Which batches each round was made from, gathered from the journal: the case itself keeps only the
//! solution made last.

use super::{Case, Event, Journal};
use crate::care::rounds::Act;
use crate::measure::Hash;
use std::collections::BTreeMap;

/// A solution: its vials by number, and the rounds that it was there for.
#[derive(Default)]
struct Made<'a> {
    vials: BTreeMap<u32, &'a str>,
    rounds: Vec<usize>,
}

impl Case {
    /// Batches that each round was made from, in the rounds' order; each once, and only those noted.
    ///
    /// A vial counts for each round that its solution was at hand for, also where its batch was noted
    /// afterwards.
    pub fn batches(&self, journal: &Journal) -> Vec<Vec<String>> {
        let mut made: Vec<(Hash, Made)> = Vec::new();
        let mut begun = 0;
        let mut running = false;
        for entry in self.standing(journal) {
            match entry.event() {
                Event::Preparation(_) => {
                    let rounds = if running { vec![begun - 1] } else { Vec::new() };
                    made.push((entry.id(), Made { rounds, ..Made::default() }));
                }
                Event::Vial(vial) => {
                    if let Some(made) = vial.solution_in(&mut made) {
                        made.vials.insert(vial.number, vial.batch.trim());
                    }
                }
                Event::Round(Act::Begin(_) | Act::BeginOn(..)) => {
                    if let Some((_, made)) = made.last_mut() {
                        made.rounds.push(begun);
                    }
                    begun += 1;
                    running = true;
                }
                Event::Round(Act::Finish | Act::End(_)) => running = false,
                _ => {}
            }
        }
        let of = |round: usize| {
            let mut batches: Vec<String> = Vec::new();
            let there =
                made.iter().map(|(_, made)| made).filter(|made| made.rounds.contains(&round));
            for batch in there.flat_map(|made| made.vials.values()) {
                if !batch.is_empty() && batches.iter().all(|known| known != batch) {
                    batches.push((*batch).to_owned());
                }
            }
            batches
        };
        (0..begun).map(of).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::care::dilution::{Ask, Syringe, Vial as Powder, plans};
    use crate::care::dose::RoundPlan;
    use crate::case::{CaseId, StrikeReason};
    use crate::kit::Vial;
    use crate::measure::{Moment, Span, Strength, Units, Volume};

    const ROUND: RoundPlan =
        RoundPlan { strength: Strength::per_ml(500), bolus: Volume::ul(100), points: 1 };

    /// A case in which one thing happens each minute.
    struct Told(Journal, u64);

    impl Told {
        fn then(&mut self, event: Event) -> Hash {
            self.1 += 1;
            self.0.append(Moment::from_millis(0).after(Span::minutes(self.1)), 0, event).id()
        }

        fn prepare(&mut self) -> Hash {
            let syringe = Syringe::new(Volume::ml(1), Volume::ul(10)).unwrap();
            let powder = Powder { units: Units::whole(1_500), holds: Volume::ml(3) };
            let ask = Ask::dose(powder, None, ROUND.strength, Units::whole(500), syringe);
            self.then(Event::Preparation(Box::new(plans(&ask).unwrap().remove(0))))
        }

        fn vial(&mut self, number: u32, batch: &str) -> Hash {
            self.vial_of(None, number, batch)
        }

        fn vial_of(&mut self, solution: Option<Hash>, number: u32, batch: &str) -> Hash {
            let units = Units::whole(1_500);
            self.then(Event::Vial(Vial {
                number,
                units,
                batch: batch.into(),
                expiry: None,
                from: None,
                solution,
            }))
        }

        fn round(&mut self) {
            self.then(Event::Round(Act::Begin(ROUND)));
            self.then(Event::Round(Act::Inject { point: 1, volume: ROUND.bolus }));
            self.then(Event::Round(Act::Finish));
        }

        fn batches(&self) -> Vec<Vec<String>> {
            Case::of(&self.0).batches(&self.0)
        }
    }

    #[test]
    fn each_round_has_the_batches_of_its_own_solution() {
        let mut told = Told(Journal::new(CaseId::from_random(1)), 0);
        told.prepare();
        told.vial(1, "DEMO-1");
        told.round();
        // Two rounds out of one solution; its second vial noted when the second had begun.
        told.prepare();
        told.vial(1, " DEMO-2 ");
        told.round();
        told.then(Event::Round(Act::Begin(ROUND)));
        told.vial(2, "DEMO-2");
        let slip = told.vial(3, "DEMO-9");
        told.then(Event::Struck { entry: slip, reason: StrikeReason::Slip });
        // One more made in the middle of it, and nothing noted.
        told.prepare();
        told.vial(1, "");
        told.vial(2, "DEMO-3");
        assert_eq!(
            told.batches(),
            [vec!["DEMO-1"], vec!["DEMO-2"], vec!["DEMO-2", "DEMO-3"]]
                .map(|batches| batches.into_iter().map(str::to_owned).collect::<Vec<_>>())
        );
    }

    #[test]
    fn a_vial_of_a_solution_struck_out_is_in_no_round() {
        let mut told = Told(Journal::new(CaseId::from_random(1)), 0);
        told.prepare();
        told.vial(1, "DEMO-1");
        told.round();
        let slip = told.prepare();
        told.vial(1, "DEMO-8");
        told.vial(2, "DEMO-9");
        told.then(Event::Struck { entry: slip, reason: StrikeReason::Slip });
        assert_eq!(told.batches(), [["DEMO-1"]]);
        // Struck out, the hand is back at the one before: a vial noted now is of that.
        told.vial(2, "DEMO-2");
        assert_eq!(told.batches(), [["DEMO-1", "DEMO-2"]]);
        // One made after it is its own, though nobody has yet struck out the one between.
        let slip = told.prepare();
        told.vial(1, "DEMO-9");
        told.prepare();
        told.vial(1, "DEMO-3");
        told.round();
        told.then(Event::Struck { entry: slip, reason: StrikeReason::Slip });
        assert_eq!(told.batches(), [vec!["DEMO-1", "DEMO-2"], vec!["DEMO-3"]]);
    }

    #[test]
    fn a_vial_noted_late_is_of_the_solution_that_it_names() {
        let mut told = Told(Journal::new(CaseId::from_random(1)), 0);
        let first = told.prepare();
        told.round();
        let second = told.prepare();
        told.vial(1, "DEMO-2");
        told.round();
        told.vial_of(Some(first), 1, "DEMO-1");
        assert_eq!(told.batches(), [["DEMO-1"], ["DEMO-2"]]);
        let case = Case::of(&told.0);
        assert_eq!(case.preparation.unwrap().vials[&1].batch, "DEMO-2");
        // What is made and struck out meanwhile takes nothing of it away.
        let slip = told.prepare();
        told.vial_of(Some(second), 2, "DEMO-3");
        told.vial(2, "DEMO-9");
        told.then(Event::Struck { entry: slip, reason: StrikeReason::Slip });
        assert_eq!(told.batches(), [vec!["DEMO-1"], vec!["DEMO-2", "DEMO-3"]]);
        assert_eq!(Case::of(&told.0).preparation.unwrap().vials.len(), 2);
        // Struck out itself, it takes its own vials along, whenever they were noted.
        told.then(Event::Struck { entry: first, reason: StrikeReason::Slip });
        assert_eq!(told.batches()[0], [""; 0]);
    }

    #[test]
    fn a_round_that_was_refused_is_none() {
        let mut told = Told(Journal::new(CaseId::from_random(1)), 0);
        told.prepare();
        told.vial(1, "DEMO-1");
        told.then(Event::Round(Act::Begin(ROUND)));
        told.then(Event::Round(Act::Begin(ROUND)));
        assert_eq!(told.batches(), [["DEMO-1"]]);
        let case = Case::of(&told.0);
        assert_eq!(case.batches(&told.0).len(), case.treatment.rounds().len());
    }
}
