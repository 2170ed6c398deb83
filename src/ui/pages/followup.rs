//! The patient seen again, until the case is closed.

use crate::care::aftercare::{Advice, Corrected, Damage, Review, Seen};
use crate::care::allergy::Urgency;
use crate::care::perfusion::Trend;
use crate::care::rounds::{End, HandOver, Look};
use crate::case::{Case, CaseId, Event, Overridden, Role};
use crate::measure::{Moment, Span};
use crate::phone::{use_clock, use_now};
use crate::record::calendar::{Alarm, Calendar, Due, OutOfRange};
use crate::ui::app::{set_title, use_go};
use crate::ui::calling::Calls;
use crate::ui::page::Page;
use crate::ui::parts::{
    Choice, DangerButton, Foot, GoButton, IntoCalendar, Item, Note, Pair, QuietButton, Segment,
    Tick, Title, Tone,
};
use crate::ui::steps::{Flagged, Here, LookWays, Looking, ReasonSheet, forget, use_here, waiting};
use crate::ui::tap::Taps;
use crate::ui::words::{self, followup as said, hour, time};
use leptos::prelude::*;

/// What is shown: one decision each.
#[derive(Clone)]
enum View {
    /// How it stands.
    Stands,
    /// The measures.
    Looking,
    /// What the skin and the correction came to.
    Came(Box<Look>),
    /// The next review.
    When,
}

type Shown = RwSignal<View>;

/// What is answered beside the measures; kept while one goes back to them.
#[derive(Clone, Copy)]
struct Answered {
    seen: RwSignal<Option<Seen>>,
    damage: RwSignal<Vec<Damage>>,
    corrected: RwSignal<Option<Corrected>>,
}

impl Answered {
    fn new() -> Self {
        Self {
            seen: RwSignal::new(Some(Seen::InPerson)),
            damage: RwSignal::new(Vec::new()),
            corrected: RwSignal::new(None),
        }
    }

    fn forget(self) {
        self.seen.set(Some(Seen::InPerson));
        self.damage.set(Vec::new());
        self.corrected.set(None);
    }
}

/// The patient seen again, until the case is closed.
#[component]
pub fn FollowUpPage(
    /// Which case.
    id: CaseId,
) -> impl IntoView {
    set_title(said::TITLE);
    let here = use_here();
    let first = here.now();
    // A look of the hours that waits belongs to the hours.
    let waits = waiting(&first) && first.treatment.end().is_some();
    let view: Shown = RwSignal::new(if waits { View::Looking } else { View::Stands });
    let answered = Answered::new();
    let ways = LookWays {
        rail: false,
        leave: Callback::new(move |()| {
            answered.forget();
            view.set(View::Stands);
        }),
        record: Callback::new(move |look: Look| view.set(View::Came(Box::new(look)))),
    };
    move || match view.get() {
        View::Stands => view! { <Stands id shown=view /> }.into_any(),
        View::Looking => view! { <Looking ways /> }.into_any(),
        View::Came(look) => view! { <Came look=*look answered shown=view /> }.into_any(),
        View::When => view! { <When shown=view /> }.into_any(),
    }
}

/// The frame of these screens: a sign that stands goes before everything.
#[component]
fn Framed(back: Callback<()>, foot: Foot, children: Children) -> impl IntoView {
    view! {
        <super::Framed back foot=Some(foot)>
            <Flagged />
            {children()}
        </super::Framed>
    }
}

