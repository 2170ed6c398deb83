//! Step 1: signs that go before everything, then the skin, then what is wanted.

mod detail;

use super::{CaseScreen, ReasonSheet, use_here};
use crate::care::allergy::Urgency;
use crate::care::rounds::{End, HandOver};
use crate::care::situation::{Aim, Filler, Findings, Missing, Outcome, RedFlag, Triage, triage};
use crate::case::{Event, Overridden, Step};
use crate::phone::use_now;
use crate::ui::app::use_go;
use crate::ui::page::Page;
use crate::ui::parts::{
    self, Choice, DangerButton, Foot, GoButton, Item, Note, QuietButton, Tick, Title, Tone,
};
use crate::ui::tap::turn;
use crate::ui::words::app::situation as said;
use crate::ui::words::{self, situation as words_of};
use leptos::prelude::*;

/// The screens of this step.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Part {
    Flags,
    Skin,
    Aim,
    Outcome,
}

/// What is being answered, before it is recorded.
#[derive(Clone, Copy)]
struct Draft {
    part: RwSignal<Part>,
    findings: RwSignal<Findings>,
    /// Whether what forbids to go on was overridden, with a reason that is recorded.
    set_aside: RwSignal<bool>,
}

impl Draft {
    fn triage(self) -> Triage {
        let here = use_here();
        let now = use_now();
        let mut found = self.findings.get();
        if self.set_aside.get() {
            found.red_flags.clear();
            found.site.clear();
            found.filler = Filler::default();
        }
        triage(&found, now.get(), &here.case().protocol)
    }
}

/// Step 1.
#[component]
pub fn Situation() -> impl IntoView {
    let here = use_here();
    let findings = {
        let case = here.now();
        // The signs as they stand now: noticed since, or gone at a look.
        Findings { red_flags: case.flags.clone(), ..case.findings.clone().unwrap_or_default() }
    };
    let draft = Draft {
        part: RwSignal::new(Part::Flags),
        findings: RwSignal::new(findings),
        set_aside: RwSignal::new(false),
    };
    view! {
        {move || match draft.part.get() {
            Part::Flags => view! { <Flags draft /> }.into_any(),
            Part::Skin => view! { <Skin draft /> }.into_any(),
            Part::Aim => view! { <Wanted draft /> }.into_any(),
            Part::Outcome => view! { <Came draft /> }.into_any(),
        }}
    }
}

/// Adds or takes away one of several.
fn toggle<T: PartialEq>(list: &mut Vec<T>, (value, on): (T, bool)) {
    list.retain(|other| *other != value);
    if on {
        list.push(value);
    }
}

/// Sight, stroke, airway.
#[component]
fn Flags(draft: Draft) -> impl IntoView {
    let here = use_here();
    let go = use_go();
    let Draft { part, findings, .. } = draft;
    let flags = Signal::derive(move || findings.read().red_flags.clone());
    let items = [RedFlag::Sight, RedFlag::Stroke, RedFlag::Airway]
        .map(|flag| Item::new(flag, words_of::red_flag(flag)).danger())
        .to_vec();
    let next = move |()| {
        let flags = flags.get_untracked();
        if flags.is_empty() {
            turn(part, Part::Skin);
            return;
        }
        here.record(Event::Found(Box::new(findings.get_untracked())));
        if flags == [RedFlag::Airway] {
            go.to(Page::Anaphylaxis(Some(here.id)));
        } else {
            turn(part, Part::Outcome);
        }
    };
    view! {
        <CaseScreen step=Step::Situation fraction=0.2>
            <Title arrive=true>{said::flags()}</Title>
            <Tick
                legend=said::flags()
                legend_hidden=true
                items
                value=flags
                on_change=move |change| findings.update(|found| toggle(&mut found.red_flags, change))
            />
            <Foot slot>
                <GoButton on_press=next>
                    {move || match flags.read().as_slice() {
                        [] => said::no_flags(),
                        [RedFlag::Airway] => said::to_sheet(),
                        _ => said::hand_over(),
                    }}
                </GoButton>
            </Foot>
        </CaseScreen>
    }
}

