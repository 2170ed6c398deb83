//! Everything of a case that can leave the phone.

mod label;

use crate::case::CaseId;
use crate::phone::share::{self, Handed};
use crate::phone::use_clock;
use crate::record::{fhir, file};
use crate::ui::app::{set_title, use_go};
use crate::ui::page::{Page, Paper};
use crate::ui::pages::Framed;
use crate::ui::pages::timeline::passing;
use crate::ui::parts::{Foot, Note, Row, Rows, Title, Toast, Tone};
use crate::ui::rehearsal::rehearsed;
use crate::ui::steps::use_here;
use crate::ui::words::{self, papers as said};
use label::LabelSheet;
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

/// Everything of a case that can leave the phone.
#[component]
pub fn PapersPage(
    /// Which case.
    id: CaseId,
) -> impl IntoView {
    set_title(said::TITLE);
    let told = passing();
    view! {
        <Framed>
            <Title arrive=true>{said::TITLE}</Title>
            {if rehearsed() {
                view! { <Note tone=Tone::Caution>{said::REHEARSED}</Note> }.into_any()
            } else {
                view! { <Papers id told /> }.into_any()
            }}
            <Foot slot>
                <Toast text=told />
            </Foot>
        </Framed>
    }
}

/// Says what became of what was handed on.
fn tell(told: RwSignal<Option<String>>, handed: Handed) {
    told.try_set(match handed {
        Handed::Refused => Some(said::FAILED.to_owned()),
        handed => words::handing::became(handed),
    });
}

#[component]
fn Papers(
    /// Which case.
    id: CaseId,
    /// What became of the last one.
    told: RwSignal<Option<String>>,
) -> impl IntoView {
    let go = use_go();
    let here = use_here();
    let clock = use_clock();
    let labelling = RwSignal::new(false);
    let give = move |ending: &str, kind: &str, text: &str| {
        let sharing = share::file(&said::file_name(&id.to_string(), ending), kind, text);
        spawn_local(async move { tell(told, sharing.await) });
    };
    let bundle = move |()| {
        let held = untrack(|| here.held());
        give("fhir.json", said::FHIR_KIND, &fhir::write(&held.case, &held.journal, clock.now()));
    };
    let case = move |()| {
        let held = untrack(|| here.held());
        give("case.json", said::CASE_KIND, &file::write(&held.journal, clock.now()));
    };
    let whole = Memo::new(move |_| here.held().aside.faults.is_empty());
    let row = move |label: &'static str, detail: &'static str, to: Page| {
        view! { <Row label detail=Some(detail.to_owned()) on_press=move |()| go.to(to) /> }
    };
    view! {
        <p class="hint">{said::NO_NAME}</p>
        <section>
            <h2>{said::READ}</h2>
            <Rows>
                {row(said::NOTE, said::NOTE_FOR, Page::Paper(id, Paper::Note))}
                {row(said::PATIENT, said::PATIENT_FOR, Page::Paper(id, Paper::Patient))}
                {row(said::REPORT, said::REPORT_FOR, Page::Paper(id, Paper::Report))}
                <Row
                    label=said::LABEL
                    detail=Some(said::LABEL_FOR.to_owned())
                    on_press=move |()| labelling.set(true)
                />
                {row(said::CALENDAR, said::CALENDAR_FOR, Page::FollowUp(id))}
            </Rows>
        </section>
        <section>
            <h2>{said::FILES}</h2>
            <Rows>
                <Row
                    label=said::FHIR
                    detail=Some(said::FHIR_FOR.to_owned())
                    on_press=bundle
                />
                {move || {
                    whole
                        .get()
                        .then(|| {
                            view! {
                                <Row
                                    label=said::CASE
                                    detail=Some(said::CASE_FOR.to_owned())
                                    on_press=case
                                />
                            }
                        })
                }}
            </Rows>
            {move || {
                (!whole.get()).then(|| view! { <Note tone=Tone::Caution>{said::NOT_WHOLE}</Note> })
            }}
        </section>
        <LabelSheet open=labelling told />
    }
}
