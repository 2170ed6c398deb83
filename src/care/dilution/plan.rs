//! One way to make what was asked for, worked out to the end.

use super::ask::{Ask, Wanted};
use super::bench::{Bench, Broken};
use super::limits::{Nearness, off, sensible};
use super::movement::{Contents, Movement, Stage};
use super::spread::Expected;
use crate::measure::{Strength, Units, Volume};
use serde::{Deserialize, Serialize};

/// How a plan comes to its strength. Volumes are those of a full syringe; the last syringe may be
/// filled with less of the same proportion.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Method {
    /// The vial is dissolved at the strength itself and drawn as it is.
    WholeVial {
        /// Diluent for each vial.
        diluent: Volume,
    },
    /// A stronger stock in the vial; a little of it is made up in the syringe.
    StockThenDilute {
        /// Diluent for each vial.
        stock: Volume,
        /// The stock drawn, and the mark that it is made up to.
        step: Step,
    },
    /// The same, several times over in the syringe: make up, mix, expel, make up again.
    Stepwise {
        /// Diluent for each vial.
        stock: Volume,
        /// The first is drawn from the vial, each further one expelled down to.
        steps: Vec<Step>,
    },
}

impl Method {
    /// Diluent for each vial.
    pub const fn diluent(&self) -> Volume {
        match self {
            Self::WholeVial { diluent: volume }
            | Self::StockThenDilute { stock: volume, .. }
            | Self::Stepwise { stock: volume, .. } => *volume,
        }
    }

    /// Reads it from the movements: the diluent of the first vial and the steps of the fullest
    /// syringe.
    fn of(movements: &[Movement]) -> Self {
        let mut stock = Volume::ZERO;
        let (mut here, mut steps) = (Volume::ZERO, Vec::new());
        let (mut fullest, mut best) = (Volume::ZERO, Vec::new());
        for &movement in movements {
            match movement {
                Movement::Dissolve { vial } => {
                    stock += if vial == 1 { here } else { Volume::ZERO };
                    here = Volume::ZERO;
                }
                Movement::DrawDiluent { to }
                | Movement::DrawFromVial { to, .. }
                | Movement::Expel { to } => here = to,
                Movement::MakeUp { to } => {
                    steps.push(Step { from: here, to });
                    here = to;
                }
                Movement::Finish { .. } => {
                    let steps = std::mem::take(&mut steps);
                    if here > fullest {
                        (fullest, best) = (here, steps);
                    }
                    here = Volume::ZERO;
                }
            }
        }
        match best.as_slice() {
            [] => Self::WholeVial { diluent: stock },
            [step] => Self::StockThenDilute { stock, step: *step },
            _ => Self::Stepwise { stock, steps: best },
        }
    }
}

/// A volume made up to another.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Step {
    /// The mark before.
    pub from: Volume,
    /// The mark after.
    pub to: Volume,
}

/// Units of the opened vials that do not serve what was wanted, by where they are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Waste {
    /// Left in the vials.
    pub in_vials: Units,
    /// Discarded on the way.
    pub expelled: Units,
    /// In the finished syringes, above what was wanted.
    pub surplus: Units,
}

impl Waste {
    /// All of it.
    pub fn total(self) -> Units {
        self.in_vials + self.expelled + self.surplus
    }
}

/// Why a plan stands before the next one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Reason {
    /// There is no other.
    OnlyWay,
    /// It meets the strength exactly, the next does not.
    ExactStrength,
    /// It comes nearer to the strength.
    CloserStrength,
    /// It takes fewer movements.
    FewerMovements,
    /// Less of the opened vials goes unused.
    LessWaste,
    /// More of its draws end at a round number.
    RounderMarks,
    /// Its strength is known more narrowly.
    NarrowerInterval,
    /// It is neither better nor worse; the one with less diluent stands first.
    Alike,
}

/// A way to make what was asked for. It can only be had whole: every figure in it follows from the
/// ask and the movements, which have been walked through on the bench.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "Written", into = "Written")]
pub struct Plan {
    ask: Ask,
    movements: Vec<Movement>,
    reasons: Vec<Reason>,
    method: Method,
    strength: Strength,
    deviation: i64,
    expected: Expected,
    syringes: Vec<Contents>,
    waste: Waste,
    vials: u32,
}

/// A plan as it is stored. The figures are worked out again when it is read, so they cannot
/// disagree with the movements.
#[derive(Clone, Serialize, Deserialize)]
struct Written {
    ask: Ask,
    movements: Vec<Movement>,
    reasons: Vec<Reason>,
}

