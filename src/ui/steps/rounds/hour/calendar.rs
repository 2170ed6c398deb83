//! The looks to come, for the phone's own calendar, which rings in a phone that sleeps.

use super::Due;
use crate::case::Case;
use crate::measure::{Moment, Span};
use crate::phone::use_clock;
use crate::record::calendar::{self, Alarm, Calendar, OutOfRange};
use crate::store::export::{self, Offered};
use crate::ui::parts::{Note, QuietButton, Tone};
use crate::ui::steps::use_here;
use crate::ui::words::hour as said;
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

/// What became of the file.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Became {
    Offered(Offered),
    Refused,
}

/// Puts the next looks into the phone's calendar, by a file.
///
/// The file goes the way of every file of the app: a download, and the share sheet only for an app on
/// an iPhone's home screen, where downloads can lead nowhere. Elsewhere sharing would be worse: a
/// calendar opens such a file but is seldom offered among those to share with.
#[component]
pub fn IntoCalendar(due: Memo<Option<Due>>) -> impl IntoView {
    let here = use_here();
    let clock = use_clock();
    let became = RwSignal::new(None);
    let put = move |()| {
        let Some(due) = due.get_untracked() else { return };
        let Ok(text) = file(&here.now(), due.at, clock.now()) else {
            became.set(Some(Became::Refused));
            return;
        };
        let offered = export::offer(said::CALENDAR_FILE, "text/calendar", &text);
        spawn_local(async move {
            let offered = offered.await.map_or(Became::Refused, Became::Offered);
            became.try_set(Some(offered));
        });
    };
    let said_of = move || {
        became.get().map(|became| {
            let (tone, words) = match became {
                Became::Offered(Offered::Download) => (Tone::Plain, said::DOWNLOADED),
                Became::Offered(Offered::Shared) => (Tone::Plain, said::SHARED),
                Became::Offered(Offered::Cancelled) => (Tone::Caution, said::CANCELLED),
                Became::Refused => (Tone::Danger, said::NOT_TAKEN),
            };
            view! { <Note tone>{words}</Note> }
        })
    };
    view! {
        <div class="into-calendar">
            <QuietButton on_press=put>{said::INTO_CALENDAR}</QuietButton>
            <div role="status">{said_of}</div>
            <p class="hint">
                {move || said::calendar_why(here.case().protocol.rounds_before_handover)}
            </p>
        </div>
    }
}

/// The looks that are still to come, each named by its round: a later file of the same case moves
/// them and doubles none. As many as there are rounds before handing over.
fn file(case: &Case, due: Moment, now: Moment) -> Result<String, OutOfRange> {
    let round = u32::try_from(case.treatment.rounds().len()).unwrap_or(u32::MAX);
    let protocol = &case.protocol;
    let looks =
        calendar::ahead(due, protocol.round_interval, protocol.rounds_before_handover).zip(round..);
    let dues: Vec<calendar::Due> = looks
        .filter(|(at, _)| *at > now)
        .map(|(at, number)| calendar::Due {
            number,
            at,
            summary: said::CALENDAR_LOOK,
            notes: said::CALENDAR_NOTES,
        })
        .collect();
    Calendar {
        product: said::CALENDAR_PRODUCT,
        case: case.id,
        made: now,
        lasts: Span::ZERO,
        dues: &dues,
        alarms: &[Alarm::at_once()],
    }
    .write()
}
