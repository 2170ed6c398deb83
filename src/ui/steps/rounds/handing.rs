//! The sheet for handing over: what was noticed is recorded at the tap that says so, then what to do
//! first, whom to call, what to read out; and at last that the patient is in other hands.

use super::{Step5, strike};
use crate::care::rounds::{Act, End, HandOver};
use crate::care::situation::RedFlag;
use crate::case::{Event, Role};
use crate::measure::{Hash, Moment};
use crate::phone::use_now;
use crate::ui::app::use_go;
use crate::ui::calling::Calls;
use crate::ui::page::Page;
use crate::ui::pages::handover::because;
use crate::ui::parts::{
    Choice, DangerButton, GoButton, Icon, Item, Note, QuietButton, Sheet, Sign, TextField, Tone,
};
use crate::ui::steps::{Here, use_here};
use crate::ui::words::{
    self, contacts, handing as told, round_screens as said, rounds as words_of, situation,
};
use leptos::html;
use leptos::prelude::*;

/// How handing over is asked about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Handing {
    /// Only for the signs that go before everything.
    Flags,
    /// For any reason; one may be proposed.
    Any(Option<HandOver>),
}

const FLAGS: [RedFlag; 3] = [RedFlag::Sight, RedFlag::Stroke, RedFlag::Airway];

/// The sign that a reason is, if it is one.
fn sign(reason: HandOver) -> Option<RedFlag> {
    FLAGS.into_iter().find(|flag| HandOver::of(*flag) == reason)
}

/// Asks why and to do what first; then ends the treatment and closes the case.
#[component]
pub fn HandOverSheet(step: Step5) -> impl IntoView {
    let handing = step.handing;
    let heading = move || match handing.get() {
        Some(Handing::Flags) => said::any_of_these().to_owned(),
        _ => said::hand_over_to().to_owned(),
    };
    view! {
        <Sheet
            open=Signal::derive(move || handing.get().is_some())
            on_close=Callback::new(move |()| handing.set(None))
            heading=Signal::derive(heading)
            close_label=words::app::close()
            danger=true
        >
            <HandOverForm step />
        </Sheet>
    }
}

/// The sheet's content; it exists only while the sheet is open, and starts anew each time.
#[component]
fn HandOverForm(step: Step5) -> impl IntoView {
    let here = use_here();
    let asked = step.handing.get_untracked();
    let chosen = RwSignal::new(match asked {
        Some(Handing::Any(reason)) => reason,
        // What stands is still so: what to do about it is in sight at once.
        _ => here.now().flags.first().map(|flag| HandOver::of(*flag)),
    });
    let note = RwSignal::new(String::new());
    let flags_alone = asked == Some(Handing::Flags);
    let others = (!flags_alone).then(|| {
        words_of::HAND_OVERS
            .into_iter()
            .filter(|reason| sign(*reason).is_none())
            .map(|reason| Item::new(reason, words_of::hand_over(reason)))
            .collect::<Vec<Item<HandOver>>>()
    });
    let act = move || chosen.get().and_then(sign).map(situation::red_flag_act);
    let other = Memo::new(move |_| chosen.get() == Some(HandOver::Other));
    view! {
        <div class="noted" role="group" aria-label=said::hand_over_why()>
            {FLAGS
                .map(|flag| {
                    let words = if flags_alone {
                        situation::red_flag(flag)
                    } else {
                        words_of::hand_over(HandOver::of(flag))
                    };
                    view! { <SignButton step flag words chosen /> }
                })
                .into_iter()
                .collect_view()}
        </div>
        {others
            .map(|items| {
                view! {
                    <Choice
                        legend=said::hand_over_why()
                        legend_hidden=true
                        items
                        value=chosen
                        on_choose=move |reason| chosen.set(Some(reason))
                    />
                }
            })}
        // The call before all words about it.
        <Reached step chosen />
        {move || act().map(|act| view! { <Note tone=Tone::Danger alert=true>{act}</Note> })}
        {move || {
            other
                .get()
                .then(|| {
                    view! {
                        <TextField
                            label=said::note()
                            value=note
                            on_input=move |text| note.set(text)
                            long=true
                        />
                    }
                })
        }}
        <Closing step chosen note />
        <Noted step />
        <QuietButton on_press=move |()| step.handing.set(None)>{said::go_on_meanwhile()}</QuietButton>
    }
}

/// One of the signs that go before everything. A button and not one of several to choose from: those
/// change under the arrow keys, and who only passes by has noticed nothing.
#[component]
fn SignButton(
    step: Step5,
    flag: RedFlag,
    words: &'static str,
    chosen: RwSignal<Option<HandOver>>,
) -> impl IntoView {
    let here = use_here();
    let reason = HandOver::of(flag);
    let pressed = move || chosen.get() == Some(reason);
    let icon = move || if pressed() { Icon::Done } else { Icon::Warning };
    view! {
        <button
            type="button"
            class="button danger"
            aria-pressed=move || if pressed() { "true" } else { "false" }
            on:click=move |_| {
                // What comes up below moves the screen: a tap that bounces must not take it back.
                step.taps.once(|| ());
                chosen.set(Some(reason));
                notice(here, flag);
            }
        >
            {move || view! { <Sign icon=icon() /> }}
            <span>{words}</span>
        </button>
    }
}

