//! What was found: the findings, the answers about allergy, the territory.

use super::sentences;
use crate::care::allergy::{Answer, Answers};
use crate::care::refill::Refill;
use crate::care::situation::Findings;
use crate::care::territory::{Size, Territory};
use crate::ui::language::{spoken, within};
use crate::ui::words::{allergy, numbers, outline, situation, time};

pub(super) fn findings(found: &Findings) -> String {
    let names = |label: &str, names: Vec<&str>, none: &str| {
        format!("{label}: {}", if names.is_empty() { none.to_owned() } else { names.join("; ") })
    };
    let person = [
        found.person.sex.map(|sex| situation::sex(sex).to_owned()),
        found.person.years.map(|years| {
            tr!("{count} year" | "{count} years" % years, count = numbers::whole(years))
        }),
    ];
    let person: Vec<String> = person.into_iter().flatten().collect();
    sentences([
        names(
            spoken("Before everything"),
            found.red_flags.iter().map(|flag| situation::red_flag(*flag)).collect(),
            spoken("none"),
        ),
        names(
            spoken("Skin"),
            found.signs.iter().map(|sign| situation::sign(*sign)).collect(),
            spoken("none of the signs"),
        ),
        found.onset.map_or_else(String::new, |onset| {
            tr!("First sign seen {when}", when = time::day_hour(onset))
        }),
        found.refill.map_or_else(String::new, refill),
        if person.is_empty() {
            String::new()
        } else {
            tr!("Patient: {person}", person = person.join(", "))
        },
        tr!("Filler: {filler}", filler = within(situation::filler(found.filler))),
        found.aim.map_or_else(String::new, |aim| situation::aim(aim).to_owned()),
        if found.site.is_empty() {
            String::new()
        } else {
            names(
                spoken("Site"),
                found.site.iter().map(|site| situation::site(*site)).collect(),
                "",
            )
        },
    ])
}

/// Both sides' refill.
pub fn refill(refill: Refill) -> String {
    let affected = numbers::seconds(refill.affected);
    match refill.opposite {
        Some(opposite) => {
            let opposite = numbers::seconds(opposite);
            tr!("Refill {affected} s, other side {opposite} s", affected, opposite)
        }
        None => tr!("Refill {affected} s, other side not timed", affected),
    }
}

pub(super) fn asked(answers: &Answers) -> String {
    let answer =
        |label: &str, answer: Answer| format!("{label}: {}", within(allergy::answer(answer)));
    let medicines: Vec<&str> =
        answers.medicines.iter().map(|medicine| allergy::medicine(*medicine)).collect();
    sentences([
        answer(spoken("Reaction to hyaluronidase before"), answers.previous_reaction),
        answer(spoken("Bee"), answers.bee),
        answer(spoken("Wasp"), answers.wasp),
        answer(spoken("Desensitised"), answers.desensitised),
        tr!("Enzyme: {species}", species = within(allergy::species(answers.species))),
        if medicines.is_empty() {
            tr!("Medicines that matter: none")
        } else {
            tr!("Medicines: {medicines}", medicines = medicines.join("; "))
        },
        tr!(
            "Pregnant or nursing: {answer}",
            answer = within(allergy::pregnancy(answers.pregnancy))
        ),
    ])
}

pub(super) fn territory(skin: &Territory) -> String {
    let zones: Vec<&str> = skin.zones().iter().map(|zone| situation::zone(*zone)).collect();
    let size = match skin.size() {
        Size::Typed(_) => tr!("Size measured or estimated"),
        Size::Rectangle { length, width } => {
            let (length, width) = (numbers::length_named(*length), numbers::length_named(*width));
            tr!("{length} by {width}", length, width)
        }
        Size::Outlined(drawn) => outline::ground(&drawn.ground),
        Size::Usual => tr!("Usual size of the areas named"),
    };
    sentences([zones.join(", "), size])
}
