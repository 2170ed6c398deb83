//! The next reading: by the button, by the field, and the question about a doubtful one.

use super::timing::Asked;
use super::{Timing, Way};
use crate::care::refill::readings::{Doubt, Reading, Side};
use crate::measure::Span;
use crate::ui::parts::{Handling, Note, PressTimer, QuantityField, QuietButton, Tone};
use crate::ui::skin::{SimulatedSkin, SkinPatch};
use crate::ui::steps::use_here;
use crate::ui::words::app::situation as fields;
use crate::ui::words::{looking as said, typed};
use leptos::prelude::*;

/// What is to be done for the next reading.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Now {
    Answer(Asked),
    Press,
    Type,
    AllRead,
}

/// The next reading.
#[component]
pub fn Next(timing: Timing) -> impl IntoView {
    let now = Memo::new(move |_| match (timing.asked.get(), timing.next(), timing.way.get()) {
        (Some(asked), ..) => Now::Answer(asked),
        (None, None, _) => Now::AllRead,
        (None, Some(_), Way::Type) => Now::Type,
        (None, Some(_), Way::Hold | Way::Tap) => Now::Press,
    });
    move || match now.get() {
        Now::Answer(asked) => view! { <Question timing asked /> }.into_any(),
        Now::Press => view! { <Press timing /> }.into_any(),
        Now::Type => view! { <Type timing /> }.into_any(),
        Now::AllRead => view! { <p class="refill-all">{said::all_read()}</p> }.into_any(),
    }
}

/// The side that is next; the affected one where none is.
fn side(timing: Timing) -> Signal<Side> {
    Signal::derive(move || timing.next().unwrap_or(Side::Affected))
}

/// Which side is read, how often it was, and the way to the other.
#[component]
fn Turn(timing: Timing) -> impl IntoView {
    let turn = move || {
        let side = timing.next()?;
        let readings = timing.readings.read();
        let (taken, wanted) = (readings.of(side).len(), readings.wanted(side));
        Some(said::turn(side, taken + 1, taken + wanted))
    };
    view! { <h3 class="refill-turn">{turn}</h3> }
}

/// Reads the other side out of turn, where only it can be read.
#[component]
fn Instead(timing: Timing) -> impl IntoView {
    let instead = Memo::new(move |_| timing.instead());
    move || {
        instead.get().map(|side| {
            let words = match side {
                Side::Affected => said::read_affected(),
                Side::Opposite => said::read_other(),
            };
            view! { <QuietButton on_press=move |()| timing.turn(side)>{words}</QuietButton> }
        })
    }
}

/// By the button.
#[component]
fn Press(timing: Timing) -> impl IntoView {
    let here = use_here();
    let guide = Signal::derive(move || here.case().protocol.refill_press);
    let handling = Signal::derive(move || match timing.way.get() {
        Way::Tap => Handling::Taps,
        Way::Hold | Way::Type => Handling::Hold,
    });
    let how = move || match handling.get() {
        Handling::Hold => said::how_to_hold(guide.get()),
        Handling::Taps => said::how_to_tap(guide.get()),
    };
    let side = side(timing);
    view! {
        <div class="refill-read">
            <Turn timing />
            {use_context::<SimulatedSkin>()
                .map(|skin| view! { <SkinPatch skin side stage=timing.stage /> })}
            <PressTimer
                handling
                guide
                words=said::press()
                label=Signal::derive(move || said::side(side.get()).to_owned())
                stage=timing.stage
                on_timed=move |pressed| timing.timed(pressed)
                on_lost=move |lost| timing.lost.set(Some(lost))
            />
            {move || {
                timing
                    .lost
                    .get()
                    .map(|lost| {
                        view! {
                            <Note tone=Tone::Caution alert=true>
                                {said::lost(lost)}
                            </Note>
                        }
                    })
            }}
            <p class="hint">{how}</p>
            <Instead timing />
        </div>
    }
}

/// By the field.
#[component]
fn Type(timing: Timing) -> impl IntoView {
    let side = side(timing);
    let error = Signal::derive(move || typed::field::<Span>(&timing.typed.read()).err());
    view! {
        <div class="refill-read">
            <Turn timing />
            <QuantityField
                label=Signal::derive(move || said::side(side.get()).to_owned())
                value=timing.typed
                unit=Some(fields::seconds().to_owned())
                hint=Some(said::how_to_type().to_owned())
                error
                on_input=move |text| timing.typed.set(text)
            />
            // What cannot be read stays in the field, which says why.
            <QuietButton on_press=move |()| drop(timing.take_typed())>{said::take()}</QuietButton>
            <Instead timing />
        </div>
    }
}

/// Asks about a doubtful reading.
#[component]
fn Question(timing: Timing, asked: Asked) -> impl IntoView {
    let Asked { side, reading, doubt } = asked;
    let meant = match doubt {
        Doubt::Tenfold(meant) => Some(meant),
        Doubt::Quick | Doubt::Slow => None,
    };
    view! {
        <div class="refill-read">
            <Note tone=Tone::Caution alert=true>
                {said::doubt(side, reading, doubt)}
            </Note>
            {meant
                .map(|meant| {
                    view! {
                        <QuietButton on_press=move |()| {
                            timing.answer(Some(Reading::typed(meant)));
                        }>{said::meant(meant)}</QuietButton>
                    }
                })}
            <QuietButton on_press=move |()| {
                timing.answer(Some(reading));
            }>{said::as_read(reading)}</QuietButton>
            <QuietButton on_press=move |()| timing.answer(None)>{said::leave_out()}</QuietButton>
        </div>
    }
}
