//! Buttons: the next action, the others beside it, and the one that cannot be taken back.

use super::{Icon, MaybeText, Sign, fresh_id};
use crate::ui::tap::{onward, press};
use leptos::prelude::*;

/// The next action: one on a screen, the largest thing in its foot.
///
/// While something is missing it stays reachable and says what, instead of going dead.
#[component]
pub fn GoButton(
    /// What it does.
    #[prop(into)]
    on_press: Callback<()>,
    /// Why it cannot be pressed now; shown under it.
    #[prop(optional, into)]
    why_not: MaybeText,
    /// Pressed all the same: the place to lead to what is missing.
    #[prop(optional, into)]
    on_refused: Option<Callback<()>>,
    /// The words on it.
    children: Children,
) -> impl IntoView {
    let id = fresh_id("why-not");
    let described = id.clone();
    let refused = RwSignal::new(false);
    let go_on = move |click| {
        if why_not.with(Option::is_some) {
            refused.set(true);
            if let Some(on_refused) = on_refused {
                on_refused.run(());
            }
        } else {
            refused.set(false);
            onward(&click, || on_press.run(()));
        }
    };
    view! {
        <div class="go-place">
            <button
                type="button"
                class="button go"
                aria-disabled=move || why_not.with(Option::is_some).then_some("true")
                aria-describedby=move || why_not.with(Option::is_some).then(|| described.clone())
                on:click=go_on
            >
                {children()}
            </button>
            <p class="why-not" class:asked=move || refused.get() id=id role="status">
                {move || why_not.get()}
            </p>
        </div>
    }
}

/// A further action, quieter than the next one.
#[component]
pub fn QuietButton(
    /// What it does.
    #[prop(into)]
    on_press: Callback<()>,
    /// A name for a screen reader, where the words on it are not enough.
    #[prop(optional, into)]
    label: MaybeText,
    /// The words on it.
    children: Children,
) -> impl IntoView {
    view! {
        <button
            type="button"
            class="button quiet"
            aria-label=move || label.get()
            on:click=move |click| press(&click, || on_press.run(()))
        >
            {children()}
        </button>
    }
}

/// An action that cannot be taken back or that overrides a warning. Outlined and signed, so that
/// its colour need not be seen.
#[component]
pub fn DangerButton(
    /// What it does.
    #[prop(into)]
    on_press: Callback<()>,
    /// The words on it.
    children: Children,
) -> impl IntoView {
    view! {
        <button
            type="button"
            class="button danger"
            on:click=move |click| press(&click, || on_press.run(()))
        >
            <Sign icon=Icon::Warning />
            <span>{children()}</span>
        </button>
    }
}

/// Two actions side by side, one under the other where the words are too long.
#[component]
pub fn Pair(
    /// The two.
    children: Children,
) -> impl IntoView {
    view! { <div class="pair">{children()}</div> }
}
