//! Step 5, screen by screen.

use super::{numbers, situation, time};
use crate::care::aftercare::{Purpose, Visit};
use crate::care::allergy::Urgency;
use crate::care::dose::RoundPlan;
use crate::care::rounds::{InHand, Pain};
use crate::care::situation::Findings;
use crate::measure::{Area, Length, Moment, Span, Units, Volume};
use crate::protocol::{Protocol, source};
use crate::ui::language::{spoken, within};

words! {
    pub record = "Record";
    pub hand_over = "Hand over";
    pub flags = "Sight or stroke signs";
    pub units = "units";
    pub ml = "mL";

    // Ready.
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
    pub the_last = ", the last";

    /// Stands where the needle goes in.
    pub caution_urgent = "Aspirate first: never into a vessel. Keep away from the eye. Stop for any sight or stroke sign.";
    pub caution_planned = "Aspirate first: never into a vessel. Keep away from the eye. Adrenaline within reach.";
}

/// What the grid lies on.
pub fn grid(round: usize, area: Option<Area>, plan: &RoundPlan, spacing: Length) -> String {
    let points = points(plan);
    match area {
        Some(area) => tr!(
            "Round {round} · {area} · {points} · {spacing} apart",
            round,
            area = numbers::area_named(area),
            points,
            spacing = numbers::length_named(spacing)
        ),
        None => tr!("Round {round} · {points}", round, points),
    }
}

fn points(plan: &RoundPlan) -> String {
    tr!("{count} point" | "{count} points" % plan.points, count = numbers::whole(plan.points))
}

pub fn deposits(plan: &RoundPlan) -> String {
    tr!("{count} deposit" | "{count} deposits" % plan.points, count = numbers::whole(plan.points))
}

pub fn each(urgency: Urgency, plan: &RoundPlan) -> String {
    match urgency {
        Urgency::Urgent => points(plan),
        Urgency::Planned => deposits(plan),
    }
}

/// How much into each; into the one there is.
pub fn of_each(plan: &RoundPlan, last: Volume) -> String {
    if plan.points == 1 {
        numbers::volume_named(last)
    } else {
        tr!("{volume} each", volume = numbers::volume_named(plan.bolus))
    }
}

/// How much into the last, where that gets less than the others.
pub fn of_last(plan: &RoundPlan, last: Volume) -> Option<String> {
    (last != plan.bolus && plan.points > 1).then(|| numbers::volume_named(last))
}

/// What is to be taken away, and with how much.
pub fn filler(filler: Volume, dose: Units) -> String {
    tr!(
        "Filler {volume} · dose {dose}",
        volume = numbers::volume_named(filler),
        dose = numbers::units_named(dose)
    )
}

pub fn at_each(urgency: Urgency) -> &'static str {
    spoken(match urgency {
        Urgency::Urgent => "At each point",
        Urgency::Planned => "In each deposit",
    })
}

pub fn begin(urgency: Urgency, number: usize) -> String {
    match urgency {
        Urgency::Urgent => tr!("Begin round {number}", number),
        Urgency::Planned => tr!("Begin the deposits"),
    }
}

pub fn first(step: &str) -> String {
    tr!("The case stands at “{step}”. That comes first.", step)
}

/// The syringes hold less than the round takes.
pub fn short(hold: Volume, take: Volume) -> String {
    tr!(
        "The syringes hold {hold}, the round takes {take}. The last points will be left without.",
        hold = numbers::volume_named(hold),
        take = numbers::volume_named(take)
    )
}

/// Begun before all is drawn.
pub fn part_ready(ready: u32, all: usize) -> String {
    tr!("{ready} of {all} syringes ready. The rest is drawn on the way.", ready, all)
}

/// The solution has been standing.
pub fn made_at(at: Moment) -> String {
    tr!(
        "Made up at {hour}, before the last look. Its monograph says: use at once.",
        hour = time::hour(at)
    )
}

/// What rounding to a mark of the syringe costs.
pub fn rounded(dose: Units, given: Units) -> String {
    tr!(
        "The dose chosen is {dose}; to the marks of the syringe it is {given}.",
        dose = numbers::units_named(dose),
        given = numbers::units_named(given)
    )
}

/// A planned dose outside its range.
pub fn outside(low: Units, high: Units) -> String {
    tr!(
        "Outside the range in force for this filler: {range} units.",
        range = numbers::units_range(low, high)
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
        Some(other) => tr!(
            "Refill {affected} s, other side {other} s",
            affected,
            other = numbers::seconds(other)
        ),
        None => tr!("Refill {affected} s", affected),
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
    pub draw_next = "Draw the next syringe";
    pub finish_early_why = "Points left open stay open in the record.";
}

pub fn point(urgency: Urgency, number: u32) -> String {
    match urgency {
        Urgency::Urgent => tr!("Point {number}", number),
        Urgency::Planned => tr!("Deposit {number}", number),
    }
}

pub fn settled(urgency: Urgency, plan: &RoundPlan) -> String {
    tr!("All {points} settled", points = each(urgency, plan))
}

pub fn injected(volume: Volume) -> String {
    tr!("Injected, {volume}", volume = numbers::volume_named(volume))
}

pub fn undo(number: u32) -> String {
    tr!("Undo {number}", number)
}

pub fn done(urgency: Urgency) -> &'static str {
    spoken(match urgency {
        Urgency::Urgent => "Round done, start the clock",
        Urgency::Planned => "All deposits done",
    })
}

