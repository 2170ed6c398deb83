//! Seeing the patient again.

use super::{rounds, situation, time, timeline};
use crate::care::aftercare::{
    Advice, Corrected, Damage, Holds, Planned, Review, Rule, Seen, Standing,
};
use crate::care::perfusion::{Aspect, Trend};
use crate::care::rounds::{Look, Pain, Sign};
use crate::measure::Moment;
use crate::phone::clock;
use crate::protocol::source;
use crate::ui::language::{spoken, within};
use crate::ui::parts::CalendarWords;

words! {
    pub title = "Follow-up";
    pub to_follow_up = "Follow-up";
    pub detail = "When the patient is seen again, and what was found";
    pub see_now = "See the patient now";
    pub agree = "Agree on the next review";
    pub change_day = "Change the day";
    pub close = "Close the case";
    pub treat = "Treat again now";
    pub record = "Record" as "of a case";
    pub hand_over_detail = "To a specialist or a hospital: why, whom to call, and closing the case";
    pub none_due = "No review follows by rule.";
    pub last = "Last review";
    pub since = "Since the look before";
    pub came = "How is it now?";
    pub how_seen = "Seen";
    pub seen_missing = "Say how the patient was seen.";
    pub damage_label = "What the skin came to, if anything";
    pub corrected_label = "The correction";
    pub corrected_missing = "Say what became of the correction.";
    pub keep = "Record the review";
    pub when = "When is the next review?";
    pub earlier_day = "A day earlier";
    pub later_day = "A day later";
    pub earlier_hour = "An hour earlier";
    pub later_hour = "An hour later";
    pub agreed = "Agreed with the patient";
    pub at = "At";
    pub away_label = "From now";
    passed = "past";
    pub past = "That moment is past.";

    pub calendar_why = "The next review as agreed or proposed, and the daily ones proposed after it. No name is in it.";
    pub calendar_review = "Freshet: see a patient again";
    pub calendar_agreed = "Agreed. Open Freshet.";
    pub calendar_proposed = "Proposed, not agreed yet. Open Freshet.";
}
/// Putting the reviews into the calendar.
pub fn calendar() -> CalendarWords {
    const FILE: &str = "freshet-reviews.ics";
    CalendarWords {
        put: spoken("Put the reviews into the phone’s calendar"),
        file: FILE,
        downloaded: spoken(
            "Downloaded. Open the file to add the reviews, then check that the calendar shows them.",
        ),
        shared: spoken("Passed on. Check that the calendar shows the reviews."),
        cancelled: spoken("Closed: nothing was put into the calendar."),
        refused: spoken(
            "The browser did not take the file. Nothing is in the calendar: write the day down.",
        ),
        nothing: spoken("No review is to come: nothing to put there."),
    }
}

pub const SEEN: [Seen; 2] = [Seen::InPerson, Seen::Remotely];
pub const DAMAGES: [Damage; 6] = [
    Damage::Pustules,
    Damage::Coagulation,
    Damage::Slough,
    Damage::Eschar,
    Damage::Infection,
    Damage::Scar,
];
pub const CORRECTIONS: [Corrected; 3] =
    [Corrected::AsMeant, Corrected::FillerLeft, Corrected::TooMuch];

pub fn seen(seen: Seen) -> &'static str {
    spoken(match seen {
        Seen::InPerson => "In person",
        Seen::Remotely => "From afar",
    })
}

pub fn damage(damage: Damage) -> &'static str {
    spoken(match damage {
        Damage::Pustules => "Pustules",
        Damage::Coagulation => "Black and firm skin",
        Damage::Slough => "Skin coming off",
        Damage::Eschar => "A dry black crust",
        Damage::Infection => "Signs of infection",
        Damage::Scar => "A scar, or a change of colour that stays",
    })
}

pub fn corrected(corrected: Corrected) -> &'static str {
    spoken(match corrected {
        Corrected::AsMeant => "As it was meant",
        Corrected::FillerLeft => "Filler is left that was to go",
        Corrected::TooMuch => "Too much went: hollow, or thin skin",
    })
}

/// A review in a line, and more of it in small.
pub fn review(review: &Review) -> (String, Option<String>) {
    let skin = review.damage.iter().map(|one| damage(*one).to_owned());
    let became = review.corrected.map(|one| corrected(one).to_owned());
    let more: Vec<String> = measures(&review.look).into_iter().chain(skin).chain(became).collect();
    let how = match review.seen {
        Seen::InPerson => tr!("Seen again, in person"),
        Seen::Remotely => tr!("Seen again, from afar"),
    };
    (how, Some(more.join(". ")))
}

