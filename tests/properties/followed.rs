//! A case after its treatment, whatever happened before and wherever the record breaks off.

use super::happened::{What, anything, journal, taken_up};
use freshet::care::allergy::Urgency;
use freshet::care::rounds::Phase;
use freshet::case::{Case, Entry, Event, Journal};
use proptest::prelude::*;

/// The case as it was when each of its entries was the last.
fn prefixes(whole: &Journal) -> impl Iterator<Item = (Case, &Entry)> {
    let mut so_far = Journal::new(whole.case());
    whole.entries().iter().map(move |entry| {
        so_far.append(entry.at(), 0, entry.event().clone());
        (Case::of(&so_far), entry)
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    /// Wherever the app is killed, an entry that takes the treatment up again is there whole or not at
    /// all: open, urgent, without an end, and on the look that it carries.
    #[test]
    fn taken_up_whole_or_not_at_all(happenings in anything(), again in taken_up()) {
        let mut happenings = happenings;
        happenings.push((What::This(again), 1));
        for (case, entry) in prefixes(&journal(1, &happenings)) {
            let treatment = &case.treatment;
            // In follow-up means over and still open, and nothing else.
            prop_assert!(!case.in_follow_up() || (treatment.end().is_some() && case.open()));
            prop_assert!(case.next_review().is_none() || case.in_follow_up());
            if let Event::TakenUp { look, .. } = entry.event() {
                prop_assert!(case.open() && treatment.end().is_none() && case.appointed.is_none());
                prop_assert_eq!(case.urgency(), Some(Urgency::Urgent));
                prop_assert_eq!(treatment.urgency, Urgency::Urgent);
                prop_assert_eq!(treatment.looks().last(), Some(&(entry.at(), (**look).clone())));
                prop_assert_eq!(&case.flags, &look.red_flags);
                let phase = treatment.phase(entry.at(), &case.protocol);
                let goes_on = matches!(phase, Phase::Ready | Phase::Injecting | Phase::Looked);
                prop_assert!(goes_on, "{:?}", phase);
            }
        }
    }
}
