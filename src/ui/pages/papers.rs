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
    set_title(said::title());
    let told = passing();
    view! {
        <Framed>
            <Title arrive=true>{said::title()}</Title>
            {if rehearsed() {
                view! { <Note tone=Tone::Caution>{said::rehearsed()}</Note> }.into_any()
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
        Handed::Refused => Some(said::failed().to_owned()),
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
        <p class="hint">{said::no_name()}</p>
        <section>
            <h2>{said::read()}</h2>
            <Rows>
                {row(said::note(), said::note_for(), Page::Paper(id, Paper::Note))}
                {row(said::patient(), said::patient_for(), Page::Paper(id, Paper::Patient))}
                {row(said::report(), said::report_for(), Page::Paper(id, Paper::Report))}
                <Row
                    label=said::label_label()
                    detail=Some(said::label_for().to_owned())
                    on_press=move |()| labelling.set(true)
                />
                {row(said::calendar(), said::calendar_for(), Page::FollowUp(id))}
            </Rows>
        </section>
        <section>
            <h2>{said::files()}</h2>
            <Rows>
                <Row
                    label=said::fhir()
                    detail=Some(said::fhir_for().to_owned())
                    on_press=bundle
                />
                {move || {
                    whole
                        .get()
                        .then(|| {
                            view! {
                                <Row
                                    label=said::case()
                                    detail=Some(said::case_for().to_owned())
                                    on_press=case
                                />
                            }
                        })
                }}
            </Rows>
            {move || {
                (!whole.get()).then(|| view! { <Note tone=Tone::Caution>{said::not_whole()}</Note> })
            }}
        </section>
        <LabelSheet open=labelling told />
    }
}
