//! The syringe in hand, drawn to scale from the volumes of the calculation.

use super::fluid::{Layer, key, patterns};
use super::scale::{Mark, Rank, Ruler, decimals, marks, stretches};
use super::{MaybeText, Text, fresh_id};
use crate::measure::Volume;
use crate::ui::language::number;
use leptos::prelude::*;
use std::fmt::Write;

mod closer;

/// Width of the drawing.
const WIDTH: f64 = 312.0;
/// The zero mark and the last mark of the whole barrel.
const BARREL: (f64, f64) = (40.0, 252.0);
/// The barrel's end, past the last mark, where the flange stands.
const FLANGE: f64 = 264.0;
/// How far the thumb rest travels. The rod outside the barrel is the one thing not to scale:
/// drawn to scale it would halve the rest.
const THUMB: (f64, f64) = (276.0, 300.0);
/// Upper and lower wall of the whole barrel.
const WALLS: (f64, f64) = (34.0, 68.0);
/// Marks closer than this are drawn again in a closer look.
const LEGIBLE: f64 = 6.0;
/// Top and bottom of the drawing: room for the aim's figure above, for numerals below.
const FIELD: (f64, f64) = (0.0, 106.0);

/// All that the drawing depends on.
#[derive(Clone, PartialEq)]
struct Syringe {
    capacity: Volume,
    interval: Volume,
    layers: Vec<Layer>,
    plunger: Volume,
    aim: Option<Volume>,
    unit: Option<String>,
}

/// A syringe: its marks, what is in it, where the plunger stands and where it must stand.
///
/// Where the marks stand too close to be told apart, a closer look at those around the aim is
/// drawn under the whole.
#[component]
pub fn SyringeDrawing(
    /// What it holds.
    #[prop(into)]
    capacity: Signal<Volume>,
    /// The volume from one mark to the next.
    #[prop(into)]
    interval: Signal<Volume>,
    /// What is in it, in the order it was drawn up.
    #[prop(optional, into)]
    layers: Signal<Vec<Layer>>,
    /// Where the plunger's edge stands; at the sum of the layers if not given.
    #[prop(optional, into)]
    plunger: Signal<Option<Volume>>,
    /// Where the plunger's edge must stand.
    #[prop(optional, into)]
    aim: Signal<Option<Volume>>,
    /// The unit behind the aim's numeral.
    #[prop(optional, into)]
    unit: MaybeText,
    /// The whole drawing in words.
    #[prop(into)]
    label: Text,
) -> impl IntoView {
    let defs = fresh_id("syringe");
    let (near_defs, key_defs) = (defs.clone(), defs.clone());
    let syringe = Memo::new(move |_| {
        let layers = layers.get();
        let inside = layers.iter().map(|layer| layer.volume).sum();
        Syringe {
            capacity: capacity.get(),
            interval: interval.get(),
            plunger: plunger.get().unwrap_or(inside),
            layers,
            aim: aim.get(),
            unit: unit.get(),
        }
    });
    let near = Memo::new(move |_| syringe.read().needs_closer_look());
    let field = move || if near.get() { closer::FIELD } else { FIELD };
    view! {
        <figure class="drawing syringe">
            <svg
                viewBox=move || {
                    let (top, bottom) = field();
                    format!("0 {top} {WIDTH} {}", bottom - top)
                }
                role="img"
                aria-label=move || label.get()
            >
                {patterns(&defs)}
                {move || near.get().then(|| syringe.read().beam())}
                {move || syringe.read().whole(&defs)}
                {move || near.get().then(|| syringe.read().closer(&near_defs))}
            </svg>
            {move || key(&syringe.read().layers, &key_defs)}
        </figure>
    }
}

impl Syringe {
    fn ruler(&self) -> Ruler {
        #[allow(clippy::cast_precision_loss)]
        let to = self.capacity.raw() as f64;
        Ruler { left: BARREL.0, right: BARREL.1, from: 0.0, to }
    }

    fn needs_closer_look(&self) -> bool {
        !self.interval.is_zero() && self.ruler().width(self.interval) < LEGIBLE
    }

