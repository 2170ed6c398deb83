//! Step 5, screen by screen.

use super::{numbers, situation, time};
use crate::care::aftercare::{Purpose, Visit};
use crate::care::allergy::Urgency;
use crate::care::dose::RoundPlan;
use crate::care::rounds::{InHand, Pain};
use crate::care::situation::Findings;
use crate::measure::{Area, Length, Moment, Span, Units, Volume};
use crate::protocol::{Protocol, source};

words! {
    pub record = "Record";
    pub hand_over = "Hand over";
    pub flags = "Sight or stroke signs";
    pub units = "units";
    pub ml = "mL";
}

// Ready.

words! {
    pub not_yet = "Not yet";
    pub no_plan = "Size and strength of this round are not set.";
    pub this_round = "This round";
    pub volume = "Volume";
    pub so_far = "Given so far";
    pub strength = "Strength";
    pub per_ml = "units/mL";
    pub baseline = "Before treatment";
    pub look_first = "Note the skin first";
    pub look_first_why = "Refill, colour and pain before the first point make every later look comparable.";
    pub to_step = "To the step that is missing";

    /// Stands where the needle goes in.
    pub caution_urgent = "Aspirate first: never into a vessel. Keep away from the eye. Stop for any sight or stroke sign.";
    pub caution_planned = "Aspirate first: never into a vessel. Keep away from the eye. Adrenaline within reach.";
}

/// What the grid lies on.
pub fn grid(round: usize, area: Option<Area>, plan: &RoundPlan, spacing: Length) -> String {
    let points = numbers::count(plan.points, "point", "points");
    match area {
        Some(area) => format!(
            "Round {round} · {} · {points} · {} apart",
            numbers::area_named(area),
            numbers::length_named(spacing)
        ),
        None => format!("Round {round} · {points}"),
    }
}

pub fn deposits(plan: &RoundPlan) -> String {
    numbers::count(plan.points, "deposit", "deposits")
}

pub fn each(urgency: Urgency, plan: &RoundPlan) -> String {
    match urgency {
        Urgency::Urgent => numbers::count(plan.points, "point", "points"),
        Urgency::Planned => deposits(plan),
    }
}

/// How much into each; into the one there is.
pub fn of_each(plan: &RoundPlan, last: Volume) -> String {
    if plan.points == 1 {
        numbers::volume_named(last)
    } else {
        format!("{} each", numbers::volume_named(plan.bolus))
    }
}

/// How much into the last, where that gets less than the others.
pub fn of_last(plan: &RoundPlan, last: Volume) -> Option<String> {
    (last != plan.bolus && plan.points > 1).then(|| numbers::volume_named(last))
}

words! {
    pub the_last = ", the last ";
}

/// What is to be taken away, and with how much.
pub fn filler(filler: Volume, dose: Units) -> String {
    format!("Filler {} · dose {}", numbers::volume_named(filler), numbers::units_named(dose))
}

pub fn at_each(urgency: Urgency) -> &'static str {
    match urgency {
        Urgency::Urgent => "At each point",
        Urgency::Planned => "In each deposit",
    }
}

pub fn begin(urgency: Urgency, number: usize) -> String {
    match urgency {
        Urgency::Urgent => format!("Begin round {number}"),
        Urgency::Planned => "Begin the deposits".into(),
    }
}

pub fn first(step: &str) -> String {
    format!("The case stands at “{step}”. That comes first.")
}

/// The syringes hold less than the round takes.
pub fn short(hold: Volume, take: Volume) -> String {
    format!(
        "The syringes hold {}, the round takes {}. The last points will be left without.",
        numbers::volume_named(hold),
        numbers::volume_named(take)
    )
}

/// Begun before all is drawn.
pub fn part_ready(ready: u32, all: usize) -> String {
    format!("{ready} of {all} syringes ready. The rest is drawn on the way.")
}

/// The solution has been standing.
pub fn made_at(at: Moment) -> String {
    format!("Made up at {}, before the last look. Its monograph says: use at once.", time::hour(at))
}

/// What rounding to a mark of the syringe costs.
pub fn rounded(dose: Units, given: Units) -> String {
    format!(
        "The dose chosen is {}; to the marks of the syringe it is {}.",
        numbers::units_named(dose),
        numbers::units_named(given)
    )
}

