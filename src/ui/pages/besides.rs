//! What is given besides the enzyme: what the sources say of each, and what was chosen.
//!
//! | file | what it is |
//! |---|---|
//! | `one` | one of them: sayings, conflicts, what is chosen |
//! | `aspirin` | whether aspirin may be given, and its dose |
//! | `asking` | what is asked before aspirin |

mod asking;
mod aspirin;
mod one;

use crate::care::adjunct::{Act, Choice};
use crate::case::{Event, Step, StrikeReason};
use crate::protocol::adjunct::Adjunct;
use crate::ui::app::{set_title, use_go};
use crate::ui::page::Page;
use crate::ui::parts::{Foot, Note, QuietButton, Row, Rows, Sheet, Title};
use crate::ui::steps::{CaseScreen, ConflictNote, Here, use_here};
use crate::ui::tap::Taps;
use crate::ui::words::{self, adjunct as said};
use leptos::prelude::*;

/// What the parts of this page share.
#[derive(Clone, Copy)]
struct Besides {
    here: Here,
    /// Which one is open.
    open: RwSignal<Option<Adjunct>>,
    /// What is asked before aspirin is being asked.
    asking: RwSignal<bool>,
    taps: Taps,
}

impl Besides {
    /// Takes something down once, however often it is tapped, and closes what was open.
    fn take(self, act: impl FnOnce()) {
        self.taps.once(|| {
            // First what is recorded: it is read from what was open.
            act();
            self.open.set(None);
        });
    }

    fn chose(self, adjunct: Adjunct, choice: Choice) {
        self.here.record(Event::Adjunct(Act::Chose(adjunct, choice)));
    }

    /// Strikes out what was chosen last of one.
    fn strike_last(self, adjunct: Adjunct) {
        let held = untrack(|| self.here.held());
        let last = held.journal.entries().iter().rev().find(|entry| {
            matches!(entry.event(), Event::Adjunct(Act::Chose(which, _)) if *which == adjunct)
                && !held.case.struck.contains(&entry.id())
        });
        if let Some(entry) = last.map(crate::case::Entry::id) {
            self.here.record(Event::Struck { entry, reason: StrikeReason::Slip });
        }
    }
}

/// What is given besides the enzyme.
#[component]
pub fn BesidesPage() -> impl IntoView {
    set_title(said::title());
    let page = Besides {
        here: use_here(),
        open: RwSignal::new(None),
        asking: RwSignal::new(false),
        taps: Taps::new(),
    };
    move || {
        if page.asking.get() {
            view! { <asking::Asking page /> }.into_any()
        } else {
            view! { <List page /> }.into_any()
        }
    }
}

/// All of them.
#[component]
fn List(page: Besides) -> impl IntoView {
    let go = use_go();
    let here = page.here;
    // In place of this page, so that the phone's back does not lead into it again.
    let leave = move |()| go.instead(Page::Case(here.id, Some(Step::Rounds)));
    let open = Signal::derive(move || page.open.get().is_some());
    // The sheet keeps its words while it closes.
    let heading = Memo::new(move |before: Option<&Option<Adjunct>>| {
        page.open.get().or(before.copied().flatten())
    });
    view! {
        <CaseScreen step=Step::Rounds back=Callback::new(leave)>
            <Title arrive=true>{said::title()}</Title>
            <Note>
                {said::not_instead()} <span class="source">{said::effect_source()}</span>
            </Note>
            <ConflictNote />
            <Rows>
                {Adjunct::ALL
                    .into_iter()
                    .map(|adjunct| view! { <OneRow page adjunct /> })
                    .collect_view()}
            </Rows>
            <p class="follow">{words::app::follow()}</p>
            <Sheet
                open
                on_close=Callback::new(move |()| page.open.set(None))
                heading=Signal::derive(move || {
                    heading.get().map(said::adjunct).unwrap_or_default().to_owned()
                })
                close_label=words::app::close()
            >
                {move || page.open.get().map(|adjunct| view! { <one::One page adjunct /> })}
            </Sheet>
            <Foot slot>
                <QuietButton on_press=leave>{said::back()}</QuietButton>
            </Foot>
        </CaseScreen>
    }
}

#[component]
fn OneRow(page: Besides, adjunct: Adjunct) -> impl IntoView {
    let last = Memo::new(move |_| page.here.case().adjuncts.last(adjunct));
    view! {
        <Row
            label=said::adjunct(adjunct)
            detail=Some(said::stances(adjunct))
            trailing=Signal::derive(move || last.get().map(|chosen| said::state(&chosen)))
            on_press=move |()| page.open.set(Some(adjunct))
        />
    }
}