    /// The whole syringe.
    fn whole(&self, defs: &str) -> impl IntoView + use<> {
        let ruler = self.ruler();
        let (top, bottom) = WALLS;
        let middle = f64::midpoint(top, bottom);
        let edge = ruler.held(self.plunger);
        let thumb =
            THUMB.0 + (THUMB.1 - THUMB.0) * super::scale::share(self.plunger, self.capacity);
        let nozzle = format!(
            "M{0} {1}H8v{2}H{0}M{0} {1}V{top}H{FLANGE}V{bottom}H{0}V{3}",
            BARREL.0,
            middle - 4.0,
            8.0,
            middle + 4.0,
        );
        let in_nozzle = self.layers.last().filter(|layer| !layer.volume.is_zero());
        let in_nozzle = in_nozzle.map(|layer| layer.fluid.fill(defs));
        let marks = marks(self.capacity, self.interval);
        view! {
            <rect class="glass" x=BARREL.0 y=top width=FLANGE - BARREL.0 height=bottom - top />
            {in_nozzle
                .map(|fill| {
                    view! { <rect x="8" y=middle - 4.0 width=BARREL.0 - 8.0 height="8" fill=fill /> }
                })}
            {self.liquid(&ruler, defs, WALLS)}
            <rect class="rod" x=edge + 9.0 y=middle - 4.0 width=thumb - edge - 9.0 height="8" />
            <rect class="thumb" x=thumb y=middle - 19.0 width="6" height="38" rx="3" />
            {stopper(edge, 9.0, WALLS)}
            <path class="outline" d=nozzle />
            <rect class="flange" x=FLANGE - 2.0 y=top - 9.0 width="5" height=bottom - top + 18.0 rx="2" />
            {scale(&ruler, &marks, bottom, (5.0, 9.0, 13.0))}
            {marks.iter().filter_map(|mark| numeral(&ruler, mark, bottom + 28.0)).collect_view()}
            {self.aim.map(|aim| {
                let words = (!self.needs_closer_look()).then(|| self.words(aim));
                arrow(ruler.held(aim), (top, bottom + 13.0), words, 20.0, (36.0, WIDTH - 36.0))
            })}
        }
    }

    /// The aim in figures: as fine as the marks are.
    fn words(&self, aim: Volume) -> String {
        let places = decimals(self.interval);
        let figure =
            if aim.on_mark(self.interval) { format!("{aim:.places$}") } else { aim.to_string() };
        let figure = number(&figure);
        self.unit.as_ref().map_or(figure.clone(), |unit| format!("{figure}\u{a0}{unit}"))
    }

    /// The layers between the walls.
    fn liquid(&self, ruler: &Ruler, defs: &str, walls: (f64, f64)) -> impl IntoView + use<> {
        let drawn: Vec<Volume> = self.layers.iter().map(|layer| layer.volume).collect();
        let stretches = stretches(&drawn, self.plunger);
        self.layers
            .iter()
            .zip(stretches)
            .map(|(layer, (from, to))| {
                let (x, end) = (ruler.held(from), ruler.held(to));
                let fill = layer.fluid.fill(defs);
                // A line parts this layer from the one drawn after it.
                let edge = (!from.is_zero() && ruler.shows(from))
                    .then(|| format!("M{x} {}V{}", walls.0, walls.1));
                view! {
                    <rect x=x y=walls.0 width=end - x height=walls.1 - walls.0 fill=fill />
                    {edge.map(|d| view! { <path class="surface" d=d /> })}
                }
            })
            .collect_view()
    }
}

/// The plunger's stopper: two rings, the left edge of the first is what is read.
fn stopper(edge: f64, width: f64, walls: (f64, f64)) -> impl IntoView {
    let (top, height) = (walls.0, walls.1 - walls.0);
    let ring = width / 3.0;
    let waist = height * 0.12;
    view! {
        <rect class="stopper" x=edge y=top width=ring height=height />
        <rect class="stopper" x=edge y=top + waist width=width height=height - 2.0 * waist />
        <rect class="stopper" x=edge + width - ring y=top width=ring height=height />
    }
}

/// The marks as three paths, one per rank, so that each has its own weight.
fn scale(ruler: &Ruler, marks: &[Mark], y: f64, lengths: (f64, f64, f64)) -> impl IntoView + use<> {
    let mut paths = [String::new(), String::new(), String::new()];
    for mark in marks {
        let (which, length) = match mark.rank {
            Rank::Short => (0, lengths.0),
            Rank::Middle => (1, lengths.1),
            Rank::Long => (2, lengths.2),
        };
        // Writing to a string cannot fail.
        let _ = write!(paths[which], "M{:.2} {y}v{length}", ruler.x(mark.at));
    }
    let [short, middle, long] = paths;
    view! {
        <path class="mark short" d=short />
        <path class="mark middle" d=middle />
        <path class="mark long" d=long />
    }
}

fn numeral(ruler: &Ruler, mark: &Mark, y: f64) -> Option<impl IntoView + use<>> {
    let text = mark.numeral.clone()?;
    let x = ruler.x(mark.at).clamp(10.0, WIDTH - 16.0);
    Some(view! {
        <text class="numeral" x=x y=y>
            {text}
        </text>
    })
}

/// The aim: an arrowhead on the upper wall, a line through the barrel, its figure above, held
/// between `room`.
fn arrow(
    x: f64,
    line: (f64, f64),
    words: Option<String>,
    y: f64,
    room: (f64, f64),
) -> impl IntoView {
    let tip = line.0 - 1.0;
    view! {
        <path class="aim" d=format!("M{x} {tip}V{}", line.1) />
        <path class="aim-head" d=format!("M{} {}h14L{x} {tip}z", x - 7.0, tip - 10.0) />
        {words
            .map(|words| {
                view! {
                    <text class="aim-words" x=x.clamp(room.0, room.1) y=y>
                        {words}
                    </text>
                }
            })}
    }
}
