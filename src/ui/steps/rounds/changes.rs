//! What changed since the look before, sign by sign, and the rules behind it.

use crate::care::perfusion::{Aspect, Trend, change};
use crate::case::Case;
use crate::ui::parts::{Icon, Sign, Why};
use crate::ui::steps::use_here;
use crate::ui::words::{after as said, rounds as words_of};
use leptos::prelude::*;

/// One sign at the last two looks.
#[derive(Clone, PartialEq)]
struct Line {
    aspect: Aspect,
    before: String,
    now: String,
    trend: Trend,
}

/// The signs that can be compared, and those that cannot; `None` with one look alone.
fn compared(case: &Case) -> Option<(Vec<Line>, Vec<Aspect>)> {
    let states = case.states();
    let [.., before, now] = states.as_slice() else { return None };
    let changed = change(before, now, &case.protocol);
    let (wanting, told): (Vec<_>, Vec<_>) =
        changed.trends().iter().partition(|(_, trend)| *trend == Trend::NotCompared);
    let seen = |aspect, state| {
        said::seen(aspect, state).unwrap_or_else(|| said::unseen(aspect).to_owned())
    };
    // One that was seen at one look alone is shown with what was seen; the rest is named.
    let half = |(aspect, _): &(Aspect, Trend)| {
        said::seen(*aspect, before).is_some() || said::seen(*aspect, now).is_some()
    };
    let (half, neither): (Vec<_>, Vec<_>) = wanting.into_iter().partition(half);
    let lines = told
        .into_iter()
        .chain(half)
        .map(|(aspect, trend)| Line {
            aspect,
            before: seen(aspect, before),
            now: seen(aspect, now),
            trend,
        })
        .collect();
    Some((lines, neither.into_iter().map(|(aspect, _)| aspect).collect()))
}

/// How a sign fared: its class and its mark. The word beside it says the same.
const fn looks_like(trend: Trend) -> (&'static str, Icon) {
    match trend {
        Trend::Better => ("changed better", Icon::Better),
        Trend::Same => ("changed", Icon::Same),
        Trend::Worse => ("changed worse", Icon::Worse),
        Trend::NotCompared => ("changed untold", Icon::Untold),
    }
}

fn line(line: Line) -> impl IntoView {
    let Line { aspect, before, now, trend } = line;
    let (class, icon) = looks_like(trend);
    view! {
        <li class=class>
            <span class="changed-name">{words_of::aspect(aspect)}</span>
            <span class="changed-word">
                <Sign icon />
                {words_of::trend(trend)}
            </span>
            <span class="changed-values">
                {before} <span aria-hidden="true">" → "</span>
                <span class="unseen">{said::now()} " "</span> <strong>{now}</strong>
            </span>
        </li>
    }
}

/// What changed since the look before.
#[component]
pub fn Changes() -> impl IntoView {
    let here = use_here();
    let found = Memo::new(move |_| compared(&here.case()));
    view! {
        <section class="changes">
            {move || match found.get() {
                Some((lines, wanting)) => {
                    view! {
                        <h2>{said::since_before()}</h2>
                        <ul>{lines.into_iter().map(line).collect_view()}</ul>
                        {said::not_compared(&wanting)
                            .map(|text| view! { <p class="hint">{text}</p> })}
                        <Why
                            summary=said::rules_label()
                            findings=Signal::derive(move || said::rules(&here.case().protocol))
                        >
                            <p>{said::rule_of_all()}</p>
                        </Why>
                    }
                        .into_any()
                }
                None => view! { <p class="hint">{said::first_look()}</p> }.into_any(),
            }}
        </section>
    }
}
