//! Refill limits against the filler guidance and the studies behind it.

use freshet::care::refill::{Colour, Person, Refill, Sex, Verdict, judge};
use freshet::measure::Span;
use freshet::protocol::Protocol;
use freshet::protocol::refill_limit::{ALL, Group, guidance};

fn verdict(affected: u64, opposite: u64, years: u32, sex: Sex) -> Verdict {
    let refill =
        Refill { affected: Span::millis(affected), opposite: Some(Span::millis(opposite)) };
    let person = Person { years: Some(years), sex: Some(sex) };
    judge(refill, Colour::Normal, person, &Protocol::default()).verdict
}

/// King 2020, second hand (Sansone): 2 s for men and 3 s for women under 65, 4 s for the elderly.
#[test]
fn limits_of_the_guidance() {
    assert_eq!(guidance(Group::Men), Span::seconds(2));
    assert_eq!(guidance(Group::Women), Span::seconds(3));
    assert_eq!(guidance(Group::Elderly), Span::seconds(4));
    assert_eq!(verdict(2_100, 2_000, 40, Sex::Male), Verdict::Slow);
    assert_eq!(verdict(2_100, 2_000, 40, Sex::Female), Verdict::Back);
    assert_eq!(verdict(2_900, 2_900, 65, Sex::Male), Verdict::Back);
}

/// Schriger & Baraff 1988: 95 % upper limits 2.9 s (women) and 4.5 s (elderly). Anderson 2008: 95th
/// centile 3.5 s in 1000 adults.
#[test]
fn limits_of_the_studies_stand_beside() {
    let has =
        |group, millis| ALL.iter().any(|l| l.group == group && l.upper == Span::millis(millis));
    assert!(has(Group::Women, 2_900) && has(Group::Elderly, 4_500) && has(Group::Adults, 3_500));
}

/// Fleming 2015: press 5 s with moderate pressure; 3 s and more abnormal.
#[test]
fn how_to_press() {
    assert_eq!(Protocol::default().refill_press, Span::seconds(5));
    assert_eq!(Protocol::default().refill_alert, Span::seconds(3));
}

/// Ann Intensive Care 2022: a change of more than 0.2 s is beyond a reader's noise.
#[test]
fn noise() {
    assert_eq!(verdict(1_200, 1_000, 40, Sex::Female), Verdict::Back);
    assert_eq!(verdict(1_201, 1_000, 40, Sex::Female), Verdict::Doubtful);
}

/// King 2020, second hand: quick refill with blue colour suggests a venous occlusion.
#[test]
fn quick_and_blue() {
    let refill = Refill { affected: Span::millis(700), opposite: Some(Span::millis(1_500)) };
    let judged = judge(refill, Colour::Blue, Person::default(), &Protocol::default());
    assert_eq!(judged.verdict, Verdict::VenousPicture);
}
