//! The debrief of a rehearsal.

use super::{numbers, situation, time};
use crate::rehearsal::{Debrief, Figure, Finding, Outcome, Verdict, What};
use crate::ui::language::{spoken, within};

words! {
    pub title = "Looking back";
    pub again = "Rehearse again";
    pub times = "How long it took";
    pub given = "What was given";
    pub done_well = "As it should be";
    pub can_be_better = "Can be better";
    pub dangerous = "Can harm a patient";
    pub unkept = "This debrief could not be kept on the phone";

    pub until_recognised = "Until taken for urgent";
    pub until_first_unit = "Until the first unit";
    pub until_adrenaline = "Sign to adrenaline";
    pub until_handed_over = "Sign to help called";
    pub until_perfused = "Until blood was back";
    pub not_done = "not done";
    pub rounds = "Rounds";
    pub in_all = "In all";
    pub units = "units";
    pub each_round_label = "In a round";
    pub per_cm2 = "On each cm², fewest";
    pub reached = "Skin reached";
}

pub fn outcome(outcome: Outcome) -> String {
    match outcome {
        Outcome::Perfused => tr!("The skin has its blood back"),
        Outcome::Recovering => tr!("On the way: the effect is still coming"),
        Outcome::NotPerfused => tr!("Skin is still without blood"),
        Outcome::SkinLost => tr!("Skin is lost"),
        Outcome::HandedOverRightly => tr!("Handed over, and rightly"),
        Outcome::HandedOverWithoutNeed => tr!("Handed over, though it could be treated here"),
        Outcome::Missed(flag) => {
            tr!("Missed: {sign}", sign = within(situation::red_flag(flag)))
        }
    }
}

/// What the model wants on each cm².
pub fn needed(debrief: &Debrief) -> String {
    tr!("the model wants {units}", units = numbers::units(debrief.given.needed))
}

/// The fewest and most units of a round, and what is usual.
pub fn each_round(debrief: &Debrief) -> (String, String) {
    let given = &debrief.given;
    (
        numbers::units_range(given.fewest, given.most),
        tr!("usually {units}", units = numbers::units_range(given.round_low, given.round_high)),
    )
}

/// The outcome, less calm where a patient can come to harm by what was done.
pub fn headline(debrief: &Debrief) -> String {
    let harm = debrief.findings.iter().any(|found| found.verdict == Verdict::Dangerous);
    let outcome = outcome(debrief.outcome);
    if debrief.good && harm { tr!("{outcome}, but read on", outcome) } else { outcome }
}

pub fn overdue(debrief: &Debrief) -> Option<String> {
    let late = debrief.overdue;
    (late.looks > 0).then(|| {
        tr!(
            "{count} look late, {all} in all, {worst} at worst"
                | "{count} looks late, {all} in all, {worst} at worst" % late.looks,
            count = numbers::whole(late.looks),
            all = time::span(late.by),
            worst = time::span(late.worst)
        )
    })
}

pub fn verdict(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Good => done_well(),
        Verdict::Improve => can_be_better(),
        Verdict::Dangerous => dangerous(),
    }
}

/// A finding in a line, with its figure where that says something.
pub fn finding(found: &Finding) -> String {
    let good = found.verdict == Verdict::Good;
    let what = what(found.what, good, found.figure.is_some());
    // That nothing was left out needs no nought beside it.
    let told = found.figure.filter(|figure| !(good && is_nothing(*figure)));
    match told {
        Some(told) => format!("{what}: {}", figure(told)),
        None => what.to_owned(),
    }
}

fn is_nothing(figure: Figure) -> bool {
    match figure {
        Figure::Span(span) => span.as_millis() == 0,
        Figure::Count(count) => count == 0,
        Figure::Units(units) => units.is_zero(),
        Figure::Volume(_) => false,
        Figure::Part(part) => part.0 == 0,
    }
}

fn figure(figure: Figure) -> String {
    match figure {
        Figure::Span(span) => time::span(span),
        Figure::Count(count) => count.to_string(),
        Figure::Units(units) => numbers::units_named(units),
        Figure::Volume(volume) => numbers::volume_named(volume),
        Figure::Part(part) => numbers::per_mille(u64::from(part.0)),
    }
}

