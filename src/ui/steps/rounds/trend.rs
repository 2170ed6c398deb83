//! How it went so far, for the screens between rounds and at the end: refill, pain, the skin without
//! blood and the units, one under the other on one time.

use crate::care::allergy::Urgency;
use crate::case::{Case, Told};
use crate::measure::order;
use crate::measure::{Area, Moment, Span, Units};
use crate::protocol::refill_limit;
use crate::record::note::Hours;
use crate::ui::parts::{Axis, Course, Entry, Reading, Shape, Timeline, Trend, Why};
use crate::ui::steps::use_here;
use crate::ui::words::document;
use crate::ui::words::{after as said, numbers, round_screens, time};
use leptos::prelude::*;

/// What is drawn.
#[derive(Clone, PartialEq)]
struct Picture {
    courses: Vec<Course>,
    rounds: Vec<Span>,
    axis: Axis,
}

/// All that can be drawn of an occlusion; `None` before the first look or round.
fn picture(case: &Case) -> Option<Picture> {
    if case.urgency() != Some(Urgency::Urgent) {
        return None;
    }
    let rounds: Vec<Span> =
        case.treatment.rounds().iter().map(|round| round.begun.since(case.opened)).collect();
    if case.treatment.looks().is_empty() && rounds.is_empty() {
        return None;
    }
    let courses: Vec<Course> =
        [refill(case), pain(case), area(case), units(case)].into_iter().flatten().collect();
    let read = courses.iter().flat_map(|course| &course.readings).map(|reading| reading.at);
    let axis = Axis::over(read.chain(rounds.iter().copied()));
    Some(Picture { courses, rounds, axis })
}

/// Readings of refill; the one from the findings first, unless a look was taken before treatment.
fn refill(case: &Case) -> Option<Course> {
    let first = case.treatment.rounds().first().map(|round| round.begun);
    let looks = case.treatment.looks();
    let before = looks
        .iter()
        .any(|(at, look)| look.refill.is_some() && first.is_none_or(|first| *at <= first));
    let found = case.findings.as_ref().and_then(|found| found.refill).filter(|_| !before);
    let found = found.map(|refill| (Span::ZERO, Some(refill)));
    let seen = looks.iter().map(|(at, look)| (at.since(case.opened), look.refill));
    let all: Vec<_> = found.into_iter().chain(seen).collect();
    let timed: Vec<_> = all.iter().filter_map(|(_, refill)| *refill).collect();
    let (start, last) = (timed.first()?, timed.last()?);
    let person = case.findings.as_ref().map(|found| found.person).unwrap_or_default();
    let opposite = timed.iter().any(|refill| refill.opposite.is_some());
    let read = |at: &Span, span: Option<Span>| Reading { at: *at, value: span.map(seconds) };
    Some(Course {
        name: if opposite { said::refill_both() } else { said::refill() }.to_owned(),
        last: said::refill_last(last.affected, last.opposite),
        label: said::refill_course(
            start.affected,
            last.affected,
            timed.len(),
            case.treatment.rounds().len(),
            all.len() - timed.len(),
        ),
        readings: all
            .iter()
            .map(|(at, refill)| read(at, refill.map(|refill| refill.affected)))
            .collect(),
        other: all
            .iter()
            .map(|(at, refill)| read(at, refill.and_then(|refill| refill.opposite)))
            .collect(),
        limit: Some(seconds(refill_limit::guidance(person.group()))),
        ..Course::default()
    })
}

fn pain(case: &Case) -> Option<Course> {
    let looks = case.treatment.looks();
    let (first, last) = (looks.first()?.1.pain, looks.last()?.1.pain);
    let read = |(at, look): &(Moment, crate::care::rounds::Look)| Reading {
        at: at.since(case.opened),
        value: Some(f64::from(look.pain.score())),
    };
    Some(Course {
        name: said::pain().to_owned(),
        last: said::pain_last(last),
        label: said::pain_course(first, last, looks.len()),
        readings: looks.iter().map(read).collect(),
        top: Some(u64::from(crate::care::rounds::Pain::WORST)),
        ..Course::default()
    })
}

