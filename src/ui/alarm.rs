//! The alarm of all open cases: rings when a look or a dose of adrenaline is due, and keeps the
//! screen on while one is to come.

use super::desk::use_desk;
use crate::care::allergy::Urgency;
use crate::care::rounds::Phase;
use crate::case::Case;
use crate::measure::Moment;
use crate::phone::sound::{self, Ringing};
use crate::phone::use_now;
use crate::phone::wake::{Wake, hold_screen};
use leptos::ev;
use leptos::prelude::*;
use std::collections::BTreeSet;

/// The alarm. Copied freely.
#[derive(Clone, Copy)]
pub struct Alarm {
    wake: ReadSignal<Wake>,
    armed: RwSignal<Option<Ringing>>,
    ringing: RwSignal<Option<Moment>>,
}

/// Watches every case for everything below the present owner: once, in the root, so that it rings on
/// whatever page the user is.
pub fn provide() {
    let desk = use_desk();
    let now = use_now();
    let running = Memo::new(move |_| desk.all().iter().any(|held| runs(&held.case)));
    let dues = Memo::new(move |_| {
        let mut dues: Vec<Moment> = desk.all().iter().flat_map(|held| dues(&held.case)).collect();
        dues.sort_unstable();
        dues
    });
    // Changes when something falls due or is done, not with every tick.
    let over = Memo::new(move |_| {
        let now = now.get();
        dues.read().iter().copied().filter(|due| *due <= now).collect::<Vec<_>>()
    });
    let alarm = Alarm {
        wake: hold_screen(move || running.get()),
        armed: RwSignal::new(None),
        ringing: RwSignal::new(None),
    };
    let rung = StoredValue::new(BTreeSet::new());
    Effect::new(move |_| {
        let over = over.read();
        if alarm.ringing.get_untracked().is_some_and(|due| !over.contains(&due)) {
            alarm.silence();
        }
        // A phone that slept, or an app opened late, rings late: it was never heard.
        let new = over.iter().rev().find(|due| !rung.with_value(|rung| rung.contains(*due)));
        if let Some(due) = new {
            sound::ring();
            alarm.ringing.set(Some(*due));
        }
        rung.update_value(|rung| rung.extend(over.iter().copied()));
    });
    // After a reload the browser keeps silent until a tap, whatever it is on.
    let listening = window_event_listener(ev::click, move |_| {
        if running.get_untracked() {
            alarm.arm();
        }
    });
    on_cleanup(move || {
        listening.remove();
        sound::stop();
    });
    provide_context(alarm);
}

/// The alarm.
///
/// # Panics
/// If no component above called [`provide`].
pub fn use_alarm() -> Alarm {
    expect_context::<Alarm>()
}

impl Alarm {
    /// Makes ready to sound. To be called on the tap that starts a clock.
    pub fn arm(self) {
        self.armed.set(Some(sound::unlock()));
    }

    /// Ends the ringing.
    pub fn silence(self) {
        sound::stop();
        self.ringing.set(None);
    }

    /// Whether it rings, as far as the browser lets it.
    pub fn rings(self) -> bool {
        self.ringing.get().is_some()
    }

    /// Whether no tap has allowed sound since the app was opened.
    pub fn unarmed(self) -> bool {
        self.armed.get().is_none()
    }

    /// Whether this browser makes no sound at all.
    pub fn mute(self) -> bool {
        self.armed.get() == Some(Ringing::Absent)
    }

    /// Whether the screen stays on.
    pub fn wake(self) -> Wake {
        self.wake.get()
    }
}

/// Whether a round, the time after it or a reaction runs.
fn runs(case: &Case) -> bool {
    let injecting = case.open() && case.injecting();
    injecting || case.reaction.active() || dues(case).next().is_some()
}

/// What falls due in a case, or is due already.
fn dues(case: &Case) -> impl Iterator<Item = Moment> {
    // Either answer names the moment, so that the moment asked for does not matter.
    let look = match case.treatment.phase(case.last, &case.protocol) {
        Phase::Watching { due } | Phase::Due { due } => Some(due),
        _ => None,
    };
    let look = look.filter(|_| case.open() && case.urgency() != Some(Urgency::Planned));
    look.into_iter().chain(case.reaction.next_dose(&case.protocol))
}
