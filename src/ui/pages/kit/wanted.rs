//! How many of each kind the clinic wants to hold.

use super::draft::count_or_none;
use super::{Kit, Sheet};
use crate::kit::{Act, Kind};
use crate::ui::parts::{self, GoButton, Note, QuantityField, Row, Rows};
use crate::ui::words::{self, kit as said};
use leptos::prelude::*;

/// What the clinic's values say of a kind, where they say something.
fn usual(kit: Kit, kind: Kind) -> Option<u32> {
    (kind == Kind::Hyaluronidase).then(|| kit.protocol().vials_at_hand)
}

/// Each kind with its number, closed until wanted.
#[component]
pub fn Wanted(kit: Kit) -> impl IntoView {
    let row = move |kind: Kind| {
        let own = move || kit.stock.read().wanted(kind);
        let number = move || {
            let wanted = own().or_else(|| usual(kit, kind));
            wanted.map_or_else(|| said::wanted_none().to_owned(), |count| count.to_string())
        };
        let from = move || {
            let supplied = own().is_none() && usual(kit, kind).is_some();
            supplied.then(|| said::wanted_usual_label().to_owned())
        };
        view! {
            <Row
                label=said::kind(kind)
                detail=Signal::derive(from)
                trailing=Signal::derive(move || Some(number()))
                on_press=move |()| kit.sheet.set(Sheet::Wanted(kind))
            />
        }
    };
    view! {
        <details class="more">
            <summary>{said::wanted()}</summary>
            <p class="hint">{said::wanted_detail()}</p>
            <Rows>{Kind::ALL.map(row)}</Rows>
        </details>
    }
}

/// The number of one kind.
#[component]
pub fn WantedSheet(kit: Kit) -> impl IntoView {
    let shown = Memo::new(move |_| match kit.sheet.get() {
        Sheet::Wanted(kind) => Some(kind),
        _ => None,
    });
    view! {
        <parts::Sheet
            open=Signal::derive(move || shown.read().is_some())
            on_close=Callback::new(move |()| kit.close())
            heading=Signal::derive(move || shown.get().map_or(said::wanted(), said::kind).to_owned())
            close_label=words::app::close()
        >
            {move || shown.get().map(|kind| view! { <Form kit kind /> })}
        </parts::Sheet>
    }
}

#[component]
fn Form(kit: Kit, kind: Kind) -> impl IntoView {
    let before = kit.stock.with_untracked(|stock| stock.wanted(kind));
    let usual = untrack(|| usual(kit, kind));
    let count = RwSignal::new(before.or(usual).map(|count| count.to_string()).unwrap_or_default());
    let read = move || count_or_none(&count.read());
    let why_not = Signal::derive(move || match read() {
        Err(words) => Some(words),
        Ok(count) => (Some(count) == before).then(|| said::wanted_same().to_owned()),
    });
    let keep = move |()| {
        if let Ok(count) = untrack(read) {
            kit.record(Act::Wanted { kind, count }, said::wanted_kept());
        }
    };
    view! {
        <QuantityField
            label=said::how_many()
            value=count
            whole=true
            error=Signal::derive(move || read().err().filter(|_| !count.read().trim().is_empty()))
            hint=Some(said::wanted_hint().to_owned())
            on_input=move |text| count.set(text)
        />
        {usual.map(|usual| view! { <Note>{said::wanted_usual(usual)}</Note> })}
        <GoButton on_press=keep why_not>{said::wanted_keep()}</GoButton>
    }
}
