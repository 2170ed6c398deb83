//! After a look: what changed, what is proposed, and how it went so far.

use super::{numbers, points, protocol as values, rounds, situation, time};
use crate::care::perfusion::{Aspect, Next, State};
use crate::care::rounds::{Look, Pain};
use crate::measure::{Area, Moment, Span, Units};
use crate::protocol::perfusion::{AREA_NOISE, AREA_NOISE_BASIS, AREA_NOISE_LEAST};
use crate::protocol::{Basis, Id, Protocol};
use crate::ui::language::{spoken, within};
use crate::ui::parts::Finding;

words! {
    pub end = "All back: end the treatment";
    pub end_here = "End here";
    pub prepare_more = "Another round";
    pub look_again = "Look again";
    pub undo_look = "Undo this look";
    pub draw_again = "Draw the skin again";
    pub draw_again_why = "Not drawn since this round. Drawn again, its size is compared with the size before; larger asks for more skin.";
}

/// What is proposed, in a word.
pub fn proposed(next: Next) -> &'static str {
    spoken(match next {
        Next::Stop => "Proposed: stop",
        Next::Repeat => "Proposed: repeat",
        Next::Widen => "Proposed: widen",
        Next::HandOver(_) => "Proposed: hand over",
    })
}

pub fn after(number: usize) -> String {
    match number {
        0 => tr!("Before the first round"),
        number => tr!("After round {number}", number),
    }
}

pub fn prepare(number: usize) -> String {
    tr!("Prepare round {number}", number)
}

/// The round on the skin that has grown.
pub fn prepare_wider(number: usize, area: Option<Area>) -> String {
    match area {
        Some(area) => {
            tr!("Prepare round {number}, on {area}", number, area = numbers::area_named(area))
        }
        None => tr!("Prepare round {number}, on more skin", number),
    }
}

pub fn begin_ready(number: usize) -> String {
    tr!("Round {number} is drawn: go on", number)
}

/// What speaks against doing otherwise than proposed.
pub fn against(next: Next, reasons: &[String]) -> String {
    tr!("Proposed: {next}. {reasons}.", next = rounds::next(next), reasons = reasons.join(". "))
}

pub fn takes(units: Units, vials: u32) -> String {
    tr!(
        "Another round takes {units}: {count} vial."
            | "Another round takes {units}: {count} vials." % vials,
        units = numbers::units_named(units),
        count = numbers::whole(vials)
    )
}

/// A look before its time.
pub fn early_look(waited: Span, interval: Span) -> String {
    tr!(
        "Looked {waited} after the round. The time in force between a round and its look is \
         {interval}.",
        waited = time::span(waited),
        interval = time::span(interval)
    )
}

// What changed.

words! {
    pub since_before = "Since the look before";
    pub first_look = "The first look: there is none before it to compare with.";
    /// Said in place of the arrow between before and now.
    pub now = ", now";
    pub rules_label = "How each is judged";
    pub rule_of_all = "In all it is better only if something is better and nothing is worse. The rules lean to the careful side.";
    own_rule = "This app’s own rule";
}

/// A sign that a look knows nothing of.
pub fn unseen(aspect: Aspect) -> &'static str {
    spoken(match aspect {
        Aspect::Refill => "not timed",
        Aspect::Outline => "not told",
        Aspect::Colour | Aspect::Pain | Aspect::Temperature | Aspect::Function => "not noted",
    })
}

/// A sign as it was at a look.
pub fn seen(aspect: Aspect, state: &State) -> Option<String> {
    match aspect {
        Aspect::Refill => state.refill.map(seconds_named),
        Aspect::Colour => Some(situation::colour(state.colour).to_owned()),
        Aspect::Pain => Some(state.pain.score().to_string()),
        Aspect::Temperature => {
            state.temperature.map(|felt| situation::temperature(felt).to_owned())
        }
        Aspect::Function => state.function.map(|tried| situation::function(tried).to_owned()),
        Aspect::Outline => state.area.map(numbers::area_named),
    }
}

/// Those that neither look knows anything of.
pub fn not_compared(aspects: &[Aspect]) -> Option<String> {
    let names: Vec<String> = aspects.iter().map(|aspect| within(rounds::aspect(*aspect))).collect();
    (!names.is_empty())
        .then(|| tr!("Not compared, noted at neither look: {names}.", names = names.join(", ")))
}

