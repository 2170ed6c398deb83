//! Adrenaline into muscle, row by row.

use freshet::care::anaphylaxis::{Act, NoWeight, Reaction, Recognised};
use freshet::care::anaphylaxis::{Build, Course, Dose, Sign, dose, observation, recognise};
use freshet::care::anaphylaxis::{Counted, dose_by_weight, observe};
use freshet::measure::{Mass, Moment, Span, Volume};
use freshet::protocol::adrenaline::{AUSTRALIA_WEIGHTS, by_weight, table};
use freshet::protocol::{Protocol, Region, source};

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

/// Both tables, each row at the first and the last month of its band; where two bands of the
/// Australian table touch, both rows' doses.
#[test]
fn each_row_at_both_ends_of_its_band() {
    let uk = [
        ((0, 5), (100, 150)),
        ((6, 71), (150, 150)),
        ((72, 155), (300, 300)),
        ((156, 1_200), (500, 500)),
    ];
    let australia = [
        ((0, 11), (50, 100)),
        ((12, 23), (100, 100)),
        ((24, 35), (100, 150)),
        ((36, 47), (150, 150)),
        ((48, 83), (200, 200)),
        ((84, 119), (300, 300)),
        ((120, 131), (300, 400)),
        ((132, 155), (400, 400)),
        ((156, 1_200), (500, 500)),
    ];
    let bands = uk.map(|row| (Region::Uk, row)).into_iter();
    for (region, ((first, last), dose)) in bands.chain(australia.map(|r| (Region::Australia, r))) {
        assert_eq!(at(first, region), dose, "{region:?}, {first} months");
        assert_eq!(at(last, region), dose, "{region:?}, {last} months");
    }
}

/// ASCIA, Acute management of anaphylaxis: 0.01 mg/kg, 0.5 mg at most; 0.05 to 0.1 mL at 5 to 10 kg,
/// 0.1 at 10, 0.15 at 15, 0.2 at 20, 0.3 at 30, 0.4 at 40, 0.5 over 50.
#[test]
fn the_australian_table_by_weight() {
    let by_kg = |kg| dose_by_weight(Mass::kg(kg), Region::Australia).unwrap().low.raw();
    let printed = [
        (5, 50),
        (10, 100),
        (15, 150),
        (20, 200),
        (30, 300),
        (40, 400),
        (50, 500),
        (51, 500),
        (110, 500),
    ];
    for (kg, ul) in printed {
        assert_eq!(by_kg(kg), ul, "{kg} kg");
    }
    for (from, to, low, high) in AUSTRALIA_WEIGHTS {
        for (weight, volume) in [(from, low), (to, high)] {
            let dose = dose_by_weight(*weight, Region::Australia).unwrap();
            assert_eq!(dose, Dose { low: *volume, high: *volume }, "{weight:?}");
        }
    }
    // The rows by weight are the rows by age.
    let ages = table(Region::Australia).iter().map(|row| (row.low, row.high));
    assert!(ages.eq(AUSTRALIA_WEIGHTS.iter().map(|(_, _, low, high)| (*low, *high))));
    assert_eq!(by_weight(Region::Australia).unwrap().source, source::ANAPHYLAXIS_AU);
}

/// Resuscitation Council UK, May 2021: by age alone.
#[test]
fn the_uk_table_has_no_weights() {
    assert_eq!(dose_by_weight(Mass::kg(70), Region::Uk), Err(NoWeight::ByAge));
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
    let at = |minutes| start.after(Span::minutes(minutes));
    assert!(!reaction.refractory(at(5), &protocol));
    reaction.apply(at(5), &Act::Adrenaline(Volume::ul(500)));
    reaction.apply(at(7), &Act::NotBetter);
    assert!(reaction.refractory(at(7), &protocol));
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

/// Clin Med 2022;22:332-339, table 2, row by row: after two doses or an earlier biphasic reaction 6
/// hours, the rest 12 whatever else is well; what fits no column is not let go after 2. All counted
/// from when the signs had settled.
#[test]
fn observation_in_the_uk() {
    let settled = Course { quick_response: true, safe_home: true, ..Course::default() };
    let uk = |doses, course| observe(Region::Uk, doses, course);
    let rows = [
        (1, settled, 2),
        (1, Course { quick_response: false, ..settled }, 6),
        (1, Course { safe_home: false, ..settled }, 6),
        (2, settled, 6),
        (1, Course { biphasic_before: true, ..settled }, 6),
        (3, settled, 12),
        (1, Course { severe_breathing: true, ..settled }, 12),
        (1, Course { still_absorbing: true, ..settled }, 12),
        (1, Course { far_from_help: true, ..settled }, 12),
    ];
    for (doses, course, hours) in rows {
        let watch = uk(doses, course);
        assert_eq!((watch.least, watch.counted), (Span::hours(hours), Counted::FromSettled));
        assert_eq!(watch.source, source::ANAPHYLAXIS_UK_REVIEW);
    }
}

/// Australian Acute Anaphylaxis Clinical Care Standard, statement 5: at least 4 hours after the last
/// dose; overnight may be needed after more than one dose, with severe asthma, late in the evening,
/// alone or far from help, or with no auto-injector.
#[test]
fn observation_in_australia() {
    let safe = Course { quick_response: true, safe_home: true, ..Course::default() };
    let nights = [
        (1, safe, false),
        (2, safe, true),
        (1, Course { severe_breathing: true, ..safe }, true),
        (1, Course { far_from_help: true, ..safe }, true),
        (1, Course { safe_home: false, ..safe }, true),
    ];
    for (doses, course, overnight) in nights {
        let watch = observe(Region::Australia, doses, course);
        assert_eq!((watch.least, watch.counted), (Span::hours(4), Counted::FromLastDose));
        assert_eq!(watch.overnight, overnight, "{doses} {course:?}");
        assert_eq!(watch.source, source::OBSERVATION_AU);
    }
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
