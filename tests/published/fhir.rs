//! Bundles against HL7 FHIR R4 (4.0.1), as far as a test without its validator can: what must be there,
//! which codes there are, where references lead. `tools/papers` has other readers go over the same cases.

use freshet::care::aftercare::{Damage, Review, Seen};
use freshet::care::allergy::{Answer, Answers};
use freshet::care::rounds::{Look, Pain};
use freshet::care::{adjunct, refill::Colour};
use freshet::case::{Case, CaseId, Event, Journal};
use freshet::measure::{Moment, Span};
use freshet::protocol::adjunct::Adjunct;
use freshet::record::{fhir, samples};
use serde_json::Value;
use std::collections::BTreeSet;

fn bundle(journal: &Journal) -> Value {
    let made = samples::START.after(Span::days(2));
    serde_json::from_str(&fhir::write(&Case::of(journal), journal, made)).unwrap()
}

fn all() -> Vec<(&'static str, Value)> {
    samples::all().into_iter().map(|(name, told)| (name, bundle(&told.journal))).collect()
}

fn resources(bundle: &Value) -> impl Iterator<Item = &Value> {
    bundle["entry"].as_array().unwrap().iter().map(|entry| &entry["resource"])
}

fn of<'a>(bundle: &'a Value, kind: &'a str) -> Vec<&'a Value> {
    resources(bundle).filter(|resource| resource["resourceType"] == kind).collect()
}

/// Each object in a part, the part itself first.
fn objects(part: &Value) -> Vec<&Value> {
    let inside: Vec<&Value> = match part {
        Value::Object(parts) => parts.values().collect(),
        Value::Array(parts) => parts.iter().collect(),
        _ => Vec::new(),
    };
    let own = part.is_object().then_some(part);
    own.into_iter().chain(inside.into_iter().flat_map(objects)).collect()
}

/// Source: hl7.org/fhir/R4, the pages of the resources: what has a cardinality from 1; one of several
/// where a choice of type stands.
const REQUIRED: [(&str, &[&[&str]]); 8] = [
    ("Patient", &[]),
    ("Encounter", &[&["status"], &["class"]]),
    ("Medication", &[]),
    ("Procedure", &[&["status"], &["subject"]]),
    (
        "MedicationAdministration",
        &[
            &["status"],
            &["medicationReference", "medicationCodeableConcept"],
            &["subject"],
            &["effectivePeriod", "effectiveDateTime"],
        ],
    ),
    ("Observation", &[&["status"], &["code"]]),
    ("AllergyIntolerance", &[&["patient"]]),
    ("AdverseEvent", &[&["actuality"], &["subject"]]),
];

#[test]
fn what_the_specification_requires_is_there() {
    let mut kinds = BTreeSet::new();
    for (name, bundle) in all() {
        assert_eq!(
            (&bundle["resourceType"], &bundle["type"]),
            (&"Bundle".into(), &"collection".into())
        );
        for resource in resources(&bundle) {
            let kind = resource["resourceType"].as_str().unwrap();
            let (kind, required) = REQUIRED.iter().find(|(known, _)| *known == kind).unwrap();
            for any in *required {
                assert!(any.iter().any(|part| !resource[part].is_null()), "{name}: {kind} {any:?}");
            }
            kinds.insert(*kind);
        }
    }
    // Each kind but the allergies, which no sample tells of.
    assert_eq!(kinds.len(), REQUIRED.len() - 1);
}

/// Source: hl7.org/fhir/R4, value sets event-status, medication-admin-status, observation-status,
/// encounter-status: those that are used here.
#[test]
fn statuses_are_of_their_value_sets() {
    for (name, bundle) in all() {
        for resource in resources(&bundle) {
            let allowed: &[&str] = match resource["resourceType"].as_str().unwrap() {
                "Procedure" => &["preparation", "in-progress", "not-done", "stopped", "completed"],
                "MedicationAdministration" => &["in-progress", "not-done", "completed", "stopped"],
                "Observation" => &["preliminary", "final"],
                "Encounter" => &["in-progress", "finished"],
                _ => continue,
            };
            assert!(allowed.contains(&resource["status"].as_str().unwrap()), "{name}: {resource}");
        }
    }
}

