//! The frames of pages beside the steps: those of a case, and those of none.

use super::language::Unreviewed;
use crate::ui::app::use_go;
use crate::ui::page::Page;
use crate::ui::parts::{Foot, Screen};
use crate::ui::steps::use_here;
use crate::ui::theme::ThemeLine;
use crate::ui::words::app as words;
use leptos::prelude::*;

/// The frame of a case's page beside the steps: what the clinic calls the case, back, anaphylaxis, and
/// at the end what goes before this app.
#[component]
pub fn Framed(
    /// What back does; without it, it leads to where the user came from.
    #[prop(optional, into)]
    back: Option<Callback<()>>,
    /// The actions.
    #[prop(optional_no_strip)]
    foot: Option<Foot>,
    /// The content.
    children: Children,
) -> impl IntoView {
    let here = use_here();
    let go = use_go();
    let reference = here.reference();
    let back = back.unwrap_or_else(|| Callback::new(move |()| go.back()));
    view! {
        <Screen
            reference
            back
            back_label=words::back()
            on_anaphylaxis=Callback::new(move |()| here.to_sheet())
            anaphylaxis_label=words::anaphylaxis()
            foot
        >
            {children()}
            <p class="follow no-print">{words::follow()}</p>
            <ThemeLine />
            <Unreviewed />
        </Screen>
    }
}

/// The frame of a page that belongs to no case: back, and anaphylaxis.
#[component]
pub fn Apart(
    /// The actions.
    #[prop(optional)]
    foot: Option<Foot>,
    /// The content.
    children: Children,
) -> impl IntoView {
    let go = use_go();
    view! {
        <Screen
            back=Callback::new(move |()| go.back())
            back_label=words::back()
            on_anaphylaxis=Callback::new(move |()| go.to(Page::Anaphylaxis(None)))
            anaphylaxis_label=words::anaphylaxis()
            foot
        >
            {children()}
            <Unreviewed />
        </Screen>
    }
}
