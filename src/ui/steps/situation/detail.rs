//! What refines the situation, for whoever has time: onset, refill, patient, filler.

use crate::care::refill::{Refill, Sex};
use crate::care::situation::{Filler, Findings, Triage, windows};
use crate::measure::{Span, Typed};
use crate::phone::{use_clock, use_now};
use crate::protocol::refill_limit::{self, Group};
use crate::protocol::window::DELAYED_ONSET_FROM;
use crate::ui::language::spoken;
use crate::ui::parts::{
    Finding, GoButton, Item, Note, QuantityField, QuietButton, Segment, Sheet, Why,
};
use crate::ui::steps::refill::{RefillTimer, Timed, Timing};
use crate::ui::steps::use_here;
use crate::ui::words::app::situation as said;
use crate::ui::words::{self, looking, numbers, situation as words_of, time, typed};
use leptos::prelude::*;

/// The oldest age that is taken for one.
const OLDEST: u32 = 120;

/// Between just now and an hour, where most onsets in the chair lie.
const HALF_AN_HOUR: Span = Span::minutes(30);

/// Onset, refill, patient and filler, closed until wanted.
#[component]
pub fn More(
    /// What is being found.
    findings: RwSignal<Findings>,
    /// What it amounts to.
    triage: Memo<Triage>,
) -> impl IntoView {
    view! {
        <details class="more">
            <summary>{said::more()}</summary>
            <Onset findings />
            <RefillFields findings />
            {move || {
                triage
                    .read()
                    .refill
                    .map(|judged| view! { <Note>{words_of::refill(&judged)}</Note> })
            }}
            <PersonFields findings />
            <FillerField findings />
        </details>
    }
}

/// When the first sign was seen.
#[component]
fn Onset(findings: RwSignal<Findings>) -> impl IntoView {
    let now = use_now();
    let clock = use_clock();
    // How long ago is answered in steps; the moment is fixed when it is answered.
    let chosen = RwSignal::new(None::<Span>);
    let items = [Span::ZERO, HALF_AN_HOUR, Span::hours(1), DELAYED_ONSET_FROM, Span::days(1)]
        .map(|ago| {
            let label =
                if ago == Span::ZERO { said::onset_now().to_owned() } else { words::app::ago(ago) };
            Item::new(ago, label)
        })
        .to_vec();
    let choose = move |ago: Span| {
        chosen.set(Some(ago));
        findings.update(|found| found.onset = Some(clock.now().before(ago)));
    };
    let reported = move || {
        let onset = findings.read().onset?;
        let since = now.get().since(onset);
        let findings: Vec<Finding> = windows(since)
            .map(|(window, passed)| Finding {
                figure: time::span(window.within),
                setting: words_of::window(window, passed),
                citation: words::protocol::citation(window.basis),
                status: words::protocol::status(window.basis).to_owned(),
            })
            .collect();
        Some(view! { <Why summary=said::windows() findings /> })
    };
    view! {
        <Segment legend=said::onset() items value=chosen on_choose=choose />
        {reported}
    }
}

/// Refill on both sides, typed.
#[component]
pub fn RefillFields(findings: RwSignal<Findings>) -> impl IntoView {
    let here = use_here();
    let shown = |span: Option<Span>| span.map(numbers::seconds).unwrap_or_default();
    let before = findings.read_untracked().refill;
    let affected = RwSignal::new(shown(before.map(|refill| refill.affected)));
    let opposite = RwSignal::new(shown(before.and_then(|refill| refill.opposite)));
    let read = move || {
        let opposite = Span::read(&opposite.read_untracked()).ok();
        let affected = Span::read(&affected.read_untracked()).ok();
        findings.update(|found| {
            found.refill = affected.map(|affected| Refill { affected, opposite });
        });
    };
    let error =
        |text: RwSignal<String>| Signal::derive(move || typed::field::<Span>(&text.read()).err());
    let unit = || Some(said::seconds().to_owned());
    let timed = Callback::new(move |refill: Option<Refill>| {
        affected.set(shown(refill.map(|refill| refill.affected)));
        opposite.set(shown(refill.and_then(|refill| refill.opposite)));
        findings.update(|found| found.refill = refill);
    });
    let limits = refill_limit::ALL
        .iter()
        .map(|limit| Finding {
            figure: looking::seconds(limit.upper),
            setting: spoken(limit.setting).to_owned(),
            citation: words::protocol::citation(limit.basis),
            status: words::protocol::status(limit.basis).to_owned(),
        })
        .collect::<Vec<_>>();
    view! {
        <p class="hint">{move || words::app::press(here.case().protocol.refill_press)}</p>
        <div class="beside">
            <QuantityField
                label=said::refill_affected()
                value=affected
                unit=unit()
                error=error(affected)
                on_input=move |text| {
                    affected.set(text);
                    read();
                }
            />
            <QuantityField
                label=said::refill_opposite()
                value=opposite
                unit=unit()
                error=error(opposite)
                on_input=move |text| {
                    opposite.set(text);
                    read();
                }
            />
        </div>
        <TimeIt findings on_timed=timed />
        <Why summary=said::limits() findings=limits>
            <p>{words_of::refill_limits()}</p>
        </Why>
    }
}

