//! Step 5: giving it, point by point and round by round, with the look between.
//!
//! Which screen is shown follows from the case and the moment, so it is the right one after a
//! reload, a crash or a night. Only a look that is being taken down is kept beside it.

mod changes;
mod decide;
mod end;
mod handing;
mod hour;
mod inject;
mod look;
mod ready;
mod sheets;
mod skin;
mod stop;
mod trend;

pub use handing::Handing;
pub use look::{LookWays, Looking, forget, waiting};
pub use trend::RefillTrend;

use super::use_here;
use crate::care::allergy::Urgency;
use crate::care::rounds::{Act, HandOver, Look, Phase};
use crate::case::{Case, Event, StrikeReason};
use crate::measure::{Hash, Moment};
use crate::phone::use_now;
use crate::ui::alarm::{Alarm, use_alarm};
use crate::ui::desk::Held;
use crate::ui::parts::{Pair, QuietButton};
use crate::ui::rehearsal::idle_while;
use crate::ui::tap::{Taps, turn};
use crate::ui::words::round_screens as said;
use leptos::prelude::*;
use sheets::HandOverSheet;

/// The screens of this step.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Stage {
    /// Before a round.
    Ready,
    /// In a round.
    Injecting,
    /// The hour between, and after it.
    Hour,
    /// Planned work is done; no clock.
    Done,
    /// What next?
    Looked,
    /// Over.
    Ended,
}

/// Where the case stands in this step.
fn stage(case: &Case, now: Moment) -> Stage {
    if case.closed.is_some() {
        return Stage::Ended;
    }
    match (case.treatment.phase(now, &case.protocol), case.urgency()) {
        (Phase::Ended(_), _) => Stage::Ended,
        (Phase::Ready, _) => Stage::Ready,
        (Phase::Injecting, _) => Stage::Injecting,
        (_, Some(Urgency::Planned)) => {
            if case.solution_for_next().is_some() {
                Stage::Ready
            } else {
                Stage::Done
            }
        }
        (Phase::Watching { .. } | Phase::Due { .. }, _) => Stage::Hour,
        (Phase::Looked, _) => {
            // Made after the look it is what was decided on. Made before, it is still to decide.
            let looked = case.treatment.looks().last().map(|(at, _)| *at);
            let made = case.solution_for_next();
            if made.is_some_and(|made| looked.is_none_or(|looked| made > looked)) {
                Stage::Ready
            } else {
                Stage::Looked
            }
        }
    }
}

/// What the screens of this step share.
#[derive(Clone, Copy)]
struct Step5 {
    /// A look is being taken down.
    looking: RwSignal<bool>,
    /// The next round was decided on, with a solution made before the look.
    going: RwSignal<bool>,
    /// Handing over is asked about.
    handing: RwSignal<Option<Handing>>,
    taps: Taps,
    alarm: Alarm,
}

impl Step5 {
    /// A look of the hours: recorded, then to what is next, and by a sign that goes before everything
    /// to handing over.
    fn look(self, here: super::Here) -> look::LookWays {
        let leave = Callback::new(move |()| turn(self.looking, false));
        let record = Callback::new(move |look: Look| {
            let flag = look.red_flags.first().copied();
            self.alarm.silence();
            here.record_then(Event::Round(Act::Look(look)), move || {
                look::forget(here.id);
                self.looking.set(false);
                if let Some(flag) = flag {
                    self.handing.set(Some(Handing::Any(Some(HandOver::of(flag)))));
                }
            });
        });
        look::LookWays { rail: true, leave, record }
    }
}

/// Step 5.
#[component]
pub fn Rounds() -> impl IntoView {
    let here = use_here();
    let now = use_now();
    let step = Step5 {
        // One that was begun goes on, as after the anaphylaxis sheet.
        looking: RwSignal::new(look::waiting(&here.now())),
        going: RwSignal::new(false),
        handing: RwSignal::new(None),
        taps: Taps::new(),
        alarm: use_alarm().of(Some(here.id)),
    };
    // The moment changes four times a second; the screen only when the answer does.
    let stage = Memo::new(move |_| stage(&here.case(), now.get()));
    Effect::new(move |_| {
        // Decided for one round only.
        if stage.get() == Stage::Injecting {
            step.going.set(false);
        }
    });
    idle_while(move || {
        stage.get() == Stage::Hour && !step.looking.get() && step.handing.get().is_none()
    });
    view! {
        {move || match stage.get() {
            Stage::Ended => view! { <end::Ended step /> }.into_any(),
            Stage::Injecting => view! { <inject::Injecting step /> }.into_any(),
            _ if step.looking.get() => view! { <look::Looking ways=step.look(here) /> }.into_any(),
            Stage::Looked if step.going.get() => view! { <ready::Ready step /> }.into_any(),
            Stage::Ready => view! { <ready::Ready step /> }.into_any(),
            Stage::Hour => view! { <hour::Hour step /> }.into_any(),
            Stage::Done => view! { <end::PlannedDone step /> }.into_any(),
            Stage::Looked => view! { <decide::Decide step /> }.into_any(),
        }}
        <HandOverSheet step />
    }
}

/// Handing over where there are no hours any more: the same sheet, after the treatment.
#[component]
pub fn HandOverAfter(handing: RwSignal<Option<Handing>>) -> impl IntoView {
    let alarm = use_alarm().of(Some(use_here().id));
    let (looking, going) = (RwSignal::new(false), RwSignal::new(false));
    view! { <HandOverSheet step=Step5 { looking, going, handing, taps: Taps::new(), alarm } /> }
}

/// What was last recorded of the treatment and counts.
fn last_act(held: &Held) -> Option<(Hash, Act)> {
    let acts = held.case.standing(&held.journal).filter_map(|entry| match entry.event() {
        Event::Round(act) => Some((entry.id(), act.clone())),
        // Taken back, the end holds again.
        Event::TakenUp { look, .. } => Some((entry.id(), Act::Look((**look).clone()))),
        _ => None,
    });
    acts.last()
}

/// What stands below the end of a round: the signs that go before everything, and that the round is
/// not over after all.
#[component]
fn AfterRound(
    step: Step5,
    /// The words that take the end of the round back.
    take_back: &'static str,
) -> impl IntoView {
    let here = use_here();
    view! {
        <Pair>
            <QuietButton on_press=move |()| {
                step.handing.set(Some(Handing::Flags));
            }>{said::flags()}</QuietButton>
            <QuietButton on_press=move |()| {
                if let Some((entry, Act::Finish)) = last_act(&untrack(|| here.held())) {
                    strike(here, entry);
                }
            }>{take_back}</QuietButton>
        </Pair>
    }
}

/// Takes back an entry that was a slip.
fn strike(here: super::Here, entry: Hash) {
    here.record(Event::Struck { entry, reason: StrikeReason::Slip });
}
