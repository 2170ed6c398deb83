//! What screens are built from: parts that show what they are given and report what was done.
//!
//! No part knows a rule, a clinical number or a word of its own: texts, also those that only a
//! screen reader says, are passed in. What changes comes as a [`Signal`]; a plain value, a string
//! literal or a closure is taken as well. Looks live in `style/`, one file per subject.
//!
//! | file | parts |
//! |---|---|
//! | `frame` | [`Screen`] with its [`TopBar`] and [`Foot`], [`Title`] |
//! | `actions` | [`GoButton`], [`QuietButton`], [`DangerButton`], [`Pair`] |
//! | `choices` | [`Choice`], [`Segment`], [`Tick`], [`Chips`] |
//! | `fields` | [`QuantityField`], [`TextField`], [`Stepper`] |
//! | `figures` | [`Figures`], [`Figure`], [`Amount`] |
//! | `notes` | [`Note`], [`Verdict`] |
//! | `why` | [`Why`] |
//! | `clock` | [`Clock`], [`Bar`] |
//! | `press` | [`PressTimer`] |
//! | `slider` | [`Slider`] |
//! | `syringe`, `vial` | [`SyringeDrawing`], [`VialDrawing`] |
//! | `grid` | [`GridDrawing`] |
//! | `face` | [`FaceLines`], [`ZoneShapes`] |
//! | `trend` | [`Trend`] |
//! | `sheet` | [`Sheet`], [`Banner`], [`Toast`] |
//! | `rows` | [`Timeline`], [`Rows`], [`Row`] |
//! | `call` | [`CallRow`] |
//! | `sign` | [`Sign`] |
//!
//! The geometry of the drawings is plain functions on numbers, tested without a browser:
//! `scale` (marks of a barrel), `lattice` (points of a grid), `chart` (readings over time).

mod actions;
mod calendar;
mod call;
mod chart;
mod choices;
mod clock;
mod face;
mod fields;
mod figures;
mod fluid;
mod frame;
#[cfg(debug_assertions)]
pub mod gallery;
pub(in crate::ui) mod grid;
mod lattice;
mod notes;
mod press;
mod rows;
mod scale;
mod sheet;
mod sign;
mod slider;
mod syringe;
mod trend;
mod vial;
mod why;

pub use actions::{DangerButton, GoButton, Pair, QuietButton};
pub use calendar::{CalendarWords, IntoCalendar};
pub use call::CallRow;
pub use chart::{Axis, Course, Reading, Shape};
pub use choices::{Chips, Choice, Item, Segment, Tick};
pub use clock::{Bar, Clock};
pub use face::{FaceLines, ZoneShapes, face_box};
pub use fields::{QuantityField, Stepper, TextField};
pub use figures::{Amount, Figure, Figures};
pub use fluid::{Fluid, Layer};
pub use frame::{Foot, Screen, StepMark, Title, TopBar};
pub use grid::{GridDrawing, PointKey, PointMark};
pub use notes::{Note, Outcome, Tone, Verdict};
pub use press::{Handling, PressLost, PressStage, PressTimer, PressWords, Pressed};
pub use rows::{Entry, Row, Rows, Timeline};
pub use sheet::{Banner, Sheet, Toast};
pub use sign::{Icon, Sign};
pub use slider::Slider;
pub use syringe::SyringeDrawing;
pub use trend::Trend;
pub use vial::VialDrawing;
pub use why::{Finding, Why};

use leptos::prelude::Signal;
use std::fmt::Write;
use std::sync::atomic::{AtomicUsize, Ordering};

/// A text that may change.
pub type Text = Signal<String>;
/// A text that may change and may be absent.
pub type MaybeText = Signal<Option<String>>;

/// The path through points, as SVG path data.
pub(in crate::ui) fn through(points: &[(f64, f64)]) -> String {
    let mut path = String::new();
    for (n, (x, y)) in points.iter().enumerate() {
        // Writing to a string cannot fail.
        let _ = write!(path, "{}{x:.1} {y:.1}", if n == 0 { 'M' } else { 'L' });
    }
    path
}

/// An id no other part on the page has, to tie a field to its words.
fn fresh_id(kind: &str) -> String {
    static NEXT: AtomicUsize = AtomicUsize::new(0);
    format!("{kind}-{}", NEXT.fetch_add(1, Ordering::Relaxed))
}
