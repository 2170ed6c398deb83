//! Dates for the phone's own calendar, which tells of them while the app is closed.

use super::{MaybeText, Note, QuietButton, Tone};
use crate::phone::share::{self, Handed};
use crate::record::calendar::OutOfRange;
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

/// The kind of file that a calendar opens.
const KIND: &str = "text/calendar";

/// What is said of the file.
#[derive(Clone, Copy, Debug)]
pub struct CalendarWords {
    /// The button.
    pub put: &'static str,
    /// The file's name.
    pub file: &'static str,
    /// It lies among the downloads.
    pub downloaded: &'static str,
    /// It was passed on by the share sheet.
    pub shared: &'static str,
    /// The share sheet was closed.
    pub cancelled: &'static str,
    /// The browser did not take it, or a date cannot be written.
    pub refused: &'static str,
    /// There was no date to put into it.
    pub nothing: &'static str,
}

/// What became of the file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Became {
    Handed(Handed),
    Nothing,
}

impl CalendarWords {
    const fn of(&self, became: Became) -> (Tone, &'static str) {
        match became {
            Became::Handed(Handed::Saved) => (Tone::Plain, self.downloaded),
            // No file is copied.
            Became::Handed(Handed::Shared | Handed::Copied) => (Tone::Plain, self.shared),
            Became::Handed(Handed::Cancelled) => (Tone::Caution, self.cancelled),
            Became::Handed(Handed::Refused) => (Tone::Danger, self.refused),
            Became::Nothing => (Tone::Caution, self.nothing),
        }
    }
}

/// Puts dates into the phone's calendar, by a file, and tells what became of it.
///
/// The file goes the way of every file of the app: a download, and the share sheet only for an app on
/// an iPhone's home screen, where downloads can lead nowhere. Elsewhere sharing would be worse: a
/// calendar opens such a file but is seldom offered among those to share with.
#[component]
pub fn IntoCalendar(
    /// What is said.
    words: CalendarWords,
    /// Writes the file at the tap; `None` if there is no date to come.
    make: Callback<(), Result<Option<String>, OutOfRange>>,
    /// Why, in small.
    #[prop(into)]
    why: MaybeText,
) -> impl IntoView {
    let became = RwSignal::new(None);
    let put = move |()| {
        let text = match untrack(|| make.run(())) {
            Ok(Some(text)) => text,
            Ok(None) => return became.set(Some(Became::Nothing)),
            Err(_) => return became.set(Some(Became::Handed(Handed::Refused))),
        };
        let handed = share::keep(words.file, KIND, &text);
        spawn_local(async move {
            became.try_set(Some(Became::Handed(handed.await)));
        });
    };
    let told = move || {
        became.get().map(|became| {
            let (tone, told) = words.of(became);
            view! { <Note tone>{told}</Note> }
        })
    };
    view! {
        <div class="into-calendar">
            <QuietButton on_press=put>{words.put}</QuietButton>
            <div role="status">{told}</div>
            {move || why.get().map(|why| view! { <p class="hint">{why}</p> })}
        </div>
    }
}
