//! One of them: what the sources say, what would not go together, and what is chosen.

use super::Besides;
use super::aspirin::{Aspirin, Prescribed};
use crate::care::adjunct::{Choice, excludes, prescribed, regimens};
use crate::phone::use_now;
use crate::protocol::adjunct::{Adjunct, Conflict, SAYINGS, Stance};
use crate::ui::parts::{DangerButton, Entry, Finding, GoButton, Pair, QuietButton, Timeline};
use crate::ui::steps::Conflicts;
use crate::ui::words::{adjunct as said, time};
use leptos::prelude::*;

/// One of them.
#[component]
pub fn One(page: Besides, adjunct: Adjunct) -> impl IntoView {
    let now = use_now();
    let arising = Memo::new(move |_| page.here.case().conflicts_with(adjunct, now.get()));
    let asks = regimens(adjunct).next().is_some() || prescribed(adjunct);
    view! {
        <p class="hint">{said::stances(adjunct)}</p>
        <SoFar page adjunct />
        {move || {
            let found = arising.get();
            (!found.is_empty()).then(|| view! { <Conflicts found heading=said::would_arise() /> })
        }}
        {match adjunct {
            Adjunct::Aspirin => view! { <Aspirin page arising /> }.into_any(),
            _ if asks => view! { <Prescribed page adjunct arising /> }.into_any(),
            _ => view! { <Given page adjunct arising /> }.into_any(),
        }}
        <Otherwise page adjunct />
        <h3>{said::said()}</h3>
        <ul class="findings">{said::sayings(adjunct).into_iter().map(saying).collect_view()}</ul>
    }
}

fn saying(saying: Finding) -> impl IntoView {
    let Finding { figure, setting, citation, status } = saying;
    view! {
        <li>
            <p class="finding-figure">{figure}</p>
            <p>{setting}</p>
            <p class="finding-source">
                {citation} " " <span class="finding-status">{status}</span>
            </p>
        </li>
    }
}

/// What was chosen of it in this case, and that the last was a slip.
#[component]
fn SoFar(page: Besides, adjunct: Adjunct) -> impl IntoView {
    let lines = Memo::new(move |_| {
        let case = page.here.case();
        let chosen = case.adjuncts.chosen().iter().filter(|chosen| chosen.adjunct == adjunct);
        chosen
            .enumerate()
            .map(|(n, chosen)| Entry {
                key: n.to_string(),
                time: time::hour(chosen.at),
                text: said::choice(chosen.choice),
                ..Entry::default()
            })
            .collect::<Vec<_>>()
    });
    move || {
        let entries = lines.get();
        (!entries.is_empty()).then(|| {
            view! {
                <h3>{said::so_far()}</h3>
                <Timeline entries />
                <QuietButton on_press=move |()| {
                    page.taps.once(|| page.strike_last(adjunct));
                }>{said::slip()}</QuietButton>
            }
        })
    }
}

/// Taken down as given. What is said to help is the next action; what is not, a quieter one; and
/// what does not go with something that is given stands as a danger.
#[component]
fn Given(page: Besides, adjunct: Adjunct, arising: Memo<Vec<Conflict>>) -> impl IntoView {
    let press = move |()| page.take(|| page.chose(adjunct, Choice::Given(None)));
    let helps =
        SAYINGS.iter().any(|saying| saying.adjunct == adjunct && saying.stance == Stance::For);
    let again = Memo::new(move |_| page.here.case().adjuncts.given(adjunct).is_some());
    let words = move || if again.get() { said::given_again() } else { said::given_now_label() };
    move || {
        if arising.read().iter().any(|conflict| excludes(*conflict)) {
            view! { <DangerButton on_press=press>{said::given_all_the_same()}</DangerButton> }
                .into_any()
        } else if helps {
            view! { <GoButton on_press=press>{words}</GoButton> }.into_any()
        } else {
            view! { <QuietButton on_press=press>{words}</QuietButton> }.into_any()
        }
    }
}

/// Stopped, not wanted, not possible.
#[component]
fn Otherwise(page: Besides, adjunct: Adjunct) -> impl IntoView {
    let given = Memo::new(move |_| page.here.case().adjuncts.given(adjunct).is_some());
    let hindrance = move |hindrance| {
        view! {
            <QuietButton on_press=move |()| {
                page.take(|| page.chose(adjunct, Choice::NotPossible(hindrance)));
            }>{said::hindrance(hindrance)}</QuietButton>
        }
    };
    view! {
        <Pair>
            {move || {
                given
                    .get()
                    .then(|| {
                        view! {
                            <QuietButton on_press=move |()| {
                                page.take(|| page.chose(adjunct, Choice::Stopped));
                            }>{said::stopped()}</QuietButton>
                        }
                    })
            }}
            <QuietButton on_press=move |()| {
                page.take(|| page.chose(adjunct, Choice::Declined));
            }>{said::declined()}</QuietButton>
        </Pair>
        <details class="more">
            <summary>{said::not_possible()}</summary>
            <div class="hindrances">
                {said::HINDRANCES.into_iter().map(hindrance).collect_view()}
            </div>
        </details>
    }
}
