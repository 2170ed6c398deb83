//! Readings, side by side.

use super::*;
use crate::care::refill::{Sex, Verdict};

const GUIDE: Span = Span::seconds(5);

fn timed(millis: u64) -> Reading {
    Reading::timed(Span::millis(millis), GUIDE)
}

fn readings(affected: &[u64], opposite: &[u64]) -> Readings {
    let mut readings = Readings::default();
    for (side, times) in [(Side::Affected, affected), (Side::Opposite, opposite)] {
        for time in times {
            readings.add(side, timed(*time)).unwrap();
        }
    }
    readings
}

fn summary(times: &[u64]) -> Option<Summary> {
    readings(times, &[]).summary(Side::Affected, &Protocol::default())
}

#[test]
fn the_median_is_not_moved_by_one_slip() {
    let three = summary(&[4_200, 400, 4_000]).unwrap();
    assert_eq!((three.median, three.spread), (Span::millis(4_000), Span::millis(3_800)));
    assert_eq!((three.count, three.wanted), (3, 0));
    let two = summary(&[4_001, 4_200]).unwrap();
    assert_eq!((two.median, two.wanted), (Span::millis(4_100), 1));
    let one = summary(&[4_200]).unwrap();
    assert_eq!((one.median, one.spread), (Span::millis(4_200), Span::ZERO));
    assert_eq!(summary(&[]), None);
}

#[test]
fn three_a_side_and_no_more() {
    let mut full = readings(&[1, 2, 3], &[1]);
    let before = full.clone();
    assert_eq!(full.add(Side::Affected, timed(4)), Err(Full(Side::Affected)));
    assert_eq!(full, before);
    assert_eq!(full.wanted(Side::Opposite), 2);
    assert_eq!(full.take_back(Side::Affected), Some(timed(3)));
    assert_eq!(full.wanted(Side::Affected), 1);
}

#[test]
fn the_sides_take_turns() {
    let mut taken = Readings::default();
    let mut order = Vec::new();
    while let Some(side) = taken.next() {
        taken.add(side, timed(1_000)).unwrap();
        order.push(side);
    }
    let [a, b] = Side::BOTH;
    assert_eq!(order, [a, b, a, b, a, b]);
}

#[test]
fn a_press_outside_the_tolerance_is_marked() {
    let protocol = Protocol::default();
    let press = |millis| Reading::timed(Span::seconds(2), Span::millis(millis)).press(&protocol);
    assert_eq!([3_999, 4_000].map(press), [Press::Short, Press::AsGuided]);
    assert_eq!([6_000, 6_001].map(press), [Press::AsGuided, Press::Long]);
    assert_eq!(Reading::typed(Span::seconds(2)).press(&protocol), Press::Unknown);

    let mut mixed = readings(&[2_000, 2_000], &[2_000, 2_000, 2_000]);
    mixed.add(Side::Affected, Reading::timed(Span::seconds(2), Span::seconds(1))).unwrap();
    assert_eq!(
        mixed.comparison(&protocol),
        Comparison::Compared(vec![Weakness::Press(Side::Affected, 1)])
    );
}

#[test]
fn a_slipped_decimal_sign_is_asked_about() {
    let typed = |millis| Reading::typed(Span::millis(millis)).doubt();
    assert_eq!(typed(400), Some(Doubt::Tenfold(Span::millis(4_000))));
    assert_eq!(typed(420), Some(Doubt::Tenfold(Span::millis(4_200))));
    assert_eq!(typed(42_000), Some(Doubt::Tenfold(Span::millis(4_200))));
    assert_eq!(typed(40), Some(Doubt::Quick), "odd either way");
    assert_eq!(typed(200_000), Some(Doubt::Slow));
    assert_eq!([500, 4_200, 10_000].map(typed), [None; 3]);
    // The timer has no decimal sign.
    assert_eq!(timed(400).doubt(), Some(Doubt::Quick));
    assert_eq!(timed(42_000).doubt(), Some(Doubt::Slow));
}

#[test]
fn the_sides_are_compared_when_both_are_read() {
    let protocol = Protocol::default();
    let compared = |a: &[u64], b: &[u64]| readings(a, b).comparison(&protocol);
    assert_eq!(compared(&[], &[1_000]), Comparison::Wanting(Side::Affected));
    assert_eq!(compared(&[1_000], &[]), Comparison::Wanting(Side::Opposite));
    let three = [1_000, 1_100, 1_200];
    assert_eq!(compared(&[3_000, 3_100, 3_200], &three), Comparison::Compared(vec![]));
    assert_eq!(
        compared(&[3_000, 3_100], &three),
        Comparison::Compared(vec![Weakness::Fewer(Side::Affected, 1)])
    );
    // A gap of 0.4 s between sides that are each 0.5 s apart; and one within a reader's noise.
    let scattered = [1_200, 1_500, 1_700];
    assert_eq!(compared(&scattered, &three), Comparison::Compared(vec![Weakness::WithinSpread]));
    assert_eq!(compared(&[900, 1_200, 1_400], &three), Comparison::Compared(vec![]));
}

#[test]
fn the_medians_make_the_refill_of_a_look() {
    let protocol = Protocol::default();
    assert_eq!(readings(&[], &[1_000]).refill(&protocol), None);
    let refill = readings(&[4_000, 4_200, 4_100], &[1_500]).refill(&protocol).unwrap();
    assert_eq!(refill.affected, Span::millis(4_100));
    assert_eq!(refill.opposite, Some(Span::millis(1_500)));
    let person = Person { years: Some(40), sex: Some(Sex::Female) };
    let judged = readings(&[4_000, 400, 4_100], &[1_500]).judge(Colour::Pale, person, &protocol);
    assert_eq!(judged.unwrap().verdict, Verdict::Slow);
}

#[test]
fn a_persons_limits_begin_with_the_one_in_force() {
    for years in [None, Some(40), Some(70)] {
        for sex in [None, Some(Sex::Female), Some(Sex::Male)] {
            let person = Person { years, sex };
            let first = limits(person).next().unwrap();
            assert_eq!(first.upper, refill_limit::guidance(person.group()), "{person:?}");
            assert!(limits(person).all(|limit| !limit.setting.contains("face")));
            assert!(limits(person).count() > 1, "no study beside the guidance: {person:?}");
        }
    }
}

#[test]
fn readings_are_kept() {
    let mut kept = readings(&[4_000], &[1_500]);
    kept.add(Side::Opposite, Reading::typed(Span::seconds(1))).unwrap();
    let text = serde_json::to_string(&kept).unwrap();
    assert_eq!(serde_json::from_str::<Readings>(&text).unwrap(), kept);
    assert_eq!(serde_json::from_str::<Readings>("{}").unwrap(), Readings::default());
}
