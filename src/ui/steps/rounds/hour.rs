//! Between a round and the next look: the clock, and what it cannot do.

mod calendar;
mod tallies;

use super::sheets::Handing;
use super::trend::RefillTrend;
use super::{AfterRound, Step5};
use crate::care::rounds::{Act, Phase, Round};
use crate::case::{Entry, Event, Step};
use crate::measure::{Moment, Span};
use crate::phone::wake::Wake;
use crate::phone::{clock, use_clock, use_now, zone};
use crate::ui::alarm::Alarm;
use crate::ui::app::use_go;
use crate::ui::habits::{ScreenChoice, use_habits};
use crate::ui::page::Page;
use crate::ui::parts::{
    Bar, Clock, Foot, GoButton, Icon, Note, Pair, QuietButton, Row, Rows, Sign, Title, Tone,
};
use crate::ui::steps::{BesidesRow, CaseScreen, use_here};
use crate::ui::tap::once_pressed;
use crate::ui::words::{self, hour, ringing, round_screens as said};
use calendar::NextLooks;
use leptos::prelude::*;
use tallies::Tallies;

/// When the look is due, and whether it is.
#[derive(Clone, Copy, PartialEq, Eq)]
struct Due {
    at: Moment,
    over: bool,
}

/// The hour between.
#[component]
pub fn Hour(step: Step5) -> impl IntoView {
    let here = use_here();
    let go = use_go();
    let now = use_now();
    let due = Memo::new(move |_| {
        let case = here.case();
        match case.treatment.phase(now.get(), &case.protocol) {
            Phase::Watching { due } => Some(Due { at: due, over: false }),
            Phase::Due { due } => Some(Due { at: due, over: true }),
            _ => None,
        }
    });
    let over = Signal::derive(move || due.get().is_some_and(|due| due.over));
    let at = move || due.get().map_or(Moment::default(), |due| due.at);
    // A second is shown until it is over, so that the clock says nought only when it is due.
    let left = Signal::derive(move || {
        let (now, due) = (now.get(), at());
        if over.get() { now.since(due) } else { due.since(now) + Span::millis(999) }
    });
    let part = Signal::derive(move || {
        let whole = here.case().protocol.round_interval;
        1.0 - share(at().since(now.get()), whole)
    });
    let round = here.now().treatment.rounds().len();
    let look = move |()| {
        step.taps.once(|| {
            // Neither is recorded, and both redraw the screen.
            once_pressed(move || {
                if step.looking.try_set(true).is_none() {
                    step.alarm.silence();
                }
            });
        });
    };
    let alarm = step.alarm;
    let warned = Memo::new(move |_| asleep(&alarm.wake()) || alarm.mute() || alarm.unarmed());
    let left_open = move || here.case().treatment.rounds().last().map_or(0, Round::open);
    // A rehearsal has a clock of its own and comes near neither the phone's calendar nor its alarm.
    let rehearsed = use_clock().rehearsed();
    view! {
        <CaseScreen
            step=Step::Rounds
            fraction=0.7
            back=Callback::new(move |()| go.to(Page::Home))
        >
            // Read at one glance from arm's length, without a scroll; everything else below.
            <div class="glance" class:due=move || over.get()>
                <Title eyebrow=Signal::derive(move || Some(hour::eyebrow(round, at()))) arrive=true>
                    {move || {
                        over.get().then(|| view! { <Sign icon=Icon::Urgent /> })
                    }} {move || if over.get() { said::look_due() } else { said::look_in() }}
                </Title>
                <Clock
                    span=left
                    label=said::to_look()
                    overdue=over
                    overdue_word=Signal::derive(|| Some(said::overdue().to_owned()))
                />
                {move || {
                    if over.get() {
                        view! {
                            <div class="glance-order">
                                <p role="alert">{said::due_alert()}</p>
                                <Silence alarm />
                            </div>
                        }
                            .into_any()
                    } else {
                        view! { <Bar fraction=part label=said::of_interval() /> }.into_any()
                    }
                }}
                <Tallies />
            </div>
            // What may go wrong stands before what is in order.
            {move || (warned.get() && !rehearsed).then(|| view! { <Wakeful step /> })}
            <ZoneMoved />
            {move || {
                let count = left_open();
                (count > 0)
                    .then(|| view! { <Note tone=Tone::Caution>{said::left_open(count)}</Note> })
            }}
            <AfterRound step take_back=said::not_done() />
            <RefillTrend />
            <BesidesRow />
            <Note>{said::meanwhile_source()}</Note>
            {move || (!warned.get() && !rehearsed).then(|| view! { <Wakeful step /> })}
            {(!rehearsed).then(|| view! { <ThisPhone due /> })}
            <Foot slot>
                <GoButton on_press=look>{words::rounds::look_now()}</GoButton>
                <Pair>
                    <QuietButton on_press=move |()| {
                        step.handing.set(Some(Handing::Any(None)));
                    }>{said::hand_over()}</QuietButton>
                    <QuietButton on_press=move |()| {
                        go.to(Page::Timeline(here.id));
                    }>{said::record()}</QuietButton>
                </Pair>
            </Foot>
        </CaseScreen>
    }
}

