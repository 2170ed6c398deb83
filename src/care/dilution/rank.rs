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
use crate::measure::{Strength, Units, Volume};
use crate::protocol::plan_rank::{MOST_OF_A_METHOD, MOST_PLANS, MOST_SYRINGES};
use std::cmp::Reverse;

/// Recipes carried out to compare them, and recipes tried when none suffices. The others stand
/// behind these by their estimate.
const TRIED: usize = 4 * MOST_PLANS;

/// Every way to make what is asked for, best first; at least one, at most
/// [`MOST_PLANS`](crate::protocol::plan_rank::MOST_PLANS).
///
/// # Errors
/// [`Impossible`], with the nearest that can be made.
pub fn plans(ask: &Ask) -> Result<Vec<Plan>, Impossible> {
    let limits = sensible(ask)?;
    let mut candidates: Vec<Candidate> = search(ask, &limits)?
        .into_iter()
        .filter_map(|found| Candidate::weighed(found, ask, &limits))
        .collect();
    candidates.sort_by_key(|candidate| candidate.estimate);
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
        // Every recipe on the marks is one that a hand can do, so this is never reached; were it,
        // the strength would be the one to change.
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
    weighed.sort_by(|(here, a), (there, b)| {
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
