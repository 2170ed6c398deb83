//! The skin test: placed, read at its times, judged.

use super::close;
use super::making::Making;
use crate::care::situation::Aim;
use crate::care::skin_test::{self, Act, Odd, Placed, Portion, Seen, Verdict};
use crate::case::{Event, Overridden, Step};
use crate::measure::{Length, Span, Typed};
use crate::phone::use_now;
use crate::protocol::{Id, Quantity, intradermal};
use crate::ui::app::use_go;
use crate::ui::parts::{
    self, Choice, Clock, DangerButton, Figure, Figures, Finding, Foot, GoButton, Item, Note, Pair,
    QuantityField, QuietButton, Tick, Title, Tone, Why,
};
use crate::ui::steps::{CaseScreen, ReasonSheet, use_here};
use crate::ui::words::app::allergy as said;
use crate::ui::words::{self, allergy as words_of, numbers, time, typed};
use leptos::prelude::*;

/// How much to inject, and the bleb that it leaves.
#[component]
pub fn Place(
    /// Whether the questions were asked for again.
    asking: RwSignal<bool>,
) -> impl IntoView {
    let here = use_here();
    let case = here.now();
    let protocol = &case.protocol;
    // The test is drawn from the solution that the work will use.
    let strength = match case.way {
        Some((_, Some(Aim::All))) => protocol.all_strength,
        _ => protocol.part_strength,
    };
    let portions = skin_test::portions(strength, protocol.syringe_marks, protocol);
    let chosen = RwSignal::new(portions.first().copied());
    let bleb = RwSignal::new(String::new());
    let items = portions
        .iter()
        .map(|portion| {
            let item = Item::new(
                *portion,
                format!(
                    "{} = {}",
                    numbers::volume_named(portion.volume),
                    numbers::units_named(portion.dose)
                ),
            );
            match portion_hint(portion) {
                Some(hint) => item.hint(hint),
                None => item,
            }
        })
        .collect::<Vec<_>>();
    let none = items.is_empty();
    let place = move |()| {
        if let Some(portion) = chosen.get_untracked() {
            here.record(Event::SkinTest(Act::Place(Placed {
                dose: portion.dose,
                volume: portion.volume,
                bleb: Length::read(&bleb.read_untracked()).ok(),
            })));
        }
    };
    let error = Signal::derive(move || bleb_error(&bleb.read()));
    let why_not =
        Signal::derive(
            move || if none { Some(said::no_portion().to_owned()) } else { error.get() },
        );
    let (least, median, most) = intradermal::BLEB_OF_20_UL;
    let mut findings = words::protocol::findings(Id::SkinTestLow);
    findings.extend(words::protocol::findings(Id::SkinTestHigh));
    view! {
        <CaseScreen step=Step::Allergy fraction=0.5>
            <Title
                eyebrow=Some(words::app::test_from(&numbers::strength_named(strength)))
                arrive=true
            >
                {said::place_label()}
            </Title>
            {(case.test_verdict() == Some(Verdict::TooLate))
                .then(|| view! { <Note tone=Tone::Caution>{said::too_late()}</Note> })}
            <Choice
                legend=said::portion()
                items
                value=chosen
                on_choose=move |portion| chosen.set(Some(portion))
            />
            <QuantityField
                label=said::bleb_label()
                value=bleb
                unit=Some(said::mm().to_owned())
                hint=Some(
                    words::app::bleb(
                        &numbers::length_named(median),
                        &numbers::length_named(least),
                        &numbers::length_named(most),
                    ),
                )
                error
                on_input=move |text| bleb.set(text)
            />
            <Making case=case.clone() strength portion=chosen />
            <Why summary=said::why_dose() findings />
            <Foot slot>
                <GoButton on_press=place why_not>{said::placed()}</GoButton>
                <QuietButton on_press=move |()| asking.set(true)>{said::ask_again()}</QuietButton>
            </Foot>
        </CaseScreen>
    }
}

