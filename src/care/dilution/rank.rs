//! Which way stands first, and why.
//!
//! In this order: how near the strength comes (exact, close, fair); fewest movements; least of the
//! opened vials unused; nearest strength; most draws on round marks; narrowest interval. What is
//! then still alike stands by its diluent, so that the same ask always has the same answer.

use super::ask::{Ask, Impossible, Wanted};
use super::limits::{Limits, Nearness, off, sensible};
use super::plan::{Method, Plan, Reason};
use super::recipe::{Recipe, Short};
use super::search::{Found, search};
use crate::measure::order;
use crate::measure::{Strength, Units, Volume};
use crate::protocol::plan_rank::{MOST_OF_A_METHOD, MOST_PLANS, MOST_SYRINGES};
use std::cmp::Reverse;

/// Recipes carried out to compare them, and recipes tried when none suffices. The others stand
/// behind these by their estimate.
const TRIED: usize = 4 * MOST_PLANS;

/// Every way to make what is asked for, best first; at least one, at most
/// [`MOST_PLANS`].
///
/// # Errors
/// [`Impossible`], with the nearest that can be made.
pub fn plans(ask: &Ask) -> Result<Vec<Plan>, Impossible> {
    let limits = sensible(ask)?;
    let mut candidates: Vec<Candidate> = search(ask, &limits)?
        .into_iter()
        .filter_map(|found| Candidate::weighed(found, ask, &limits))
        .collect();
    order::by_key(&mut candidates, |candidate| candidate.estimate);
    let mut plans: Vec<Plan> = Vec::new();
    let mut most: Option<Short> = None;
    for (tried, candidate) in candidates.iter().enumerate() {
        if plans.len() >= TRIED || (tried >= TRIED && (candidate.estimate.0 || tried > 4 * TRIED)) {
            break;
        }
        match candidate.recipe.carry_out(ask, &limits) {
            Ok(movements) => plans.extend(Plan::of(*ask, movements).ok()),
            Err(short) => most = more(most, short),
        }
    }
    if plans.is_empty() {
        return Err(refusal(most, ask, &limits));
    }
    Ok(ordered(plans))
}

/// A recipe with what is thought of it before it is carried out.
struct Candidate {
    recipe: Recipe,
    /// Whether it will not make enough; how little it makes then; how near; movements; odd marks;
    /// diluent. Less is better.
    estimate: (bool, Reverse<u128>, Nearness, u64, usize, u64),
}

impl Candidate {
    fn weighed(found: Found, ask: &Ask, limits: &Limits) -> Option<Self> {
        let Found { recipe, nearness } = found;
        let interval = ask.syringe.interval();
        let strength = recipe.strength(ask)?;
        let wanted = match ask.wanted {
            Wanted::Volume(volume) => volume,
            Wanted::Dose(units) => strength.volume_of(units)?,
        };
        let of_vials = recipe.yield_of_vial().saturating_mul(u64::from(limits.vials));
        let of_syringes = (recipe.full * recipe.whole).saturating_mul(u64::from(MOST_SYRINGES));
        let reach = interval.times(of_vials.min(of_syringes));
        // Rounding to the milli-unit may add that much in each syringe.
        let short = match ask.wanted {
            Wanted::Volume(volume) => reach < volume,
            Wanted::Dose(units) => {
                strength.units_in(reach) + Units::milli(u64::from(MOST_SYRINGES)) < units
            }
        };
        let reach = match ask.wanted {
            _ if !short => 0,
            Wanted::Volume(_) => reach.raw(),
            Wanted::Dose(_) => strength.units_in(reach).raw(),
        };
        let movements = recipe.movements_for(wanted.needs(interval), ask.syringe.marks());
        let odd = recipe.odd_marks(ask.syringe.round_step().fits(interval));
        let diluent = recipe.diluent;
        let estimate = (short, Reverse(u128::from(reach)), nearness, movements, odd, diluent);
        Some(Self { recipe, estimate })
    }
}

/// Of two that fell short, the one that made more.
fn more(most: Option<Short>, short: Short) -> Option<Short> {
    let made = |short: Short| match short {
        Short::OfVials(made) | Short::OfSyringes(made) => match made {
            Wanted::Dose(units) => units.raw(),
            Wanted::Volume(volume) => volume.raw(),
        },
        Short::Undoable => 0,
    };
    most.filter(|&most| made(most) >= made(short)).or(Some(short))
}

fn refusal(most: Option<Short>, ask: &Ask, limits: &Limits) -> Impossible {
    match most {
        Some(Short::OfVials(possible)) if !possible.is_zero() => {
            Impossible::VialsRunOut { vials: limits.vials, possible }
        }
        Some(Short::OfSyringes(possible)) if !possible.is_zero() => {
            Impossible::TooManySyringes { most: MOST_SYRINGES, possible }
        }
        // Reached only by asks for less than a unit, which no hand can make: the strength is what to
        // change.
        _ => Impossible::OffMarks { nearest: ask.target },
    }
}

