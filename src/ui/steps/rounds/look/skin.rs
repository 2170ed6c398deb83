//! The skin: refill, colour, temperature, and a photo of it.

use super::LookWays;
use super::draft::{Draft, Part};
use crate::care::adjunct::spoils_reading;
use crate::care::refill::{Colour, Person};
use crate::care::rounds::Temperature;
use crate::case::Step;
use crate::phone::use_clock;
use crate::ui::parts::{
    Choice, Foot, GoButton, Item, Note, Pair, QuietButton, Segment, Sheet, Title, Tone,
};
use crate::ui::skin::SimulatedSkin;
use crate::ui::steps::refill::RefillTimer;
use crate::ui::steps::{CaseScreen, ConflictNote, use_here};
use crate::ui::tap::turn;
use crate::ui::words::{self, looking as said, round_screens, situation as words_of};
use leptos::html;
use leptos::prelude::*;

/// Refill, colour, temperature.
#[component]
pub fn Skin(ways: LookWays, draft: Draft) -> impl IntoView {
    let here = use_here();
    let leaving = RwSignal::new(false);
    let colour_place = NodeRef::<html::Div>::new();
    let person = Signal::derive(move || -> Person {
        here.case().findings.as_ref().map(|found| found.person).unwrap_or_default()
    });
    let timing = draft.timing;
    let why_not = Signal::derive(move || {
        let missing = || round_screens::colour_missing().to_owned();
        timing.why_not().or_else(|| draft.colour.get().is_none().then(missing))
    });
    let leave = move |()| {
        if draft.is_empty() {
            draft.drop_it();
            ways.leave.run(());
        } else {
            leaving.set(true);
        }
    };
    let untimed = Memo::new(move |_| timing.readings.read().is_empty());
    view! {
        <CaseScreen step=Step::Rounds fraction=0.8 rail=ways.rail back=Callback::new(leave)>
            <Title arrive=true>{round_screens::look_skin()}</Title>
            <Resumed draft />
            <div class="look-refill">
                <h2>{round_screens::refill_both()}</h2>
                <ConflictNote which=spoils_reading />
                {move || untimed.get().then(|| view! { <p class="hint">{round_screens::not_timed()}</p> })}
            <RefillTimer
                timing
                person
                colour=Signal::derive(move || draft.colour.get().unwrap_or(Colour::Normal))
            />
            </div>
            <div node_ref=colour_place>
                <Seen draft />
            </div>
            <PhotoOffer draft />
            <LeaveSheet ways draft leaving />
            <Foot slot>
                <GoButton
                    on_press=move |()| {
                        if timing.settle() {
                            turn(draft.part, Part::Patient);
                        }
                    }
                    why_not
                    on_refused=Callback::new(move |()| {
                        let answered = untrack(|| timing.why_not()).is_none();
                        if let Some(place) = colour_place.get_untracked().filter(|_| answered) {
                            place.scroll_into_view();
                        }
                    })
                >
                    {round_screens::on()}
                </GoButton>
            </Foot>
        </CaseScreen>
    }
}

/// Colour and temperature.
#[component]
fn Seen(draft: Draft) -> impl IntoView {
    let colours = words_of::COLOURS.map(|colour| Item::new(colour, words_of::colour(colour)));
    let felt = [Temperature::Warm, Temperature::Cool]
        .map(|felt| Item::new(felt, words_of::temperature(felt)));
    view! {
        <div class="look-seen">
            <Choice
                legend=round_screens::colour()
                items=colours.to_vec()
                value=draft.colour
                on_choose=move |colour| draft.colour.set(Some(colour))
            />
            <Segment
                legend=said::temperature()
                items=felt.to_vec()
                value=draft.temperature
                on_choose=move |felt| draft.temperature.set(Some(felt))
            />
        </div>
    }
}

/// Says that the look was begun earlier, and lets it be begun anew.
#[component]
fn Resumed(draft: Draft) -> impl IntoView {
    let clock = use_clock();
    move || {
        draft.resumed.get().map(|begun| {
            view! {
                <Note tone=Tone::Caution>
                    <p>{said::resumed(begun)}</p>
                    <QuietButton on_press=move |()| {
                        draft.begin_anew(clock.now());
                    }>{said::begin_anew()}</QuietButton>
                </Note>
            }
        })
    }
}

/// The way to the photo; none for a simulated patient.
#[component]
fn PhotoOffer(draft: Draft) -> impl IntoView {
    if use_context::<SimulatedSkin>().is_some() {
        return ().into_any();
    }
    let taken = Memo::new(move |_| draft.photo.get().is_some());
    view! {
        <div class="look-photo">
            {move || taken.get().then(|| view! { <Note>{said::photo_taken()}</Note> })}
            <QuietButton on_press=move |()| {
                turn(draft.part, Part::Photo);
            }>
                {move || if taken.get() { said::photo_again() } else { said::photo_take() }}
            </QuietButton>
        </div>
    }
    .into_any()
}

/// Asks before what was read is dropped.
#[component]
fn LeaveSheet(ways: LookWays, draft: Draft, leaving: RwSignal<bool>) -> impl IntoView {
    view! {
        <Sheet
            open=leaving
            on_close=Callback::new(move |()| leaving.set(false))
            heading=said::leave()
            close_label=words::app::close()
        >
            <p>{said::leave_why()}</p>
            <Pair>
                <QuietButton on_press=move |()| {
                    leaving.set(false);
                }>{said::go_on_looking()}</QuietButton>
                <QuietButton on_press=move |()| {
                    leaving.set(false);
                    draft.drop_it();
                    ways.leave.run(());
                }>{said::drop()}</QuietButton>
            </Pair>
        </Sheet>
    }
}
