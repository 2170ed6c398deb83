//! What stands before every page of a case: it is shown once the case is in hand.

use super::keeping::{NoSuchCase, Reading};
use super::lock::LockedCase;
use crate::case::CaseId;
use crate::store::Refusal;
use crate::ui::app::use_go;
use crate::ui::desk::{Whereabouts, use_desk};
use crate::ui::page::Page;
use crate::ui::parts::{Foot, GoButton, Note, QuietButton, Screen, Title, Tone};
use crate::ui::steps::enter;
use crate::ui::words::app::{self as words, keeping as said};
use leptos::prelude::*;

/// A page of a case. While the phone is being read, or the case is being fetched from the archive, it
/// says so; then the case is within reach of the page by `use_here`. A new entry does not draw the
/// page anew.
pub fn of_case(id: CaseId, page: impl Fn() -> AnyView + Send + Sync + 'static) -> impl IntoView {
    let desk = use_desk();
    let place = Memo::new(move |_| desk.whereabouts(id));
    Effect::new(move |_| desk.want_at_hand(id));
    move || match place.get() {
        Whereabouts::Here if enter(id).is_some() => page(),
        Whereabouts::Locked => view! { <LockedCase /> }.into_any(),
        Whereabouts::Coming => view! { <Reading /> }.into_any(),
        Whereabouts::Unread(why) => view! { <Unread id why /> }.into_any(),
        Whereabouts::Here | Whereabouts::Nowhere => view! { <NoSuchCase /> }.into_any(),
    }
}

/// For a case in an archive that could not be read.
#[component]
fn Unread(id: CaseId, why: Refusal) -> impl IntoView {
    let desk = use_desk();
    let go = use_go();
    view! {
        <Screen back=Callback::new(move |()| go.back()) back_label=words::back()>
            <Title arrive=true>{said::not_fetched_label()}</Title>
            <Note tone=Tone::Danger>{words::not_fetched(&why)}</Note>
            <Foot slot>
                <GoButton on_press=move |()| desk.fetch_anew(id)>{said::try_again()}</GoButton>
                <QuietButton on_press=move |()| {
                    go.instead(Page::Home);
                }>{said::home()}</QuietButton>
            </Foot>
        </Screen>
    }
}
