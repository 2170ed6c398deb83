//! Whether aspirin may be given, and what has a dose: aspirin, and what a prescriber decides.

use super::Besides;
use crate::care::adjunct::{
    Act, Aspirin as Verdict, Choice, Hindrance, aspirin, excludes, regimens,
};
use crate::case::Event;
use crate::protocol::adjunct::{Adjunct, Concern, Conflict, Regimen};
use crate::ui::parts::{self, DangerButton, GoButton, Item, Note, QuietButton, Tick, Tone};
use crate::ui::words::adjunct as said;
use leptos::prelude::*;

/// Aspirin: asked first, then given, weighed or not given.
#[component]
pub fn Aspirin(page: Besides, arising: Memo<Vec<Conflict>>) -> impl IntoView {
    let verdict = Memo::new(move |_| aspirin(&page.here.case().before_aspirin()));
    let ask = move |()| page.asking.set(true);
    move || match verdict.get() {
        Verdict::AskFirst(open) => view! {
            <Note tone=Tone::Caution heading=Some(said::ask_first().to_owned())>
                {open.into_iter().map(|one| view! { <p>{said::concern(one)}</p> }).collect_view()}
            </Note>
            <GoButton on_press=ask>{said::ask_now()}</GoButton>
        }
        .into_any(),
        Verdict::MustNot(concerns) => view! {
            <Note tone=Tone::Danger heading=Some(said::must_not().to_owned())>
                {reasons(&concerns)}
            </Note>
            <GoButton on_press=move |()| {
                page.take(|| {
                    page.asked();
                    page.chose(
                        Adjunct::Aspirin,
                        Choice::NotPossible(Hindrance::Contraindicated),
                    );
                });
            }>{said::take_not_possible()}</GoButton>
            <QuietButton on_press=ask>{said::ask_again()}</QuietButton>
        }
        .into_any(),
        Verdict::Prescriber(concerns) => {
            let why = reasons(&concerns);
            view! {
                <Note tone=Tone::Caution heading=Some(said::prescriber().to_owned())>{why}</Note>
                <Dose page adjunct=Adjunct::Aspirin arising weighing=Some(concerns) />
                <QuietButton on_press=ask>{said::ask_again()}</QuietButton>
            }
            .into_any()
        }
        Verdict::MayBeGiven => view! {
            <Note>{said::may_be()}</Note>
            <Dose page adjunct=Adjunct::Aspirin arising weighing=None />
            <QuietButton on_press=ask>{said::ask_again()}</QuietButton>
        }
        .into_any(),
    }
}

fn reasons(concerns: &[Concern]) -> impl IntoView + use<> {
    let line = |&concern: &Concern| {
        view! {
            <p>
                {said::concern(concern)} <span class="source">{said::concern_source(concern)}</span>
            </p>
        }
    };
    concerns.iter().map(line).collect_view()
}

/// What a prescriber decides, whatever was asked.
#[component]
pub fn Prescribed(page: Besides, adjunct: Adjunct, arising: Memo<Vec<Conflict>>) -> impl IntoView {
    view! { <Dose page adjunct arising weighing=Some(Vec::new()) /> }
}

impl Besides {
    /// Takes down what is known before aspirin, if it is not yet, so that a choice never stands
    /// without what it rests on.
    fn asked(self) {
        let case = self.here.now();
        let known = case.before_aspirin();
        if case.adjuncts.asked != known {
            self.here.record(Event::Adjunct(Act::Asked(known)));
        }
    }
}

/// The doses that sources have, and giving one. `weighing` are the concerns that a prescriber has
/// to weigh first.
#[component]
fn Dose(
    page: Besides,
    adjunct: Adjunct,
    arising: Memo<Vec<Conflict>>,
    weighing: Option<Vec<Concern>>,
) -> impl IntoView {
    let doses: Vec<&'static Regimen> = regimens(adjunct).collect();
    // What the sources have is thin: which of it is given is decided, not met with.
    let chosen = RwSignal::new(None::<usize>);
    // Those that agree are one row, with each of their sources.
    let same = |one: &Regimen, other: &Regimen| (one.first, one.then) == (other.first, other.then);
    let items: Vec<Item<usize>> = doses
        .iter()
        .enumerate()
        .filter(|(n, dose)| !doses.iter().take(*n).any(|before| same(before, dose)))
        .map(|(n, dose)| {
            let sources = doses.iter().filter(|other| same(dose, other));
            let sources: Vec<String> = sources.map(|dose| said::regimen_source(dose)).collect();
            Item::new(n, said::regimen(dose)).hint(sources.join(" · "))
        })
        .collect();
    let amount = Memo::new(move |_| chosen.get().and_then(|n| doses.get(n)).map(|dose| dose.first));
    let weighed = RwSignal::new(Vec::<()>::new());
    let wants = weighing.is_some();
    let why_not = Signal::derive(move || {
        if chosen.get().is_none() {
            return Some(said::dose_missing().to_owned());
        }
        (wants && weighed.read().is_empty()).then(|| said::not_weighed().to_owned())
    });
    let concerns = StoredValue::new(weighing.unwrap_or_default());
    let give = move |()| {
        if why_not.with_untracked(Option::is_some) {
            return;
        }
        page.take(|| {
            if adjunct == Adjunct::Aspirin {
                page.asked();
            }
            if wants {
                let words = concerns.with_value(|concerns| said::weighed(adjunct, concerns));
                page.here.record(Event::Note(words));
            }
            page.chose(adjunct, Choice::Given(amount.get_untracked()));
        });
    };
    let words =
        move || amount.get().map_or_else(|| said::given_now_label().to_owned(), said::dose_given);
    let label = adjunct == Adjunct::Aspirin;
    view! {
        <parts::Choice
            legend=said::dose()
            items
            value=chosen
            on_choose=move |n| chosen.set(Some(n))
        />
        {label
            .then(|| {
                view! {
                    <p class="hint">
                        {said::label_dose()} " "
                        <span class="source">{said::label_source()}</span>
                    </p>
                }
            })}
        {wants
            .then(|| {
                view! {
                    <Tick
                        legend=said::prescriber()
                        legend_hidden=true
                        items=vec![Item::new((), said::weighed_label())]
                        value=weighed
                        on_change=move |((), on): ((), bool)| {
                            weighed.set(if on { vec![()] } else { Vec::new() });
                        }
                    />
                }
            })}
        {move || {
            // What is not weighed yet is not given, in spite of what it does not go with least of all.
            let against = arising.read().iter().any(|conflict| excludes(*conflict));
            if against && why_not.read().is_none() {
                view! { <DangerButton on_press=give>{said::given_all_the_same()}</DangerButton> }
                    .into_any()
            } else {
                view! {
                    <GoButton on_press=give why_not>
                        {words}
                    </GoButton>
                }
                    .into_any()
            }
        }}
    }
}