/// Refill timed by hand, beside the fields. The medians go into them as they come.
#[component]
fn TimeIt(findings: RwSignal<Findings>, on_timed: Callback<Option<Refill>>) -> impl IntoView {
    let here = use_here();
    let open = RwSignal::new(false);
    // Closed and opened again, it goes on.
    let timing = Timing::of(Timed::default());
    let read = Memo::new(move |_| timing.readings.read().refill(&here.case().protocol));
    // Only when the readings change: what is typed over them afterwards stands.
    Effect::new(move |before: Option<Option<Refill>>| {
        let refill = read.get();
        if refill.is_some() || before.flatten().is_some() {
            on_timed.run(refill);
        }
        refill
    });
    view! {
        <QuietButton on_press=move |()| open.set(true)>{looking::time_it()}</QuietButton>
        <Sheet
            open
            on_close=Callback::new(move |()| open.set(false))
            heading=looking::time_refill()
            close_label=words::app::close()
        >
            <RefillTimer
                timing
                person=Signal::derive(move || findings.read().person)
                colour=Signal::derive(move || findings.read().colour())
            />
            <GoButton
                on_press=move |()| {
                    if timing.settle() {
                        open.set(false);
                    }
                }
                why_not=Signal::derive(move || timing.why_not())
            >
                {looking::use_label()}
            </GoButton>
        </Sheet>
    }
}

/// Age and sex, which the limits depend on.
#[component]
fn PersonFields(findings: RwSignal<Findings>) -> impl IntoView {
    let years = findings.read_untracked().person.years;
    let age = RwSignal::new(years.map(|years| years.to_string()).unwrap_or_default());
    let sexes = [Sex::Female, Sex::Male].map(|sex| Item::new(sex, words_of::sex(sex))).to_vec();
    let error = Signal::derive(move || match typed::field::<u32>(&age.read()) {
        Err(error) => Some(error),
        Ok(Some(years)) if years > OLDEST => Some(said::age_bounds().to_owned()),
        Ok(_) => None,
    });
    view! {
        <Segment
            legend=said::sex()
            items=sexes
            value=Signal::derive(move || findings.read().person.sex)
            on_choose=move |sex| findings.update(|found| found.person.sex = Some(sex))
        />
        <QuantityField
            label=said::age()
            value=age
            unit=Some(said::years().to_owned())
            whole=true
            error
            hint=Signal::derive(move || Some(limit_words(&findings.read())))
            on_input=move |text: String| {
                let years = u32::read(&text).ok().filter(|years| *years <= OLDEST);
                age.set(text);
                findings.update(|found| found.person.years = years);
            }
        />
    }
}

/// The limit that applies to the person, in words.
fn limit_words(findings: &Findings) -> String {
    let group = findings.person.group();
    words::app::limit_for(group == Group::Adults, refill_limit::guidance(group))
}

/// What was injected.
#[component]
pub fn FillerField(findings: RwSignal<Findings>) -> impl IntoView {
    let items = [Filler::Hyaluronic, Filler::Other, Filler::Unknown]
        .map(|filler| Item::new(filler, words_of::filler(filler)))
        .to_vec();
    view! {
        <Segment
            legend=said::filler()
            items
            value=Signal::derive(move || Some(findings.read().filler))
            on_choose=move |filler| findings.update(|found| found.filler = filler)
        />
    }
}
