//! After a look: what is proposed and why. The clinician decides.

use super::changes::Changes;
use super::end::over;
use super::sheets::Handing;
use super::trend::RefillTrend;
use super::{Step5, last_act, strike};
use crate::care::adjunct::excludes;
use crate::care::dose::supply;
use crate::care::perfusion::{Next, Why, next};
use crate::care::rounds::{Act, End, HandOver};
use crate::care::territory::Territory;
use crate::case::{Overridden, Step};
use crate::ui::app::use_go;
use crate::ui::page::Page;
use crate::ui::parts::{
    self, DangerButton, Foot, GoButton, Note, Pair, QuietButton, Title, Tone, Verdict,
};
use crate::ui::rehearsal::rehearsed;
use crate::ui::steps::{BesidesRow, CaseScreen, ConflictNote, Here, ReasonSheet, use_here};
use crate::ui::tap::turn;
use crate::ui::words::{after as said, numbers, round_screens, rounds as words_of};
use leptos::prelude::*;

/// What is done after all, other than proposed.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Instead {
    Repeat,
    End,
}

/// After a look.
#[component]
pub fn Decide(step: Step5) -> impl IntoView {
    let here = use_here();
    let proposed = Memo::new(move |_| {
        let case = here.case();
        let person = case.findings.as_ref().map(|found| found.person).unwrap_or_default();
        next(&case.treatment, &case.flags, &case.states(), person, &case.protocol)
    });
    // There is a look whenever this is shown; without one, help is the safe proposal.
    let proposal = Memo::new(move |_| {
        proposed.read().as_ref().map_or(Next::HandOver(HandOver::Other), |(what, _)| *what)
    });
    let reasons = Memo::new(move |_| -> Vec<String> {
        let proposed = proposed.read();
        let reasons = proposed.as_ref().map(|(_, reasons)| reasons.as_slice()).unwrap_or_default();
        // What became of each sign stands in the table.
        let reasons = reasons.iter().filter(|reason| !matches!(reason, Why::Became(..)));
        reasons.map(|reason| words_of::why(*reason)).collect()
    });
    let number = here.now().treatment.rounds().len();
    let otherwise = RwSignal::new(false);
    let instead = RwSignal::new(Instead::Repeat);
    let repeat = move || {
        // A solution made in the hour is taken; otherwise a new one is made.
        if here.now().solution_for_next().is_some() {
            step.going.set(true);
        } else {
            here.to(Step::Strength);
        }
    };
    let rehearsed = rehearsed();
    let end = move |end: End| over(here, end, rehearsed);
    let press = move |()| {
        step.taps.once(|| match proposal.get_untracked() {
            Next::Repeat | Next::Widen => repeat(),
            Next::Stop => end(End::Done),
            Next::HandOver(reason) => step.handing.set(Some(Handing::Any(Some(reason)))),
        });
    };
    let other = Callback::new(move |what: Instead| {
        instead.set(what);
        otherwise.set(true);
    });
    let then = Callback::new(move |()| match instead.get_untracked() {
        Instead::Repeat => repeat(),
        // Not all is back: it was stopped, and why stands in the record.
        Instead::End => end(End::Stopped),
    });
    let kind = Signal::derive(move || match proposal.get() {
        Next::Stop => parts::Outcome::Planned,
        Next::Repeat | Next::Widen => parts::Outcome::Urgent,
        Next::HandOver(_) => parts::Outcome::HandOver,
    });
    view! {
        <CaseScreen
            step=Step::Rounds
            fraction=0.9
            back=Callback::new(move |()| turn(step.looking, true))
        >
            <Title arrive=true>{said::after(number)}</Title>
            <Verdict
                outcome=kind
                word=Signal::derive(move || said::proposed(proposal.get()).to_owned())
                heading=Signal::derive(move || words_of::next(proposal.get()))
            >
                {move || {
                    reasons.get().into_iter().map(|reason| view! { <p>{reason}</p> }).collect_view()
                }}
            </Verdict>
            <Early />
            <Changes />
            <DrawAgain />
            <RefillTrend />
            <Stock />
            <ConflictNote which=excludes />
            <BesidesRow />
            <Pair>
                <QuietButton on_press=move |()| {
                    turn(step.looking, true);
                }>{said::look_again()}</QuietButton>
                <QuietButton on_press=move |()| {
                    if let Some((entry, Act::Look(_))) = last_act(&untrack(|| here.held())) {
                        strike(here, entry);
                    }
                }>{said::undo_look()}</QuietButton>
            </Pair>
            <ReasonSheet
                open=otherwise
                what=Overridden::Proposal
                against=Signal::derive(move || said::against(proposal.get(), &reasons.read()))
                then
            />
            <Foot slot>
                <GoButton on_press=press>
                    {move || go_words(here, proposal.get(), number + 1)}
                </GoButton>
                <Others step proposal on_other=other />
            </Foot>
        </CaseScreen>
    }
}

