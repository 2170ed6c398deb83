//! A file that is to be taken in, a record or a whole backup: what is in it is shown before anything
//! changes.
//!
//! | file | what it is |
//! |---|---|
//! | `sealed` | a backup, before its passphrase is there |
//! | `preview` | what is in it, and how that stands to what is here |

mod preview;
mod sealed;

use super::timeline::passing;
use crate::phone::file::{FileError, bytes};
use crate::phone::view::painted;
use crate::record::backup::{self, Backup, BackupError};
use crate::record::file::{self, Form};
use crate::record::lines::Unread;
use crate::record::merge::Merge;
use crate::seal::age;
use crate::store::Refusal;
use crate::ui::desk::{Desk, NotTaken, Progress, Taken, use_desk};
use crate::ui::parts::{Foot, GoButton, Note, QuietButton, Row, Rows, Screen, Title, Tone};
use crate::ui::words::{self, backup as told, records as said};
use leptos::html;
use leptos::prelude::*;
use preview::Preview;
use sealed::Sealed;
use std::sync::Arc;
use wasm_bindgen_futures::spawn_local;
use web_sys::File;

/// What is in a file that can be taken in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Content {
    /// The form of a record that is no backup.
    form: Option<Form>,
    file: Backup,
    /// How it stands to what is here.
    merge: Merge,
}

/// Why a file is not taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Unfit {
    /// It cannot be read at all.
    File(FileError),
    /// It is no record.
    Record(Unread),
    /// It is no backup.
    Backup(BackupError),
    /// It cannot be compared with what is here.
    Unknown(Refusal),
}

/// What was chosen.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Chosen {
    /// Nothing.
    None,
    /// A file that is being read.
    Reading,
    /// A backup, and whether a passphrase was wrong.
    Sealed(Arc<Vec<u8>>, bool),
    /// A backup that is being opened.
    Opening,
    /// One that is not taken.
    Unfit(Unfit),
    /// One that can be taken.
    Read(Arc<Content>),
    /// One that is being taken in.
    Taking(Progress),
    /// One of which a part was not.
    Partly(Taken),
}

/// A file on its way in. Copied freely.
#[derive(Clone, Copy)]
pub struct Incoming {
    chosen: RwSignal<Chosen>,
    /// What was just done.
    pub told: RwSignal<Option<String>>,
    desk: Desk,
}

impl Incoming {
    /// None yet.
    pub fn new() -> Self {
        Self { chosen: RwSignal::new(Chosen::None), told: passing(), desk: use_desk() }
    }

    /// Whether one is on its way, tracked.
    pub fn comes(self) -> bool {
        self.chosen.with(|chosen| *chosen != Chosen::None)
    }

    fn leave(self) {
        self.chosen.set(Chosen::None);
    }

    fn read(self, chosen: File) {
        self.chosen.set(Chosen::Reading);
        spawn_local(async move {
            let next = match bytes(chosen).await {
                Err(why) => Chosen::Unfit(Unfit::File(why)),
                // What it is, its content tells: a name may be lost on the way.
                Ok(bytes) if age::is_age(&bytes) => Chosen::Sealed(Arc::new(bytes), false),
                Ok(bytes) => match record(bytes) {
                    Err(why) => Chosen::Unfit(Unfit::Record(why)),
                    Ok((form, file)) => self.compared(Some(form), file).await,
                },
            };
            // The page may be gone by now.
            self.chosen.try_set(next);
        });
    }

    /// Opens a backup. Until that is done nothing else can be, so what says so is painted first.
    fn open(self, sealed: Arc<Vec<u8>>, passphrase: String) {
        self.chosen.set(Chosen::Opening);
        spawn_local(async move {
            painted().await;
            let next = match backup::read(&sealed, &passphrase) {
                Err(BackupError::Sealed(age::AgeError::Wrong)) => Chosen::Sealed(sealed, true),
                Err(why) => Chosen::Unfit(Unfit::Backup(why)),
                Ok(file) => {
                    // Its memory is wanted for what comes.
                    drop(sealed);
                    self.compared(None, file).await
                }
            };
            self.chosen.try_set(next);
        });
    }

    async fn compared(self, form: Option<Form>, file: Backup) -> Chosen {
        match self.desk.compare(&file).await {
            Err(why) => Chosen::Unfit(Unfit::Unknown(why)),
            Ok(merge) => Chosen::Read(Arc::new(Content { form, file, merge })),
        }
    }

