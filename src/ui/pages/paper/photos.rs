//! Photos on the printed note: only those that the user ticks, and none to begin with.

use crate::measure::{Hash, Moment};
use crate::record::note::Note as Facts;
use crate::ui::parts::{Item, Tick};
use crate::ui::photo::{Fetched, fetch};
use crate::ui::steps::Here;
use crate::ui::words::note as said;
use leptos::prelude::*;
use std::collections::BTreeMap;
use wasm_bindgen_futures::spawn_local;

/// Photos ticked, each as it is fetched.
#[derive(Clone, Copy)]
pub(super) struct Chosen(RwSignal<BTreeMap<Hash, Fetched>>);

impl Chosen {
    /// None, as every page begins.
    pub(super) fn none() -> Self {
        Self(RwSignal::new(BTreeMap::new()))
    }

    fn set(self, name: Hash, ticked: bool) {
        if !ticked {
            self.0.update(|chosen| {
                chosen.remove(&name);
            });
            return;
        }
        self.0.update(|chosen| {
            chosen.insert(name, Fetched::Waiting);
        });
        spawn_local(async move {
            let found = fetch(name).await;
            // Unticked, or gone, meanwhile: then it is not wanted.
            self.0.try_update(|chosen| {
                if let Some(waiting) = chosen.get_mut(&name) {
                    *waiting = found;
                }
            });
        });
    }
}

/// Photos that are on this phone, by the record: the newest last, each once.
fn there(here: Here) -> Vec<(Moment, Hash)> {
    let pictures = here.case().pictures();
    let there = pictures.into_iter().filter(|picture| picture.removed.is_none());
    there.map(|picture| (picture.at, picture.name)).collect()
}

/// A tick for each photo; nothing where there is none.
#[component]
pub(super) fn PhotoTicks(here: Here, written: Signal<Facts>, chosen: Chosen) -> impl IntoView {
    let all = Memo::new(move |_| there(here));
    let items = Signal::derive(move || -> Vec<Item<Hash>> {
        let facts = written.read();
        all.get().into_iter().map(|(at, name)| Item::new(name, said::photo(&facts, at))).collect()
    });
    let value = Signal::derive(move || chosen.0.read().keys().copied().collect::<Vec<Hash>>());
    let any = Memo::new(move |_| !all.read().is_empty());
    move || {
        any.get().then(|| {
            view! {
                <Tick
                    legend=said::photos()
                    items
                    value
                    on_change=move |(name, ticked)| chosen.set(name, ticked)
                />
                <p class="hint">{said::photos_why()}</p>
            }
        })
    }
}

/// The photos ticked, each with its moment.
#[component]
pub(super) fn PhotoPages(here: Here, written: Signal<Facts>, chosen: Chosen) -> impl IntoView {
    move || {
        let shown = chosen.0.get();
        there(here)
            .into_iter()
            .filter_map(|(at, name)| {
                let alt = said::photo(&written.read(), at);
                Some(match shown.get(&name)? {
                    Fetched::Waiting => ().into_any(),
                    Fetched::Gone => view! { <p>{said::no_photo()}</p> }.into_any(),
                    Fetched::Here(url) => view! {
                        <figure class="paper-photo">
                            <img src=url.as_str().to_owned() alt=alt.clone() />
                            <figcaption>{alt}</figcaption>
                        </figure>
                    }
                    .into_any(),
                })
            })
            .collect_view()
    }
}
