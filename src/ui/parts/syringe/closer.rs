//! The closer look: the marks around the aim, far enough apart to count.

use super::super::scale::{Mark, Rank, Ruler, decimals, marks};
use super::{BARREL, FLANGE, Syringe, WALLS, arrow, numeral, scale, stopper};
use crate::measure::Volume;
use crate::ui::language::number;
use leptos::prelude::*;

/// Left and right end.
const ENDS: (f64, f64) = (1.0, 311.0);
/// Top and bottom.
const BOX: (f64, f64) = (110.0, 224.0);
/// Upper and lower wall of the barrel in it.
const LENS_WALLS: (f64, f64) = (146.0, 184.0);
/// Intervals in it.
const INTERVALS: u32 = 16;
/// A numeral nearer to an end than this would be cut.
const NUMERAL_ROOM: f64 = 18.0;
/// Top and bottom of the whole drawing with it. The aim's figure stands in it, so that the whole
/// syringe needs no room above.
pub(super) const FIELD: (f64, f64) = (18.0, 226.0);

impl Syringe {
    /// The stretch of barrel in it: around the aim, or else around the plunger.
    fn lens(&self) -> Ruler {
        let at = self.aim.unwrap_or(self.plunger);
        Ruler::around(at, INTERVALS, self.interval, self.capacity, ENDS)
    }

    /// The light that falls from the stretch on the whole barrel down to the closer look.
    pub(super) fn beam(&self) -> impl IntoView + use<> {
        let (whole, lens) = (self.ruler(), self.lens());
        let on_whole = |microlitres| whole.x_of(microlitres).clamp(BARREL.0 - 4.0, FLANGE - 4.0);
        let (from, to) = (on_whole(lens.from), on_whole(lens.to));
        let (top, bottom) = (WALLS.0 - 6.0, WALLS.1 + 16.0);
        let beam = format!(
            "M{from} {top}H{to}V{bottom}L{} {y}H{}L{from} {bottom}z",
            ENDS.1 - 10.0,
            ENDS.0 + 10.0,
            y = BOX.0,
        );
        view! { <path class="beam" d=beam /> }
    }

    /// The marks around the aim, enlarged.
    pub(super) fn closer(&self, defs: &str) -> impl IntoView + use<> {
        let lens = self.lens();
        let (top, bottom) = LENS_WALLS;
        let clip = format!("{defs}-lens");
        let places = decimals(self.interval);
        let fits = |mark: &Mark| {
            let x = lens.x(mark.at);
            x > ENDS.0 + NUMERAL_ROOM && x < ENDS.1 - NUMERAL_ROOM
        };
        let shown: Vec<Mark> = marks(self.capacity, self.interval)
            .into_iter()
            .filter(|mark| lens.shows(mark.at))
            .map(|mark| {
                let numbered = mark.rank != Rank::Short && fits(&mark);
                Mark { numeral: numbered.then(|| number(&format!("{:.places$}", mark.at))), ..mark }
            })
            .collect();
        let numerals = shown.iter().filter_map(|mark| numeral(&lens, mark, bottom + 33.0));
        // The barrel begins at the zero mark, and the closer look shows it.
        let (left, right) = (lens.held(Volume::ZERO), ENDS.1);
        let plunger = lens.shows(self.plunger).then(|| {
            let edge = lens.x(self.plunger);
            let rod = f64::midpoint(top, bottom) - 8.0;
            view! {
                <rect class="rod" x=edge y=rod width=right - edge height="16" />
                {stopper(edge, 30.0, LENS_WALLS)}
            }
        });
        let aim = self.aim.map(|aim| {
            let room = (ENDS.0 + 48.0, ENDS.1 - 48.0);
            arrow(lens.held(aim), (top, bottom + 18.0), Some(self.words(aim)), 131.0, room)
        });
        view! {
            <clipPath id=clip.clone()>{frame("")}</clipPath>
            {frame("lens")}
            <g clip-path=format!("url(#{clip})")>
                <rect class="glass" x=left y=top width=right - left height=bottom - top />
                {self.liquid(&lens, defs, LENS_WALLS)}
                {plunger}
                <path class="outline" d=format!("M{right} {top}H{left}V{bottom}H{right}") />
                {scale(&lens, &shown, bottom, (8.0, 13.0, 18.0))}
                {numerals.collect_view()}
                {aim}
            </g>
            {frame("lens-rim")}
        }
    }
}

/// The outline of the closer look.
fn frame(class: &'static str) -> impl IntoView {
    view! {
        <rect
            class=class
            x=ENDS.0
            y=BOX.0
            width=ENDS.1 - ENDS.0
            height=BOX.1 - BOX.0
            rx="12"
        />
    }
}
