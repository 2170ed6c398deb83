//! The territory as it was drawn, with the grid that comes of it, and the way to draw it.

use super::territory::Skin;
use crate::care::territory::{Outlined, Territory};
use crate::case::{Event, Told};
use crate::measure::Length;
use crate::plane::{Grid, reach};
use crate::ui::app::use_go;
use crate::ui::page::Page;
use crate::ui::parts::{Figure, Figures, Note, QuietButton, Tone};
use crate::ui::photo::use_photo;
use crate::ui::skin::{Layer, Picture, SkinDrawing, earlier, to_come};
use crate::ui::steps::use_here;
use crate::ui::words::{numbers, outline as words_of, strength as said};
use leptos::prelude::*;

/// The way to draw round the skin; and, once it was, the drawing.
#[component]
pub fn Drawing(
    skin: Skin,
    /// The territory that comes of it.
    territory: Memo<Result<Territory, String>>,
) -> impl IntoView {
    let here = use_here();
    let go = use_go();
    let drawn = Memo::new(move |_| skin.drawn());
    let draw = move |()| {
        // What was ticked so far goes with it, so that it is there on the way back.
        match territory.get_untracked() {
            Ok(told) if here.now().territory() != Some(&told) => {
                here.record_then(Event::Territory(told), move || go.to(Page::Outline(here.id)));
            }
            _ => go.to(Page::Outline(here.id)),
        }
    };
    view! {
        {move || drawn.get().map(|drawn| view! { <Preview drawn /> })}
        <QuietButton on_press=draw>
            {move || if drawn.read().is_some() { said::redraw() } else { said::draw() }}
        </QuietButton>
    }
}

/// The outline with the grid that is laid on it, over those of earlier rounds.
#[component]
fn Preview(drawn: Outlined) -> impl IntoView {
    let here = use_here();
    let picture = match Picture::of(&drawn.ground) {
        Ok(picture) => picture,
        Err(why) => {
            return view! { <Note tone=Tone::Caution>{words_of::unscaled(why)}</Note> }.into_any();
        }
    };
    let photo = use_photo(&drawn.ground);
    let under = drawn.clone();
    let laid = Memo::new(move |_| -> (Grid, Option<Length>) {
        let protocol = &here.case().protocol;
        let grid = under.grid(protocol.spacing, protocol);
        let reach = reach(&under.outline, grid.spots());
        (grid, reach)
    });
    let points = Signal::derive(move || to_come(laid.read().0.spots()));
    let area = drawn.outline.area();
    let layers = {
        let drawn = drawn.clone();
        Signal::derive(move || {
            let case = here.case();
            let told: Vec<&Told> = case.shrinking();
            let mut layers = earlier(&told, &drawn, case.treatment.rounds().len());
            layers.push(Layer { outline: drawn.outline.clone(), earlier: None });
            layers
        })
    };
    let label = move || said::drawn(area, laid.read().0.len());
    view! {
        <SkinDrawing picture photo layers points label=Signal::derive(label) />
        <p class="hint">{words_of::ground(&drawn.ground)}</p>
        <Figures>
            <Figure label=said::area() number=numbers::area(area) unit=Some(said::cm2().to_owned()) />
            {move || {
                laid.read()
                    .1
                    .map(|reach| {
                        view! {
                            <Figure
                                label=said::reach()
                                number=numbers::typed(&reach)
                                unit=Some(said::mm().to_owned())
                            />
                        }
                    })
            }}
        </Figures>
    }
    .into_any()
}
