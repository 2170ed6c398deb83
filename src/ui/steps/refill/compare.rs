//! The medians against each other, and against the published limits.

use super::Timing;
use crate::care::refill::readings::{Comparison, Side, Weakness, limits};
use crate::care::refill::{Colour, Person};
use crate::ui::parts::{Finding, Note, Tone, Why};
use crate::ui::steps::use_here;
use crate::ui::words::app::situation as fields;
use crate::ui::words::{self, looking as said, situation as words_of};
use leptos::prelude::*;

/// What the readings amount to, and what weakens that.
#[component]
pub fn Compared(timing: Timing, person: Signal<Person>, colour: Signal<Colour>) -> impl IntoView {
    let here = use_here();
    let judged = move || {
        let case = here.case();
        let readings = timing.readings.read();
        let refill = readings.refill(&case.protocol)?;
        let judged = readings.judge(colour.get(), person.get(), &case.protocol)?;
        Some(said::compared(refill, &judged))
    };
    let weak = move || {
        let case = here.case();
        let readings = timing.readings.read();
        match readings.comparison(&case.protocol) {
            _ if readings.is_empty() => (Tone::Plain, Vec::new()),
            Comparison::Wanting(side) => (Tone::Plain, vec![said::wanting(side).to_owned()]),
            Comparison::Compared(weak) => told(weak),
        }
    };
    let findings = Signal::derive(move || {
        let case = here.case();
        let summary = timing.readings.read().summary(Side::Affected, &case.protocol);
        let affected = summary.map(|summary| summary.median);
        limits(person.get())
            .map(|limit| Finding {
                figure: said::seconds(limit.upper),
                setting: said::limit(limit, affected),
                citation: words::protocol::citation(limit.basis),
                status: words::protocol::status(limit.basis).to_owned(),
            })
            .collect::<Vec<_>>()
    });
    view! {
        {move || {
            let (judged, (tone, weak)) = (judged(), weak());
            (judged.is_some() || !weak.is_empty())
                .then(|| {
                    view! {
                        <Note tone heading=judged>
                            {weak.into_iter().map(|line| view! { <p>{line}</p> }).collect_view()}
                        </Note>
                    }
                })
        }}
        <Why summary=fields::limits() findings>
            <p>{words_of::refill_limits()}</p>
        </Why>
    }
}

/// What weakens a comparison, in words. That readings are still to come is no caution.
fn told(weak: Vec<Weakness>) -> (Tone, Vec<String>) {
    let pressed = weak.iter().any(|weak| matches!(weak, Weakness::Press(..)));
    let caution = weak.iter().any(|weak| !matches!(weak, Weakness::Fewer(..)));
    let words = weak.into_iter().map(said::weakness);
    let words = words.chain(pressed.then(|| said::press_matters().to_owned())).collect();
    (if caution { Tone::Caution } else { Tone::Plain }, words)
}
