//! What is at hand, and whether it would do for an occlusion.

mod acts;
mod add;
mod calendar;
mod draft;
mod list;
mod lot;
mod ready;
mod record;
mod scan;
mod state;
mod wanted;

pub use state::state;

use crate::kit::ready::{Expiring, Readiness, readiness};
use crate::kit::{Act, Kind, LotId, Place, Stock};
use crate::measure::{Date, Hash};
use crate::phone::{clock, use_now};
use crate::protocol::Protocol;
use crate::ui::app::{Go, set_title, use_go};
use crate::ui::desk::{Desk, use_desk};
use crate::ui::pages::Apart;
use crate::ui::parts::{Foot, GoButton, Item, Segment, Title, Toast};
use crate::ui::tap::Taps;
use crate::ui::words::{self, kit as said};
use leptos::prelude::*;

/// What the parts of the page share. Copied freely.
#[derive(Clone, Copy)]
struct Kit {
    desk: Desk,
    go: Go,
    /// What is left.
    stock: Memo<Stock>,
    /// The day by the phone's clock.
    today: Memo<Date>,
    /// The place that is looked at; none for both.
    place: RwSignal<Option<Place>>,
    /// What it is worth at that place.
    worth: Memo<Readiness>,
    /// What runs out, wherever it lies.
    expiring: Memo<Vec<Expiring>>,
    /// What lies over the page.
    sheet: RwSignal<Sheet>,
    /// What was just done.
    told: RwSignal<Option<String>>,
    taps: Taps,
}

/// What lies over the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Sheet {
    None,
    Add,
    Lot(LotId),
    Count(LotId),
    Move(LotId),
    Discard(LotId),
    Amend(LotId),
    Wanted(Kind),
    /// One entry of the record, by its digest.
    Entry(Hash),
}

impl Kit {
    fn new() -> Self {
        let (desk, now) = (use_desk(), use_now());
        let stock = Memo::new(move |_| desk.stock());
        let today = Memo::new(move |_| clock::date(now.get()));
        let place = RwSignal::new(None);
        let worth = move |place| readiness(&stock.read(), place, today.get(), &desk.protocol());
        Self {
            desk,
            go: use_go(),
            stock,
            today,
            place,
            worth: Memo::new(move |_| worth(place.get())),
            expiring: Memo::new(move |_| worth(None).expiring),
            sheet: RwSignal::new(Sheet::None),
            told: super::timeline::passing(),
            taps: Taps::new(),
        }
    }

    /// The clinic's values; the page's rules go by them. Tracked.
    fn protocol(self) -> Protocol {
        self.desk.protocol()
    }

    fn close(self) {
        self.sheet.set(Sheet::None);
    }

    /// Records what happened, closes the sheet and says so. A tap that bounced is not a second act.
    fn record(self, act: Act, told: &'static str) {
        self.taps.once(|| {
            self.desk.record_kit(act, move || {
                self.sheet.try_set(Sheet::None);
                self.told.try_set(Some(told.to_owned()));
            });
        });
    }
}

/// What is at hand, and whether it would do for an occlusion.
#[component]
pub fn KitPage() -> impl IntoView {
    set_title(said::title());
    let kit = Kit::new();
    let some = Memo::new(move |_| !kit.stock.read().holdings().is_empty());
    view! {
        <Apart>
            <Title arrive=true>{said::title()}</Title>
            {move || {
                if some.get() {
                    view! {
                        <Where kit />
                        <ready::Ready kit />
                        <list::Lots kit />
                        <calendar::ExpiryDates kit />
                    }
                        .into_any()
                } else {
                    view! { <list::Empty /> }.into_any()
                }
            }}
            <list::Unnoted kit />
            <wanted::Wanted kit />
            <record::Record kit />
            <p class="follow">{words::app::follow()}</p>
            <add::AddSheet kit />
            <lot::LotSheet kit />
            <acts::CountSheet kit />
            <acts::MoveSheet kit />
            <acts::DiscardSheet kit />
            <acts::AmendSheet kit />
            <wanted::WantedSheet kit />
            <record::EntrySheet kit />
            <Foot slot>
                <Toast text=kit.told />
                <GoButton on_press=move |()| kit.sheet.set(Sheet::Add)>{said::add()}</GoButton>
            </Foot>
        </Apart>
    }
}

/// Which place is looked at: on a home visit only the bag counts.
#[component]
fn Where(kit: Kit) -> impl IntoView {
    let all = Item::new(None, said::everywhere());
    let places = Place::ALL.map(|place| Item::new(Some(place), said::place(place)));
    let items: Vec<_> = std::iter::once(all).chain(places).collect();
    view! {
        <Segment
            legend=said::where_label()
            legend_hidden=true
            items
            value=Signal::derive(move || Some(kit.place.get()))
            on_choose=move |place| kit.place.set(place)
        />
    }
}
