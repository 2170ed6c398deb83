//! A case as a bundle of resources: HL7 FHIR R4 (4.0.1), a collection that stands for itself.
//!
//! Nobody is named: the patient is a number made from the case's own random one, and holds the sex
//! alone. What was written down in free text is in it as it was written. Ids are made from that number and from what they name, so that a bundle written again has the
//! same ones. Photos are not in it, and neither are their digests.
//!
//! What is meant is told by text. A code stands beside it only where one is known that means just this:
//! refill of skin has no code here, since the one there is means the nail bed. The texts are the form's
//! own terms, not the screen's words: they stay what they are when the screen's words change.
//!
//! | part | what it writes |
//! |---|---|
//! | `given` | vials and solutions, rounds, skin test, adrenaline, what was given besides |
//! | `seen` | refill, colour, pain and the rest, at each look and review |
//! | `harm` | allergies told, and what is an adverse event |
//! | `terms` | what things are called in it |

mod given;
mod harm;
mod seen;
mod terms;

use super::iso;
use super::note::Note;
use crate::care::refill::Sex;
use crate::care::rounds::End;
use crate::case::{Case, CaseId, Journal};
use crate::measure::{Hash, Moment, Units, Volume};
use serde_json::{Number, Value, json};
use std::fmt::Display;

/// The units of measure that a bundle may hold, by their UCUM codes.
///
/// The enzyme's units are `[arb'U]`, arbitrary ones: equal to nothing but themselves. A vial's label
/// counts international units, `[iU]`, or those of the USP, `[USP'U]`; the record does not hold which, so
/// neither is claimed, and the unit's name says that the label tells. `U` would be wrong in any case. It
/// is the enzyme unit of the katal's kind, a micromole of substrate in a minute, while hyaluronidase is
/// assayed against a reference preparation by what it does to a gel.
pub const UNITS: [&str; 8] = ["[arb'U]", "mL", "mg", "mm", "cm2", "s", "a", "{score}"];

/// Writes a case as a bundle, made at `made`.
pub fn write(case: &Case, journal: &Journal, made: Moment) -> String {
    let note = Note::of(case, journal, &[], made, 0);
    let mut bundle = Bundle { id: case.id, entries: Vec::new() };
    bundle.person(&note);
    bundle.encounter(&note);
    let solutions = given::medications(&mut bundle, &note);
    given::treatment(&mut bundle, &note, case, journal, &solutions);
    given::besides(&mut bundle, &note);
    given::skin_test(&mut bundle, &note);
    seen::all(&mut bundle, &note);
    harm::all(&mut bundle, &note, &case.protocol, &solutions);
    let bundle = json!({
        "resourceType": "Bundle",
        "id": bundle.uuid("bundle"),
        "type": "collection",
        "timestamp": iso::utc(made),
        "entry": bundle.entries,
    });
    bundle.to_string()
}

/// Resources as they are gathered.
struct Bundle {
    id: CaseId,
    entries: Vec<Value>,
}

impl Bundle {
    /// An id made from the case's and what it is of: RFC 9562, version 8, of a digest's first octets.
    fn uuid(&self, of: &str) -> String {
        let digest = Hash::of(format!("{} {of}", self.id).as_bytes()).to_string();
        let part = |from: usize, to: usize| &digest[from..to];
        format!(
            "{}-{}-8{}-a{}-{}",
            part(0, 8),
            part(8, 12),
            part(13, 16),
            part(17, 20),
            part(20, 32)
        )
    }

    /// A reference to what was, or will be, put in under this name.
    fn to(&self, name: &str) -> Value {
        json!({ "reference": format!("urn:uuid:{}", self.uuid(name)) })
    }

    /// Puts a resource in under a name of its own. What is null in it is not known, and left out.
    fn put(&mut self, kind: &str, name: &str, mut resource: Value) {
        let id = self.uuid(name);
        let url = format!("urn:uuid:{id}");
        resource["resourceType"] = kind.into();
        resource["id"] = id.into();
        if let Value::Object(parts) = &mut resource {
            parts.retain(|_, part| {
                !part.is_null() && part.as_array().is_none_or(|all| !all.is_empty())
            });
        }
        self.entries.push(json!({ "fullUrl": url, "resource": resource }));
    }

