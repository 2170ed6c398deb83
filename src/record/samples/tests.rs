//! The stories hold together.

use super::*;
use crate::care::aftercare::Advice;
use std::collections::BTreeSet;

#[test]
fn each_is_a_case_of_its_own_that_took_all_it_was_told() {
    let told = all().into_iter().chain([("drawn", drawn())]);
    let mut ids = BTreeSet::new();
    for (name, told) in told {
        assert_eq!(told.case().refused, [], "{name}");
        let names =
            [told.journal.case().to_string(), told.case().reference.unwrap().as_str().to_owned()];
        for one in names {
            assert!(ids.insert(one), "{name} is called as another");
        }
    }
}

#[test]
fn what_is_done_after_a_review_is_what_the_rules_ask_for() {
    let occlusion = occlusion().case();
    assert_eq!(occlusion.course().advice(), [Advice::Well]);
    assert!(occlusion.in_follow_up());
    // As it stood before it was taken up again.
    let told = came_back();
    let mut before = Journal::new(told.journal.case());
    for entry in told.journal.entries() {
        if matches!(entry.event(), Event::TakenUp { .. }) {
            break;
        }
        before.append(entry.at(), ZONE, entry.event().clone());
    }
    assert_eq!(Case::of(&before).course().advice(), [Advice::Treat, Advice::Wound]);
    assert!(told.case().in_follow_up());
}
