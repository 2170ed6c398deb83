//! Whom the clinic calls.

use crate::ui::app::set_title;
use crate::ui::parts::{Screen, Title};
use leptos::prelude::*;

/// Whom the clinic calls.
#[component]
pub fn ContactsPage() -> impl IntoView {
    set_title("Whom to call");
    view! {
        <Screen>
            <Title>"Whom to call"</Title>
        </Screen>
    }
}
