//! What forbids to inject: the way to help, and the way on all the same.

use super::Step5;
use super::sheets::Handing;
use crate::case::{Overridden, Stop};
use crate::ui::parts::{DangerButton, Note, QuietButton, Tone};
use crate::ui::steps::{ReasonSheet, use_here};
use crate::ui::words::{app as said, round_screens};
use leptos::prelude::*;

/// What is to be done in place of injecting; nothing while nothing forbids it, or while a reaction
/// does, which each screen says by itself.
#[component]
pub fn StopNote(step: Step5) -> impl IntoView {
    let here = use_here();
    let asking = RwSignal::new(false);
    let why = Memo::new(move |_| {
        here.case().stop().filter(|stop| *stop != Stop::Reaction).map(said::stop)
    });
    view! {
        {move || {
            why.get()
                .map(|words| {
                    view! {
                        <Note tone=Tone::Danger alert=true>
                            <p>{words}</p>
                            <QuietButton on_press=move |()| {
                                step.handing.set(Some(Handing::Any(None)));
                            }>{round_screens::hand_over()}</QuietButton>
                            <DangerButton on_press=move |()| {
                                asking.set(true);
                            }>{said::inject_all_the_same()}</DangerButton>
                        </Note>
                    }
                })
        }}
        <ReasonSheet
            open=asking
            what=Overridden::Stop
            against=Signal::derive(move || why.get().unwrap_or_default().to_owned())
            then=Callback::new(|()| ())
        />
    }
}

/// What a tap on the button leads to that would inject.
pub fn lead(step: Step5, here: super::super::Here) {
    match here.now().stop() {
        Some(Stop::Reaction | Stop::AfterReaction) => here.to_sheet(),
        Some(Stop::Sign(_)) => step.handing.set(Some(Handing::Flags)),
        None => {}
    }
}
