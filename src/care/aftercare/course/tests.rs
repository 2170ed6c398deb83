use super::*;
use crate::care::refill::Refill;
use crate::care::rounds::{HandOver, Pain};

const HOUR: u64 = 60;

fn at(minutes: u64) -> Moment {
    Moment::from_millis(0).after(Span::minutes(minutes))
}

fn look(affected: u64, colour: Colour, pain: u8) -> Look {
    let refill = Refill { affected: Span::millis(affected), opposite: Some(Span::millis(1_500)) };
    Look { refill: Some(refill), ..Look::of(colour, Pain::new(pain).unwrap()) }
}

fn well() -> Look {
    look(1_500, Colour::Normal, 0)
}

fn review(look: Look) -> Review {
    Review { seen: Seen::InPerson, look, damage: Vec::new(), corrected: None }
}

fn with<T>(reviews: &[(Moment, Review)], see: impl FnOnce(Course<'_>) -> T) -> T {
    let (protocol, before) = (Protocol::default(), well());
    see(Course {
        urgency: Urgency::Urgent,
        treated: true,
        end: Some((at(3 * HOUR), End::Done)),
        since: at(0),
        before: Some(&before),
        reviews,
        appointed: None,
        flags: &[],
        reacting: false,
        person: Person::default(),
        protocol: &protocol,
    })
}

#[test]
fn daily_first_then_spaced_then_none() {
    with(&[], |course| {
        let next = course.next().unwrap();
        assert_eq!((next.at, next.rule, next.seen), (at(27 * HOUR), Rule::Daily, Seen::InPerson));
        assert_eq!(next.standing(at(26 * HOUR)), Standing::Ahead(Span::hours(1)));
        assert_eq!(next.standing(at(29 * HOUR)), Standing::Due(Span::hours(2)));
        assert_eq!(course.holds(End::Done), [Holds::NotSeen]);
    });
    let early = [(at(27 * HOUR), review(well()))];
    with(&early, |course| {
        assert_eq!(course.next().unwrap().at, at(51 * HOUR), "well, yet pustules may come");
        assert_eq!(course.holds(End::Done), [Holds::Before(at(72 * HOUR))]);
    });
    let late = [(at(72 * HOUR), review(well()))];
    with(&late, |course| {
        assert_eq!(course.advice(), [Advice::Well]);
        assert!(course.holds(End::Done).is_empty());
        assert_eq!(course.next(), None);
    });
    let mut remote = late;
    remote[0].1.seen = Seen::Remotely;
    with(&remote, |course| {
        assert_eq!(course.holds(End::Done), [Holds::FromAfar]);
        assert_eq!(course.next().unwrap().rule, Rule::Spaced);
    });
}

#[test]
fn worse_is_treated_at_once_and_seen_in_person_first() {
    for bad in [
        look(4_000, Colour::Normal, 0),
        look(1_500, Colour::Mottled, 0),
        look(1_500, Colour::Normal, 4),
    ] {
        with(&[(at(80 * HOUR), review(bad.clone()))], |course| {
            assert!(course.treat(), "{bad:?}");
            assert!(!course.holds(End::Done).is_empty());
            assert_eq!(course.next().unwrap().rule, Rule::Daily);
        });
    }
    let mut remote = review(look(1_500, Colour::Pale, 0));
    remote.seen = Seen::Remotely;
    with(&[(at(80 * HOUR), remote)], |course| {
        assert_eq!(course.advice(), [Advice::InPerson, Advice::Treat]);
    });
}

#[test]
fn dead_skin_is_referred_and_a_scar_alone_holds_nothing() {
    let damaged = |damage| [(at(80 * HOUR), Review { damage: vec![damage], ..review(well()) })];
    with(&damaged(Damage::Eschar), |course| {
        assert_eq!(course.advice(), [Advice::Refer, Advice::Wound]);
        assert_eq!(course.holds(End::Done).len(), 2);
    });
    with(&damaged(Damage::Infection), |course| assert_eq!(course.advice(), [Advice::Infection]));
    with(&damaged(Damage::Scar), |course| assert!(course.holds(End::Done).is_empty()));
}

#[test]
fn planned_work_is_seen_at_two_weeks_and_may_be_closed_then() {
    with(&[], |course| {
        let course = Course { urgency: Urgency::Planned, before: None, ..course };
        let next = course.next().unwrap();
        assert_eq!((next.rule, next.at), (Rule::Result, at(3 * HOUR).after(Span::days(14))));
    });
    let seen = |corrected| [(at(400 * HOUR), Review { corrected, ..review(well()) })];
    with(&seen(Some(Corrected::AsMeant)), |course| {
        let course = Course { urgency: Urgency::Planned, before: None, ..course };
        assert!(course.holds(End::Done).is_empty());
        assert_eq!(course.next(), None);
    });
    with(&seen(Some(Corrected::FillerLeft)), |course| {
        let course = Course { urgency: Urgency::Planned, before: None, ..course };
        assert_eq!(course.holds(End::Done), [Holds::Asked(Advice::Another)]);
    });
}

#[test]
fn others_set_their_own_reviews_and_what_was_agreed_goes_before_the_rule() {
    with(&[], |course| {
        let end = Some((at(3 * HOUR), End::HandedOver(HandOver::Other)));
        let course = Course { end, ..course };
        assert_eq!(course.next(), None);
        assert!(course.holds(End::Done).is_empty());
        let course = Course { appointed: Some(at(9 * HOUR)), ..course };
        assert!(course.next().is_some_and(|next| next.agreed && next.at == at(9 * HOUR)));
    });
}

#[test]
fn a_review_from_before_the_last_end_counts_no_more() {
    with(&[(at(2 * HOUR), review(well()))], |course| {
        assert!(course.last().is_none());
        assert_eq!(course.holds(End::Done), [Holds::NotSeen]);
    });
}

#[test]
fn a_hand_over_may_close_what_else_is_held_open() {
    let unwell = [(at(27 * HOUR), review(look(4_000, Colour::Pale, 5)))];
    with(&unwell, |course| {
        for end in [End::Done, End::Stopped] {
            assert!(!course.holds(end).is_empty());
        }
        assert!(course.holds(End::HandedOver(HandOver::NoImprovement)).is_empty());
        let treating = Course { end: None, ..course };
        assert_eq!(treating.holds(End::Stopped), [Holds::Treating]);
        assert!(treating.holds(End::HandedOver(HandOver::NoEnzyme)).is_empty());
        // Nothing was injected: nothing to see again.
        let untreated = Course { treated: false, ..treating };
        assert!(untreated.holds(End::Stopped).is_empty());
    });
}

#[test]
fn a_sign_or_a_reaction_is_handed_over_as_what_it_is() {
    let late = [(at(80 * HOUR), review(well()))];
    with(&late, |course| {
        let flags = [RedFlag::Sight, RedFlag::Stroke];
        let flagged = Course { flags: &flags, ..course };
        assert_eq!(flagged.hand_over(), Some(HandOver::Sight));
        for end in [End::Done, End::Stopped, End::HandedOver(HandOver::NoEnzyme)] {
            assert_eq!(flagged.holds(end), [Holds::Flag], "{end:?}");
        }
        for reason in [HandOver::Sight, HandOver::Stroke] {
            assert!(flagged.holds(End::HandedOver(reason)).is_empty());
        }
        let reacting = Course { reacting: true, ..course };
        assert_eq!(reacting.holds(End::Done), [Holds::Reacting]);
        assert!(reacting.holds(End::HandedOver(HandOver::Reaction)).is_empty());
        assert_eq!(course.hand_over(), None);
    });
    let dying = [(at(80 * HOUR), Review { damage: vec![Damage::Eschar], ..review(well()) })];
    with(&dying, |course| assert_eq!(course.hand_over(), Some(HandOver::Necrosis)));
}

#[test]
fn a_day_is_offered_by_the_values_in_force() {
    let late = [(at(80 * HOUR), review(well()))];
    let now = at(81 * HOUR);
    with(&late, |course| {
        assert_eq!(course.next(), None);
        let protocol = Protocol { review_spaced: Span::days(3), ..Protocol::default() };
        let course = Course { protocol: &protocol, ..course };
        assert_eq!(course.offered(now), now.after(Span::days(3)));
        let agreed = Course { appointed: Some(at(99 * HOUR)), ..course };
        assert_eq!(agreed.offered(now), at(99 * HOUR));
        let planned = Course { urgency: Urgency::Planned, before: None, ..course };
        assert_eq!(planned.offered(now), now.after(protocol.planned_review));
    });
}
