//! Outlines and points over the picture that they were drawn on.

use super::frame::{Frame, PAPER};
use super::ground::{Backdrop, Picture};
use crate::plane::{Outline, Ring, Spot};
use crate::ui::parts::grid::{numbered_point, point};
use crate::ui::parts::{PointMark, Text, through};
use crate::ui::photo::Fetched;
use leptos::prelude::*;
use std::fmt::Write;

/// An outline, and what it stands for.
#[derive(Clone, Debug, PartialEq)]
pub struct Layer {
    /// The outline.
    pub outline: Outline,
    /// The number of the round that it was drawn before; `None` for the one in force.
    pub earlier: Option<usize>,
}

/// A point on the skin.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SkinPoint {
    /// Its number, from 1.
    pub number: u32,
    /// Where.
    pub spot: Spot,
    /// How it stands.
    pub mark: PointMark,
    /// Whether it was added by hand, off the way through the grid.
    pub added: bool,
}

/// Where on the paper a place on the skin lies.
type OnPaper = dyn Fn(Spot) -> Option<(f64, f64)>;

/// Room around the outline, as a share of its longer side.
const ROOM: f64 = 0.16;
/// No side of the drawing is less than this share of the other.
const LEAST: f64 = 0.62;
/// A point's radius as a share of the distance to its nearest neighbour.
const RADIUS: f64 = 0.36;
/// Radii in paper units: what can still be seen, what does not hide the skin, what holds a numeral.
const LEAST_RADIUS: f64 = 3.0;
const MOST_RADIUS: f64 = 12.0;
const NUMERAL_RADIUS: f64 = 8.5;
/// Where every point is numbered: what a numeral can still be read in, on paper.
const LEAST_NUMBERED: f64 = 4.5;
/// A tap this far from a point, in paper units, still means it.
const TAP: f64 = 26.0;

/// The skin with outlines and points.
#[component]
pub fn SkinDrawing(
    /// The picture that they lie on.
    picture: Picture,
    /// The photo, if it is one, once it is there.
    #[prop(optional, into)]
    photo: Signal<Fetched>,
    /// The outlines, the earliest first.
    #[prop(into)]
    layers: Signal<Vec<Layer>>,
    /// The points, in the order in which they are taken.
    #[prop(optional, into)]
    points: Signal<Vec<SkinPoint>>,
    /// A point was tapped, by its number.
    #[prop(optional, into)]
    on_point: Option<Callback<u32>>,
    /// Skin was tapped, for what is to be put there; while it gives something, points are not.
    #[prop(optional, into)]
    on_skin: Option<Callback<Spot>>,
    /// Whether a tap means the skin and not a point.
    #[prop(optional, into)]
    placing: Signal<bool>,
    /// Whether each point shows its number, whatever its state: to be read later.
    #[prop(optional)]
    numbered: bool,
    /// The whole drawing in words.
    #[prop(into)]
    label: Text,
) -> impl IntoView {
    let shown = StoredValue::new(picture.clone());
    let frame = Memo::new(move |_| {
        let layers = layers.read();
        let outlines = layers.iter().flat_map(|layer| layer.outline.rings());
        let spots = outlines.flat_map(|ring| ring.spots().iter().copied());
        shown.with_value(|picture| {
            let places = spots.filter_map(|spot| picture.show(spot));
            Frame::around(places, ROOM, LEAST).unwrap_or_else(|| picture.whole())
        })
    });
    let on_paper = move |spot: Spot| {
        shown.with_value(|picture| picture.show(spot)).map(|at| frame.get().to_paper(at))
    };
    let tap = move |click: leptos::ev::MouseEvent| {
        let Some(at) = paper_place(&click) else { return };
        if placing.get_untracked() {
            let spot =
                shown.with_value(|picture| picture.read(frame.get_untracked().to_picture(at)));
            if let Some((on_skin, spot)) = on_skin.zip(spot) {
                on_skin.run(spot);
            }
            return;
        }
        let Some(on_point) = on_point else { return };
        let near = points.with_untracked(|points| {
            let far = |point: &SkinPoint| {
                let place = untrack(|| on_paper(point.spot))?;
                Some((point.number, (place.0 - at.0).hypot(place.1 - at.1)))
            };
            points.iter().filter_map(far).min_by(|a, b| a.1.total_cmp(&b.1))
        });
        if let Some((number, _)) = near.filter(|(_, far)| *far <= TAP) {
            on_point.run(number);
        }
    };
    view! {
        <figure class="drawing skin">
            <svg
                viewBox=move || format!("0 0 {PAPER} {:.1}", frame.get().paper_height())
                role="img"
                aria-label=move || label.get()
                class:placing=move || placing.get()
                on:click=tap
            >
                <svg
                    class="ground"
                    width=PAPER
                    height=move || frame.get().paper_height()
                    viewBox=move || {
                        let Frame { left, top, width, height } = frame.get();
                        format!("{left:.2} {top:.2} {width:.2} {height:.2}")
                    }
                >
                    <Backdrop picture photo />
                </svg>
                {move || {
                    layers.get().into_iter().map(|layer| outlined(&layer, &on_paper)).collect_view()
                }}
                {move || marked(&points.read(), numbered, &on_paper)}
            </svg>
        </figure>
    }
}