fn area(case: &Case) -> Option<Course> {
    let told = case.shrinking();
    let (first, last) = (told.first()?.territory.area(), told.last()?.territory.area());
    let drawn = told.iter().any(|told| told.territory.outline().is_some());
    let read = |told: &&Told| Reading {
        at: told.at.since(case.opened),
        value: Some(cm2(told.territory.area())),
    };
    Some(Course {
        name: said::area_told().to_owned(),
        last: numbers::area_named(last),
        label: said::area_course(first, last, told.len(), drawn),
        readings: told.iter().map(read).collect(),
        ..Course::default()
    })
}

fn units(case: &Case) -> Option<Course> {
    let rounds = case.treatment.rounds();
    let mut sum = Units::ZERO;
    let mut readings = Vec::new();
    for round in rounds {
        sum += round.units();
        readings.push(Reading { at: round.begun.since(case.opened), value: Some(whole(sum)) });
    }
    (!readings.is_empty()).then(|| Course {
        name: said::units().to_owned(),
        last: numbers::units_named(sum),
        label: said::units_course(sum, rounds.len()),
        readings,
        shape: Shape::Steps,
        ..Course::default()
    })
}

/// The same line by line, with the hour of each.
fn lines(case: &Case) -> Vec<Entry> {
    let mut lines: Vec<(Moment, String, String)> = Vec::new();
    if let Some(found) = case.findings.as_ref().and_then(round_screens::findings) {
        lines.push((case.opened, said::at_start().to_owned(), found));
    }
    for told in case.shrinking() {
        let area = numbers::area_named(told.territory.area());
        lines.push((told.at, said::area_told().to_owned(), area));
    }
    let mut sum = Units::ZERO;
    for (n, round) in case.treatment.rounds().iter().enumerate() {
        sum += round.units();
        lines.push((round.begun, said::round(n + 1), said::round_gave(round.units(), sum)));
    }
    for (at, look) in case.treatment.looks() {
        lines.push((*at, said::look_label().to_owned(), said::look(look)));
    }
    order::by_key(&mut lines, |(at, ..)| *at);
    lines
        .into_iter()
        .enumerate()
        .map(|(n, (at, text, detail))| Entry {
            key: n.to_string(),
            time: time::hour(at),
            text,
            detail: Some(detail),
            struck: None,
        })
        .collect()
}

/// For drawing only.
#[expect(clippy::cast_precision_loss, reason = "for drawing only")]
fn seconds(span: Span) -> f64 {
    span.as_millis() as f64 / 1_000.0
}

#[expect(clippy::cast_precision_loss, reason = "for drawing only")]
fn cm2(area: Area) -> f64 {
    area.raw() as f64 / Area::PER as f64
}

#[expect(clippy::cast_precision_loss, reason = "for drawing only")]
fn whole(units: Units) -> f64 {
    units.raw() as f64 / Units::PER as f64
}

