//! The alarm of all open cases: rings when a look or a dose of adrenaline is due, by every means that
//! the phone has, and keeps the screen on while one is to come.

use super::desk::use_desk;
use super::{habits, title, words};
use crate::care::allergy::Urgency;
use crate::care::rounds::Phase;
use crate::case::{Case, CaseId};
use crate::measure::Moment;
use crate::phone::bells::Bells;
use crate::phone::notice::{self, Notice};
use crate::phone::sound::{self, Ringing};
use crate::phone::view::in_view;
use crate::phone::wake::{Wake, hold_screen};
use crate::phone::{badge, use_clock};
use crate::store::habits::Screen;
use leptos::ev;
use leptos::prelude::*;
use std::collections::BTreeSet;
use std::time::Duration;

/// What falls due.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum What {
    /// The next dose of adrenaline.
    Adrenaline,
    /// The look after a round.
    Look,
}

/// Something due. What matters most comes first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Bell {
    /// What.
    pub what: What,
    /// When.
    pub due: Moment,
    /// In which case.
    pub case: CaseId,
}

/// The alarm. Copied freely.
#[derive(Clone, Copy)]
pub struct Alarm {
    /// Behind one handle, since the alarm is passed along with much else.
    parts: StoredValue<Parts>,
    /// Whose bells are meant; all, where no case is named.
    of: Option<Signal<Option<CaseId>>>,
}

/// What the alarm consists of.
#[derive(Clone, Copy)]
struct Parts {
    wake: ReadSignal<Wake>,
    armed: RwSignal<Option<Ringing>>,
    over: Memo<BTreeSet<Bell>>,
    bells: RwSignal<Bells<Bell>>,
    trial: RwSignal<Trial>,
    /// The real one, which a rehearsal's must not silence: a phone has one voice.
    above: Option<Alarm>,
}

/// Whether the alarm is being tried out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Trial {
    No,
    Waiting,
    Ringing,
}

/// Watches every case for everything below the present owner: once, in the root, so that it rings on
/// whatever page the user is.
pub fn provide() {
    let desk = use_desk();
    let clock = use_clock();
    let now = clock.shown();
    // A rehearsal rings in its page and nowhere else: what is told outside is of real patients.
    let outside = !clock.rehearsed();
    let set = if outside { habits::provide() } else { habits::use_habits() };
    let running = Memo::new(move |_| desk.all().iter().any(|held| runs(&held.case)));
    let dues = Memo::new(move |_| {
        desk.all().iter().flat_map(|held| dues(&held.case)).collect::<BTreeSet<_>>()
    });
    // Changes when something falls due or is done, not with every tick.
    let over = Memo::new(move |_| {
        let now = now.get();
        dues.read().iter().copied().filter(|bell| bell.due <= now).collect::<BTreeSet<_>>()
    });
    let parts = Parts {
        wake: hold_screen(move || running.get() && set.screen() == Screen::StaysOn),
        armed: RwSignal::new(None),
        over,
        bells: RwSignal::new(Bells::default()),
        trial: RwSignal::new(Trial::No),
        above: if outside { None } else { use_context::<Alarm>() },
    };
    let alarm = Alarm { parts: StoredValue::new(parts), of: None };
    Effect::new(move |_| {
        clock.expect(!dues.read().is_empty() || parts.trial.get() == Trial::Waiting);
    });
    Effect::new(move |_| {
        // A phone that slept, or an app opened late, rings late: it was never heard.
        let change = parts.bells.try_update(|bells| bells.see(&over.read()));
        let Some(change) = change else { return };
        for bell in &change.end {
            notice::close(tag(bell.case));
        }
        if !change.begin.is_empty() {
            sound::ring();
        } else if !change.end.is_empty() {
            alarm.hush();
        }
        for bell in change.begin.iter().filter(|_| outside && !in_view()) {
            notice::show(words::ringing::notice(bell.what, tag(bell.case), bell.case));
        }
    });
    if outside {
        tell_outside(parts);
    }
    // After a reload the browser keeps silent until a tap, whatever it is on.
    let listening = window_event_listener(ev::click, move |_| {
        if running.get_untracked() {
            alarm.arm();
        }
    });
    on_cleanup(move || {
        listening.remove();
        if outside {
            sound::stop();
        }
    });
    provide_context(alarm);
}

/// Tells what is due beside the page: in its title and at the app's icon.
fn tell_outside(parts: Parts) {
    Effect::new(move |_| {
        let trial = parts.trial.get() == Trial::Ringing;
        let over = parts.over.read();
        let first = over.first().map(|bell| words::ringing::title(bell.what));
        title::set_due(first.or(trial.then_some(words::ringing::trial_title())));
        badge::show(over.len() + usize::from(trial));
    });
}

