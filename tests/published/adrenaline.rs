//! Adrenaline into muscle, row by row.

use freshet::care::anaphylaxis::{Act, Reaction, Recognised};
use freshet::care::anaphylaxis::{Build, Course, Dose, Sign, dose, observation, recognise};
use freshet::measure::{Moment, Span, Volume};
use freshet::protocol::{Protocol, Region};

const YEAR: u32 = 12;

fn at(months: u32, region: Region) -> (u64, u64) {
    let Dose { low, high } = dose(months, Build::Adult, region);
    (low.raw(), high.raw())
}

/// Resuscitation Council UK, May 2021: 500 microgram over 12, 300 from 6 to 12, 150 from 6 months to
/// 6, 100 to 150 below; in microlitres of 1 mg/mL.
#[test]
fn the_uk_table() {
    for (years, expected) in
        [(13, 500), (45, 500), (80, 500), (12, 300), (6, 300), (5, 150), (1, 150)]
    {
        assert_eq!(at(years * YEAR, Region::Uk), (expected, expected), "{years} years");
    }
    assert_eq!(at(6, Region::Uk), (150, 150));
    assert_eq!(at(5, Region::Uk), (100, 150));
    assert_eq!(at(0, Region::Uk), (100, 150));
}

/// Resuscitation Council UK, May 2021: 300 microgram if small or prepubertal.
#[test]
fn small_or_prepubertal() {
    let small = dose(14 * YEAR, Build::Small, Region::Uk);
    assert_eq!(small, Dose { low: Volume::ul(300), high: Volume::ul(300) });
    assert_eq!(dose(3 * YEAR, Build::Small, Region::Uk).high, Volume::ul(150));
}

/// ASCIA, Acute management of anaphylaxis: volumes of 1 mg/mL by age.
#[test]
fn the_australian_table() {
    let rows = [
        (6, (50, 100)),
        (YEAR, (100, 100)),
        (2 * YEAR, (100, 150)),
        (3 * YEAR, (150, 150)),
        (4 * YEAR, (200, 200)),
        (6 * YEAR, (200, 200)),
        (7 * YEAR, (300, 300)),
        (9 * YEAR, (300, 300)),
        (10 * YEAR, (300, 400)),
        (12 * YEAR, (400, 400)),
        (13 * YEAR, (500, 500)),
        (50 * YEAR, (500, 500)),
    ];
    for (months, expected) in rows {
        assert_eq!(at(months, Region::Australia), expected, "{months} months");
    }
}

/// Both tables side by side: a child of 5 has 0.15 or 0.2 mL, one of 11 has 0.3 or 0.4 mL.
#[test]
fn the_two_tables_differ() {
    assert_eq!(at(5 * YEAR, Region::Uk).0, 150);
    assert_eq!(at(5 * YEAR, Region::Australia).0, 200);
    assert_eq!(at(11 * YEAR, Region::Uk).0, 300);
    assert_eq!(at(11 * YEAR, Region::Australia).1, 400);
}

/// Resuscitation Council UK, May 2021: repeat at 5 minutes; refractory after two doses without
/// improvement.
#[test]
fn repeat_and_refractory() {
    let protocol = Protocol::default();
    let start = Moment::from_millis(0);
    let mut reaction = Reaction::default();
    reaction.apply(start, &Act::Adrenaline(Volume::ul(500)));
    assert_eq!(reaction.next_dose(&protocol), Some(start.after(Span::minutes(5))));
    assert!(!reaction.refractory(&protocol));
    reaction.apply(start.after(Span::minutes(5)), &Act::Adrenaline(Volume::ul(500)));
    assert!(reaction.refractory(&protocol));
}

/// Clin Med 2022;22:332-339, table 2: at least 2, 6 or 12 hours.
#[test]
fn observation_periods() {
    let settled = Course { quick_response: true, safe_home: true, ..Course::default() };
    assert_eq!(observation(1, settled), Span::hours(2));
    assert_eq!(observation(2, settled), Span::hours(6));
    assert_eq!(observation(1, Course { biphasic_before: true, ..settled }), Span::hours(6));
    assert_eq!(observation(3, settled), Span::hours(12));
    assert_eq!(observation(1, Course { severe_breathing: true, ..settled }), Span::hours(12));
    assert_eq!(observation(1, Course { still_absorbing: true, ..settled }), Span::hours(12));
}

/// ASCIA criteria, in line with WAO 2020: skin with another system, or low pressure, bronchospasm or
/// upper airway without any skin sign.
#[test]
fn criteria() {
    for alone in [Sign::Hypotension, Sign::Bronchospasm, Sign::UpperAirway] {
        assert_eq!(recognise(&[alone]), Recognised::WithoutSkin);
    }
    for with in [Sign::Breathing, Sign::Circulation, Sign::Gut] {
        assert_eq!(recognise(&[Sign::Skin, with]), Recognised::WithSkin);
        assert_eq!(recognise(&[with]), Recognised::NotMet);
    }
}
