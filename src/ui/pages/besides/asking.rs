//! What is asked before aspirin: what the case does not know already, one under the other.

use super::Besides;
use crate::care::adjunct::{Act, Asked, aspirin, weekly};
use crate::care::allergy::Answer;
use crate::case::{Event, Step};
use crate::protocol::adjunct::{Adjunct, Concern};
use crate::ui::parts::{Foot, GoButton, Item, QuantityField, Segment, Title};
use crate::ui::steps::CaseScreen;
use crate::ui::words::{adjunct as said, allergy as answers};
use leptos::prelude::*;

/// Answers being given.
#[derive(Clone, Copy)]
struct Draft {
    asked: RwSignal<Asked>,
    /// Answered on this screen: what is not known is told from what was not asked.
    touched: RwSignal<Vec<Concern>>,
}

impl Draft {
    fn put(self, concern: Concern, answer: Answer) {
        self.asked.update(|asked| asked.put(concern, answer));
        self.touched.update(|touched| touched.push(concern));
    }

    /// The answer, tracked; nothing before there is one.
    fn get(self, concern: Concern) -> Option<Answer> {
        let answer = self.asked.read().get(concern);
        let answered = answer != Answer::Unknown || self.touched.read().contains(&concern);
        answered.then_some(answer)
    }
}

/// What is asked before aspirin.
#[component]
pub fn Asking(page: Besides) -> impl IntoView {
    let case = page.here.now();
    let draft =
        Draft { asked: RwSignal::new(case.before_aspirin()), touched: RwSignal::new(Vec::new()) };
    let known = case.known_before_aspirin();
    // Whether it is late in the pregnancy hangs on whether there is one.
    let asked = Concern::ALL.into_iter().filter(|concern| {
        known.get(*concern) == Answer::Unknown && *concern != Concern::LatePregnancy
    });
    let questions: Vec<Concern> = asked.collect();
    let late = known.get(Concern::LatePregnancy) == Answer::Unknown;
    let pregnant =
        Memo::new(move |_| late && draft.asked.read().get(Concern::Pregnancy) == Answer::Yes);
    let verdict = Memo::new(move |_| aspirin(&draft.asked.read()));
    let take = move |()| {
        page.asking.set(false);
        page.open.set(Some(Adjunct::Aspirin));
        page.here.record(Event::Adjunct(Act::Asked(draft.asked.get_untracked())));
    };
    view! {
        <CaseScreen step=Step::Rounds back=Callback::new(move |()| page.asking.set(false))>
            <Title arrive=true>{said::ask_title()}</Title>
            <p class="hint">{said::ask_why()}</p>
            <div class="asked">
                {questions
                    .into_iter()
                    .map(|concern| match concern {
                        Concern::Methotrexate => view! { <Methotrexate draft /> }.into_any(),
                        concern => view! { <Question draft concern /> }.into_any(),
                    })
                    .collect_view()}
                {move || {
                    pregnant
                        .get()
                        .then(|| view! { <Question draft concern=Concern::LatePregnancy /> })
                }}
            </div>
            <Foot slot>
                <GoButton on_press=take>
                    {move || said::take_answers(&verdict.read())}
                </GoButton>
            </Foot>
        </CaseScreen>
    }
}

fn items() -> Vec<Item<Answer>> {
    answers::ANSWERS.map(|answer| Item::new(answer, answers::answer(answer))).to_vec()
}

#[component]
fn Question(draft: Draft, concern: Concern) -> impl IntoView {
    view! {
        <Segment
            legend=said::question(concern)
            items=items()
            value=Signal::derive(move || draft.get(concern))
            on_choose=move |answer| draft.put(concern, answer)
        />
    }
}

/// Methotrexate forbids aspirin from a weekly dose on: a yes asks how much.
#[component]
fn Methotrexate(draft: Draft) -> impl IntoView {
    let takes = RwSignal::new(untrack(|| draft.get(Concern::Methotrexate)));
    let typed = RwSignal::new(String::new());
    let settle = move |text: &str| match weekly(text) {
        Some(mg) => draft.asked.update(|asked| asked.methotrexate(mg)),
        // How much is not known: neither allowed nor forbidden.
        None => draft.put(Concern::Methotrexate, Answer::Unknown),
    };
    let choose = move |answer| {
        takes.set(Some(answer));
        if answer == Answer::Yes {
            settle(&typed.read_untracked());
        } else {
            draft.put(Concern::Methotrexate, answer);
        }
    };
    let error = Signal::derive(move || {
        let text = typed.read();
        (!text.trim().is_empty() && weekly(&text).is_none())
            .then(|| said::weekly_wrong().to_owned())
    });
    view! {
        <Segment
            legend=said::question(Concern::Methotrexate)
            items=items()
            value=takes
            on_choose=choose
        />
        {move || {
            (takes.get() == Some(Answer::Yes))
                .then(|| {
                    view! {
                        <QuantityField
                            label=said::weekly()
                            value=typed
                            unit=Some(said::mg().to_owned())
                            hint=Some(said::weekly_hint())
                            error
                            on_input=move |text: String| {
                                settle(&text);
                                typed.set(text);
                            }
                        />
                    }
                })
        }}
    }
}
