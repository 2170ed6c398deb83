//! The root: what outlives every page, and which page is shown.

use super::desk::Desk;
use super::page::Page;
use super::{alarm, pages, steps, words};
use crate::phone;
use leptos::prelude::*;
use leptos_router::NavigateOptions;
use leptos_router::components::Router;
use leptos_router::hooks::{use_navigate, use_query_map};
use wasm_bindgen::JsCast;

/// Mounts the app into the element that `index.html` keeps for it.
pub fn mount() {
    let place = document().get_element_by_id("app").and_then(|place| place.dyn_into().ok());
    if let Some(place) = place {
        mount_to(place, App).forget();
    }
}

/// Everything.
#[component]
fn App() -> impl IntoView {
    phone::provide();
    provide_context(Desk::open());
    alarm::provide();
    // The app lives wherever its files do: at the root of a host or in any folder of it.
    let path = window().location().pathname().unwrap_or_default();
    // With the stroke at its end: without it neither a host nor the app's worker knows the folder.
    let base = path.rfind('/').map_or("", |end| &path[..=end]).to_owned();
    view! {
        <Router base=base>
            <Shown />
        </Router>
    }
}

/// The page that the address names.
#[component]
fn Shown() -> impl IntoView {
    let query = use_query_map();
    let page = Memo::new(move |_| Page::read(&query.read()));
    let go = use_navigate();
    provide_context(Go::new(move |page: Page, replace| {
        go(&page.query(), NavigateOptions { replace, scroll: true, ..NavigateOptions::default() });
    }));
    pages::keeping::watch();
    view! {
        <pages::keeping::Notices />
        <Pages page />
    }
}

/// A page, whatever desk and clock it stands on.
#[component]
pub fn Pages(
    /// Which.
    page: Memo<Page>,
) -> impl IntoView {
    let desk = super::desk::use_desk();
    move || {
        let page = page.get();
        // A page of a case waits until the phone has been read; the sheet and the sums do not.
        match page {
            Page::Home => view! { <pages::home::Home /> }.into_any(),
            Page::Case(id, step) => {
                if desk.ready() {
                    view! { <steps::CasePage id step /> }.into_any()
                } else {
                    view! { <pages::keeping::Reading /> }.into_any()
                }
            }
            Page::Outline(id) => view! { <pages::outline::OutlinePage id /> }.into_any(),
            Page::HandOver(id) => view! { <pages::handover::HandOverPage id /> }.into_any(),
            Page::Timeline(id) => view! { <pages::timeline::TimelinePage id /> }.into_any(),
            Page::Anaphylaxis(case) => {
                view! { <pages::anaphylaxis::AnaphylaxisPage case /> }.into_any()
            }
            Page::Sums => view! { <pages::sums::Sums /> }.into_any(),
            // Setting one value on defaults that are not the clinic's would lose the others.
            Page::Values if desk.ready() => view! { <pages::values::Values /> }.into_any(),
            Page::Contacts if desk.ready() => {
                view! { <pages::contacts::ContactsPage /> }.into_any()
            }
            Page::Values | Page::Contacts => view! { <pages::keeping::Reading /> }.into_any(),
            Page::Ringing => view! { <pages::ringing::RingingPage /> }.into_any(),
            Page::Rehearsal => view! { <pages::rehearsal::RehearsalPage /> }.into_any(),
            Page::About => view! { <pages::about::About /> }.into_any(),
        }
    }
}

/// Goes to another page.
#[derive(Clone, Copy)]
pub struct Go(StoredValue<Box<dyn Fn(Page, bool)>, LocalStorage>);

impl Go {
    fn new(go: impl Fn(Page, bool) + 'static) -> Self {
        Self(StoredValue::new_local(Box::new(go)))
    }

    /// To a page, so that the phone's back leads here again.
    pub fn to(self, page: Page) {
        self.0.with_value(|go| go(page, false));
    }

    /// To a page in place of this one.
    pub fn instead(self, page: Page) {
        self.0.with_value(|go| go(page, true));
    }

    /// Back to where the user came from; home if the app was opened here.
    pub fn back(self) {
        let history = window().history();
        match history {
            Ok(history) if history.length().is_ok_and(|length| length > 1) => {
                let _ = history.back();
            }
            _ => self.instead(Page::Home),
        }
    }
}

/// The way to other pages.
///
/// # Panics
/// If no component above provided it.
pub fn use_go() -> Go {
    expect_context::<Go>()
}

/// The name in the browser's title.
pub fn set_title(text: &str) {
    document().set_title(&format!("{text} · {}", words::app::NAME));
}
