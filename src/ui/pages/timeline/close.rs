//! Closing a case: how it ended is asked, and what follow-up holds against that.

use super::{Record, Sheet};
use crate::care::rounds::{Act, End, HandOver};
use crate::case::{Event, Overridden};
use crate::ui::parts::{self, Choice, DangerButton, Item, Note, Tone};
use crate::ui::steps::ReasonSheet;
use crate::ui::words::{self, followup, rounds, timeline as said};
use leptos::prelude::*;

/// How it ended, before the reason for handing over is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Kind {
    Done,
    HandedOver,
    Stopped,
}

/// Asks how it ended and closes the case.
#[component]
pub(super) fn CloseSheet(record: Record) -> impl IntoView {
    let Record { id, held, desk, sheet, .. } = record;
    let kind = RwSignal::new(None::<Kind>);
    let reason = RwSignal::new(None::<HandOver>);
    let asked = RwSignal::new(false);
    let end = move || match (kind.get(), reason.get()) {
        (Some(Kind::Done), _) => Some(End::Done),
        (Some(Kind::Stopped), _) => Some(End::Stopped),
        (Some(Kind::HandedOver), Some(reason)) => Some(End::HandedOver(reason)),
        _ => None,
    };
    let otherwise = RwSignal::new(false);
    let close = Callback::new(move |()| {
        let Some(end) = untrack(end) else { return };
        let case = held.read_untracked().case.clone();
        // A treatment that was begun ends with the case, so that both say the same.
        if !case.treatment.rounds().is_empty() && case.treatment.end().is_none() {
            desk.record(id, Event::Round(Act::End(end)));
        }
        desk.record_then(id, Event::Closed(end), move || record.close_sheet());
    });
    // What follow-up holds against it; asked why, as there.
    let holds = Memo::new(move |_| {
        end().map(|end| followup::against(held.read().case.course().holds(end)))
    });
    let ask = move |()| match holds.get_untracked().as_deref() {
        None => asked.set(true),
        Some("") => close.run(()),
        Some(_) => {
            record.close_sheet();
            otherwise.set(true);
        }
    };
    let kinds = [
        Item::new(Kind::Done, said::done()),
        Item::new(Kind::HandedOver, said::handed_over()),
        Item::new(Kind::Stopped, said::stopped()),
    ];
    let reasons = rounds::HAND_OVERS.map(|reason| Item::new(reason, rounds::hand_over(reason)));
    view! {
        <parts::Sheet
            open=Signal::derive(move || *sheet.read() == Sheet::Close)
            on_close=Callback::new(move |()| record.close_sheet())
            heading=said::close()
            close_label=words::app::close()
            danger=true
        >
            {move || {
                let case = held.read().case.clone();
                let running = case.injecting().then_some(said::running());
                let reacting = case.reaction.active().then_some(said::reacting());
                [running, reacting]
                    .into_iter()
                    .flatten()
                    .map(|text| view! { <Note tone=Tone::Danger>{text}</Note> })
                    .collect_view()
            }}
            <Note tone=Tone::Caution>{said::close_warning()}</Note>
            <Choice
                legend=said::ended()
                items=kinds.to_vec()
                value=kind
                on_choose=move |chosen| kind.set(Some(chosen))
            />
            {
                let reasons = reasons.to_vec();
                move || {
                    (kind.get() == Some(Kind::HandedOver))
                        .then(|| {
                            view! {
                                <Choice
                                    legend=said::handed_over_why()
                                    items=reasons.clone()
                                    value=reason
                                    on_choose=move |chosen| reason.set(Some(chosen))
                                />
                            }
                        })
                }
            }
            {move || {
                (asked.get() && end().is_none())
                    .then(|| {
                        view! {
                            <Note tone=Tone::Danger alert=true>
                                {said::ended_wanted()}
                            </Note>
                        }
                    })
            }}
            <DangerButton on_press=ask>{said::close()}</DangerButton>
        </parts::Sheet>
        <ReasonSheet
            open=otherwise
            what=Overridden::Proposal
            against=Signal::derive(move || holds.get().unwrap_or_default())
            then=close
        />
    }
}