/// What the next action says.
fn go_words(here: Here, proposal: Next, number: usize) -> String {
    let case = here.case();
    let ready = case.solution_for_next().is_some();
    match proposal {
        Next::Repeat | Next::Widen if ready => said::begin_ready(number),
        Next::Repeat => said::prepare(number),
        Next::Widen => said::prepare_wider(number, case.territory().map(Territory::area)),
        Next::Stop => said::end().to_owned(),
        Next::HandOver(_) => round_screens::hand_over().to_owned(),
    }
}

/// Draws the skin again, to the outline and back here. Told to be wanting where it was not drawn
/// since the last round, so that its size cannot be compared.
#[component]
fn DrawAgain() -> impl IntoView {
    let here = use_here();
    let go = use_go();
    let drawn = Memo::new(move |_| {
        let case = here.case();
        case.territory().and_then(Territory::outlined)?;
        let rounds = case.treatment.rounds().len();
        Some(case.territories.last()?.rounds_begun == rounds)
    });
    move || {
        drawn.get().map(|since| {
            view! {
                <div class="draw-again">
                    {(!since).then(|| view! { <p class="hint">{said::draw_again_why()}</p> })}
                    <QuietButton on_press=move |()| {
                        go.to(Page::Redraw(here.id));
                    }>{said::draw_again()}</QuietButton>
                </div>
            }
        })
    }
}

/// What is not proposed. Handing over asks for its own reason; the rest for one in words.
#[component]
fn Others(step: Step5, proposal: Memo<Next>, on_other: Callback<Instead>) -> impl IntoView {
    view! {
        <Pair>
            {move || {
                let handing = matches!(proposal.get(), Next::HandOver(_));
                (!handing)
                    .then(|| {
                        view! {
                            <QuietButton on_press=move |()| {
                                step.handing.set(Some(Handing::Any(None)));
                            }>{round_screens::hand_over()}</QuietButton>
                        }
                    })
            }}
            {move || {
                (!matches!(proposal.get(), Next::Repeat | Next::Widen))
                    .then(|| {
                        view! {
                            <DangerButton on_press=move |()| {
                                on_other.run(Instead::Repeat);
                            }>{said::prepare_more()}</DangerButton>
                        }
                    })
            }}
            {move || {
                (proposal.get() != Next::Stop)
                    .then(|| {
                        view! {
                            <DangerButton on_press=move |()| {
                                on_other.run(Instead::End);
                            }>{said::end_here()}</DangerButton>
                        }
                    })
            }}
        </Pair>
    }
}

/// A look before the interval was over, as one tap allows: what is back later may not be back yet.
#[component]
fn Early() -> impl IntoView {
    let here = use_here();
    move || {
        let case = here.case();
        let interval = case.protocol.round_interval;
        let waited = case.treatment.waited()?;
        (waited < interval).then(|| {
            view! { <Note tone=Tone::Caution>{said::early_look(waited, interval)}</Note> }
        })
    }
}

/// What another round takes, and what is there where that is known.
#[component]
fn Stock() -> impl IntoView {
    let here = use_here();
    move || {
        let case = here.case();
        let units = case.next_round()?.units();
        let vial = case.preparation.as_ref()?.plan.ask().vial.units;
        let left = case.vials_left();
        let needs = supply(units, vial, left.unwrap_or(0));
        Some(view! {
            <Note>
                <p>{said::takes(units, needs.needed)}</p>
                {left
                    .map(|left| {
                        let words = numbers::vials(left);
                        view! { <p>{round_screens::vials_left()} ": " {words}</p> }
                    })}
            </Note>
        })
    }
}
