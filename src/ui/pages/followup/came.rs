//! What the skin and the correction came to. What is answered here is kept, like the measures, while
//! one goes back to them or another page is shown: the anaphylaxis sheet above all.

use super::{Framed, Shown, View};
use crate::care::aftercare::{Corrected, Damage, Review, Seen};
use crate::care::allergy::Urgency;
use crate::care::rounds::Look;
use crate::case::{Case, CaseId, Event};
use crate::measure::order;
use crate::ui::parts::{Choice, Foot, GoButton, Item, Segment, Tick, Title};
use crate::ui::steps::{forget, use_here};
use crate::ui::tap::Taps;
use crate::ui::words::followup as said;
use leptos::prelude::*;
use std::cell::RefCell;
use std::collections::BTreeMap;

/// What was answered beside the measures.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
struct Answers {
    /// Not asked yet is not the same as in person.
    seen: Option<Seen>,
    damage: Vec<Damage>,
    corrected: Option<Corrected>,
}

thread_local! {
    /// With how many reviews there were: one recorded since ends it.
    static KEPT: RefCell<BTreeMap<CaseId, (usize, Answers)>> = const { RefCell::new(BTreeMap::new()) };
}

/// What is answered beside the measures. Copied freely.
#[derive(Clone, Copy)]
pub struct Answered {
    case: CaseId,
    answers: RwSignal<Answers>,
}

impl Answered {
    /// Goes on with what was answered, or begins.
    pub fn take_up(case: &Case) -> Self {
        let (id, reviews) = (case.id, case.reviews.len());
        let kept = KEPT.with_borrow(|all| all.get(&id).cloned());
        let kept = kept.filter(|(then, _)| *then == reviews).map(|(_, answers)| answers);
        let answers = RwSignal::new(kept.unwrap_or_default());
        Effect::new(move |_| {
            let now = answers.get();
            KEPT.with_borrow_mut(|all| all.insert(id, (reviews, now)));
        });
        Self { case: id, answers }
    }

    /// It is recorded, or the review was left: nothing of it is kept.
    pub fn forget(self) {
        self.answers.set(Answers::default());
        KEPT.with_borrow_mut(|all| all.remove(&self.case));
    }
}

/// What the skin and the correction came to.
#[component]
pub fn Came(look: Look, answered: Answered, shown: Shown) -> impl IntoView {
    let here = use_here();
    let taps = Taps::new();
    let planned = here.now().urgency() == Some(Urgency::Planned);
    let answers = answered.answers;
    let why_not = Signal::derive(move || {
        let answers = answers.read();
        let missing = if answers.seen.is_none() {
            Some(said::seen_missing())
        } else if planned && answers.corrected.is_none() {
            Some(said::corrected_missing())
        } else {
            None
        };
        missing.map(str::to_owned)
    });
    let look = StoredValue::new(look);
    let record = Callback::new(move |()| {
        let Answers { seen, damage, corrected } = answers.get_untracked();
        let Some(seen) = seen else { return };
        let review = Review { seen, look: look.get_value(), damage, corrected };
        taps.once(|| {
            here.record_then(Event::Review(Box::new(review)), move || {
                forget(here.id);
                answered.forget();
                shown.set(View::Stands);
            });
        });
    });
    let ways = said::SEEN.map(|seen| Item::new(seen, said::seen(seen)));
    let damages = said::DAMAGES.map(|one| Item::new(one, said::damage(one)));
    let corrections = said::CORRECTIONS.map(|one| Item::new(one, said::corrected(one)));
    view! {
        <Framed back=Callback::new(move |()| shown.set(View::Looking))>
            <Title arrive=true>{said::came()}</Title>
            <Segment
                legend=said::how_seen()
                items=ways.to_vec()
                value=Signal::derive(move || answers.read().seen)
                on_choose=move |way| answers.update(|all| all.seen = Some(way))
            />
            {planned.then(|| view! {
                <Choice
                    legend=said::corrected_label()
                    items=corrections.to_vec()
                    value=Signal::derive(move || answers.read().corrected)
                    on_choose=move |one| answers.update(|all| all.corrected = Some(one))
                />
            })}
            <Tick
                legend=said::damage_label()
                items=damages.to_vec()
                value=Signal::derive(move || answers.read().damage.clone())
                on_change=move |(one, on): (Damage, bool)| answers.update(|all| {
                    all.damage.retain(|other| *other != one);
                    if on {
                        all.damage.push(one);
                    }
                    order::sort(&mut all.damage);
                })
            />
            <Foot slot>
                <GoButton on_press=record why_not>{said::keep()}</GoButton>
            </Foot>
        </Framed>
    }
}
