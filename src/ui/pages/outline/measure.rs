//! How large things are in a photo: marks put onto the corners of a card, or onto the ends of a
//! known length.

use super::board::Board;
use super::camera::{PhotoGone, PhotoNotKept};
use super::easel::{Easel, use_easel};
use super::hand::{Act, Place, Tool};
use super::loupe::Loupe;
use super::shot::{By, Mark, Shot};
use super::window::Window;
use super::work::On;
use crate::measure::Length;
use crate::plane::{Rectified, Unscaled, rectify};
use crate::protocol::{Quantity, card};
use crate::ui::parts::{
    Figure, Figures, Item, Note, QuantityField, QuietButton, Segment, Tone, through,
};
use crate::ui::photo::Fetched;
use crate::ui::skin::Frame;
use crate::ui::words::{outline, sketching as said, typed};
use leptos::prelude::*;

/// A finger this near to a mark, in pixels, takes hold of it.
const CATCH: f64 = 44.0;
/// A mark's radius, in pixels.
const RADIUS: f64 = 15.0;
/// The radius within which a mark is the pointer's, in pixels.
const HIT: f64 = 24.0;
/// Half of the cross in a mark, in pixels.
const CROSS: f64 = 5.0;
/// Pixels of the photo that an arrow key moves a mark by, and with the shift key.
const STEP: f64 = 1.0;
const LEAP: f64 = 10.0;

/// A mark that is held.
#[derive(Clone, Copy, PartialEq)]
struct Held {
    place: usize,
    before: Mark,
    finger: Place,
}

/// The scale as the marks stand, tracked; why it is none.
pub fn scaled(shot: &Shot) -> Result<Rectified, Unscaled> {
    let scale = shot.scale().ok_or(Unscaled::NoLength)?;
    rectify(&scale, shot.photo.extent, card::ID_1, &card::LIMITS)
}

/// Why it cannot be drawn on yet, tracked.
pub fn why_not(easel: &Easel) -> Option<String> {
    let work = easel.work.read();
    let shot = work.shot()?;
    match shot.to_place() {
        0 => scaled(shot).err().map(outline::unscaled),
        count => Some(said::to_place(shot.by, count)),
    }
}

/// The photo with its marks.
#[component]
pub fn Measure() -> impl IntoView {
    let easel = use_easel();
    let by = Memo::new(move |_| easel.work.read().shot().map_or(By::Card, |shot| shot.by));
    let items =
        vec![Item::new(By::Card, said::by_card()), Item::new(By::Length, said::by_length())];
    let choose = move |by| {
        easel.change(|work| {
            if let Some(shot) = work.shot_mut() {
                shot.by = by;
            }
        });
    };
    view! {
        <PhotoNotKept />
        <PhotoGone />
        <Marks by />
        <p class="hint">{move || said::how_to_mark(by.get())}</p>
        <div class="sketch-rest">
            {move || (by.get() == By::Length).then(|| view! { <KnownLength /> })}
            <Fit />
            <Segment
                legend=said::by()
                items
                value=Signal::derive(move || Some(by.get()))
                on_choose=choose
            />
            <Limits />
            <QuietButton on_press=move |()| {
                easel.look_at(On::NewPhoto);
            }>{said::another()}</QuietButton>
        </div>
    }
}

