//! A case in a list, the same wherever it stands.

use crate::care::rounds::Phase;
use crate::case::{Case, Headline, Hit};
use crate::measure::{Date, Moment};
use crate::phone::use_now;
use crate::ui::app::use_go;
use crate::ui::desk::use_desk;
use crate::ui::page::Page;
use crate::ui::parts::Row;
use crate::ui::words::{self, records as said, time};
use leptos::prelude::*;

/// A case: its name, how it stands, when it was opened or what is due in it.
#[component]
pub fn CaseRow(
    /// The case in a few lines.
    line: Headline,
    /// Where the row leads.
    to: Page,
    /// Why it was found.
    #[prop(optional)]
    hits: Vec<Hit>,
) -> impl IntoView {
    let desk = use_desk();
    let go = use_go();
    let now = use_now();
    let name = said::name(&line);
    // Every open case is in hand. One whose record is in the archive is told by its headline.
    let open = line.closed.is_none().then(|| untrack(|| desk.held(line.id))).flatten();
    let state = match (&line.closed, &open) {
        (Some((_, outcome)), _) => words::rounds::end(*outcome),
        (None, Some(held)) if held.case.in_follow_up() => words::followup::title().to_owned(),
        (None, Some(held)) => words::app::step(held.case.step()).to_owned(),
        (None, None) => String::new(),
    };
    let detail = said::detail(&line, &state, &hits);
    let opened = time::day(Date::of(line.opened, line.zone));
    let trailing = match open {
        Some(held) => {
            Signal::derive(move || trailing(&held.case, now.get()).or_else(|| Some(opened.clone())))
        }
        None => Signal::stored(Some(opened)),
    };
    view! { <Row label=name detail=Some(detail) trailing on_press=move |()| go.to(to) /> }
}

/// What is due, if anything is.
fn trailing(case: &Case, now: Moment) -> Option<String> {
    match case.treatment.phase(now, &case.protocol) {
        Phase::Watching { due } => Some(time::countdown(due.since(now))),
        Phase::Due { .. } => Some(words::rounds::look_now().to_owned()),
        Phase::Ended(_) => case.next_review().map(|next| words::followup::row(&next, now)),
        _ => None,
    }
}

/// Where the row of an open case leads: to its step, or to seeing the patient again.
pub fn leads(case: &Case) -> Page {
    if case.in_follow_up() { Page::FollowUp(case.id) } else { Page::Case(case.id, None) }
}

/// What comes first among open cases: a treatment under way, then a review that is due; of two alike
/// the one due first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Rank {
    /// The treatment runs; when the look is due, if that is what it waits for.
    Treating(Option<Moment>),
    /// The patient is to be seen, since then.
    Due(Moment),
    /// Nothing is due.
    Later,
}

impl Rank {
    /// Of a case now.
    pub fn of(case: &Case, now: Moment) -> Self {
        match case.treatment.phase(now, &case.protocol) {
            Phase::Watching { due } | Phase::Due { due } => Self::Treating(Some(due)),
            Phase::Injecting | Phase::Looked => Self::Treating(None),
            Phase::Ended(_) => match case.next_review().filter(|next| next.at <= now) {
                Some(next) => Self::Due(next.at),
                None => Self::Later,
            },
            Phase::Ready => Self::Later,
        }
    }
}
