//! The patient’s own sheet, in plain words: short sentences, no jargon. How easily it reads is
//! measured in `tests/published/readability.rs`, on the sheet of each sample case.

#[cfg(test)]
mod tests;

use super::document::{Document, Line, Part, day_hour, say};
use super::{numbers, protocol, time};
use crate::case::{Contact, Role};
use crate::measure::Moment;
use crate::protocol::{Basis, fact};
use crate::record::note::{Avoid, Back, Did, Leaf, Note, Watch, Whom};
use crate::ui::language::{spoken, spoken_as};
use crate::ui::parts::Finding;

words! {
    pub title = "For the patient";
    pub file_name = "for-the-patient";
    /// What stands on the sheet itself.
    head = "Your treatment and what to do now";
    pub why = "Why each of these is said";
    pub no_clinic = "Your clinic’s number is not set. The sheet has a line there: write it in by hand, or set it.";
    pub set_numbers = "Set the numbers";
    pub no_emergency = "The emergency number is not set. The sheet has a line there: write it in by hand, or set it.";

    did_label = "What we did";
    call_now = "Call for an ambulance at once if";
    call_us = "Call us at once if";
    come = "Come back";
    not = "Keep in mind";
    numbers = "Who to call";
    unfinished = "We had not finished when this sheet was made. Ask for a new one before you leave.";
    nobody = "If you have one of these signs and we do not answer, go to a hospital. Take this sheet with you.";
}

/// The sheet, with the numbers that the clinic has set.
pub fn document(note: &Note, leaf: &Leaf, numbers: &[Contact]) -> Document {
    let reference = Line::Field(tr!("Your number with us"), note.reference.clone());
    let mut parts = vec![
        Part::new("", vec![Line::Blank(spoken("Your name")), reference]),
        Part::new(did_label(), did(note, leaf).into_iter().map(say).collect()),
    ];
    for (whom, name) in [(Whom::Emergency, call_now()), (Whom::Clinic, call_us())] {
        let signs: Vec<Line> = leaf
            .watch
            .iter()
            .filter(|sign| sign.whom(leaf.reacted) == whom)
            .map(|sign| say(watch(*sign)))
            .collect();
        if !signs.is_empty() {
            parts.push(Part::new(name, signs));
        }
    }
    parts.push(Part::new(self::numbers(), call(numbers)));
    parts.push(Part::new(come(), leaf.back.iter().map(|one| say(back(note, *one))).collect()));
    if !leaf.avoid.is_empty() {
        let avoid = leaf.avoid.iter().map(|one| say(avoid(note, *one)));
        parts.push(Part::new(not(), avoid.collect()));
    }
    Document { title: head(), parts }
}

fn day(note: &Note, at: Moment) -> String {
    time::day(note.hours.local(at).date)
}

fn did(note: &Note, leaf: &Leaf) -> Vec<String> {
    let on = note.rounds.first().map_or(note.opened, |given| given.round.begun);
    let day = day(note, on);
    let mut lines = match leaf.did {
        Did::Unblocked(rounds) => {
            vec![
                tr!("On {day} your skin did not get enough blood.", day),
                tr!("We think that filler had blocked a blood vessel."),
                tr!("We put in a drug that melts filler away."),
                tr!(
                    "We did this one time." | "We did this {count} times." % rounds,
                    count = numbers::whole(rounds)
                ),
            ]
        }
        Did::Removed => vec![
            tr!("On {day} we put in a drug that melts filler away.", day),
            tr!(
                "The filler may still get less for {span}.",
                span = time::span(fact::GEL_CHANGES.to)
            ),
        ],
        Did::Tested => vec![
            tr!("On {day} we put a small drop of a drug under your skin.", day),
            tr!("This was a test. It shows if you are allergic to the drug."),
            tr!("We did not treat your filler."),
        ],
        Did::Nothing => vec![tr!("We saw you on {day}.", day), tr!("We put in no drug.")],
    };
    if did_drug(leaf.did) {
        lines.push(tr!("The drug is called hyaluronidase."));
    }
    if leaf.positive {
        lines.push(tr!("The skin test showed that you may be allergic to it."));
    }
    if note.end().is_none() {
        lines.push(unfinished().to_owned());
    }
    if leaf.reacted {
        lines.push(tr!("You had a bad allergic reaction. It can come back."));
    }
    lines
}

fn did_drug(did: Did) -> bool {
    did != Did::Nothing
}

