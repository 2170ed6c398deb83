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
    pub record = "Record";
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
pub static CALENDAR: CalendarWords = CalendarWords {
    put: "Put the reviews into the phone’s calendar",
    file: "freshet-reviews.ics",
    downloaded: "Downloaded. Open the file to add the reviews, then check that the calendar shows them.",
    shared: "Passed on. Check that the calendar shows the reviews.",
    cancelled: "Closed: nothing was put into the calendar.",
    refused: "The browser did not take the file. Nothing is in the calendar: write the day down.",
    nothing: "No review is to come: nothing to put there.",
};

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
    match seen {
        Seen::InPerson => "In person",
        Seen::Remotely => "From afar",
    }
}

pub fn damage(damage: Damage) -> &'static str {
    match damage {
        Damage::Pustules => "Pustules",
        Damage::Coagulation => "Black and firm skin",
        Damage::Slough => "Skin coming off",
        Damage::Eschar => "A dry black crust",
        Damage::Infection => "Signs of infection",
        Damage::Scar => "A scar, or a change of colour that stays",
    }
}

pub fn corrected(corrected: Corrected) -> &'static str {
    match corrected {
        Corrected::AsMeant => "As it was meant",
        Corrected::FillerLeft => "Filler is left that was to go",
        Corrected::TooMuch => "Too much went: hollow, or thin skin",
    }
}

/// A review in a line, and more of it in small.
pub fn review(review: &Review) -> (String, Option<String>) {
    let how = seen(review.seen).to_lowercase();
    let skin = review.damage.iter().map(|one| damage(*one).to_owned());
    let became = review.corrected.map(|one| corrected(one).to_owned());
    let more: Vec<String> = measures(&review.look).into_iter().chain(skin).chain(became).collect();
    (format!("Seen again, {how}"), Some(more.join(". ")))
}

/// A treatment taken up again in a line, and why in small.
pub fn taken_up(look: &Look, reason: &str) -> (String, Option<String>) {
    let seen = measures(look).join(". ");
    ("Treatment taken up again".to_owned(), Some(format!("Why: {reason}. {seen}")))
}

/// The measures of a look.
fn measures(look: &Look) -> Vec<String> {
    let refill = look.refill.map_or_else(|| "Refill not timed".to_owned(), timeline::refill);
    let colour = format!("Colour: {}", situation::colour(look.colour).to_lowercase());
    let pain = format!("Pain {} of {}", look.pain.score(), Pain::WORST);
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
        Standing::Ahead(span) => ("Next review in", span, false),
        Standing::Due(span) => ("Review due for", span, true),
    };
    let by = match (planned.agreed, planned.rule) {
        (true, _) => "Agreed.".to_owned(),
        (false, Rule::Daily) => format!(
            "Proposed: daily at first, in person. {} (second hand).",
            source::OCCLUSION_2020.citation
        ),
        (false, Rule::Spaced) => "Proposed: spaced out. The clinic’s value.".to_owned(),
        (false, Rule::Result) => {
            "Proposed: the result of planned work. The clinic’s value.".to_owned()
        }
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
        Standing::Ahead(span) => format!("Review in {}", time::span(span)),
        Standing::Due(span) => format!("Review due for {}", time::span(span)),
    }
}

/// What a review asks for.
pub fn advice(advice: Advice) -> String {
    match advice {
        Advice::HandOver(flag) => format!("{}: hand over now", situation::red_flag(flag)),
        Advice::InPerson => {
            "See the patient in person at once: a photo or a video does not do".into()
        }
        Advice::Treat => "Worse, or short of blood: treat it as an occlusion now".into(),
        Advice::Refer => "Skin is dying: refer to a specialist".into(),
        Advice::Infection => "Infection: treat by local protocol, and refer".into(),
        Advice::Wound => "Wound care by local protocol".into(),
        Advice::NotBack(sign) => match sign {
            Sign::Refill => "Refill was not timed: time it on both sides".into(),
            Sign::Colour => "Colour is not back".into(),
            Sign::Pain => "Pain is not gone".into(),
        },
        Advice::Another => "Filler is left: another session can be planned".into(),
        Advice::TooMuch => "More went than was meant: no more enzyme".into(),
        Advice::Well => "Well: nothing more is asked for".into(),
    }
}

/// What speaks against closing, in one text.
pub fn against(holds: Vec<Holds>) -> String {
    holds.into_iter().map(self::holds).collect::<Vec<_>>().join(" ")
}

fn holds(holds: Holds) -> String {
    match holds {
        Holds::Flag => "A sign that goes before everything stands.".into(),
        Holds::Reacting => timeline::reacting().into(),
        Holds::Treating => "The treatment has not ended.".into(),
        Holds::NotSeen => "Nobody has seen the patient since the treatment.".into(),
        Holds::FromAfar => "Seen last from afar: see the patient in person.".into(),
        Holds::Before(until) => format!("Pustules may come up to {}.", time::day_hour(until)),
        Holds::Asked(asked) => format!("{}.", advice(asked)),
    }
}

/// A sign and what became of it.
pub fn became(aspect: Aspect, trend: Trend) -> String {
    format!("{}: {}", rounds::aspect(aspect), rounds::trend(trend))
}