/// The alarm.
///
/// # Panics
/// If no component above called [`provide`].
pub fn use_alarm() -> Alarm {
    expect_context::<Alarm>()
}

impl Alarm {
    fn parts(self) -> Parts {
        self.parts.get_value()
    }

    /// The alarm of one case: silencing it leaves those of the others ringing.
    pub fn of(self, case: impl Into<Signal<Option<CaseId>>>) -> Self {
        Self { of: Some(case.into()), ..self }
    }

    /// Makes ready to sound. To be called on the tap that starts a clock.
    pub fn arm(self) {
        self.parts().armed.set(Some(sound::unlock()));
    }

    /// Ends the ringing. What is due stays due.
    pub fn silence(self) {
        let meant = self.of.map(|of| of.get_untracked());
        let mine = |bell: &Bell| meant.is_none_or(|case| case == Some(bell.case));
        let silenced =
            self.parts().bells.try_update(|bells| bells.silence(mine)).unwrap_or_default();
        for bell in silenced {
            notice::close(tag(bell.case));
        }
        self.hush();
    }

    /// Whether it rings, as far as the browser lets it.
    pub fn rings(self) -> bool {
        let meant = self.of.map(|of| of.get());
        let mine = |bell: &Bell| meant.is_none_or(|case| case == Some(bell.case));
        self.parts().bells.read().ringing().any(mine)
    }

    /// What is due and not yet done.
    pub fn over(self) -> BTreeSet<Bell> {
        self.parts().over.get()
    }

    /// A trial is to ring soon. To be called on the tap that starts it.
    pub fn await_trial(self) {
        self.arm();
        self.parts().trial.set(Trial::Waiting);
    }

    /// Rings for a trial, by every means.
    pub fn ring_trial(self) {
        self.parts().trial.set(Trial::Ringing);
        sound::ring();
        if !in_view() {
            notice::show(Notice {
                tag: TRIAL_TAG.to_owned(),
                title: words::ringing::trial_title().to_owned(),
                body: words::ringing::trial_body().to_owned(),
                case: String::new(),
                query: String::new(),
            });
        }
    }

    /// Ends a trial.
    pub fn end_trial(self) {
        self.parts().trial.try_set(Trial::No);
        notice::close(TRIAL_TAG.to_owned());
        self.hush();
    }

    /// Falls silent, unless something rings.
    fn hush(self) {
        let silent = |alarm: Self| alarm.parts().bells.try_with_untracked(Bells::still);
        let above = self.parts().above.is_none_or(|above| silent(above).unwrap_or(true));
        let still = above && silent(self).unwrap_or(true);
        if still && self.parts().trial.try_get_untracked() != Some(Trial::Ringing) {
            sound::stop();
        }
    }

    /// Whether no tap has allowed sound since the app was opened.
    pub fn unarmed(self) -> bool {
        self.parts().armed.get().is_none()
    }

    /// Whether this browser makes no sound at all.
    pub fn mute(self) -> bool {
        self.parts().armed.get() == Some(Ringing::Absent)
    }

    /// Whether the screen stays on.
    pub fn wake(self) -> Wake {
        self.parts().wake.get()
    }
}

/// Makes ready to be armed, as soon as the screen has come to rest. To be called where a tap may start
/// a clock.
pub fn prepare() {
    // Refused, the tap itself makes what sounds.
    let _ = set_timeout(sound::prepare, AT_REST);
}

/// After this time nobody still waits for a screen to come up.
const AT_REST: Duration = Duration::from_millis(500);

/// The name of a trial's notification.
const TRIAL_TAG: &str = "freshet-trial";

/// The name of a case's notification: one for each, so that the newer takes the place of the older.
fn tag(case: CaseId) -> String {
    format!("freshet-due-{case}")
}

/// Whether a round, the time after it or a reaction runs.
fn runs(case: &Case) -> bool {
    let injecting = case.open() && case.injecting();
    injecting || case.reaction.active() || dues(case).next().is_some()
}

/// What falls due in a case, or is due already.
pub(super) fn dues(case: &Case) -> impl Iterator<Item = Bell> {
    // Either answer names the moment, so that the moment asked for does not matter.
    let look = match case.treatment.phase(case.last, &case.protocol) {
        Phase::Watching { due } | Phase::Due { due } => Some(due),
        _ => None,
    };
    let look = look.filter(|_| case.open() && case.urgency() != Some(Urgency::Planned));
    let dose = case.reaction.next_dose(&case.protocol);
    let id = case.id;
    let bell = move |what| move |due| Bell { what, due, case: id };
    look.map(bell(What::Look)).into_iter().chain(dose.map(bell(What::Adrenaline)))
}
