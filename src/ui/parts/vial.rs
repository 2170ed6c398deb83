//! A vial, its liquid to scale of what it holds.

use super::fluid::{Fluid, patterns};
use super::scale::share;
use super::{MaybeText, Text, fresh_id};
use crate::measure::Volume;
use leptos::prelude::*;

/// Left and right wall of the body.
const BODY: (f64, f64) = (16.0, 96.0);
/// The full vial's level, and the floor.
const LEVELS: (f64, f64) = (60.0, 148.0);
/// Width of the vial alone, and with words beside it.
const WIDTHS: (u32, u32) = (112, 206);
/// Two lines of words stand at least this far apart.
const LINE: f64 = 22.0;

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
    let worded = move || level_words.with(Option::is_some) || rest_words.with(Option::is_some);
    let width = move || if worded() { WIDTHS.1 } else { WIDTHS.0 };
    view! {
        <figure class="drawing vial">
            <svg
                viewBox=move || format!("0 0 {} 156", width())
                role="img"
                aria-label=move || label.get()
            >
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
                                        d="M16 148V135q9-6 18-4 8-5 20-3 9-4 20 1 12-2 22 6V148z"
                                    />
                                    <path
                                        class="grains"
                                        d="M26 141h.1M35 137h.1M44 142h.1M52 135h.1M61 141h.1M70 136h.1M78 142h.1M87 139h.1"
                                    />
                                }
                            })
                    }}
                </g> <path class="outline" d=body /> <rect class="seal" x="26" y="8" width="60" height="22" rx="3" />
                <rect class="collar" x="30" y="30" width="52" height="6" />
                {move || {
                    let y = height(liquid.get());
                    level_words.get().map(|words| note(y, words, "vial-words"))
                }}
                {move || {
                    let y = height(rest.get()?);
                    let words_y = if level_words.with(Option::is_some) {
                        below(height(liquid.get()), y)
                    } else {
                        y
                    };
                    Some(
                        view! {
                            <path class="aim" d=format!("M{} {y}H{}", BODY.0 - 8.0, BODY.1 + 8.0) />
                            {rest_words.get().map(|words| note(words_y, words, "vial-words rest"))}
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

/// Where the words of a rest stand: at its level, but clear of the words at the level above.
fn below(level: f64, rest: f64) -> f64 {
    rest.max(level + LINE)
}

/// Words beside a level.
fn note(y: f64, words: String, class: &'static str) -> impl IntoView {
    view! {
        <text class=class x=BODY.1 + 14.0 y=y dy="0.36em">
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
        assert!(below(80.0, 84.0) - 80.0 >= LINE);
        assert!((below(80.0, 140.0) - 140.0).abs() < 1e-9);
        assert!((half - f64::midpoint(LEVELS.0, LEVELS.1)).abs() < 1e-9);
    }
}
