//! What liquids look like: each has its own hatch, so that none is told by colour alone.

use crate::measure::Volume;
use leptos::prelude::*;

/// A liquid in a drawing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fluid {
    /// The strong solution from the vial.
    Stock,
    /// What thins it.
    Diluent,
    /// Both, mixed.
    Mixed,
    /// Any other medicine.
    Other,
}

impl Fluid {
    pub(super) const ALL: [Self; 4] = [Self::Stock, Self::Diluent, Self::Mixed, Self::Other];

    /// Its name among a drawing's patterns and in the style sheet.
    const fn name(self) -> &'static str {
        match self {
            Self::Stock => "stock",
            Self::Diluent => "diluent",
            Self::Mixed => "mixed",
            Self::Other => "other",
        }
    }

    /// The side of its repeated square and the strokes in it.
    const fn hatch(self) -> (u32, &'static str) {
        match self {
            Self::Stock => (6, "M-1 7 7-1M-1 1 1-1M5 7 7 5"),
            Self::Diluent => (12, "M1 3h5M7 9h5"),
            Self::Mixed => (10, "M-1 11 11-1M-1 1 1-1M9 11 11 9M1 2h3M6 8h3"),
            Self::Other => (9, "M2 2h.1M6.5 6.5h.1"),
        }
    }

    /// The fill that shows it, in a drawing with the patterns `defs`.
    pub(super) fn fill(self, defs: &str) -> String {
        format!("url(#{defs}-{})", self.name())
    }
}

/// Some of a liquid in a syringe.
#[derive(Clone, Debug, PartialEq)]
pub struct Layer {
    /// Which liquid.
    pub fluid: Fluid,
    /// How much of it.
    pub volume: Volume,
    /// Its words in the key under the drawing; without them it is not in the key.
    pub name: Option<String>,
}

impl Layer {
    /// Some of a liquid.
    pub const fn new(fluid: Fluid, volume: Volume) -> Self {
        Self { fluid, volume, name: None }
    }

    /// With words in the key.
    #[must_use]
    pub fn named(mut self, name: impl Into<String>) -> Self {
        self.name = Some(name.into());
        self
    }
}

/// The patterns of all liquids, for the drawing whose ids start with `defs`.
pub(super) fn patterns(defs: &str) -> impl IntoView + use<> {
    let pattern = |fluid: Fluid| {
        let (side, strokes) = fluid.hatch();
        view! {
            <pattern
                id=format!("{defs}-{}", fluid.name())
                class=format!("fluid {}", fluid.name())
                width=side
                height=side
                patternUnits="userSpaceOnUse"
            >
                <rect width=side height=side />
                <path d=strokes />
            </pattern>
        }
    };
    view! { <defs>{Fluid::ALL.map(pattern).collect_view()}</defs> }
}

/// The key under a drawing: a swatch and words for each named layer.
pub(super) fn key(layers: &[Layer], defs: &str) -> Option<impl IntoView + use<>> {
    let rows: Vec<_> = layers
        .iter()
        .filter_map(|layer| layer.name.clone().map(|name| (layer.fluid.fill(defs), name)))
        .map(|(fill, name)| {
            view! {
                <li>
                    <svg class="swatch" viewBox="0 0 28 18" aria-hidden="true">
                        <rect x="1" y="1" width="26" height="16" rx="3" fill=fill />
                    </svg>
                    <span>{name}</span>
                </li>
            }
        })
        .collect();
    (!rows.is_empty()).then(|| view! { <ul class="key">{rows}</ul> })
}
