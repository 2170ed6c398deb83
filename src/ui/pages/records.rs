//! Every case, to be found again; and a file taken in.

mod list;

use super::taking::{Door, Incoming, Taking};
use crate::kit::LotId;
use crate::ui::app::set_title;
use crate::ui::desk::use_desk;
use crate::ui::pages::Apart;
use crate::ui::parts::{Title, Toast};
use crate::ui::words::records as said;
use leptos::prelude::*;
use list::List;

/// Every case, to be found again.
#[component]
pub fn RecordsPage(
    /// Of which lot cases are looked for first, as when one is recalled.
    lot: Option<LotId>,
) -> impl IntoView {
    let desk = use_desk();
    set_title(said::title());
    let batch = lot.and_then(|lot| {
        untrack(|| desk.stock()).holding(lot).map(|holding| holding.lot.batch.clone())
    });
    let typed = RwSignal::new(batch.unwrap_or_default());
    let incoming = Incoming::new();
    move || {
        if incoming.comes() {
            view! { <Taking incoming /> }.into_any()
        } else {
            view! {
                <Apart>
                    <Title arrive=true>{said::title()}</Title>
                    <List typed />
                    <section>
                        <h2>{said::file()}</h2>
                        <Door incoming label=said::choose() detail=said::choose_why() />
                    </section>
                    <Toast text=incoming.told />
                </Apart>
            }
            .into_any()
        }
    }
}
