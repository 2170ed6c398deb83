//! What was recorded in a case, entry by entry; and what can be added to it.

mod close;
mod entry;
mod lines;
mod write;

pub(super) use entry::Strike;
pub(in crate::ui) use lines::days;
pub(super) use lines::strikes;

use crate::case::{CaseId, Entry, Event, StrikeReason};
use crate::phone::clock;
use crate::phone::share::{self, Handed};
use crate::ui::app::{set_title, use_go};
use crate::ui::desk::{Desk, Held, use_desk};
use crate::ui::page::Page;
use crate::ui::parts::{
    self, Foot, GoButton, Note, Pair, QuietButton, Row, Rows, Screen, Title, Toast, Tone,
};
use crate::ui::rehearsal::rehearsed;
use crate::ui::steps::use_here;
use crate::ui::words::timeline as said;
use crate::ui::words::{self, time};
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

/// The case whose record is shown. Copied freely.
#[derive(Clone, Copy)]
struct Record {
    id: CaseId,
    held: Signal<Held>,
    desk: Desk,
    /// Which sheet is open.
    sheet: RwSignal<Sheet>,
    /// What was just done.
    told: RwSignal<Option<String>>,
}

/// What lies over the record.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Sheet {
    None,
    /// One entry, by its digest.
    Entry(String),
    Note,
    Rename,
    Close,
}

impl Record {
    /// Strikes out that the case was closed. How a treatment ended is taken back at its last step.
    fn reopen(self) {
        let held = self.held.get_untracked();
        let counts = |entry: &&Entry| !held.case.struck.contains(&entry.id());
        let closing = |entry: &&Entry| matches!(entry.event(), Event::Closed(_));
        for entry in held.journal.entries().iter().filter(closing).filter(counts) {
            let reason = StrikeReason::Slip;
            self.desk.record(self.id, Event::Struck { entry: entry.id(), reason });
        }
    }

    fn close_sheet(self) {
        self.sheet.set(Sheet::None);
    }

    /// Offers this case as a file.
    fn save(self) {
        let lines = self.held.read_untracked().lines();
        let name = said::file_name(&self.id.to_string());
        let keeping = share::keep(&name, "text/plain", &lines);
        let told = self.told;
        spawn_local(async move {
            told.try_set(match keeping.await {
                Handed::Refused => Some(words::app::keeping::file_failed().to_owned()),
                handed => words::handing::became(handed),
            });
        });
    }
}

/// The record of a case.
#[component]
pub fn TimelinePage() -> impl IntoView {
    let desk = use_desk();
    set_title(said::record());
    let here = use_here();
    let (id, held) = (here.id, here.signal());
    let (sheet, told) = (RwSignal::new(Sheet::None), passing());
    view! { <Shown record=Record { id, held, desk, sheet, told } /> }
}

