//! Every clinical value: what is in force, who says so, and setting it.

mod setting;
mod typing;

pub use typing::{slip, usual};

use crate::protocol::source;
use crate::protocol::{Control, Id, Protocol, Region, Value};
use crate::ui::app::set_title;
use crate::ui::desk::use_desk;
use crate::ui::pages::Apart;
use crate::ui::parts::{Item, Note, Row, Rows, Segment, Title, Toast, Tone, Why};
use crate::ui::words::values::{self as said, Group};
use crate::ui::words::{self, numbers};
use leptos::prelude::*;

/// The clinic's values.
#[component]
pub fn Values() -> impl IntoView {
    let desk = use_desk();
    set_title(said::title());
    let chosen = RwSignal::new(None::<Id>);
    let told = super::timeline::passing();
    let changed = Memo::new(move |_| {
        let protocol = desk.protocol();
        Protocol::table().iter().filter(|value| protocol.get(value.id) != value.default).count()
    });
    let regions = [Region::Uk, Region::Australia]
        .map(|region| Item::new(region, words::anaphylaxis::region(region)))
        .to_vec();
    let region = move |region: Region| {
        desk.set_protocol(Protocol { region, ..untrack(|| desk.protocol()) }, || ());
    };
    view! {
        <Apart>
            <Title arrive=true eyebrow=Signal::derive(move || {
                Some(said::changed_count(changed.get()))
            })>{said::title()}</Title>
            <Note tone=Tone::Caution>{said::local()}</Note>
            <Note>{said::only_new()}</Note>
            <Segment
                legend=said::region()
                items=regions
                value=Signal::derive(move || Some(desk.protocol().region))
                on_choose=region
            />
            {said::GROUPS.iter().map(|group| view! { <GroupRows group=*group chosen /> }).collect_view()}
            <AllSources />
            <p class="follow">{words::app::follow()}</p>
            <setting::SettingSheet chosen told />
            <Toast text=told />
        </Apart>
    }
}

/// The values of one part of the work.
#[component]
fn GroupRows(group: Group, chosen: RwSignal<Option<Id>>) -> impl IntoView {
    let desk = use_desk();
    let rows = Protocol::table()
        .iter()
        .filter(|value| said::group_of(value.id) == group)
        .map(|value| {
            let id = value.id;
            let shown = Signal::derive(move || Some(numbers::quantity(desk.protocol().get(id))));
            let detail = Signal::derive(move || marks(value, &desk.protocol()));
            view! {
                <Row
                    label=words::protocol::value(id)
                    detail
                    trailing=shown
                    on_press=move |()| chosen.set(Some(id))
                />
            }
        })
        .collect_view();
    view! {
        <section>
            <h2>{said::group(group)}</h2>
            <Rows>{rows}</Rows>
        </section>
    }
}

/// What is to be known of a value at a glance.
fn marks(value: &Value, protocol: &Protocol) -> Option<String> {
    let set = (protocol.get(value.id) != value.default).then(|| said::changed(value.default));
    let fixed = (value.control == Control::Fixed).then(|| said::fixed().to_owned());
    let disputed = value.disputed().then(|| said::disputed().to_owned());
    let marks: Vec<String> = [set, fixed, disputed].into_iter().flatten().collect();
    (!marks.is_empty()).then(|| marks.join(" · "))
}

/// Every publication that a value is taken from.
#[component]
fn AllSources() -> impl IntoView {
    let list = || {
        source::ALL
            .iter()
            .map(|source| {
                let locator =
                    if source.locator.is_empty() { said::no_locator() } else { source.locator };
                view! {
                    <li>
                        <p>{source.citation}</p>
                        <p class="finding-source">{locator}</p>
                    </li>
                }
            })
            .collect_view()
    };
    view! {
        <section>
            <h2>{said::sources_label()}</h2>
            <Why summary=said::sources(source::ALL.len())>
                <p>{said::sources_why()}</p>
                <ul class="findings">{list()}</ul>
            </Why>
        </section>
    }
}
