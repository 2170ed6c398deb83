//! The rehearsal that runs, if one does: the same screens on a desk and a clock of its own.
//!
//! A page belongs to the rehearsal when its address names the rehearsal's case; every other page is
//! the real one, and the rehearsal stands still meanwhile. Nothing of it is kept beyond the life of
//! the page but its debrief.

mod patient;
mod strip;

pub use strip::PACES;

use super::alarm::{self, Alarm, use_alarm};
use super::app::Pages;
use super::desk::Desk;
use super::page::Page;
use super::skin::SimulatedSkin;
use super::title;
use super::words::rehearsal as said;
use crate::care::refill::Colour;
use crate::care::rounds::Phase;
use crate::case::{Case, CaseId, Journal, Reference};
use crate::measure::{Moment, Span};
use crate::phone::hands::Hands;
use crate::phone::{Clock, clock, provide_rehearsed, use_clock};
use crate::protocol::Protocol;
use crate::rehearsal::{Condition, Debrief, Scenario, condition, debrief};
use crate::store::Refusal;
use crate::store::rehearsals::{self, Played};
use leptos::prelude::*;
use leptos::tachys::reactive_graph::OwnedView;
use std::sync::Arc;

/// How much the patient may be behind: what is seen is told anew after so much of her own time.
const FRESH: Span = Span::seconds(5);

/// A rehearsal that runs. Copied freely.
#[derive(Clone, Copy)]
pub struct Run {
    /// Which patient.
    pub scenario: Scenario,
    /// When it began, by its own clock.
    pub start: Moment,
    /// Its case.
    pub case: CaseId,
    hands: RwSignal<Hands>,
    /// How many times faster than time the clock goes while a look is awaited.
    pace: RwSignal<u32>,
    /// What the user set; it is held besides while another page is shown.
    paused: RwSignal<bool>,
    clock: StoredValue<Clock>,
    desk: StoredValue<Desk>,
    alarm: StoredValue<Alarm>,
}

impl Run {
    fn journal(self) -> Option<Arc<Journal>> {
        self.desk.get_value().held(self.case).map(|held| held.journal)
    }

    /// The case, tracked.
    pub fn held_case(self) -> Option<Arc<Case>> {
        self.desk.get_value().held(self.case).map(|held| held.case)
    }

    /// How the patient is, tracked; told anew every few seconds of her time.
    fn patient(self) -> Memo<Option<Condition>> {
        let now = self.clock.get_value().shown();
        let coarse = Memo::new(move |_| {
            let (start, millis) = (self.start, FRESH.as_millis());
            start.after(Span::millis(now.get().since(start).as_millis() / millis * millis))
        });
        Memo::new(move |_| {
            Some(condition(self.scenario, self.start, &*self.journal()?, coarse.get()))
        })
    }

    fn turn(self, change: impl FnOnce(Hands, Span) -> Hands) {
        let steady = clock::steady();
        self.hands.try_update(|hands| *hands = change(*hands, steady));
    }

    /// Whether the case waits for nothing but time, and nothing happens to the patient.
    fn waits(self, patient: Memo<Option<Condition>>) -> bool {
        let case = self.held_case().is_some_and(|case| {
            let awaited = matches!(
                case.treatment.phase(self.clock.get_value().shown().get(), &case.protocol),
                Phase::Watching { .. }
            );
            awaited && case.open() && case.flags.is_empty() && !case.reaction.active()
        });
        let well = patient
            .read()
            .as_ref()
            .is_none_or(|patient| patient.flags.is_empty() && patient.reaction.is_empty());
        case && well
    }

    fn hold(self, held: bool) {
        self.turn(|hands, steady| hands.hold(held, steady));
    }

    fn forward(self, to: Moment) {
        self.turn(|hands, steady| hands.forward(to, steady));
    }
}

/// The rehearsals of this page of the app. Copied freely; provided as context by the app.
#[derive(Clone, Copy)]
pub struct Rehearsals {
    running: RwSignal<Option<Run>>,
    /// The debrief that is looked at.
    shown: RwSignal<Option<Debrief>>,
    /// Why the last debrief could not be kept.
    unkept: RwSignal<Option<Refusal>>,
    /// Lives as long as the run: its clock, its desk, its alarm.
    owner: StoredValue<Option<Owner>>,
    root: StoredValue<Owner>,
}

/// Provides them, none running.
pub fn provide() {
    let root = Owner::current().unwrap_or_default();
    provide_context(Rehearsals {
        running: RwSignal::new(None),
        shown: RwSignal::new(None),
        unkept: RwSignal::new(None),
        owner: StoredValue::new(None),
        root: StoredValue::new(root),
    });
}

/// The rehearsals.
///
/// # Panics
/// If no component above called [`provide`].
pub fn use_rehearsals() -> Rehearsals {
    expect_context::<Rehearsals>()
}

/// What is shown here belongs to a rehearsal.
#[derive(Clone, Copy)]
struct Staged {
    /// Whether the screen that is shown is one on which only time is awaited.
    idle: RwSignal<bool>,
}

/// Whether what is shown here is a rehearsal: nothing may then be dialled, photographed or kept.
pub fn rehearsed() -> bool {
    use_context::<Staged>().is_some()
}

