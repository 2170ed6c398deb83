//! The skin of the round to come.

use crate::care::allergy::Urgency;
use crate::care::territory::Territory;
use crate::ui::app::use_go;
use crate::ui::page::Page;
use crate::ui::parts::QuietButton;
use crate::ui::photo::use_photo;
use crate::ui::skin::{Layer, Picture, SkinDrawing, earlier, to_come};
use crate::ui::steps::use_here;
use crate::ui::words::{points as said, strength};
use leptos::prelude::*;

/// The outline and the grid that the next round takes, over the outlines of earlier rounds; drawn
/// anew by one tap. Nothing without an outline.
#[component]
pub fn NextSkin() -> impl IntoView {
    let here = use_here();
    let go = use_go();
    let case = here.now();
    let drawn = case.territory().and_then(Territory::outlined).cloned();
    let Some(drawn) = drawn.filter(|_| case.urgency() == Some(Urgency::Urgent)) else {
        return ().into_any();
    };
    let Ok(picture) = Picture::of(&drawn.ground) else { return ().into_any() };
    let photo = use_photo(&drawn.ground);
    let mut layers = earlier(&case.shrinking(), &drawn, case.treatment.rounds().len());
    let before = !layers.is_empty();
    let again = !case.treatment.rounds().is_empty();
    layers.push(Layer { outline: drawn.outline.clone(), earlier: None });
    let spots = case.next_grid().map(|grid| grid.spots().to_vec()).unwrap_or_default();
    let label = strength::drawn(drawn.outline.area(), spots.len());
    let points = to_come(&spots);
    let changes = said::changes(&case.syringe_changes());
    view! {
        <SkinDrawing picture photo layers points label />
        {before.then(|| view! { <p class="hint">{said::earlier()}</p> })}
        {changes.map(|text| view! { <p class="hint">{text}</p> })}
        // Before the first round it was drawn a moment ago.
        {again
            .then(|| {
                view! {
                    <QuietButton on_press=move |()| {
                        go.to(Page::Outline(here.id));
                    }>{said::redraw()}</QuietButton>
                }
            })}
    }
    .into_any()
}