/// Source: hl7.org/fhir/R4/bundle.html, resolving references: a full URL names one resource, and a
/// reference leads to one by it. R4/datatypes.html: no element is empty.
#[test]
fn references_resolve_and_nothing_is_empty() {
    let mut followed = 0;
    for (name, bundle) in all() {
        let entries = bundle["entry"].as_array().unwrap();
        let urls: BTreeSet<&str> =
            entries.iter().map(|entry| entry["fullUrl"].as_str().unwrap()).collect();
        assert_eq!(urls.len(), entries.len(), "{name}");
        for entry in entries {
            let id = entry["resource"]["id"].as_str().unwrap();
            assert_eq!(entry["fullUrl"], format!("urn:uuid:{id}"));
        }
        for object in objects(&bundle) {
            for part in object.as_object().unwrap().values() {
                let empty = part.is_null()
                    || part.as_array().is_some_and(Vec::is_empty)
                    || part.as_object().is_some_and(serde_json::Map::is_empty)
                    || part.as_str().is_some_and(str::is_empty);
                assert!(!empty, "{name}: {object}");
            }
            if let Some(reference) = object.get("reference") {
                assert!(urls.contains(reference.as_str().unwrap()), "{name}: {reference}");
                followed += 1;
            }
        }
    }
    assert!(followed > 100);
}

/// Source: unitsofmeasure.org/ucum, tables 1 and 5, the one of clinical chemistry (`[arb'U]`, arbitrary:
/// not turned into any other), and 2.4 (curly braces).
/// hl7.org/fhir/R4/medicationadministration.html, mad-1: a dosage has a dose or a rate.
#[test]
fn amounts_are_numbers_in_units_of_ucum() {
    let mut units = BTreeSet::new();
    for (name, bundle) in all() {
        for object in objects(&bundle) {
            if object.get("system").is_some_and(|system| system == "http://unitsofmeasure.org") {
                assert!(object["value"].is_number(), "{name}: {object}");
                units.insert(object["code"].as_str().unwrap().to_owned());
            }
            if let Some(dosage) = object.get("dosage") {
                assert!(dosage["dose"]["value"].is_number(), "{name}: {object}");
            }
        }
    }
    assert_eq!(units, fhir::UNITS.map(str::to_owned).into_iter().collect());
    // Which units a vial's label counts is not recorded, so neither is claimed.
    assert!(["U", "[iU]", "[USP'U]"].iter().all(|claimed| !units.contains(*claimed)));
}

/// What the sample tells: 300 and 200 units planned at 500/mL, with a point left out and one left open.
#[test]
fn the_occlusion_says_what_was_done() {
    let told = samples::occlusion();
    let (case, bundle) = (told.case(), bundle(&told.journal));
    let given = of(&bundle, "MedicationAdministration");
    let rounds: Vec<&Value> =
        given.iter().filter(|one| !one["partOf"].is_null()).copied().collect();
    let units = |one: &Value| one["dosage"]["dose"]["value"].to_string();
    let expected: Vec<String> =
        case.treatment.rounds().iter().map(|round| round.units().to_string()).collect();
    assert_eq!(rounds.iter().copied().map(units).collect::<Vec<_>>(), expected);
    assert!(expected.iter().all(|units| units != "0") && expected.len() == 2);
    let aspirin = given.iter().find(|one| one["medicationCodeableConcept"]["text"] == "Aspirin");
    assert_eq!(aspirin.unwrap()["dosage"]["dose"]["value"], 300);
    let batches: Vec<&str> = of(&bundle, "Medication")
        .iter()
        .filter_map(|one| one["batch"]["lotNumber"].as_str())
        .collect();
    assert_eq!(batches, ["DEMO-1", "DEMO-1"]);
    // Three readings on each side, then two, three, and one at the review.
    let seen = of(&bundle, "Observation");
    let refill = |one: &&&Value| one["code"]["text"].as_str().unwrap().contains("refill");
    assert_eq!(seen.iter().filter(refill).count(), 2 * (3 + 2 + 3 + 1));
    assert!(seen.iter().filter(refill).all(|one| one["code"].get("coding").is_none()));
    assert!(seen.iter().any(|one| one["valueQuantity"]["value"] == 4.2));
    let event = of(&bundle, "AdverseEvent");
    assert_eq!(event.len(), 1);
    assert_eq!(event[0]["outcome"]["coding"][0]["code"], "resolved");
    let vials = of(&bundle, "Medication");
    assert!(vials.iter().any(|one| one["code"]["text"] == "Hyaluronidase, ovine"));
}

