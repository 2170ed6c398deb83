//! What the patient's sheet says of time.

use freshet::measure::Span;
use freshet::protocol::{Basis, fact, source};

/// Source: Murray 2021, PMC8211329, table 3: pustules, stage 3, at 72 h.
#[test]
fn pustules_come_after_three_days() {
    let told = fact::PUSTULES;
    assert_eq!((told.from, told.to), (Span::hours(72), Span::hours(72)));
    assert_eq!(told.basis, Basis::Published(source::STAGES_2021));
}

/// Source: J Plast Reconstr Aesthet Surg 2020/21, 0.2 mL boluses in humans: change until two weeks.
#[test]
fn gel_changes_for_two_weeks() {
    assert_eq!(fact::GEL_CHANGES.to, Span::days(14));
}

/// Source: Barbaud 2020, PMC7243670, table 1: delayed reading at 24 h (ESCD) and 24 to 72 h (EAACI).
#[test]
fn a_test_is_read_again_within_three_days() {
    let told = fact::TEST_READ_AGAIN;
    assert_eq!((told.from, told.to), (Span::hours(24), Span::hours(72)));
}