pub fn of(total: Units) -> String {
    tr!("of {total}", total = numbers::units_named(total))
}

pub fn syringe(hand: &InHand) -> String {
    tr!("{part} of {whole}", part = hand.number, whole = hand.of)
}

/// When to take the next syringe, or that the last holds more than the round is to have.
pub fn change(hand: &InHand, still: Volume) -> String {
    let left = numbers::volume_named(hand.left);
    let last = hand.number == hand.of;
    if hand.left > still {
        let rest = numbers::volume_named(hand.left.saturating_sub(still));
        return tr!(
            "{left} in it: inject {still}, {rest} stays in",
            left,
            still = numbers::volume_named(still),
            rest
        );
    }
    match (hand.points, last) {
        (0, false) => tr!("{left} left: finish this point from the next", left),
        (0, true) => tr!("{left} left: less than one point", left),
        (1, false) => tr!("{left} left: change after this point", left),
        (points, false) => tr!("{left} left: change after {points} more", left, points),
        (_, true) => tr!("{left} left, the last one", left),
    }
}

/// The syringe that comes next is not made yet.
pub fn not_drawn(number: u32) -> String {
    tr!("Syringe {number} is not drawn yet.", number)
}

pub fn drawing(total: usize, done: usize, skipped: usize) -> String {
    tr!("{total} points: {done} injected, {skipped} left out", total, done, skipped)
}

/// What a screen reader hears once a point is settled.
pub fn now_point(number: u32) -> String {
    tr!("Next: {number}", number)
}

pub fn skip_heading(urgency: Urgency, number: u32) -> String {
    tr!("Leave out {point}", point = within(&point(urgency, number)))
}

pub fn rest_heading(count: u32) -> String {
    tr!("{count} left", count)
}

pub fn rest_injected(count: u32, volume: Volume) -> String {
    tr!("All {count} injected, {volume} in all", count, volume = numbers::volume_named(volume))
}

pub fn rest_skipped(count: u32) -> String {
    tr!("Leave out all {count}, because:", count)
}

pub fn finish_early(count: u32) -> String {
    tr!("Finish now, {count} left open", count)
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

    /// A phone is not an alarm clock.
    pub asleep = "A sleeping phone cannot ring. Keep Freshet in front, and note the hour.";
    pub awake = "The screen stays on while Freshet is in front. A sleeping phone cannot ring.";
    pub no_wake = "This phone does not let Freshet keep the screen on.";
    pub unarmed = "Tap anywhere once: until then the browser keeps the alarm silent.";
    pub mute = "This browser makes no sound.";
}

/// Who says what helps meanwhile.
pub fn meanwhile_source() -> String {
    format!("{} {}.", meanwhile(), source::CONSENSUS_2015.citation)
}

pub fn round_done(number: usize) -> String {
    tr!("Round {number} done", number)
}

pub fn left_open(count: u32) -> String {
    tr!(
        "{count} point left open in this round."
            | "{count} points left open in this round." % count,
        count = numbers::whole(count)
    )
}

pub fn rounds(count: u32) -> &'static str {
    spoken(if count == 1 { "round" } else { "rounds" })
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
    tr!("Pain: {none} none, {worst} worst", none = Pain::NONE.score(), worst = Pain::WORST)
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
    pub seen_again = "Seen again" as "visits to come";
    pub others = "The team that took over sets the visits.";
    pub call_back = "Tell the patient: call at once, day or night, if sight, speech, colour, pain or breathing changes.";
    pub watch = "Watch for a reaction before they leave.";
    pub done_planned = "Done: watch for a reaction";
    pub stay_open = "Back to the deposits";
}

/// A visit, with its day.
pub fn visit(visit: &Visit, from: Moment) -> (String, String) {
    let purpose = spoken(match visit.purpose {
        Purpose::Daily => "In person, daily at first, until the skin is well",
        Purpose::Result => "The result",
        Purpose::NewFiller => "New filler, not before",
    });
    let day = time::day(crate::phone::clock::date(from.after(visit.after)));
    let head = tr!("In {span}, {day}", span = time::span(visit.after), day);
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
    tr!("Pain {score} of {worst}", score = pain.score(), worst = Pain::WORST)
}