/// What is compared, in the order of its weight.
#[derive(PartialEq, Eq, PartialOrd, Ord)]
struct Weight {
    nearness: Nearness,
    movements: usize,
    waste: Units,
    off: u64,
    odd_marks: usize,
    width: Units,
}

impl Weight {
    fn of(plan: &Plan) -> Self {
        let step = plan.ask().syringe.round_step();
        let odd = |mark: &Volume| !mark.on_mark(step);
        Self {
            nearness: nearness(plan.strength(), plan.ask()),
            movements: plan.movements().len(),
            waste: plan.waste().total(),
            off: off(plan.strength(), plan.ask().target),
            odd_marks: plan.movements().iter().filter_map(|m| m.mark()).filter(odd).count(),
            width: plan.expected().both.width(),
        }
    }

    /// In what this is better than `next`, weightiest first.
    fn reasons(&self, next: &Self) -> Vec<Reason> {
        let strength = if self.nearness == Nearness::Exact {
            Reason::ExactStrength
        } else {
            Reason::CloserStrength
        };
        let better = [
            (self.nearness < next.nearness, strength),
            (self.movements < next.movements, Reason::FewerMovements),
            (self.waste < next.waste, Reason::LessWaste),
            (self.nearness == next.nearness && self.off < next.off, Reason::CloserStrength),
            (self.odd_marks < next.odd_marks, Reason::RounderMarks),
            (self.width < next.width, Reason::NarrowerInterval),
        ];
        let mut reasons: Vec<Reason> =
            better.into_iter().filter_map(|(better, reason)| better.then_some(reason)).collect();
        if reasons.is_empty() {
            reasons.push(Reason::Alike);
        }
        reasons
    }
}

/// A plan's strength was near enough when its recipe was found.
fn nearness(strength: Strength, ask: &Ask) -> Nearness {
    Nearness::of(strength, ask).unwrap_or(Nearness::Fair)
}

/// Sorted, without repetition, few of each method, with reasons.
fn ordered(plans: Vec<Plan>) -> Vec<Plan> {
    let mut weighed: Vec<(Weight, Plan)> =
        plans.into_iter().map(|plan| (Weight::of(&plan), plan)).collect();
    order::by(&mut weighed, |(here, a), (there, b)| {
        here.cmp(there).then_with(|| {
            a.method().diluent().cmp(&b.method().diluent()).then(a.movements().cmp(b.movements()))
        })
    });
    let mut kept: Vec<(Weight, Plan)> = Vec::new();
    for (weight, plan) in weighed {
        let alike =
            |other: &Method| std::mem::discriminant(other) == std::mem::discriminant(plan.method());
        let of_method: Vec<&Method> =
            kept.iter().map(|(_, plan)| plan.method()).filter(|other| alike(other)).collect();
        // The same stock drawn otherwise is not another way, only a worse one.
        let repeated = of_method.iter().any(|m| m.diluent() == plan.method().diluent());
        if !repeated && of_method.len() < MOST_OF_A_METHOD && kept.len() < MOST_PLANS {
            kept.push((weight, plan));
        }
    }
    let mut reasons: Vec<Vec<Reason>> =
        kept.windows(2).map(|pair| pair[0].0.reasons(&pair[1].0)).collect();
    reasons.push(if kept.len() == 1 { vec![Reason::OnlyWay] } else { Vec::new() });
    kept.into_iter().zip(reasons).map(|((_, plan), why)| plan.because(why)).collect()
}

#[cfg(test)]
mod tests {
    use super::super::{Syringe, Vial};
    use super::*;

    fn ask(target: u64, dose: u64) -> Ask {
        let vial = Vial { units: Units::whole(1500), holds: Volume::ml(3) };
        let syringe = Syringe::new(Volume::ml(1), Volume::ul(10)).unwrap();
        Ask::dose(vial, Some(1), Strength::per_ml(target), Units::whole(dose), syringe)
    }

    fn order(ask: &Ask) -> Vec<(u64, Vec<Reason>)> {
        let diluent = |plan: &Plan| plan.method().diluent().raw();
        plans(ask).unwrap().iter().map(|p| (diluent(p), p.reasons().to_vec())).collect()
    }

    #[test]
    fn movements_decide_before_the_interval() {
        let order = order(&ask(500, 500));
        // 1.5 mL of stock in two strokes, then half and half; the vial itself in three strokes; the
        // usual stock, whose third leaves a syringe of 0.9 mL and makes a second one necessary.
        assert_eq!(order[0], (1_500, vec![Reason::FewerMovements]));
        assert_eq!(order[1], (3_000, vec![Reason::NarrowerInterval]));
        assert_eq!(order[2].0, 1_000);
        assert!(order.last().unwrap().1.is_empty());
    }

    #[test]
    fn what_decided_stands_first_and_what_else_is_better_after_it() {
        let order = order(&ask(500, 1_500));
        let reasons = vec![Reason::FewerMovements, Reason::NarrowerInterval];
        assert_eq!(order[0], (3_000, reasons));
    }

    #[test]
    fn a_single_way_says_so() {
        assert_eq!(order(&ask(1500, 1_500)), [(1_000, vec![Reason::OnlyWay])]);
    }

