//! The skin: what opens it, and what does not.

use super::super::*;
use super::clinician::{Clinician, Way};
use super::{START, faults, verdict};
use crate::care::refill::Colour;
use crate::care::rounds::{Act, End, HandOver};
use crate::care::situation::{self, Caution, Sign, triage};
use crate::care::{adjunct, refill};
use crate::case::{CaseId, Event, Journal};
use crate::measure::{Moment, Span, Strength, Volume};
use crate::protocol::adjunct::Adjunct;
use crate::protocol::zone::Zone;
use crate::protocol::{Protocol, simulation};

#[test]
fn an_occlusion_treated_well_has_its_blood_back_after_as_many_rounds_as_it_takes() {
    for scenario in [Scenario::Lip, Scenario::NoseWithFold, Scenario::Venous, Scenario::Expired] {
        let mut clinician = Clinician::new(scenario);
        clinician.open();
        assert_eq!(clinician.treat(6), scenario.brief().rounds, "{scenario:?}");
        clinician.end(End::Done);
        let told = clinician.debrief();
        assert_eq!((told.outcome, told.good), (Outcome::Perfused, true), "{scenario:?}");
        assert_eq!(faults(&told), [], "{scenario:?}");
        assert!(told.times.first_unit.is_some() && told.times.perfused.is_some());
        let person = scenario.brief().person;
        let case = clinician.case();
        let (_, last) = case.treatment.looks().last().unwrap();
        assert_eq!(last.wanting(person, &case.protocol), [], "the three signs are back");
        assert!(clinician.sees().area.is_zero());
    }
}

#[test]
fn every_patient_is_an_emergency_by_the_rules_of_the_app() {
    for scenario in Scenario::ALL {
        let mut clinician = Clinician::new(scenario);
        clinician.open();
        let found = clinician.case().findings.unwrap();
        let told = triage(&found, clinician.now(), &Protocol::default());
        assert!(matches!(told.outcome, situation::Outcome::Urgent(_)), "{scenario:?}");
        let has = |caution| told.cautions.contains(&caution);
        assert_eq!(has(Caution::VenousPicture), scenario == Scenario::Venous);
        assert_eq!(has(Caution::PastWindows), scenario == Scenario::Late);
        assert_eq!(has(Caution::LateSigns), scenario == Scenario::Late);
    }
}

#[test]
fn the_usual_size_of_the_zones_is_as_good_as_the_true_one() {
    for scenario in [Scenario::Lip, Scenario::NoseWithFold, Scenario::Venous, Scenario::Expired] {
        let mut clinician = Clinician::new(scenario);
        let usual = scenario.brief().zones.iter().map(|zone| zone.usual().0).sum();
        clinician.open();
        for _ in 0..scenario.brief().rounds {
            clinician.way.area = usual;
            clinician.round();
            clinician.wait(60);
            clinician.look();
        }
        assert_eq!(clinician.debrief().outcome, Outcome::Perfused, "{scenario:?}");
    }
}

#[test]
fn untreated_it_worsens_to_black_skin_in_hours() {
    for scenario in Scenario::ALL {
        let clinician = Clinician::new(scenario);
        let at =
            |hours| condition(scenario, START, &clinician.journal, START.after(Span::hours(hours)));
        assert_ne!(at(0).colour, Colour::Black);
        assert!(at(2).area > at(0).area, "the outline grows");
        assert_eq!(at(10).colour, Colour::Black, "{scenario:?}");
        assert!(at(10).signs.contains(&Sign::Blackening) && at(10).signs.contains(&Sign::Pustules));
        let told = debrief(scenario, START, &clinician.journal, START.after(Span::hours(10)));
        assert!(!told.good);
        if scenario != Scenario::Vision {
            assert_eq!(told.outcome, Outcome::SkinLost, "{scenario:?}");
        }
    }
}

type Change = fn(&mut Way);

/// Plays a lip in some way for four rounds, and says how it ended.
fn lip(change: impl Fn(&mut Way)) -> (Debrief, Condition) {
    let mut clinician = Clinician::new(Scenario::Lip);
    change(&mut clinician.way);
    clinician.open();
    for _ in 0..4 {
        clinician.round();
        clinician.wait(60);
        clinician.look();
    }
    (clinician.debrief(), clinician.sees())
}

#[test]
fn too_little_in_the_wrong_place_or_at_half_the_points_opens_nothing() {
    let ways: [(Change, What); 3] = [
        (|way| way.strength = 50, What::Density),
        (|way| way.zones = vec![Zone::Forehead], What::Coverage),
        (|way| way.skips = 2, What::Coverage),
    ];
    for (change, what) in ways {
        let (told, seen) = lip(change);
        assert_eq!((told.outcome, told.good), (Outcome::NotPerfused, false), "{what:?}");
        assert_eq!(verdict(&told, what), Some(Verdict::Dangerous), "{what:?}: {told:?}");
        assert!(seen.area > Scenario::Lip.brief().area, "{what:?}: the outline has grown");
        assert!(seen.signs.contains(&Sign::SlowRefill));
    }
    let (told, _) = lip(|_| ());
    assert_eq!(told.outcome, Outcome::Perfused);
}

