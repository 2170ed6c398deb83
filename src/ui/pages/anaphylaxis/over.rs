//! After a reaction: how long to watch, and where to go on.

use super::Sheet;
use super::log::Log;
use super::patient::RegionChoice;
use super::states::{Frame, ToHandOver};
use crate::care::anaphylaxis::{Act, Course, observe};
use crate::care::rounds::{End, HandOver};
use crate::case::Event;
use crate::protocol::Region;
use crate::ui::page::Page;
use crate::ui::parts::{
    Figure, Figures, Foot, GoButton, Item, Note, Pair, QuietButton, Tick, Title, Tone,
};
use crate::ui::words::sheet::{self as said, Watched};
use leptos::prelude::*;

/// One fact of the course.
type Fact = fn(&mut Course) -> &mut bool;

/// The facts, in the order of their words.
const FACTS: [Fact; said::COURSES] = [
    |course| &mut course.quick_response,
    |course| &mut course.safe_home,
    |course| &mut course.biphasic_before,
    |course| &mut course.severe_breathing,
    |course| &mut course.still_absorbing,
    |course| &mut course.far_from_help,
];

/// Over, or taken over.
#[component]
pub fn Over(sheet: Sheet) -> impl IntoView {
    let course = RwSignal::new(Course::default());
    let watch = Memo::new(move |_| watched(sheet, sheet.whom.read().region, course.get()));
    let taken = RwSignal::new(None);
    let take_down = move |()| {
        sheet.taps.once(|| {
            let watch = watch.get_untracked();
            sheet.record(Event::Note(said::observe_note(&watch)));
            taken.set(Some(watch));
        });
    };
    let treated = Memo::new(move |_| sheet.case().is_some_and(|case| case.way.is_some()));
    let open = Memo::new(move |_| sheet.case().is_some_and(|case| case.open()));
    let close = move |end: End| {
        sheet.taps.once(|| sheet.record(Event::Closed(end)));
    };
    let press = move |()| {
        if !open.get_untracked() {
            sheet.go.to(Page::Home);
        } else if treated.get_untracked() {
            sheet.go.back();
        } else {
            close(End::HandedOver(HandOver::Reaction));
        }
    };
    view! {
        <Frame sheet>
            <Title eyebrow=Some(said::title().to_owned()) arrive=true>
                {said::observe_label()}
            </Title>
            <Watching sheet course watch />
            {move || {
                if taken.get() == Some(watch.get()) {
                    view! { <p role="status">{said::taken_down()}</p> }.into_any()
                } else {
                    view! { <QuietButton on_press=take_down>{said::take_down()}</QuietButton> }
                        .into_any()
                }
            }}
            <Note tone=Tone::Caution>{said::suspect()}</Note>
            <ToHandOver sheet />
            <Log sheet />
            <Foot slot>
                <GoButton on_press=press>
                    {move || {
                        if !open.get() {
                            said::home()
                        } else if treated.get() {
                            said::back_to_case()
                        } else {
                            said::close_taken()
                        }
                    }}
                </GoButton>
                <Pair>
                    <QuietButton on_press=move |()| {
                        sheet.act(Act::NotBetter);
                    }>{said::comes_back()}</QuietButton>
                    {move || {
                        if open.get() && !treated.get() {
                            view! {
                                <QuietButton on_press=move |()| {
                                    close(End::Done);
                                }>{said::close_settled()}</QuietButton>
                            }
                                .into_any()
                        } else {
                            view! {
                                <QuietButton on_press=move |()| {
                                    if let Some(id) = sheet.case.get_untracked() {
                                        sheet.go.to(Page::Timeline(id));
                                    }
                                }>{said::record()}</QuietButton>
                            }
                                .into_any()
                        }
                    }}
                </Pair>
            </Foot>
        </Frame>
    }
}

/// How long to watch by the rule in force, on what that depends, and what the other rule says.
#[component]
fn Watching(sheet: Sheet, course: RwSignal<Course>, watch: Memo<Watched>) -> impl IntoView {
    let other = Memo::new(move |_| watched(sheet, sheet.whom.read().region.other(), course.get()));
    view! {
            <Figures>
                <Figure
                    label=Signal::derive(move || said::observe_rule(&watch.read()))
                    number=Signal::derive(move || said::observe(&watch.read()))
                    note=Signal::derive(move || Some(said::counted(&watch.read())))
                    wide=true
                />
                <Figure
                    label=said::not_before()
                    number=Signal::derive(move || said::until(&watch.read()))
                    note=Signal::derive(move || Some(said::founded(&watch.read())))
                />
            </Figures>
            {move || {
                watch
                    .read()
                    .watch
                    .overnight
                    .then(|| view! { <Note tone=Tone::Caution>{said::night_label()}</Note> })
            }}
            <Facts course />
            <Note>{move || said::observe_other(&other.read())}</Note>
            <RegionChoice sheet />
    }
}

/// How long to watch by a region's rule, as far as the sheet knows the course.
fn watched(sheet: Sheet, region: Region, course: Course) -> Watched {
    let reaction = sheet.reaction();
    let doses = reaction.doses();
    Watched {
        region,
        watch: observe(region, doses.len(), course),
        // Over it is, or this would not be shown.
        settled: reaction.settled().unwrap_or_default(),
        last_dose: doses.last().map(|(at, _)| *at),
    }
}

/// What the time of observation depends on.
#[component]
fn Facts(course: RwSignal<Course>) -> impl IntoView {
    let ticked = Signal::derive(move || -> Vec<usize> {
        let mut course = course.get();
        (0..FACTS.len()).filter(|place| *FACTS[*place](&mut course)).collect()
    });
    let items =
        (0..FACTS.len()).map(|place| Item::new(place, said::course(place))).collect::<Vec<_>>();
    view! {
        <Tick
            legend=said::course_label()
            items
            value=ticked
            on_change=move |(place, on): (usize, bool)| {
                if let Some(fact) = FACTS.get(place) {
                    course.update(|course| *fact(course) = on);
                }
            }
        />
    }
}