/// Where on the paper a click was.
fn paper_place(click: &leptos::ev::MouseEvent) -> Option<(f64, f64)> {
    use wasm_bindgen::JsCast;
    let drawing = click.current_target()?.dyn_into::<web_sys::Element>().ok()?;
    let rect = drawing.get_bounding_client_rect();
    let scale = PAPER / rect.width();
    let place = |at: i32, from: f64| (f64::from(at) - from) * scale;
    let at = (place(click.client_x(), rect.left()), place(click.client_y(), rect.top()));
    (at.0.is_finite() && at.1.is_finite()).then_some(at)
}

/// An outline on the paper; an earlier one with the number of its round.
fn outlined(layer: &Layer, on_paper: &OnPaper) -> impl IntoView + use<> {
    let d = path(layer.outline.rings(), on_paper);
    let highest = || {
        let spots = layer.outline.rings().flat_map(|ring| ring.spots().iter().copied());
        spots.filter_map(on_paper).min_by(|a, b| a.1.total_cmp(&b.1))
    };
    let words = layer.earlier.and_then(|round| Some((round, highest()?)));
    view! {
        <g class="territory" class:earlier=layer.earlier.is_some()>
            <path d=d fill-rule="evenodd" />
            {words
                .map(|(round, (x, y))| {
                    view! {
                        <text x=x y=y dy="-0.4em">
                            {round}
                        </text>
                    }
                })}
        </g>
    }
}

/// Rings as SVG path data.
pub(super) fn path<'a>(rings: impl Iterator<Item = &'a Ring>, on_paper: &OnPaper) -> String {
    let mut data = String::new();
    for ring in rings {
        for (n, (x, y)) in ring.spots().iter().filter_map(|spot| on_paper(*spot)).enumerate() {
            // Writing to a string cannot fail.
            let _ = write!(data, "{}{x:.1} {y:.1}", if n == 0 { 'M' } else { 'L' });
        }
        data.push('Z');
    }
    data
}

/// The points and the way through them.
fn marked(points: &[SkinPoint], numbered: bool, on_paper: &OnPaper) -> impl IntoView + use<> {
    let placed: Vec<(SkinPoint, (f64, f64))> =
        points.iter().filter_map(|point| Some((*point, on_paper(point.spot)?))).collect();
    let planned = placed.iter().filter(|(point, _)| !point.added);
    let way: Vec<(f64, f64)> = planned.map(|(_, at)| *at).collect();
    let step = |pair: &[(f64, f64)]| (pair[0].0 - pair[1].0).hypot(pair[0].1 - pair[1].1);
    let nearest = way.windows(2).map(step).filter(|step| *step > 0.0).min_by(f64::total_cmp);
    let radius =
        nearest.map_or(MOST_RADIUS, |step| (step * RADIUS).clamp(LEAST_RADIUS, MOST_RADIUS));
    let radius = if numbered { radius.max(LEAST_NUMBERED) } else { radius };
    // The ring of the next point lies over its neighbours.
    let (next, others): (Vec<_>, Vec<_>) =
        placed.into_iter().partition(|(point, _)| point.mark == PointMark::Next);
    let marks = others.into_iter().chain(next).map(|(SkinPoint { number, mark, .. }, at)| {
        let number = number as usize;
        if numbered {
            numbered_point(number, at, mark, radius).into_any()
        } else {
            point(number, at, mark, radius, radius >= NUMERAL_RADIUS).into_any()
        }
    });
    view! {
        <path class="way" d=through(&way) />
        {marks.collect_view()}
    }
}
