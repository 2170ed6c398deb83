//! A vial, its liquid to scale of what it holds.

use super::fluid::{Fluid, patterns};
use super::scale::share;
use super::{MaybeText, Text, fresh_id};
use crate::measure::Volume;
use leptos::prelude::*;

/// Left and right wall of the body.
const BODY: (f64, f64) = (98.0, 178.0);
/// The full vial's level, and the floor.
const LEVELS: (f64, f64) = (60.0, 148.0);

/// A vial with powder or liquid in it.
#[component]
pub fn VialDrawing(
    /// What it holds.
    #[prop(into)]
    capacity: Signal<Volume>,
    /// How much liquid is in it.
    #[prop(optional, into)]
    liquid: Signal<Volume>,
    /// Which liquid.
    #[prop(default = Fluid::Stock.into(), into)]
    fluid: Signal<Fluid>,
    /// Whether there is powder on its floor.
    #[prop(optional, into)]
    powder: Signal<bool>,
    /// How much is left once the draw is made: a broken line.
    #[prop(optional, into)]
    rest: Signal<Option<Volume>>,
    /// Words at the liquid's level.
    #[prop(optional, into)]
    level_words: MaybeText,
    /// Words at the level of the rest.
    #[prop(optional, into)]
    rest_words: MaybeText,
    /// The whole drawing in words.
    #[prop(into)]
    label: Text,
) -> impl IntoView {
    let defs = fresh_id("vial");
    let fluid_defs = defs.clone();
    let height = move |volume| level(share(volume, capacity.get()));
    let body = format!(
        "M{0} {2}q0-10 14-16V34h52v10q14 6 14 16V140q0 8-8 8H{1}q-8 0-8-8z",
        BODY.0,
        BODY.0 + 8.0,
        LEVELS.0,
    );
    let clip = format!("{defs}-body");
    view! {
        <figure class="drawing vial">
            <svg viewBox="0 0 276 156" role="img" aria-label=move || label.get()>
                {patterns(&defs)} <clipPath id=clip.clone()>
                    <path d=body.clone() />
                </clipPath> <path class="glass" d=body.clone() />
                <g clip-path=format!("url(#{clip})")>
                    {move || {
                        let top = height(liquid.get());
                        let fill = fluid.get().fill(&fluid_defs);
                        (!liquid.get().is_zero())
                            .then(|| {
                                view! {
                                    <rect
                                        x=BODY.0
                                        y=top
                                        width=BODY.1 - BODY.0
                                        height=LEVELS.1 - top
                                        fill=fill
                                    />
                                    <path class="surface" d=format!("M{} {top}H{}", BODY.0, BODY.1) />
                                }
                            })
                    }}
                    {move || {
                        powder
                            .get()
                            .then(|| {
                                view! {
                                    <path
                                        class="powder"
                                        d="M98 148V135q9-6 18-4 8-5 20-3 9-4 20 1 12-2 22 6V148z"
                                    />
                                    <path
                                        class="grains"
                                        d="M108 141h.1M117 137h.1M126 142h.1M134 135h.1M143 141h.1M152 136h.1M160 142h.1M169 139h.1"
                                    />
                                }
                            })
                    }}
                </g> <path class="outline" d=body /> <rect class="seal" x="108" y="8" width="60" height="22" rx="3" />
                <rect class="collar" x="112" y="30" width="52" height="6" />
                {move || {
                    let y = height(liquid.get());
                    level_words.get().map(|words| note(y, words, "level"))
                }}
                {move || {
                    let rest = rest.get()?;
                    let y = height(rest);
                    Some(
                        view! {
                            <path class="aim" d=format!("M{} {y}H{}", BODY.0 - 8.0, BODY.1 + 8.0) />
                            {rest_words.get().map(|words| note(y, words, "rest"))}
                        },
                    )
                }}
            </svg>
        </figure>
    }
}

/// The height of the surface when that share of the vial is full.
fn level(share: f64) -> f64 {
    LEVELS.1 - (LEVELS.1 - LEVELS.0) * share
}

/// Words beside a level: the liquid's at the right, the rest's at the left, so that close levels
/// do not write over each other.
fn note(y: f64, words: String, which: &'static str) -> impl IntoView {
    let x = if which == "rest" { BODY.0 - 14.0 } else { BODY.1 + 14.0 };
    view! {
        <text class=format!("vial-words {which}") x=x y=(y + 5.0).clamp(14.0, 150.0)>
            {words}
        </text>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_level_follows_the_share() {
        assert!((level(0.0) - LEVELS.1).abs() < 1e-9);
        assert!((level(1.0) - LEVELS.0).abs() < 1e-9);
        let half = level(share(Volume::ml(1), Volume::ml(2)));
        assert!((half - f64::midpoint(LEVELS.0, LEVELS.1)).abs() < 1e-9);
    }
}
