//! Step 3: how much, how strong, and whether it can be made from what is there.

mod drawn;
mod equipment;
mod offers;
mod planned;
mod round;
mod set;
mod territory;
mod urgent;
mod vials;
mod ways;

use super::{CaseScreen, Here, use_here};
use crate::care::allergy::Urgency;
use crate::care::dilution::Plan;
use crate::case::{Case, Clearance, Event, Step, StrikeReason};
use crate::ui::parts::{Foot, GoButton, Note, Title, Tone};
use crate::ui::words::strength as said;
use leptos::prelude::*;

/// Step 3.
#[component]
pub fn StrengthStep() -> impl IntoView {
    let here = use_here();
    // Which screen follows from the way taken, and only from it: a value set meanwhile must not
    // build the screen anew under the finger.
    let way = Memo::new(move |_| {
        let case = here.case();
        free(&case).then(|| case.urgency()).flatten()
    });
    view! {
        {move || match way.get() {
            Some(Urgency::Urgent) => view! { <urgent::UrgentDose /> }.into_any(),
            Some(Urgency::Planned) => view! { <planned::PlannedDose /> }.into_any(),
            None => view! { <NotYet /> }.into_any(),
        }}
    }
}

/// Whether anything may be made: the allergy step is done, or a treatment already runs.
fn free(case: &Case) -> bool {
    case.clearance() == Clearance::Cleared || !case.treatment.rounds().is_empty()
}

/// The steps before this one are not done.
#[component]
fn NotYet() -> impl IntoView {
    let here = use_here();
    view! {
        <CaseScreen step=Step::Strength>
            <Title arrive=true>{said::not_yet()}</Title>
            <Note tone=Tone::Caution>{said::not_yet_why()}</Note>
            <Foot slot>
                <GoButton on_press=move |()| here.onward()>{said::to_them()}</GoButton>
            </Foot>
        </CaseScreen>
    }
}

/// Records how the solution is made; the case then stands at the syringe.
///
/// A plan that nobody began is struck out, so that its vials do not count as opened.
fn prepare(here: Here, plan: Plan) {
    if let Some(entry) = unbegun(here) {
        here.record(Event::Struck { entry, reason: StrikeReason::Slip });
    }
    here.record_then(Event::Preparation(Box::new(plan)), move || here.to(Step::Syringe));
}

/// The entry of the plan in hand, if nothing was done by it.
fn unbegun(here: Here) -> Option<crate::measure::Hash> {
    let case = here.now();
    let made = case.preparation.as_ref()?;
    if !(made.done.is_empty() && made.checked.is_empty() && made.vials.is_empty()) {
        return None;
    }
    let held = untrack(|| here.held());
    let plans = |entry: &&crate::case::Entry| {
        matches!(entry.event(), Event::Preparation(_)) && !case.struck.contains(&entry.id())
    };
    held.journal.entries().iter().rfind(plans).map(crate::case::Entry::id)
}
