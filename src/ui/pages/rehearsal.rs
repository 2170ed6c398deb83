//! The whole way against a simulated patient: choosing, history, debrief.

use crate::ui::app::set_title;
use crate::ui::parts::{Screen, Title};
use leptos::prelude::*;

/// The whole way against a simulated patient: choosing, history, debrief.
#[component]
pub fn RehearsalPage() -> impl IntoView {
    set_title("Rehearsal");
    view! {
        <Screen>
            <Title>"Rehearsal"</Title>
        </Screen>
    }
}
