//! The entries of a journal as lines to read.

use crate::care::dilution::{Movement, Plan};
use crate::case::{Body, Entry, Event, Fault, Journal, StrikeReason};
use crate::measure::{Date, Hash, Moment};
use crate::phone::clock;
use crate::protocol::diluent::Diluent;
use crate::ui::desk::Held;
use crate::ui::parts::Entry as Line;
use crate::ui::words::timeline::{self as said, Place};
use crate::ui::words::{dilution, time};
use std::collections::BTreeMap;

/// A day by the clock of the phone that shows it.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::ui) struct Day {
    /// Which.
    pub date: Date,
    /// Its entries.
    pub lines: Vec<Line>,
}

/// The entries in their order, parted by days. A clock that was set back starts a day anew only if
/// it is another day; the order stays the one in which things were written.
pub(in crate::ui) fn days(held: &Held) -> Vec<Day> {
    let struck = strikes(&held.journal);
    let mut plan = None;
    let mut diluent = Diluent::default();
    let mut days: Vec<Day> = Vec::new();
    for entry in held.journal.entries() {
        if let (Event::Preparation(made), false) = (entry.event(), struck.contains_key(&entry.id()))
        {
            plan = Some((**made).clone());
        }
        if let (Event::Diluent(taken), false) = (entry.event(), struck.contains_key(&entry.id())) {
            diluent = *taken;
        }
        let text_of = |event| {
            movement(event, plan.as_ref())
                .and_then(|(_, place)| said::movement(event, place))
                .unwrap_or_else(|| said::event(event).0)
        };
        let mut text = text_of(entry.event());
        if let Some(other) = struck_by(entry.event(), &held.journal) {
            text = said::struck_out(&text_of(other));
        }
        let order = || {
            let plan = plan.as_ref()?;
            let (made, _) = movement(entry.event(), Some(plan))?;
            Some(dilution::movement(made, plan.vials_used(), diluent))
        };
        let mut detail = said::event(entry.event()).1.or_else(order);
        if let Some((_, refusal)) = held.case.refused.iter().find(|(id, _)| *id == entry.id()) {
            detail = Some(join(detail, said::refused(*refusal)));
        }
        let line = Line {
            key: entry.id().to_string(),
            time: time::hour(entry.at()),
            text,
            detail,
            struck: struck.get(&entry.id()).map(|(at, reason)| said::struck(*at, reason)),
        };
        let date = clock::date(entry.at());
        match days.iter_mut().find(|day| day.date == date) {
            Some(day) => day.lines.push(line),
            None => days.push(Day { date, lines: vec![line] }),
        }
    }
    days
}

fn join(detail: Option<String>, more: String) -> String {
    detail.map_or_else(|| more.clone(), |detail| format!("{detail}. {more}"))
}

/// The event that this one strikes out.
fn struck_by<'a>(event: &Event, journal: &'a Journal) -> Option<&'a Event> {
    let Event::Struck { entry, .. } = event else { return None };
    journal.entries().iter().find(|other| other.id() == *entry).map(Entry::event)
}

/// Which movement it was, by the preparation in force at that time, and which of those that the
/// syringe's screens count: the record must not say 5 where the screen said 4.
fn movement(event: &Event, plan: Option<&Plan>) -> Option<(Movement, Place)> {
    let (Event::Drew(index) | Event::Checked { movement: index, .. }) = event else { return None };
    let index = usize::try_from(*index).ok()?;
    let movements = plan?.movements();
    let made = *movements.get(index)?;
    let counts = |made: &&Movement| !matches!(made, Movement::Finish { .. });
    let place = if counts(&&made) {
        Place::Movement(movements.iter().take(index.saturating_add(1)).filter(counts).count())
    } else {
        Place::Label
    };
    Some((made, place))
}

/// When and why entries were struck out, by the entry.
pub fn strikes(journal: &Journal) -> BTreeMap<Hash, (Moment, StrikeReason)> {
    let strike = |body: &Body| match &body.event {
        Event::Struck { entry, reason } => Some((*entry, (body.at, reason.clone()))),
        _ => None,
    };
    journal.entries().iter().filter_map(|entry| strike(entry.body())).collect()
}

/// The chain in a line, or what is wrong with it.
pub(super) fn chain(journal: &Journal, faults: &[Fault]) -> Result<String, Vec<String>> {
    if faults.is_empty() {
        Ok(said::whole(journal.entries().len(), journal.head()))
    } else {
        Err(faults.iter().map(said::fault).collect())
    }
}
