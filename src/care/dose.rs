//! How many units: by grid and by facial area in an occlusion, by volume of filler in planned work.

use super::territory::Territory;
use crate::measure::order;
use crate::measure::{Length, Strength, Units, Volume};
use crate::protocol::Protocol;
use crate::protocol::filler_dose::PER;
use serde::{Deserialize, Serialize};

/// One round as it is to be injected.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct RoundPlan {
    /// Units per mL in the syringe.
    pub strength: Strength,
    /// Volume at each point.
    pub bolus: Volume,
    /// Points of the grid, or deposits.
    pub points: u32,
}

impl RoundPlan {
    /// Volume of the whole round.
    pub fn volume(&self) -> Volume {
        self.bolus.times(u64::from(self.points))
    }

    /// Units of the whole round.
    pub fn units(&self) -> Units {
        self.strength.units_in(self.volume())
    }

    /// Units at one point.
    pub fn units_per_point(&self) -> Units {
        self.strength.units_in(self.bolus)
    }
}

/// Where a round's dose stands against the range in force.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// Below the least that a consensus names for a first treatment.
    BelowConsensus,
    /// Below the usual range.
    Below,
    /// Within it.
    Within,
    /// Above it.
    Above,
}

/// What would bring a round into the range; one step each, all else the same.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Remedy {
    /// Another spacing of the grid.
    Spacing(Length),
    /// Another volume at each point.
    Bolus(Volume),
    /// Another strength.
    Strength(Strength),
}

/// An occlusion's round by both routes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Urgent {
    /// By grid: what is injected.
    pub plan: RoundPlan,
    /// Its units.
    pub by_grid: Units,
    /// By number of facial areas, if zones were named.
    pub by_areas: Option<Units>,
    /// At the one dose per cm² that was found published.
    pub by_published: Units,
    /// Against the range in force.
    pub standing: Standing,
    /// Whether the two routes differ by more than half of the smaller.
    pub disagree: bool,
    /// What would bring it into the range; empty when it is within.
    pub remedies: Vec<Remedy>,
}

/// Doses a round by grid and by facial area.
pub fn urgent(territory: &Territory, strength: Strength, protocol: &Protocol) -> Urgent {
    let plan = RoundPlan {
        strength,
        bolus: protocol.bolus,
        points: territory.points(protocol.spacing, protocol),
    };
    let by_grid = plan.units();
    let by_areas = territory.facial_areas().map(|n| protocol.area_units.times(u64::from(n)));
    let standing = standing(by_grid, protocol);
    // Units on a cm² times mm², a hundred of which make one.
    let by_published =
        Units::milli(protocol.per_area.raw().saturating_mul(territory.area().raw()) / 100);
    Urgent {
        plan,
        by_grid,
        by_areas,
        by_published,
        standing,
        disagree: by_areas.is_some_and(|areas| by_grid.gap(areas).times(2) > by_grid.min(areas)),
        remedies: remedies(territory, &plan, standing, protocol),
    }
}

/// Where `units` stand against the range in force for one round.
pub fn standing(units: Units, protocol: &Protocol) -> Standing {
    if units < protocol.least_units {
        Standing::BelowConsensus
    } else if units < protocol.round_low {
        Standing::Below
    } else if units > protocol.round_high {
        Standing::Above
    } else {
        Standing::Within
    }
}