#[component]
fn Shown(record: Record) -> impl IntoView {
    let Record { id, held, sheet, told, .. } = record;
    let go = use_go();
    // A rehearsal's record must never lie among the real ones.
    let kept = !rehearsed();
    let open = Memo::new(move |_| held.read().case.open());
    let pictured = Memo::new(move |_| kept && !held.read().case.pictures().is_empty());
    let reference = Signal::derive(move || {
        held.read().case.reference.as_ref().map(|name| name.as_str().to_owned())
    });
    let eyebrow = Signal::derive(move || {
        let case = held.read().case.clone();
        Some(match case.closed {
            Some((_, outcome)) => format!("{}: {}", said::closed(), words::rounds::end(outcome)),
            None => words::app::step(case.step()).to_owned(),
        })
    });
    view! {
        <Screen
            reference
            back=Callback::new(move |()| go.back())
            back_label=words::app::back()
            on_anaphylaxis=Callback::new(move |()| go.to(Page::Anaphylaxis(Some(id))))
            anaphylaxis_label=words::app::anaphylaxis()
        >
            <Title arrive=true eyebrow>{said::record()}</Title>
            <Chain held />
            <Days record />
            <section>
                <h2>{said::more()}</h2>
                <Rows>
                    <Row
                        label=words::handing::to_sheet()
                        detail=Some(said::hand_over_detail().to_owned())
                        on_press=move |()| go.to(Page::HandOver(id))
                    />
                    {kept
                        .then(|| {
                            view! {
                                <Row
                                    label=words::followup::title()
                                    detail=Some(words::followup::detail().to_owned())
                                    on_press=move |()| go.to(Page::FollowUp(id))
                                />
                                <Row
                                    label=words::papers::title()
                                    detail=Some(words::papers::detail().to_owned())
                                    on_press=move |()| go.to(Page::Papers(id))
                                />
                            }
                        })}
                    {move || {
                        pictured.get()
                            .then(|| {
                                view! {
                                    <Row
                                        label=words::photos::title()
                                        detail=Some(words::photos::detail().to_owned())
                                        on_press=move |()| go.to(Page::Photos(id))
                                    />
                                }
                            })
                    }}
                    <Row
                        label=said::rename()
                        detail=Some(said::rename_detail().to_owned())
                        on_press=move |()| sheet.set(Sheet::Rename)
                    />
                    {move || {
                        if open.get() {
                            view! {
                                <Row
                                    label=said::close()
                                    detail=Some(said::close_detail().to_owned())
                                    on_press=move |()| sheet.set(Sheet::Close)
                                />
                            }
                        } else {
                            view! {
                                <Row
                                    label=said::reopen()
                                    detail=Some(said::reopen_detail().to_owned())
                                    on_press=move |()| record.reopen()
                                />
                            }
                        }
                    }}
                </Rows>
            </section>
            <p class="follow">{words::app::follow()}</p>
            <entry::EntrySheet record />
            <write::NoteSheet record />
            <write::RenameSheet record />
            <close::CloseSheet record />
            <Foot slot>
                <Toast text=told />
                {move || {
                    if open.get() {
                        view! {
                            <GoButton on_press=move |()| {
                                go.to(Page::Case(id, None));
                            }>{said::on()}</GoButton>
                            <Pair>
                                <QuietButton on_press=move |()| {
                                    sheet.set(Sheet::Note);
                                }>{said::note()}</QuietButton>
                                {kept
                                    .then(|| {
                                        view! {
                                            <QuietButton on_press=move |()| {
                                                record.save();
                                            }>{said::save()}</QuietButton>
                                        }
                                    })}
                            </Pair>
                        }
                            .into_any()
                    } else {
                        view! {
                            {kept
                                .then(|| {
                                    view! {
                                        <GoButton on_press=move |()| {
                                            record.save();
                                        }>{said::save()}</GoButton>
                                    }
                                })}
                            <QuietButton on_press=move |()| {
                                sheet.set(Sheet::Note);
                            }>{said::note()}</QuietButton>
                        }
                            .into_any()
                    }
                }}
            </Foot>
        </Screen>
    }
}

/// Whether each entry follows from the one before; what is wrong where one does not.
#[component]
fn Chain(held: Signal<Held>) -> impl IntoView {
    let state = Memo::new(move |_| {
        let held = held.read();
        lines::chain(&held.journal, &held.aside.faults)
    });
    move || match state.get() {
        Ok(whole) => view! { <p class="hint">{whole}</p> }.into_any(),
        Err(faults) => view! {
            <Note tone=Tone::Danger heading=Some(said::trouble().to_owned())>
                {faults.into_iter().map(|fault| view! { <p>{fault}</p> }).collect_view()}
                <p>{said::trouble_why()}</p>
            </Note>
        }
        .into_any(),
    }
}

/// The entries, a list for each day by the clinic's own clock.
#[component]
fn Days(record: Record) -> impl IntoView {
    let Record { held, sheet, .. } = record;
    let days = Memo::new(move |_| lines::days(&held.read()));
    let dates = Memo::new(move |_| days.read().iter().map(|day| day.date).collect::<Vec<_>>());
    let today = clock::today();
    let day = move |date| {
        let entries = Signal::derive(move || {
            let days = days.read();
            days.iter().find(|day| day.date == date).map_or_else(Vec::new, |day| day.lines.clone())
        });
        let heading = if date == today { words::timeline::today(date) } else { time::day(date) };
        view! {
            <section>
                <h2>{heading}</h2>
                <parts::Timeline
                    entries
                    on_press=Callback::new(move |key| sheet.set(Sheet::Entry(key)))
                />
            </section>
        }
    };
    view! {
        <p class="hint">{said::record_of()}</p>
        <For each=move || dates.get() key=|date| *date children=day />
    }
}

/// Words for a [`Toast`] that go away by themselves, each after its own time.
pub(super) fn passing() -> RwSignal<Option<String>> {
    const SHOWN: std::time::Duration = std::time::Duration::from_secs(6);
    let told = RwSignal::new(None::<String>);
    Effect::new(move |before: Option<Option<TimeoutHandle>>| {
        if let Some(before) = before.flatten() {
            before.clear();
        }
        told.read().as_ref()?;
        let forget = move || {
            told.try_set(None);
        };
        set_timeout(forget, SHOWN).ok()
    });
    told
}
