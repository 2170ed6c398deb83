//! One lot: how many lie where, what can be done with it, what happened to it, who had it.

use super::list::{badge, state_of};
use super::{Kit, Sheet, record};
use crate::case::CaseId;
use crate::kit::{Holding, LotId, Place};
use crate::phone::clock;
use crate::ui::page::Page;
use crate::ui::parts::{self, Figure, Figures, Note, Row, Rows};
use crate::ui::words::{self, kit as said, time};
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
        article.unwrap_or_else(|| said::LOT.to_owned())
    };
    view! {
        <parts::Sheet
            open=Signal::derive(move || holding.read().is_some())
            on_close=Callback::new(move |()| kit.close())
            heading=Signal::derive(heading)
            close_label=words::app::CLOSE
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
        (said::COUNT, Sheet::Count(id)),
        (said::MOVE, Sheet::Move(id)),
        (said::DISCARD, Sheet::Discard(id)),
        (said::AMEND, Sheet::Amend(id)),
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
        <Rows>{rows}</Rows>
        <section>
            <h3>{said::CASES}</h3>
            <Cases kit lot=id batch=holding.lot.batch.clone() />
        </section>
        <section>
            <h3>{said::HISTORY}</h3>
            <record::Days kit of=Some(id) />
        </section>
    }
}

/// A case that took from the lot or noted its batch.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Took {
    case: CaseId,
    reference: String,
    opened: String,
    count: usize,
}

/// Whom it was given to, by the cases' own records: when a batch is recalled, they are sought.
#[component]
fn Cases(kit: Kit, lot: LotId, batch: String) -> impl IntoView {
    let unnamed = batch.is_empty();
    let cases = Memo::new(move |_| -> Vec<Took> {
        let all = kit.desk.all().into_iter().map(|held| held.case.headline(&held.journal));
        let took = all.map(|case| {
            let count = case.taken.iter().filter(|taking| taking.from.lot == lot).count();
            let noted = !batch.is_empty() && case.batches.contains(&batch);
            let opened = time::day(clock::date(case.opened));
            (noted, Took { case: case.id, reference: case.reference, opened, count })
        });
        took.filter(|(noted, took)| *noted || took.count > 0).map(|(_, took)| took).collect()
    });
    let row = move |took: Took| {
        let case = took.case;
        view! {
            <Row
                label=said::case_took(&took.reference)
                detail=Some(said::took(took.count))
                trailing=Some(took.opened)
                on_press=move |()| kit.go.to(Page::Timeline(case))
            />
        }
    };
    move || {
        let cases = cases.get();
        match (cases.is_empty(), unnamed) {
            (true, true) => view! { <Note>{said::CASES_NO_BATCH}</Note> }.into_any(),
            (true, false) => view! { <p class="hint">{said::CASES_NONE}</p> }.into_any(),
            _ => view! { <Rows>{cases.into_iter().map(row).collect_view()}</Rows> }.into_any(),
        }
    }
}
