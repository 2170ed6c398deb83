use super::*;
use crate::care::dose::RoundPlan;
use crate::care::refill::Colour;
use crate::care::rounds::{Pain, Phase};
use crate::care::situation::{Aim, RedFlag};
use crate::case::{CaseId, Event, Journal, Step, Stop, StrikeReason};
use crate::measure::{Hash, Span, Strength, Volume};

const PLAN: RoundPlan =
    RoundPlan { strength: Strength::per_ml(500), bolus: Volume::ul(100), points: 1 };

fn day(day: u64) -> Moment {
    Moment::default().after(Span::days(day))
}

fn pale() -> Look {
    Look::of(Colour::Pale, Pain::NONE)
}

fn review(seen: Seen, look: Look) -> Event {
    Event::Review(Box::new(Review { seen, look, damage: Vec::new(), corrected: None }))
}

fn taken_up(look: Look) -> Event {
    Event::TakenUp { look: Box::new(look), reason: "demo".to_owned() }
}

/// Treated on day 0 and ended; closed too, as older versions did at once.
fn ended(urgency: Urgency, closed: bool) -> Journal {
    let mut journal = Journal::new(CaseId::from_random(1));
    let aim = (urgency == Urgency::Planned).then_some(Aim::Part);
    journal.append(day(0), 0, Event::Way { urgency, aim });
    for act in [Act::Begin(PLAN), Act::Inject { point: 1, volume: PLAN.bolus }, Act::Finish] {
        journal.append(day(0), 0, Event::Round(act));
    }
    journal.append(day(0), 0, Event::Round(Act::End(End::Done)));
    if closed {
        journal.append(day(0), 0, Event::Closed(End::Done));
    }
    journal
}

#[test]
fn taken_up_again_by_one_entry_and_taken_back_by_one() {
    for (urgency, closed) in
        [(Urgency::Urgent, true), (Urgency::Urgent, false), (Urgency::Planned, true)]
    {
        let mut journal = ended(urgency, closed);
        journal.append(day(1), 0, review(Seen::InPerson, pale()));
        let before = Case::of(&journal);
        assert!(before.course().treat(), "{urgency:?}");
        let entry: Hash = journal.append(day(1), 0, taken_up(pale())).id();
        let case = Case::of(&journal);
        assert_eq!(case.urgency(), Some(Urgency::Urgent), "planned work turned into an occlusion");
        assert_eq!(case.treatment.urgency, Urgency::Urgent);
        assert!(case.open() && case.treatment.end().is_none() && !case.in_follow_up());
        assert_eq!(case.treatment.phase(day(1), &case.protocol), Phase::Looked);
        assert_eq!(case.treatment.looks().last(), Some(&(day(1), pale())));
        assert_eq!(case.reviews, before.reviews, "the review stays what it was");
        assert_eq!(case.treatment.units(), before.treatment.units());
        assert_eq!(case.step(), Step::Strength, "the next is the round, and not the way anew");
        journal.append(day(1), 0, Event::Struck { entry, reason: StrikeReason::Slip });
        let back = Case::of(&journal);
        assert_eq!((back.closed, back.way), (before.closed, before.way));
        assert_eq!(back.treatment, before.treatment);
    }
}

#[test]
fn taken_up_again_it_ends_again_and_is_followed_anew() {
    let mut journal = ended(Urgency::Urgent, true);
    journal.append(day(1), 0, review(Seen::InPerson, pale()));
    journal.append(day(1), 0, taken_up(pale()));
    for act in [Act::Begin(PLAN), Act::Finish, Act::End(End::Done)] {
        journal.append(day(2), 0, Event::Round(act));
    }
    let case = Case::of(&journal);
    assert!(case.refused.is_empty() && case.in_follow_up());
    assert_eq!(case.treatment.rounds().len(), 2);
    assert!(case.course().last().is_none(), "the review before belongs to the end before");
    assert_eq!(case.next_review().map(|next| next.at), Some(day(3)));
}

#[test]
fn a_sign_at_a_review_goes_before_everything() {
    let sight = Look { red_flags: vec![RedFlag::Sight], ..pale() };
    for seen in [Seen::InPerson, Seen::Remotely] {
        let mut journal = ended(Urgency::Urgent, false);
        journal.append(day(1), 0, review(seen, sight.clone()));
        let case = Case::of(&journal);
        assert_eq!(case.flags, [RedFlag::Sight]);
        assert_eq!(case.stop(), Some(Stop::Sign(RedFlag::Sight)));
        assert_eq!(case.noticed(&journal).len(), 1);
        // Taken up with it, it stands too.
        let mut again = journal.clone();
        again.append(day(1), 0, taken_up(sight.clone()));
        assert_eq!(Case::of(&again).stop(), Some(Stop::Sign(RedFlag::Sight)));
        // From afar it is not seen to be gone; in person it is.
        journal.append(day(2), 0, review(Seen::Remotely, pale()));
        assert_eq!(Case::of(&journal).flags, [RedFlag::Sight]);
        journal.append(day(3), 0, review(Seen::InPerson, pale()));
        assert!(Case::of(&journal).flags.is_empty());
    }
}

#[test]
fn in_follow_up_until_closed_and_never_after_a_hand_over() {
    assert!(Case::of(&ended(Urgency::Urgent, false)).in_follow_up());
    let old = Case::of(&ended(Urgency::Urgent, true));
    assert!(!old.in_follow_up() && !old.open() && old.next_review().is_none());
    let mut handed = Journal::new(CaseId::from_random(2));
    let reason = crate::care::rounds::HandOver::NoEnzyme;
    handed.append(day(0), 0, Event::Round(Act::End(End::HandedOver(reason))));
    assert!(!Case::of(&handed).in_follow_up());
}

#[test]
fn handed_over_from_follow_up_it_is_in_other_hands() {
    let reason = crate::care::rounds::HandOver::Sight;
    let sight = Look { red_flags: vec![RedFlag::Sight], ..pale() };
    let mut journal = ended(Urgency::Urgent, false);
    journal.append(day(1), 0, review(Seen::InPerson, sight));
    let before = Case::of(&journal);
    assert_eq!(before.course().hand_over(), Some(reason));
    assert!(!before.course().holds(End::Done).is_empty());
    assert!(before.course().holds(End::HandedOver(reason)).is_empty());
    let entry = journal.append(day(1), 0, Event::Closed(End::HandedOver(reason))).id();
    let handed = Case::of(&journal);
    assert!(!handed.open() && handed.refused.is_empty());
    assert_eq!(handed.ended_for(), Some(reason));
    assert_eq!(handed.treatment.end().map(|(_, end)| end), Some(End::Done), "that stays readable");
    assert_eq!(handed.course().next(), None);
    assert!(handed.course().last().is_some(), "the review is not lost with it");
    // Closed by mistake, it stands as before.
    journal.append(day(1), 0, Event::Struck { entry, reason: StrikeReason::Slip });
    assert_eq!(Case::of(&journal).next_review(), before.next_review());
}
