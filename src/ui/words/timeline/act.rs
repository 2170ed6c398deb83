//! What was done: the skin test, the preparation, the rounds.

use super::{refill, sentences};
use crate::care::dilution::Plan;
use crate::care::dose::RoundPlan;
use crate::care::refill::readings::Side;
use crate::care::rounds::{Act, Look};
use crate::care::skin_test;
use crate::ui::language::{spoken, within};
use crate::ui::words::{dilution, looking, numbers, outline, round_screens, rounds, situation};

type Line = (String, Option<String>);

/// A skin test placed or looked at.
pub(super) fn skin_test(act: &skin_test::Act) -> Line {
    match act {
        skin_test::Act::Place(placed) => {
            let bleb = placed.bleb.map_or_else(
                || tr!("Bleb not measured"),
                |bleb| tr!("Bleb {length}", length = numbers::length_named(bleb)),
            );
            let dose = numbers::units_named(placed.dose);
            let volume = numbers::volume_named(placed.volume);
            (tr!("Skin test: {dose} in {volume}", dose, volume), Some(bleb))
        }
        skin_test::Act::Read(seen) => {
            let wheal = if seen.wheal.is_zero() {
                tr!("No wheal")
            } else {
                tr!("Wheal {length}", length = numbers::length_named(seen.wheal))
            };
            let signs = [
                (seen.flare, spoken("redness")),
                (seen.itch, spoken("itch")),
                (seen.pseudopods, spoken("branches")),
                (seen.systemic, spoken("signs away from the site")),
            ];
            let seen: Vec<String> = std::iter::once(wheal)
                .chain(signs.into_iter().filter(|(there, _)| *there).map(|(_, name)| name.into()))
                .collect();
            (tr!("Skin test looked at"), Some(seen.join(", ")))
        }
    }
}

/// How the solution is made.
pub(super) fn preparation(plan: &Plan) -> Line {
    let delivered = plan.delivered();
    let text =
        tr!("Preparation chosen: {strength}", strength = numbers::strength_named(plan.strength()));
    let (vials, syringes) = (plan.vials_used(), plan.syringes().len());
    let detail = sentences([
        dilution::method(plan.method()),
        tr!(
            "{units} in {volume}",
            units = numbers::units_named(delivered.units),
            volume = numbers::volume_named(delivered.volume)
        ),
        format!(
            "{}, {}: {}",
            numbers::vials(vials),
            tr!(
                "{count} syringe" | "{count} syringes" % syringes,
                count = numbers::whole(syringes)
            ),
            dilution::syringe(plan.ask().syringe)
        ),
        tr!("Expected {range}", range = dilution::spread(plan.expected().both)),
    ]);
    (text, Some(detail))
}

/// A round, its points, the looks, the end.
pub(super) fn round(act: &Act) -> Line {
    match act {
        Act::Begin(plan) => (tr!("Round begun"), Some(planned(plan))),
        Act::BeginOn(plan, grid) => {
            let grid = tr!(
                "{lattice} grid, points {spacing} apart",
                lattice = outline::lattice(grid.lattice()),
                spacing = numbers::length_named(grid.spacing())
            );
            (tr!("Round begun"), Some(sentences([planned(plan), grid])))
        }
        Act::Add { spot } => {
            let text = spoken(if spot.is_some() {
                "Point added by hand, on the drawing"
            } else {
                "Point added by hand"
            });
            (text.to_owned(), None)
        }
        Act::Inject { point, volume } => {
            let volume = numbers::volume_named(*volume);
            (tr!("Point {point} injected: {volume}", point, volume), None)
        }
        Act::Skip { point, reason } => {
            (tr!("Point {point} left out", point), Some(rounds::skip(*reason).to_owned()))
        }
        Act::Finish => (tr!("Round done"), None),
        Act::Look(look) => {
            let flags: Vec<String> =
                look.red_flags.iter().map(|flag| situation::red_flag(*flag).to_owned()).collect();
            let detail = sentences(
                [
                    look.refill.map_or_else(|| tr!("Refill not timed"), refill),
                    tr!("Colour: {colour}", colour = within(situation::colour(look.colour))),
                    round_screens::pain_score(look.pain),
                ]
                .into_iter()
                .chain(felt(look))
                .chain(flags),
            );
            (tr!("Skin looked at"), Some(detail))
        }
        Act::End(end) => (tr!("Treatment ended"), Some(rounds::end(*end))),
    }
}

/// What was felt and tried, and how often refill was read, as far as a look has it.
fn felt(look: &Look) -> impl Iterator<Item = String> {
    let readings = Side::BOTH.into_iter().filter_map(|side| readings(look, side));
    let temperature = look.temperature.map(|felt| situation::temperature(felt).to_owned());
    let function = look.function.map(|tried| situation::function(tried).to_owned());
    let photo = look.photo.map(|photo| tr!("Photo {photo}", photo = photo.short()));
    readings.chain([temperature, function, photo].into_iter().flatten())
}

/// The single readings of a side, in the order taken; `None` if it was not read.
fn readings(look: &Look, side: Side) -> Option<String> {
    let times: Vec<String> =
        look.readings.of(side).iter().map(|reading| numbers::seconds(reading.time)).collect();
    let side = looking::side(side);
    (!times.is_empty())
        .then(|| tr!("{side}, readings {times} s", side, times = numbers::row(&times)))
}

fn planned(plan: &RoundPlan) -> String {
    tr!(
        "{count} point at {strength}, {bolus} each: {units} in all"
            | "{count} points at {strength}, {bolus} each: {units} in all" % plan.points,
        count = numbers::whole(plan.points),
        strength = numbers::strength_named(plan.strength),
        bolus = numbers::volume_named(plan.bolus),
        units = numbers::units_named(plan.units())
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
