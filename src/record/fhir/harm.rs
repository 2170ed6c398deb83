//! Allergies that were told, and what of the case is an adverse event.

use super::{Bundle, coded, text};
use crate::care::allergy::Answer;
use crate::protocol::Protocol;
use crate::record::iso;
use crate::record::note::{Note, Reported, Seen, reported};
use serde_json::{Value, json};

/// Both. `solutions` are the references of what was made, which a reaction is suspected of.
pub(super) fn all(bundle: &mut Bundle, note: &Note, protocol: &Protocol, solutions: &[Value]) {
    if let Some(answers) = &note.answers {
        let told = [
            (answers.previous_reaction, "Hyaluronidase", "medication"),
            (answers.bee, "Bee venom", "environment"),
            (answers.wasp, "Wasp venom", "environment"),
        ];
        for (_, to, kind) in told.iter().filter(|(answer, ..)| *answer == Answer::Yes) {
            allergy(bundle, to, kind);
        }
    }
    for what in reported(note) {
        event(bundle, note, what, protocol, solutions);
    }
}

/// As the patient told it: nobody here has confirmed it.
fn allergy(bundle: &mut Bundle, to: &str, kind: &str) {
    let content = json!({
        "clinicalStatus": coded("allergyintolerance-clinical", "active"),
        "verificationStatus": coded("allergyintolerance-verification", "unconfirmed"),
        "type": "allergy",
        "category": [kind],
        "code": text(to),
        "patient": bundle.patient(),
        "encounter": bundle.visit(),
    });
    bundle.put("AllergyIntolerance", &format!("allergy {to}"), content);
}

fn event(
    bundle: &mut Bundle,
    note: &Note,
    what: Reported,
    protocol: &Protocol,
    solutions: &[Value],
) {
    // Called by what it is; severe reactions are suspected of the enzyme, never said to be of it.
    let (of, name, suspects): (&str, &str, Vec<Value>) = match what {
        Reported::Occlusion => {
            ("occlusion", "Suspected occlusion of an artery after filler", Vec::new())
        }
        Reported::Reaction => {
            ("reaction", "Severe reaction, suspected anaphylaxis", solutions.to_vec())
        }
        Reported::Test => {
            ("test", "Positive skin test with hyaluronidase", vec![bundle.to("skin test")])
        }
    };
    let outcome = match what.outcome(note, protocol) {
        Seen::Well(_) => "resolved",
        Seen::NotWell(_) => "ongoing",
        // Better, or taken over: which of the two is not told.
        Seen::Settled(_) | Seen::Unknown => "unknown",
    };
    let suspects: Vec<Value> =
        suspects.into_iter().map(|instance| json!({ "instance": instance })).collect();
    let content = json!({
        "actuality": "actual",
        "event": text(name),
        "subject": bundle.patient(),
        "encounter": bundle.visit(),
        "date": what.onset(note).map(iso::utc),
        "recordedDate": iso::utc(note.opened),
        "seriousness": what.important(note).then(|| coded("adverse-event-seriousness", "Serious")),
        "outcome": coded("adverse-event-outcome", outcome),
        "suspectEntity": suspects,
    });
    bundle.put("AdverseEvent", &format!("event {of}"), content);
}
