//! The second person's check, and what is printed on a vial.

use crate::case::{Asked, Event};
use crate::kit::{Shelf, Vial};
use crate::measure::Hash;
use crate::phone::clock;
use crate::ui::desk::use_desk;
use crate::ui::parts::{GoButton, Note, QuietButton, Row, Rows, Sheet, TextField, Tone};
use crate::ui::printed::{self, Printed};
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
        initials.read().trim().is_empty().then(|| said::initials_wanted().to_owned())
    });
    view! {
        <Sheet
            open
            on_close=Callback::new(move |()| open.set(false))
            heading=said::check()
            close_label=words::app::close()
        >
            <p>{said::check_asks()}</p>
            <TextField
                label=said::initials()
                value=initials
                on_input=move |text| initials.set(text)
            />
            <GoButton on_press=sign why_not>{said::checked()}</GoButton>
        </Sheet>
    }
}

/// Which vial it is: one of the kit's by a tap, or any other as typed. Where the kit holds none that
/// fits, as on the desk of a rehearsal, which has no kit, there is only the typing.
#[component]
pub fn VialSheet(
    open: RwSignal<bool>,
    /// Of which solution; none for the one in hand.
    solution: Option<Hash>,
    /// Which vial of it, from 1.
    number: u32,
) -> impl IntoView {
    let (here, desk) = (use_here(), use_desk());
    let asked = Memo::new(move |_| {
        let held = here.held();
        held.case.asked(&held.journal, solution, number)
    });
    let shelves = Memo::new(move |_| -> Vec<Shelf> {
        let asked = asked.read();
        let Some(asked) = asked.as_ref() else { return Vec::new() };
        // What ran out since it was opened was in date then.
        let day = asked.opened.map_or_else(clock::today, clock::date);
        let vials = desk.stock().vials(day).into_iter();
        vials.filter(|shelf| shelf.units == asked.units).collect()
    });
    let some = Memo::new(move |_| !shelves.read().is_empty());
    let taps = Taps::new();
    let note = Callback::new(move |vial: Vial| {
        let vial = Vial { number, solution, ..vial };
        taps.once(|| here.record_then(Event::Vial(vial), move || open.set(false)));
    });
    view! {
        <Sheet
            open
            on_close=Callback::new(move |()| open.set(false))
            heading=said::vial(number)
            close_label=words::app::close()
        >
            {move || {
                if some.get() {
                    view! {
                        <FromKit shelves note />
                        <details class="more">
                            <summary>{said::another_typed()}</summary>
                            <ByHand asked note />
                        </details>
                    }
                        .into_any()
                } else {
                    view! { <ByHand asked note /> }.into_any()
                }
            }}
        </Sheet>
    }
}

/// The kit's vials of the strength that the preparation asks for, a tap each.
#[component]
fn FromKit(shelves: Memo<Vec<Shelf>>, note: Callback<Vial>) -> impl IntoView {
    let row = move |shelf: Shelf| {
        let label = said::shelf(&shelf);
        let (detail, trailing) = (said::shelf_detail(&shelf), said::shelf_left(shelf.left));
        let take = move |()| note.run(shelf.take(1));
        view! { <Row label detail=Some(detail) trailing=Some(trailing) on_press=take /> }
    };
    let rows = move |expired: bool| {
        let shelves: Vec<Shelf> =
            shelves.get().into_iter().filter(|shelf| shelf.expired == expired).collect();
        let caution =
            expired.then(|| view! { <Note tone=Tone::Caution>{said::expired_in_kit()}</Note> });
        (!shelves.is_empty()).then(|| {
            view! {
                {caution}
                <Rows>{shelves.into_iter().map(row).collect_view()}</Rows>
            }
        })
    };
    view! {
        <h3>{kit::title()}</h3>
        {move || rows(false)}
        {move || rows(true)}
    }
}

/// Batch and expiry, typed; or those of the vial before.
#[component]
fn ByHand(asked: Memo<Option<Asked>>, note: Callback<Vial>) -> impl IntoView {
    let (batch, expiry) = (RwSignal::new(String::new()), RwSignal::new(String::new()));
    let went_on = RwSignal::new(false);
    let read = move || printed::expiry(&expiry.read());
    let keep = move |()| {
        let Some(units) = asked.read_untracked().as_ref().map(|asked| asked.units) else { return };
        let Ok(expiry) = untrack(read) else { return };
        let batch = batch.get_untracked().trim().to_owned();
        note.run(Vial { number: 1, units, batch, expiry, from: None, solution: None });
    };
    let why_not = Signal::derive(move || match read() {
        Err(words) => Some(words),
        Ok(None) if batch.read().trim().is_empty() => Some(said::nothing_noted().to_owned()),
        Ok(_) => None,
    });
    // Vials of one box are alike; still it is said which one, and noted by hand. Where it was taken
    // from is kept even when the kit has none of it left by its book: a vial of that lot is in the
    // hand, so the book is wrong, and the lot then shows as short and asks to be counted. Without it
    // the kit would look right and nobody would count.
    let as_before = move || {
        let before = asked.read().as_ref()?.before.clone()?;
        let words = said::same_as(&before);
        let press = move |()| note.run(before.clone());
        Some(view! { <QuietButton on_press=press>{words}</QuietButton> })
    };
    view! {
        <Printed
            batch
            expiry
            on_batch=move |text| batch.set(text)
            on_expiry=move |text| expiry.set(text)
            batch_hint=said::batch_hint()
            went_on
        />
        {as_before}
        <GoButton on_press=keep why_not on_refused=move |()| went_on.set(true)>
            {said::note_it()}
        </GoButton>
    }
}
