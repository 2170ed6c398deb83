//! What was taken down of the reaction, with its hours.

use super::Sheet;
use crate::case::{Event, StrikeReason};
use crate::measure::Hash;
use crate::ui::parts::{Entry, QuietButton, Timeline};
use crate::ui::words::{anaphylaxis as words_of, sheet as said, time};
use leptos::prelude::*;

/// The acts, the last one first.
#[component]
pub fn Log(sheet: Sheet) -> impl IntoView {
    let entries = Memo::new(move |_| -> Vec<Entry> {
        let Some(held) = sheet.held() else { return Vec::new() };
        let line = |entry: &crate::case::Entry| match entry.event() {
            Event::Anaphylaxis(act) => Some(Entry {
                key: entry.id().to_string(),
                time: time::hour(entry.at()),
                text: words_of::act(act),
                detail: None,
                struck: held.case.struck.contains(&entry.id()).then(|| said::struck().to_owned()),
            }),
            _ => None,
        };
        held.journal.entries().iter().rev().filter_map(line).collect()
    });
    let last = Memo::new(move |_| -> Option<Hash> {
        let held = sheet.held()?;
        let counts = |entry: &&crate::case::Entry| {
            matches!(entry.event(), Event::Anaphylaxis(_))
                && !held.case.struck.contains(&entry.id())
        };
        held.journal.entries().iter().rev().find(counts).map(crate::case::Entry::id)
    });
    let undo = move |()| {
        if let Some(entry) = last.get_untracked() {
            sheet.taps.once(|| {
                sheet.record(Event::Struck { entry, reason: StrikeReason::Slip });
            });
        }
    };
    let some = Memo::new(move |_| !entries.read().is_empty());
    let can_undo = Memo::new(move |_| last.read().is_some());
    view! {
        {move || {
            some.get()
                .then(|| {
                    view! {
                        <section>
                            <h2>{said::log()}</h2>
                            <Timeline entries />
                            {move || {
                                can_undo
                                    .get()
                                    .then(|| {
                                        view! {
                                            <QuietButton on_press=undo>{said::undo()}</QuietButton>
                                        }
                                    })
                            }}
                        </section>
                    }
                })
        }}
    }
}
