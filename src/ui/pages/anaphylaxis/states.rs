//! The screens of a reaction that goes on.

use super::dose::{DoseCard, Sources};
use super::log::Log;
use super::patient::OtherPatient;
use super::signs::Signs;
use super::{Sheet, Unnamed};
use crate::care::anaphylaxis::Act;
use crate::case::Role;
use crate::measure::Span;
use crate::phone::use_now;
use crate::ui::calling::Calls;
use crate::ui::page::Page;
use crate::ui::pages::language::Unreviewed;
use crate::ui::parts::{
    self, Banner, Clock, DangerButton, Foot, GoButton, Note, Pair, QuietButton, Screen, Title, Tone,
};
use crate::ui::words::{self, sheet as said};
use leptos::prelude::*;

/// The frame of this page: reference and back, no way to itself.
#[component]
pub fn Frame(sheet: Sheet, foot: Foot, children: Children) -> impl IntoView {
    let reference = Signal::derive(move || {
        let case = sheet.case()?;
        Some(case.reference.as_ref()?.as_str().to_owned())
    });
    view! {
        <Screen
            reference
            back=Callback::new(move |()| sheet.go.back())
            back_label=words::app::back()
            foot=Some(foot)
        >
            {children()}
        </Screen>
    }
}

/// Help and position: what goes beside adrenaline, each one line once done.
#[component]
fn Beside(sheet: Sheet) -> impl IntoView {
    let called = Memo::new(move |_| sheet.reaction().called());
    let lying = Memo::new(move |_| sheet.reaction().positioned());
    let todo = |open: bool, text: &str| open.then(|| text.to_owned());
    let done = move || {
        let called = called.get().map(|at| said::at(said::called(), at));
        let lying = lying.get().map(|at| said::at(said::positioned(), at));
        let parts: Vec<String> = called.into_iter().chain(lying).collect();
        (!parts.is_empty()).then(|| view! { <p class="hint">{parts.join(" · ")}</p> })
    };
    view! {
        <section>
            <Banner
                tone=Tone::Danger
                text=Signal::derive(move || todo(called.get().is_none(), said::call()))
                action=Signal::derive(|| Some(said::called().to_owned()))
                on_action=Callback::new(move |()| sheet.act(Act::Called))
            />
            <Calls
                roles=vec![Role::Emergency]
                on_call=Callback::new(move |_| {
                    // The first call counts; another one later is no other fact.
                    if called.get_untracked().is_none() {
                        sheet.act(Act::Called);
                    }
                })
            />
            <Banner
                text=Signal::derive(move || todo(lying.get().is_none(), said::position()))
                action=Signal::derive(|| Some(said::positioned().to_owned()))
                on_action=Callback::new(move |()| sheet.act(Act::Positioned))
            />
            {done}
        </section>
    }
}

/// Fluids: one tap, and its moment once done.
#[component]
fn Fluids(sheet: Sheet) -> impl IntoView {
    let fluids = Memo::new(move |_| sheet.reaction().fluids());
    move || match fluids.get() {
        Some(at) => view! { <p class="hint">{said::at(said::fluids(), at)}</p> }.into_any(),
        None => view! {
            <QuietButton on_press=move |()| {
                sheet.act(Act::Fluids);
            }>{said::fluids()}</QuietButton>
        }
        .into_any(),
    }
}

/// The way to what is read out to those who take over.
#[component]
pub fn ToHandOver(sheet: Sheet) -> impl IntoView {
    move || {
        sheet.case.get().map(|id| {
            view! {
                <QuietButton on_press=move |()| {
                    sheet.go.to(Page::HandOver(id));
                }>{words::handing::to_sheet()}</QuietButton>
            }
        })
    }
}

/// The button that says a dose is in.
#[component]
fn Given(sheet: Sheet) -> impl IntoView {
    let next = Memo::new(move |_| sheet.next());
    let number = move || sheet.reaction().doses().len() + 1;
    let press = Callback::new(move |()| {
        if let Some(volume) = next.get_untracked().volume {
            sheet.alarm.arm();
            sheet.alarm.silence();
            sheet.act(Act::Adrenaline(volume));
        }
    });
    let why_not = Signal::derive(move || next.read().why_not().map(str::to_owned));
    view! {
        <GoButton on_press=press why_not>
            {move || said::given(number(), next.read().volume)}
        </GoButton>
    }
}

/// No adrenaline yet.
#[component]
pub fn First(sheet: Sheet) -> impl IntoView {
    view! {
        <Frame sheet>
            <Title eyebrow=Some(said::title().to_owned()) arrive=true>
                {said::give()}
            </Title>
            <Unnamed sheet />
            <Beside sheet />
            <DoseCard sheet />
            <OtherPatient sheet />
            <Signs sheet />
            <Note tone=Tone::Caution>{said::suspect()}</Note>
            <Sources sheet />
            <Log sheet />
            <p class="follow">{words::app::follow()}</p>
            <Unreviewed />
            <Foot slot>
                <Given sheet />
            </Foot>
        </Frame>
    }
}

/// No better after the number of doses that makes it refractory.
#[component]
fn Refractory(sheet: Sheet) -> impl IntoView {
    let now = use_now();
    let shown = Memo::new(move |_| {
        let protocol = sheet.protocol();
        let reaction = sheet.reaction();
        reaction.refractory(now.get(), &protocol).then(|| {
            (
                said::refractory(u32::try_from(reaction.doses().len()).unwrap_or(u32::MAX)),
                said::refractory_act(&protocol),
            )
        })
    });
    move || {
        let (heading, act) = shown.get()?;
        Some(view! {
            <Note tone=Tone::Danger heading=Some(heading) alert=true>
                <p>{act}</p>
                <p>{said::refractory_more()}</p>
            </Note>
        })
    }
}

