//! A file that is to be taken in: what is in it is shown before anything changes.

use crate::case::{Case, Headline, Journal};
use crate::measure::order;
use crate::phone::file::text;
use crate::record::file::{self, Form};
use crate::record::lines::{Standing, Unread};
use crate::store::Refusal;
use crate::ui::desk::{Desk, NotTaken};
use crate::ui::parts::{Foot, GoButton, Note, QuietButton, Row, Rows, Screen, Title, Tone};
use crate::ui::words::{self, records as said};
use leptos::html;
use leptos::prelude::*;
use std::sync::Arc;
use wasm_bindgen_futures::spawn_local;
use web_sys::File;

/// How many cases of a file are listed; the others are counted.
const SHOWN: usize = 50;

/// What was chosen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Chosen {
    /// Nothing.
    None,
    /// A file that is being read.
    Reading,
    /// One that is not taken.
    Unread(Unread),
    /// One that cannot be compared with what is here.
    Unknown(Refusal),
    /// One that can be taken, with how each of its journals stands to what is here.
    Read(Form, Arc<Vec<(Journal, Standing)>>),
}

/// A file on its way in. Copied freely.
#[derive(Clone, Copy)]
pub struct Incoming {
    pub chosen: RwSignal<Chosen>,
    /// What was just done.
    pub told: RwSignal<Option<String>>,
    pub desk: Desk,
}

impl Incoming {
    fn read(self, chosen: File) {
        self.chosen.set(Chosen::Reading);
        spawn_local(async move {
            let read = text(chosen).await;
            let read = read.and_then(|text| Ok((file::form(&text), file::read(&text)?)));
            let chosen = match read {
                Err(why) => Chosen::Unread(why),
                Ok((form, journals)) => match self.desk.compare(&journals).await {
                    Err(why) => Chosen::Unknown(why),
                    Ok(standings) => {
                        let mut read: Vec<_> = journals.into_iter().zip(standings).collect();
                        // What would change comes first.
                        order::by_key(&mut read, |(_, standing)| !standing.gives());
                        Chosen::Read(form, Arc::new(read))
                    }
                },
            };
            // The page may be gone by now.
            self.chosen.try_set(chosen);
        });
    }

    fn take(self, read: Arc<Vec<(Journal, Standing)>>) {
        self.chosen.set(Chosen::Reading);
        spawn_local(async move {
            let journals: Vec<Journal> = read.iter().map(|(journal, _)| journal.clone()).collect();
            let told = match self.desk.take(&journals).await {
                Ok(taken) => said::taken(taken.len()),
                Err(NotTaken::OtherTab) => said::OTHER_TAB.to_owned(),
                Err(NotTaken::Refused(why)) => said::refused(&why),
            };
            self.told.try_set(Some(told));
            self.chosen.try_set(Chosen::None);
        });
    }
}

/// The way in: a row, and the phone's own choice of files behind it.
#[component]
pub fn Door(incoming: Incoming) -> impl IntoView {
    let input = NodeRef::<html::Input>::new();
    view! {
        <section>
            <h2>{said::FILE}</h2>
            <FileInput incoming input />
            <Rows>
                <Row
                    label=said::CHOOSE
                    detail=Some(said::CHOOSE_WHY.to_owned())
                    on_press=move |()| press(input)
                />
            </Rows>
        </section>
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
        Chosen::Reading => view! {
            <Screen>
                <p class="quiet-line" role="status">
                    {said::READING}
                </p>
            </Screen>
        }
        .into_any(),
        Chosen::Unread(why) => view! { <Refused incoming why=said::unread(&why) /> }.into_any(),
        Chosen::Unknown(why) => view! { <Refused incoming why=said::refused(&why) /> }.into_any(),
        Chosen::Read(form, read) => view! { <Preview incoming form read /> }.into_any(),
    }
}

/// A file that is not taken in, and why.
#[component]
fn Refused(incoming: Incoming, why: String) -> impl IntoView {
    let input = NodeRef::<html::Input>::new();
    let leave = move |()| incoming.chosen.set(Chosen::None);
    view! {
        <Screen back=Callback::new(leave) back_label=words::app::BACK>
            <Title arrive=true>{said::NOT_TAKEN}</Title>
            <Note tone=Tone::Caution alert=true>
                <p>{why}</p>
                <p>{said::NOTHING_CHANGED}</p>
            </Note>
            <FileInput incoming input />
            <Foot slot>
                <GoButton on_press=move |()| press(input)>{said::OTHER_FILE}</GoButton>
                <QuietButton on_press=leave>{said::LEAVE}</QuietButton>
            </Foot>
        </Screen>
    }
}

/// What is in a file that can be taken in.
#[component]
fn Preview(incoming: Incoming, form: Form, read: Arc<Vec<(Journal, Standing)>>) -> impl IntoView {
    let leave = move |()| incoming.chosen.set(Chosen::None);
    let gives = read.iter().filter(|(_, standing)| standing.gives()).count();
    let why_not = (gives == 0).then(|| said::NOTHING_NEW.to_owned());
    let items = read.iter().take(SHOWN).map(item).collect_view();
    let all = read.len();
    let take = move |()| incoming.take(Arc::clone(&read));
    view! {
        <Screen back=Callback::new(leave) back_label=words::app::BACK>
            <Title arrive=true>{said::PREVIEW}</Title>
            <p class="hint">{said::WHOLE}</p>
            {(form == Form::Lines).then(|| view! { <Note>{said::NO_END}</Note> })}
            <ul class="incoming">{items}</ul>
            {(all > SHOWN).then(|| view! { <p class="hint">{said::counted(SHOWN, all)}</p> })}
            <Foot slot>
                <GoButton on_press=take why_not=Signal::stored(why_not)>
                    {said::take(gives)}
                </GoButton>
                <QuietButton on_press=leave>{said::LEAVE}</QuietButton>
            </Foot>
        </Screen>
    }
}

/// A journal of the file: what it is, from when to when, how it stands to what is here.
fn item((journal, standing): &(Journal, Standing)) -> impl IntoView + use<> {
    let line: Headline = Case::of(journal).headline(journal);
    let name = match said::own(line.id) {
        Some(own) => own.to_owned(),
        None => said::name(&line),
    };
    let extent = said::extent(journal);
    let forked = matches!(standing, Standing::Forked(_));
    view! {
        <li class:refused=forked>
            <b>{name}</b>
            <span>{extent}</span>
            <span class="incoming-standing">{said::standing(*standing)}</span>
        </li>
    }
}
