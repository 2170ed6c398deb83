//! What was made and given.

use super::terms::Term;
use super::{Bundle, ml, period, quantity, text, units};
use crate::care::adjunct::{Choice, Chosen};
use crate::care::allergy::Species;
use crate::care::anaphylaxis::Act as Reacting;
use crate::care::rounds::{Act, End, Point};
use crate::care::territory::Territory;
use crate::case::{Case, Event, Journal};
use crate::protocol::adjunct::Adjunct;
use crate::record::iso;
use crate::record::note::{Given, Note, Solution};
use serde_json::{Value, json};

/// The drug, by its generic name.
const ENZYME: &str = "Hyaluronidase";

/// The same with where it comes from, as far as that was told.
fn enzyme(note: &Note) -> String {
    match note.species() {
        Species::Unknown => ENZYME.to_owned(),
        known => format!("{ENZYME}, {}", known.term().to_lowercase()),
    }
}

/// One vial.
fn vial_name(solution: usize, number: u32) -> String {
    format!("vial {solution} {number}")
}

/// Each vial noted, and each solution made of them. Gives the solutions' references, in order.
pub(super) fn medications(bundle: &mut Bundle, note: &Note) -> Vec<Value> {
    let mut made = Vec::new();
    for (index, solution) in note.solutions.iter().enumerate() {
        for vial in &solution.vials {
            let lot = Some(vial.batch.trim()).filter(|batch| !batch.is_empty());
            let expires = vial
                .expiry
                .map(|day| format!("{:04}-{:02}-{:02}", day.year(), day.month(), day.day()));
            let batch = match (lot, expires) {
                (None, None) => None,
                (Some(lot), None) => Some(json!({ "lotNumber": lot })),
                (None, Some(day)) => Some(json!({ "expirationDate": day })),
                (Some(lot), Some(day)) => Some(json!({ "lotNumber": lot, "expirationDate": day })),
            };
            let content = json!({
                "code": text(enzyme(note)),
                "form": text("Powder for solution, vial"),
                "amount": { "numerator": units(vial.units), "denominator": { "value": 1 } },
                "batch": batch,
            });
            bundle.put("Medication", &vial_name(index, vial.number), content);
        }
        let name = format!("solution {index}");
        let content = mixed(bundle, index, solution);
        bundle.put("Medication", &name, content);
        made.push(bundle.to(&name));
    }
    made
}

/// A solution: how many units in how many millilitres, and what is in it.
fn mixed(bundle: &Bundle, index: usize, solution: &Solution) -> Value {
    let vial = |number| json!({ "itemReference": bundle.to(&vial_name(index, number)) });
    let mut ingredients: Vec<Value> =
        solution.vials.iter().map(|noted| vial(noted.number)).collect();
    if ingredients.is_empty() {
        ingredients.push(json!({ "itemCodeableConcept": text(ENZYME), "isActive": true }));
    }
    let diluent = text(solution.diluent.term());
    ingredients.push(json!({ "itemCodeableConcept": diluent, "isActive": false }));
    let made = solution.plan.delivered();
    json!({
        "code": text("Hyaluronidase, dissolved"),
        "form": text("Solution for injection"),
        "amount": { "numerator": units(made.units), "denominator": ml(made.volume) },
        "ingredient": ingredients,
    })
}

/// Which solutions were there for each round, by the order of the record: the one at hand when it
/// began, then those made while it ran.
fn at_hand(case: &Case, journal: &Journal) -> Vec<Vec<usize>> {
    let (mut made, mut running) = (0, false);
    let mut rounds: Vec<Vec<usize>> = Vec::new();
    for entry in case.standing(journal) {
        match entry.event() {
            Event::Preparation(_) => {
                if let Some(round) = rounds.last_mut().filter(|_| running) {
                    round.push(made);
                }
                made += 1;
            }
            Event::Round(Act::Begin(_) | Act::BeginOn(..)) => {
                rounds.push(made.checked_sub(1).into_iter().collect());
                running = true;
            }
            Event::Round(Act::Finish | Act::End(_)) => running = false,
            _ => {}
        }
    }
    rounds
}

