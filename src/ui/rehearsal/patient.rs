//! The simulated patient: what is seen and felt, and what is answered when it is asked.

use super::Run;
use crate::rehearsal::Condition;
use crate::ui::parts::Note;
use crate::ui::words::{self, rehearsal as said};
use leptos::prelude::*;

/// What is seen of the patient now.
#[component]
pub fn PatientSheet(run: Run, patient: Memo<Option<Condition>>) -> impl IntoView {
    let brief = run.scenario.brief();
    let lines = move |of: fn(&Condition) -> Vec<String>| {
        let found = patient.read().as_ref().map(of).unwrap_or_default();
        found.into_iter().map(|text| view! { <li>{text}</li> }).collect_view()
    };
    let asked = said::questions(brief);
    view! {
        <p>{said::story(run.scenario)}</p>
        <section class="patient" aria-live="off">
            <h3>{said::told_label()}</h3>
            <ul class="patient-lines">{move || lines(said::told)}</ul>
            <h3>{said::seen_label()}</h3>
            <ul class="patient-lines">{move || lines(said::seen)}</ul>
        </section>
        <h3>{said::ask()}</h3>
        // Answered when asked, as patients do.
        {asked
            .into_iter()
            .map(|(question, answer)| {
                view! {
                    <details class="more">
                        <summary>{question}</summary>
                        <p>{answer}</p>
                    </details>
                }
            })
            .collect_view()}
        {move || {
            patient
                .read()
                .as_ref()
                .map(|found| {
                    view! {
                        <details class="more">
                            <summary>{said::ask_flags()}</summary>
                            <p>{said::flags(found)}</p>
                        </details>
                    }
                })
        }}
        <h3>{said::bag_label()}</h3>
        <ul class="patient-lines">
            {said::bag(brief, crate::phone::clock::date(run.start))
                .into_iter()
                .map(|text| view! { <li>{text}</li> })
                .collect_view()}
        </ul>
        <Note>{said::refill_where()}</Note>
        <p class="hint">{words::rehearsal::model()}</p>
    }
}