/// Records a sign at the tap that names it, unless it stands already: its moment counts.
fn notice(here: Here, flag: RedFlag) {
    if !here.now().flags.contains(&flag) {
        here.record(Event::Noticed(flag));
    }
}

/// What was noted on the way, each with its moment and the way to take it back.
#[component]
fn Noted(step: Step5) -> impl IntoView {
    let here = use_here();
    let now = use_now();
    let noted = Memo::new(move |_| -> Vec<(RedFlag, Hash, Moment)> {
        let held = here.held();
        let of = |flag| {
            let (entry, at) = held.case.noticing(&held.journal, flag)?;
            Some((flag, entry, at))
        };
        FLAGS.into_iter().filter_map(of).collect()
    });
    let line = move |(flag, entry, at): (RedFlag, Hash, Moment)| {
        let at = told::noted(at, now.get_untracked());
        view! {
            <p>{situation::red_flag(flag)} ". " {at} "."</p>
            <QuietButton
                label=Some(told::mistaken(flag))
                on_press=move |()| step.taps.once(|| strike(here, entry))
            >
                {told::mistake()}
            </QuietButton>
        }
    };
    move || {
        let noted = noted.get();
        (!noted.is_empty()).then(
            || view! { <div class="noted">{noted.into_iter().map(line).collect_view()}</div> },
        )
    }
}

/// Whom to call, and what to read out to them.
#[component]
fn Reached(step: Step5, chosen: RwSignal<Option<HandOver>>) -> impl IntoView {
    let here = use_here();
    let go = use_go();
    let now = use_now();
    let roles = Memo::new(move |_| {
        let reason = chosen.get()?;
        let held = here.held();
        let sheet = held.case.handover(&held.journal, Some(reason), now.get_untracked());
        Some(Role::asked(&sheet.recommendation))
    });
    let call = Callback::new(move |contact| {
        here.record(Event::Note(contacts::begun(&contact)));
    });
    let read = move |()| {
        if let Some(reason) = chosen.get_untracked() {
            because(here.id, reason);
        }
        step.handing.set(None);
        go.to(Page::HandOver(here.id));
    };
    let place = NodeRef::<html::Div>::new();
    Effect::new(move |before: Option<Option<HandOver>>| {
        let now = chosen.get();
        if before.is_some_and(|before| before != now) {
            // On a small phone what has just come up lies below what was tapped.
            let _ = request_animation_frame(move || {
                if let Some(place) = place.try_get_untracked().flatten() {
                    place.scroll_into_view_with_bool(false);
                }
            });
        }
        now
    });
    view! {
        <div class="reached" node_ref=place>
            <Calls roles=Signal::derive(move || roles.get().unwrap_or_default()) on_call=call />
            {move || {
                chosen
                    .get()
                    .is_some()
                    .then(|| view! { <QuietButton on_press=read>{told::to_sheet()}</QuietButton> })
            }}
        </div>
    }
}

/// Ends the treatment and closes the case.
#[component]
fn Closing(
    step: Step5,
    chosen: RwSignal<Option<HandOver>>,
    note: RwSignal<String>,
) -> impl IntoView {
    let here = use_here();
    let why_not = Signal::derive(move || match chosen.get() {
        None => Some(said::why_missing().to_owned()),
        Some(HandOver::Other) if note.read().trim().is_empty() => {
            Some(words::app::reason_wanted().to_owned())
        }
        Some(_) => None,
    });
    let close = Callback::new(move |()| {
        let Some(reason) = chosen.get_untracked() else { return };
        let end = End::HandedOver(reason);
        let text = note.get_untracked().trim().to_owned();
        step.alarm.silence();
        step.handing.set(None);
        if !text.is_empty() {
            here.record(Event::Note(text));
        }
        // Handed over later, the treatment ended as it did.
        if here.now().treatment.end().is_none() {
            here.record(Event::Round(Act::End(end)));
        }
        here.record(Event::Closed(end));
    });
    move || {
        if chosen.get() == Some(HandOver::Reaction) {
            // The sheet comes first; handing over is taken down when there is a hand free.
            view! {
                <GoButton on_press=move |()| here.to_sheet()>{said::to_sheet()}</GoButton>
                <DangerButton on_press=close>{said::handed_over()}</DangerButton>
            }
            .into_any()
        } else {
            view! {
                <GoButton on_press=close why_not>
                    {said::handed_over()}
                </GoButton>
            }
            .into_any()
        }
    }
}