/// The procedure as a whole, and each of its rounds.
pub(super) fn treatment(
    bundle: &mut Bundle,
    note: &Note,
    case: &Case,
    journal: &Journal,
    solutions: &[Value],
) {
    let status = match (note.rounds.is_empty(), note.end()) {
        (true, Some(_)) => "not-done",
        (true, None) => "preparation",
        (false, None) => "in-progress",
        (false, Some((_, End::Done | End::HandedOver(_)))) => "completed",
        (false, Some((_, End::Stopped))) => "stopped",
    };
    let places: Vec<Value> = note
        .rounds
        .iter()
        .filter_map(|given| given.territory.as_ref())
        .flat_map(Territory::zones)
        .collect::<std::collections::BTreeSet<_>>()
        .into_iter()
        .map(|zone| text(zone.term()))
        .collect();
    let begun =
        note.rounds.first().map(|given| period(given.round.begun, note.ended.map(|(at, _)| at)));
    let content = json!({
        "status": status,
        "code": text("Injection of hyaluronidase to dissolve hyaluronic acid filler"),
        "subject": bundle.patient(),
        "encounter": bundle.visit(),
        "performedPeriod": begun,
        "reasonCode": note.way.map(|(urgency, aim)| {
            let way = urgency.term();
            [text(aim.map_or_else(|| way.to_owned(), |aim| format!("{way}: {}", aim.term())))]
        }),
        "bodySite": places,
        "note": written(note),
        "outcome": note.end().map(|(_, end)| text(end.term())),
    });
    bundle.put("Procedure", "treatment", content);
    let hands = at_hand(case, journal);
    for (index, given) in note.rounds.iter().enumerate() {
        let hand = hands.get(index).map_or(&[][..], Vec::as_slice);
        round(bundle, index, given, hand, solutions);
    }
}

/// What was done otherwise than advised, and why; why the treatment was taken up again; then what was written down in free text.
fn written(note: &Note) -> Vec<Value> {
    let otherwise = note.overrides.iter().map(|(at, what, reason)| {
        (*at, format!("Otherwise than advised. {}: {reason}", what.term()))
    });
    let again = note
        .taken_up
        .iter()
        .map(|(at, reason)| (*at, format!("Treatment taken up again: {reason}")));
    let remarks = note.remarks.iter().cloned();
    otherwise
        .chain(again)
        .chain(remarks)
        .filter(|(_, text)| !text.trim().is_empty())
        .map(|(at, text)| json!({ "time": iso::utc(at), "text": text }))
        .collect()
}

fn round(bundle: &mut Bundle, index: usize, given: &Given, hand: &[usize], solutions: &[Value]) {
    let round = &given.round;
    let volume = round.volume();
    let status = match (round.finished, volume.is_zero()) {
        (None, _) => "in-progress",
        (Some(_), true) => "not-done",
        (Some(_), false) => "completed",
    };
    let points = round.points.iter().filter(|point| matches!(point, Point::Injected(_))).count();
    let dosage = json!({
        "text": format!("{} units in {volume} mL, at {points} points", round.units()),
        "route": text("Into the skin and below it"),
        "dose": units(round.units()),
    });
    let hand: Vec<&Value> = hand.iter().filter_map(|made| solutions.get(*made)).collect();
    let mut content = json!({
        "status": status,
        "subject": bundle.patient(),
        "context": bundle.visit(),
        "partOf": [bundle.to("treatment")],
        "effectivePeriod": period(round.begun, round.finished),
        "dosage": dosage,
        "supportingInformation": hand.get(1..).unwrap_or_default(),
    });
    match hand.first() {
        Some(first) => content["medicationReference"] = (*first).clone(),
        None => content["medicationCodeableConcept"] = text(ENZYME),
    }
    bundle.put("MedicationAdministration", &format!("round {index}"), content);
    if let Some(skin) = &given.territory {
        let content = json!({
            "status": "final",
            "code": text("Area of skin to be treated"),
            "subject": bundle.patient(),
            "encounter": bundle.visit(),
            "effectiveDateTime": iso::utc(round.begun),
            "valueQuantity": quantity(skin.area(), "cm²", "cm2"),
        });
        bundle.put("Observation", &format!("area {index}"), content);
    }
}