fn remedies(
    territory: &Territory,
    plan: &RoundPlan,
    standing: Standing,
    protocol: &Protocol,
) -> Vec<Remedy> {
    let within = |plan: RoundPlan| self::standing(plan.units(), protocol) == Standing::Within;
    let entry = Protocol::entry;
    let spacings = entry(crate::protocol::Id::Spacing);
    let boluses = entry(crate::protocol::Id::Bolus);
    let strengths = entry(crate::protocol::Id::UrgentStrength);
    // The nearest first: each list runs away from the value in force.
    let nearest = |mut steps: Vec<u64>, here: u64| {
        order::by_key(&mut steps, |step| step.abs_diff(here));
        steps
    };
    if standing == Standing::Within {
        return Vec::new();
    }
    let whole_mm = (spacings.low.raw()..=spacings.high.raw()).step_by(10).collect();
    // To lay a grid takes time: only where the surface alone does not rule it out by far.
    let may_fit = |spacing: &Length| {
        let cells = territory.area().needs(spacing.by(*spacing));
        let units = plan.units_per_point().times(cells);
        units.times(2) >= protocol.round_low && units <= protocol.round_high.times(2)
    };
    let spacing = nearest(whole_mm, protocol.spacing.raw())
        .into_iter()
        .map(Length::tenths)
        .filter(|spacing| territory.outline().is_none() || may_fit(spacing))
        .find(|spacing| within(RoundPlan { points: territory.points(*spacing, protocol), ..*plan }))
        .map(Remedy::Spacing);
    let marks = (boluses.low.raw()..=boluses.high.raw()).step_by(10).collect();
    let bolus = nearest(marks, plan.bolus.raw())
        .into_iter()
        .map(Volume::ul)
        .find(|bolus| within(RoundPlan { bolus: *bolus, ..*plan }))
        .map(Remedy::Bolus);
    let whole = |units: u64| units / Units::PER;
    let fifties = (whole(strengths.low.raw())..=whole(strengths.high.raw())).step_by(50).collect();
    let strength = nearest(fifties, whole(plan.strength.in_one_ml().raw()))
        .into_iter()
        .map(Strength::per_ml)
        .find(|strength| within(RoundPlan { strength: *strength, ..*plan }))
        .map(Remedy::Strength);
    [spacing, bolus, strength].into_iter().flatten().collect()
}

/// A planned dose, as a range.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Planned {
    /// Fewest units.
    pub low: Units,
    /// Most units.
    pub high: Units,
    /// Volume that holds the fewest.
    pub low_volume: Volume,
    /// Volume that holds the most.
    pub high_volume: Volume,
    /// Deposits that lay the fewest.
    pub low_deposits: u32,
    /// Deposits that lay the most.
    pub high_deposits: u32,
    /// Volume of each deposit.
    pub deposit: Volume,
    /// More filler than usual: ask again.
    pub questioned: bool,
}

/// Doses planned work on `filler`, laid in deposits of `deposit`. `None` at zero strength or a
/// zero deposit, for then nothing can be laid.
pub fn planned(
    filler: Volume,
    strength: Strength,
    deposit: Volume,
    protocol: &Protocol,
) -> Option<Planned> {
    let for_all = |units: Units| Units::milli(units.raw().saturating_mul(filler.raw()) / PER.raw());
    let (low, high) = (for_all(protocol.filler_low), for_all(protocol.filler_high));
    let (low_volume, high_volume) = (strength.volume_of(low)?, strength.volume_of(high)?);
    if deposit.is_zero() {
        return None;
    }
    let count = |volume: Volume| u32::try_from(volume.needs(deposit)).unwrap_or(u32::MAX);
    Some(Planned {
        low,
        high,
        low_volume,
        high_volume,
        low_deposits: count(low_volume),
        high_deposits: count(high_volume),
        deposit,
        questioned: filler > protocol.filler_question,
    })
}

/// Units at hand after a number of vials, and what is still missing for a dose.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Supply {
    /// Vials that the dose takes.
    pub needed: u32,
    /// Vials that are missing; zero when there are enough.
    pub missing: u32,
    /// Whole rounds of this dose that the vials serve.
    pub rounds: u32,
}

