//! How it stands, and the one thing to do.

use super::found::{Asked, Found};
use super::{Framed, Shown, View};
use crate::care::aftercare::Advice;
use crate::care::rounds::{End, HandOver};
use crate::case::{Case, CaseId, Event, Overridden, Role};
use crate::measure::{Moment, Span};
use crate::phone::{use_clock, use_now};
use crate::record::calendar::{Alarm, Calendar, Due, OutOfRange};
use crate::ui::app::use_go;
use crate::ui::calling::Calls;
use crate::ui::page::Page;
use crate::ui::parts::{
    DangerButton, Figure, Figures, Foot, GoButton, IntoCalendar, Note, Pair, QuietButton, Row,
    Rows, Title,
};
use crate::ui::steps::{HandOverAfter, Handing, Here, ReasonSheet, use_here};
use crate::ui::tap::Taps;
use crate::ui::words::{self, followup as said, handing, hour, photos, timeline};
use leptos::prelude::*;

/// What can be done here.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Deed {
    /// Go on with a treatment that has not ended.
    GoOn,
    /// Hand the patient over.
    HandOver,
    /// Read out what those who took over are told.
    ReadOut,
    /// Treat the occlusion that is back.
    Treat,
    /// See the patient.
    See,
    /// Agree on the next review, or change it.
    Agree,
    /// Close the case.
    Close,
    /// Look at the record.
    Record,
}

impl Deed {
    /// The one to do next, and at most two more.
    fn of(case: &Case, now: Moment) -> (Self, &'static [Self]) {
        let course = case.course();
        if !case.open() {
            return match case.ended_for() {
                Some(_) => (Self::ReadOut, &[Self::See, Self::Record]),
                None => (Self::See, &[Self::Record]),
            };
        }
        if course.end.is_none() {
            return (Self::GoOn, &[Self::Record]);
        }
        let next = course.next();
        if !case.flags.is_empty() {
            (Self::HandOver, &[Self::See, Self::Close])
        } else if course.treat() {
            (Self::Treat, &[Self::See, Self::Close])
        } else if next.is_some_and(|next| next.agreed || next.at <= now) {
            (Self::See, &[Self::Agree, Self::Close])
        } else if next.is_some() {
            (Self::Agree, &[Self::See, Self::Close])
        } else {
            (Self::Close, &[Self::See, Self::Agree])
        }
    }
}

/// How it stands, and the one thing to do.
#[component]
pub fn Stands(id: CaseId, shown: Shown) -> impl IntoView {
    let here = use_here();
    let go = use_go();
    let now = use_now();
    let taps = Taps::new();
    let otherwise = RwSignal::new(false);
    let handing = RwSignal::new(None);
    // Closed from here it ends as the treatment did.
    let end = |case: &Case| case.treatment.end().map_or(End::Stopped, |(_, end)| end);
    let close = Callback::new(move |()| {
        let end = end(&here.now());
        here.record_then(Event::Closed(end), move || go.to(Page::Timeline(id)));
    });
    let holds = Memo::new(move |_| {
        let case = here.case();
        said::against(case.course().holds(end(&case)))
    });
    let deeds = Memo::new(move |_| Deed::of(&here.case(), now.get()));
    let agreed = Memo::new(move |_| here.case().appointed.is_some());
    let flagged = Memo::new(move |_| !here.case().flags.is_empty());
    let closed = Signal::derive(move || {
        let (_, end) = here.case().closed?;
        Some(format!("{}: {}", timeline::closed(), words::rounds::end(end)))
    });
    let hand_over = move || handing.set(Some(Handing::Any(here.now().course().hand_over())));
    let act = move |deed| match deed {
        Deed::GoOn => go.to(Page::Case(id, None)),
        Deed::HandOver => hand_over(),
        Deed::ReadOut => here.to_hand_over(),
        Deed::Treat => treat_again(here, move || go.to(Page::Case(id, None))),
        Deed::See => shown.set(View::Looking),
        Deed::Agree => shown.set(View::When),
        Deed::Close if holds.with_untracked(String::is_empty) => close.run(()),
        Deed::Close => otherwise.set(true),
        Deed::Record => go.to(Page::Timeline(id)),
    };
    let label = move |deed| match deed {
        Deed::GoOn => timeline::on(),
        Deed::HandOver => words::round_screens::hand_over(),
        Deed::ReadOut => handing::to_sheet(),
        Deed::Treat => said::treat(),
        Deed::See => said::see_now(),
        Deed::Agree if agreed.get() => said::change_day(),
        Deed::Agree => said::agree(),
        Deed::Close => said::close(),
        Deed::Record => said::record(),
    };
    let first = Memo::new(move |_| deeds.get().0);
    let large = move || {
        let deed = first.get();
        let press = move |()| taps.once(|| act(deed));
        match deed {
            Deed::HandOver | Deed::Treat => {
                view! { <DangerButton on_press=press>{label(deed)}</DangerButton> }.into_any()
            }
            _ => view! { <GoButton on_press=press>{label(deed)}</GoButton> }.into_any(),
        }
    };
    let small = move || {
        let others = deeds.get().1.iter().map(|deed| {
            let deed = *deed;
            view! { <QuietButton on_press=move |()| taps.once(|| act(deed))>{label(deed)}</QuietButton> }
        });
        others.collect_view()
    };
    view! {
        <Framed back=Callback::new(move |()| go.back())>
            <Title arrive=true eyebrow=closed>{said::title()}</Title>
            {move || flagged.get().then(|| view! { <Help /> })}
            <Asked />
            // Treated or handed over now, the day of the next review is not the question.
            <Show when=move || !matches!(first.get(), Deed::HandOver | Deed::Treat)>
                <Next />
                <Reviews />
            </Show>
            <Found />
            <Elsewhere id hand_over=Callback::new(move |()| hand_over()) />
            <ReasonSheet
                open=otherwise
                what=Overridden::Proposal
                against=holds
                then=close
            />
            <HandOverAfter handing />
            <Foot slot>
                {large}
                <Pair>{small}</Pair>
            </Foot>
        </Framed>
    }
}

