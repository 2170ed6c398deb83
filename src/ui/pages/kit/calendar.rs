//! Expiry dates for the phone's own calendar, which tells of them while the app is closed.

use super::Kit;
use crate::case::CaseId;
use crate::kit::{Holding, LotId, Stock};
use crate::measure::{Hash, Moment, Span};
use crate::phone::{clock, use_clock};
use crate::protocol::Protocol;
use crate::record::calendar::{self, Alarm, Calendar, OutOfRange};
use crate::ui::parts::IntoCalendar;
use crate::ui::words::{hour, kit as said};
use leptos::prelude::*;

/// When the calendar speaks, by local time: as a clinic opens.
const MORNING: u8 = 9;

/// Puts the expiry dates into the phone's calendar.
#[component]
pub fn ExpiryDates(kit: Kit) -> impl IntoView {
    let clock = use_clock();
    let make = Callback::new(move |()| {
        let now = clock.now();
        let dates = dates(&kit.stock.read(), &kit.protocol(), now);
        (!dates.is_empty()).then(|| file(&dates, now)).transpose()
    });
    let why = Signal::derive(move || {
        let protocol = kit.protocol();
        Some(said::calendar_why(protocol.expiry_ahead, protocol.expiry_near))
    });
    view! { <IntoCalendar words=said::calendar() make why /> }
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
            notes: said::calendar_notes(),
        })
        .collect();
    Calendar {
        product: hour::calendar_product(),
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
