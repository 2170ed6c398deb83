//! One entry whole, and striking it out.

use super::{Record, Sheet, lines};
use crate::case::{Entry, Event, StrikeReason};
use crate::ui::parts::{self, DangerButton, Note, TextField, Tone};
use crate::ui::words::{self, time, timeline as said};
use leptos::prelude::*;

/// Why an entry stays whatever anybody says.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Kept {
    Beginning,
    Strike,
    End,
    Phone,
    Deleted,
    Struck,
}

impl Kept {
    fn why(self) -> &'static str {
        match self {
            Self::Beginning => said::kept_beginning(),
            Self::Strike => said::kept_strike(),
            Self::End => said::kept_end(),
            Self::Phone => said::kept_phone(),
            Self::Deleted => said::kept_deleted(),
            Self::Struck => said::kept_struck(),
        }
    }

    fn of(entry: &Entry, struck: bool) -> Option<Self> {
        match entry.event() {
            Event::Opened { .. } => Some(Self::Beginning),
            Event::Struck { .. } => Some(Self::Strike),
            Event::Closed(_) => Some(Self::End),
            Event::ClockJumped(_) => Some(Self::Phone),
            Event::PhotoRemoved { .. } => Some(Self::Deleted),
            _ if struck => Some(Self::Struck),
            _ => None,
        }
    }
}

/// The sheet of one entry.
#[component]
pub(super) fn EntrySheet(record: Record) -> impl IntoView {
    let Record { held, sheet, .. } = record;
    let shown = Memo::new(move |_| match sheet.get() {
        Sheet::Entry(key) => Some(key),
        _ => None,
    });
    let found = move || {
        let key = shown.get()?;
        let held = held.read();
        let all = held.journal.entries();
        let entry = all.iter().find(|entry| entry.id().to_string() == key)?.clone();
        let line = lines::days(&held)
            .into_iter()
            .flat_map(|day| day.lines)
            .find(|line| line.key == key)?;
        Some((entry, line, all.len()))
    };
    view! {
        <parts::Sheet
            open=Signal::derive(move || shown.read().is_some())
            on_close=Callback::new(move |()| record.close_sheet())
            heading=said::entry()
            close_label=words::app::close()
        >
            {move || {
                found()
                    .map(|(entry, line, of)| {
                        let kept = Kept::of(&entry, line.struck.is_some());
                        view! {
                            <p class="hint">{time::day_hour(entry.at())}</p>
                            <p class="finding-figure">{line.text.clone()}</p>
                            {line.detail.map(|detail| view! { <p>{detail}</p> })}
                            {line.struck.map(|reason| view! { <Note>{reason}</Note> })}
                            <p class="hint">{said::place(entry.seq(), of, entry.id())}</p>
                            {if let Some(kept) = kept {
                                view! { <Note>{kept.why()}</Note> }.into_any()
                            } else {
                                let entry = entry.id();
                                let strike = move |reason| {
                                    let event = Event::Struck { entry, reason };
                                    let close = move || record.close_sheet();
                                    record.desk.record_then(record.id, event, close);
                                };
                                view! { <Strike hint=said::strike_hint() on_strike=strike /> }
                                    .into_any()
                            }}
                        }
                    })
            }}
        </parts::Sheet>
    }
}

/// Asks what was wrong, then has the entry struck out.
#[component]
pub fn Strike(
    /// What striking out does, and what it does not.
    hint: &'static str,
    /// Strikes it out.
    #[prop(into)]
    on_strike: Callback<StrikeReason>,
) -> impl IntoView {
    let reason = RwSignal::new(String::new());
    let asked = RwSignal::new(false);
    let strike = move |()| {
        let text = reason.get_untracked().trim().to_owned();
        if text.is_empty() {
            asked.set(true);
            return;
        }
        on_strike.run(StrikeReason::Wrong(text));
    };
    let error = Signal::derive(move || {
        (asked.get() && reason.read().trim().is_empty()).then(|| said::strike_wanted().to_owned())
    });
    view! {
        <Note tone=Tone::Caution>{hint}</Note>
        <TextField
            label=said::strike_why()
            value=reason
            on_input=move |text| reason.set(text)
            error
            hint=Signal::derive(|| Some(said::note_hint().to_owned()))
            long=true
        />
        <DangerButton on_press=strike>{said::strike()}</DangerButton>
    }
}
