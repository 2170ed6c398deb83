//! The last review beside the one before, and what it asks for.

use crate::care::aftercare::Advice;
use crate::care::perfusion::Trend;
use crate::ui::parts::{Note, Tone};
use crate::ui::steps::use_here;
use crate::ui::words::{followup as said, time};
use leptos::prelude::*;

/// What the last review asks for; nothing before any.
#[component]
pub fn Asked() -> impl IntoView {
    let here = use_here();
    move || {
        let case = here.case();
        // The card of a sign that stands says it already.
        let flags = &case.flags;
        let said_above =
            |advice: &Advice| matches!(advice, Advice::HandOver(flag) if flags.contains(flag));
        let advice = case.course().advice().into_iter().filter(|advice| !said_above(advice));
        let note = |advice| {
            let tone = match advice {
                Advice::HandOver(_) | Advice::InPerson | Advice::Treat => Tone::Danger,
                Advice::Well => Tone::Plain,
                _ => Tone::Caution,
            };
            view! { <Note tone>{said::advice(advice)}</Note> }
        };
        advice.map(note).collect_view()
    }
}

/// The last review, and what changed with it.
#[component]
pub fn Found() -> impl IntoView {
    let here = use_here();
    move || {
        let case = here.case();
        let course = case.course();
        course.last().map(|(at, review)| {
            let (how, more) = said::review(review);
            let trends = course.changed().map(|changed| {
                let lines =
                    changed.trends().iter().filter(|(_, trend)| *trend != Trend::NotCompared);
                let lines = lines.map(|(aspect, trend)| said::became(*aspect, *trend));
                lines.collect::<Vec<_>>().join(". ")
            });
            view! {
                <Note heading=Some(format!("{}, {}", said::last(), time::day_hour(*at)))>
                    {[Some(how), more].into_iter().flatten().collect::<Vec<_>>().join(". ")}
                </Note>
                {trends.map(|trends| view! {
                    <Note heading=Some(said::since().to_owned())>{trends}</Note>
                })}
            }
        })
    }
}