#[component]
fn Marks(by: Memo<By>) -> impl IntoView {
    let easel = use_easel();
    let Easel { work, window, .. } = easel;
    let held = RwSignal::new(None::<Held>);
    // The mark that a tap puts where it falls, for whoever does not drag.
    let chosen = RwSignal::new(None::<usize>);
    let extent = Memo::new(move |_| work.read().shot().map(|shot| shot.photo.extent));
    let whole = Memo::new(move |_| {
        extent.get().map_or(Frame::NONE, |extent| Frame {
            left: 0.0,
            top: 0.0,
            width: f64::from(extent.width),
            height: f64::from(extent.height),
        })
    });
    let marks = Memo::new(move |_| -> Vec<Mark> {
        work.read().shot().map(|shot| shot.marks().to_vec()).unwrap_or_default()
    });
    let on_canvas = move |window: Window, mark: &Mark| window.to_canvas(mark.dot.pixels());
    let take = move |at: Place| {
        held.set(None);
        let Some(window) = window.get_untracked() else { return Tool::Slide };
        let marks = marks.get_untracked();
        let far = marks.iter().enumerate().map(|(place, mark)| {
            let (x, y) = on_canvas(window, mark);
            (place, *mark, (x - at.0).hypot(y - at.1))
        });
        match far.min_by(|a, b| a.2.total_cmp(&b.2)).filter(|nearest| nearest.2 <= CATCH) {
            Some((place, before, _)) => {
                held.set(Some(Held { place, before, finger: at }));
                Tool::Hold
            }
            None => Tool::Slide,
        }
    };
    let put = move |place: usize, at: Place| {
        work.update(|work| {
            if let Some(shot) = work.shot_mut() {
                shot.put(place, at);
            }
        });
    };
    let act = move |act: Act| match act {
        Act::Pulled { from, to } => {
            if let Some((now, window)) = held.get_untracked().zip(window.get_untracked()) {
                let (x, y) = now.before.dot.pixels();
                let moved = |from: f64, to: f64| (to - from) / window.scale();
                put(now.place, (x + moved(from.0, to.0), y + moved(from.1, to.1)));
                held.set(Some(Held { finger: to, ..now }));
            }
        }
        Act::Dropped => {
            if let Some(Held { place, before, .. }) = held.get_untracked() {
                work.update(|work| {
                    if let Some(shot) = work.shot_mut() {
                        shot.put_back(place, before);
                    }
                });
            }
            held.set(None);
        }
        Act::LetGo => {
            held.set(None);
            easel.keep();
        }
        Act::Tapped(at) => {
            let now = held.get_untracked().zip(window.get_untracked());
            // Once one is chosen, a tap beside another is meant for the corner there.
            let touched = now.filter(|(held, window)| {
                let (x, y) = on_canvas(*window, &held.before);
                chosen.get_untracked().is_none() || (x - at.0).hypot(y - at.1) <= RADIUS
            });
            let touched = touched.map(|(held, _)| held.place);
            held.set(None);
            match (touched, chosen.get_untracked()) {
                (Some(place), now) if now != Some(place) => chosen.set(Some(place)),
                (_, Some(place)) => {
                    if let Some(window) = window.get_untracked() {
                        put(place, window.to_picture(at));
                        easel.keep();
                    }
                }
                _ => {}
            }
        }
        Act::Drew(_) | Act::Drawing | Act::Slid { .. } | Act::Pinched { .. } => {}
    };
    let nudge = move |place: usize, event: leptos::ev::KeyboardEvent| {
        let step = if event.shift_key() { LEAP } else { STEP };
        let (dx, dy) = match event.key().as_str() {
            "ArrowLeft" => (-step, 0.0),
            "ArrowRight" => (step, 0.0),
            "ArrowUp" => (0.0, -step),
            "ArrowDown" => (0.0, step),
            " " | "Enter" => {
                event.prevent_default();
                chosen.set(Some(place));
                return;
            }
            _ => return,
        };
        event.prevent_default();
        if let Some(mark) = marks.get_untracked().get(place) {
            let (x, y) = mark.dot.pixels();
            put(place, (x + dx, y + dy));
            easel.keep();
        }
    };
    let edges = move || {
        let places: Vec<Place> = marks.read().iter().map(|mark| mark.dot.pixels()).collect();
        // Two marks make a line, four go round.
        through(&places) + if places.len() > 2 { "Z" } else { "" }
    };
    let count = Memo::new(move |_| marks.read().len());
    let handles = move || {
        let handle = move |place: usize| {
            let mark = Memo::new(move |_| {
                let marks = marks.read();
                let mark = marks.get(place)?;
                Some((on_canvas(window.get()?, mark), mark.placed))
            });
            let at = move || mark.get().unwrap_or_default().0;
            let cross = format!("M{CROSS} 0H-{CROSS}M0 {CROSS}V-{CROSS}");
            view! {
                <g
                    class="mark"
                    class:chosen=move || chosen.get() == Some(place)
                    class:placed=move || mark.get().is_some_and(|mark| mark.1)
                    transform=move || format!("translate({:.1} {:.1})", at().0, at().1)
                    tabindex="0"
                    role="button"
                    aria-label=said::mark(by.get_untracked(), place)
                    aria-pressed=move || (chosen.get() == Some(place)).to_string()
                    on:keydown=move |event| nudge(place, event)
                >
                    <circle class="mark-hit" r=HIT />
                    <circle class="mark-edge" r=RADIUS />
                    <circle class="mark-ring" r=RADIUS />
                    <path class="mark-edge" d=cross.clone() />
                    <path class="mark-ring" d=cross />
                </g>
            }
        };
        (0..count.get()).map(handle).collect_view()
    };
    let loupe = move || {
        let now = held.get().filter(|now| {
            // Not before it has moved: a mark that is only touched needs no closer look.
            marks.read().get(now.place) != Some(&now.before)
        })?;
        let marks = marks.read();
        let places: Vec<Place> = marks.iter().map(|mark| mark.dot.pixels()).collect();
        let mut round = places.clone();
        if places.len() > 2 {
            round.extend(places.first());
        }
        let middle = *places.get(now.place)?;
        Some(view! {
            <Loupe
                window=window.get()?
                extent=extent.get()?
                photo=easel.fetched()
                middle
                finger=now.finger
                lines=vec![round]
            />
        })
    };
    let fetched = easel.fetched();
    view! {
        <Board
            whole
            window
            tool=take
            on_act=act
            label=Signal::derive(move || said::photo_with(by.get()).to_owned())
            under=view! {
                <image
                    class="photo"
                    href=move || match fetched.get() {
                        Fetched::Here(url) => Some(url.as_str().to_owned()),
                        Fetched::Waiting | Fetched::Gone => None,
                    }
                    width=move || extent.get().map(|extent| extent.width)
                    height=move || extent.get().map(|extent| extent.height)
                />
                <path class="marks-edge" d=edges />
                <path class="marks-line" d=edges />
            }
                .into_any()
            over=view! {
                {handles}
                {loupe}
            }
                .into_any()
        />
    }
}

