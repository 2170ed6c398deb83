//! What was done in a rehearsal, and what came of it.

use crate::measure::Span;
use crate::rehearsal::{Debrief, Verdict};
use crate::ui::app::use_go;
use crate::ui::page::Page;
use crate::ui::parts::{
    self, Figure, Figures, Foot, GoButton, Note, Screen, Title, Tone, Verdict as Block,
};
use crate::ui::rehearsal::use_rehearsals;
use crate::ui::words::{self, debrief as said, numbers, rehearsal, time};
use leptos::prelude::*;

/// The debrief.
#[component]
pub fn DebriefView(
    /// Of which rehearsal.
    debrief: Debrief,
) -> impl IntoView {
    let go = use_go();
    let rehearsals = use_rehearsals();
    let harm = debrief.findings.iter().any(|found| found.verdict == Verdict::Dangerous);
    let calm = debrief.good && !harm;
    let outcome = if calm { parts::Outcome::Planned } else { parts::Outcome::Urgent };
    let word = rehearsal::name(debrief.scenario);
    let heading = said::headline(&debrief);
    let unkept = move || {
        rehearsals.unkept().map(|why| format!("{}: {}", said::unkept(), words::app::refusal(&why)))
    };
    view! {
        <Screen
            reference=Some(rehearsal::mark().to_owned())
            back=Callback::new(move |()| rehearsals.show(None))
            back_label=words::app::back()
            on_anaphylaxis=Callback::new(move |()| go.to(Page::Anaphylaxis(None)))
            anaphylaxis_label=words::app::anaphylaxis()
        >
            <Title arrive=true>{said::title()}</Title>
            {move || unkept().map(|text| view! { <Note tone=Tone::Caution>{text}</Note> })}
            <Block outcome word heading />
            <Took debrief=debrief.clone() />
            <Gave debrief=debrief.clone() />
            {[Verdict::Dangerous, Verdict::Improve, Verdict::Good]
                .map(|verdict| view! { <Findings debrief=debrief.clone() verdict /> })}
            <p class="hint">{rehearsal::model()}</p>
            <Foot slot>
                <GoButton on_press=move |()| rehearsals.show(None)>{said::again()}</GoButton>
            </Foot>
        </Screen>
    }
}

/// The times: those that this patient asked for.
#[component]
fn Took(debrief: Debrief) -> impl IntoView {
    let times = debrief.times;
    let figures = [
        (said::until_recognised(), times.recognition, true),
        (said::until_first_unit(), times.first_unit, true),
        (said::until_perfused(), times.perfused, false),
        (said::until_adrenaline(), times.first_adrenaline, false),
        (said::until_handed_over(), times.handover, false),
    ]
    .into_iter()
    .filter(|(_, time, always)| *always || time.is_some())
    .map(|(label, time, _)| {
        let number =
            time.map_or_else(|| said::not_done().to_owned(), |time: Span| time::span(time));
        view! { <Figure label number /> }
    })
    .collect_view();
    view! {
        <section>
            <h2>{said::times()}</h2>
            <Figures>{figures}</Figures>
            {said::overdue(&debrief)
                .map(|text| view! { <Note tone=Tone::Caution>{text}</Note> })}
        </section>
    }
}

/// Units against the skin.
#[component]
fn Gave(debrief: Debrief) -> impl IntoView {
    let given = debrief.given;
    let (each, usual) = said::each_round(&debrief);
    view! {
        <section>
            <h2>{said::given()}</h2>
            <Figures>
                <Figure label=said::rounds() number=given.rounds.to_string() />
                <Figure
                    label=said::in_all()
                    number=numbers::units(given.units)
                    unit=Some(said::units().to_owned())
                />
                <Figure
                    label=said::each_round_label()
                    number=each
                    unit=Some(said::units().to_owned())
                    note=Some(usual)
                />
                <Figure
                    label=said::per_cm2()
                    number=numbers::units(given.per_cm2)
                    unit=Some(said::units().to_owned())
                    note=Some(said::needed(&debrief))
                />
                <Figure
                    label=said::reached()
                    number=numbers::per_mille(u64::from(given.coverage.0))
                />
            </Figures>
        </section>
    }
}

/// What was done so.
#[component]
fn Findings(debrief: Debrief, verdict: Verdict) -> impl IntoView {
    let lines: Vec<String> = debrief
        .findings
        .iter()
        .filter(|found| found.verdict == verdict)
        .map(said::finding)
        .collect();
    let tone = match verdict {
        Verdict::Dangerous => Tone::Danger,
        Verdict::Improve => Tone::Caution,
        Verdict::Good => Tone::Plain,
    };
    (!lines.is_empty()).then(|| {
        view! {
            <Note tone heading=Some(said::verdict(verdict).to_owned())>
                <ul class="patient-lines">
                    {lines.into_iter().map(|text| view! { <li>{text}</li> }).collect_view()}
                </ul>
            </Note>
        }
    })
}
