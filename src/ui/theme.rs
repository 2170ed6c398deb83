//! What the screen looks like: the choice, and the two ways to it.

use super::habits::use_habits;
use super::parts::{Choice, Icon, Item, Note, Sheet, Sign, Tone};
use super::words::{self, theme as said};
use crate::store::habits::Theme;
use leptos::prelude::*;

/// At the top of the start screen, where somebody looks who can hardly see the screen.
#[component]
pub fn ThemeButton() -> impl IntoView {
    let open = RwSignal::new(false);
    view! {
        <button
            type="button"
            class="top-theme"
            aria-label=said::open()
            on:click=move |_| open.set(true)
        >
            <Sign icon=Icon::Sun />
        </button>
        <ThemeSheet open />
    }
}

/// At the end of a screen of a case: the top of it has no room for more than what is urgent.
#[component]
pub fn ThemeLine() -> impl IntoView {
    let open = RwSignal::new(false);
    view! {
        <button type="button" class="see-better no-print" on:click=move |_| open.set(true)>
            <Sign icon=Icon::Sun />
            <span>{said::hard_to_see()}</span>
        </button>
        <ThemeSheet open />
    }
}

/// The choice. The screen wears what is chosen at once, so that it is seen which is better.
#[component]
fn ThemeSheet(open: RwSignal<bool>) -> impl IntoView {
    let set = use_habits();
    let items = [Theme::Sunlight, Theme::Phone, Theme::Light, Theme::Dark]
        .map(|theme| Item::new(theme, said::theme(theme)).hint(said::hint(theme)));
    let items = Signal::stored(Vec::from(items));
    view! {
        <Sheet
            open
            on_close=move |()| open.set(false)
            heading=said::title()
            close_label=words::app::close()
        >
            <Choice
                legend=said::title()
                legend_hidden=true
                items
                value=Signal::derive(move || Some(set.theme()))
                on_choose=move |theme| set.set_theme(theme)
            />
            {move || {
                (!set.kept()).then(|| view! { <Note tone=Tone::Caution>{words::ringing::not_kept()}</Note> })
            }}
        </Sheet>
    }
}