/// A treatment taken up again in a line, and why in small.
pub fn taken_up(look: &Look, reason: &str) -> (String, Option<String>) {
    let seen = measures(look).join(". ");
    (tr!("Treatment taken up again"), Some(tr!("Why: {reason}. {seen}", reason, seen)))
}

/// The measures of a look.
fn measures(look: &Look) -> Vec<String> {
    let refill = look.refill.map_or_else(|| tr!("Refill not timed"), timeline::refill);
    let colour = tr!("Colour: {colour}", colour = within(situation::colour(look.colour)));
    let pain = tr!("Pain {score} of {worst}", score = look.pain.score(), worst = Pain::WORST);
    let felt = look.temperature.map(|felt| situation::temperature(felt).to_owned());
    let tried = look.function.map(|tried| situation::function(tried).to_owned());
    let flags = look.red_flags.iter().map(|flag| situation::red_flag(*flag).to_owned());
    [refill, colour, pain].into_iter().chain(felt).chain(tried).chain(flags).collect()
}

/// When the next review is.
#[derive(Clone, PartialEq, Eq)]
pub struct Next {
    /// What the span is.
    pub head: &'static str,
    /// Until then, or since.
    pub span: String,
    /// The moment, and who says so.
    pub when: String,
    /// Whether it is due.
    pub due: bool,
}

pub fn next(planned: &Planned, now: Moment) -> Next {
    let (head, span, due) = match planned.standing(now) {
        Standing::Ahead(span) => (spoken("Next review in"), span, false),
        Standing::Due(span) => (spoken("Review due for"), span, true),
    };
    let by = match (planned.agreed, planned.rule) {
        (true, _) => tr!("Agreed."),
        (false, Rule::Daily) => tr!(
            "Proposed: daily at first, in person. {source} (second hand).",
            source = source::OCCLUSION_2020.citation
        ),
        (false, Rule::Spaced) => tr!("Proposed: spaced out. The clinic’s value."),
        (false, Rule::Result) => tr!("Proposed: the result of planned work. The clinic’s value."),
    };
    let day = time::weekday(clock::date(planned.at));
    let when = format!("{day}, {}. {by}", time::day_hour(planned.at));
    Next { head, span: time::span(span), when, due }
}

/// How far off a moment is.
pub fn away(at: Moment, now: Moment) -> String {
    if at <= now { passed().to_owned() } else { time::span(at.since(now)) }
}

/// The next review in the row of a case.
pub fn row(planned: &Planned, now: Moment) -> String {
    match planned.standing(now) {
        Standing::Ahead(span) => tr!("Review in {span}", span = time::span(span)),
        Standing::Due(span) => tr!("Review due for {span}", span = time::span(span)),
    }
}

/// What a review asks for.
pub fn advice(advice: Advice) -> String {
    match advice {
        Advice::HandOver(flag) => {
            tr!("{sign}: hand over now", sign = situation::red_flag(flag))
        }
        Advice::InPerson => {
            tr!("See the patient in person at once: a photo or a video does not do")
        }
        Advice::Treat => tr!("Worse, or short of blood: treat it as an occlusion now"),
        Advice::Refer => tr!("Skin is dying: refer to a specialist"),
        Advice::Infection => tr!("Infection: treat by local protocol, and refer"),
        Advice::Wound => tr!("Wound care by local protocol"),
        Advice::NotBack(sign) => match sign {
            Sign::Refill => tr!("Refill was not timed: time it on both sides"),
            Sign::Colour => tr!("Colour is not back"),
            Sign::Pain => tr!("Pain is not gone"),
        },
        Advice::Another => tr!("Filler is left: another session can be planned"),
        Advice::TooMuch => tr!("More went than was meant: no more enzyme"),
        Advice::Well => tr!("Well: nothing more is asked for"),
    }
}

/// What speaks against closing, in one text.
pub fn against(holds: Vec<Holds>) -> String {
    holds.into_iter().map(self::holds).collect::<Vec<_>>().join(" ")
}

fn holds(holds: Holds) -> String {
    match holds {
        Holds::Flag => tr!("A sign that goes before everything stands."),
        Holds::Reacting => timeline::reacting().to_owned(),
        Holds::Treating => tr!("The treatment has not ended."),
        Holds::NotSeen => tr!("Nobody has seen the patient since the treatment."),
        Holds::FromAfar => tr!("Seen last from afar: see the patient in person."),
        Holds::Before(until) => {
            tr!("Pustules may come up to {until}.", until = time::day_hour(until))
        }
        Holds::Asked(asked) => format!("{}.", advice(asked)),
    }
}

/// A sign and what became of it.
pub fn became(aspect: Aspect, trend: Trend) -> String {
    format!("{}: {}", rounds::aspect(aspect), rounds::trend(trend))
}
