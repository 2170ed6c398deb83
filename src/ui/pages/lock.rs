//! The passcode of this phone: setting it, unlocking, changing it, taking it off.

use crate::phone::view::painted;
use crate::phone::{use_clock, use_now};
use crate::seal::LEAST;
use crate::store::gate::{self, GateError, Standing};
use crate::store::habits::Patience;
use crate::ui::app::{set_title, use_go};
use crate::ui::desk::{Desk, use_desk};
use crate::ui::habits::use_habits;
use crate::ui::page::Page;
use crate::ui::pages::Apart;
use crate::ui::parts::{
    DangerButton, Foot, GoButton, Item, Note, QuietButton, Segment, TextField, Tick, Title, Toast,
    Tone,
};
use crate::ui::words::lock as said;
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

/// What is typed and what came of it, shared by the forms of the page. Copied freely.
#[derive(Clone, Copy)]
struct Form {
    desk: Desk,
    old: RwSignal<String>,
    new: RwSignal<String>,
    again: RwSignal<String>,
    understood: RwSignal<bool>,
    working: RwSignal<bool>,
    wrong: RwSignal<Option<GateError>>,
    told: RwSignal<Option<String>>,
}

impl Form {
    fn new() -> Self {
        Self {
            desk: use_desk(),
            old: RwSignal::default(),
            new: RwSignal::default(),
            again: RwSignal::default(),
            understood: RwSignal::new(false),
            working: RwSignal::new(false),
            wrong: RwSignal::new(None),
            told: super::timeline::passing(),
        }
    }

    /// Does what was asked, and says what came of it. A passcode is slow to test: what says so is
    /// painted first.
    fn run<Done>(self, done: &'static str, act: impl FnOnce(String, String) -> Done + 'static)
    where
        Done: Future<Output = Result<(), GateError>>,
    {
        if self.working.get_untracked() {
            return;
        }
        self.working.set(true);
        self.wrong.set(None);
        let (old, new) = (self.old.get_untracked(), self.new.get_untracked());
        spawn_local(async move {
            painted().await;
            let came = act(old, new).await;
            self.working.try_set(false);
            for typed in [self.old, self.new, self.again] {
                typed.try_set(String::new());
            }
            match came {
                Ok(()) => drop(self.told.try_set(Some(done.to_owned()).filter(|t| !t.is_empty()))),
                Err(why) => drop(self.wrong.try_set(Some(why))),
            }
        });
    }

    /// Why a new passcode will not do.
    fn new_wrong(self) -> Option<&'static str> {
        if self.new.read().chars().count() < LEAST {
            Some(said::short())
        } else if *self.new.read() != *self.again.read() {
            Some(said::differs())
        } else {
            None
        }
    }
}

/// A passcode to be typed.
#[component]
fn Code(label: &'static str, value: RwSignal<String>) -> impl IntoView {
    view! {
        <TextField label value kind="password" on_input=Callback::new(move |typed| value.set(typed)) />
    }
}

/// What came of the last try, and what keeps from the next.
#[component]
fn Came(form: Form) -> impl IntoView {
    let now = use_now();
    let waiting = Memo::new(move |_| gate::wait(now.get()).map(said::wait));
    let told = move || {
        waiting.get().or_else(|| match form.wrong.get() {
            // Its time is over, or the line above says how much is left.
            None | Some(GateError::Wait(_)) => None,
            Some(why) => Some(said::error(&why)),
        })
    };
    view! {
        <div role="alert">
            {move || told().map(|text| view! { <Note tone=Tone::Danger>{text}</Note> })}
        </div>
    }
}

/// Unlocking, wherever what is asked for lies sealed.
#[component]
pub fn Unlock() -> impl IntoView {
    let form = Form::new();
    let clock = use_clock();
    let unlock = move || {
        form.run("", move |code, _| async move { form.desk.unlock(&code).await });
    };
    let why_not = move || {
        let wait = gate::wait(clock.now()).map(said::wait);
        let typed = !form.old.read().is_empty();
        wait.or_else(|| (!typed).then(String::new))
            .or_else(|| form.working.get().then(|| said::working().to_owned()))
    };
    view! {
        <form
            class="unlock"
            on:submit=move |event| {
                event.prevent_default();
                unlock();
            }
        >
            <Code label=said::code() value=form.old />
            <Came form />
            <QuietButton on_press=move |()| {
                if why_not().is_none() {
                    unlock();
                }
            }>
                {move || if form.working.get() { said::working() } else { said::unlock() }}
            </QuietButton>
        </form>
    }
}

/// In place of a case that lies sealed: the way to it, and the way without it.
#[component]
pub fn LockedCase() -> impl IntoView {
    let go = use_go();
    view! {
        <Apart>
            <Title arrive=true>{said::locked_case()}</Title>
            <Unlock />
            <Note>{said::begin_why()}</Note>
            <Foot slot>
                <GoButton on_press=move |()| go.instead(Page::Home)>{said::begin()}</GoButton>
            </Foot>
        </Apart>
    }
}

/// In place of a page that needs the records.
#[component]
pub fn LockedPage() -> impl IntoView {
    view! {
        <Apart>
            <Title arrive=true>{said::locked_page()}</Title>
            <p>{said::locked_why()}</p>
            <Unlock />
        </Apart>
    }
}