/// What is wrong with a typed bleb. It may be left out, but not be one that no bleb can have.
fn bleb_error(text: &str) -> Option<String> {
    match typed::field::<Length>(text) {
        Err(wrong) => Some(wrong),
        Ok(across) => across.and_then(skin_test::odd_bleb).map(|odd| match odd {
            Odd::Slip(meant) => typed::slip(Quantity::Length(meant)),
            Odd::Wide => {
                let (least, _, most) = intradermal::BLEB_OF_20_UL;
                words::app::wide_bleb(&numbers::length_named(least), &numbers::length_named(most))
            }
        }),
    }
}

/// What is wrong with a typed wheal. No wheal is typed as 0.
fn wheal_error(text: &str) -> Option<String> {
    if text.trim() == "0" {
        return None;
    }
    match typed::field::<Length>(text) {
        Err(wrong) => Some(wrong),
        Ok(across) => {
            across.and_then(skin_test::odd_wheal).map(|meant| typed::slip(Quantity::Length(meant)))
        }
    }
}

fn portion_hint(portion: &Portion) -> Option<String> {
    if portion.label {
        Some(said::label_dose().to_owned())
    } else if portion.large {
        Some(words::app::large_portion(&numbers::volume_named(intradermal::MOST_VOLUME)))
    } else {
        None
    }
}

/// One sign of a look.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Mark {
    Flare,
    Itch,
    Pseudopods,
    Systemic,
}

impl Mark {
    fn items() -> Vec<Item<Self>> {
        [
            (Self::Flare, said::flare()),
            (Self::Itch, said::itch()),
            (Self::Pseudopods, said::pseudopods()),
            (Self::Systemic, said::systemic()),
        ]
        .map(|(mark, label)| Item::new(mark, label))
        .to_vec()
    }
}

/// A look at the test.
#[component]
pub fn Read(
    /// Whether another look was asked for.
    reading: RwSignal<bool>,
) -> impl IntoView {
    let here = use_here();
    let now = use_now();
    let wheal = RwSignal::new(String::new());
    let marks = RwSignal::new(Vec::<Mark>::new());
    let seen = Memo::new(move |_| {
        let has = |mark| marks.read().contains(&mark);
        Seen {
            wheal: Length::read(&wheal.read()).unwrap_or(Length::ZERO),
            flare: has(Mark::Flare),
            itch: has(Mark::Itch),
            pseudopods: has(Mark::Pseudopods),
            systemic: has(Mark::Systemic),
        }
    });
    // This screen is only shown once a test was placed.
    let test = Memo::new(move |_| here.case().test);
    let since = Signal::derive(move || test.get().map_or(now.get(), |(at, _)| at));
    let after = Memo::new(move |_| now.get().since(since.get()));
    let verdict = Memo::new(move |_| {
        let (_, placed) = test.get()?;
        Some(skin_test::judge(&placed, &seen.get(), after.get(), &here.case().protocol))
    });
    let due = Signal::derive(move || since.get().after(here.case().protocol.skin_test_read));
    let early = Memo::new(move |_| now.get() < due.get());
    let left = Signal::derive(move || {
        if early.get() { due.get().since(now.get()) } else { now.get().since(due.get()) }
    });
    let record = move |()| {
        here.record_then(Event::SkinTest(Act::Read(seen.get_untracked())), move || {
            reading.set(false);
            if here.now().step() != Step::Allergy {
                here.onward();
            }
        });
    };
    let error = Signal::derive(move || wheal_error(&wheal.read()));
    let why_not = Signal::derive(move || {
        let early = verdict.get() == Some(Verdict::TooEarly);
        // A negative look lets the enzyme in, so it is said and never assumed.
        let unsaid = verdict.get() == Some(Verdict::Negative)
            && wheal.with(|across| across.trim().is_empty());
        error
            .get()
            .or_else(|| early.then(|| words::app::read_from(&time::hour(due.get()))))
            .or_else(|| unsaid.then(|| said::wheal_wanted().to_owned()))
    });
    let calls = Signal::derive(move || match test.get() {
        Some((_, placed)) => guidelines(&placed, &seen.get(), after.get()),
        None => Vec::new(),
    });
    view! {
        <CaseScreen step=Step::Allergy fraction=0.7>
            <Title
                eyebrow=Signal::derive(move || Some(words::app::placed_at(&time::hour(since.get()))))
                arrive=true
            >
                {move || if early.get() { said::wait() } else { said::read() }}
            </Title>
            <Clock
                span=left
                label=said::until_read()
                overdue=Signal::derive(move || !early.get())
                overdue_word=Some(said::due_since().to_owned())
            />
            <QuantityField
                label=said::wheal()
                value=wheal
                unit=Some(said::mm().to_owned())
                hint=Some(said::wheal_none().to_owned())
                error
                on_input=move |text| wheal.set(text)
            />
            <Tick
                legend=said::seen()
                items=Mark::items()
                value=marks
                on_change=move |(mark, on)| {
                    marks
                        .update(|marks| {
                            marks.retain(|other| *other != mark);
                            if on {
                                marks.push(mark);
                            }
                        });
                }
            />
            <Why summary=said::guidelines() findings=calls>
                <p>{said::redness()}</p>
            </Why>
            <Foot slot>
                <GoButton on_press=record why_not>
                    {move || {
                        words::app::record_look(verdict.get().map_or("", words_of::verdict))
                    }}
                </GoButton>
            </Foot>
        </CaseScreen>
    }
}

