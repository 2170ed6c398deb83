//! What a debrief tells, and the progress over several.

use super::super::*;
use super::clinician::Clinician;
use super::{START, verdict};
use crate::care::allergy::Urgency;
use crate::care::rounds::{Act, End, HandOver, Look};
use crate::care::{adjunct, refill};
use crate::case::Event;
use crate::measure::{Moment, Span, Strength, Volume};
use crate::protocol::adjunct::Adjunct;

#[test]
fn handing_over_without_need_is_told_and_with_need_is_right() {
    let mut clinician = Clinician::new(Scenario::Lip);
    clinician.open();
    clinician.end(End::HandedOver(HandOver::Other));
    let told = clinician.debrief();
    assert_eq!((told.outcome, told.good), (Outcome::HandedOverWithoutNeed, false));
    let mut stuck = Clinician::new(Scenario::Lip);
    stuck.way.skips = 2;
    stuck.open();
    stuck.treat(4);
    stuck.end(End::HandedOver(HandOver::NoImprovement));
    let told = stuck.debrief();
    assert_eq!((told.outcome, told.good), (Outcome::HandedOverRightly, true));
}

#[test]
fn steps_left_out_are_told() {
    let mut clinician = Clinician::new(Scenario::NoseWithFold);
    clinician.wait(30);
    clinician.then(Event::Way { urgency: Urgency::Urgent, aim: None });
    clinician
        .then(Event::Adjunct(adjunct::Act::Chose(Adjunct::Aspirin, adjunct::Choice::Given(None))));
    clinician.wait(60);
    let plan = crate::care::dose::RoundPlan {
        strength: Strength::per_ml(150),
        bolus: Volume::ul(100),
        points: 4,
    };
    for _ in 0..2 {
        clinician.act(Act::Begin(plan));
        clinician.act(Act::Inject { point: 1, volume: plan.bolus });
        clinician.act(Act::Finish);
        clinician.wait(120);
    }
    let seen = clinician.sees();
    clinician.act(Act::Look(Look {
        refill: Some(refill::Refill { opposite: None, ..seen.refill() }),
        ..Look::of(seen.colour, seen.pain)
    }));
    clinician.end(End::Done);
    let told = clinician.debrief();
    let dangerous = [
        What::Recognised,
        What::FlagsAsked,
        What::AllergyAsked,
        What::ReadyConfirmed,
        What::FirstUnit,
        What::Coverage,
        What::Density,
        What::LooksOverdue,
        What::LooksLeftOut,
        What::AspirinUnasked,
        What::AspirinForbidden,
        What::ClosedTooEarly,
        What::Ended,
    ];
    for what in dangerous {
        assert_eq!(verdict(&told, what), Some(Verdict::Dangerous), "{what:?}");
    }
    for what in [What::BaselineLook, What::OtherSideTimed, What::PointsOpen, What::Strength] {
        assert_eq!(verdict(&told, what), Some(Verdict::Improve), "{what:?}");
    }
    assert_eq!((told.given.open, told.given.rounds), (6, 2));
    assert_eq!((told.overdue.looks, told.overdue.worst), (2, Span::minutes(60)));
    let text = serde_json::to_string(&told).unwrap();
    assert_eq!(serde_json::from_str::<Debrief>(&text).unwrap(), told);
}

#[test]
fn progress_has_the_best_and_the_last() {
    let play = |late: u64, start: Moment| {
        let mut clinician = Clinician::new(Scenario::Lip);
        clinician.wait(late);
        clinician.open();
        clinician.treat(3);
        clinician.end(End::Done);
        Debrief { start, ..clinician.debrief() }
    };
    let later = START.after(Span::days(3));
    let told = progress(&[play(5, later), play(0, START)]);
    let [lip] = told.as_slice() else { panic!("{told:?}") };
    assert_eq!((lip.scenario, lip.played, lip.good, lip.last_good), (Scenario::Lip, 2, 2, true));
    let best = Best { best: Some(Span::minutes(2)), last: Some(Span::minutes(7)) };
    assert_eq!(lip.recognition, best);
    assert_eq!(progress(&[]), []);
}
