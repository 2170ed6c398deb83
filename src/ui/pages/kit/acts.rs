//! What is done with a lot: counted again, carried, thrown away, its print put right.

use super::{Kit, Sheet, draft};
use crate::kit::{Act, Discard, Holding, LotId, Place};
use crate::ui::parts::{self, Choice, GoButton, Item, Note, QuantityField, Segment, Tone};
use crate::ui::printed::{self, Printed, as_typed};
use crate::ui::words::{self, kit as said};
use leptos::prelude::*;

/// A sheet about a lot; what is inside begins anew each time.
fn sheet<V: IntoView + 'static>(
    kit: Kit,
    heading: &'static str,
    lot: impl Fn(Sheet) -> Option<LotId> + Send + Sync + 'static,
    form: impl Fn(Holding) -> V + Send + Sync + 'static,
) -> impl IntoView {
    let shown = Memo::new(move |_| lot(kit.sheet.get()));
    let inside = move || {
        let id = shown.get()?;
        // Not tracked: what is typed outlives another tab's entry.
        kit.stock.with_untracked(|stock| stock.holding(id).cloned()).map(&form)
    };
    let inside = StoredValue::new(inside);
    view! {
        <parts::Sheet
            open=Signal::derive(move || shown.read().is_some())
            on_close=Callback::new(move |()| kit.close())
            heading
            close_label=words::app::close()
        >
            {move || inside.with_value(|inside| inside())}
        </parts::Sheet>
    }
}

/// Which lot it is, at the head of a sheet about it.
fn which(holding: &Holding) -> impl IntoView + use<> {
    let lot = &holding.lot;
    view! {
        <div class="kit-which">
            <p class="kit-name">{said::article_full(lot.article)}</p>
            <p class="hint">{said::printed(&lot.batch, lot.expiry)}</p>
            <p class="hint">{said::left(holding)}</p>
        </div>
    }
}

/// The place to begin with: the one looked at, else where some lie.
fn place_of(kit: Kit, holding: &Holding) -> Place {
    let some = Place::ALL.into_iter().find(|place| holding.at(*place) > 0);
    kit.place.get_untracked().or(some).unwrap_or_default()
}

/// How many, none or more; what is wrong with it shows once something is typed.
#[component]
fn HowMany(count: RwSignal<String>, #[prop(into)] wrong: Signal<Option<String>>) -> impl IntoView {
    let error = Signal::derive(move || wrong.get().filter(|_| !count.read().trim().is_empty()));
    view! {
        <QuantityField
            label=said::how_many()
            value=count
            whole=true
            error
            on_input=move |text| count.set(text)
        />
    }
}

/// Counted by hand.
#[component]
pub fn CountSheet(kit: Kit) -> impl IntoView {
    let lot = |sheet| if let Sheet::Count(lot) = sheet { Some(lot) } else { None };
    sheet(kit, said::count(), lot, move |holding: Holding| {
        let id = holding.id;
        let place = RwSignal::new(place_of(kit, &holding));
        let count = RwSignal::new(String::new());
        let read = move || draft::count_or_none(&count.read());
        let why_not = Signal::derive(move || read().err());
        let keep = move |()| {
            if let Ok(count) = untrack(read) {
                let place = place.get_untracked();
                kit.record(Act::Counted { lot: id, place, count }, said::counted());
            }
        };
        let places = Place::ALL.map(|place| Item::new(place, said::place(place))).to_vec();
        view! {
            {which(&holding)}
            <Segment
                legend=said::where_label()
                items=places
                value=Signal::derive(move || Some(place.get()))
                on_choose=move |chosen| place.set(chosen)
            />
            <HowMany count wrong=why_not />
            <p class="hint">{said::count_why()}</p>
            <GoButton on_press=keep why_not>{said::count_keep()}</GoButton>
        }
    })
}

/// How many of those that lie at a place.
fn some_of(holding: &Holding, place: Place, count: &str) -> Result<u32, String> {
    let (count, there) = (draft::count(count)?, holding.at(place));
    if count > there { Err(said::only(there, place)) } else { Ok(count) }
}

/// The places where some lie.
fn lying(holding: &Holding) -> Vec<Place> {
    Place::ALL.into_iter().filter(|place| holding.at(*place) > 0).collect()
}

