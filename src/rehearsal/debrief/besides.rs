//! What stands beside the rounds: the second person at the syringe, and aspirin.

use super::looks::count;
use super::played::Played;
use crate::care::adjunct::{Act, Adjuncts, Aspirin, Choice, aspirin};
use crate::case::Event;
use crate::protocol::adjunct::Adjunct;
use std::collections::BTreeSet;

/// Movements made that no second person checked; `None` where none was made.
pub(super) fn unchecked(played: &Played) -> Option<u32> {
    let (mut made, mut sum, mut any) = (BTreeSet::new(), 0_u32, false);
    for (_, event) in played.events() {
        match event {
            Event::Preparation(_) => {
                sum = sum.saturating_add(count(made.len()));
                made.clear();
            }
            Event::Drew(movement) => {
                made.insert(*movement);
                any = true;
            }
            Event::Checked { movement, .. } => {
                made.remove(movement);
            }
            _ => {}
        }
    }
    any.then(|| sum.saturating_add(count(made.len())))
}

/// How aspirin was given.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Given {
    /// At all.
    pub any: bool,
    /// Once at least without all being asked.
    pub unasked: bool,
    /// Once at least though an answer forbids it, given or not yet asked for.
    pub forbidden: bool,
}

/// How aspirin was given.
pub(super) fn aspirin_given(played: &Played) -> Given {
    let (mut adjuncts, mut given) = (Adjuncts::default(), Given::default());
    let truth = aspirin(&played.brief.before_aspirin());
    for (at, event) in played.events() {
        let Event::Adjunct(act) = event else { continue };
        adjuncts.apply(at, act);
        if let Act::Chose(Adjunct::Aspirin, Choice::Given(_)) = act {
            let asked = aspirin(&adjuncts.asked);
            given.any = true;
            given.unasked |= matches!(asked, Aspirin::AskFirst(_));
            given.forbidden |=
                matches!(asked, Aspirin::MustNot(_)) || matches!(truth, Aspirin::MustNot(_));
        }
    }
    given
}
