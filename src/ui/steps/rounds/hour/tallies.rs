//! What is read at one glance beside the clock: time gone, units, rounds, vials.

use crate::care::dose::supply;
use crate::case::{Case, Step};
use crate::measure::Moment;
use crate::phone::use_now;
use crate::ui::parts::{Amount, Icon, Sign};
use crate::ui::steps::use_here;
use crate::ui::words::{hour as said, numbers, time};
use leptos::prelude::*;

/// One figure, or that it is not known and where it is set.
#[derive(Clone, PartialEq, Eq)]
enum Figure {
    Known { number: String, unit: Option<String> },
    Unknown { words: String, set: &'static str, at: Step },
}

impl Figure {
    fn of(number: impl Into<String>) -> Self {
        Self::Known { number: number.into(), unit: None }
    }
}

/// The figures, with their names.
#[derive(Clone, PartialEq, Eq)]
struct Glance {
    since: Figure,
    units: String,
    rounds: String,
    opened: String,
    left: Figure,
    serves: Figure,
}

impl Glance {
    fn of(case: &Case, now: Moment) -> Self {
        let onset = case.findings.as_ref().and_then(|found| found.onset);
        let not_counted = Figure::Unknown {
            words: said::not_counted().to_owned(),
            set: said::count_vials(),
            at: Step::Strength,
        };
        let left = case.vials_left();
        // At this pace: the round to come as it is planned now.
        let serves = || {
            let vial = case.preparation.as_ref()?.plan.ask().vial.units;
            Some(supply(case.next_round()?.units(), vial, left?).rounds)
        };
        Self {
            since: match onset {
                Some(onset) => Figure::of(time::span(now.since(onset))),
                // Whoever opened the case had seen a sign by then.
                None => Figure::Unknown {
                    words: said::more_than(now.since(case.opened)),
                    set: said::set_onset(),
                    at: Step::Situation,
                },
            },
            units: numbers::units(case.treatment.units()),
            rounds: case.treatment.rounds().len().to_string(),
            opened: case.vials_opened.to_string(),
            left: left.map_or(not_counted, |left| Figure::of(left.to_string())),
            serves: match (left, serves()) {
                (_, Some(rounds)) => Figure::Known {
                    number: rounds.to_string(),
                    unit: Some(said::rounds(rounds).to_owned()),
                },
                (None, None) => Figure::Known {
                    number: said::not_known().to_owned(),
                    unit: Some(said::rounds(0).to_owned()),
                },
                (Some(_), None) => Figure::Unknown {
                    words: said::no_size().to_owned(),
                    set: said::set_size(),
                    at: Step::Strength,
                },
            },
        }
    }
}

/// Six figures, two in a row.
#[component]
pub fn Tallies() -> impl IntoView {
    let here = use_here();
    let now = use_now();
    // Changes with a figure, not with every tick.
    let glance = Memo::new(move |_| Glance::of(&here.case(), now.get()));
    let tally = |label: &'static str, figure: Signal<Figure>| view! { <Tally label figure /> };
    let text = move |of: fn(&Glance) -> &String| {
        Signal::derive(move || Figure::of(glance.with(|glance| of(glance).clone())))
    };
    let known = move |of: fn(&Glance) -> &Figure| {
        Signal::derive(move || glance.with(|glance| of(glance).clone()))
    };
    view! {
        <dl class="tallies">
            {tally(said::since_onset(), known(|glance| &glance.since))}
            {tally(said::units_so_far(), text(|glance| &glance.units))}
            {tally(said::rounds_label(), text(|glance| &glance.rounds))}
            {tally(said::vials_opened(), text(|glance| &glance.opened))}
            {tally(said::vials_left(), known(|glance| &glance.left))}
            {tally(said::serves(), known(|glance| &glance.serves))}
        </dl>
    }
}

/// One figure under its name. Where it is not known, the whole of it leads to where it is set.
#[component]
fn Tally(label: &'static str, figure: Signal<Figure>) -> impl IntoView {
    let here = use_here();
    let inside = move || match figure.get() {
        Figure::Known { number, unit } => view! { <Amount number unit /> }.into_any(),
        Figure::Unknown { words, set, at } => view! {
            <button
                type="button"
                class="tally-set"
                aria-label=format!("{label}: {words}. {set}")
                on:click=move |_| here.to(at)
            >
                <span>{words.clone()}</span>
                <Sign icon=Icon::Onward />
            </button>
        }
        .into_any(),
    };
    view! {
        <div class="tally">
            <dt>{label}</dt>
            <dd>{inside}</dd>
        </div>
    }
}
