//! What lies over or beside a screen: a sheet that must be answered, and passing words.

use super::{Icon, MaybeText, Sign, Text, Tone, fresh_id};
use crate::phone::view::once_painted;
use leptos::html;
use leptos::prelude::*;

/// A sheet over the screen. The browser's own modal dialog: it keeps the focus inside, closes on
/// Esc and on a tap beside it, and gives the focus back.
#[component]
pub fn Sheet(
    /// Whether it is open. What is inside exists only then.
    #[prop(into)]
    open: Signal<bool>,
    /// It asks to be closed.
    #[prop(into)]
    on_close: Callback<()>,
    /// Its heading.
    #[prop(into)]
    heading: Text,
    /// The close button's name for a screen reader.
    #[prop(into)]
    close_label: Text,
    /// Whether it is about harm: outlined and signed.
    #[prop(optional)]
    danger: bool,
    /// The content.
    children: ChildrenFn,
) -> impl IntoView {
    let dialog = NodeRef::<html::Dialog>::new();
    let id = fresh_id("sheet");
    // Once the press that opens it has been painted, like a page.
    let shown = RwSignal::new(false);
    Effect::new(move |_| {
        if open.get() {
            once_painted(move || {
                shown.try_set(open.try_get_untracked().unwrap_or_default());
            });
        } else {
            shown.set(false);
        }
    });
    Effect::new(move |_| {
        let Some(dialog) = dialog.get() else { return };
        if shown.get() && !dialog.open() {
            // Not where it was scrolled to the last time.
            dialog.set_scroll_top(0);
            // Browsers without modal dialogs still show it, above the rest, by the attribute.
            if dialog.show_modal().is_err() {
                dialog.set_open(true);
            }
        } else if !shown.get() && dialog.open() {
            dialog.close();
        }
    });
    let beside = move |click: leptos::ev::MouseEvent| {
        // Only the sheet's backdrop is the dialog itself; everything else is inside it.
        if click.target() == click.current_target() {
            on_close.run(());
        }
    };
    view! {
        <dialog
            class="sheet"
            class:harm=danger
            node_ref=dialog
            aria-labelledby=id
            on:cancel=move |cancel: leptos::ev::Event| {
                // The caller decides; then `open` closes it.
                cancel.prevent_default();
                on_close.run(());
            }
            // A browser may close it all the same, as Android's back gesture does.
            on:close=move |_| {
                if open.get_untracked() {
                    on_close.run(());
                }
            }
            on:click=beside
        >
            <div class="sheet-page">
                <header class="sheet-top">
                    {danger.then(|| view! { <Sign icon=Icon::Warning /> })}
                    <h2 id=id.clone()>{move || heading.get()}</h2>
                    <button
                        type="button"
                        class="sheet-close"
                        aria-label=move || close_label.get()
                        on:click=move |_| on_close.run(())
                    >
                        <Sign icon=Icon::Close />
                    </button>
                </header>
                <div class="sheet-content">
                    <Show when=move || shown.get()>{children()}</Show>
                </div>
            </div>
        </dialog>
    }
}

/// Words at the top of the content that stay until they no longer hold, with one action at most.
#[component]
pub fn Banner(
    /// The words; nothing shows without them.
    #[prop(into)]
    text: MaybeText,
    /// How much they weigh.
    #[prop(optional, into)]
    tone: Signal<Tone>,
    /// The word on its button.
    #[prop(optional, into)]
    action: MaybeText,
    /// What the button does.
    #[prop(optional, into)]
    on_action: Option<Callback<()>>,
    /// Whether it is read out at once, before whatever else is being read: for what is due now.
    #[prop(optional)]
    alert: bool,
) -> impl IntoView {
    view! {
        // Always there, so that a screen reader notices when words come into it.
        <div class="banner-place" role=if alert { "alert" } else { "status" }>
            {move || {
                text.get()
                    .map(|text| {
                        view! {
                            <div class=format!("banner {}", tone.get().class())>
                                {tone.get().icon().map(|icon| view! { <Sign icon /> })}
                                <p>{text}</p>
                                {action
                                    .get()
                                    .zip(on_action)
                                    .map(|(word, on_action)| {
                                        view! {
                                            <button
                                                type="button"
                                                class="banner-action"
                                                on:click=move |_| on_action.run(())
                                            >
                                                {word}
                                            </button>
                                        }
                                    })}
                            </div>
                        }
                    })
            }}
        </div>
    }
}

/// A few words over the foot that say what was just done. The caller takes them away.
#[component]
pub fn Toast(
    /// The words; nothing shows without them.
    #[prop(into)]
    text: MaybeText,
) -> impl IntoView {
    view! {
        <div class="toast-place" role="status">
            {move || text.get().map(|text| view! { <p class="toast">{text}</p> })}
        </div>
    }
}