/// While this screen is shown and `idle` says so only time is awaited: in a rehearsal its clock may
/// then hurry. All that a user does takes its real time.
pub fn idle_while(idle: impl Fn() -> bool + Send + Sync + 'static) {
    let Some(staged) = use_context::<Staged>() else { return };
    Effect::new(move |_| staged.idle.set(idle()));
    on_cleanup(move || {
        staged.idle.try_set(false);
    });
}

impl Rehearsals {
    /// The one that runs, tracked.
    pub fn running(self) -> Option<Run> {
        self.running.get()
    }

    /// Begins one under the clinic's values, its clock so many times faster than time while a look is
    /// awaited; `then` runs once its case is open. One that ran before ends without a debrief.
    pub fn begin(
        self,
        scenario: Scenario,
        pace: u32,
        protocol: Protocol,
        then: impl FnOnce(CaseId) + 'static,
    ) {
        self.clear();
        let owner = self.root.with_value(Owner::child);
        let hands = Hands::new(clock::now(), 1, clock::steady());
        let (hands, clock, desk, alarm) = owner.with(|| {
            let hands = RwSignal::new(hands);
            provide_rehearsed(hands);
            let desk = Desk::rehearse(protocol);
            provide_context(desk);
            alarm::provide();
            (hands, use_clock(), desk, use_alarm())
        });
        let run = owner.with(|| Run {
            scenario,
            start: clock.now(),
            // Known in a moment, when it is open.
            case: CaseId::CLINIC,
            hands,
            pace: RwSignal::new(pace),
            paused: RwSignal::new(false),
            clock: StoredValue::new(clock),
            desk: StoredValue::new(desk),
            alarm: StoredValue::new(alarm),
        });
        self.owner.set_value(Some(owner));
        let Some(reference) = Reference::new(said::reference()) else { return };
        desk.open_case(reference, move |case| {
            self.running.set(Some(Run { case, ..run }));
            then(case);
        });
    }

    /// Ends the one that runs, keeps how it went, and shows it.
    pub fn end(self) {
        let Some(run) = self.running.get_untracked() else { return };
        let told = untrack(|| run.journal())
            .map(|journal| debrief(run.scenario, run.start, &journal, run.clock.get_value().now()));
        self.clear();
        if let Some(debrief) = told {
            let played = Played { at: clock::now(), debrief };
            self.unkept.set(rehearsals::keep(played.clone()).err());
            self.shown.set(Some(played.debrief));
        }
    }

    /// The debrief that is looked at, tracked.
    pub fn shown(self) -> Option<Debrief> {
        self.shown.get()
    }

    /// Why the last debrief could not be kept, tracked.
    pub fn unkept(self) -> Option<Refusal> {
        self.unkept.get()
    }

    /// Looks at a debrief, or at none.
    pub fn show(self, debrief: Option<Debrief>) {
        self.shown.set(debrief);
    }

    fn clear(self) {
        self.running.set(None);
        if let Some(owner) = self.owner.try_update_value(Option::take).flatten() {
            owner.cleanup();
        }
    }
}

/// A page of the rehearsal, marked as one.
#[component]
pub fn Stage(
    /// The rehearsal.
    run: Run,
    /// The page.
    page: Memo<Page>,
) -> impl IntoView {
    // What is provided here must not be found by the real pages that come after it, and a component
    // has no owner of its own.
    let owner = Owner::current().unwrap_or_default().child();
    let staged = owner.with(|| {
        let patient = run.patient();
        provide_context(run.clock.get_value());
        provide_context(run.desk.get_value());
        provide_context(run.alarm.get_value());
        let staged = Staged { idle: RwSignal::new(false) };
        provide_context(staged);
        provide_context(skin(patient));
        // It goes on where it stood when it comes back into view.
        run.hold(run.paused.get_untracked());
        title::set_mark(Some(said::mark()));
        on_cleanup(move || {
            run.hold(true);
            // Held, it must not ring on over the real pages.
            if let Some(alarm) = run.alarm.try_get_value() {
                alarm.silence();
            }
            title::set_mark(None);
        });
        let open = RwSignal::new(strip::Open::Nothing);
        let waits = Memo::new(move |_| run.waits(patient));
        Effect::new(move |_| {
            let hurries = waits.get() && staged.idle.get() && open.get() == strip::Open::Nothing;
            let times = if hurries { run.pace.get() } else { 1 };
            run.turn(|hands, steady| hands.going(times, steady));
        });
        view! {
            <div class="staged">
                <strip::Strip run patient open />
                <Pages page />
            </div>
        }
    });
    OwnedView::new_with_owner(staged, owner)
}

/// The patient's skin, for the refill timer.
fn skin(patient: Memo<Option<Condition>>) -> SimulatedSkin {
    SimulatedSkin {
        refill: Signal::derive(move || {
            patient.read().as_ref().map(|p| (p.affected, p.opposite)).unwrap_or_default()
        }),
        colour: Signal::derive(move || {
            patient.read().as_ref().map_or(Colour::Normal, |patient| patient.colour)
        }),
    }
}

/// The rehearsal's own moment, for its strip.
fn moment(run: Run) -> Signal<Moment> {
    let shown = run.clock.get_value().shown();
    Signal::derive(move || shown.get())
}
