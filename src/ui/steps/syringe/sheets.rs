//! The second person's check, and what is printed on a vial.

use super::walk::Walk;
use crate::case::Event;
use crate::kit::{ExpiryMisread, Vial, read_expiry};
use crate::measure::Date;
use crate::ui::parts::{GoButton, QuietButton, Sheet, TextField};
use crate::ui::steps::use_here;
use crate::ui::words::{self, syringe as said};
use leptos::prelude::*;

/// A second person looks and signs.
#[component]
pub fn CheckSheet(open: RwSignal<bool>, index: u32) -> impl IntoView {
    let here = use_here();
    let initials = RwSignal::new(String::new());
    let sign = move |()| {
        let by = initials.get_untracked().trim().to_owned();
        here.record_then(Event::Checked { movement: index, by }, move || {
            initials.set(String::new());
            open.set(false);
        });
    };
    let why_not = Signal::derive(move || {
        initials.read().trim().is_empty().then(|| said::INITIALS_WANTED.to_owned())
    });
    view! {
        <Sheet
            open
            on_close=Callback::new(move |()| open.set(false))
            heading=said::CHECK
            close_label=words::app::CLOSE
        >
            <p>{said::CHECK_ASKS}</p>
            <TextField
                label=said::INITIALS
                value=initials
                on_input=move |text| initials.set(text)
            />
            <GoButton on_press=sign why_not>{said::CHECKED}</GoButton>
        </Sheet>
    }
}

/// Batch and expiry of a vial.
#[component]
pub fn VialSheet(
    open: RwSignal<bool>,
    walk: Memo<Option<Walk>>,
    /// Which vial, from 1.
    number: u32,
) -> impl IntoView {
    let here = use_here();
    let (batch, expiry) = (RwSignal::new(String::new()), RwSignal::new(String::new()));
    let read = move || -> Result<Option<Date>, String> {
        let text = expiry.read();
        if text.trim().is_empty() {
            return Ok(None);
        }
        read_expiry(&text).map(Some).map_err(|misread| said::misread(misread).to_owned())
    };
    let note = move |()| {
        let Some(units) = walk.read_untracked().as_ref().map(|walk| walk.plan.ask().vial.units)
        else {
            return;
        };
        let Ok(expiry) = untrack(read) else { return };
        let batch = batch.get_untracked().trim().to_owned();
        let vial = Vial { number, units, batch, expiry, from: None };
        here.record_then(Event::Vial(vial), move || open.set(false));
    };
    let why_not = Signal::derive(move || match read() {
        Err(words) => Some(words),
        Ok(None) if batch.read().trim().is_empty() => Some(said::NOTHING_NOTED.to_owned()),
        Ok(_) => None,
    });
    // Vials of one box are alike; still it is said which one, and noted by hand.
    let as_before = move || {
        let walk = walk.read();
        let before = number.checked_sub(1)?;
        let vial = walk.as_ref()?.vials.get(&before)?.clone();
        Some(view! {
            <QuietButton on_press=move |()| {
                here.record_then(Event::Vial(Vial { number, ..vial.clone() }), move || open.set(false));
            }>{said::same_as(before)}</QuietButton>
        })
    };
    view! {
        <Sheet
            open
            on_close=Callback::new(move |()| open.set(false))
            heading=said::vial(number)
            close_label=words::app::CLOSE
        >
            <TextField
                label=said::BATCH
                value=batch
                hint=Some(said::BATCH_HINT.to_owned())
                on_input=move |text| batch.set(text)
            />
            <TextField
                label=said::EXPIRY
                value=expiry
                hint=Some(said::EXPIRY_HINT.to_owned())
                error=Signal::derive(move || {
                    // A half typed day has no form yet, and that is no mistake.
                    let misread = read_expiry(&expiry.read()).err();
                    misread
                        .filter(|misread| *misread != ExpiryMisread::Form)
                        .map(|misread| said::misread(misread).to_owned())
                })
                on_input=move |text| expiry.set(text)
            />
            {as_before}
            <GoButton on_press=note why_not>{said::NOTE_IT}</GoButton>
        </Sheet>
    }
}
