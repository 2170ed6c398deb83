//! The looks to come, for the phone's own calendar, which rings in a phone that sleeps.

use super::Due;
use crate::case::Case;
use crate::measure::{Moment, Span};
use crate::phone::use_clock;
use crate::record::calendar::{self, Alarm, Calendar, OutOfRange};
use crate::ui::parts::IntoCalendar;
use crate::ui::steps::use_here;
use crate::ui::words::hour as said;
use leptos::prelude::*;

/// Puts the next looks into the phone's calendar.
#[component]
pub fn NextLooks(due: Memo<Option<Due>>) -> impl IntoView {
    let here = use_here();
    let clock = use_clock();
    let make = Callback::new(move |()| {
        let due = due.get_untracked();
        due.map_or(Ok(None), |due| file(&here.now(), due.at, clock.now()))
    });
    let why = Signal::derive(move || {
        Some(said::calendar_why(here.case().protocol.rounds_before_handover))
    });
    view! { <IntoCalendar words=said::calendar() make why /> }
}

/// The looks that are still to come, each named by its round: a later file of the same case moves
/// them and doubles none. As many as there are rounds before handing over; `None` once all are past.
fn file(case: &Case, due: Moment, now: Moment) -> Result<Option<String>, OutOfRange> {
    let round = u32::try_from(case.treatment.rounds().len()).unwrap_or(u32::MAX);
    let protocol = &case.protocol;
    let looks =
        calendar::ahead(due, protocol.round_interval, protocol.rounds_before_handover).zip(round..);
    let dues: Vec<calendar::Due> = looks
        .filter(|(at, _)| *at > now)
        .map(|(at, number)| calendar::Due {
            number,
            at,
            summary: said::calendar_look(),
            notes: said::calendar_notes(),
        })
        .collect();
    if dues.is_empty() {
        return Ok(None);
    }
    Calendar {
        product: said::calendar_product(),
        case: case.id,
        made: now,
        lasts: Span::ZERO,
        dues: &dues,
        alarms: &[Alarm::at_once()],
    }
    .write()
    .map(Some)
}
