//! Expiry dates for the phone's own calendar, which tells of them while the app is closed.

use super::Kit;
use crate::case::CaseId;
use crate::kit::{Holding, LotId, Stock};
use crate::measure::{Hash, Moment, Span};
use crate::phone::{clock, use_clock};
use crate::protocol::Protocol;
use crate::record::calendar::{self, Alarm, Calendar, OutOfRange};
use crate::store::export::{self, Offered};
use crate::ui::parts::{Note, QuietButton, Tone};
use crate::ui::words::{hour, kit as said};
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

/// When the calendar speaks, by local time: as a clinic opens.
const MORNING: u8 = 9;

/// What became of the file.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Became {
    Offered(Offered),
    Refused,
    /// There was nothing to put into it.
    Empty,
}

/// Puts the expiry dates into the phone's calendar, by a file.
#[component]
pub fn IntoCalendar(kit: Kit) -> impl IntoView {
    let clock = use_clock();
    let became = RwSignal::new(None);
    let put = move |()| {
        let now = clock.now();
        let dates = untrack(|| dates(&kit.stock.read(), &kit.protocol(), now));
        if dates.is_empty() {
            became.set(Some(Became::Empty));
            return;
        }
        let Ok(text) = file(&dates, now) else {
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
                Became::Empty => (Tone::Caution, said::CALENDAR_NONE),
            };
            view! { <Note tone>{words}</Note> }
        })
    };
    view! {
        <div class="into-calendar">
            <QuietButton on_press=put>{said::INTO_CALENDAR}</QuietButton>
            <div role="status">{said_of}</div>
            <p class="hint">{move || {
                    let protocol = kit.protocol();
                    said::calendar_why(protocol.expiry_ahead, protocol.expiry_near)
                }}</p>
        </div>
    }
}

/// What the calendar tells of a lot.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Tells {
    Last,
    Near,
    Ahead,
}

impl Tells {
    const ALL: [Self; 3] = [Self::Ahead, Self::Near, Self::Last];

    /// How many days before the last one it does.
    fn days(self, protocol: &Protocol) -> u32 {
        const HOURS_OF_A_DAY: u64 = 24;
        let span = match self {
            Self::Last => Span::ZERO,
            Self::Near => protocol.expiry_near,
            Self::Ahead => protocol.expiry_ahead,
        };
        u32::try_from(span.as_hours() / HOURS_OF_A_DAY).unwrap_or(u32::MAX)
    }

    /// Its name, which never changes: an event goes by it.
    const fn name(self) -> &'static str {
        match self {
            Self::Last => "last",
            Self::Near => "near",
            Self::Ahead => "ahead",
        }
    }
}

/// A date of a lot: which, when, and what the calendar says.
struct Told {
    number: u32,
    at: Moment,
    words: String,
}

/// The dates still to come of all that is left.
fn dates(stock: &Stock, protocol: &Protocol, now: Moment) -> Vec<Told> {
    let left = stock.holdings().iter().filter(|holding| holding.left() > 0);
    left.flat_map(|holding| {
        Tells::ALL.into_iter().filter_map(|tells| told(holding, tells, protocol))
    })
    .filter(|told| told.at > now)
    .collect()
}

fn told(holding: &Holding, tells: Tells, protocol: &Protocol) -> Option<Told> {
    let lot = &holding.lot;
    let days = tells.days(protocol);
    let day = lot.expiry?.days_before(i64::from(days))?;
    Some(Told {
        number: number(holding.id, tells),
        at: clock::at_hour(day, MORNING),
        words: said::calendar_line(lot.article, &lot.batch, days),
    })
}

/// Names a date by its lot and not by its place in the file: a later file moves it and doubles none.
fn number(lot: LotId, tells: Tells) -> u32 {
    const HEXADECIMAL: u32 = 16;
    let name = Hash::of(format!("{} {}", lot.0, tells.name()).as_bytes()).short();
    u32::from_str_radix(&name, HEXADECIMAL).unwrap_or_default()
}

fn file(dates: &[Told], now: Moment) -> Result<String, OutOfRange> {
    let dues: Vec<calendar::Due> = dates
        .iter()
        .map(|told| calendar::Due {
            number: told.number,
            at: told.at,
            summary: &told.words,
            notes: said::CALENDAR_NOTES,
        })
        .collect();
    Calendar {
        product: hour::CALENDAR_PRODUCT,
        case: CaseId::KIT,
        made: now,
        lasts: Span::ZERO,
        dues: &dues,
        alarms: &[Alarm::at_once()],
    }
    .write()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_date_of_each_lot_keeps_its_name() {
        let lot = |text: &str| LotId(Hash::of(text.as_bytes()));
        let names = |lot: LotId| Tells::ALL.map(|tells| number(lot, tells));
        let mut all: Vec<u32> = ["a", "b"].into_iter().flat_map(|name| names(lot(name))).collect();
        all.sort_unstable();
        all.dedup();
        assert_eq!(all.len(), 6);
        assert_eq!(names(lot("a")), names(lot("a")));
    }
}