    #[test]
    fn each_criterion_gives_its_reason() {
        let plan = plans(&ask(500, 500)).unwrap().remove(0);
        let same = || Weight::of(&plan);
        let worse: [(Weight, Reason); 6] = [
            (Weight { nearness: Nearness::Fair, ..same() }, Reason::ExactStrength),
            (Weight { movements: usize::MAX, ..same() }, Reason::FewerMovements),
            (Weight { waste: Units::milli(u64::MAX), ..same() }, Reason::LessWaste),
            (Weight { off: 1, ..same() }, Reason::CloserStrength),
            (Weight { odd_marks: 9, ..same() }, Reason::RounderMarks),
            (Weight { width: Units::milli(u64::MAX), ..same() }, Reason::NarrowerInterval),
        ];
        for (worse, reason) in &worse {
            assert!(same() < *worse, "{reason:?}");
            assert_eq!(same().reasons(worse), [*reason]);
        }
        for pair in worse.windows(2) {
            assert!(pair[0].0 > pair[1].0, "{:?} weighs more", pair[0].1);
        }
        let close = || Weight { nearness: Nearness::Close, off: 5, ..same() };
        let fair = Weight { nearness: Nearness::Fair, off: 50, ..same() };
        assert_eq!(close().reasons(&fair), [Reason::CloserStrength]);
        assert_eq!(same().reasons(&same()), [Reason::Alike]);
    }

    #[test]
    fn few_of_each_method_and_no_stock_twice() {
        let answer = plans(&ask(75, 200)).unwrap();
        assert!(answer.len() > MOST_OF_A_METHOD);
        for plan in &answer {
            let kind = std::mem::discriminant(plan.method());
            let alike: Vec<Volume> = answer
                .iter()
                .map(Plan::method)
                .filter(|method| std::mem::discriminant(*method) == kind)
                .map(Method::diluent)
                .collect();
            assert!(alike.len() <= MOST_OF_A_METHOD);
            let of_this = alike.iter().filter(|&&diluent| diluent == plan.method().diluent());
            assert_eq!(of_this.count(), 1);
        }
    }

    #[test]
    fn what_the_vials_give_is_named_to_the_milli_unit() {
        let possible = Wanted::Dose(Units::whole(1_500));
        let refused = Impossible::VialsRunOut { vials: 1, possible };
        assert_eq!(plans(&ask(500, 1_501)), Err(refused));
        let none_counted = Ask { vials: None, ..ask(1500, 60_001) };
        let possible = Wanted::Dose(Units::whole(60_000));
        let refused = Impossible::VialsRunOut { vials: 40, possible };
        assert_eq!(plans(&none_counted), Err(refused));
    }

    #[test]
    fn a_hundred_syringes_are_enough() {
        let many = Ask { vials: None, ..ask(500, 50_001) };
        let possible = Wanted::Dose(Units::whole(50_000));
        assert_eq!(plans(&many), Err(Impossible::TooManySyringes { most: 100, possible }));
        let volume = Ask { wanted: Wanted::Volume(Volume::ul(u64::MAX)), ..many };
        let possible = Wanted::Volume(Volume::ml(100));
        assert_eq!(plans(&volume), Err(Impossible::TooManySyringes { most: 100, possible }));
    }

    #[test]
    fn the_weakest_is_named() {
        // 1500 in 3 mL, 0.1, 0.09 and 0.09 mL each made up to 1 mL.
        let weakest = Strength::of(Units::milli(405), Volume::ml(1)).unwrap();
        let weak =
            Ask { target: Strength::of(Units::milli(300), Volume::ml(1)).unwrap(), ..ask(1, 1) };
        assert_eq!(plans(&weak), Err(Impossible::TooWeak { weakest }));
    }

    #[test]
    fn wide_marks_have_a_nearest() {
        // One vial of 200 in 1.5 mL, or half a millilitre of 400 in 1.5 mL: 133 for 150.
        let syringe = Syringe::new(Volume::ml(5), Volume::ul(500)).unwrap();
        let vial = Vial { units: Units::whole(200), holds: Volume::ul(2_400) };
        let nearest = Strength::of(Units::whole(200), Volume::ul(1_500)).unwrap();
        let coarse = Ask { vial, syringe, ..ask(150, 100) };
        assert_eq!(plans(&coarse), Err(Impossible::OffMarks { nearest }));
    }

    #[test]
    fn a_trace_more_does_not_take_another_syringe() {
        let trace = Ask { wanted: Wanted::Dose(Units::milli(300_001)), ..ask(500, 1) };
        for plan in plans(&trace).unwrap() {
            assert_eq!(plan.syringes().len(), 1, "{:?}", plan.method());
        }
    }

    #[test]
    fn more_vials_than_a_clinic_keeps_are_not_counted_on() {
        let possible = Wanted::Dose(Units::whole(60_000));
        let refused = Impossible::VialsRunOut { vials: 40, possible };
        let many = Ask { vials: Some(u32::MAX), ..ask(1500, 60_001) };
        assert_eq!(plans(&many), Err(refused));
    }
}
