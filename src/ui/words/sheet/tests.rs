//! What the anaphylaxis sheet says.

use super::*;
use crate::care::anaphylaxis::{Course, observe as by_rule};

#[test]
fn what_is_not_published_says_so_beside_the_hour() {
    let watched = |region| Watched {
        region,
        watch: by_rule(region, 1, Course::default()),
        settled: Moment::from_millis(0),
        last_dose: None,
    };
    let (uk, australia) = (watched(Region::Uk), watched(Region::Australia));
    assert_eq!(founded(&uk), "Length: published. Starting moment: this app’s proposal.");
    let memory = "Length and starting moment: from memory, no source opened.";
    assert_eq!(founded(&australia), memory);
    assert!(observe_rule(&australia).contains("To be looked up"));
    assert!(!observe_rule(&uk).contains("To be looked up"));
}

#[test]
fn a_small_person_is_not_called_an_adult() {
    let small = |age| whom(age, None, true, Region::Uk);
    assert_eq!(small(None), "small, UK");
    assert_eq!(small(Some((14, true))), "14 years, small, UK");
    assert_eq!(whom(None, None, false, Region::Uk), "adult, UK");
}
