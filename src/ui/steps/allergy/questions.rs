//! The questions of the allergy step.

use crate::care::allergy::{Answer, Answers};
use crate::ui::parts::{Chips, Choice, Item, Segment};
use crate::ui::words::allergy as words_of;
use crate::ui::words::app::allergy as said;
use leptos::prelude::*;

/// No, yes, not known.
#[component]
fn Question(
    /// What is asked.
    legend: &'static str,
    /// The answer so far.
    #[prop(into)]
    value: Signal<Answer>,
    /// The answer.
    #[prop(into)]
    on_choose: Callback<Answer>,
) -> impl IntoView {
    let items =
        words_of::ANSWERS.map(|answer| Item::new(answer, words_of::answer(answer))).to_vec();
    view! {
        <Segment legend items value=Signal::derive(move || Some(value.get())) on_choose />
    }
}

/// An earlier reaction to the enzyme.
#[component]
pub fn Reaction(answers: RwSignal<Answers>) -> impl IntoView {
    view! {
        <Question
            legend=said::PREVIOUS
            value=Signal::derive(move || answers.read().previous_reaction)
            on_choose=move |answer| answers.update(|found| found.previous_reaction = answer)
        />
    }
}

/// Bee and wasp, each for itself.
#[component]
pub fn Stings(answers: RwSignal<Answers>) -> impl IntoView {
    view! {
        <Question
            legend=said::BEE
            value=Signal::derive(move || answers.read().bee)
            on_choose=move |answer| answers.update(|found| found.bee = answer)
        />
        <Question
            legend=said::WASP
            value=Signal::derive(move || answers.read().wasp)
            on_choose=move |answer| answers.update(|found| found.wasp = answer)
        />
    }
}

/// Venom immunotherapy.
#[component]
pub fn Desensitised(answers: RwSignal<Answers>) -> impl IntoView {
    view! {
        <Question
            legend=said::DESENSITISED
            value=Signal::derive(move || answers.read().desensitised)
            on_choose=move |answer| answers.update(|found| found.desensitised = answer)
        />
    }
}

/// Pregnancy, medicines, species.
#[component]
pub fn Rest(answers: RwSignal<Answers>) -> impl IntoView {
    let pregnancy =
        words_of::PREGNANCY.map(|state| Item::new(state, words_of::pregnancy(state))).to_vec();
    let medicines = words_of::MEDICINES.map(|one| Item::new(one, words_of::medicine(one))).to_vec();
    let species = words_of::SPECIES.map(|one| Item::new(one, words_of::species(one))).to_vec();
    view! {
        <Segment
            legend=said::PREGNANCY
            items=pregnancy
            value=Signal::derive(move || Some(answers.read().pregnancy))
            on_choose=move |state| answers.update(|found| found.pregnancy = state)
        />
        <Chips
            legend=said::MEDICINES
            items=medicines
            value=Signal::derive(move || answers.read().medicines.clone())
            on_change=move |(medicine, on)| {
                answers
                    .update(|found| {
                        found.medicines.retain(|other| *other != medicine);
                        if on {
                            found.medicines.push(medicine);
                        }
                    });
            }
        />
        <Choice
            legend=said::SPECIES
            items=species
            value=Signal::derive(move || Some(answers.read().species))
            on_choose=move |species| answers.update(|found| found.species = species)
        />
    }
}
