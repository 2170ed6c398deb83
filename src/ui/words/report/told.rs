//! The narrative of a report: the facts in the order in which they happened.

use super::super::document::{Line, say};
use super::super::note::{on, pain, placed, read, reviewed, skin, taken_up};
use super::super::{anaphylaxis, looking, numbers, rounds, situation, timeline};
use super::Reported;
use crate::care::allergy::Urgency;
use crate::care::anaphylaxis::{Act, Sign};
use crate::care::handover::Noticed;
use crate::care::rounds::Look;
use crate::care::situation::RedFlag;
use crate::measure::Moment;
use crate::measure::order;
use crate::record::note::Note;
use crate::ui::language::{spoken, within};

/// What was seen of a reaction; none where nothing was recorded.
pub(super) fn signs(note: &Note, reported: Reported) -> Option<String> {
    let signs: Vec<String> = match reported {
        Reported::Occlusion => {
            let found = note.findings.as_ref();
            let skin = found.into_iter().flat_map(|found| &found.signs);
            // Airway signs belong to a severe reaction.
            let eyes = |noticed: &&Noticed| noticed.flag != RedFlag::Airway;
            let flags = note.noticed.iter().filter(eyes);
            let flags = flags.map(|noticed| situation::red_flag(noticed.flag));
            skin.map(|sign| situation::sign(*sign)).chain(flags).map(str::to_owned).collect()
        }
        Reported::Reaction => {
            let mut seen: Vec<Sign> = Vec::new();
            for (_, act) in &note.reaction {
                if let Act::Signs(signs) = act {
                    seen.extend(signs.iter().copied());
                }
            }
            order::sort(&mut seen);
            seen.dedup();
            seen.into_iter().map(|sign| anaphylaxis::sign(sign).to_owned()).collect()
        }
        Reported::Test => note.test.as_ref()?.readings.iter().map(read).collect(),
    };
    (!signs.is_empty()).then(|| signs.join("; "))
}

/// The whole course, a sentence for each moment.
pub(super) fn told(note: &Note) -> Vec<Line> {
    let mut told: Vec<(Moment, String)> = Vec::new();
    let way = spoken(match note.urgency() {
        Some(Urgency::Urgent) => "Suspected blocked artery in the skin after filler.",
        Some(Urgency::Planned) => "Planned removal of filler with hyaluronidase.",
        None => "Case opened.",
    });
    let mut opened = way.to_owned();
    if let Some(found) = &note.findings {
        let signs: Vec<String> =
            found.signs.iter().map(|sign| within(situation::sign(*sign))).collect();
        if !signs.is_empty() {
            opened = tr!("{opened} Found: {signs}.", opened, signs = signs.join("; "));
        }
        if let Some(refill) = found.refill {
            opened = format!("{opened} {}.", timeline::refill(refill));
        }
    }
    told.push((note.opened, opened));
    told.extend(note.noticed.iter().map(|noticed| {
        (noticed.at, tr!("Noticed: {sign}.", sign = within(situation::red_flag(noticed.flag))))
    }));
    if let Some(test) = &note.test {
        told.push((test.at, tr!("Skin test: {dose}.", dose = placed(test.placed))));
        let readings = test.readings.iter();
        told.extend(
            readings.map(|one| (one.at, tr!("Skin test read: {reading}.", reading = read(one)))),
        );
    }
    for (number, given) in (1..).zip(&note.rounds) {
        let number: u32 = number;
        let dose = tr!(
            "{units} in {volume}",
            units = numbers::units_named(given.round.units()),
            volume = numbers::volume_named(given.round.volume())
        );
        let dose = match &given.territory {
            None => dose,
            Some(here) => format!("{dose} ({})", skin(here)),
        };
        told.push((
            given.round.begun,
            tr!("Round {number} of hyaluronidase: {dose}.", number, dose),
        ));
    }
    told.extend(note.looks.iter().map(|(at, look)| (*at, looked(look))));
    told.extend(note.reaction.iter().map(|(at, act)| (*at, format!("{}.", anaphylaxis::act(act)))));
    if let Some((at, end)) = note.end() {
        told.push((at, tr!("Treatment ended: {end}.", end = within(&rounds::end(end)))));
    }
    told.extend(note.reviews.iter().map(|(at, review)| (*at, format!("{}.", reviewed(review)))));
    told.extend(note.taken_up.iter().map(|(at, reason)| (*at, format!("{}.", taken_up(reason)))));
    order::by_key(&mut told, |(at, _)| *at);
    told.into_iter().map(|(at, text)| say(format!("{}: {text}", on(note, at)))).collect()
}

fn looked(look: &Look) -> String {
    let (colour, pain) = (within(situation::colour(look.colour)), pain(look.pain));
    match look.refill.map(|refill| looking::seconds(refill.affected)) {
        None => {
            tr!("Looked at: refill not timed, colour {colour}, pain {pain}.", colour, pain)
        }
        Some(refill) => {
            tr!("Looked at: refill {refill}, colour {colour}, pain {pain}.", refill, colour, pain)
        }
    }
}
