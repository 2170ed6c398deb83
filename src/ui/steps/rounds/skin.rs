//! The skin of the round to come, and how it shrank from round to round.

use crate::care::allergy::Urgency;
use crate::care::territory::Territory;
use crate::case::Case;
use crate::measure::{Area, Span};
use crate::ui::app::use_go;
use crate::ui::page::Page;
use crate::ui::parts::{QuietButton, Reading, Trend};
use crate::ui::photo::use_photo;
use crate::ui::skin::{Layer, Picture, SkinDrawing, earlier, to_come};
use crate::ui::steps::use_here;
use crate::ui::words::{numbers, points as said, strength};
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
        {before.then(|| view! { <p class="hint">{said::EARLIER}</p> })}
        {changes.map(|text| view! { <p class="hint">{text}</p> })}
        // Before the first round it was drawn a moment ago.
        {again
            .then(|| {
                view! {
                    <QuietButton on_press=move |()| {
                        go.to(Page::Outline(here.id));
                    }>{said::REDRAW}</QuietButton>
                }
            })}
    }
    .into_any()
}

/// What is drawn of the area over time.
#[derive(Clone, PartialEq)]
struct Course {
    areas: Vec<(Span, Area)>,
    rounds: Vec<Span>,
}

/// The areas told, where there are two at least and one of them was drawn.
fn course(case: &Case) -> Option<Course> {
    let told = case.shrinking();
    if told.len() < 2 || told.iter().all(|told| told.territory.outline().is_none()) {
        return None;
    }
    let since = |at: crate::measure::Moment| at.since(case.opened);
    Some(Course {
        areas: told.iter().map(|told| (since(told.at), told.territory.area())).collect(),
        rounds: case.treatment.rounds().iter().map(|round| since(round.begun)).collect(),
    })
}

#[expect(clippy::cast_precision_loss, reason = "for drawing only")]
fn cm2(area: Area) -> f64 {
    area.raw() as f64 / Area::PER as f64
}

/// The skin without blood from round to round; nothing before it was told twice.
#[component]
pub fn Shrinking() -> impl IntoView {
    let here = use_here();
    let drawn = Memo::new(move |_| course(&here.case()));
    move || {
        let Course { areas, rounds } = drawn.get()?;
        let (first, last) = (areas.first()?.1, areas.last()?.1);
        let label =
            said::shrinking(&numbers::area_named(first), &numbers::area_named(last), areas.len());
        let readings: Vec<Reading> =
            areas.iter().map(|(at, area)| Reading { at: *at, value: cm2(*area) }).collect();
        Some(view! {
            <Trend
                readings
                rounds
                last_words=Some(numbers::area_named(last))
                caption=Some(said::AREA.to_owned())
                label
            />
        })
    }
}