/// The skin test, as it was placed; what was seen of it is an observation.
pub(super) fn skin_test(bundle: &mut Bundle, note: &Note) {
    let Some(test) = &note.test else { return };
    let content = json!({
        "status": "completed",
        "medicationCodeableConcept": text(ENZYME),
        "subject": bundle.patient(),
        "context": bundle.visit(),
        "effectiveDateTime": iso::utc(test.at),
        "reasonCode": [text("Skin test")],
        "dosage": {
            "text": format!("{} units in {} mL", test.placed.dose, test.placed.volume),
            "route": text("Into the skin"),
            "dose": units(test.placed.dose),
        },
    });
    bundle.put("MedicationAdministration", "skin test", content);
}

/// What was given besides the enzyme, and for a severe reaction.
pub(super) fn besides(bundle: &mut Bundle, note: &Note) {
    for (index, chosen) in note.besides.iter().enumerate() {
        adjunct(bundle, &format!("besides {index}"), chosen);
    }
    for (index, (at, act)) in note.reaction.iter().enumerate() {
        let (drug, dosage) = match act {
            Reacting::Adrenaline(volume) => {
                // Of 1 mg/mL, as all tables here are: as many milligrams as millilitres.
                let dose = quantity(volume, "mg", "mg");
                let text_of = format!("{volume} mL of 1 mg/mL");
                let route = text("Into muscle");
                (
                    "Adrenaline (epinephrine) 1 mg/mL",
                    json!({ "text": text_of, "route": route, "dose": dose }),
                )
            }
            Reacting::Fluids => ("Fluids", Value::Null),
            _ => continue,
        };
        let content = json!({
            "status": "completed",
            "medicationCodeableConcept": text(drug),
            "subject": bundle.patient(),
            "context": bundle.visit(),
            "effectiveDateTime": iso::utc(*at),
            "reasonCode": [text("Severe reaction")],
            "dosage": dosage,
        });
        bundle.put("MedicationAdministration", &format!("reaction {index}"), content);
    }
}

fn adjunct(bundle: &mut Bundle, name: &str, chosen: &Chosen) {
    let (status, why) = match chosen.choice {
        Choice::Given(_) => ("completed", None),
        Choice::Stopped => ("stopped", None),
        Choice::Declined => ("not-done", Some("Declined")),
        Choice::NotPossible(why) => ("not-done", Some(why.term())),
    };
    let (what, at) = (text(chosen.adjunct.term()), iso::utc(chosen.at));
    let (subject, visit, why) = (bundle.patient(), bundle.visit(), why.map(text));
    match chosen.adjunct {
        Adjunct::Aspirin | Adjunct::Clopidogrel | Adjunct::Nitroglycerin => {
            let dosage = match chosen.choice {
                Choice::Given(Some(dose)) => Some(json!({ "dose": quantity(dose.0, "mg", "mg") })),
                _ => None,
            };
            let content = json!({
                "status": status,
                "statusReason": why.map(|why| [why]),
                "medicationCodeableConcept": what,
                "subject": subject,
                "context": visit,
                "effectiveDateTime": at,
                "dosage": dosage,
            });
            bundle.put("MedicationAdministration", name, content);
        }
        Adjunct::Warmth | Adjunct::Massage | Adjunct::Oxygen | Adjunct::Cold => {
            let content = json!({
                "status": status,
                "statusReason": why,
                "code": what,
                "subject": subject,
                "encounter": visit,
                "performedDateTime": at,
            });
            bundle.put("Procedure", name, content);
        }
    }
}
