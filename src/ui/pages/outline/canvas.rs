//! The skin being drawn on: a finger's strokes, zones and corners tapped, edges pulled.

use super::board::Board;
use super::easel::{Easel, Mode, use_easel};
use super::hand::{Act, Place, Tool};
use super::work::{On, is_drawn};
use crate::plane::{Handle, Kind, Ring, Sketch, Spot, Stroke};
use crate::ui::parts::{ZoneShapes, through};
use crate::ui::skin::{Backdrop, Frame, Picture};
use crate::ui::words::sketching as said;
use leptos::prelude::*;

/// A finger this near to an edge, in pixels, takes hold of it.
const CATCH: f64 = 28.0;
/// So far along the edge, in pixels, the skin beside the finger goes with it.
const REACH: f64 = 56.0;
/// Half a mark where a stroke crossed itself, in pixels.
const CROSS: f64 = 6.0;
/// The ring round the place that is held, in pixels.
const RING: f64 = 18.0;
/// A corner that was tapped, its radius in pixels.
const CORNER: f64 = 5.0;
/// Fewer corners go round nothing.
const ROUND: usize = 3;

/// What is held of an edge.
#[derive(Clone, Copy, PartialEq)]
struct Held {
    handle: Handle,
    /// Where it was in the sketch when it was taken.
    from: Spot,
    /// Whether it was pulled.
    pulled: bool,
}

/// The canvas with what is drawn on it.
#[component]
pub fn Canvas() -> impl IntoView {
    let easel = use_easel();
    let Easel { work, window, live, picture, drawn, .. } = easel;
    let held = RwSignal::new(None::<Held>);
    let shown = Memo::new(move |_| picture.get().and_then(Result::ok));
    let whole = Memo::new(move |_| shown.read().as_ref().map_or(Frame::NONE, Picture::whole));
    let take = move |at: Place| {
        if easel.mode.get_untracked() != Mode::Shape {
            return Tool::Draw;
        }
        held.set(take_hold(&easel, at));
        if held.read_untracked().is_some() { Tool::Hold } else { Tool::Slide }
    };
    let outline = Memo::new(move |_| {
        let (drawn, shown) = (drawn.read(), shown.read());
        let (Ok(traced), Some(picture)) = (&*drawn, &*shown) else { return String::new() };
        path(traced.outline.rings(), picture)
    });
    let last = Memo::new(move |_| {
        let work = work.read();
        let ring = |stroke: Stroke| {
            let places: Vec<Place> = stroke.spots.iter().map(|spot| work.place(*spot)).collect();
            through(&places) + "Z"
        };
        easel.last_strokes().unwrap_or_default().into_iter().map(ring).collect::<String>()
    });
    let under = move || {
        let picture = shown.get()?;
        let zones = match picture {
            Picture::Face { view, .. } => Some(view! { <ZoneShapes view chosen=Vec::new() /> }),
            Picture::Photo { .. } => None,
        };
        Some(view! {
            <Backdrop picture photo=easel.fetched() />
            {zones}
        })
    };
    let on_canvas = move |spot: Spot| {
        let place = shown.read().as_ref()?.show(spot)?;
        Some(window.get()?.to_canvas(place))
    };
    let crossings = move || {
        let drawn = drawn.read();
        let spots = drawn.as_ref().map(|traced| traced.crossings.clone()).unwrap_or_default();
        spots.into_iter().filter_map(on_canvas).map(cross).collect_view()
    };
    let ring = move || {
        let held = held.get().filter(|held| held.pulled)?;
        let work = work.read();
        let spot = work.sketch()?.place(held.handle)?;
        let (x, y) = window.get()?.to_canvas(work.place(spot));
        Some(view! { <circle class="held" cx=x cy=y r=RING /> })
    };
    let corners = Memo::new(move |_| -> Vec<Place> {
        let Some(window) = window.get() else { return Vec::new() };
        easel.corners.read().iter().map(|corner| window.to_canvas(*corner)).collect()
    });
    let dots = move || {
        let dot = |(x, y)| view! { <circle class="corner" cx=x cy=y r=CORNER /> };
        corners.get().into_iter().map(dot).collect_view()
    };
    let label = Signal::derive(move || {
        said::canvas(work.read().on(), easel.size.get().map(|(area, _)| area))
    });
    view! {
        <Board
            whole
            window
            tool=take
            on_act=move |act| done(&easel, held, act)
            live
            label
            under=view! {
                {under}
                <path class="drawn-edge" d=move || last.get() />
                <path class="drawn-last" d=move || last.get() />
                <path class="drawn-edge" d=move || outline.get() />
                <path
                    class="drawn"
                    class:on-photo=move || matches!(&*shown.read(), Some(Picture::Photo { .. }))
                    fill-rule="evenodd"
                    d=move || outline.get()
                />
            }
                .into_any()
            over=view! {
                <g class="live" class:hole=move || easel.mode.get() == Mode::LeaveOut>
                    <path class="live-edge" d=move || through(&live.read()) />
                    <path class="live-line" d=move || through(&live.read()) />
                    <path class="live-edge" d=move || through(&corners.read()) />
                    <path class="live-line" d=move || through(&corners.read()) />
                    {dots}
                </g>
                {crossings}
                {ring}
            }
                .into_any()
        >
            <Tools />
        </Board>
    }
}