/// A planned dose outside its range.
pub fn outside(low: Units, high: Units) -> String {
    format!(
        "Outside the range in force for this filler: {} units.",
        numbers::units_range(low, high)
    )
}

/// What was found at the start, in one line.
pub fn findings(findings: &Findings) -> Option<String> {
    let mut parts: Vec<String> = Vec::new();
    if let Some(refill) = findings.refill {
        parts.push(refill_pair(refill.affected, refill.opposite));
    }
    parts.extend(findings.signs.iter().map(|sign| situation::sign(*sign).to_owned()));
    (!parts.is_empty()).then(|| parts.join(" · "))
}

/// Refill on both sides.
pub fn refill_pair(affected: Span, opposite: Option<Span>) -> String {
    let affected = numbers::seconds(affected);
    match opposite {
        Some(other) => format!("Refill {affected} s, other side {} s", numbers::seconds(other)),
        None => format!("Refill {affected} s"),
    }
}

// Injecting.

words! {
    pub given = "Given this round";
    pub still = "Still to give";
    pub syringe_label = "Syringe";
    pub skip = "Skip, why";
    pub not_begun = "Not begun";
    pub rest = "All that are left";
    pub no_syringe = "The prepared syringes are empty by this count.";
    pub finish_early_why = "Points left open stay open in the record.";
}

pub fn point(urgency: Urgency, number: u32) -> String {
    match urgency {
        Urgency::Urgent => format!("Point {number} "),
        Urgency::Planned => format!("Deposit {number} "),
    }
}

pub fn settled(urgency: Urgency, plan: &RoundPlan) -> String {
    format!("All {} settled", each(urgency, plan))
}

pub fn injected(volume: Volume) -> String {
    format!("Injected, {}", numbers::volume_named(volume))
}

pub fn undo(number: u32) -> String {
    format!("Undo {number}")
}

pub fn done(urgency: Urgency) -> &'static str {
    match urgency {
        Urgency::Urgent => "Round done, start the clock",
        Urgency::Planned => "All deposits done",
    }
}

pub fn of(total: Units) -> String {
    format!("of {}", numbers::units_named(total))
}

pub fn syringe(hand: &InHand) -> String {
    format!("{} of {}", hand.number, hand.of)
}

/// When to take the next syringe, or that the last holds more than the round is to have.
pub fn change(hand: &InHand, still: Volume) -> String {
    let left = numbers::volume_named(hand.left);
    let last = hand.number == hand.of;
    if hand.left > still {
        let rest = numbers::volume_named(hand.left.saturating_sub(still));
        return format!("{left} in it: inject {}, {rest} stays in", numbers::volume_named(still));
    }
    match (hand.points, last) {
        (0, false) => format!("{left} left: finish this point from the next"),
        (0, true) => format!("{left} left: less than one point"),
        (1, false) => format!("{left} left: change after this point"),
        (points, false) => format!("{left} left: change after {points} more"),
        (_, true) => format!("{left} left, the last one"),
    }
}

words! {
    pub draw_next = "Draw the next syringe";
}

/// The syringe that comes next is not made yet.
pub fn not_drawn(number: u32) -> String {
    format!("Syringe {number} is not drawn yet.")
}

pub fn drawing(total: usize, done: usize, skipped: usize) -> String {
    format!("{total} points: {done} injected, {skipped} left out")
}

/// What a screen reader hears once a point is settled.
pub fn now_point(number: u32) -> String {
    format!("Next: {number}")
}

pub fn skip_heading(urgency: Urgency, number: u32) -> String {
    format!("Leave out {}", point(urgency, number).trim_end().to_lowercase())
}

pub fn rest_heading(count: u32) -> String {
    format!("{count} left")
}

pub fn rest_injected(count: u32, volume: Volume) -> String {
    format!("All {count} injected, {} in all", numbers::volume_named(volume))
}

pub fn rest_skipped(count: u32) -> String {
    format!("Leave out all {count}, because:")
}

pub fn finish_early(count: u32) -> String {
    format!("Finish now, {count} left open")
}

// The hour.

