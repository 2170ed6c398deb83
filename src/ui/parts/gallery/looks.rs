//! The refill timer with skin that is not there, and the strength of what is laid over.

use super::super::{Handling, PressStage, PressTimer, PressWords, Slider, Title};
use super::{frame, nothing};
use crate::care::refill::Colour;
use crate::care::refill::readings::Side;
use crate::measure::Span;
use crate::ui::skin::{SimulatedSkin, SkinPatch};
use leptos::prelude::*;

const WORDS: PressWords = PressWords {
    hold: "Hold to press",
    start: "Start pressing",
    pressing: "Keep pressing",
    let_go: "Let go",
    release: "Release",
    over: "Colour back",
    time: |span| format!("{} s", span.as_millis() / 100),
};

fn timer(side: Side, colour: Colour, handling: Handling) -> AnyView {
    let skin = SimulatedSkin {
        refill: Signal::stored((Span::millis(4_200), Span::millis(1_500))),
        colour: Signal::stored(colour),
    };
    let stage = RwSignal::new(PressStage::Ready);
    view! {
        <SkinPatch skin side=Signal::stored(side) stage />
        <PressTimer
            handling=Signal::stored(handling)
            guide=Signal::stored(Span::seconds(5))
            words=WORDS
            label="Affected side"
            stage
            on_timed=|_| ()
            on_lost=|_| ()
        />
    }
    .into_any()
}

pub(super) fn looks() -> AnyView {
    let strength = RwSignal::new(0.4);
    let content = view! {
        <Title>"What does the skin show?"</Title>
        {timer(Side::Opposite, Colour::Normal, Handling::Hold)}
        {timer(Side::Affected, Colour::Pale, Handling::Taps)}
        {timer(Side::Affected, Colour::Mottled, Handling::Taps)}
        {timer(Side::Affected, Colour::Blue, Handling::Taps)}
        {timer(Side::Affected, Colour::Black, Handling::Taps)}
        <Slider
            label="Earlier photo: faint to strong"
            value=strength
            on_change=move |value| strength.set(value)
        />
    };
    let foot =
        view! { <super::super::GoButton on_press=nothing()>"Go on"</super::super::GoButton> };
    frame(4, 0.8, content.into_any(), foot.into_any())
}