impl Plan {
    /// Walks the movements and works out what comes of them.
    pub(super) fn of(ask: Ask, movements: Vec<Movement>) -> Result<Self, Broken> {
        sensible(&ask).map_err(|_| Broken::NoSuchAsk)?;
        let mut bench = Bench::new(&ask);
        for &movement in &movements {
            bench.apply(movement)?;
        }
        if !bench.satisfied() || !bench.empty_handed() {
            return Err(Broken::Unfinished);
        }
        let trace = bench.outcome.ok_or(Broken::Unfinished)?;
        let strength = trace.strength().ok_or(Broken::Unmeasurable)?;
        Nearness::of(strength, &ask).ok_or(Broken::UnlikeStrengths)?;
        let gap = i64::try_from(off(strength, ask.target).div_ceil(1_000)).unwrap_or(i64::MAX);
        let deviation = if strength < ask.target { -gap } else { gap };
        let expected = trace.expected().ok_or(Broken::Unmeasurable)?;
        let totals = bench.totals;
        let surplus = match ask.wanted {
            Wanted::Dose(units) => totals.delivered.saturating_sub(units),
            Wanted::Volume(volume) => strength.units_in(totals.volume.saturating_sub(volume)),
        };
        let waste = Waste { in_vials: bench.left(), expelled: totals.expelled, surplus };
        let syringes = bench.filled;
        let reasons = Vec::new();
        Ok(Self {
            method: Method::of(&movements),
            ask,
            movements,
            reasons,
            strength,
            deviation,
            expected,
            syringes,
            waste,
            vials: totals.vials,
        })
    }

    pub(super) fn because(self, reasons: Vec<Reason>) -> Self {
        Self { reasons, ..self }
    }

    /// What it answers.
    pub const fn ask(&self) -> &Ask {
        &self.ask
    }

    /// How it comes to its strength.
    pub const fn method(&self) -> &Method {
        &self.method
    }

    /// Every movement in order.
    pub fn movements(&self) -> &[Movement] {
        &self.movements
    }

    /// Why it stands before the next of the same answer: first what decided, then what else speaks
    /// for it. Empty for the last of several.
    pub fn reasons(&self) -> &[Reason] {
        &self.reasons
    }

    /// The exact strength that comes of it.
    pub const fn strength(&self) -> Strength {
        self.strength
    }

    /// How far that is above (or, negative, below) the strength asked for, in thousandths of it,
    /// rounded away from zero: 0 only if it is exact.
    pub const fn deviation(&self) -> i64 {
        self.deviation
    }

    /// Whether the strength is exactly the one asked for.
    pub fn is_exact(&self) -> bool {
        self.strength == self.ask.target
    }

    /// Where the strength may really lie.
    pub const fn expected(&self) -> &Expected {
        &self.expected
    }

    /// The finished syringes, in the order in which they are filled.
    pub fn syringes(&self) -> &[Contents] {
        &self.syringes
    }

    /// What is in the finished syringes together.
    pub fn delivered(&self) -> Contents {
        let volume = self.syringes.iter().map(|syringe| syringe.volume).sum();
        Contents { units: self.syringes.iter().map(|syringe| syringe.units).sum(), volume }
    }

    /// What of the opened vials does not serve.
    pub const fn waste(&self) -> Waste {
        self.waste
    }

    /// How many vials it opens.
    pub const fn vials_used(&self) -> u32 {
        self.vials
    }

    /// Each movement with the syringe and the vial before and after it.
    pub fn walk(&self) -> Vec<Stage> {
        let mut bench = Bench::new(&self.ask);
        // No movement is dropped here: all of them were done once to make this plan.
        self.movements.iter().filter_map(|&movement| bench.apply(movement).ok()).collect()
    }
}

impl TryFrom<Written> for Plan {
    type Error = Broken;
    fn try_from(written: Written) -> Result<Self, Broken> {
        let plan = Self::of(written.ask, written.movements)?;
        Ok(plan.because(written.reasons))
    }
}

impl From<Plan> for Written {
    fn from(plan: Plan) -> Self {
        let Plan { ask, movements, reasons, .. } = plan;
        Self { ask, movements, reasons }
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Syringe, Vial};
    use super::*;

