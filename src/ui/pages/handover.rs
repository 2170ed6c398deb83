//! What the people who take a case over are told.

use crate::case::CaseId;
use crate::ui::app::set_title;
use crate::ui::parts::{Screen, Title};
use leptos::prelude::*;

/// What the people who take a case over are told.
#[component]
pub fn HandOverPage(
    /// Which case.
    id: CaseId,
) -> impl IntoView {
    let _ = id;
    set_title("Hand-over");
    view! {
        <Screen>
            <Title>"Hand-over"</Title>
        </Screen>
    }
}
