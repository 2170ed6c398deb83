//! One lot: how many lie where, what can be done with it, what happened to it; the way to who had it.

use super::list::{badge, state_of};
use super::{Kit, Sheet, record};
use crate::kit::{Holding, Place};
use crate::ui::page::Page;
use crate::ui::parts::{self, Figure, Figures, Row, Rows};
use crate::ui::words::{self, kit as said};
use leptos::prelude::*;

/// The sheet over the page.
#[component]
pub fn LotSheet(kit: Kit) -> impl IntoView {
    let shown = Memo::new(move |_| match kit.sheet.get() {
        Sheet::Lot(lot) => Some(lot),
        _ => None,
    });
    let holding = Memo::new(move |_| kit.stock.read().holding(shown.get()?).cloned());
    let heading = move || {
        let holding = holding.read();
        let article = holding.as_ref().map(|holding| said::article_full(holding.lot.article));
        article.unwrap_or_else(|| said::lot().to_owned())
    };
    view! {
        <parts::Sheet
            open=Signal::derive(move || holding.read().is_some())
            on_close=Callback::new(move |()| kit.close())
            heading=Signal::derive(heading)
            close_label=words::app::close()
        >
            {move || holding.get().map(|holding| view! { <Lot kit holding /> })}
        </parts::Sheet>
    }
}

#[component]
fn Lot(kit: Kit, holding: Holding) -> impl IntoView {
    let id = holding.id;
    let states = state_of(&holding, kit.today.get(), &kit.expiring.read());
    let figures = Place::ALL.map(|place| {
        view! { <Figure label=said::place(place) number=holding.at(place).to_string() /> }
    });
    let ways = [
        (said::count(), Sheet::Count(id)),
        (said::move_label(), Sheet::Move(id)),
        (said::throw_away(), Sheet::Discard(id)),
        (said::amend(), Sheet::Amend(id)),
    ];
    // Where none is left there is nothing to carry or to throw away.
    let some = holding.left() > 0;
    let offered = |sheet: Sheet| some || matches!(sheet, Sheet::Count(_) | Sheet::Amend(_));
    let row = |(label, sheet)| view! { <Row label on_press=move |()| kit.sheet.set(sheet) /> };
    let rows: Vec<_> = ways.into_iter().filter(|(_, sheet)| offered(*sheet)).map(row).collect();
    view! {
        <p>{said::printed(&holding.lot.batch, holding.lot.expiry)}</p>
        {states.into_iter().map(badge).collect_view()}
        <Figures>{figures}</Figures>
        <Rows>
            {rows}
            <Row
                label=said::cases()
                detail=Some(said::cases_detail().to_owned())
                on_press=move |()| kit.go.to(Page::Found(id))
            />
        </Rows>
        <section>
            <h3>{said::history()}</h3>
            <record::Days kit of=Some(id) />
        </section>
    }
}