    fn patient(&self) -> Value {
        self.to("patient")
    }

    fn visit(&self) -> Value {
        self.to("encounter")
    }

    fn person(&mut self, note: &Note) {
        let person = note.findings.as_ref().map(|found| found.person).unwrap_or_default();
        let gender = person.sex.map_or("unknown", |sex| match sex {
            Sex::Female => "female",
            Sex::Male => "male",
        });
        self.put("Patient", "patient", json!({ "gender": gender }));
    }

    fn encounter(&mut self, note: &Note) {
        let end = note.closed.map(|(at, _)| iso::utc(at));
        let status = if end.is_some() { "finished" } else { "in-progress" };
        let identifier = (!note.reference.is_empty()).then(|| json!([{ "value": note.reference }]));
        let handed = note.end().is_some_and(|(_, end)| matches!(end, End::HandedOver(_)));
        let hospitalization =
            handed.then(|| json!({ "dischargeDisposition": text("Handed over to another team") }));
        let class = json!({
            "system": "http://terminology.hl7.org/CodeSystem/v3-ActCode",
            "code": "AMB",
            "display": "ambulatory",
        });
        let subject = self.patient();
        self.put(
            "Encounter",
            "encounter",
            json!({
                "status": status,
                "class": class,
                "identifier": identifier,
                "subject": subject,
                "period": period(note.opened, note.closed.map(|(at, _)| at)),
                "hospitalization": hospitalization,
            }),
        );
    }
}

/// What is meant, by text alone.
fn text(text: impl Into<String>) -> Value {
    json!({ "text": text.into() })
}

/// A code of one of the specification's own lists.
fn coded(system: &str, code: &str) -> Value {
    let system = format!("http://terminology.hl7.org/CodeSystem/{system}");
    json!({ "coding": [{ "system": system, "code": code }] })
}

/// From a moment to another, if it is over. Never back: a clock that was set back has no end to tell.
fn period(start: Moment, end: Option<Moment>) -> Value {
    match end.filter(|end| *end >= start) {
        Some(end) => json!({ "start": iso::utc(start), "end": iso::utc(end) }),
        None => json!({ "start": iso::utc(start) }),
    }
}

/// A quantity: what an amount prints, in one of [`UNITS`].
fn quantity(value: impl Display, unit: &str, code: &str) -> Value {
    let value: Option<Number> = value.to_string().parse().ok();
    json!({ "value": value, "unit": unit, "system": "http://unitsofmeasure.org", "code": code })
}

fn units(units: Units) -> Value {
    quantity(units, "units as the vial's label counts them", "[arb'U]")
}

fn ml(volume: Volume) -> Value {
    quantity(volume, "mL", "mL")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ids_are_made_from_the_case_and_are_uuids() {
        let bundle = |id| Bundle { id: CaseId::from_random(id), entries: Vec::new() };
        let id = bundle(1).uuid("patient");
        assert_eq!(id, bundle(1).uuid("patient"));
        assert_ne!(id, bundle(2).uuid("patient"));
        assert_ne!(id, bundle(1).uuid("encounter"));
        let lengths: Vec<usize> = id.split('-').map(str::len).collect();
        assert_eq!(lengths, [8, 4, 4, 4, 12]);
        assert_eq!((&id[14..15], &id[19..20]), ("8", "a"));
    }

    #[test]
    fn amounts_are_decimals_as_they_print() {
        assert_eq!(quantity(Volume::ul(1_250), "mL", "mL")["value"].to_string(), "1.25");
        assert_eq!(units(Units::whole(1_500))["value"].to_string(), "1500");
        assert_eq!(units(Units::milli(1))["value"].to_string(), "0.001");
    }
}
