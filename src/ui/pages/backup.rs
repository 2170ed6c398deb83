//! Everything in one sealed file: made here, and taken in on another phone.
//!
//! | file | what it is |
//! |---|---|
//! | `making` | gathers and seals |
//! | `made` | a backup that is ready: what is in it, and handing it out |

mod made;
mod making;

use super::taking::{Door, DoorButton, Incoming, Taking};
use crate::measure::Moment;
use crate::phone::view::painted;
use crate::phone::{use_clock, use_now};
use crate::seal::age::LEAST;
use crate::store::habits::Backing;
use crate::ui::app::set_title;
use crate::ui::desk::{Desk, use_desk};
use crate::ui::habits::use_habits;
use crate::ui::pages::Apart;
use crate::ui::parts::{Foot, GoButton, Note, TextField, Title, Toast, Tone};
use crate::ui::words::backup as said;
use leptos::prelude::*;
use made::Ready;
use making::make;
pub use making::{Made, NotMade};
use std::sync::Arc;
use wasm_bindgen_futures::spawn_local;

/// How far a backup is.
#[derive(Clone, Debug)]
enum Stage {
    /// Its passphrase is asked for.
    Asking,
    /// The passphrase is being made dear to guess.
    Sealing,
    /// So many photos of so many are in.
    Photos(usize, usize),
    /// It is ready.
    Made(Arc<Made>),
}

/// What is typed and what came of it. Copied freely.
#[derive(Clone, Copy)]
struct Form {
    desk: Desk,
    phrase: RwSignal<String>,
    again: RwSignal<String>,
    stage: RwSignal<Stage>,
    wrong: RwSignal<Option<NotMade>>,
}

impl Form {
    /// Why the passphrase will not do.
    fn phrase_wrong(self) -> Option<String> {
        if self.phrase.read().chars().count() < LEAST {
            Some(said::short())
        } else if *self.phrase.read() != *self.again.read() {
            Some(said::differs().to_owned())
        } else {
            None
        }
    }

    /// Makes it. The passphrase is slow to turn into a key: what says so is painted first.
    fn make(self, now: Moment) {
        self.stage.set(Stage::Sealing);
        self.wrong.set(None);
        let phrase = self.phrase.get_untracked();
        spawn_local(async move {
            painted().await;
            let told = |done, of| drop(self.stage.try_set(Stage::Photos(done, of)));
            let stage = match make(self.desk, &phrase, now, told).await {
                Ok(made) => {
                    for typed in [self.phrase, self.again] {
                        typed.try_set(String::new());
                    }
                    Stage::Made(Arc::new(made))
                }
                Err(why) => {
                    self.wrong.try_set(Some(why));
                    Stage::Asking
                }
            };
            self.stage.try_set(stage);
        });
    }
}

/// The page.
#[component]
pub fn BackupPage() -> impl IntoView {
    set_title(said::title());
    let desk = use_desk();
    let incoming = Incoming::new();
    let form = Form {
        desk,
        phrase: RwSignal::default(),
        again: RwSignal::default(),
        stage: RwSignal::new(Stage::Asking),
        wrong: RwSignal::new(None),
    };
    // On a new phone there is nothing to save, and one thing to do.
    let empty = Memo::new(move |_| desk.last_entry().is_none());
    move || {
        if incoming.comes() {
            return view! { <Taking incoming /> }.into_any();
        }
        let shown = form.stage.get();
        if let Stage::Made(made) = shown {
            return view! { <Ready made done=move |()| form.stage.set(Stage::Asking) /> }
                .into_any();
        }
        let working = match shown {
            Stage::Sealing => Some(said::sealing().to_owned()),
            Stage::Photos(done, of) => Some(said::photos_in(done, of)),
            Stage::Asking | Stage::Made(_) => None,
        };
        match (working, empty.get()) {
            (Some(words), _) => view! { <Working words /> }.into_any(),
            (None, true) => view! { <Empty incoming /> }.into_any(),
            (None, false) => view! { <Asking form incoming /> }.into_any(),
        }
    }
}

/// While it is being made.
#[component]
fn Working(words: String) -> impl IntoView {
    view! {
        <Apart>
            <Title>{said::title()}</Title>
            <p class="quiet-line" role="status">
                {words}
            </p>
        </Apart>
    }
}

/// On a phone that keeps nothing yet.
#[component]
fn Empty(incoming: Incoming) -> impl IntoView {
    view! {
        <Apart>
            <Title arrive=true>{said::title()}</Title>
            <p>{said::empty()}</p>
            <p>{said::restore_why()}</p>
            <p class="hint">{said::once_more()}</p>
            <Toast text=incoming.told />
            <Foot slot>
                <DoorButton incoming label=said::restore_from() />
            </Foot>
        </Apart>
    }
}

/// Before it is made.
#[component]
fn Asking(form: Form, incoming: Incoming) -> impl IntoView {
    let clock = use_clock();
    let state = use_state();
    let why_not = Signal::derive(move || form.phrase_wrong());
    let typed = |value: RwSignal<String>| Callback::new(move |text| value.set(text));
    view! {
        <Apart>
            <Title arrive=true>{said::title()}</Title>
            <p class="fact-state" role="status">
                {move || state.get()}
            </p>
            <p>{said::why()}</p>
            <TextField
                label=said::passphrase()
                value=form.phrase
                kind="password"
                hint=Some(said::good())
                on_input=typed(form.phrase)
            />
            <TextField
                label=said::again()
                value=form.again
                kind="password"
                on_input=typed(form.again)
            />
            <Note tone=Tone::Caution heading=Some(said::final_heading().to_owned())>
                {said::final_label()}
            </Note>
            <div role="alert">
                {move || {
                    let why = form.wrong.get()?;
                    Some(view! { <Note tone=Tone::Danger>{said::not_made(&why)}</Note> })
                }}
            </div>
            <section>
                <h2>{said::restore()}</h2>
                <Door incoming label=said::restore_from() detail=said::restore_why() />
            </section>
            <Toast text=incoming.told />
            <Foot slot>
                <GoButton on_press=move |()| form.make(clock.now()) why_not>
                    {said::make()}
                </GoButton>
            </Foot>
        </Apart>
    }
}

/// When the last backup was made, as it stands to what was recorded since; none while there is nothing
/// to save, or while nobody may know.
pub fn use_state() -> Memo<Option<String>> {
    let (desk, set, now) = (use_desk(), use_habits(), use_now());
    Memo::new(move |_| {
        if !desk.ready() || desk.locked() {
            return None;
        }
        let last = desk.last_entry()?;
        Some(said::state(Backing::of(set.backed(), Some(last), now.get())))
    })
}