/// How long the known length is.
#[component]
fn KnownLength() -> impl IntoView {
    let easel = use_easel();
    let known = easel.work.with_untracked(|work| work.shot().and_then(|shot| shot.length));
    let text = RwSignal::new(known.map(|length| length.to_string()).unwrap_or_default());
    let typed = move |typed: String| {
        text.set(typed);
        let length = known_length(&text.read_untracked()).ok().flatten();
        easel.change(|work| {
            if let Some(shot) = work.shot_mut() {
                shot.length = length;
            }
        });
    };
    view! {
        <QuantityField
            label=said::how_long()
            value=text
            unit=Some(said::mm().to_owned())
            error=Signal::derive(move || known_length(&text.read()).err())
            on_input=typed
        />
    }
}

/// The length typed, if it can be measured by.
fn known_length(text: &str) -> Result<Option<Length>, String> {
    let (low, high) = card::KNOWN_LENGTH;
    match typed::field::<Length>(text)? {
        Some(length) if !(low..=high).contains(&length) => {
            Err(typed::out_of_bounds(Quantity::Length(low), Quantity::Length(high)))
        }
        length => Ok(length),
    }
}

/// How well the marks fit a flat card.
#[component]
fn Fit() -> impl IntoView {
    let easel = use_easel();
    let fit = Memo::new(move |_| {
        let work = easel.work.read();
        // A length that is not told yet is asked for above.
        let shot = work.shot().filter(|shot| shot.to_place() == 0 && shot.scale().is_some())?;
        Some(scaled(shot).map(|rectified| Some((rectified.tilt()?, rectified.misfit()))))
    });
    move || match fit.get()? {
        Err(why) => Some(
            view! {
                <Note tone=Tone::Caution>{outline::unscaled(why)}</Note>
            }
            .into_any(),
        ),
        // A known length tells neither.
        Ok(None) => None,
        Ok(Some((tilt, misfit))) => Some(
            view! {
                <Figures>
                    <Figure
                        label=said::tilt()
                        number=said::tenths(tilt)
                        unit=Some(said::degrees().to_owned())
                    />
                    <Figure
                        label=said::off_label()
                        number=said::hundredths(misfit.skin)
                        unit=Some(said::mm().to_owned())
                        note=Some(said::off(misfit))
                    />
                </Figures>
            }
            .into_any(),
        ),
    }
}

/// What a photo cannot measure.
#[component]
pub fn Limits() -> impl IntoView {
    view! {
        <details class="more">
            <summary>{said::limits()}</summary>
            {said::limits_words().map(|words| view! { <p>{words}</p> })}
        </details>
    }
}
