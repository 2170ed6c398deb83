//! What goes before everything: sight, and a severe reaction.

use super::super::*;
use super::clinician::Clinician;
use super::{START, faults, verdict};
use crate::care::anaphylaxis;
use crate::care::rounds::{End, HandOver};
use crate::care::situation::RedFlag;
use crate::case::Event;
use crate::measure::{Span, Volume};

#[test]
fn sight_lost_is_handed_over_at_once() {
    let play = |acts: fn(&mut Clinician)| {
        let mut clinician = Clinician::new(Scenario::Vision);
        clinician.open();
        clinician.treat(1);
        assert_eq!(clinician.sees().flags, []);
        clinician.wait(5);
        let seen = clinician.sees();
        assert_eq!(seen.flags, [RedFlag::Sight]);
        assert!(seen.said.contains(&Says::BlurredLeft));
        acts(&mut clinician);
        clinician.debrief()
    };
    let good = play(|clinician| {
        clinician.then(Event::Noticed(RedFlag::Sight));
        clinician.wait(2);
        clinician.end(End::HandedOver(HandOver::Sight));
    });
    assert_eq!((good.outcome, good.good), (Outcome::HandedOverRightly, true));
    assert_eq!(faults(&good), []);
    assert_eq!(good.times.handover, Some(Span::minutes(3)));
    let bad = play(|clinician| {
        clinician.treat(2);
        clinician.end(End::Done);
    });
    assert_eq!((bad.outcome, bad.good), (Outcome::Missed(RedFlag::Sight), false));
    assert_eq!(verdict(&bad, What::EnzymeAfterSight), Some(Verdict::Dangerous));
    assert_eq!(verdict(&bad, What::SightHandedOver), Some(Verdict::Dangerous));
    // Nobody whom it was handed over to for want of enzyme was told of the eye.
    let other = play(|clinician| {
        clinician.then(Event::Noticed(RedFlag::Sight));
        clinician.wait(2);
        clinician.end(End::HandedOver(HandOver::NoEnzyme));
    });
    assert_eq!((other.outcome, other.good), (Outcome::Missed(RedFlag::Sight), false));
    assert_eq!(verdict(&other, What::SightHandedOver), Some(Verdict::Dangerous));
    assert_eq!(other.times.handover, None);
    // A stroke is where an eye is seen to as well.
    let stroke = play(|clinician| clinician.end(End::HandedOver(HandOver::Stroke)));
    assert_eq!(stroke.outcome, Outcome::HandedOverRightly);
    // And it comes though nobody looks.
    let idle = Clinician::new(Scenario::Vision);
    let at = |minutes| {
        condition(Scenario::Vision, START, &idle.journal, START.after(Span::minutes(minutes)))
    };
    assert_eq!((at(149).flags, at(150).flags), (vec![], vec![RedFlag::Sight]));
}

fn adrenaline(clinician: &mut Clinician, volume: u64) {
    clinician.then(Event::Anaphylaxis(anaphylaxis::Act::Adrenaline(Volume::ul(volume))));
}

/// Up to some minutes into the reaction.
fn reacting(minutes: u64) -> Clinician {
    let mut clinician = Clinician::new(Scenario::Anaphylaxis);
    clinician.open();
    clinician.treat(1);
    clinician.round();
    assert_eq!(clinician.sees().reaction, []);
    // Three minutes have gone by since its first unit.
    clinician.wait(3 + minutes);
    clinician
}

#[test]
fn a_reaction_is_mended_by_adrenaline_and_by_nothing_else() {
    let mut clinician = reacting(4);
    let seen = clinician.sees();
    assert!(seen.flags.contains(&RedFlag::Airway) && seen.said.contains(&Says::Itches));
    clinician.then(Event::Anaphylaxis(anaphylaxis::Act::Signs(seen.reaction.clone())));
    adrenaline(&mut clinician, 500);
    clinician.then(Event::Anaphylaxis(anaphylaxis::Act::Called));
    clinician.wait(5);
    let held = clinician.sees();
    assert!(held.flags.contains(&RedFlag::Airway), "one dose does not do in this patient");
    adrenaline(&mut clinician, 500);
    clinician.wait(6);
    assert!(clinician.sees().said.contains(&Says::Easier));
    clinician.wait(6);
    assert_eq!(clinician.sees().reaction, []);
    clinician.end(End::HandedOver(HandOver::Reaction));
    let told = clinician.debrief();
    assert_eq!((told.outcome, told.good), (Outcome::HandedOverRightly, true));
    assert_eq!(faults(&told), []);
    assert_eq!(told.times.first_adrenaline, Some(Span::minutes(4)));

    // The same, and nobody called: handed over for the reaction it is told, for another reason not.
    let ended = |reason| {
        let mut clinician = reacting(4);
        adrenaline(&mut clinician, 500);
        clinician.wait(5);
        adrenaline(&mut clinician, 500);
        clinician.wait(12);
        clinician.end(End::HandedOver(reason));
        let told = clinician.debrief();
        (told.outcome == Outcome::HandedOverRightly, told.good, told.times.handover.is_some())
    };
    assert_eq!(ended(HandOver::Reaction), (true, true, true));
    assert_eq!(ended(HandOver::NoEnzyme), (false, false, false));

    let mut clinician = reacting(4);
    clinician.wait(20);
    let seen = clinician.sees();
    assert!(seen.reaction.contains(&anaphylaxis::Sign::Hypotension));
    assert_eq!(clinician.debrief().outcome, Outcome::Missed(RedFlag::Airway));
}

#[test]
fn too_small_a_dose_of_adrenaline_does_not_do_and_enzyme_makes_it_worse() {
    let mut clinician = reacting(4);
    adrenaline(&mut clinician, 50);
    adrenaline(&mut clinician, 50);
    clinician.wait(15);
    let told = clinician.debrief();
    assert_eq!(told.outcome, Outcome::Missed(RedFlag::Airway));
    assert_eq!(verdict(&told, What::AdrenalineDose), Some(Verdict::Dangerous));

    let (mut still, mut fed) = (reacting(0), reacting(0));
    let before = fed.minute;
    fed.round();
    still.wait(fed.minute - before);
    assert!(fed.sees().reaction.len() > still.sees().reaction.len());
    let told = fed.debrief();
    assert_eq!(verdict(&told, What::EnzymeInReaction), Some(Verdict::Dangerous));
}