/// How it stands, and the one thing to do.
#[component]
fn Stands(id: CaseId, shown: Shown) -> impl IntoView {
    let here = use_here();
    let go = use_go();
    let now = use_now();
    let taps = Taps::new();
    let otherwise = RwSignal::new(false);
    let close = Callback::new(move |()| {
        let case = here.now();
        let end = case.treatment.end().map_or(End::Stopped, |(_, end)| end);
        here.record_then(Event::Closed(end), move || go.to(Page::Timeline(id)));
    });
    let holds = Memo::new(move |_| {
        here.case().course().holds().into_iter().map(said::holds).collect::<Vec<_>>()
    });
    let ask = move |()| {
        if holds.with_untracked(Vec::is_empty) { close.run(()) } else { otherwise.set(true) }
    };
    let treat = Memo::new(move |_| here.case().course().treat());
    let flagged = Memo::new(move |_| !here.case().flags.is_empty());
    let agreed = Memo::new(move |_| here.case().appointed.is_some());
    let open = Memo::new(move |_| here.case().open());
    let due = Memo::new(move |_| {
        here.case().course().next().is_some_and(|next| next.agreed && next.at <= now.get())
    });
    let next = move || {
        here.case().course().next().map_or_else(
            || view! { <Note>{said::NONE_DUE}</Note> }.into_any(),
            |next| {
                let (head, more) = said::next(&next, now.get());
                let tone = if next.at <= now.get() { Tone::Caution } else { Tone::Plain };
                view! { <Note tone heading=Some(head)>{more}</Note> }.into_any()
            },
        )
    };
    let see = move |()| taps.once(|| shown.set(View::Looking));
    view! {
        <Framed back=Callback::new(move |()| go.back())>
            <Title arrive=true>{said::TITLE}</Title>
            {move || flagged.get().then(|| view! { <Help /> })}
            <Result />
            {next}
            <Reviews />
            <ReasonSheet
                open=otherwise
                what=Overridden::Proposal
                against=Signal::derive(move || holds.get().join(" "))
                then=close
            />
            <Foot slot>
            {move || if flagged.get() {
                view! { <GoButton on_press=move |()| here.to_hand_over()>{words::round_screens::HAND_OVER}</GoButton> }.into_any()
            } else if treat.get() {
                view! { <DangerButton on_press=move |()| taps.once(|| treat_again(here, move || go.to(Page::Case(id, None))))>{said::TREAT}</DangerButton> }.into_any()
            } else if due.get() || agreed.get() || !open.get() {
                view! { <GoButton on_press=see>{said::SEE_NOW}</GoButton> }.into_any()
            } else {
                view! { <GoButton on_press=move |()| shown.set(View::When)>{said::AGREE}</GoButton> }.into_any()
            }}
            <Pair>
                {move || if agreed.get() {
                    view! { <QuietButton on_press=move |()| shown.set(View::When)>{said::CHANGE_DAY}</QuietButton> }.into_any()
                } else {
                    view! { <QuietButton on_press=see>{said::SEE_NOW}</QuietButton> }.into_any()
                }}
                {move || if open.get() {
                    view! { <QuietButton on_press=ask>{said::CLOSE}</QuietButton> }.into_any()
                } else {
                    view! { <QuietButton on_press=move |()| go.to(Page::Timeline(id))>{said::RECORD}</QuietButton> }.into_any()
                }}
            </Pair>
            </Foot>
        </Framed>
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
            view! { <IntoCalendar words=&said::CALENDAR make why=Some(said::CALENDAR_WHY.to_owned()) /> }
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
            summary: said::CALENDAR_REVIEW,
            notes: if planned.agreed { said::CALENDAR_AGREED } else { said::CALENDAR_PROPOSED },
        })
        .collect();
    if dues.is_empty() {
        return Ok(None);
    }
    let file = Calendar {
        product: hour::CALENDAR_PRODUCT,
        case: case.id,
        made: now,
        lasts: Span::ZERO,
        dues: &dues,
        alarms: &[Alarm::at_once()],
    };
    file.write().map(Some)
}

/// The last review beside the one before, and what it asks for.
#[component]
fn Result() -> impl IntoView {
    let here = use_here();
    move || {
        let case = here.case();
        let course = case.course();
        course.last().map(|(at, review)| {
            let (_, more) = said::review(review);
            let trends = course.changed().map(|changed| {
                let lines = changed.trends().iter().filter(|(_, trend)| *trend != Trend::NotCompared);
                lines.map(|(aspect, trend)| said::became(*aspect, *trend)).collect::<Vec<_>>().join(". ")
            });
            // The card of a sign that stands says it already.
            let flags = &case.flags;
            let said_above =
                |advice: &Advice| matches!(advice, Advice::HandOver(flag) if flags.contains(flag));
            let advice = course.advice().into_iter().filter(|advice| !said_above(advice));
            let asked = advice.map(|advice| {
                let tone = match advice {
                    Advice::HandOver(_) | Advice::InPerson | Advice::Treat => Tone::Danger,
                    Advice::Well => Tone::Plain,
                    _ => Tone::Caution,
                };
                view! { <Note tone>{said::advice(advice)}</Note> }
            });
            view! {
                {asked.collect_view()}
                <Note heading=Some(format!("{}, {}", said::LAST, time::day_hour(*at)))>{more}</Note>
                {trends.map(|trends| view! { <Note heading=Some(said::SINCE.to_owned())>{trends}</Note> })}
            }
        })
    }
}

