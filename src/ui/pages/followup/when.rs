//! When the next review is: proposed by the rule, changed by taps.

use super::{Framed, Shown, View};
use crate::case::Event;
use crate::measure::{Moment, Span};
use crate::phone::{clock, use_now};
use crate::ui::parts::{Figure, Figures, Foot, GoButton, Pair, QuietButton, Title};
use crate::ui::steps::use_here;
use crate::ui::words::{followup as said, time};
use leptos::prelude::*;

/// A tap moves it by one of these.
const STEPS: (Span, Span) = (Span::days(1), Span::hours(1));

/// When the next review is.
#[component]
pub fn When(shown: Shown) -> impl IntoView {
    let here = use_here();
    let now = use_now();
    let first = now.get_untracked();
    // What is overdue is proposed for soon.
    let at = RwSignal::new(here.now().course().offered(first).max(first.after(STEPS.1)));
    let past = Signal::derive(move || (at.get() <= now.get()).then(|| said::past().to_owned()));
    let keep = Callback::new(move |()| {
        here.record_then(Event::Appointed(at.get_untracked()), move || shown.set(View::Stands));
    });
    let by = move |change: fn(Moment) -> Moment| move |()| at.update(|at| *at = change(*at));
    let day = Memo::new(move |_| clock::date(at.get()));
    let away = Memo::new(move |_| said::away(at.get(), now.get()));
    view! {
        <Framed back=Callback::new(move |()| shown.set(View::Stands))>
            <Title arrive=true>{said::when()}</Title>
            <div role="status">
                <Figures>
                    <Figure
                        label=Signal::derive(move || time::weekday(day.get()).to_owned())
                        number=Signal::derive(move || time::short_day(day.get()))
                        unit=Signal::derive(move || Some(day.get().year().to_string()))
                        wide=true
                    />
                    <Figure
                        label=said::at()
                        number=Signal::derive(move || time::hour(at.get()))
                    />
                    <Figure label=said::away_label() number=away />
                </Figures>
            </div>
            <Pair>
                <QuietButton on_press=by(|at| at.before(STEPS.0))>{said::earlier_day()}</QuietButton>
                <QuietButton on_press=by(|at| at.after(STEPS.0))>{said::later_day()}</QuietButton>
            </Pair>
            <Pair>
                <QuietButton on_press=by(|at| at.before(STEPS.1))>{said::earlier_hour()}</QuietButton>
                <QuietButton on_press=by(|at| at.after(STEPS.1))>{said::later_hour()}</QuietButton>
            </Pair>
            <Foot slot>
                <GoButton on_press=keep why_not=past>{said::agreed()}</GoButton>
            </Foot>
        </Framed>
    }
}