/// What each guideline says of a look.
fn guidelines(placed: &Placed, seen: &Seen, after: Span) -> Vec<Finding> {
    skin_test::calls(placed, seen, after)
        .into_iter()
        .map(|(reading, call)| Finding {
            figure: words_of::scheme(reading.scheme).to_owned(),
            setting: words_of::reading(reading),
            citation: reading.source.citation.to_owned(),
            status: words_of::call(call).to_owned(),
        })
        .collect()
}

/// What the test came to.
#[component]
pub fn Came(
    /// Whether another look was asked for.
    reading: RwSignal<bool>,
) -> impl IntoView {
    let here = use_here();
    let go = use_go();
    let otherwise = RwSignal::new(false);
    let verdict = Memo::new(move |_| here.case().test_verdict());
    let negative = move || verdict.get() == Some(Verdict::Negative);
    let doubtful = move || verdict.get() == Some(Verdict::Doubtful);
    let kind =
        Signal::derive(
            move || {
                if negative() { parts::Outcome::Planned } else { parts::Outcome::NotForIt }
            },
        );
    let next = move |()| {
        if negative() {
            here.to(Step::Strength);
        } else {
            close(here, go);
        }
    };
    view! {
        <CaseScreen step=Step::Allergy fraction=1.0>
            <parts::Verdict
                alone=true
                outcome=kind
                word=said::test()
                heading=Signal::derive(move || {
                    verdict.get().map_or_else(String::new, |found| words_of::verdict(found).to_owned())
                })
            >
                <p>
                    {move || match verdict.get() {
                        Some(Verdict::Positive) => said::positive_means(),
                        Some(Verdict::Doubtful) => said::doubtful_means(),
                        _ => said::negative_means(),
                    }}
                </p>
            </parts::Verdict>
            <Figures>
                {move || {
                    here.case()
                        .readings
                        .iter()
                        .map(|reading| {
                            view! {
                                <Figure
                                    label=time::hour(reading.at)
                                    number=reading.seen.wheal.to_string()
                                    unit=Some(said::mm().to_owned())
                                    note=Some(words_of::verdict(reading.verdict).to_owned())
                                />
                            }
                        })
                        .collect_view()
                }}
            </Figures>
            <Note>{said::delayed()}</Note>
            <ReasonSheet
                open=otherwise
                what=Overridden::SkinTest
                against=Signal::derive(|| said::doubtful_means().to_owned())
                then=Callback::new(move |()| here.to(Step::Strength))
            />
            <Foot slot>
                <GoButton on_press=next>
                    {move || if negative() { said::on() } else { said::close() }}
                </GoButton>
                <Pair>
                    <QuietButton on_press=move |()| reading.set(true)>{said::look_again()}</QuietButton>
                    {move || {
                        doubtful()
                            .then(|| {
                                view! {
                                    <DangerButton on_press=move |()| otherwise.set(true)>
                                        {words::app::otherwise()}
                                    </DangerButton>
                                }
                            })
                    }}
                </Pair>
            </Foot>
        </CaseScreen>
    }
}
