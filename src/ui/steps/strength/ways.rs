//! The ways to make what is wanted from what there is, and the one that is taken.

use crate::care::dilution::{Ask, Impossible, Method, Plan, Syringe, Unfit, Vial, Wanted, plans};
use crate::case::{Case, Event};
use crate::measure::Strength;
use crate::protocol::{Id, Protocol, Quantity};
use crate::ui::parts::{Choice, Finding, Item, Note, QuietButton, Tone, Why};
use crate::ui::steps::{Here, use_here};
use crate::ui::words::dilution as words_of;
use crate::ui::words::strength as said;
use leptos::prelude::*;

/// Why nothing can be made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Blocked {
    /// No syringe is like the one told.
    Syringe(Unfit),
    /// The planner finds no way.
    Plan(Impossible),
}

/// What is looked for, once it is known.
type Sought = Option<Result<Ask, Blocked>>;

/// The ways found and the one taken.
#[derive(Clone, Copy)]
pub struct Ways {
    found: Memo<Option<Result<Vec<Plan>, Blocked>>>,
    sought: Memo<Sought>,
    /// A way picked by hand, for the ask that it was picked under.
    picked: RwSignal<Option<(Ask, usize)>>,
    /// Less than was wanted, taken because more is impossible; for the ask that it was taken under.
    instead: RwSignal<Option<(Ask, Wanted)>>,
    /// The way that the button takes.
    pub chosen: Memo<Option<Plan>>,
}

impl Ways {
    /// Looks for ways to make what is wanted, whenever that or the things at hand change. `method`
    /// is the way taken before, which stays first where it still is one.
    pub fn of(
        here: Here,
        vials: RwSignal<Option<u32>>,
        method: Option<Method>,
        wanted: impl Fn(&Protocol) -> Option<(Strength, Wanted)> + Send + Sync + 'static,
    ) -> Self {
        let instead = RwSignal::new(None::<(Ask, Wanted)>);
        let picked = RwSignal::new(None::<(Ask, usize)>);
        let sought = Memo::new(move |_| -> Sought {
            let case = here.case();
            let protocol = &case.protocol;
            let (target, wanted) = wanted(protocol)?;
            let syringe = match Syringe::new(protocol.syringe_holds, protocol.syringe_marks) {
                Ok(syringe) => syringe,
                Err(unfit) => return Some(Err(Blocked::Syringe(unfit))),
            };
            let vial = Vial { units: protocol.vial_units, holds: protocol.vial_holds };
            Some(Ok(Ask { vial, vials: vials.get(), target, wanted, syringe }))
        });
        let found = Memo::new(move |_| {
            let ask = match sought.get()? {
                Ok(ask) => ask,
                Err(blocked) => return Some(Err(blocked)),
            };
            let ask = match instead.get() {
                Some((under, wanted)) if under == ask => Ask { wanted, ..ask },
                _ => ask,
            };
            Some(plans(&ask).map_err(Blocked::Plan))
        });
        let chosen = Memo::new(move |_| {
            let found = found.get()?.ok()?;
            let by_hand = picked
                .get()
                .zip(found.first())
                .and_then(|((under, place), first)| (under == *first.ask()).then_some(place));
            let as_before = || found.iter().position(|plan| Some(plan.method()) == method.as_ref());
            let place = by_hand.or_else(as_before).unwrap_or(0);
            found.get(place).or(found.first()).cloned()
        });
        Self { found, sought, picked, instead, chosen }
    }

    /// Why nothing can be made, tracked.
    pub fn blocked(self) -> Option<Blocked> {
        self.found.get()?.err()
    }

    /// Whether less than was wanted is made, tracked.
    pub fn less(self) -> bool {
        let taken = self.instead.get().map(|(under, _)| under);
        taken.is_some() && self.sought.get().and_then(Result::ok) == taken
    }
}

/// Why nothing can be made, in words; `None` if something can.
pub fn why_not(blocked: Blocked) -> String {
    match blocked {
        Blocked::Syringe(unfit) => words_of::unfit(unfit),
        Blocked::Plan(impossible) => words_of::impossible(impossible),
    }
}

