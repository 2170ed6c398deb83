//! When to look, when it is over, and how late it still helped.

use freshet::care::refill::{Colour, Person, Refill};
use freshet::care::rounds::{Look, Pain};
use freshet::care::situation::windows;
use freshet::measure::Span;
use freshet::protocol::Protocol;

/// DeLorenzi 2017: hourly until resolved. Cohen 2015: again if no improvement within 60 minutes.
#[test]
fn hourly() {
    assert_eq!(Protocol::default().round_interval, Span::minutes(60));
}

/// DeLorenzi 2017: the end point is refill, skin colour and absence of pain.
#[test]
fn three_signs_end_it() {
    let refill = Refill { affected: Span::millis(1_500), opposite: Some(Span::millis(1_500)) };
    let well = Look { refill: Some(refill), ..Look::of(Colour::Normal, Pain::NONE) };
    let wanting = |look: &Look| look.wanting(Person::default(), &Protocol::default()).len();
    assert_eq!(wanting(&well), 0);
    assert_eq!(wanting(&Look { colour: Colour::Mottled, ..well.clone() }), 1);
    assert_eq!(wanting(&Look { pain: Pain::new(3).unwrap(), ..well.clone() }), 1);
    assert_eq!(wanting(&Look { refill: None, ..well }), 1);
}

/// Li 2019: 4 h (rabbit). Cohen 2015, Al-Alam Sansur 2023: 24 h. DeLorenzi 2017, Sun 2015: 2 days.
#[test]
fn windows_pass_one_by_one() {
    let passed = |hours| windows(Span::hours(hours)).filter(|(_, passed)| *passed).count();
    assert_eq!([3, 5, 25, 49].map(passed), [0, 1, 3, 5]);
}

/// Common practice, no source: several thousand units over 4 to 5 hours, then help is asked for.
#[test]
fn rounds_before_handing_over() {
    assert!((4..=5).contains(&Protocol::default().rounds_before_handover));
}
