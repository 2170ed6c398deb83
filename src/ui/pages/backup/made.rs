//! A backup that is ready: what is in it, and handing it out.

use super::Made;
use crate::phone::share::{self, Handed};
use crate::ui::habits::use_habits;
use crate::ui::pages::Apart;
use crate::ui::pages::timeline::passing;
use crate::ui::parts::{Figure, Figures, Foot, GoButton, Note, QuietButton, Title, Toast, Tone};
use crate::ui::words::{self, backup as said};
use leptos::prelude::*;
use std::sync::Arc;
use wasm_bindgen_futures::spawn_local;

/// What is in it, and the ways out. Each is a tap of its own: browsers hand a file out only on the
/// user's own act, and making it took longer than they let one count.
#[component]
pub fn Ready(
    made: Arc<Made>,
    /// Back to where another is made.
    #[prop(into)]
    done: Callback<()>,
) -> impl IntoView {
    let set = use_habits();
    let told = passing();
    let out = RwSignal::new(false);
    let at = made.at;
    let tell = move |handed: Handed| {
        match handed {
            Handed::Refused => drop(told.try_set(Some(words::papers::failed().to_owned()))),
            handed => drop(told.try_set(words::handing::became(handed))),
        }
        if matches!(handed, Handed::Shared | Handed::Saved) {
            set.keep_backed(at);
            out.try_set(true);
        }
    };
    let facts = said::made(&made).into_iter();
    let facts = facts.map(|(label, number, unit)| view! { <Figure label number unit /> });
    let facts = facts.collect_view();
    let lacks = said::lacks(&made).into_iter();
    let lacks = lacks.map(|words| view! { <Note tone=Tone::Caution>{words}</Note> }).collect_view();
    let name = said::file_name(at);
    let keep = {
        let (made, name) = (Arc::clone(&made), name.clone());
        move |()| {
            let handing = share::keep(&name, said::KIND, made.parts.as_slice());
            spawn_local(async move { tell(handing.await) });
        }
    };
    let send = move |()| {
        let handing = share::file(&name, said::KIND, made.parts.as_slice());
        spawn_local(async move { tell(handing.await) });
    };
    view! {
        <Apart>
            <Title arrive=true>{said::made_label()}</Title>
            <Figures>{facts}</Figures>
            {lacks}
            <p>
                {move || (!out.get()).then_some(said::nowhere_yet())} " " {said::where_label()}
            </p>
            {move || {
                out.get()
                    .then(|| view! { <QuietButton on_press=done>{said::done()}</QuietButton> })
            }}
            <Toast text=told />
            <Foot slot>
                <GoButton on_press=keep>{said::save()}</GoButton>
                <QuietButton on_press=send>{said::send()}</QuietButton>
            </Foot>
        </Apart>
    }
}
