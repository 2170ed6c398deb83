//! What is in a file that can be taken in, and how that stands to what is here.

use super::{Content, Incoming};
use crate::case::{Case, Headline, Journal};
use crate::measure::order;
use crate::record::file::Form;
use crate::record::merge::Standing;
use crate::ui::parts::{Figure, Figures, Foot, GoButton, Note, QuietButton, Screen, Title, Tone};
use crate::ui::words::{self, backup as told, records as said};
use leptos::prelude::*;
use std::sync::Arc;

/// How many journals of a file are listed; the others are counted.
const SHOWN: usize = 50;

/// What is in it.
#[component]
pub fn Preview(incoming: Incoming, content: Arc<Content>) -> impl IntoView {
    let leave = move |()| incoming.leave();
    let merge = &content.merge;
    let why_not = merge.is_empty().then(|| said::nothing_new().to_owned());
    let mut journals: Vec<&(Arc<Journal>, Standing)> = merge.journals().iter().collect();
    // What is not taken comes first, since it wants to be known; then what would change.
    order::by_key(&mut journals, |(_, standing)| match standing {
        Standing::Forked(_) => 0,
        Standing::New | Standing::Newer(_) => 1,
        Standing::Same | Standing::Older(_) => 2,
    });
    let forked = |(journal, standing): &&(Arc<Journal>, Standing)| {
        journal.case().is_case() && matches!(standing, Standing::Forked(_))
    };
    let differ = merge.journals().iter().filter(forked).count();
    let all = journals.len();
    let items =
        journals.into_iter().take(SHOWN).map(|(journal, standing)| item(journal, *standing));
    let items = items.collect_view();
    let backup = content.form.is_none();
    let damaged = content.file.damaged;
    let summary = backup.then(|| {
        let facts = told::summary(merge).into_iter();
        let facts =
            facts.map(|(label, number)| view! { <Figure label number=number.to_string() /> });
        view! { <Figures>{facts.collect_view()}</Figures> }
    });
    let label = if backup { told::take().to_owned() } else { said::take(merge.gives()) };
    let lines = content.form == Some(Form::Lines);
    let take = move |()| incoming.take(Arc::clone(&content));
    view! {
        <Screen back=Callback::new(leave) back_label=words::app::back()>
            <Title arrive=true>{if backup { told::preview() } else { said::preview() }}</Title>
            {summary}
            <p class="hint">{said::whole()}</p>
            {backup.then(|| view! { <p>{told::nothing_replaced()}</p> })}
            {(differ > 0).then(|| {
                let heading = Some(told::differ_heading().to_owned());
                view! { <Note tone=Tone::Caution heading>{told::differ(differ)}</Note> }
            })}
            {lines.then(|| view! { <Note>{said::no_end()}</Note> })}
            {(damaged > 0)
                .then(|| view! { <Note tone=Tone::Caution>{told::damaged(damaged)}</Note> })}
            <ul class="incoming">{items}</ul>
            {(all > SHOWN).then(|| view! { <p class="hint">{said::counted(SHOWN, all)}</p> })}
            <Foot slot>
                <GoButton on_press=take why_not=Signal::stored(why_not)>
                    {label}
                </GoButton>
                <QuietButton on_press=leave>{said::leave()}</QuietButton>
            </Foot>
        </Screen>
    }
}

/// A journal of the file: what it is, from when to when, how it stands to what is here.
fn item(journal: &Journal, standing: Standing) -> impl IntoView + use<> {
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
            <span class="incoming-standing">{said::standing(line.id, standing)}</span>
        </li>
    }
}