/// What the skin shows, with the rest for whoever has time.
#[component]
fn Skin(draft: Draft) -> impl IntoView {
    let here = use_here();
    let Draft { part, findings, .. } = draft;
    let signs = Signal::derive(move || findings.read().signs.clone());
    let items = words_of::SIGNS.map(|sign| Item::new(sign, words_of::sign(sign))).to_vec();
    let triage = Memo::new(move |_| draft.triage());
    let next = move |()| match triage.read_untracked().outcome {
        Outcome::Urgent(_) => take(here, findings.get_untracked(), Urgency::Urgent, None),
        Outcome::NotFor(_) => turn(part, Part::Outcome),
        _ => turn(part, Part::Aim),
    };
    let why_not = Signal::derive(move || match triage.read().outcome {
        Outcome::Open(Missing::Refill) => Some(words_of::missing(Missing::Refill).to_owned()),
        _ => None,
    });
    view! {
        <CaseScreen
            step=Step::Situation
            fraction=0.5
            back=Callback::new(move |()| turn(part, Part::Flags))
        >
            <Title arrive=true>{said::skin()}</Title>
            <Tick
                legend=said::skin()
                legend_hidden=true
                items
                value=signs
                on_change=move |change| findings.update(|found| toggle(&mut found.signs, change))
            />
            <detail::More findings triage />
            {move || cautions(&triage.read())}
            <Foot slot>
                <GoButton on_press=next why_not>
                    {move || match triage.read().outcome {
                        Outcome::Urgent(_) => said::urgent(),
                        Outcome::NotFor(_) => said::see_why(),
                        _ if signs.read().is_empty() => said::no_signs(),
                        _ => said::on(),
                    }}
                </GoButton>
            </Foot>
        </CaseScreen>
    }
}

/// What to keep in mind.
fn cautions(triage: &Triage) -> impl IntoView + use<> {
    let words: Vec<String> =
        triage.cautions.iter().map(|caution| words_of::caution(*caution)).collect();
    words.into_iter().map(|text| view! { <Note tone=Tone::Caution>{text}</Note> }).collect_view()
}

/// Part or all, and what forbids it.
#[component]
fn Wanted(draft: Draft) -> impl IntoView {
    let here = use_here();
    let Draft { part, findings, .. } = draft;
    let aims = [Aim::Part, Aim::All].map(|aim| Item::new(aim, words_of::aim(aim))).to_vec();
    let problems =
        words_of::SITE.map(|site| Item::new(site, words_of::site(site)).danger()).to_vec();
    let triage = Memo::new(move |_| draft.triage());
    let next = move |()| match triage.read_untracked().outcome {
        Outcome::Planned(aim) => take(here, findings.get_untracked(), Urgency::Planned, Some(aim)),
        _ => turn(part, Part::Outcome),
    };
    let why_not = Signal::derive(move || match triage.read().outcome {
        Outcome::Open(missing) => Some(words_of::missing(missing).to_owned()),
        _ => None,
    });
    view! {
        <CaseScreen
            step=Step::Situation
            fraction=0.8
            back=Callback::new(move |()| turn(part, Part::Skin))
        >
            <Title eyebrow=Some(said::planned().to_owned()) arrive=true>{said::aim()}</Title>
            <Choice
                legend=said::aim()
                legend_hidden=true
                items=aims
                value=Signal::derive(move || findings.read().aim)
                on_choose=move |aim| findings.update(|found| found.aim = Some(aim))
            />
            <detail::FillerField findings />
            <Tick
                legend=said::site()
                items=problems
                value=Signal::derive(move || findings.read().site.clone())
                on_change=move |change| findings.update(|found| toggle(&mut found.site, change))
            />
            {move || cautions(&triage.read())}
            <Foot slot>
                <GoButton on_press=next why_not>
                    {move || match triage.read().outcome {
                        Outcome::NotFor(_) => said::see_why(),
                        _ => said::on(),
                    }}
                </GoButton>
            </Foot>
        </CaseScreen>
    }
}

/// Records what was found and the way taken; the case then stands at the next step.
fn take(here: super::Here, findings: Findings, urgency: Urgency, aim: Option<Aim>) {
    here.record(Event::Found(Box::new(findings)));
    here.record_then(Event::Way { urgency, aim }, move || here.onward());
}