/// Ends the ringing of this case, while it rings.
#[component]
fn Silence(alarm: Alarm) -> impl IntoView {
    move || {
        alarm.rings().then(|| {
            view! { <QuietButton on_press=move |()| alarm.silence()>{said::silence()}</QuietButton> }
        })
    }
}

/// How much of `whole` a part is.
#[expect(clippy::cast_precision_loss, reason = "for drawing only")]
fn share(part: Span, whole: Span) -> f64 {
    part.as_millis() as f64 / (whole.as_millis().max(1)) as f64
}

/// That the hours shown moved since the round was over, by travel or by summer time.
#[component]
fn ZoneMoved() -> impl IntoView {
    let here = use_here();
    let now = use_now();
    let then = Memo::new(move |_| {
        let held = here.held();
        let mut entries = held.journal.entries().iter().rev();
        let over = |entry: &&Entry| {
            matches!(entry.event(), Event::Round(Act::Finish))
                && !held.case.struck.contains(&entry.id())
        };
        entries.find(over).map(|entry| entry.body().zone)
    });
    let moved = Memo::new(move |_| zone::moved(then.get()?, clock::zone(now.get())));
    move || moved.get().map(|moved| view! { <Note>{hour::moved(moved)}</Note> })
}

/// What the phone does until the look: its screen, its alarm, its calendar.
#[component]
fn ThisPhone(due: Memo<Option<Due>>) -> impl IntoView {
    let go = use_go();
    let set = use_habits();
    let tried = move || {
        Some(
            set.tried()
                .map_or_else(|| ringing::not_tried().to_owned(), |trial| ringing::tried(&trial)),
        )
    };
    view! {
        <section class="this-phone">
            <h2>{hour::phone()}</h2>
            <NextLooks due />
            <Rows>
                <Row
                    label=hour::ring()
                    detail=Signal::derive(tried)
                    on_press=move |()| go.to(Page::Ringing)
                />
            </Rows>
            <ScreenChoice />
        </section>
    }
}

/// Whether the phone will ring, said plainly.
#[component]
fn Wakeful(step: Step5) -> impl IntoView {
    let alarm = step.alarm;
    move || {
        let wake = alarm.wake();
        let tone = if asleep(&wake) { Tone::Caution } else { Tone::Plain };
        view! {
            <Note tone>
                {asleep(&wake).then(|| view! { <p>{said::no_wake()}</p> })}
                <p>{if wake == Wake::Held { said::awake() } else { said::asleep() }}</p>
                {alarm.mute().then(|| view! { <p>{said::mute()}</p> })}
                {alarm.unarmed().then(|| view! { <p>{said::unarmed()}</p> })}
            </Note>
        }
    }
}

/// Whether the phone refused to keep its screen on.
fn asleep(wake: &Wake) -> bool {
    matches!(wake, Wake::Absent | Wake::Refused(_))
}