    fn take(self, content: Arc<Content>) {
        self.chosen.set(Chosen::Reading);
        spawn_local(async move {
            let progress = |progress| drop(self.chosen.try_set(Chosen::Taking(progress)));
            let came = self.desk.take(&content.file, progress).await;
            let (next, words) = match came {
                Ok(taken) if taken.broke.is_some() => (Chosen::Partly(taken), None),
                Ok(taken) => (Chosen::None, Some(told::taken(&taken))),
                Err(NotTaken::OtherTab) => (Chosen::None, Some(said::other_tab().to_owned())),
                Err(NotTaken::Refused(why)) => (Chosen::None, Some(said::refused(&why))),
            };
            self.told.try_set(words);
            self.chosen.try_set(next);
        });
    }
}

/// A record that is no backup.
fn record(bytes: Vec<u8>) -> Result<(Form, Backup), Unread> {
    let text = String::from_utf8(bytes).map_err(|_| Unread::NotText)?;
    Ok((file::form(&text), Backup::from(file::read(&text)?)))
}

/// The way in: a row, and the phone's own choice of files behind it.
#[component]
pub fn Door(
    incoming: Incoming,
    /// What the row says.
    label: &'static str,
    /// And what of.
    detail: &'static str,
) -> impl IntoView {
    let input = NodeRef::<html::Input>::new();
    view! {
        <FileInput incoming input />
        <Rows>
            <Row label detail=Some(detail.to_owned()) on_press=move |()| press(input) />
        </Rows>
    }
}

/// The way in as the one thing to do.
#[component]
pub fn DoorButton(incoming: Incoming, label: &'static str) -> impl IntoView {
    let input = NodeRef::<html::Input>::new();
    view! {
        <FileInput incoming input />
        <GoButton on_press=move |()| press(input)>{label}</GoButton>
    }
}

fn press(input: NodeRef<html::Input>) {
    if let Some(input) = input.get_untracked() {
        input.click();
    }
}

/// Unseen: a button opens it.
#[component]
fn FileInput(incoming: Incoming, input: NodeRef<html::Input>) -> impl IntoView {
    let chosen = move |_| {
        let Some(input) = input.get_untracked() else { return };
        let file = input.files().and_then(|files| files.get(0));
        // So that the same file chosen again is told again.
        input.set_value("");
        if let Some(file) = file {
            incoming.read(file);
        }
    };
    // Not by kind: phones do not know what a file that came by mail is.
    view! {
        <input
            node_ref=input
            class="unseen"
            type="file"
            tabindex="-1"
            aria-hidden="true"
            on:change=chosen
        />
    }
}

/// What is in the file, and what can be done with it.
#[component]
pub fn Taking(incoming: Incoming) -> impl IntoView {
    move || match incoming.chosen.get() {
        Chosen::None => ().into_any(),
        Chosen::Reading => busy(said::reading().to_owned()),
        Chosen::Opening => busy(told::opening().to_owned()),
        Chosen::Taking(progress) => busy(told::progress(progress)),
        Chosen::Sealed(file, wrong) => view! { <Sealed incoming file wrong /> }.into_any(),
        Chosen::Unfit(why) => view! { <Refused incoming why=told::unfit(&why) /> }.into_any(),
        Chosen::Read(content) => view! { <Preview incoming content /> }.into_any(),
        Chosen::Partly(taken) => view! { <Partly incoming taken /> }.into_any(),
    }
}

fn busy(words: String) -> AnyView {
    view! {
        <Screen>
            <p class="quiet-line" role="status">
                {words}
            </p>
        </Screen>
    }
    .into_any()
}

/// A file that is not taken in, and why.
#[component]
fn Refused(incoming: Incoming, why: String) -> impl IntoView {
    let leave = move |()| incoming.leave();
    view! {
        <Screen back=Callback::new(leave) back_label=words::app::back()>
            <Title arrive=true>{said::not_taken()}</Title>
            <Note tone=Tone::Caution alert=true>
                <p>{why}</p>
                <p>{said::nothing_changed()}</p>
            </Note>
            <Foot slot>
                <DoorButton incoming label=said::other_file() />
                <QuietButton on_press=leave>{said::leave()}</QuietButton>
            </Foot>
        </Screen>
    }
}

/// A file of which a part was not taken in: what is in, why no more is, and that it can be gone on with.
#[component]
fn Partly(incoming: Incoming, taken: Taken) -> impl IntoView {
    let leave = move |()| incoming.leave();
    view! {
        <Screen back=Callback::new(leave) back_label=words::app::back()>
            <Title arrive=true>{told::partly()}</Title>
            <Note tone=Tone::Caution alert=true>
                <p>{told::taken(&taken)}</p>
                <p>{taken.broke.as_ref().map(told::broke)}</p>
            </Note>
            <p>{told::go_on_again()}</p>
            <Foot slot>
                <DoorButton incoming label=told::choose_again() />
                <QuietButton on_press=leave>{told::later()}</QuietButton>
            </Foot>
        </Screen>
    }
}