impl Ways {
    /// Why the chosen way cannot be taken while a round runs at another strength.
    pub fn mixed(self, case: &Case) -> Option<String> {
        let running = case.running_strength()?;
        let other = self.chosen.read().as_ref().is_some_and(|plan| plan.strength() != running);
        other.then(|| said::round_runs_at(running))
    }
}

/// Why nothing can be made, with the nearest as a button where taking it makes sense.
#[component]
pub fn CannotMake(
    ways: Ways,
    /// Which of the protocol's strengths is asked for.
    id: Id,
) -> impl IntoView {
    let here = use_here();
    let stronger = move |strength: Strength| {
        let quantity = Quantity::Strength(strength);
        here.case().protocol.with(id, quantity).is_ok().then(|| {
            view! {
                <QuietButton on_press=move |()| here.record(Event::Set(id, quantity))>
                    {words_of::take_strength(strength)}
                </QuietButton>
            }
            .into_any()
        })
    };
    let less = move |possible: Wanted| {
        let take = move |()| {
            if let Some(Ok(ask)) = ways.sought.get_untracked() {
                ways.instead.set(Some((ask, possible)));
            }
        };
        view! { <QuietButton on_press=take>{words_of::make_instead(possible)}</QuietButton> }
            .into_any()
    };
    let nearest = move |blocked: Blocked| match blocked {
        Blocked::Plan(
            Impossible::TooStrong { strongest: strength, .. }
            | Impossible::TooWeak { weakest: strength }
            | Impossible::OffMarks { nearest: strength },
        ) => stronger(strength),
        Blocked::Plan(
            Impossible::VialsRunOut { possible, .. } | Impossible::TooManySyringes { possible, .. },
        ) => Some(less(possible)),
        Blocked::Plan(_) | Blocked::Syringe(_) => None,
    };
    view! {
        {move || {
            ways.blocked()
                .map(|blocked| {
                    view! {
                        <Note
                            tone=Tone::Caution
                            heading=Some(said::cannot().to_owned())
                            alert=true
                        >
                            {why_not(blocked)}
                        </Note>
                        {nearest(blocked)}
                    }
                })
        }}
    }
}

/// How the chosen way goes, how near it comes, and the others.
#[component]
pub fn OtherWays(ways: Ways) -> impl IntoView {
    let items = Signal::derive(move || {
        let plans = ways.found.get().and_then(Result::ok).unwrap_or_default();
        let item = |(place, plan): (usize, &Plan)| {
            let mut hint = words_of::figures(plan);
            if let Some(reasons) = words_of::reasons(plan) {
                hint = format!("{reasons}. {hint}");
            }
            Item::new(place, words_of::method(plan.method())).hint(hint)
        };
        plans.iter().enumerate().map(item).collect::<Vec<_>>()
    });
    let value = Signal::derive(move || {
        let chosen = ways.chosen.get()?;
        ways.found.get()?.ok()?.iter().position(|plan| *plan == chosen)
    });
    let choose = move |place: usize| {
        let ask = ways.chosen.get_untracked().map(|plan| *plan.ask());
        ways.picked.set(ask.map(|ask| (ask, place)));
    };
    let causes = Signal::derive(move || -> Vec<Finding> {
        let plan = ways.chosen.get();
        plan.map(|plan| words_of::causes(plan.expected(), plan.strength())).unwrap_or_default()
    });
    view! {
        <details class="more">
            <summary>{said::ways()}</summary>
            <Choice legend=said::way() items value on_choose=choose />
            <Why summary=words_of::why_expected() findings=causes />
        </details>
    }
}

/// What the chosen way is and that it does not meet the strength exactly.
#[component]
pub fn ChosenWay(ways: Ways) -> impl IntoView {
    view! {
        {move || {
            let plan = ways.chosen.get()?;
            Some(
                view! {
                    <Note heading=Some(words_of::method(plan.method()))>
                        {words_of::figures(&plan)}
                    </Note>
                },
            )
        }}
    }
}