words! {
    pub look_in = "Look again in";
    pub look_due = "The look is due";
    pub overdue = "Overdue";
    pub to_look = "Time to the next look";
    pub of_interval = "Of the time to the next look";
    pub since_onset = "Since onset";
    pub units_so_far = "Units so far";
    pub vials_opened = "Vials opened";
    pub rounds_label = "Rounds";
    pub vials_left = "Vials left";
    pub serves = "They serve";
    pub silence = "Stop ringing";
    pub not_done = "The round is not done yet";
    pub due_alert = "Look now: refill on both sides, colour, pain.";
    pub meanwhile = "Meanwhile a warm compress and massage help.";
}

/// Who says what helps meanwhile.
pub fn meanwhile_source() -> String {
    format!("{meanwhile} {}.", source::CONSENSUS_2015.citation, meanwhile = meanwhile())
}

words! {
    /// A phone is not an alarm clock.
    pub asleep = "A sleeping phone cannot ring. Keep Freshet in front, and note the hour.";
    pub awake = "The screen stays on while Freshet is in front. A sleeping phone cannot ring.";
    pub no_wake = "This phone does not let Freshet keep the screen on.";
    pub unarmed = "Tap anywhere once: until then the browser keeps the alarm silent.";
    pub mute = "This browser makes no sound.";
}

pub fn round_done(number: usize) -> String {
    format!("Round {number} done")
}

pub fn left_open(count: u32) -> String {
    format!("{} left open in this round.", numbers::count(count, "point", "points"))
}

pub fn rounds(count: u32) -> &'static str {
    if count == 1 { "round" } else { "rounds" }
}

// The look.

words! {
    pub look_skin = "What does the skin show?";
    pub look_person = "And the patient?";
    pub refill_both = "Refill";
    pub colour = "Colour";
    pub on = "Go on";
    pub take_down = "Take down this look";
    pub colour_missing = "Choose the colour.";
    pub pain_missing = "Choose the pain.";
    pub not_timed = "Not timed counts as not back.";
    pub any_of_these = "Any of these now?";
}

pub fn pain() -> String {
    format!("Pain: {} none, {} worst", Pain::NONE.score(), Pain::WORST)
}

// Handing over.

words! {
    pub hand_over_to = "Hand over: why?";
    pub hand_over_why = "Why";
    pub handed_over = "Handed over: close the case";
    pub why_missing = "Choose why.";
    pub note = "In your words";
    pub go_on_meanwhile = "Go on meanwhile";
    pub to_sheet = "To the anaphylaxis sheet";
}

// The end.

words! {
    pub close = "Close the case";
    pub home = "To the start";
    /// Planned work is over; the case stays open until the patient was seen again.
    pub end_planned = "End the treatment";
    pub go_on = "Ended by mistake";
    pub reopen = "Closed by mistake";
    pub deposits_label = "Deposits";
    pub vials = "Vials";
    pub given_in_all = "Given in all";
    pub seen_again = "Seen again";
    pub others = "The team that took over sets the visits.";
    pub call_back = "Tell the patient: call at once, day or night, if sight, speech, colour, pain or breathing changes.";
    pub watch = "Watch for a reaction before they leave.";
    pub done_planned = "Done: watch for a reaction";
    pub stay_open = "Back to the deposits";
}

/// A visit, with its day.
pub fn visit(visit: &Visit, from: Moment) -> (String, String) {
    let purpose = match visit.purpose {
        Purpose::Daily => "In person, daily at first, until the skin is well",
        Purpose::Result => "The result",
        Purpose::NewFiller => "New filler, not before",
    };
    let day = time::day(crate::phone::clock::date(from.after(visit.after)));
    let head = format!("In {}, {day}", time::span(visit.after));
    let words = match visit.source {
        Some(source) => format!("{purpose}. {}", source.citation),
        None => purpose.to_owned(),
    };
    (head, words)
}

/// The range that a round stands against.
pub fn dose_note(standing: crate::care::dose::Standing, protocol: &Protocol) -> String {
    format!("{}.", super::rounds::standing(standing, protocol))
}

/// A pain score.
pub fn pain_score(pain: Pain) -> String {
    format!("Pain {} of {}", pain.score(), Pain::WORST)
}