#[test]
fn weak_solution_takes_more_rounds() {
    let (told, _) = lip(|way| way.strength = 300);
    assert_eq!(told.outcome, Outcome::Perfused);
    assert_eq!(verdict(&told, What::Density), Some(Verdict::Improve));
    let (strong, _) = lip(|_| ());
    assert!(told.times.perfused > strong.times.perfused);
}

#[test]
fn straight_after_a_round_little_shows() {
    let mut clinician = Clinician::new(Scenario::Lip);
    clinician.open();
    let before = clinician.sees();
    clinician.round();
    let after = clinician.sees();
    assert!(after.affected + Span::millis(300) > before.affected);
    clinician.wait(60);
    assert!(clinician.sees().affected + Span::millis(1_000) < before.affected);
}

#[test]
fn a_vein_is_blue_and_its_quick_refill_reassures_nobody() {
    let mut clinician = Clinician::new(Scenario::Venous);
    let seen = clinician.sees();
    assert_eq!(seen.colour, Colour::Blue);
    assert!(seen.affected < seen.opposite);
    let person = Scenario::Venous.brief().person;
    let judged = refill::judge(seen.refill(), seen.colour, person, &Protocol::default());
    assert_eq!(judged.verdict, refill::Verdict::VenousPicture);
    clinician.open();
    clinician.end(End::Done);
    let told = clinician.debrief();
    assert_eq!((told.outcome, told.good), (Outcome::NotPerfused, false));
    assert_eq!(verdict(&told, What::ClosedTooEarly), Some(Verdict::Dangerous));
}

#[test]
fn a_late_case_mends_in_part_and_wants_a_specialist_besides() {
    let mut clinician = Clinician::new(Scenario::Late);
    assert!(clinician.sees().signs.contains(&Sign::Pustules));
    clinician.open();
    clinician.treat(3);
    let told = clinician.debrief();
    assert_eq!((told.outcome, told.good), (Outcome::Recovering, false), "nobody took over");
    clinician.end(End::HandedOver(HandOver::Necrosis));
    let told = clinician.debrief();
    assert_eq!((told.outcome, told.good), (Outcome::HandedOverRightly, true));
    let mut idle = Clinician::new(Scenario::Late);
    idle.open();
    idle.end(End::HandedOver(HandOver::Necrosis));
    let told = idle.debrief();
    assert_eq!((told.outcome, told.good), (Outcome::HandedOverRightly, false), "not tried");
}

#[test]
fn an_expired_vial_does_less_and_is_told() {
    let mut careless = Clinician::new(Scenario::Expired);
    careless.way.careless = true;
    careless.open();
    let rounds = careless.treat(6);
    assert!(rounds > Scenario::Expired.brief().rounds, "{rounds}");
    let told = careless.debrief();
    assert_eq!(verdict(&told, What::ExpiredVial), Some(Verdict::Dangerous));
    // A vial that nobody looked at is the one on top.
    let mut blind = Clinician::new(Scenario::Expired);
    blind.open();
    let case = blind.case();
    assert!(case.preparation.is_none());
    let plan = crate::care::dose::RoundPlan {
        strength: Strength::per_ml(500),
        bolus: Volume::ul(100),
        points: 9,
    };
    blind.act(Act::Begin(plan));
    blind.act(Act::Inject { point: 1, volume: plan.bolus });
    assert_eq!(verdict(&blind.debrief(), What::ExpiredVial), Some(Verdict::Dangerous));
}

#[test]
fn a_round_just_given_is_on_its_way() {
    let mut clinician = Clinician::new(Scenario::Lip);
    clinician.open();
    clinician.treat(1);
    clinician.round();
    assert_eq!(clinician.debrief().outcome, Outcome::Recovering);
}

#[test]
fn adjuncts_change_nothing_in_the_model() {
    let mut with = Clinician::new(Scenario::Lip);
    for adjunct in Adjunct::ALL {
        with.then(Event::Adjunct(adjunct::Act::Chose(adjunct, adjunct::Choice::Given(None))));
    }
    let mut without = Clinician::new(Scenario::Lip);
    for clinician in [&mut with, &mut without] {
        clinician.open();
        clinician.treat(1);
    }
    assert_eq!(with.sees(), without.sees());
}

#[test]
fn entries_later_than_now_have_not_happened() {
    let mut clinician = Clinician::new(Scenario::Lip);
    clinician.open();
    let before = clinician.now();
    let seen = clinician.sees();
    clinician.treat(2);
    assert_eq!(condition(Scenario::Lip, START, &clinician.journal, before), seen);
    let early = condition(Scenario::Lip, START, &clinician.journal, Moment::from_millis(0));
    assert_eq!(
        early,
        condition(Scenario::Lip, START, &Journal::new(CaseId::from_random(1)), START)
    );
}

#[test]
fn every_figure_says_that_it_is_invented() {
    assert_eq!(simulation::BASIS, crate::protocol::Basis::Invented);
    let noise = Protocol::default().refill_noise;
    assert!(simulation::SCATTER.as_millis() * 2 < noise.as_millis(), "healthy sides look alike");
}