/// Compares a round's dose with the vials at hand. A vial opened for one round is taken as used up
/// by it, since what is left is not kept for the next.
pub fn supply(dose: Units, vial: Units, at_hand: u32) -> Supply {
    let needed = u32::try_from(dose.needs(vial)).unwrap_or(u32::MAX);
    Supply {
        needed,
        missing: needed.saturating_sub(at_hand),
        rounds: at_hand.checked_div(needed).unwrap_or(0),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::care::territory::{Ground, Outlined, Size};
    use crate::measure::Area;
    use crate::plane::{Kind, Spot, Stroke, trace};
    use crate::protocol::face::View;
    use crate::protocol::zone::Zone;

    fn outlined_square(mm: i32, protocol: &Protocol) -> Territory {
        let corners = [(0, 0), (mm, 0), (mm, mm), (0, mm)];
        let spots = corners.map(|(x, y)| Spot::new(x * Spot::PER_MM, y * Spot::PER_MM)).to_vec();
        let outline = trace(&[Stroke { kind: Kind::Skin, spots }]).unwrap().outline;
        let ground = Ground::Drawing { view: View::Front, measured: None };
        let size = Size::Outlined(Box::new(Outlined { ground, outline }));
        Territory::new(vec![], size, protocol).unwrap()
    }

    fn skin(zones: &[Zone], cm2: u64) -> Territory {
        Territory::new(zones.to_vec(), Size::Typed(Area::cm2(cm2)), &Protocol::default()).unwrap()
    }

    #[test]
    fn both_routes_for_one_lip() {
        let dose =
            urgent(&skin(&[Zone::UpperLip], 11), Strength::per_ml(500), &Protocol::default());
        assert_eq!(dose.plan.points, 11);
        assert_eq!(dose.by_grid, Units::whole(550));
        assert_eq!(dose.by_areas, Some(Units::whole(500)));
        assert_eq!(dose.by_published, Units::whole(440));
        assert_eq!(dose.standing, Standing::Within);
        assert!(!dose.disagree && dose.remedies.is_empty());
    }

    #[test]
    fn too_little_says_what_would_help() {
        let dose = urgent(&skin(&[Zone::Ala], 3), Strength::per_ml(500), &Protocol::default());
        assert_eq!(dose.by_grid, Units::whole(150));
        assert_eq!(dose.standing, Standing::BelowConsensus);
        assert!(dose.disagree);
        assert_eq!(dose.remedies[0], Remedy::Spacing(Length::mm(5)));
        for remedy in dose.remedies {
            let plan = match remedy {
                Remedy::Spacing(spacing) => RoundPlan {
                    points: skin(&[], 3).points(spacing, &Protocol::default()),
                    ..dose.plan
                },
                Remedy::Bolus(bolus) => RoundPlan { bolus, ..dose.plan },
                Remedy::Strength(strength) => RoundPlan { strength, ..dose.plan },
            };
            assert_eq!(standing(plan.units(), &Protocol::default()), Standing::Within);
        }
    }

    #[test]
    fn an_outline_is_dosed_by_the_points_laid_in_it() {
        let protocol = Protocol::default();
        let skin = outlined_square(40, &protocol);
        let dose = urgent(&skin, Strength::per_ml(500), &protocol);
        let grid = skin.grid(protocol.spacing, &protocol).unwrap();
        assert_eq!((skin.area(), grid.spots().len()), (Area::cm2(16), 16));
        assert_eq!((dose.plan.points, dose.by_grid), (16, Units::whole(800)));
        // Too small for the range: what would bring it in is found by laying grids too.
        let small = outlined_square(15, &protocol);
        let dose = urgent(&small, Strength::per_ml(500), &protocol);
        assert!(dose.by_grid < protocol.round_low && !dose.remedies.is_empty());
        for remedy in dose.remedies {
            if let Remedy::Spacing(spacing) = remedy {
                let points = small.points(spacing, &protocol);
                let units = RoundPlan { points, ..dose.plan }.units();
                assert_eq!(standing(units, &protocol), Standing::Within);
            }
        }
    }

    #[test]
    fn planned_is_a_range() {
        let dose =
            planned(Volume::ul(300), Strength::per_ml(150), Volume::ul(100), &Protocol::default());
        let dose = dose.unwrap();
        assert_eq!((dose.low, dose.high), (Units::whole(45), Units::whole(90)));
        assert_eq!((dose.low_volume, dose.high_volume), (Volume::ul(300), Volume::ul(600)));
        assert_eq!((dose.low_deposits, dose.high_deposits), (3, 6));
        assert!(!dose.questioned);
    }

    #[test]
    fn vials_are_counted_by_round() {
        assert_eq!(
            supply(Units::whole(1_600), Units::whole(1_500), 5),
            Supply { needed: 2, missing: 0, rounds: 2 }
        );
        assert_eq!(supply(Units::whole(600), Units::whole(1_500), 0).missing, 1);
    }
}
