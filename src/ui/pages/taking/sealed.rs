//! A backup, before its passphrase is there.

use super::Incoming;
use crate::ui::parts::{Foot, GoButton, Note, Screen, TextField, Title, Tone};
use crate::ui::words::{self, backup as said};
use leptos::prelude::*;
use std::sync::Arc;

/// Asks for the passphrase.
#[component]
pub fn Sealed(
    incoming: Incoming,
    /// The file.
    file: Arc<Vec<u8>>,
    /// Whether another passphrase was tried.
    wrong: bool,
) -> impl IntoView {
    let typed = RwSignal::new(String::new());
    let open = Callback::new(move |()| {
        if !typed.read_untracked().is_empty() {
            incoming.open(Arc::clone(&file), typed.get_untracked());
        }
    });
    let why_not =
        Signal::derive(move || typed.read().is_empty().then(|| said::type_first().to_owned()));
    let submit = move |event: leptos::ev::SubmitEvent| {
        event.prevent_default();
        open.run(());
    };
    view! {
        <Screen back=Callback::new(move |()| incoming.leave()) back_label=words::app::back()>
            <Title arrive=true>{said::sealed_label()}</Title>
            <p>{said::sealed_why()}</p>
            <form on:submit=submit>
                <TextField
                    label=said::passphrase()
                    value=typed
                    kind="password"
                    on_input=Callback::new(move |text| typed.set(text))
                />
            </form>
            <div role="alert">
                {wrong.then(|| view! { <Note tone=Tone::Danger>{said::wrong()}</Note> })}
            </div>
            <Foot slot>
                <GoButton on_press=open why_not>
                    {said::open()}
                </GoButton>
            </Foot>
        </Screen>
    }
}