/// The page.
#[component]
pub fn LockPage() -> impl IntoView {
    set_title(said::title());
    let desk = use_desk();
    let form = Form::new();
    // Wrong and shut: another tab had set a passcode meanwhile.
    let wrong = move || {
        let why = form.wrong.get()?;
        Some(view! { <Note tone=Tone::Danger>{said::error(&why)}</Note> })
    };
    let content = move || match desk.standing() {
        Standing::Unset => view! { <Setting form /> }.into_any(),
        Standing::Shut => view! {
            {wrong}
            <p>{said::locked_why()}</p>
            <Unlock />
        }
        .into_any(),
        Standing::Open => view! { <Keeping form /> }.into_any(),
        Standing::Broken(why) => {
            view! { <Note tone=Tone::Danger>{said::broken(why)}</Note> }.into_any()
        }
    };
    view! {
        <Apart>
            <Title arrive=true>{said::title()}</Title>
            {content}
            <Toast text=form.told />
            <Foot slot>
                {move || match desk.standing() {
                    Standing::Unset => Some(view! { <SetButton form /> }.into_any()),
                    Standing::Open => {
                        Some(
                            view! {
                                <GoButton on_press=move |()| desk.lock()>{said::now()}</GoButton>
                            }
                                .into_any(),
                        )
                    }
                    Standing::Shut | Standing::Broken(_) => None,
                }}
            </Foot>
        </Apart>
    }
}

/// Before a passcode is set.
#[component]
fn Setting(form: Form) -> impl IntoView {
    let understood = form.understood;
    view! {
        <p>{said::why()}</p>
        <p>{said::free()}</p>
        <Note tone=Tone::Caution heading=Some(said::final_heading().to_owned())>{said::final_label()}</Note>
        <Code label=said::new() value=form.new />
        <p class="hint">{said::strength()}</p>
        <Code label=said::again() value=form.again />
        <Tick
            legend=said::final_heading()
            legend_hidden=true
            items=Signal::stored(vec![Item::new((), said::understood())])
            value=Signal::derive(move || if understood.get() { vec![()] } else { Vec::new() })
            on_change=move |((), ticked)| understood.set(ticked)
        />
        <Came form />
        <p class="hint">{said::traces()}</p>
    }
}

/// Sets the passcode once all of it is there.
#[component]
fn SetButton(form: Form) -> impl IntoView {
    let why_not = Signal::derive(move || {
        if form.working.get() {
            return Some(said::sealing().to_owned());
        }
        let ticked = form.understood.get();
        form.new_wrong().or((!ticked).then_some(said::tick_first())).map(str::to_owned)
    });
    let set = move |()| {
        form.run(said::set_done(), move |_, new| async move { form.desk.set_passcode(&new).await });
    };
    view! {
        <GoButton on_press=set why_not>
            {said::set()}
        </GoButton>
    }
}

/// What is being changed.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Doing {
    Changing,
    Clearing,
}

/// While it is set and unlocked.
#[component]
fn Keeping(form: Form) -> impl IntoView {
    let set = use_habits();
    let doing = RwSignal::new(None::<Doing>);
    let items = [Patience::Short, Patience::Usual, Patience::Long]
        .map(|patience| Item::new(patience, said::patience(patience)));
    let change = move |()| {
        form.run(said::changed(), move |old, new| async move {
            form.desk.change_passcode(&old, &new).await
        });
    };
    let clear = move |()| {
        form.run(
            said::cleared(),
            move |old, _| async move { form.desk.clear_passcode(&old).await },
        );
    };
    let changing = move || {
        let press = move |()| {
            if form.new_wrong().is_none() {
                change(());
            }
        };
        view! {
            <Code label=said::old() value=form.old />
            <Code label=said::new() value=form.new />
            <Code label=said::again() value=form.again />
            <p class="hint" role="status">
                {move || {
                    let typed = !form.new.read().is_empty();
                    form.new_wrong().filter(|_| typed).unwrap_or(said::strength())
                }}
            </p>
            <Came form />
            <QuietButton on_press=press>{said::change()}</QuietButton>
        }
    };
    let clearing = move || {
        view! {
            <p>{said::clear_why()}</p>
            <Code label=said::old() value=form.old />
            <Came form />
            <DangerButton on_press=clear>{said::clear()}</DangerButton>
        }
    };
    let start = move |what| {
        form.wrong.set(None);
        doing.set(Some(what));
    };
    view! {
        <p class="fact-state" role="status">
            {move || if form.working.get() { said::working() } else { said::open_state() }}
        </p>
        <Segment
            legend=said::after()
            items=Signal::stored(items.into())
            value=Signal::derive(move || Some(set.patience()))
            on_choose=move |patience| set.set_patience(patience)
        />
        {move || match doing.get() {
            Some(Doing::Changing) => view! { <section>{changing()}</section> }.into_any(),
            Some(Doing::Clearing) => view! { <section>{clearing()}</section> }.into_any(),
            None => {
                view! {
                    <QuietButton on_press=move |()| {
                        start(Doing::Changing);
                    }>{said::change()}</QuietButton>
                    <QuietButton on_press=move |()| {
                        start(Doing::Clearing);
                    }>{said::clear()}</QuietButton>
                }
                    .into_any()
            }
        }}
        <p class="hint">{said::final_label()}</p>
    }
}
