//! What this phone can do when something falls due, tried out.

use crate::measure::{Moment, Span};
use crate::phone::notice::{self, Permission};
use crate::phone::{badge, sound, use_clock, use_now, view, wake};
use crate::store::habits::{Noticed, Trial};
use crate::ui::alarm::{self, use_alarm};
use crate::ui::app::set_title;
use crate::ui::habits::{ScreenChoice, use_habits};
use crate::ui::pages::Apart;
use crate::ui::parts::{Clock, Foot, GoButton, Note, Pair, QuietButton, Title, Tone};
use crate::ui::words::ringing as said;
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

/// Time to lock the phone and lay it down. No clinical value.
const IN: Span = Span::seconds(10);

/// How far a test has come.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Stage {
    /// None runs.
    Idle,
    /// It is to ring.
    Counting { at: Moment },
    /// It rang, so much later than it was to.
    Rang { at: Moment, late: Span },
}

/// What this phone can do when something falls due, tried out.
#[component]
pub fn RingingPage() -> impl IntoView {
    set_title(said::page());
    let clock = use_clock();
    let now = use_now();
    alarm::prepare();
    let alarm = use_alarm();
    let set = use_habits();
    let stage = RwSignal::new(Stage::Idle);
    // Out of view at some time since the test began.
    let left = RwSignal::new(false);
    view::on_leaving(move || {
        left.try_set(true);
    });
    Effect::new(move |_| {
        let Stage::Counting { at } = stage.get() else { return };
        // The moment is a promise by the wall clock; what runs late says by how much.
        if now.get() >= at {
            alarm.ring_trial();
            stage.set(Stage::Rang { at, late: clock.now().since(at) });
        }
    });
    on_cleanup(move || alarm.end_trial());
    let start = move |()| {
        left.set(!view::in_view());
        alarm.end_trial();
        alarm.await_trial();
        stage.set(Stage::Counting { at: clock.now().after(IN) });
    };
    let stop = move |()| {
        alarm.end_trial();
        stage.set(Stage::Idle);
    };
    let answer = Callback::new(move |noticed| {
        if let Stage::Rang { at, late } = stage.get_untracked() {
            set.keep_trial(Trial { at, late, left: left.get_untracked(), noticed });
        }
        alarm.end_trial();
        stage.set(Stage::Idle);
    });
    // The moment ticks; the screen changes with the stage only.
    let shown = Memo::new(move |_| stage.get());
    let trial = move || match shown.get() {
        Stage::Idle => view! { <Before /> }.into_any(),
        Stage::Counting { at } => view! { <Counting at /> }.into_any(),
        Stage::Rang { late, .. } => view! { <After late left answer /> }.into_any(),
    };
    let foot = move || match shown.get() {
        Stage::Idle => view! { <GoButton on_press=start>{said::go(IN)}</GoButton> }.into_any(),
        Stage::Counting { .. } => {
            view! { <QuietButton on_press=stop>{said::stop_test()}</QuietButton> }.into_any()
        }
        Stage::Rang { .. } => ().into_any(),
    };
    view! {
        <Apart>
            <Title arrive=true>{said::page()}</Title>
            <Note tone=Tone::Caution>{said::honest()}</Note>
            <section class="trial">
                <h2>{said::test()}</h2>
                {trial}
            </section>
            <Facts stage />
            <ScreenChoice />
            <Foot slot>{foot}</Foot>
        </Apart>
    }
}

/// How to try it, and how it went the last time.
#[component]
fn Before() -> impl IntoView {
    let set = use_habits();
    let last = move || {
        set.tried().map_or_else(|| said::not_tried().to_owned(), |trial| said::tried(&trial))
    };
    view! {
        <p>{said::test_why()}</p>
        <p class="fact-state" role="status">
            {last}
        </p>
    }
}

/// Until it rings.
#[component]
fn Counting(at: Moment) -> impl IntoView {
    let now = use_now();
    // The second begun is shown until it is over.
    let left = Signal::derive(move || at.since(now.get()) + Span::millis(999));
    view! {
        <p role="status">{said::lock_now()}</p>
        <Clock span=left label=said::rings_in() />
    }
}

/// It rang: what the app knows of it, and what the user noticed.
#[component]
fn After(late: Span, left: RwSignal<bool>, answer: Callback<Noticed>) -> impl IntoView {
    let happened = said::happened(late, left.get_untracked(), late <= Trial::ON_TIME);
    let tone = if late <= Trial::ON_TIME { Tone::Plain } else { Tone::Caution };
    view! {
        <Note tone alert=true>{happened}</Note>
        <h3>{said::noticed()}</h3>
        <Pair>
            <QuietButton on_press=move |()| answer.run(Noticed::Heard)>{said::heard()}</QuietButton>
            <QuietButton on_press=move |()| answer.run(Noticed::Felt)>{said::felt()}</QuietButton>
        </Pair>
        <QuietButton on_press=move |()| answer.run(Noticed::Nothing)>{said::nothing()}</QuietButton>
    }
}

/// What the browser says that it can, found now.
#[component]
fn Facts(stage: RwSignal<Stage>) -> impl IntoView {
    let permission = RwSignal::new(notice::permission());
    let able = RwSignal::new(false);
    spawn_local(async move {
        able.try_set(notice::able().await);
    });
    // A tap that starts a test allows the sound.
    let ringing = Memo::new(move |_| {
        stage.track();
        sound::allowed()
    });
    let plain = |can: bool, yes: &'static str, no: &'static str| {
        Signal::stored(if can { (said::yes(), yes) } else { (said::no(), no) })
    };
    let facts = [
        (said::sound_label(), Signal::derive(move || said::sound(ringing.get()))),
        (said::buzz(), plain(sound::buzzes(), said::may_buzz(), said::no_buzz())),
        (
            said::notification_label(),
            Signal::derive(move || said::notification(permission.get(), able.get())),
        ),
        (said::wake(), plain(wake::able(), said::may_wake(), said::no_wake())),
        (said::badge(), plain(badge::able(), said::may_badge(), said::no_badge())),
        (said::calendar(), plain(true, said::calendar_why(), "")),
    ];
    let facts = facts.map(|(name, fact)| {
        view! {
            <div class="fact">
                <dt>{name}</dt>
                <dd class="fact-state">{move || fact.get().0}</dd>
                <dd class="fact-why">{move || fact.get().1}</dd>
            </div>
        }
    });
    let ask = move |()| {
        notice::ask(move |answer| {
            permission.try_set(answer);
        });
    };
    view! {
        <section class="trial">
            <h2>{said::can()}</h2>
            <dl class="facts">{facts}</dl>
            {move || {
                (permission.get() == Permission::NotAsked && able.get())
                    .then(|| view! { <QuietButton on_press=ask>{said::ask()}</QuietButton> })
            }}
            <p class="hint">{said::can_why()}</p>
        </section>
    }
}
