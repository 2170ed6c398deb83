//! The root: what outlives every page, and which page is shown.

pub use super::title::set_title;

use super::desk::{Desk, Whereabouts, use_desk};
use super::page::Page;
use super::tap::once_pressed;
use super::{alarm, lock, pages, plain, rehearsal, steps};
use crate::case::{CaseId, Step};
use crate::phone::{self, notice};
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
    // Before anything that draws an entry, and so might stop the app over it.
    plain::watch(use_desk());
    alarm::provide();
    rehearsal::provide();
    lock::watch(use_desk());
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
    // A notification that was tapped leads to its case, wherever the user was.
    let to = use_go();
    let desk = use_desk();
    let chosen = RwSignal::new(None);
    StoredValue::new_local(notice::on_chosen(move |name| chosen.set(name.parse::<CaseId>().ok())));
    Effect::new(move |_| {
        // Before the phone has been read nobody knows whether the case is in a severe reaction, and in
        // one nothing of the skin comes before its sheet.
        let Some(id) = chosen.get().filter(|_| desk.ready()) else { return };
        chosen.set(None);
        let reacting = untrack(|| desk.held(id)).is_some_and(|held| held.case.reaction.active());
        to.to(if reacting { Page::Anaphylaxis(Some(id)) } else { Page::Case(id, None) });
    });
    super::photo::provide_sweep(desk);
    let rehearsals = rehearsal::use_rehearsals();
    // Pages of the rehearsal's case are its own, all others the real ones.
    let staged = Memo::new(move |_| {
        rehearsals
            .running()
            .filter(|run| page.get().of_case() == Some(run.case))
            .map(|run| run.case)
    });
    view! {
        <pages::keeping::Notices page />
        {move || match staged.get().and_then(|_| untrack(|| rehearsals.running())) {
            Some(run) => view! { <rehearsal::Stage run page /> }.into_any(),
            None => view! { <Pages page /> }.into_any(),
        }}
    }
}

/// A page, whatever desk and clock it stands on.
#[component]
pub fn Pages(
    /// Which.
    page: Memo<Page>,
) -> impl IntoView {
    let desk = use_desk();
    move || {
        let page = page.get();
        // A page of a case waits until the phone has been read; the sheet and the sums do not.
        match page {
            Page::Home => view! { <pages::home::Home /> }.into_any(),
            Page::Case(id, step) => {
                pages::of_case(id, move || view! { <steps::CasePage step /> }.into_any()).into_any()
            }
            Page::Outline(id) => pages::of_case(id, move || {
                view! { <pages::outline::OutlinePage to=Step::Strength /> }.into_any()
            })
            .into_any(),
            Page::Redraw(id) => pages::of_case(id, move || {
                view! { <pages::outline::OutlinePage to=Step::Rounds /> }.into_any()
            })
            .into_any(),
            Page::Besides(id) => {
                pages::of_case(id, || view! { <pages::besides::BesidesPage /> }.into_any())
                    .into_any()
            }
            Page::HandOver(id) => {
                pages::of_case(id, || view! { <pages::handover::HandOverPage /> }.into_any())
                    .into_any()
            }
            Page::Timeline(id) => {
                pages::of_case(id, || view! { <pages::timeline::TimelinePage /> }.into_any())
                    .into_any()
            }
            Page::Papers(id) => {
                pages::of_case(id, move || view! { <pages::papers::PapersPage id /> }.into_any())
                    .into_any()
            }
            Page::Paper(id, paper) => pages::of_case(id, move || {
                view! { <pages::paper::PaperPage id paper /> }.into_any()
            })
            .into_any(),
            Page::FollowUp(id) => pages::of_case(id, move || {
                view! { <pages::followup::FollowUpPage id /> }.into_any()
            })
            .into_any(),
            Page::Photos(id) => {
                pages::of_case(id, move || view! { <pages::photos::PhotosPage /> }.into_any())
                    .into_any()
            }
            // The sheet waits for nothing.
            Page::Anaphylaxis(case) => {
                // Of a case that lies sealed nothing is known, and nothing can be added to it.
                let case = case
                    .filter(|id| !(desk.locked() && desk.whereabouts(*id) == Whereabouts::Locked));
                Effect::new(move |_| case.map(|id| desk.want_at_hand(id)));
                view! { <pages::anaphylaxis::AnaphylaxisPage case /> }.into_any()
            }
            Page::Sums => view! { <pages::sums::Sums /> }.into_any(),
            // Setting one value on defaults that are not the clinic's would lose the others.
            Page::Values if desk.ready() => view! { <pages::values::Values /> }.into_any(),
            Page::Contacts if desk.ready() => {
                view! { <pages::contacts::ContactsPage /> }.into_any()
            }
            Page::Kit | Page::Records | Page::Found(_) | Page::Backup
                if desk.ready() && desk.locked() =>
            {
                view! { <pages::lock::LockedPage /> }.into_any()
            }
            Page::Kit if desk.ready() => view! { <pages::kit::KitPage /> }.into_any(),
            Page::Records if desk.ready() => {
                view! { <pages::records::RecordsPage lot=None /> }.into_any()
            }
            Page::Found(lot) if desk.ready() => {
                view! { <pages::records::RecordsPage lot=Some(lot) /> }.into_any()
            }
            Page::Lock if desk.ready() => view! { <pages::lock::LockPage /> }.into_any(),
            Page::Backup if desk.ready() => view! { <pages::backup::BackupPage /> }.into_any(),
            Page::Values
            | Page::Contacts
            | Page::Kit
            | Page::Records
            | Page::Found(_)
            | Page::Lock
            | Page::Backup => view! { <pages::keeping::Reading /> }.into_any(),
            Page::Ringing => view! { <pages::ringing::RingingPage /> }.into_any(),
            Page::Rehearsal => view! { <pages::rehearsal::RehearsalPage /> }.into_any(),
            Page::Language => view! { <pages::language::LanguagePage /> }.into_any(),
            Page::About => view! { <pages::about::About /> }.into_any(),
        }
    }
}

/// Goes to another page, [`once_pressed`].
#[derive(Clone, Copy)]
pub struct Go(StoredValue<Box<dyn Fn(Page, bool)>, LocalStorage>);

impl Go {
    fn new(go: impl Fn(Page, bool) + 'static) -> Self {
        Self(StoredValue::new_local(Box::new(go)))
    }

    /// To a page, so that the phone's back leads here again.
    pub fn to(self, page: Page) {
        once_pressed(move || self.0.with_value(|go| go(page, false)));
    }

    /// To a page in place of this one.
    pub fn instead(self, page: Page) {
        once_pressed(move || self.0.with_value(|go| go(page, true)));
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
