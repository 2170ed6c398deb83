//! The questions of the allergy step, and the answers while they are being given.

use crate::care::allergy::{Answer, Answers, Medicine, Pregnancy, Species};
use crate::ui::parts::{Chips, Choice, Item, Segment};
use crate::ui::words::allergy as words_of;
use crate::ui::words::app::allergy as said;
use leptos::prelude::*;

/// Answers being given. What was not asked is told apart from what is not known.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Draft {
    previous: Option<Answer>,
    bee: Option<Answer>,
    wasp: Option<Answer>,
    desensitised: Option<Answer>,
    pregnancy: Option<Pregnancy>,
    species: Species,
    medicines: Vec<Medicine>,
}

impl Draft {
    /// From answers given before, all of them asked.
    pub fn of(answers: Option<&Answers>) -> Self {
        answers.map_or_else(Self::default, |answers| Self {
            previous: Some(answers.previous_reaction),
            bee: Some(answers.bee),
            wasp: Some(answers.wasp),
            desensitised: Some(answers.desensitised),
            pregnancy: Some(answers.pregnancy),
            species: answers.species,
            medicines: answers.medicines.clone(),
        })
    }

    /// As answers: what was not asked is not known.
    pub fn answers(&self) -> Answers {
        Answers {
            previous_reaction: self.previous.unwrap_or_default(),
            bee: self.bee.unwrap_or_default(),
            wasp: self.wasp.unwrap_or_default(),
            desensitised: self.desensitised.unwrap_or_default(),
            species: self.species,
            medicines: self.medicines.clone(),
            pregnancy: self.pregnancy.unwrap_or_default(),
        }
    }

    /// Whether a sting allergy makes desensitisation a question.
    pub fn stung(&self) -> bool {
        [self.bee, self.wasp].contains(&Some(Answer::Yes))
    }

    /// Whether everything that planned work hangs on was asked.
    pub fn asked(&self) -> bool {
        [self.previous, self.bee, self.wasp].iter().all(Option::is_some)
            && self.pregnancy.is_some()
            && (!self.stung() || self.desensitised.is_some())
    }
}

/// No, yes, not known.
#[component]
fn Question(
    /// What is asked.
    legend: &'static str,
    /// The answer so far.
    #[prop(into)]
    value: Signal<Option<Answer>>,
    /// The answer.
    #[prop(into)]
    on_choose: Callback<Answer>,
) -> impl IntoView {
    let items =
        words_of::ANSWERS.map(|answer| Item::new(answer, words_of::answer(answer))).to_vec();
    view! {
        <Segment legend items value on_choose />
    }
}

/// An earlier reaction to the enzyme.
#[component]
pub fn Reaction(draft: RwSignal<Draft>) -> impl IntoView {
    view! {
        <Question
            legend=said::previous()
            value=Signal::derive(move || draft.read().previous)
            on_choose=move |answer| draft.update(|found| found.previous = Some(answer))
        />
    }
}

/// Bee and wasp, each for itself.
#[component]
pub fn Stings(draft: RwSignal<Draft>) -> impl IntoView {
    view! {
        <Question
            legend=said::bee()
            value=Signal::derive(move || draft.read().bee)
            on_choose=move |answer| draft.update(|found| found.bee = Some(answer))
        />
        <Question
            legend=said::wasp()
            value=Signal::derive(move || draft.read().wasp)
            on_choose=move |answer| draft.update(|found| found.wasp = Some(answer))
        />
    }
}

/// Venom immunotherapy.
#[component]
pub fn Desensitised(draft: RwSignal<Draft>) -> impl IntoView {
    view! {
        <Question
            legend=said::desensitised()
            value=Signal::derive(move || draft.read().desensitised)
            on_choose=move |answer| draft.update(|found| found.desensitised = Some(answer))
        />
    }
}

/// Pregnancy, medicines, species.
#[component]
pub fn Rest(draft: RwSignal<Draft>) -> impl IntoView {
    let pregnancy =
        words_of::PREGNANCY.map(|state| Item::new(state, words_of::pregnancy(state))).to_vec();
    let medicines = words_of::MEDICINES.map(|one| Item::new(one, words_of::medicine(one))).to_vec();
    let species = words_of::SPECIES.map(|one| Item::new(one, words_of::species(one))).to_vec();
    view! {
        <Segment
            legend=said::pregnancy()
            items=pregnancy
            value=Signal::derive(move || draft.read().pregnancy)
            on_choose=move |state| draft.update(|found| found.pregnancy = Some(state))
        />
        <Chips
            legend=said::medicines()
            items=medicines
            value=Signal::derive(move || draft.read().medicines.clone())
            on_change=move |(medicine, on)| {
                draft
                    .update(|found| {
                        found.medicines.retain(|other| *other != medicine);
                        if on {
                            found.medicines.push(medicine);
                        }
                    });
            }
        />
        <Choice
            legend=said::species()
            items=species
            value=Signal::derive(move || Some(draft.read().species))
            on_choose=move |species| draft.update(|found| found.species = species)
        />
    }
}
