//! Every case, to be found again; and a file taken in.
//!
//! | file | what it is |
//! |---|---|
//! | `list` | the search and the cases |
//! | `taking` | a file: what is in it, and taking it in |

mod list;
mod taking;

use super::timeline::passing;
use crate::kit::LotId;
use crate::ui::app::set_title;
use crate::ui::desk::use_desk;
use crate::ui::pages::Apart;
use crate::ui::parts::{Title, Toast};
use crate::ui::words::records as said;
use leptos::prelude::*;
use list::List;
use taking::{Chosen, Incoming, Taking};

/// Every case, to be found again.
#[component]
pub fn RecordsPage(
    /// Of which lot cases are looked for first, as when one is recalled.
    lot: Option<LotId>,
) -> impl IntoView {
    let desk = use_desk();
    set_title(said::TITLE);
    let batch = lot.and_then(|lot| {
        untrack(|| desk.stock()).holding(lot).map(|holding| holding.lot.batch.clone())
    });
    let typed = RwSignal::new(batch.unwrap_or_default());
    let incoming = Incoming { chosen: RwSignal::new(Chosen::None), told: passing(), desk };
    let chosen = Memo::new(move |_| incoming.chosen.with(|chosen| *chosen != Chosen::None));
    move || {
        if chosen.get() {
            view! { <Taking incoming /> }.into_any()
        } else {
            view! {
                <Apart>
                    <Title arrive=true>{said::TITLE}</Title>
                    <List typed />
                    <taking::Door incoming />
                    <Toast text=incoming.told />
                </Apart>
            }
            .into_any()
        }
    }
}