/// What a finding is about; `told` is whether there is a figure, as of something that happened.
#[expect(clippy::too_many_lines, reason = "two lines for each finding")]
fn what(what: What, good: bool, told: bool) -> &'static str {
    spoken(match (what, good) {
        (What::Recognised, true) => "Taken for urgent after",
        (What::Recognised, false) => {
            if told {
                "Taken for urgent late, after"
            } else {
                "Not taken for urgent"
            }
        }
        (What::FlagsAsked, true) => "Sight, stroke and airway were asked for",
        (What::FlagsAsked, false) => "Sight, stroke and airway were not asked for",
        (What::AllergyAsked, true) => "Allergy and stings were asked before the first unit",
        (What::AllergyAsked, false) => {
            "Allergy, bee and wasp stings were not all asked before the first unit"
        }
        (What::ReadyConfirmed, true) => "Ready for a reaction before the first unit",
        (What::ReadyConfirmed, false) => "Not confirmed ready for a reaction",
        (What::BaselineLook, true) => "The skin was looked at before treatment",
        (What::BaselineLook, false) => "No look from before treatment to compare with",
        (What::OtherSideTimed, true) => "The other side was timed too",
        (What::OtherSideTimed, false) => "Looks without the other side timed",
        (What::MovementsChecked, true) => "Movements were checked by a second person",
        (What::MovementsChecked, false) => "Movements that nobody checked",
        (What::ExpiredVial, true) => "No vial out of date was used",
        (What::ExpiredVial, false) => "Vials out of date that were used",
        (What::FirstUnit, true) => "First unit after",
        (What::FirstUnit, false) => {
            if told {
                "First unit late, after"
            } else {
                "No enzyme was given"
            }
        }
        (What::Coverage, true) => "The points reached the skin without blood",
        (What::Coverage, false) => "The points missed some of the skin without blood; reached",
        (What::PointsOpen, true) => "No point was left open",
        (What::PointsOpen, false) => "Points left open when a round was over",
        (What::PointsSkipped, true) => "No point was left out",
        (What::PointsSkipped, false) => "Points left out",
        (What::Density, true) => "Enough on each cm²",
        (What::Density, false) => "Too little on each cm²",
        (What::Strength, true) => "Strong enough; in each mL",
        (What::Strength, false) => "Too weak; in each mL",
        (What::LooksOverdue, true) => "Looks came on time",
        (What::LooksOverdue, false) => "Looks came late, in all by",
        (What::LooksLeftOut, true) => "Each round was looked at before the next",
        (What::LooksLeftOut, false) => "Rounds begun without a look at the one before",
        (What::SightNoticed, true) => "That sight went was noticed after",
        (What::SightNoticed, false) => {
            if told {
                "That sight went was noticed late, after"
            } else {
                "That sight went was not noticed"
            }
        }
        (What::SightHandedOver, true) => "Handed over for sight after",
        (What::SightHandedOver, false) => {
            if told {
                "Handed over for sight late, after"
            } else {
                "Not handed over for sight"
            }
        }
        (What::EnzymeAfterSight, true) => "No enzyme after sight went",
        (What::EnzymeAfterSight, false) => "Enzyme given after sight went",
        (What::ReactionNoticed, true) => "The reaction was noticed after",
        (What::ReactionNoticed, false) => {
            if told {
                "The reaction was noticed late, after"
            } else {
                "The reaction was not noticed"
            }
        }
        (What::Adrenaline, true) => "Adrenaline after",
        (What::Adrenaline, false) => {
            if told {
                "Adrenaline late, after"
            } else {
                "No adrenaline was given"
            }
        }
        (What::AdrenalineDose, true) => "Adrenaline by the table",
        (What::AdrenalineDose, false) => "Adrenaline outside the table",
        (What::Called, true) => "Help was called after",
        (What::Called, false) => {
            if told {
                "Help was called late, after"
            } else {
                "Help was not called"
            }
        }
        (What::EnzymeInReaction, true) => "No enzyme while the reaction ran",
        (What::EnzymeInReaction, false) => "Enzyme given while the reaction ran",
        (What::AspirinUnasked, true) => "Aspirin only once all was asked",
        (What::AspirinUnasked, false) => "Aspirin given without asking",
        (What::AspirinForbidden, true) => "No aspirin against a reason",
        (What::AspirinForbidden, false) => "Aspirin given though something forbids it",
        (What::ClosedTooEarly, true) => "Not closed before blood was back",
        (What::ClosedTooEarly, false) => "Closed before blood was back; still blocked",
        (What::Ended, true) => "Seen through to the end; rounds",
        (What::Ended, false) => "Not seen through to the end; rounds",
    })
}
