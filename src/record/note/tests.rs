use super::*;
use crate::care::refill::Colour;
use crate::care::rounds::HandOver;
use crate::protocol::Protocol;
use crate::record::samples::{self, all, anaphylaxis, occlusion, opened, planned, tested};

#[test]
fn units_add_up_from_round_to_round_and_to_what_the_case_counts() {
    let told = occlusion();
    let (case, note) = (told.case(), told.note());
    assert_eq!(note.rounds.len(), 2);
    let mut sum = Units::ZERO;
    for given in &note.rounds {
        sum += given.round.units();
        assert_eq!(given.units_so_far, sum);
    }
    assert_eq!((note.units(), note.volume()), (case.treatment.units(), case.treatment.volume()));
    assert_ne!(note.rounds[0].territory, note.rounds[1].territory);
    assert_eq!(note.rounds[0].batches, ["DEMO-1"]);
}

#[test]
fn what_was_struck_out_is_told_as_struck_out_and_nowhere_else() {
    let note = occlusion().note();
    let [struck] = &note.chain.struck[..] else { panic!("{:?}", note.chain.struck) };
    assert_eq!(struck.event, Event::Note("Colleague told by telephone".into()));
    assert_eq!(struck.reason, StrikeReason::Slip);
    assert!(note.remarks.is_empty(), "{:?}", note.remarks);
}

#[test]
fn a_sheet_says_when_to_come_back_by_what_was_agreed() {
    let back = |told: samples::Told| Leaf::of(&told.note(), &Protocol::default()).back;
    assert!(matches!(back(occlusion())[..], [Back::Appointed(_)]));
    assert!(matches!(back(samples::just_done())[..], [Back::Daily(_)]));
    assert_eq!(back(anaphylaxis()), [Back::OtherTeam]);
    assert!(matches!(back(planned())[..], [Back::Result(_), Back::NewFiller(_)]));
    assert_eq!(back(tested()), [Back::Ask]);
    assert_eq!(back(opened()), [Back::Ask]);
}

#[test]
fn a_round_on_drawn_skin_keeps_its_outline_for_the_note() {
    let note = samples::drawn().note();
    let [given] = &note.rounds[..] else { panic!("{:?}", note.rounds) };
    assert!(given.round.grid.is_some());
    assert!(given.territory.as_ref().is_some_and(|skin| skin.outlined().is_some()));
}

#[test]
fn signs_are_watched_for_by_what_was_done() {
    let leaf = |told: samples::Told| Leaf::of(&told.note(), &Protocol::default());
    assert!(leaf(occlusion()).watch.contains(&Watch::Blisters));
    assert!(!leaf(planned()).watch.contains(&Watch::Blisters));
    assert!(leaf(tested()).watch.contains(&Watch::TestPlace));
    assert!(leaf(tested()).avoid.contains(&Avoid::Untold), "a positive test");
    assert!(leaf(anaphylaxis()).avoid.contains(&Avoid::Untold));
    assert!(!leaf(occlusion()).avoid.contains(&Avoid::Untold));
    let whom = |told| Watch::Rash.whom(leaf(told).reacted);
    assert_eq!((whom(anaphylaxis()), whom(occlusion())), (Whom::Emergency, Whom::Clinic));
    for (name, told) in all() {
        let sight = leaf(told).watch.contains(&Watch::Sight);
        let urgent = ["occlusion", "came-back", "just-done", "anaphylaxis"].contains(&name);
        assert_eq!(sight, urgent, "{name}");
    }
}

#[test]
fn only_what_is_a_reaction_is_reported() {
    let what = |told: samples::Told| reported(&told.note());
    assert_eq!(what(occlusion()), [Reported::Occlusion]);
    assert_eq!(what(anaphylaxis()), [Reported::Reaction, Reported::Occlusion]);
    assert_eq!(what(tested()), [Reported::Test]);
    assert!(what(planned()).is_empty());
    assert!(what(opened()).is_empty());
}

#[test]
fn seriousness_and_outcome_are_derived_or_left_open() {
    let protocol = Protocol::default();
    let note = anaphylaxis().note();
    assert!(Reported::Reaction.important(&note));
    assert!(!Reported::Occlusion.important(&note), "breath is not sight");
    assert!(matches!(Reported::Reaction.outcome(&note, &protocol), Seen::Settled(_)));
    assert_eq!(Reported::Occlusion.outcome(&note, &protocol), Seen::Unknown, "nobody looked");
    assert_eq!(note.end().map(|(_, end)| end), Some(End::HandedOver(HandOver::Reaction)));
    let note = samples::just_done().note();
    assert!(!Reported::Occlusion.important(&note));
    assert!(matches!(Reported::Occlusion.outcome(&note, &protocol), Seen::Well(_)));
    let damaged = samples::came_back().note();
    assert!(matches!(Reported::Occlusion.outcome(&damaged, &protocol), Seen::NotWell(_)));
}

#[test]
fn after_it_was_taken_up_again_the_last_look_is_the_latest_and_a_day_to_come_is_said() {
    let note = samples::came_back().note();
    let (ended, _) = note.end().unwrap();
    assert_eq!(note.last_look().map(|(at, look)| (at, look.colour)), Some((ended, Colour::Normal)));
    assert!(note.reviews.iter().all(|(at, _)| *at < ended));
    assert!(
        matches!(Leaf::of(&note, &Protocol::default()).back[..], [Back::Daily(day)] if day > ended)
    );
    let [(at, reason)] = &note.taken_up[..] else { panic!("{:?}", note.taken_up) };
    assert!(*at > note.reviews[0].0 && reason.starts_with("Mottled again"));
}

#[test]
fn handed_over_after_its_end_it_is_the_other_teams() {
    let mut told = samples::just_done();
    let handed = End::HandedOver(HandOver::Sight);
    let later = told.note().printed;
    told.journal.append(later, samples::ZONE, Event::Closed(handed));
    let note = told.note();
    assert_eq!(note.end(), Some((later, handed)));
    assert_eq!(note.ended.map(|(_, end)| end), Some(End::Done), "that stays readable");
    assert!(Leaf::of(&note, &Protocol::default()).back.contains(&Back::OtherTeam));
}