/// The time of the next dose runs.
#[component]
pub fn Waiting(sheet: Sheet) -> impl IntoView {
    let now = use_now();
    let left = Signal::derive(move || {
        let due = sheet.reaction().next_dose(&sheet.protocol()).unwrap_or_default();
        due.since(now.get()) + Span::millis(999)
    });
    let early = RwSignal::new(false);
    view! {
        <Frame sheet>
            <Title eyebrow=Signal::derive(move || Some(eyebrow(sheet))) arrive=true>
                {said::again_in()}
            </Title>
            <Clock span=left label=said::again_in() />
            <p>{said::stay()}</p>
            <Refractory sheet />
            <Beside sheet />
            <Fluids sheet />
            <ToHandOver sheet />
            <Log sheet />
            <Note>{said::asleep()}</Note>
            <Sources sheet />
            <Early sheet open=early />
            <Foot slot>
                // No large button here: the next thing is to wait, and a hand that bounces where
                // the dose was taken down must not stop its clock.
                // Beside what is recorded: a tap that bounced must not meet the sheet's own button.
                <QuietButton on_press=move |()| sheet.taps.once(|| early.set(true))>
                    {move || said::early(sheet.reaction().doses().len() + 1)}
                </QuietButton>
                <Pair>
                    <QuietButton on_press=move |()| {
                        sheet.act(Act::Better);
                    }>{said::better()}</QuietButton>
                    <QuietButton on_press=move |()| {
                        sheet.act(Act::NotBetter);
                    }>{said::not_better()}</QuietButton>
                </Pair>
            </Foot>
        </Frame>
    }
}

/// Which dose was given, and when.
fn eyebrow(sheet: Sheet) -> String {
    let reaction = sheet.reaction();
    let doses = reaction.doses();
    doses.last().map(|(at, _)| said::doses(doses.len(), *at)).unwrap_or_default()
}

/// A dose before its time: asked once, since a second tap is easily made.
#[component]
fn Early(sheet: Sheet, open: RwSignal<bool>) -> impl IntoView {
    let next = Memo::new(move |_| sheet.next());
    let number = move || sheet.reaction().doses().len() + 1;
    let press = Callback::new(move |()| {
        if let Some(volume) = next.get_untracked().volume {
            open.set(false);
            sheet.act(Act::Adrenaline(volume));
        }
    });
    let why_not = Signal::derive(move || next.read().why_not().map(str::to_owned));
    let known = Memo::new(move |_| next.read().volume.is_some());
    let confirm = move || said::early_confirm(number(), next.read().volume);
    view! {
        <parts::Sheet
            open
            on_close=Callback::new(move |()| open.set(false))
            heading=Signal::derive(move || said::early(number()))
            close_label=words::app::close()
            danger=true
        >
            <p>{move || said::early_why(sheet.protocol().adrenaline_repeat)}</p>
            <DoseCard sheet />
            <OtherPatient sheet />
            {move || {
                if known.get() {
                    view! { <DangerButton on_press=press>{confirm}</DangerButton> }.into_any()
                } else {
                    view! {
                        <GoButton on_press=press why_not>
                            {confirm}
                        </GoButton>
                    }
                        .into_any()
                }
            }}
        </parts::Sheet>
    }
}

/// Time for the next dose.
#[component]
pub fn Again(sheet: Sheet) -> impl IntoView {
    let now = use_now();
    let over = Signal::derive(move || {
        let due = sheet.reaction().next_dose(&sheet.protocol()).unwrap_or_default();
        now.get().since(due)
    });
    let alarm = sheet.alarm;
    view! {
        <Frame sheet>
            <Title eyebrow=Signal::derive(move || Some(eyebrow(sheet))) arrive=true>
                {said::again_now()}
            </Title>
            <div role="alert">
                <Clock
                    span=over
                    label=said::overdue()
                    overdue=true
                    overdue_word=Some(said::overdue().to_owned())
                    small=true
                />
            </div>
            {move || {
                alarm
                    .rings()
                    .then(|| {
                        view! {
                            <QuietButton on_press=move |()| {
                                alarm.silence();
                            }>{said::silence()}</QuietButton>
                        }
                    })
            }}
            <Refractory sheet />
            <DoseCard sheet />
            <OtherPatient sheet />
            <Beside sheet />
            <Fluids sheet />
            <ToHandOver sheet />
            <Log sheet />
            <Sources sheet />
            <Foot slot>
                <Given sheet />
                <Pair>
                    <QuietButton on_press=move |()| {
                        alarm.silence();
                        sheet.act(Act::Better);
                    }>{said::better()}</QuietButton>
                    <QuietButton on_press=move |()| {
                        alarm.silence();
                        sheet.act(Act::NotBetter);
                    }>{said::not_better()}</QuietButton>
                </Pair>
            </Foot>
        </Frame>
    }
}

/// Better since the last dose.
#[component]
pub fn Better(sheet: Sheet) -> impl IntoView {
    view! {
        <Frame sheet>
            <Title eyebrow=Signal::derive(move || Some(eyebrow(sheet)).filter(|text| !text.is_empty())) arrive=true>
                {said::is_better()}
            </Title>
            <Note tone=Tone::Caution>{said::better_why()}</Note>
            <p>{said::stay()}</p>
            <Beside sheet />
            <ToHandOver sheet />
            <Log sheet />
            <Foot slot>
                <GoButton on_press=move |()| sheet.act(Act::Over)>{said::over()}</GoButton>
                <QuietButton on_press=move |()| {
                    sheet.act(Act::NotBetter);
                }>{said::worse_again()}</QuietButton>
            </Foot>
        </Frame>
    }
}
