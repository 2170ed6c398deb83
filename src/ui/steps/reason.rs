//! Doing otherwise than advised: possible, never hidden, and recorded with a reason.

use super::use_here;
use crate::case::{Event, Overridden};
use crate::ui::parts::{DangerButton, Note, Sheet, TextField, Tone};
use crate::ui::words;
use leptos::prelude::*;

/// Asks why the clinician does otherwise, records it, then goes on.
#[component]
pub fn ReasonSheet(
    /// Whether it is open.
    open: RwSignal<bool>,
    /// Than what.
    what: Overridden,
    /// What speaks against it.
    #[prop(into)]
    against: Signal<String>,
    /// What happens once it is recorded.
    #[prop(into)]
    then: Callback<()>,
) -> impl IntoView {
    let here = use_here();
    let reason = RwSignal::new(String::new());
    let asked = RwSignal::new(false);
    let record = move |()| {
        let reason = reason.get_untracked().trim().to_owned();
        if reason.is_empty() {
            asked.set(true);
            return;
        }
        open.set(false);
        here.record_then(Event::Override { what, reason }, move || {
            // The page may have been left while it was written.
            let _ = then.try_run(());
        });
    };
    let error = Signal::derive(move || {
        (asked.get() && reason.read().trim().is_empty())
            .then(|| words::app::reason_wanted().to_owned())
    });
    view! {
        <Sheet
            open
            on_close=Callback::new(move |()| open.set(false))
            heading=words::app::otherwise()
            close_label=words::app::close()
            danger=true
        >
            <Note tone=Tone::Caution>{move || against.get()}</Note>
            <TextField
                label=words::app::reason()
                value=reason
                on_input=move |text| reason.set(text)
                error
                long=true
            />
            <DangerButton on_press=record>{words::app::go_on_otherwise()}</DangerButton>
        </Sheet>
    }
}
