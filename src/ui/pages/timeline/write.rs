//! Adding a note, and changing the clinic's reference.

use super::{Record, Sheet};
use crate::case::{Event, Reference};
use crate::ui::parts::{self, GoButton, Note, TextField, Tone};
use crate::ui::words::{self, timeline as said};
use leptos::prelude::*;

/// A note in the clinician's own words.
#[component]
pub(super) fn NoteSheet(record: Record) -> impl IntoView {
    let sheet = record.sheet;
    let text = RwSignal::new(String::new());
    let keep = move |()| {
        let note = text.get_untracked().trim().to_owned();
        if !note.is_empty() {
            record.desk.record_then(record.id, Event::Note(note), move || {
                text.set(String::new());
                record.close_sheet();
            });
        }
    };
    let why_not = Signal::derive(move || {
        text.read().trim().is_empty().then(|| said::note_wanted().to_owned())
    });
    view! {
        <parts::Sheet
            open=Signal::derive(move || *sheet.read() == Sheet::Note)
            on_close=Callback::new(move |()| record.close_sheet())
            heading=said::note()
            close_label=words::app::close()
        >
            <TextField
                label=said::note_text()
                value=text
                on_input=move |input| text.set(input)
                hint=Signal::derive(|| Some(said::note_hint().to_owned()))
                long=true
            />
            <GoButton on_press=keep why_not>
                {said::keep()}
            </GoButton>
        </parts::Sheet>
    }
}

/// Another reference for the case.
#[component]
pub(super) fn RenameSheet(record: Record) -> impl IntoView {
    let Record { held, sheet, .. } = record;
    let open = Memo::new(move |_| *sheet.read() == Sheet::Rename);
    let text = RwSignal::new(String::new());
    // Each time it opens it starts from the reference in force.
    Effect::new(move |_| {
        if open.get() {
            let case = held.read_untracked().case.clone();
            text.set(case.reference.as_ref().map_or("", Reference::as_str).to_owned());
        }
    });
    let keep = move |()| {
        if let Some(reference) = Reference::new(&text.read_untracked()) {
            let same = held.read_untracked().case.reference.as_ref() == Some(&reference);
            if same {
                record.close_sheet();
            } else {
                let event = Event::Renamed(reference);
                record.desk.record_then(record.id, event, move || record.close_sheet());
            }
        }
    };
    let why_not =
        Signal::derive(move || Reference::new(&text.read()).is_none().then(said::reference_wanted));
    view! {
        <parts::Sheet
            open
            on_close=Callback::new(move |()| record.close_sheet())
            heading=said::rename()
            close_label=words::app::close()
        >
            <Note tone=Tone::Caution>{said::rename_warning()}</Note>
            <TextField
                label=said::rename_detail()
                value=text
                on_input=move |input| text.set(input)
            />
            <GoButton on_press=keep why_not>
                {said::keep()}
            </GoButton>
        </parts::Sheet>
    }
}
