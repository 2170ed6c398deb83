//! The anaphylaxis sheet: one tap from everywhere, with a case or without one.
//!
//! What stands in the large heading and on the large button is always the one next thing. Without
//! a case the first act opens one, so that the moments are kept.

mod dose;
mod kept;
mod log;
mod over;
mod patient;
mod signs;
mod states;
mod whom;

use crate::care::anaphylaxis::{Act, Reaction};
use crate::case::{Case, CaseId, Event, Reference};
use crate::measure::Moment;
use crate::phone::use_now;
use crate::protocol::{Protocol, Region};
use crate::ui::alarm::{self, Alarm, use_alarm};
use crate::ui::app::{Go, set_title, use_go};
use crate::ui::desk::{Desk, Held, use_desk};
use crate::ui::page::Page;
use crate::ui::parts::{Note, Tone};
use crate::ui::tap::Taps;
use crate::ui::words::sheet as said;
use leptos::prelude::*;
use std::sync::Arc;
use whom::{Typed, Whom};

/// Where a reaction stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Stage {
    /// No adrenaline yet.
    First,
    /// Given; the time to the next dose runs.
    Waiting,
    /// Time for the next dose, unless better.
    Again,
    /// Better since the last dose.
    Better,
    /// Over, or taken over.
    Over,
}

fn stage(reaction: &Reaction, now: Moment, protocol: &Protocol) -> Stage {
    if reaction.started().is_some() && !reaction.active() {
        return Stage::Over;
    }
    if reaction.better() {
        return Stage::Better;
    }
    match reaction.next_dose(protocol) {
        None => Stage::First,
        Some(due) if now < due => Stage::Waiting,
        Some(_) => Stage::Again,
    }
}

/// What the parts of the page share. Copied freely.
#[derive(Clone, Copy)]
struct Sheet {
    case: Signal<Option<CaseId>>,
    opened: RwSignal<Option<CaseId>>,
    unnamed: RwSignal<bool>,
    whom: RwSignal<Whom>,
    typed: RwSignal<Typed>,
    desk: Desk,
    go: Go,
    taps: Taps,
    alarm: Alarm,
}

impl Sheet {
    /// The case and its journal, tracked.
    fn held(self) -> Option<Held> {
        self.case.get().and_then(|id| self.desk.held(id))
    }

    /// The case, tracked.
    fn case(self) -> Option<Arc<Case>> {
        self.held().map(|held| held.case)
    }

    /// The reaction, tracked.
    fn reaction(self) -> Reaction {
        self.case().map(|case| case.reaction.clone()).unwrap_or_default()
    }

    /// The values that apply, tracked.
    fn protocol(self) -> Protocol {
        self.case().map_or_else(|| self.desk.protocol(), |case| case.protocol.clone())
    }

    /// Takes something down, unless the tap bounced.
    fn act(self, act: Act) {
        self.taps.once(|| self.record(Event::Anaphylaxis(act)));
    }

    /// Whose tables go from now on. In a case that is recorded; without one it is with the first act.
    fn choose(self, region: Region) {
        self.say(|whom| {
            whom.region = region;
            whom.chosen = None;
        });
        let there = self.case.get_untracked().is_some();
        if there && untrack(|| self.protocol()).region != region {
            self.record(Event::Region(region));
        }
    }

    /// Records in the case; opens one if there is none.
    fn record(self, event: Event) {
        if let Some(id) = self.case.get_untracked() {
            self.desk.record(id, event);
            return;
        }
        let Self { desk, go, whom, typed, opened, .. } = self;
        let region = whom.get_untracked().region;
        let other = untrack(|| desk.protocol()).region != region;
        let id = Reference::new(&said::reference(desk.now())).and_then(|reference| {
            desk.open_case(reference, move |id| {
                if other {
                    desk.record(id, Event::Region(region));
                }
                desk.record_then(id, event, move || {
                    // For the page that takes this one's place.
                    let said = whom.try_get_untracked().zip(typed.try_get_untracked());
                    if let Some((whom, typed)) = said {
                        kept::keep(id, whom, typed);
                    }
                    go.instead(Page::Anaphylaxis(Some(id)));
                });
            })
        });
        opened.set(id);
        self.unnamed.set(id.is_none());
    }
}

/// The anaphylaxis sheet.
#[component]
pub fn AnaphylaxisPage(
    /// The case that it belongs to; without one, the first act opens one.
    case: Option<CaseId>,
) -> impl IntoView {
    set_title(said::title());
    let now = use_now();
    let desk = use_desk();
    let opened = RwSignal::new(None);
    let of = Signal::derive(move || case.or_else(|| opened.get()));
    let sheet = Sheet {
        case: of,
        opened,
        unnamed: RwSignal::new(false),
        whom: RwSignal::new(Whom::default()),
        typed: RwSignal::new(Typed::default()),
        desk,
        go: use_go(),
        taps: Taps::new(),
        alarm: use_alarm().of(of),
    };
    alarm::prepare();
    sheet.take_up();
    let stage = Memo::new(move |_| stage(&sheet.reaction(), now.get(), &sheet.protocol()));
    view! {
        {move || match stage.get() {
            Stage::First => view! { <states::First sheet /> }.into_any(),
            Stage::Waiting => view! { <states::Waiting sheet /> }.into_any(),
            Stage::Again => view! { <states::Again sheet /> }.into_any(),
            Stage::Better => view! { <states::Better sheet /> }.into_any(),
            Stage::Over => view! { <over::Over sheet /> }.into_any(),
        }}
    }
}

/// Nothing can be taken down here.
#[component]
fn Unnamed(sheet: Sheet) -> impl IntoView {
    move || {
        sheet
            .unnamed
            .get()
            .then(|| view! { <Note tone=Tone::Danger alert=true>{said::no_name()}</Note> })
    }
}