#[test]
fn an_occlusion_that_came_back_says_why_it_was_treated_again_and_what_is_left() {
    let bundle = bundle(&samples::came_back().journal);
    // A review noted pustules: not resolved, though the last look was well.
    let event = of(&bundle, "AdverseEvent");
    assert_eq!(event[0]["outcome"]["coding"][0]["code"], "ongoing");
    let treatment = of(&bundle, "Procedure");
    let notes = treatment[0]["note"].as_array().unwrap();
    let again = |note: &&Value| {
        note["text"].as_str().unwrap().starts_with("Treatment taken up again: Mottled again")
    };
    assert_eq!(notes.iter().filter(again).count(), 1);
    assert_eq!(treatment[0]["status"], "completed");
}

#[test]
fn a_reaction_and_a_positive_test_are_adverse_events() {
    let reacted = bundle(&samples::anaphylaxis().journal);
    let adrenaline: Vec<String> = of(&reacted, "MedicationAdministration")
        .iter()
        .filter(|one| one.to_string().contains("Adrenaline"))
        .map(|one| format!("{} {}", one["dosage"]["dose"]["value"], one["dosage"]["dose"]["code"]))
        .collect();
    assert_eq!(adrenaline, ["0.5 \"mg\"", "0.5 \"mg\""]);
    let events = of(&reacted, "AdverseEvent");
    assert_eq!(events.len(), 2);
    assert_eq!(events[0]["seriousness"]["coding"][0]["code"], "Serious");
    assert!(events[0]["suspectEntity"][0]["instance"]["reference"].is_string());
    let tested = bundle(&samples::tested().journal);
    let test = of(&tested, "AdverseEvent");
    assert_eq!(test[0]["event"]["text"], "Positive skin test with hyaluronidase");
    let wheal = of(&tested, "Observation");
    let wheal = wheal.iter().find(|one| one["valueQuantity"]["code"] == "mm").unwrap();
    assert_eq!(wheal["valueQuantity"]["value"], 12);
    assert_eq!(wheal["interpretation"][0]["coding"][0]["code"], "POS");
    assert!(of(&bundle(&samples::opened().journal), "AdverseEvent").is_empty());
}

/// Whatever is told, nobody is named; and a photo's digest is nowhere.
#[test]
fn nobody_is_named_and_no_photo_is_in_it() {
    let at = Moment::from_millis(0);
    let mut journal = Journal::new(CaseId::from_random(7));
    let photo = freshet::measure::Hash::of(b"a photo");
    let mut look = Look { photo: Some(photo), ..Look::of(Colour::Pale, Pain::NONE) };
    look.red_flags.clear();
    let answers = Answers {
        previous_reaction: Answer::Yes,
        bee: Answer::No,
        wasp: Answer::Yes,
        ..Answers::default()
    };
    journal.append(at, 0, Event::Asked(answers));
    let declined = adjunct::Act::Chose(Adjunct::Aspirin, adjunct::Choice::Declined);
    journal.append(at, 0, Event::Adjunct(declined));
    let damage = vec![Damage::Scar];
    let review = Review { seen: Seen::Remotely, look, damage, corrected: None };
    journal.append(at, 0, Event::Review(Box::new(review)));
    let bundle = bundle(&journal);
    let text = bundle.to_string();
    assert!(!text.contains(&photo.to_string()) && !text.contains(&photo.short()));
    let patient = of(&bundle, "Patient");
    let parts: Vec<&String> = patient[0].as_object().unwrap().keys().collect();
    assert_eq!(parts, ["gender", "id", "resourceType"]);
    let allergies = of(&bundle, "AllergyIntolerance");
    let to: Vec<&Value> = allergies.iter().map(|one| &one["code"]["text"]).collect();
    assert_eq!(to, ["Hyaluronidase", "Wasp venom"]);
    // hl7.org/fhir/R4/allergyintolerance.html, ait-1: told whether active, unless entered in error.
    assert!(allergies.iter().all(|one| !one["clinicalStatus"].is_null()));
    let declined = of(&bundle, "MedicationAdministration");
    assert_eq!(declined[0]["status"], "not-done");
    // Written again, the same.
    let again = fhir::write(&Case::of(&journal), &journal, samples::START.after(Span::days(2)));
    assert_eq!(serde_json::from_str::<Value>(&again).unwrap(), bundle);
}