/// Hand over, or not for hyaluronidase: with the reasons, and the way to do otherwise.
#[component]
fn Came(draft: Draft) -> impl IntoView {
    let here = use_here();
    let go = use_go();
    let Draft { part, findings, .. } = draft;
    let triage = Memo::new(move |_| draft.triage());
    let otherwise = RwSignal::new(false);
    let kind = Signal::derive(move || match triage.read().outcome {
        Outcome::HandOver(_) => parts::Outcome::HandOver,
        Outcome::Urgent(_) => parts::Outcome::Urgent,
        Outcome::Planned(_) => parts::Outcome::Planned,
        _ => parts::Outcome::NotForIt,
    });
    let reasons = Memo::new(move |_| -> Vec<String> {
        match &triage.read().outcome {
            Outcome::HandOver(flags) => {
                flags.iter().map(|flag| words_of::red_flag_act(*flag).to_owned()).collect()
            }
            Outcome::NotFor(reasons) => {
                reasons.iter().map(|reason| words_of::not_for(*reason).to_owned()).collect()
            }
            Outcome::Urgent(grounds) => {
                grounds.iter().map(|ground| words_of::ground(*ground)).collect()
            }
            Outcome::Planned(_) | Outcome::Open(_) => Vec::new(),
        }
    });
    let heading = Signal::derive(move || match &triage.read().outcome {
        Outcome::HandOver(flags) => {
            flags.iter().map(|flag| words_of::red_flag(*flag)).collect::<Vec<_>>().join("; ")
        }
        _ => said::why().to_owned(),
    });
    let handing = move || matches!(triage.read().outcome, Outcome::HandOver(_));
    let close = move |()| {
        let found = findings.read_untracked();
        let outcome = match found.red_flags.first() {
            Some(RedFlag::Sight) => End::HandedOver(HandOver::Sight),
            Some(RedFlag::Stroke) => End::HandedOver(HandOver::Stroke),
            Some(RedFlag::Airway) => End::HandedOver(HandOver::Reaction),
            // A blocked artery with another filler is for others, and at once.
            None if !found.signs.is_empty() => End::HandedOver(HandOver::Other),
            None => End::Stopped,
        };
        drop(found);
        here.record(Event::Found(Box::new(findings.get_untracked())));
        here.record_then(Event::Closed(outcome), move || go.to(Page::Timeline(here.id)));
    };
    // With the flags or the prohibition set aside, what the skin shows decides.
    let go_on = Callback::new(move |()| {
        let signs = !findings.read_untracked().signs.is_empty();
        if signs {
            take(here, findings.get_untracked(), Urgency::Urgent, None);
        } else if let Some(aim) = findings.read_untracked().aim {
            take(here, findings.get_untracked(), Urgency::Planned, Some(aim));
        } else {
            // Handed over or forbidden before the skin was looked at: look at it now.
            draft.set_aside.set(true);
            turn(part, Part::Skin);
        }
    });
    view! {
        <CaseScreen
            step=Step::Situation
            fraction=1.0
            back=Callback::new(move |()| {
                turn(part, if handing() { Part::Flags } else { Part::Skin });
            })
        >
            <parts::Verdict
                alone=true
                outcome=kind
                word=Signal::derive(move || words_of::outcome(&triage.read().outcome).to_owned())
                heading
            >
                {move || {
                    reasons.get().into_iter().map(|reason| view! { <p>{reason}</p> }).collect_view()
                }}
            </parts::Verdict>
            <p class="follow">{words::app::follow()}</p>
            <ReasonSheet
                open=otherwise
                what=Overridden::Situation
                against=Signal::derive(move || reasons.read().join(" "))
                then=go_on
            />
            <Foot slot>
                <GoButton on_press=close>
                    {move || {
                        let others = handing() || !findings.read().signs.is_empty();
                        if others { said::handed_over() } else { said::close_case() }
                    }}
                </GoButton>
                <parts::Pair>
                    <QuietButton on_press=move |()| go.to(Page::Timeline(here.id))>
                        {said::record()}
                    </QuietButton>
                    <DangerButton on_press=move |()| otherwise.set(true)>
                        {move || if handing() { said::treat_meanwhile() } else { words::app::otherwise() }}
                    </DangerButton>
                </parts::Pair>
            </Foot>
        </CaseScreen>
    }
}
