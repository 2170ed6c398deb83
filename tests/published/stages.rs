//! Reviews and damage to the skin, against the sources.

use freshet::measure::Span;
use freshet::protocol::{Basis, Id, Protocol, source};

// Murray 2021, table 3 (PMC8211329): pustules at 72 hours. Daily reviews do not stop before.
#[test]
fn daily_reviews_reach_to_the_stage_of_pustules() {
    let pustules = Span::hours(72);
    assert!(Protocol::default().review_daily_for >= pustules);
    let findings = Protocol::entry(Id::ReviewDailyFor).findings;
    assert!(findings.iter().all(|one| one.basis == Basis::DerivedFrom(source::STAGES_2021)));
}

// King 2020, second hand: daily at first, then spaced out. No source says how far.
#[test]
fn daily_at_first_then_spaced_out() {
    let protocol = Protocol::default();
    assert_eq!(protocol.review_daily, Span::days(1));
    assert!(protocol.review_spaced > protocol.review_daily);
    let spaced = Protocol::entry(Id::ReviewSpaced).findings;
    assert!(spaced.iter().all(|one| one.basis == Basis::Proposal));
}
