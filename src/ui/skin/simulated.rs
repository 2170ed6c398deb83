//! Skin that is not there: in a rehearsal the refill timer is tried on a drawn patch of it.

use crate::care::refill::Colour;
use crate::care::refill::readings::Side;
use crate::measure::Span;
use crate::phone::clock;
use crate::ui::parts::PressStage;
use crate::ui::words::{looking as said, situation};
use leptos::prelude::*;
use std::time::Duration;

/// The skin of a simulated patient. Provided as context by a rehearsal.
#[derive(Clone, Copy)]
pub struct SimulatedSkin {
    /// How long the colour takes to come back: on the affected side, and on the other.
    pub refill: Signal<(Span, Span)>,
    /// Colour of the affected skin.
    pub colour: Signal<Colour>,
}

impl SimulatedSkin {
    /// How long a side takes.
    fn time(self, side: Side) -> Span {
        let (affected, opposite) = self.refill.get();
        match side {
            Side::Affected => affected,
            Side::Opposite => opposite,
        }
    }
}

/// How often the returning colour is drawn anew.
const TICK: Duration = Duration::from_millis(50);

/// A patch of simulated skin that blanches while pressed, and gets its colour back exactly when its
/// time has passed since it was let go. The hatch over the blanched place goes at that moment, so
/// that the colour need not be seen.
#[component]
pub fn SkinPatch(
    /// Whose skin.
    skin: SimulatedSkin,
    /// Which side is read.
    side: Signal<Side>,
    /// How the press stands.
    stage: RwSignal<PressStage>,
) -> impl IntoView {
    // How much of the colour is wanting where it was pressed: 1 to 0.
    let wanting = RwSignal::new(0.0);
    Effect::new(move |_| match stage.get() {
        PressStage::Ready => wanting.set(0.0),
        PressStage::Pressing { .. } => wanting.set(1.0),
        PressStage::Released { since, .. } => fade(wanting, since, skin.time(side.get_untracked())),
    });
    let blanched = Memo::new(move |_| wanting.get() > 0.0);
    let colour = move || match side.get() {
        Side::Affected => skin.colour.get(),
        Side::Opposite => Colour::Normal,
    };
    let label = move || said::patch(side.get(), colour(), blanched.get());
    view! {
        <figure class="patch">
            <svg viewBox="0 0 312 104" role="img" aria-label=label class=move || class(colour())>
                <defs>
                    <pattern
                        id="patch-net"
                        width="26"
                        height="26"
                        patternUnits="userSpaceOnUse"
                        patternTransform="rotate(24)"
                    >
                        <path class="patch-net" d="M0 13q6-9 13 0t13 0M13 0q9 6 0 13t0 13" />
                    </pattern>
                    <pattern
                        id="patch-hatch"
                        width="8"
                        height="8"
                        patternUnits="userSpaceOnUse"
                        patternTransform="rotate(45)"
                    >
                        <path class="patch-hatch" d="M4 0v8" />
                    </pattern>
                </defs>
                <rect class="patch-skin" width="312" height="104" rx="14" />
                <rect class="patch-pattern" width="312" height="104" rx="14" />
                <ellipse
                    class="patch-blanched"
                    cx="156"
                    cy="52"
                    rx="58"
                    ry="38"
                    opacity=move || format!("{:.2}", wanting.get())
                />
                {move || {
                    blanched
                        .get()
                        .then(|| {
                            view! {
                                <ellipse class="patch-hatched" cx="156" cy="52" rx="58" ry="38" />
                            }
                        })
                }}
            </svg>
            <figcaption class="hint">
                {move || match side.get() {
                    Side::Affected => format!(
                        "{}: {}",
                        said::side(Side::Affected),
                        situation::colour(colour()),
                    ),
                    Side::Opposite => said::side(Side::Opposite).to_owned(),
                }}
            </figcaption>
        </figure>
    }
}

const fn class(colour: Colour) -> &'static str {
    match colour {
        Colour::Normal => "patch-drawing",
        Colour::Pale => "patch-drawing pale",
        Colour::Mottled => "patch-drawing mottled",
        Colour::Blue => "patch-drawing blue",
        Colour::Black => "patch-drawing black",
    }
}

/// Lets the colour come back over `time` from `since` on, and be wholly back when it has passed.
fn fade(wanting: RwSignal<f64>, since: Span, time: Span) {
    let back = move || {
        let gone = clock::steady().saturating_sub(since);
        wanting.try_set(left(gone, time));
    };
    back();
    if let Ok(handle) = set_interval(back, TICK) {
        on_cleanup(move || handle.clear());
    }
    // The clock counts whole milliseconds: one later the last of them has passed.
    let end = Duration::from_millis(time.as_millis().saturating_add(1));
    if let Ok(handle) = set_timeout(back, end) {
        on_cleanup(move || handle.clear());
    }
}

/// How much of the colour is wanting after so long: nothing only when all the time has passed.
#[expect(clippy::cast_precision_loss, reason = "for drawing only")]
fn left(gone: Span, time: Span) -> f64 {
    if gone >= time { 0.0 } else { 1.0 - gone.as_millis() as f64 / time.as_millis().max(1) as f64 }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_colour_is_back_when_the_time_has_passed_and_not_before() {
        let time = Span::millis(4_200);
        assert!(left(Span::millis(4_199), time) > 0.0);
        assert!(left(time, time) <= 0.0);
        assert!(left(Span::ZERO, time) >= 1.0);
        assert!(left(Span::ZERO, Span::ZERO) <= 0.0);
    }
}