/// Worse: the occlusion is not over. One entry, and the case stands where the next round is decided.
fn treat_again(here: Here, then: impl FnOnce() + 'static) {
    let Some(look) = here.now().course().last().map(|(_, review)| review.look.clone()) else {
        return;
    };
    let reason = said::advice(Advice::Treat);
    here.record_then(Event::TakenUp { look: Box::new(look), reason }, then);
}

/// What the skin and the correction came to.
#[component]
fn Came(look: Look, answered: Answered, shown: Shown) -> impl IntoView {
    let here = use_here();
    let taps = Taps::new();
    let planned = here.now().urgency() == Some(Urgency::Planned);
    let Answered { seen, damage, corrected } = answered;
    let why_not = Signal::derive(move || {
        (planned && corrected.get().is_none()).then(|| said::CORRECTED_MISSING.to_owned())
    });
    let look = StoredValue::new(look);
    let record = Callback::new(move |()| {
        let review = Review {
            seen: seen.get_untracked().unwrap_or_default(),
            look: look.get_value(),
            damage: damage.get_untracked(),
            corrected: corrected.get_untracked(),
        };
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
            <Title arrive=true>{said::CAME}</Title>
            <Segment
                legend=said::HOW_SEEN
                items=ways.to_vec()
                value=seen
                on_choose=move |way| seen.set(Some(way))
            />
            {planned.then(|| view! {
                <Choice
                    legend=said::CORRECTED
                    items=corrections.to_vec()
                    value=corrected
                    on_choose=move |one| corrected.set(Some(one))
                />
            })}
            <Tick
                legend=said::DAMAGE
                items=damages.to_vec()
                value=damage
                on_change=move |(one, on): (Damage, bool)| damage.update(|all| {
                    all.retain(|other| *other != one);
                    if on { all.push(one); }
                    all.sort_unstable();
                })
            />
            <Foot slot>
            <GoButton on_press=record why_not>{said::KEEP}</GoButton>
            </Foot>
        </Framed>
    }
}

/// When the next review is: proposed by the rule, changed by taps.
#[component]
fn When(shown: Shown) -> impl IntoView {
    let here = use_here();
    let now = use_now();
    let proposed = here.now().course().next().map_or_else(
        || now.get_untracked().after(here.now().protocol.review_daily),
        |next| next.at,
    );
    // What is overdue is proposed for now.
    let at = RwSignal::new(proposed.max(now.get_untracked().after(Span::hours(1))));
    let past = Signal::derive(move || (at.get() <= now.get()).then(|| said::PAST.to_owned()));
    let keep = Callback::new(move |()| {
        here.record_then(Event::Appointed(at.get_untracked()), move || shown.set(View::Stands));
    });
    let by = move |change: fn(Moment) -> Moment| move |()| at.update(|at| *at = change(*at));
    view! {
        <Framed back=Callback::new(move |()| shown.set(View::Stands))>
            <Title arrive=true>{said::WHEN}</Title>
            <p class="review-when" role="status">{move || time::day_hour(at.get())}</p>
            <Pair>
                <QuietButton on_press=by(|at| at.before(Span::days(1)))>{said::EARLIER_DAY}</QuietButton>
                <QuietButton on_press=by(|at| at.after(Span::days(1)))>{said::LATER_DAY}</QuietButton>
            </Pair>
            <Pair>
                <QuietButton on_press=by(|at| at.before(Span::hours(1)))>{said::EARLIER_HOUR}</QuietButton>
                <QuietButton on_press=by(|at| at.after(Span::hours(1)))>{said::LATER_HOUR}</QuietButton>
            </Pair>
            <Foot slot>
            <GoButton on_press=keep why_not=past>{said::AGREED}</GoButton>
            </Foot>
        </Framed>
    }
}