    fn ask(wanted: Wanted) -> Ask {
        let vial = Vial { units: Units::whole(1500), holds: Volume::ml(3) };
        let syringe = Syringe::new(Volume::ml(1), Volume::ul(10)).unwrap();
        Ask { vial, vials: Some(1), target: Strength::per_ml(500), wanted, syringe }
    }

    /// 1500 in 1 mL, 0.33 mL of it made up to 1 mL.
    fn a_third() -> Vec<Movement> {
        vec![
            Movement::DrawDiluent { to: Volume::ml(1) },
            Movement::Dissolve { vial: 1 },
            Movement::DrawFromVial { vial: 1, to: Volume::ul(330) },
            Movement::MakeUp { to: Volume::ml(1) },
            Movement::Finish { syringe: 1 },
        ]
    }

    #[test]
    fn every_figure_comes_from_the_movements() {
        let plan = Plan::of(ask(Wanted::Dose(Units::whole(480))), a_third()).unwrap();
        assert_eq!(plan.strength(), Strength::per_ml(495));
        assert_eq!((plan.deviation(), plan.is_exact()), (-10, false));
        let waste = plan.waste();
        assert_eq!((waste.in_vials, waste.expelled), (Units::whole(1_005), Units::ZERO));
        assert_eq!((waste.surplus, waste.total()), (Units::whole(15), Units::whole(1_020)));
        assert_eq!(plan.delivered().volume, Volume::ml(1));
        let step = Step { from: Volume::ul(330), to: Volume::ml(1) };
        assert_eq!(plan.method(), &Method::StockThenDilute { stock: Volume::ml(1), step });
    }

    #[test]
    fn a_volume_has_its_surplus_in_units_too() {
        let plan = Plan::of(ask(Wanted::Volume(Volume::ul(800))), a_third()).unwrap();
        assert_eq!(plan.waste().surplus, Units::whole(99));
    }

    #[test]
    fn what_gives_too_little_or_stops_midway_is_no_plan() {
        let short = Plan::of(ask(Wanted::Dose(Units::whole(496))), a_third());
        assert_eq!(short, Err(Broken::Unfinished));
        let short = Plan::of(ask(Wanted::Volume(Volume::ul(1_010))), a_third());
        assert_eq!(short, Err(Broken::Unfinished));
        let mut midway = a_third();
        midway.push(Movement::DrawDiluent { to: Volume::ml(1) });
        let midway = Plan::of(ask(Wanted::Dose(Units::whole(480))), midway);
        assert_eq!(midway, Err(Broken::Unfinished));
        let nothing = Plan::of(ask(Wanted::Dose(Units::whole(480))), Vec::new());
        assert_eq!(nothing, Err(Broken::Unfinished));
    }

    #[test]
    fn what_answers_another_ask_is_no_plan() {
        let mut other = ask(Wanted::Dose(Units::whole(480)));
        other.target = Strength::per_ml(300);
        assert_eq!(Plan::of(other, a_third()), Err(Broken::UnlikeStrengths));
        other.target = Strength::per_ml(0);
        assert_eq!(Plan::of(other, a_third()), Err(Broken::NoSuchAsk));
    }

    #[test]
    fn the_method_is_that_of_the_fullest_syringe() {
        let step = |from, to| Step { from: Volume::ul(from), to: Volume::ul(to) };
        let mut movements = vec![
            Movement::DrawDiluent { to: Volume::ml(1) },
            Movement::Dissolve { vial: 1 },
            Movement::DrawDiluent { to: Volume::ul(500) },
            Movement::Dissolve { vial: 1 },
        ];
        assert_eq!(Method::of(&movements).diluent(), Volume::ul(1_500));
        for (syringe, to) in [(1, 200), (2, 1_000), (3, 500)] {
            movements.extend([
                Movement::DrawFromVial { vial: 1, to: Volume::ul(100) },
                Movement::MakeUp { to: Volume::ml(1) },
                Movement::Expel { to: Volume::ul(to / 10) },
                Movement::MakeUp { to: Volume::ul(to) },
                Movement::Finish { syringe },
            ]);
        }
        let steps = vec![step(100, 1_000), step(100, 1_000)];
        assert_eq!(Method::of(&movements), Method::Stepwise { stock: Volume::ul(1_500), steps });
        // A second vial is dissolved like the first and adds nothing to what one vial gets.
        movements
            .extend([Movement::DrawDiluent { to: Volume::ml(1) }, Movement::Dissolve { vial: 2 }]);
        assert_eq!(Method::of(&movements).diluent(), Volume::ul(1_500));
    }
}
