//! Calling somebody with one tap.

use super::{Icon, MaybeText, Sign, Text};
use leptos::prelude::*;

/// Somebody to call: one large link that the phone dials, with the number in sight, so that it can
/// also be dialled by hand.
#[component]
pub fn CallRow(
    /// What it is called for.
    #[prop(into)]
    label: Text,
    /// Who answers there.
    #[prop(optional, into)]
    detail: MaybeText,
    /// The number, as it is to be read.
    #[prop(into)]
    number: Text,
    /// The address that the phone dials.
    #[prop(into)]
    address: Text,
    /// Pressed; the phone dials all the same.
    #[prop(optional, into)]
    on_press: Option<Callback<()>>,
) -> impl IntoView {
    view! {
        // External: the router must not take it for a page of its own.
        <a
            class="call"
            rel="external"
            href=move || address.get()
            on:click=move |_| {
                if let Some(on_press) = on_press {
                    on_press.run(());
                }
            }
        >
            <Sign icon=Icon::Call />
            <span class="call-words">
                <span class="call-name">{move || label.get()}</span>
                {move || {
                    detail.get().map(|detail| view! { <span class="call-detail">{detail}</span> })
                }}
            </span>
            <span class="call-number">{move || number.get()}</span>
        </a>
    }
}
