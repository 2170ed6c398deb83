//! What was seen: looks, the end, and the patient seen again.

use super::super::document::{Line, Part, field, say};
use super::super::{allergy, followup, looking, numbers, rounds, situation, timeline};
use super::on;
use crate::care::aftercare::Review;
use crate::care::refill::readings::Side;
use crate::care::rounds::{Look, Pain};
use crate::care::skin_test::{Act, Placed};
use crate::case::{Event, TestReading};
use crate::measure::Moment;
use crate::measure::order;
use crate::protocol::Protocol;
use crate::record::note::Note;
use crate::ui::language::{spoken, within};

words! {
    column_at = "At" as "column of looks";
    column_refill = "Refill" as "column of looks";
    reviewed_label = "Seen again" as "reviews that took place";
}

/// The looks, each by itself: a table of what is compared, then what needs more words.
pub(super) fn looks(note: &Note) -> Vec<Part> {
    if note.looks.is_empty() {
        return vec![Part::new(
            spoken("Looks at the skin"),
            vec![say(spoken("No look is recorded."))],
        )];
    }
    let mut head = vec![column_at(), column_refill()];
    head.extend(["Other side", "Colour", "Pain", "Temperature", "Function"].map(spoken));
    let rows = note.looks.iter().map(|(at, look)| row(note, *at, look)).collect();
    let mut lines = vec![Line::Table(head, rows)];
    for (at, look) in &note.looks {
        let more = more(look);
        if !more.is_empty() {
            lines.push(field(&tr!("In detail, {when}", when = on(note, *at)), more.join(". ")));
        }
    }
    vec![Part::new(spoken("Looks at the skin"), lines)]
}

fn row(note: &Note, at: Moment, look: &Look) -> Vec<String> {
    let time = |span| looking::seconds(span);
    let refill = look.refill.map_or(tr!("not timed"), |refill| time(refill.affected));
    let other = look.refill.and_then(|refill| refill.opposite);
    vec![
        on(note, at),
        refill,
        other.map_or(tr!("not timed"), time),
        situation::colour(look.colour).to_owned(),
        pain(look.pain),
        look.temperature.map_or(spoken("not felt"), situation::temperature).to_owned(),
        look.function.map_or(spoken("not tried"), situation::function).to_owned(),
    ]
}

/// Pain by its score.
pub fn pain(pain: Pain) -> String {
    tr!("{part} of {whole}", part = pain.score(), whole = Pain::WORST)
}

/// Readings of both sides, signs that go before everything, the photo.
fn more(look: &Look) -> Vec<String> {
    let protocol = Protocol::default();
    let side = |side| {
        let summary = look.readings.summary(side, &protocol)?;
        let times: Vec<String> =
            look.readings.of(side).iter().map(|reading| numbers::seconds(reading.time)).collect();
        let (name, sum) = (looking::side(side), looking::summary(summary));
        Some(tr!(
            "{side}: {summary} ({times} s)",
            side = name,
            summary = sum,
            times = numbers::row(&times)
        ))
    };
    let sides = Side::BOTH.into_iter().filter_map(side);
    let flags = look.red_flags.iter().map(|flag| situation::red_flag(*flag).to_owned());
    let photo = look.photo.map(|_| tr!("Photo taken, kept on the phone"));
    sides.chain(flags).chain(photo).collect()
}

pub(super) fn end(note: &Note) -> Part {
    let mut lines = Vec::new();
    // Handed over later, it ended as it did: the head of the note says how the case was closed.
    match note.ended.or(note.closed) {
        Some((at, end)) => {
            lines.push(field(
                spoken("Treatment"),
                format!("{}, {}", rounds::end(end), on(note, at)),
            ));
        }
        None => lines.push(say(spoken("No end is recorded."))),
    }
    lines.push(field(
        spoken("To be seen again"),
        note.appointed.map_or_else(|| tr!("no day recorded"), |at| on(note, at)),
    ));
    Part::new(spoken("How it ended"), lines)
}

/// What was injected as a skin test.
pub fn placed(placed: Placed) -> String {
    let (dose, volume) = (numbers::units_named(placed.dose), numbers::volume_named(placed.volume));
    match placed.bleb.map(numbers::length_named) {
        None => tr!("{dose} in {volume} into the skin", dose, volume),
        Some(bleb) => tr!("{dose} in {volume} into the skin, bleb {bleb}", dose, volume, bleb),
    }
}

/// What was seen of a skin test, and what that amounts to.
pub fn read(reading: &TestReading) -> String {
    let (_, seen) = timeline::event(&Event::SkinTest(Act::Read(reading.seen)));
    let verdict = allergy::verdict(reading.verdict);
    seen.map_or_else(|| verdict.to_owned(), |seen| format!("{seen}. {verdict}"))
}

pub(super) fn reviews(note: &Note) -> Option<Part> {
    let seen = note.reviews.iter().map(|(at, review)| (*at, reviewed(review)));
    let again = note.taken_up.iter().map(|(at, reason)| (*at, taken_up(reason)));
    let mut all: Vec<(Moment, String)> = seen.chain(again).collect();
    order::by_key(&mut all, |(at, _)| *at);
    let lines: Vec<Line> = all.into_iter().map(|(at, text)| field(&on(note, at), text)).collect();
    (!lines.is_empty()).then(|| Part::new(reviewed_label(), lines))
}

/// That the treatment was taken up again, and why. What was seen then is among the looks.
pub fn taken_up(reason: &str) -> String {
    tr!("Treatment taken up again: {reason}", reason)
}

/// A review: how it was seen, the measures, what the skin came to.
pub fn reviewed(review: &Review) -> String {
    let (line, more) = followup::review(review);
    let look = &review.look;
    let refill = look.refill.map_or_else(|| tr!("Refill not timed"), timeline::refill);
    let colour = tr!("Colour: {colour}", colour = within(situation::colour(look.colour)));
    let pain = tr!("Pain {score}", score = pain(look.pain));
    let felt = look.temperature.map(|felt| situation::temperature(felt).to_owned());
    let tried = look.function.map(|tried| situation::function(tried).to_owned());
    let measures = match more {
        // The follow-up's own words tell the measures.
        Some(more) => vec![more],
        None => [refill, colour, pain].into_iter().chain(felt).chain(tried).collect(),
    };
    std::iter::once(line).chain(measures).collect::<Vec<_>>().join(". ")
}