/// Carried to the other place.
#[component]
pub fn MoveSheet(kit: Kit) -> impl IntoView {
    let lot = |sheet| if let Sheet::Move(lot) = sheet { Some(lot) } else { None };
    sheet(kit, said::move_label(), lot, move |holding: Holding| {
        let id = holding.id;
        let there = lying(&holding);
        let first = there.first().copied();
        let looked = kit.place.get_untracked().filter(|place| there.contains(place));
        let Some(first) = looked.or(first) else {
            return view! { <Note>{said::nothing_there()}</Note> }.into_any();
        };
        let from = RwSignal::new(first);
        let count = RwSignal::new(String::new());
        let name = which(&holding);
        let held = StoredValue::new(holding);
        let read = move || held.with_value(|held| some_of(held, from.get(), &count.read()));
        let why_not = Signal::derive(move || read().err());
        let keep = move |()| {
            if let Ok(count) = untrack(read) {
                let to = from.get_untracked().other();
                kit.record(Act::Moved { lot: id, to, count }, said::moved());
            }
        };
        let ways: Vec<_> =
            there.iter().map(|from| Item::new(*from, said::into_place(from.other()))).collect();
        view! {
            {name}
            <Segment
                legend=said::where_label()
                items=ways
                value=Signal::derive(move || Some(from.get()))
                on_choose=move |chosen| from.set(chosen)
            />
            <HowMany count wrong=why_not />
            <GoButton on_press=keep why_not>{said::move_keep()}</GoButton>
        }
        .into_any()
    })
}

/// Thrown away.
#[component]
pub fn DiscardSheet(kit: Kit) -> impl IntoView {
    let lot = |sheet| if let Sheet::Discard(lot) = sheet { Some(lot) } else { None };
    sheet(kit, said::throw_away(), lot, move |holding: Holding| {
        let id = holding.id;
        let there = lying(&holding);
        if there.is_empty() {
            return view! { <Note>{said::nothing_there()}</Note> }.into_any();
        }
        let today = kit.today.get_untracked();
        let expired = holding.lot.expiry.is_some_and(|last| today > last);
        let place = RwSignal::new(place_of(kit, &holding));
        let why = RwSignal::new(expired.then_some(Discard::Expired));
        let count = RwSignal::new(String::new());
        let name = which(&holding);
        let held = StoredValue::new(holding);
        let read = move || held.with_value(|held| some_of(held, place.get(), &count.read()));
        let wrong = Signal::derive(move || read().err());
        let why_not = Signal::derive(move || {
            wrong.get().or_else(|| why.read().is_none().then(|| said::discard_wanted().to_owned()))
        });
        let keep = move |()| {
            if let (Ok(count), Some(why)) = (untrack(read), why.get_untracked()) {
                let place = place.get_untracked();
                kit.record(Act::Discarded { lot: id, place, count, why }, said::discarded());
            }
        };
        let places: Vec<_> =
            there.iter().map(|place| Item::new(*place, said::place(*place))).collect();
        let reasons = Discard::ALL.map(|why| Item::new(why, said::discard(why))).to_vec();
        view! {
            {name}
            <Segment
                legend=said::where_label()
                items=places
                value=Signal::derive(move || Some(place.get()))
                on_choose=move |chosen| place.set(chosen)
            />
            <HowMany count wrong />
            <Choice
                legend=said::discard_why()
                items=reasons
                value=why
                on_choose=move |chosen| why.set(Some(chosen))
            />
            <GoButton on_press=keep why_not>{said::discard_keep()}</GoButton>
        }
        .into_any()
    })
}

/// Batch and expiry put right.
#[component]
pub fn AmendSheet(kit: Kit) -> impl IntoView {
    let lot = |sheet| if let Sheet::Amend(lot) = sheet { Some(lot) } else { None };
    sheet(kit, said::amend(), lot, move |holding: Holding| {
        let id = holding.id;
        let before = (holding.lot.batch.clone(), holding.lot.expiry);
        let batch = RwSignal::new(before.0.clone());
        let expiry = RwSignal::new(before.1.map(as_typed).unwrap_or_default());
        let went_on = RwSignal::new(false);
        let read = move || {
            printed::expiry(&expiry.read()).map(|expiry| (batch.read().trim().to_owned(), expiry))
        };
        let why_not = Signal::derive(move || match read() {
            Err(words) => Some(words),
            Ok(now) => (now == before).then(|| said::amend_same().to_owned()),
        });
        let keep = move |()| {
            if let Ok((batch, expiry)) = untrack(read) {
                kit.record(Act::Amended { lot: id, batch, expiry }, said::amended());
            }
        };
        view! {
            {which(&holding)}
            <Note tone=Tone::Caution>{said::amend_why()}</Note>
            <Printed
                batch
                expiry
                on_batch=move |text| batch.set(text)
                on_expiry=move |text| expiry.set(text)
                batch_hint=said::batch_hint()
                went_on
            />
            <GoButton on_press=keep why_not on_refused=move |()| went_on.set(true)>
                {said::amend_keep()}
            </GoButton>
        }
    })
}
