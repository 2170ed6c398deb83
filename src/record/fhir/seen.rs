//! What was seen and measured.

use super::terms::Term;
use super::{Bundle, quantity, text};
use crate::care::refill::readings::Side;
use crate::care::rounds::Look;
use crate::care::skin_test::Verdict;
use crate::measure::{Length, Moment, Span};
use crate::record::iso;
use crate::record::note::Note;
use serde_json::{Value, json};

/// Everything seen: at the start, at each look, at each review, and of the skin test.
pub(super) fn all(bundle: &mut Bundle, note: &Note) {
    start(bundle, note);
    for (index, noticed) in note.noticed.iter().enumerate() {
        let value = ("valueCodeableConcept", text(noticed.flag.term()));
        let code = text("Sign that goes before everything");
        observed(bundle, &format!("noticed {index}"), noticed.at, code, value);
    }
    for (index, (at, look)) in note.looks.iter().enumerate() {
        looked(bundle, &format!("look {index}"), *at, look);
    }
    for (index, (at, review)) in note.reviews.iter().enumerate() {
        let name = format!("review {index}");
        let seen = ("valueCodeableConcept", text(review.seen.term()));
        observed(bundle, &name, *at, text("Seen again"), seen);
        looked(bundle, &name, *at, &review.look);
        for damage in each_once(&review.damage) {
            let value = ("valueCodeableConcept", text(damage.term()));
            observed(
                bundle,
                &format!("{name} {}", damage.term()),
                *at,
                text("Damage to skin"),
                value,
            );
        }
        if let Some(corrected) = review.corrected {
            let value = ("valueCodeableConcept", text(corrected.term()));
            observed(bundle, &format!("{name} result"), *at, text("Result of correction"), value);
        }
    }
    test(bundle, note);
}

/// Each thing of a list once: an address is made of what it names, and none may stand twice.
fn each_once<T: Copy + PartialEq>(all: &[T]) -> Vec<T> {
    let mut once = Vec::new();
    for one in all {
        if !once.contains(one) {
            once.push(*one);
        }
    }
    once
}

/// One observation, with a value of one of its kinds.
fn observed(bundle: &mut Bundle, name: &str, at: Moment, code: Value, value: (&str, Value)) {
    let mut content = json!({
        "status": "final",
        "code": code,
        "subject": bundle.patient(),
        "encounter": bundle.visit(),
        "effectiveDateTime": iso::utc(at),
    });
    content[value.0] = value.1;
    bundle.put("Observation", name, content);
}

fn start(bundle: &mut Bundle, note: &Note) {
    let Some(found) = &note.findings else { return };
    if let Some(years) = found.person.years {
        let value = ("valueQuantity", quantity(years, "years", "a"));
        observed(bundle, "age", note.opened, text("Age"), value);
    }
    for sign in each_once(&found.signs) {
        let value = ("valueCodeableConcept", text(sign.term()));
        let at = found.onset.unwrap_or(note.opened);
        observed(bundle, &format!("sign {}", sign.term()), at, text("Sign on the skin"), value);
    }
    if let Some(refill) = found.refill {
        refilled(bundle, "start", note.opened, Side::Affected, refill.affected);
        if let Some(opposite) = refill.opposite {
            refilled(bundle, "start", note.opened, Side::Opposite, opposite);
        }
    }
}

/// Capillary refill of skin. By text alone: the code that there is means the nail bed.
fn refilled(bundle: &mut Bundle, name: &str, at: Moment, side: Side, time: Span) {
    let code = text(match side {
        Side::Affected => "Capillary refill time of skin, affected side",
        Side::Opposite => "Capillary refill time of skin, opposite side",
    });
    // Milliseconds as decimal seconds.
    let seconds = format!("{}.{:03}", time.as_seconds(), time.as_millis() % 1_000);
    let value = ("valueQuantity", quantity(seconds, "s", "s"));
    observed(bundle, &format!("{name} refill {side:?}"), at, code, value);
}

fn looked(bundle: &mut Bundle, name: &str, at: Moment, look: &Look) {
    for side in Side::BOTH {
        for (index, reading) in look.readings.of(side).iter().enumerate() {
            refilled(bundle, &format!("{name} {index}"), at, side, reading.time);
        }
    }
    // Records of the first form have what the readings amount to, and no single ones.
    if let (true, Some(refill)) = (look.readings.is_empty(), look.refill) {
        refilled(bundle, name, at, Side::Affected, refill.affected);
        if let Some(opposite) = refill.opposite {
            refilled(bundle, name, at, Side::Opposite, opposite);
        }
    }
    let mut see = |what: &str, code: &str, value: &str| {
        let value = ("valueCodeableConcept", text(value));
        observed(bundle, &format!("{name} {what}"), at, text(code), value);
    };
    see("colour", "Colour of skin", look.colour.term());
    if let Some(felt) = look.temperature {
        see("temperature", "Temperature of skin, against the other side", felt.term());
    }
    if let Some(function) = look.function {
        see("function", "Movement and feeling, against the other side", function.term());
    }
    let score = quantity(look.pain.score(), "/10", "{score}");
    observed(bundle, &format!("{name} pain"), at, pain(), ("valueQuantity", score));
}

/// LOINC's code of a spoken score of pain from 0 to 10.
fn pain() -> Value {
    json!({
        "coding": [{
            "system": "http://loinc.org",
            "code": "72514-3",
            "display": "Pain severity - 0-10 verbal numeric rating [Score] - Reported",
        }],
        "text": "Pain, 0 to 10",
    })
}

/// Each reading of the skin test.
fn test(bundle: &mut Bundle, note: &Note) {
    let Some(tested) = &note.test else { return };
    for (index, reading) in tested.readings.iter().enumerate() {
        let seen = reading.seen;
        let part = |what: &str, is: bool| json!({ "code": text(what), "valueBoolean": is });
        let meant = match reading.verdict {
            Verdict::Positive => Some("POS"),
            Verdict::Negative => Some("NEG"),
            Verdict::Doubtful | Verdict::TooLate => Some("IND"),
            Verdict::TooEarly => None,
        };
        let content = json!({
            "status": if meant.is_some() { "final" } else { "preliminary" },
            "code": text("Skin test with hyaluronidase, wheal"),
            "subject": bundle.patient(),
            "encounter": bundle.visit(),
            "effectiveDateTime": iso::utc(reading.at),
            "partOf": [bundle.to("skin test")],
            "valueQuantity": millimetres(seen.wheal),
            "interpretation": meant.map(|code| [super::coded("v3-ObservationInterpretation", code)]),
            "component": [
                part("Redness", seen.flare),
                part("Itching", seen.itch),
                part("Wheal with branches", seen.pseudopods),
                part("Signs away from the site", seen.systemic),
            ],
        });
        bundle.put("Observation", &format!("test {index}"), content);
    }
}

fn millimetres(length: Length) -> Value {
    quantity(length, "mm", "mm")
}
