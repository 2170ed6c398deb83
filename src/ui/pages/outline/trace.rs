//! Drawing: the canvas, what one finger does, and what belongs to the ground that is drawn on.

use super::camera::{PhotoGone, PhotoNotKept};
use super::canvas::{Canvas, toggle};
use super::easel::{Easel, Mode, use_easel};
use super::measure::Limits;
use super::work::{On, is_drawn};
use crate::plane::Rectified;
use crate::protocol::face::View;
use crate::ui::language::spoken;
use crate::ui::parts::{
    Chips, Finding, Item, Note, Pair, QuantityField, QuietButton, Segment, Tone, Why,
};
use crate::ui::skin::Picture;
use crate::ui::words::sketching::{self as said, Side};
use crate::ui::words::{self, numbers};
use leptos::prelude::*;

/// Drawing on what is looked at.
#[component]
pub fn Trace() -> impl IntoView {
    let easel = use_easel();
    let Easel { work, mode, drawn, .. } = easel;
    let modes = [Mode::Draw, Mode::LeaveOut, Mode::Shape];
    let items = modes.map(|mode| Item::new(mode, said::mode(mode))).to_vec();
    let on = Memo::new(move |_| work.read().on());
    let status = move || {
        if let Some(remark) = easel.remark.get() {
            return said::remark(remark).to_owned();
        }
        let tapped = easel.corners.read().len();
        if tapped > 0 {
            return said::corners(tapped);
        }
        match drawn.read().as_ref().map_or(0, |traced| traced.crossings.len()) {
            0 if work.read().is_empty() && easel.last_strokes().is_some() => {
                said::last_shown().to_owned()
            }
            0 => said::hint(mode.get(), on.get()).to_owned(),
            times => said::crossed(times),
        }
    };
    view! {
        {move || (on.get() == On::Photo).then(|| view! { <PhotoGone /> })}
        <Canvas />
        <Segment
            legend=said::mode_label()
            legend_hidden=true
            items
            value=Signal::derive(move || Some(mode.get()))
            on_choose=move |chosen| {
                easel.remark.set(None);
                mode.set(chosen);
            }
        />
        <p class="hint sketch-status" role="status">
            {status}
        </p>
        <p class="unseen" role="status">
            {move || easel.told.get()}
        </p>
        <div class="sketch-rest">
            {move || match on.get() {
                On::View(view) => view! { <OfFace view /> }.into_any(),
                On::Photo | On::NewPhoto => view! { <OfPhoto /> }.into_any(),
            }}
            {move || {
                let drawn = !work.read().is_empty();
                drawn
                    .then(|| {
                        view! {
                            <QuietButton on_press=move |()| easel.clear()>{said::anew()}</QuietButton>
                        }
                    })
            }}
        </div>
    }
}

/// The zones by name, and the length by which the drawing is put to the patient's size.
#[component]
fn OfFace(view: View) -> impl IntoView {
    let easel = use_easel();
    let zones = StoredValue::new(view.zones());
    let items: Vec<Item<usize>> = zones.with_value(|zones| {
        let twice = |zone| zones.iter().filter(|(other, _)| *other == zone).count() > 1;
        let name = |(place, (zone, ring)): (usize, &(_, Vec<crate::plane::Spot>))| {
            // The patient's right is on the viewer's left.
            let right = ring.iter().all(|spot| spot.x < 0);
            let side = twice(*zone).then_some(if right { Side::Right } else { Side::Left });
            Item::new(place, said::zone(*zone, side))
        };
        zones.iter().enumerate().map(name).collect()
    });
    let chosen = Signal::derive(move || {
        let work = easel.work.read();
        let strokes = work.sketch().map(crate::plane::Sketch::strokes).unwrap_or_default();
        zones.with_value(|zones| {
            (0..zones.len()).filter(|place| is_drawn(strokes, &zones[*place].1)).collect()
        })
    });
    let change = move |(place, _): (usize, bool)| {
        if let Some((_, ring)) = zones.with_value(|zones| zones.get(place).cloned()) {
            toggle(&easel, ring);
        }
    };
    let measured = Memo::new(move |_| easel.work.read().measured(view));
    let which = view.measure().which;
    let findings: Vec<Finding> = which
        .findings()
        .iter()
        .map(|found| Finding {
            figure: numbers::quantity_range(found.low, found.high),
            setting: spoken(found.setting).to_owned(),
            citation: words::protocol::citation(found.basis),
            status: words::protocol::status(found.basis).to_owned(),
        })
        .collect();
    view! {
        <details class="more">
            <summary>{move || said::fitted(view, measured.get())}</summary>
            <QuantityField
                label=said::fit(which)
                value=easel.length
                unit=Some(said::mm().to_owned())
                hint=Some(said::fit_hint().to_owned())
                error=Signal::derive(move || easel.patients_length().err())
                on_input=move |text| easel.type_length(text)
            />
            <Why summary=said::why_standard() findings />
        </details>
        <details class="more">
            <summary>{said::zones()}</summary>
            <Chips legend=said::zones() legend_hidden=true items value=chosen on_change=change />
        </details>
    }
}

/// How the photo is measured, and what is wrong with that.
#[component]
fn OfPhoto() -> impl IntoView {
    let easel = use_easel();
    let far = Memo::new(move |_| {
        let picture = easel.picture.read();
        let drawn = easel.drawn.read();
        rectified(picture.as_ref())?.too_far(&drawn.as_ref().ok()?.outline)
    });
    let again = move |()| {
        easel.change(|work| {
            if let Some(shot) = work.shot_mut() {
                shot.settled = false;
            }
        });
    };
    view! {
        {move || {
            far.get()
                .map(|length| view! { <Note tone=Tone::Caution>{said::too_far(length)}</Note> })
        }}
        <PhotoNotKept />
        <Pair>
            <QuietButton on_press=again>{said::size_again()}</QuietButton>
            <QuietButton on_press=move |()| {
                easel.look_at(On::NewPhoto);
            }>{said::another()}</QuietButton>
        </Pair>
        <Limits />
    }
}

/// How a photo is measured.
fn rectified<E>(picture: Option<&Result<Picture, E>>) -> Option<&Rectified> {
    match picture?.as_ref().ok()? {
        Picture::Photo { rectified, .. } => Some(rectified),
        Picture::Face { .. } => None,
    }
}