/// The drawing, with all of it in numbers on demand; nothing before the first look or round.
#[component]
pub fn RefillTrend(
    /// What the clinic's clock showed, for a text that tells all hours by it; without it, the hours
    /// are the phone's.
    #[prop(optional)]
    hours: Option<Hours>,
) -> impl IntoView {
    let here = use_here();
    let drawn = Memo::new(move |_| {
        let case = here.case();
        let picture = picture(&case)?;
        let length = picture.axis.end;
        let end = |at| match &hours {
            Some(hours) => document::axis_end(hours.local(at), length),
            None => said::axis_end(at, length),
        };
        let (from, to) = (end(case.opened), end(case.opened.after(length)));
        Some((picture, from, to, lines(&case)))
    });
    move || {
        let (Picture { courses, rounds, axis }, from, to, lines) = drawn.get()?;
        let read = courses.iter().flat_map(|course| &course.readings);
        let gaps = read.into_iter().any(|reading| reading.value.is_none());
        let limit = courses.iter().any(|course| course.limit.is_some());
        let key = said::key(!rounds.is_empty(), limit, gaps);
        Some(view! {
            <Trend courses rounds axis from to key />
            <Why summary=said::in_numbers()>
                <Timeline entries=lines />
            </Why>
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::care::allergy::Answers;
    use crate::care::dose::RoundPlan;
    use crate::care::refill::{Colour, Refill};
    use crate::care::rounds::{Act, Look, Pain};
    use crate::care::territory::{Size, Territory};
    use crate::case::{CaseId, Event, Journal, Reference};
    use crate::measure::{Strength, Volume};
    use crate::protocol::Protocol;

    const PLAN: RoundPlan =
        RoundPlan { strength: Strength::per_ml(500), bolus: Volume::ul(100), points: 1 };

    fn case(events: Vec<(u64, Event)>) -> Case {
        let mut journal = Journal::new(CaseId::from_random(4));
        let opened = Event::Opened {
            reference: Reference::new("Demo").unwrap(),
            protocol: Box::new(Protocol::default()),
        };
        let ready = [
            opened,
            Event::Way { urgency: Urgency::Urgent, aim: None },
            Event::Asked(Answers::default()),
            Event::Ready,
        ];
        let all = ready.into_iter().map(|event| (0, event)).chain(events);
        for (minutes, event) in all {
            journal.append(Moment::from_millis(0).after(Span::minutes(minutes)), 0, event);
        }
        Case::of(&journal)
    }

    fn look(refill: Option<u64>, pain: u8) -> Event {
        let timed = |affected| Refill {
            affected: Span::millis(affected),
            opposite: Some(Span::millis(1_500)),
        };
        let look = Look::of(Colour::Pale, Pain::new(pain).unwrap());
        Event::Round(Act::Look(Look { refill: refill.map(timed), ..look }))
    }

    fn round(minutes: u64) -> [(u64, Event); 3] {
        let acts =
            [Act::Begin(PLAN), Act::Inject { point: 1, volume: Volume::ul(100) }, Act::Finish];
        acts.map(|act| (minutes, Event::Round(act)))
    }

    fn told(minutes: u64, cm2: u64) -> (u64, Event) {
        let size = Size::Typed(Area::cm2(cm2));
        (minutes, Event::Territory(Territory::new(vec![], size, &Protocol::default()).unwrap()))
    }

    #[test]
    fn all_courses_share_one_time_that_holds_them_all() {
        let mut events = vec![told(2, 8), (5, look(Some(5_000), 7))];
        events.extend(round(10));
        events.push((70, look(None, 5)));
        events.push(told(75, 6));
        events.extend(round(80));
        events.push((140, look(Some(2_000), 1)));
        let drawn = picture(&case(events)).unwrap();
        assert_eq!(drawn.axis.end, Span::minutes(140));
        assert_eq!(drawn.rounds, [Span::minutes(10), Span::minutes(80)]);
        let names: Vec<&str> = drawn.courses.iter().map(|course| course.name.as_str()).collect();
        assert_eq!(names, [said::refill_both(), said::pain(), said::area_told(), said::units()]);
        let refill = &drawn.courses[0];
        let values: Vec<Option<f64>> = refill.readings.iter().map(|read| read.value).collect();
        assert_eq!(values, [Some(5.0), None, Some(2.0)], "a look without a reading is a gap");
        let sums: Vec<Option<f64>> =
            drawn.courses[3].readings.iter().map(|read| read.value).collect();
        assert_eq!(sums, [Some(50.0), Some(100.0)]);
        let last: Vec<&str> = drawn.courses.iter().map(|course| course.last.as_str()).collect();
        assert_eq!(last, ["2.0 s, other 1.5 s", "1 of 10", "6.0 cm²", "100 units"]);
    }

    #[test]
    fn before_the_first_look_or_round_there_is_nothing_to_draw() {
        assert!(picture(&case(vec![told(2, 8)])).is_none());
        let one = picture(&case(vec![(5, look(None, 3))])).unwrap();
        assert_eq!(one.courses.len(), 1, "refill was never timed, and nothing given");
        assert_eq!(one.axis.end, Span::hours(1));
    }
}
