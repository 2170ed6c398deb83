//! How a volume is shared out over the points.

use crate::care::dose::RoundPlan;
use crate::measure::Volume;

/// What goes into a point, numbered from 1, when `total` is to be laid: a whole bolus, and into the
/// last what is left. A point past the total still gets a whole one; the plan has none.
pub fn share(point: u32, plan: &RoundPlan, total: Volume) -> Volume {
    let before = plan.bolus.times(u64::from(point.saturating_sub(1)));
    let left = total.saturating_sub(before).min(plan.bolus);
    if left.is_zero() { plan.bolus } else { left }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::Strength;

    #[test]
    fn the_last_point_gets_what_is_left_and_all_points_lay_the_total() {
        for total in 1..=400 {
            let total = Volume::ul(total);
            let bolus = Volume::ul(100);
            let points = u32::try_from(total.needs(bolus)).unwrap();
            let plan = RoundPlan { strength: Strength::per_ml(300), bolus, points };
            let laid: Volume = (1..=points).map(|point| share(point, &plan, total)).sum();
            assert_eq!(laid, total);
            assert!((1..points).all(|point| share(point, &plan, total) == bolus));
        }
    }
}
