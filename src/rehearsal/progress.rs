//! How one does over a history of rehearsals.

use super::{Debrief, Scenario};
use crate::measure::Span;

/// The best and the last of one time.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Best {
    /// The shortest.
    pub best: Option<Span>,
    /// In the last rehearsal; none if it did not happen there.
    pub last: Option<Span>,
}

/// How one does in one scenario.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Progress {
    /// Which.
    pub scenario: Scenario,
    /// How often it was played.
    pub played: u32,
    /// How often to a good end.
    pub good: u32,
    /// Whether the last one had a good end.
    pub last_good: bool,
    /// Until it was taken for urgent.
    pub recognition: Best,
    /// Until the first unit.
    pub first_unit: Best,
    /// Until the first adrenaline.
    pub first_adrenaline: Best,
    /// Until the hand-over.
    pub handover: Best,
    /// Until the skin had its blood back.
    pub perfused: Best,
}

/// How one does in each scenario that was played, in the order of [`Scenario::ALL`]. The history may
/// be in any order: the last is the one begun last.
pub fn progress(history: &[Debrief]) -> Vec<Progress> {
    Scenario::ALL.into_iter().filter_map(|scenario| of(scenario, history)).collect()
}

fn of(scenario: Scenario, history: &[Debrief]) -> Option<Progress> {
    let played = || history.iter().filter(move |debrief| debrief.scenario == scenario);
    let last = played().max_by_key(|debrief| debrief.start)?;
    let count = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
    let best = |time: fn(&Debrief) -> Option<Span>| Best {
        best: played().filter_map(time).min(),
        last: time(last),
    };
    Some(Progress {
        scenario,
        played: count(played().count()),
        good: count(played().filter(|debrief| debrief.good).count()),
        last_good: last.good,
        recognition: best(|debrief| debrief.times.recognition),
        first_unit: best(|debrief| debrief.times.first_unit),
        first_adrenaline: best(|debrief| debrief.times.first_adrenaline),
        handover: best(|debrief| debrief.times.handover),
        perfused: best(|debrief| debrief.times.perfused),
    })
}
