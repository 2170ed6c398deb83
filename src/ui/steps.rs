//! The five steps of a case, each a screen or a short row of screens.

mod allergy;
mod besides;
mod reason;
mod refill;
mod rounds;
mod situation;
mod strength;
mod syringe;

pub use besides::{BesidesRow, ConflictNote, Conflicts};
pub use reason::ReasonSheet;
pub use rounds::{HandOverAfter, Handing, LookWays, Looking, RefillTrend, forget, waiting};

use super::app::{Go, set_title, use_go};
use super::desk::{Desk, Held, use_desk};
use super::page::Page;
use super::pages::language::Unreviewed;
use super::parts::{Foot, Note, QuietButton, Screen, StepMark, Tone};
use super::theme::ThemeLine;
use super::words;
use crate::case::{Case, CaseId, Event, Step};
use leptos::prelude::*;
use std::sync::Arc;

/// The case that the screens below belong to, and the ways to act on it. Copied freely.
#[derive(Clone, Copy)]
pub struct Here {
    /// Its name.
    pub id: CaseId,
    held: Signal<Held>,
    desk: Desk,
    go: Go,
}

impl Here {
    /// The case as it stands, tracked.
    pub fn case(self) -> Arc<Case> {
        self.held.read().case.clone()
    }

    /// The case as it stands, not tracked: for handlers.
    pub fn now(self) -> Arc<Case> {
        self.held.read_untracked().case.clone()
    }

    /// What the clinic calls the case, tracked, as it stands at the top of its screens.
    pub fn reference(self) -> Signal<Option<String>> {
        Signal::derive(move || {
            self.case().reference.as_ref().map(|reference| reference.as_str().to_owned())
        })
    }

    /// The case and its journal, tracked.
    pub fn held(self) -> Held {
        self.held.get()
    }

    /// The case and its journal, as they change.
    pub fn signal(self) -> Signal<Held> {
        self.held
    }

    /// Records an event.
    pub fn record(self, event: Event) {
        self.desk.record(self.id, event);
    }

    /// Records an event; `then` runs once it is recorded.
    pub fn record_then(self, event: Event, then: impl FnOnce() + 'static) {
        self.desk.record_then(self.id, event, then);
    }

    /// To the step where the case stands.
    pub fn onward(self) {
        self.go.to(Page::Case(self.id, None));
    }

    /// Why nothing is injected now, tracked.
    pub fn stopped(self) -> Option<String> {
        self.case().stop().map(|stop| words::app::stop(stop).to_owned())
    }

    /// To the anaphylaxis sheet.
    pub fn to_sheet(self) {
        self.go.to(Page::Anaphylaxis(Some(self.id)));
    }

    /// To what is read out to those who take over.
    pub fn to_hand_over(self) {
        self.go.to(Page::HandOver(self.id));
    }

    /// To one of its steps.
    pub fn to(self, step: Step) {
        self.go.to(Page::Case(self.id, Some(step)));
    }
}

/// The case that this screen belongs to.
///
/// # Panics
/// If no page above did [`enter`] it.
pub fn use_here() -> Here {
    expect_context::<Here>()
}

/// Puts a case within reach of the screens below; `None` if the phone keeps none of this name.
pub fn enter(id: CaseId) -> Option<Here> {
    let desk = use_desk();
    // Not tracked: a new entry must redraw what it changes, not the whole page.
    let first = untrack(|| desk.held(id))?;
    // A case is never taken off the desk while it is shown; should it be, the last state stays.
    let held = Signal::derive(move || desk.held(id).unwrap_or_else(|| first.clone()));
    let here = Here { id, held, desk, go: use_go() };
    provide_context(here);
    Some(here)
}

/// A case at a step.
#[component]
pub fn CasePage(
    /// The step asked for; without it, the one where the case stands.
    step: Option<Step>,
) -> impl IntoView {
    let here = use_here();
    let shown = Memo::new(move |_| step.unwrap_or_else(|| here.case().step()));
    Effect::new(move |_| set_title(words::app::step(shown.get())));
    view! {
        {move || match shown.get() {
            Step::Situation => view! { <situation::Situation /> }.into_any(),
            Step::Allergy => view! { <allergy::Allergy /> }.into_any(),
            Step::Strength => view! { <strength::StrengthStep /> }.into_any(),
            Step::Syringe => view! { <syringe::Syringe /> }.into_any(),
            Step::Rounds => view! { <rounds::Rounds /> }.into_any(),
        }}
    }
}

/// The frame of a step: reference, rail, back, anaphylaxis.
#[component]
pub fn CaseScreen(
    /// Which step.
    step: Step,
    /// How much of the step is done, 0 to 1.
    #[prop(optional, into)]
    fraction: Signal<f64>,
    /// Whether the rail of the steps shows: not where the way through is over.
    #[prop(default = true)]
    rail: bool,
    /// What back does within the step; without it, back leads to the step before or home.
    #[prop(optional, into)]
    back: Option<Callback<()>>,
    /// The actions.
    foot: Foot,
    /// The content.
    children: Children,
) -> impl IntoView {
    let here = use_here();
    let go = use_go();
    let mark = Signal::derive(move || {
        rail.then(|| StepMark {
            names: Step::ALL.into_iter().map(|step| words::app::step(step).to_owned()).collect(),
            at: Step::ALL.iter().position(|other| *other == step).unwrap_or(0),
            fraction: fraction.get(),
            label: words::app::step_of(step),
        })
    });
    let reference = here.reference();
    let back = back.unwrap_or_else(|| {
        Callback::new(move |()| match Step::ALL.into_iter().rev().find(|other| *other < step) {
            Some(before) => here.to(before),
            None => go.to(Page::Home),
        })
    });
    view! {
        <Screen
            reference
            step=mark
            back
            back_label=words::app::back()
            on_anaphylaxis=Callback::new(move |()| here.to_sheet())
            anaphylaxis_label=words::app::anaphylaxis()
            foot=Some(foot)
        >
            <Reacting />
            <Flagged />
            {children()}
            <ThemeLine />
            <Unreviewed />
        </Screen>
    }
}

/// A sign that goes before everything stands until a look clears it, and its sheet is one tap away.
#[component]
pub fn Flagged() -> impl IntoView {
    let here = use_here();
    let stands = Memo::new(move |_| here.case().flags.clone());
    move || {
        let flags = stands.get();
        (!flags.is_empty()).then(|| {
            let names: Vec<&str> =
                flags.iter().map(|flag| words::situation::red_flag(*flag)).collect();
            view! {
                <Note tone=Tone::Danger heading=Some(names.join("; "))>
                    <p>{words::handing::stands()}</p>
                    <QuietButton on_press=move |()| {
                        here.to_hand_over();
                    }>{words::handing::to_sheet()}</QuietButton>
                </Note>
            }
        })
    }
}

/// A severe reaction before anything else: the next action of a step must not lead on as if there
/// were none.
#[component]
fn Reacting() -> impl IntoView {
    let here = use_here();
    // Redrawn when one of these changes, not at each entry.
    let stands = Memo::new(move |_| {
        let case = here.case();
        let next = case.reaction.next_dose(&case.protocol);
        (case.reaction.active(), next, !case.reaction.doses().is_empty())
    });
    move || {
        let (active, next, treated) = stands.get();
        let tone = if active { Tone::Danger } else { Tone::Caution };
        (active || treated).then(|| {
            view! {
                <Note tone heading=active.then(|| words::sheet::running(next))>
                    {words::sheet::suspect()}
                </Note>
            }
        })
    }
}