/// When the next review is, large.
#[component]
fn Next() -> impl IntoView {
    let here = use_here();
    let now = use_now();
    // In words, so that it is drawn anew once a minute and not four times a second.
    let next = Memo::new(move |_| {
        let case = here.case();
        let over = case.open() && case.treatment.end().is_some();
        over.then(|| case.course().next().map(|next| said::next(&next, now.get())))
    });
    move || {
        next.get().map(|next| match next {
            None => view! { <Note>{said::none_due()}</Note> }.into_any(),
            Some(said::Next { head, span, when, due }) => view! {
                <div class="review-next" class:due=due>
                    <Figures>
                        <Figure label=head number=span note=Some(when) wide=true />
                    </Figures>
                </div>
            }
            .into_any(),
        })
    }
}

/// Where else this leads.
#[component]
fn Elsewhere(id: CaseId, hand_over: Callback<()>) -> impl IntoView {
    let here = use_here();
    let go = use_go();
    let pictured = Memo::new(move |_| !here.case().pictures().is_empty());
    // While a sign stands it is the large button.
    let handable = Memo::new(move |_| {
        let case = here.case();
        case.in_follow_up() && case.flags.is_empty()
    });
    view! {
        <Rows>
            {move || pictured.get().then(|| view! {
                <Row
                    label=photos::title()
                    detail=Some(photos::detail().to_owned())
                    on_press=move |()| go.to(Page::Photos(id))
                />
            })}
            {move || handable.get().then(|| view! {
                <Row
                    label=words::round_screens::hand_over()
                    detail=Some(said::hand_over_detail().to_owned())
                    on_press=hand_over
                />
            })}
        </Rows>
    }
}

/// A sign stands: whom to call before anything else.
#[component]
fn Help() -> impl IntoView {
    let here = use_here();
    let now = use_now();
    let roles = Memo::new(move |_| {
        let held = here.held();
        let reason = held.case.flags.first().map(|flag| HandOver::of(*flag));
        let sheet = held.case.handover(&held.journal, reason, now.get_untracked());
        Role::asked(&sheet.recommendation)
    });
    let call = Callback::new(move |contact| {
        here.record(Event::Note(words::contacts::begun(&contact)));
    });
    view! { <Calls roles=Signal::derive(move || roles.get()) on_call=call /> }
}

/// Puts the reviews to come into the phone's calendar.
#[component]
fn Reviews() -> impl IntoView {
    let here = use_here();
    let clock = use_clock();
    let make = Callback::new(move |()| reviews(&here.now(), clock.now()));
    let any = Memo::new(move |_| here.case().next_review().is_some());
    move || {
        any.get().then(|| {
            view! { <IntoCalendar words=said::calendar() make why=Some(said::calendar_why().to_owned()) /> }
        })
    }
}

/// The reviews still to come. Each is named by its place after those that were, above the numbers of
/// the rounds that the looks go by: a later file moves it and doubles none.
fn reviews(case: &Case, now: Moment) -> Result<Option<String>, OutOfRange> {
    const ABOVE_ROUNDS: u32 = 1_000;
    let seen = u32::try_from(case.reviews.len()).unwrap_or_default();
    let coming = case.course().coming().into_iter().zip(ABOVE_ROUNDS.saturating_add(seen)..);
    let dues: Vec<Due> = coming
        .filter(|(planned, _)| planned.at > now)
        .map(|(planned, number)| Due {
            number,
            at: planned.at,
            summary: said::calendar_review(),
            notes: if planned.agreed { said::calendar_agreed() } else { said::calendar_proposed() },
        })
        .collect();
    if dues.is_empty() {
        return Ok(None);
    }
    let file = Calendar {
        product: hour::calendar_product(),
        case: case.id,
        made: now,
        lasts: Span::ZERO,
        dues: &dues,
        alarms: &[Alarm::at_once()],
    };
    file.write().map(Some)
}

/// Worse: the occlusion is not over. One entry, and the case stands where the next round is decided.
fn treat_again(here: Here, then: impl FnOnce() + 'static) {
    let Some(look) = here.now().course().last().map(|(_, review)| review.look.clone()) else {
        return;
    };
    let reason = said::advice(Advice::Treat);
    here.record_then(Event::TakenUp { look: Box::new(look), reason }, then);
}
