//! What is written about a case, whatever happened in it and wherever its record breaks off.

use super::happened::{anything, journal};
use freshet::case::{Case, Event, Journal};
use freshet::measure::{Moment, Units, Volume};
use freshet::protocol::Protocol;
use freshet::record::label::labels;
use freshet::record::note::{Leaf, Note, reported};
use freshet::record::{fhir, file};
use proptest::prelude::*;
use serde_json::Value;
use std::collections::BTreeSet;

/// Each value in a part, the part itself first.
fn parts<'a>(part: &'a Value, all: &mut Vec<&'a Value>) {
    all.push(part);
    match part {
        Value::Object(inside) => inside.values().for_each(|one| parts(one, all)),
        Value::Array(inside) => inside.iter().for_each(|one| parts(one, all)),
        _ => {}
    }
}

fn empty(part: &Value) -> bool {
    match part {
        Value::Null => true,
        Value::String(text) => text.trim().is_empty(),
        Value::Array(inside) => inside.is_empty(),
        Value::Object(inside) => inside.is_empty(),
        Value::Bool(_) | Value::Number(_) => false,
    }
}

/// The same by a clock of that zone.
fn zoned(journal: &Journal, zone: i16) -> Journal {
    let mut zoned = Journal::new(journal.case());
    for entry in journal.entries() {
        zoned.append(entry.at(), zone, entry.event().clone());
    }
    zoned
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    /// A bundle is JSON in which no address stands twice, every reference leads somewhere and nothing
    /// is empty; and it is the same when it is written again.
    #[test]
    fn a_bundle_hangs_together(happenings in anything(), made in any::<i64>(), zone in any::<i16>()) {
        let journal = zoned(&journal(1, &happenings), zone);
        let (case, made) = (Case::of(&journal), Moment::from_millis(made));
        let text = fhir::write(&case, &journal, made);
        prop_assert_eq!(&text, &fhir::write(&case, &journal, made));
        let bundle: Value = serde_json::from_str(&text).unwrap();
        let entries = bundle["entry"].as_array().unwrap();
        let urls: BTreeSet<&str> =
            entries.iter().filter_map(|entry| entry["fullUrl"].as_str()).collect();
        prop_assert_eq!(urls.len(), entries.len(), "an address twice");
        let mut all = Vec::new();
        parts(&bundle, &mut all);
        for part in all {
            prop_assert!(!empty(part), "something is empty");
            if let Some(to) = part.get("reference") {
                prop_assert!(urls.contains(to.as_str().unwrap()), "{} leads nowhere", to);
            }
        }
        let rounds = entries.iter().map(|entry| &entry["resource"]);
        let rounds = rounds.filter(|one| !one["partOf"].is_null() && !one["dosage"].is_null());
        prop_assert_eq!(rounds.count(), case.treatment.rounds().len());
    }

    /// The facts of every paper, and the labels, add up to what the case counts.
    #[test]
    fn papers_add_up(happenings in anything(), printed in any::<i64>(), zone in any::<i16>()) {
        let journal = zoned(&journal(1, &happenings), zone);
        let case = Case::of(&journal);
        let note = Note::of(&case, &journal, &[], Moment::from_millis(printed), zone);
        prop_assert_eq!(note.units(), case.treatment.units());
        prop_assert_eq!(note.volume(), case.treatment.volume());
        let protocol = Protocol::default();
        prop_assert!(!Leaf::of(&note, &protocol).back.is_empty(), "a patient is told when to come");
        for what in reported(&note) {
            let (_, _) = (what.onset(&note), what.outcome(&note, &protocol));
        }
        let labels = labels(&case, &journal);
        let (mut units, mut volume) = (Units::ZERO, Volume::ZERO);
        for (number, label) in (1..).zip(&labels) {
            prop_assert_eq!((label.syringe, label.syringes), (number, labels.len()));
            units += label.contents.units;
            volume += label.contents.volume;
        }
        if let Some(made) = note.solutions.last() {
            let delivered = made.plan.delivered();
            prop_assert_eq!((units, volume), (delivered.units, delivered.volume));
        } else {
            prop_assert!(labels.is_empty());
        }
    }

    /// Wherever it breaks off, the file of a case is read as it was written; and why the treatment was
    /// taken up again is told as often as it was.
    #[test]
    fn any_case_is_read_again(happenings in anything()) {
        let journal = journal(1, &happenings);
        let text = file::write(&journal, Moment::from_millis(0));
        prop_assert_eq!(file::read(&text), Ok(vec![journal.clone()]));
        prop_assert_eq!(file::read(&journal.lines()), Ok(vec![journal.clone()]));
        let case = Case::of(&journal);
        let again = |event: &Event| matches!(event, Event::TakenUp { .. });
        let told = case.standing(&journal).filter(|entry| again(entry.event())).count();
        let note = Note::of(&case, &journal, &[], case.last, 0);
        prop_assert_eq!(note.taken_up.len(), told);
    }
}