/// The rule of each sign, with the values in force and where they are from.
pub fn rules(protocol: &Protocol) -> Vec<Finding> {
    let first = |id| Protocol::entry(id).findings.first().map(|finding| finding.basis);
    let rule = |aspect, setting: String, basis: Option<Basis>| Finding {
        figure: rounds::aspect(aspect).to_owned(),
        setting,
        citation: basis.map(values::citation).unwrap_or_default(),
        status: basis.map_or(own_rule(), values::status).to_owned(),
    };
    let noise = seconds_named(protocol.refill_noise);
    vec![
        rule(
            Aspect::Refill,
            tr!(
                "Better: quicker by more than {noise}, and by more than the readings lie apart. \
                 Worse: slower by more than {noise}.",
                noise
            ),
            first(Id::RefillNoise),
        ),
        rule(
            Aspect::Colour,
            tr!("Earlier in this order is better, later worse: {colours}.", colours = colours()),
            None,
        ),
        rule(
            Aspect::Pain,
            tr!(
                "Better: lower by {step} or more of {worst}. Worse: higher by as much.",
                step = protocol.pain_step,
                worst = Pain::WORST
            ),
            first(Id::PainStep),
        ),
        rule(
            Aspect::Temperature,
            tr!("Better: no longer cooler than the other side. Worse: cooler now."),
            None,
        ),
        rule(Aspect::Function, tr!("Better: back. Worse: impaired now."), None),
        rule(
            Aspect::Outline,
            tr!(
                "Smaller is better, larger worse, by more than {share} of the larger and more than \
                 {area}.",
                share = numbers::per_mille(u64::from(AREA_NOISE.0)),
                area = numbers::area_named(AREA_NOISE_LEAST)
            ),
            Some(AREA_NOISE_BASIS),
        ),
    ]
}

fn colours() -> String {
    let names: Vec<String> =
        situation::COLOURS.into_iter().map(|colour| within(situation::colour(colour))).collect();
    names.join(", ")
}

// How it went so far.

words! {
    pub refill = "Refill, affected side";
    pub refill_both = "Refill ●, other side ◇";
    pub pain = "Pain";
    pub area_told = "Skin without blood, as told";
    pub units = "Units in all";
    pub in_numbers = "All of it in numbers";
    pub at_start = "At the start";
    pub look_label = "Look";
    cross = "A cross: looked at, refill not timed.";
    marked = "Numbered lines: the rounds.";
    shaded = "Shaded: refill within the limit.";
}

/// What the marks of the picture are.
pub fn key(rounds: bool, limit: bool, gaps: bool) -> String {
    let parts = [rounds.then_some(marked()), limit.then_some(shaded()), gaps.then_some(cross())];
    parts.into_iter().flatten().collect::<Vec<_>>().join(" ")
}

pub fn seconds_named(span: Span) -> String {
    tr!("{seconds} s", seconds = numbers::seconds(span))
}

/// The last refill, with the other side's.
pub fn refill_last(affected: Span, other: Option<Span>) -> String {
    match other {
        Some(other) => tr!(
            "{affected}, other {other}",
            affected = seconds_named(affected),
            other = seconds_named(other)
        ),
        None => seconds_named(affected),
    }
}

/// The course of the refill in words.
pub fn refill_course(
    first: Span,
    last: Span,
    readings: usize,
    rounds: usize,
    gaps: usize,
) -> String {
    let course = tr!(
        "Refill from {first} to {last} seconds in {readings} readings, {rounds} rounds",
        first = numbers::seconds(first),
        last = numbers::seconds(last),
        readings,
        rounds
    );
    if gaps == 0 {
        return course;
    }
    let missing = tr!(
        "{count} time without a reading" | "{count} times without a reading" % gaps,
        count = numbers::whole(gaps)
    );
    format!("{course}, {missing}")
}

pub fn pain_last(pain: Pain) -> String {
    tr!("{part} of {whole}", part = pain.score(), whole = Pain::WORST)
}

/// The course of the pain in words.
pub fn pain_course(first: Pain, last: Pain, looks: usize) -> String {
    tr!(
        "Pain from {first} to {last} of {worst} in {looks} looks",
        first = first.score(),
        last = last.score(),
        worst = Pain::WORST,
        looks
    )
}

/// The course of the area in words.
pub fn area_course(first: Area, last: Area, told: usize, drawn: bool) -> String {
    let (first, last) = (numbers::area_named(first), numbers::area_named(last));
    if drawn {
        points::shrinking(&first, &last, told)
    } else {
        tr!(
            "Skin without blood as told, {count} time: from {first} to {last}"
                | "Skin without blood as told, {count} times: from {first} to {last}" % told,
            count = numbers::whole(told),
            first,
            last
        )
    }
}

/// The course of the units in words.
pub fn units_course(units: Units, rounds: usize) -> String {
    tr!("{units} in {rounds} rounds", units = numbers::units_named(units), rounds)
}

/// A moment on the axis: the hour, with its day where the axis is longer than one.
pub fn axis_end(at: Moment, length: Span) -> String {
    if length < Span::days(1) { time::hour(at) } else { time::day_hour(at) }
}

pub fn round(number: usize) -> String {
    tr!("Round {number}", number)
}

/// What a round gave, and what that makes in all.
pub fn round_gave(units: Units, in_all: Units) -> String {
    tr!(
        "{units}, {sum} in all",
        units = numbers::units_named(units),
        sum = numbers::units_named(in_all)
    )
}

/// A look in one line.
pub fn look(look: &Look) -> String {
    let refill = look.refill.map_or_else(
        || tr!("Refill not timed"),
        |refill| super::round_screens::refill_pair(refill.affected, refill.opposite),
    );
    let colour = situation::colour(look.colour).to_owned();
    let temperature = look.temperature.map(|felt| situation::temperature(felt).to_owned());
    let function = look.function.map(|tried| situation::function(tried).to_owned());
    let pain = super::round_screens::pain_score(look.pain);
    let parts = [Some(refill), Some(colour), Some(pain), temperature, function];
    parts.into_iter().flatten().collect::<Vec<_>>().join(" · ")
}
