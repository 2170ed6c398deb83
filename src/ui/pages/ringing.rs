//! What this phone can do when something falls due, tried out.

use crate::ui::app::set_title;
use crate::ui::parts::{Screen, Title};
use leptos::prelude::*;

/// What this phone can do when something falls due, tried out.
#[component]
pub fn RingingPage() -> impl IntoView {
    set_title("Will it ring?");
    view! {
        <Screen>
            <Title>"Will it ring?"</Title>
        </Screen>
    }
}
