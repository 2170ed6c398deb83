//! The second person's check, and what is printed on a vial.

use super::walk::Walk;
use crate::case::Event;
use crate::kit::Shelf;
use crate::kit::{ExpiryMisread, Vial, read_expiry};
use crate::measure::Date;
use crate::phone::clock;
use crate::ui::desk::use_desk;
use crate::ui::parts::{GoButton, Note, QuietButton, Row, Rows, Sheet, TextField, Tone};
use crate::ui::steps::use_here;
use crate::ui::tap::Taps;
use crate::ui::words::{self, kit, syringe as said};
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

/// Which vial it is: one of the kit's by a tap, or any other as typed. Where the kit holds none that
/// fits, as on the desk of a rehearsal, which has no kit, there is only the typing.
#[component]
pub fn VialSheet(
    open: RwSignal<bool>,
    walk: Memo<Option<Walk>>,
    /// Which vial, from 1.
    number: u32,
) -> impl IntoView {
    let desk = use_desk();
    let shelves = Memo::new(move |_| {
        let units = walk.read().as_ref().map(|walk| walk.plan.ask().vial.units);
        let vials = desk.stock().vials(clock::today());
        vials.into_iter().filter(|shelf| Some(shelf.units) == units).collect::<Vec<_>>()
    });
    let some = Memo::new(move |_| !shelves.read().is_empty());
    view! {
        <Sheet
            open
            on_close=Callback::new(move |()| open.set(false))
            heading=said::vial(number)
            close_label=words::app::CLOSE
        >
            {move || {
                if some.get() {
                    view! {
                        <FromKit open shelves number />
                        <details class="more">
                            <summary>{said::ANOTHER_TYPED}</summary>
                            <Typed open walk number />
                        </details>
                    }
                        .into_any()
                } else {
                    view! { <Typed open walk number /> }.into_any()
                }
            }}
        </Sheet>
    }
}

/// The kit's vials of the strength that the preparation asks for, a tap each.
#[component]
fn FromKit(open: RwSignal<bool>, shelves: Memo<Vec<Shelf>>, number: u32) -> impl IntoView {
    let here = use_here();
    let taps = Taps::new();
    let row = move |shelf: Shelf| {
        let label = said::shelf(&shelf);
        let (detail, trailing) = (said::shelf_detail(&shelf), said::shelf_left(shelf.left));
        let take = move |()| {
            let vial = shelf.take(number);
            taps.once(|| here.record_then(Event::Vial(vial), move || open.set(false)));
        };
        view! { <Row label detail=Some(detail) trailing=Some(trailing) on_press=take /> }
    };
    let rows = move |expired: bool| {
        let shelves: Vec<Shelf> =
            shelves.get().into_iter().filter(|shelf| shelf.expired == expired).collect();
        let caution =
            expired.then(|| view! { <Note tone=Tone::Caution>{said::EXPIRED_IN_KIT}</Note> });
        (!shelves.is_empty()).then(|| {
            view! {
                {caution}
                <Rows>{shelves.into_iter().map(row).collect_view()}</Rows>
            }
        })
    };
    view! {
        <h3>{kit::TITLE}</h3>
        {move || rows(false)}
        {move || rows(true)}
    }
}

/// Batch and expiry, typed.
#[component]
fn Typed(open: RwSignal<bool>, walk: Memo<Option<Walk>>, number: u32) -> impl IntoView {
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
    // Vials of one box are alike; still it is said which one, and noted by hand. Where it was taken
    // from is kept even when the kit has none of it left by its book: a vial of that lot is in the
    // hand, so the book is wrong, and the lot then shows as short and asks to be counted. Without it
    // the kit would look right and nobody would count.
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
    }
}
