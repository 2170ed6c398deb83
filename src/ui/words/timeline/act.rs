//! What was done: the skin test, the preparation, the rounds.

use super::{refill, sentences};
use crate::care::dilution::Plan;
use crate::care::dose::RoundPlan;
use crate::care::refill::readings::Side;
use crate::care::rounds::{Act, Look};
use crate::care::skin_test;
use crate::ui::words::{dilution, looking, numbers, outline, rounds, situation};

type Line = (String, Option<String>);

/// A skin test placed or looked at.
pub(super) fn skin_test(act: &skin_test::Act) -> Line {
    match act {
        skin_test::Act::Place(placed) => {
            let bleb = placed.bleb.map_or_else(
                || "Bleb not measured".to_owned(),
                |bleb| format!("Bleb {}", numbers::length_named(bleb)),
            );
            let dose = numbers::units_named(placed.dose);
            (format!("Skin test: {dose} in {}", numbers::volume_named(placed.volume)), Some(bleb))
        }
        skin_test::Act::Read(seen) => {
            let wheal = if seen.wheal.is_zero() {
                "No wheal".to_owned()
            } else {
                format!("Wheal {}", numbers::length_named(seen.wheal))
            };
            let signs = [
                (seen.flare, "redness"),
                (seen.itch, "itch"),
                (seen.pseudopods, "branches"),
                (seen.systemic, "signs away from the site"),
            ];
            let seen: Vec<String> = std::iter::once(wheal)
                .chain(signs.into_iter().filter(|(there, _)| *there).map(|(_, name)| name.into()))
                .collect();
            ("Skin test looked at".to_owned(), Some(seen.join(", ")))
        }
    }
}

/// How the solution is made.
pub(super) fn preparation(plan: &Plan) -> Line {
    let delivered = plan.delivered();
    let text = format!("Preparation chosen: {}", numbers::strength_named(plan.strength()));
    let syringes = u32::try_from(plan.syringes().len()).unwrap_or(u32::MAX);
    let detail = sentences([
        dilution::method(plan.method()),
        format!(
            "{} in {}",
            numbers::units_named(delivered.units),
            numbers::volume_named(delivered.volume)
        ),
        format!(
            "{}, {}: {}",
            numbers::count(plan.vials_used(), "vial", "vials"),
            numbers::count(syringes, "syringe", "syringes"),
            dilution::syringe(plan.ask().syringe)
        ),
        format!("Expected {}", dilution::spread(plan.expected().both)),
    ]);
    (text, Some(detail))
}

/// A round, its points, the looks, the end.
pub(super) fn round(act: &Act) -> Line {
    match act {
        Act::Begin(plan) => ("Round begun".to_owned(), Some(planned(plan))),
        Act::BeginOn(plan, grid) => {
            let grid = format!(
                "{} grid, points {} apart",
                outline::lattice(grid.lattice()),
                numbers::length_named(grid.spacing())
            );
            ("Round begun".to_owned(), Some(sentences([planned(plan), grid])))
        }
        Act::Add { spot } => {
            let text = if spot.is_some() {
                "Point added by hand, on the drawing"
            } else {
                "Point added by hand"
            };
            (text.to_owned(), None)
        }
        Act::Inject { point, volume } => {
            (format!("Point {point} injected: {}", numbers::volume_named(*volume)), None)
        }
        Act::Skip { point, reason } => {
            (format!("Point {point} left out"), Some(rounds::skip(*reason).to_owned()))
        }
        Act::Finish => ("Round done".to_owned(), None),
        Act::Look(look) => {
            let flags: Vec<String> =
                look.red_flags.iter().map(|flag| situation::red_flag(*flag).to_owned()).collect();
            let detail = sentences(
                [
                    look.refill.map_or_else(|| "Refill not timed".to_owned(), refill),
                    format!("Colour: {}", situation::colour(look.colour).to_ascii_lowercase()),
                    format!("Pain {} of {}", look.pain.score(), crate::care::rounds::Pain::WORST),
                ]
                .into_iter()
                .chain(felt(look))
                .chain(flags),
            );
            ("Skin looked at".to_owned(), Some(detail))
        }
        Act::End(end) => ("Treatment ended".to_owned(), Some(rounds::end(*end))),
    }
}

/// What was felt and tried, and how often refill was read, as far as a look has it.
fn felt(look: &Look) -> impl Iterator<Item = String> {
    let readings = Side::BOTH.into_iter().filter_map(|side| readings(look, side));
    let temperature = look.temperature.map(|felt| situation::temperature(felt).to_owned());
    let function = look.function.map(|tried| situation::function(tried).to_owned());
    let photo = look.photo.map(|photo| format!("Photo {}", photo.short()));
    readings.chain([temperature, function, photo].into_iter().flatten())
}

/// The single readings of a side, in the order taken; `None` if it was not read.
fn readings(look: &Look, side: Side) -> Option<String> {
    let times: Vec<String> =
        look.readings.of(side).iter().map(|reading| numbers::seconds(reading.time)).collect();
    let name = looking::side(side);
    (!times.is_empty()).then(|| format!("{name}, readings {} s", times.join(", ")))
}

fn planned(plan: &RoundPlan) -> String {
    format!(
        "{} at {}, {} each: {} in all",
        numbers::count(plan.points, "point", "points"),
        numbers::strength_named(plan.strength),
        numbers::volume_named(plan.bolus),
        numbers::units_named(plan.units())
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::care::dose::RoundPlan;
    use crate::care::refill::readings::Reading;
    use crate::care::refill::{Colour, Refill};
    use crate::care::rounds::Pain;
    use crate::measure::{Span, Strength, Volume};

    #[test]
    fn a_round_says_what_was_planned_in_all() {
        let plan =
            RoundPlan { strength: Strength::per_ml(500), bolus: Volume::ul(100), points: 14 };
        let (text, detail) = round(&Act::Begin(plan));
        assert_eq!(text, "Round begun");
        assert_eq!(
            detail.as_deref(),
            Some("14 points at 500 units/mL, 0.10 mL each: 700 units in all")
        );
    }

    #[test]
    fn a_look_says_what_was_not_timed_too() {
        let look = |refill| Look { refill, ..Look::of(Colour::Mottled, Pain::new(6).unwrap()) };
        let said = |refill| round(&Act::Look(look(refill))).1.unwrap();
        assert_eq!(said(None), "Refill not timed. Colour: mottled. Pain 6 of 10");
        let timed = Refill { affected: Span::millis(6_200), opposite: None };
        assert!(said(Some(timed)).starts_with("Refill 6.2 s, other side not timed"));
    }

    #[test]
    fn a_look_names_its_readings() {
        let mut look = Look::of(Colour::Pale, Pain::NONE);
        for time in [4_200, 4_000] {
            let reading = Reading::timed(Span::millis(time), Span::seconds(5));
            look.readings.add(Side::Affected, reading).unwrap();
        }
        let said = round(&Act::Look(look)).1.unwrap();
        assert!(said.contains("Affected side, readings 4.2, 4.0 s"), "{said}");
        assert!(!said.contains("Other side"), "{said}");
    }
}