/// Taking back, and going on with what was drawn last.
#[component]
fn Tools() -> impl IntoView {
    let easel = use_easel();
    let work = easel.work;
    let corners = Memo::new(move |_| easel.corners.read().len());
    let stuck = move || corners.get() == 0 && !work.read().sketch().is_some_and(Sketch::can_undo);
    let last = Memo::new(move |_| work.read().is_empty() && easel.last_strokes().is_some());
    view! {
        <button
            type="button"
            class="board-tool"
            aria-disabled=move || stuck().then_some("true")
            on:click=move |_| easel.undo()
        >
            {said::undo()}
        </button>
        {move || {
            (corners.get() >= ROUND)
                .then(|| {
                    view! {
                        <button type="button" class="board-tool" on:click=move |_| easel.close()>
                            {said::close_round()}
                        </button>
                    }
                })
        }}
        {move || {
            last.get()
                .then(|| {
                    view! {
                        <button
                            type="button"
                            class="board-tool"
                            on:click=move |_| easel.take_last()
                        >
                            {said::last_outline()}
                        </button>
                    }
                })
        }}
    }
}

/// What fingers did to the skin.
fn done(easel: &Easel, held: RwSignal<Option<Held>>, act: Act) {
    match act {
        Act::Tapped(at) => {
            held.set(None);
            tap(easel, at);
        }
        Act::Drew(places) => easel.add(easel.stroke(&places)),
        Act::Pulled { from, to } => pull(easel, held, from, to),
        Act::LetGo => {
            held.set(None);
            easel.keep();
        }
        Act::Dropped => {
            if held.get_untracked().is_some_and(|held| held.pulled) {
                easel.undo();
            }
            held.set(None);
        }
        Act::Drawing | Act::Slid { .. } | Act::Pinched { .. } => {}
    }
}

/// Rings in the picture's own units, as SVG path data.
fn path<'a>(rings: impl Iterator<Item = &'a Ring>, picture: &Picture) -> String {
    rings
        .map(|ring| {
            let places: Vec<Place> =
                ring.spots().iter().filter_map(|spot| picture.show(*spot)).collect();
            through(&places) + "Z"
        })
        .collect()
}

/// Where a stroke crossed itself.
fn cross((x, y): Place) -> impl IntoView {
    let (left, right, top, bottom) = (x - CROSS, x + CROSS, y - CROSS, y + CROSS);
    let d = through(&[(left, top), (right, bottom)]) + &through(&[(right, top), (left, bottom)]);
    view! {
        <g class="crossing">
            <path class="crossing-edge" d=d.clone() />
            <path d=d />
        </g>
    }
}

/// What lies under the finger, in the sketch.
fn spot_under(easel: &Easel, at: Place) -> Option<Spot> {
    let place = easel.window.get_untracked()?.to_picture(at);
    easel.work.read_untracked().spot(place)
}

/// A length on the canvas as the sketch counts millimetres.
fn sketch_mm(easel: &Easel, pixels: f64) -> Option<f64> {
    let scale = easel.window.get_untracked()?.scale();
    Some(easel.work.read_untracked().sketch_mm(pixels / scale))
}

fn take_hold(easel: &Easel, at: Place) -> Option<Held> {
    let (near, within) = (spot_under(easel, at)?, sketch_mm(easel, CATCH)?);
    let work = easel.work.read_untracked();
    let handle = work.sketch()?.handle(near, within)?;
    Some(Held { handle, from: work.sketch()?.place(handle)?, pulled: false })
}

/// Pulls what is held by as much as the finger went: it is seen beside the finger, not under it.
fn pull(easel: &Easel, held: RwSignal<Option<Held>>, from: Place, to: Place) {
    let moved = || {
        let (held, reach) = (held.get_untracked()?, sketch_mm(easel, REACH)?);
        let (from, to) = (spot_under(easel, from)?, spot_under(easel, to)?);
        let there = Spot::new(held.from.x + to.x - from.x, held.from.y + to.y - from.y);
        Some((held, there, reach))
    };
    let Some((now, there, reach)) = moved() else { return };
    easel.draw(|sketch| {
        if !now.pulled {
            sketch.grab();
        }
        sketch.pull(now.handle, there, reach);
    });
    held.set(Some(Held { pulled: true, ..now }));
}

/// A tap on a zone draws all of it, or takes it away again; elsewhere it is a corner of what is gone
/// round, and on the first corner it closes the round.
fn tap(easel: &Easel, at: Place) {
    if easel.mode.get_untracked() == Mode::Shape {
        return;
    }
    let on = easel.work.read_untracked().on();
    let first = easel.corners.with_untracked(|corners| {
        let (x, y) = easel.window.get_untracked()?.to_canvas(*corners.first()?);
        Some((corners.len(), (x - at.0).hypot(y - at.1)))
    });
    match (first, on) {
        (Some((count, near)), _) if count >= ROUND && near <= CATCH => easel.close(),
        (None, On::View(view)) => {
            match spot_under(easel, at).and_then(|spot| view.shape_at(spot)) {
                Some((_, ring)) => toggle(easel, ring),
                None => easel.corner(at),
            }
        }
        _ => easel.corner(at),
    }
}

/// Draws a zone or takes it away: as skin, or as what is left out where that is drawn now and the
/// zone is not there by itself.
pub fn toggle(easel: &Easel, ring: Vec<Spot>) {
    let out = easel.mode.get_untracked() == Mode::LeaveOut;
    easel.draw(|sketch| {
        let kind = if out && !is_drawn(sketch.strokes(), &ring) { Kind::Hole } else { Kind::Skin };
        sketch.toggle(Stroke { kind, spots: ring });
    });
    easel.keep();
}