fn watch(sign: Watch) -> String {
    match sign {
        Watch::Sight => tr!("You see less or see double, or your eye hurts."),
        Watch::Stroke => tr!("Your face or arm is weak, or you cannot speak well."),
        Watch::Breath => {
            tr!("It is hard to breathe, your tongue or throat swells, or you feel faint.")
        }
        Watch::Colour => tr!("Your skin turns pale, patchy or blue."),
        Watch::Pain => tr!("The pain comes back or gets worse."),
        Watch::Blisters => tr!(
            "You get spots with pus, or blisters. They may come after {days}.",
            days = time::span(fact::PUSTULES.to)
        ),
        Watch::Black => tr!("The skin turns black or hard, or it opens."),
        Watch::Rash => tr!("You get a rash, or your skin itches or swells."),
        Watch::TestPlace => tr!(
            "The test spot gets red, swells or itches. Look at it each day for {days}.",
            days = time::span(fact::TEST_READ_AGAIN.to)
        ),
    }
}

fn call(numbers: &[Contact]) -> Vec<Line> {
    let of = |role: Role, name: &'static str| -> Vec<Line> {
        let set: Vec<Line> = numbers
            .iter()
            .filter(|one| one.role == role)
            .map(|one| {
                let who = if one.name.is_empty() {
                    name.to_owned()
                } else {
                    format!("{name}, {}", one.name)
                };
                Line::Call(who, one.number.as_str().to_owned())
            })
            .collect();
        if set.is_empty() { vec![Line::Blank(name)] } else { set }
    };
    let mut lines = of(Role::Emergency, spoken("Ambulance"));
    lines.extend(of(Role::Clinic, spoken_as(Some("whom to call"), "Us")));
    // No clinic has said here at which hours it answers.
    lines.push(say(nobody()));
    lines
}

fn back(note: &Note, back: Back) -> String {
    match back {
        Back::Appointed(at) => {
            tr!("We will see you on {when}.", when = day_hour(note.hours.local(at)))
        }
        Back::Daily(at) => tr!(
            "Come to us on {day}. At first we want to see you each day, until your skin is well.",
            day = day(note, at)
        ),
        Back::Result(at) => {
            tr!("Come to us on about {day}. We will look at the result.", day = day(note, at))
        }
        Back::NewFiller(at) => tr!("Have no new filler there before {day}.", day = day(note, at)),
        Back::OtherTeam => tr!("A new team looks after you now. Ask them when to come back."),
        Back::Ask => tr!("Ask us when to come back before you leave."),
    }
}

fn avoid(note: &Note, avoid: Avoid) -> String {
    match avoid {
        Avoid::Waiting => tr!("Do not wait to see if a sign on this sheet goes away."),
        Avoid::Photo => tr!("Do not just send a photo. We have to see your skin."),
        Avoid::MoreAspirin(at, dose) => {
            let when = day_hour(note.hours.local(at));
            match dose {
                None => {
                    tr!("We gave you aspirin on {when}. Take no more unless we tell you to.", when)
                }
                Some(dose) => tr!(
                    "We gave you aspirin {dose} mg on {when}. Take no more unless we tell you to.",
                    dose = dose.0,
                    when
                ),
            }
        }
        Avoid::Untold => {
            tr!("Tell each doctor and nurse that you may be allergic to hyaluronidase.")
        }
    }
}

/// How well each claim is founded.
pub fn founded(note: &Note, leaf: &Leaf) -> Vec<Finding> {
    let finding = |figure: String, setting: &str, basis: Basis| Finding {
        figure,
        setting: setting.to_owned(),
        citation: protocol::citation(basis),
        status: protocol::status(basis).to_owned(),
    };
    let days = |after: fact::After| match (time::span(after.from), time::span(after.to)) {
        (from, to) if from == to => to,
        (from, to) => tr!("{low} to {high}", low = from, high = to),
    };
    let mut all = Vec::new();
    if leaf.did == Did::Removed {
        let gel = fact::GEL_CHANGES;
        all.push(finding(days(gel), spoken("gel still changed until then"), gel.basis));
    }
    for sign in &leaf.watch {
        match sign {
            Watch::Blisters => {
                all.push(finding(
                    watch(*sign),
                    spoken("pustules come after that time"),
                    sign.basis(),
                ));
            }
            Watch::TestPlace => {
                let again = fact::TEST_READ_AGAIN;
                let of =
                    spoken("a test with any drug is read again; nothing is published on this one");
                all.push(finding(watch(*sign), "", sign.basis()));
                all.push(finding(days(again), of, again.basis));
            }
            _ => all.push(finding(watch(*sign), "", sign.basis())),
        }
    }
    all.push(finding(nobody().to_owned(), "", Basis::CommonPractice));
    all.extend(leaf.back.iter().map(|one| finding(back(note, *one), "", one.basis())));
    all.extend(leaf.avoid.iter().map(|one| finding(avoid(note, *one), "", one.basis())));
    all
}

/// What is missing of the numbers, in words; none where both are set.
pub fn missing(numbers: &[Contact]) -> Option<&'static str> {
    let set = |role| numbers.iter().any(|one| one.role == role);
    match (set(Role::Clinic), set(Role::Emergency)) {
        (false, _) => Some(no_clinic()),
        (true, false) => Some(no_emergency()),
        (true, true) => None,
    }
}
