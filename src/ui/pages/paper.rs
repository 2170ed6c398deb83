//! A text about a case, to be read, printed or handed on: the clinical note, the patient's sheet, the
//! report of an adverse reaction.

mod drawn;
mod leaving;
mod photos;

use crate::case::{CaseId, Contact};
use crate::measure::Moment;
use crate::phone::{clock, use_now};
use crate::record::note::{self as facts, Hours, Leaf, Note};
use crate::ui::app::{set_title, use_go};
use crate::ui::desk::use_desk;
use crate::ui::page::Paper;
use crate::ui::pages::Framed;
use crate::ui::pages::keeping::{NoSuchCase, Reading};
use crate::ui::parts::{Finding, Foot, Note as Remark, Screen, Title, Toast, Why};
use crate::ui::rehearsal::rehearsed;
use crate::ui::steps::{Here, enter};
use crate::ui::words::document::Document;
use crate::ui::words::{self, note, patient, report};
use drawn::{Drawn, lines};
use leaving::{ByHand, SetNumbers, Ways};
use leptos::prelude::*;
use photos::{Chosen, PhotoPages, PhotoTicks};

/// A text about a case, to be read, printed or handed on.
#[component]
pub fn PaperPage(
    /// Which case.
    id: CaseId,
    /// Which text.
    paper: Paper,
) -> impl IntoView {
    set_title(title(paper));
    if rehearsed() {
        return view! { <Rehearsed /> }.into_any();
    }
    let desk = use_desk();
    let state = Memo::new(move |_| (desk.ready(), desk.held(id).is_some()));
    (move || match state.get() {
        (_, true) => match enter(id) {
            Some(here) => view! { <Shown here paper /> }.into_any(),
            None => view! { <NoSuchCase /> }.into_any(),
        },
        (false, false) => view! { <Reading /> }.into_any(),
        (true, false) => view! { <NoSuchCase /> }.into_any(),
    })
    .into_any()
}

/// A simulated patient leaves no papers that could be taken for a real one's.
#[component]
fn Rehearsed() -> impl IntoView {
    let go = use_go();
    view! {
        <Screen back=Callback::new(move |()| go.back()) back_label=words::app::back()>
            <Title arrive=true>{note::rehearsed()}</Title>
            <p>{note::rehearsed_why()}</p>
        </Screen>
    }
}

fn title(paper: Paper) -> &'static str {
    match paper {
        Paper::Note => note::title(),
        Paper::Patient => patient::title(),
        Paper::Report => report::title(),
    }
}

/// What is shown: gathered at each entry.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Written {
    facts: Note,
    /// None where there is nothing to write.
    document: Option<Document>,
    founded: Vec<Finding>,
}

fn write(here: Here, paper: Paper, numbers: &[Contact], now: Moment) -> Written {
    let held = here.held();
    let (case, journal) = (&held.case, &held.journal);
    let facts = Note::of(case, journal, &held.aside.faults, now, clock::zone(now));
    let mut founded = Vec::new();
    let document = match paper {
        Paper::Note => Some(note::document(&facts)),
        Paper::Patient => {
            let leaf = Leaf::of(&facts, &case.protocol);
            founded = patient::founded(&facts, &leaf);
            Some(patient::document(&facts, &leaf, numbers))
        }
        Paper::Report => {
            let reported = facts::reported(&facts);
            let any = !reported.is_empty();
            any.then(|| report::document(&facts, &reported, &case.protocol))
        }
    };
    Written { facts, document, founded }
}

#[component]
fn Shown(here: Here, paper: Paper) -> impl IntoView {
    let desk = use_desk();
    let now = use_now();
    // Written out at each entry, and not as time goes by: nothing moves under a reader's eyes.
    let written = Memo::new(move |_| write(here, paper, &desk.contacts(), now.get_untracked()));
    let chosen = Chosen::none();
    let class = match paper {
        Paper::Note | Paper::Report => "paper",
        Paper::Patient => "paper large",
    };
    let facts = Signal::derive(move || written.read().facts.clone());
    let document = Signal::derive(move || written.read().document.clone());
    let passed = super::timeline::passing();
    let by_hand = RwSignal::new(None::<String>);
    let founded = Signal::derive(move || written.read().founded.clone());
    view! {
        <Framed>
            {(paper == Paper::Patient).then(|| view! { <SetNumbers /> })}
            <article class=class>
                <div class="paper-head">
                    <p class="paper-run">
                        {move || written.with(|shown| note::head(title(paper), &shown.facts))}
                    </p>
                </div>
                <div class="paper-body">
                    <Title arrive=true>
                        {move || match &written.read().document {
                            Some(document) => document.title,
                            None => report::nothing(),
                        }}
                    </Title>
                    {move || match written.get() {
                        Written { document: Some(document), facts, .. } => {
                            view! { <Body document here hours=facts.hours /> }.into_any()
                        }
                        Written { document: None, .. } => view! { <p>{report::nothing_why()}</p> }.into_any(),
                    }}
                    {(paper == Paper::Note)
                        .then(|| view! { <PhotoPages here written=facts chosen /> })}
                    {words::language::mark().map(|mark| view! { <p class="follow">{mark}</p> })}
                </div>
            </article>
            <div class="no-print paper-aside">
                {(paper == Paper::Note)
                    .then(|| view! { <PhotoTicks here written=facts chosen /> })}
                {(paper == Paper::Patient).then(|| view! { <Why summary=patient::why() findings=founded /> })}
                <Remark>{note::no_name()}</Remark>
            </div>
            <ByHand by_hand />
            <Toast text=passed />
            <Foot slot>
                <Ways document name=file_name(paper) passed by_hand />
            </Foot>
        </Framed>
    }
}

fn file_name(paper: Paper) -> &'static str {
    match paper {
        Paper::Note => note::file_name(),
        Paper::Patient => patient::file_name(),
        Paper::Report => report::file_name(),
    }
}

/// The document itself: one static view, the same on screen and on paper.
#[component]
fn Body(document: Document, here: Here, hours: Hours) -> impl IntoView {
    let parts = document.parts.into_iter().map(|part| {
        let heading = (!part.name.is_empty()).then(|| view! { <h2>{part.name}</h2> });
        view! {
            <section class="paper-part">
                {heading}
                {lines(part.lines)}
                {part.picture.map(|picture| view! { <Drawn picture here hours=hours.clone() /> })}
            </section>
        }
    });
    parts.collect_view()
}
