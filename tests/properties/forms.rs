//! Journals as each earlier form of the app wrote them: they open, their chains are whole, and they
//! fold into what they say.
//!
//! The lines in `tests/fixtures/journals` were written by the code of their time, which was given the
//! sample cases and wrote of them what it knew: `form-1-first` before days were written as numbers,
//! `form-1` and `form-2` by the last that wrote these forms, `form-3` by the first that kept it here.
//! The case that came back ends in the first two forms where it ended first: they could not go on.
//! None of them is ever written anew; a new form gets a file of its own.

use freshet::case::{Case, CaseId, Entry, Event, Headline, Journal, SCHEMA};
use freshet::record::note::Note;
use freshet::record::{fhir, file, lines, samples};
use freshet::store::archive::Archived;
use std::collections::BTreeSet;

/// Each file, and the form that its entries say they are of.
const FORMS: [(&str, &str, u16); 4] = [
    ("form-1-first", include_str!("../fixtures/journals/form-1-first.txt"), 1),
    ("form-1", include_str!("../fixtures/journals/form-1.txt"), 1),
    ("form-2", include_str!("../fixtures/journals/form-2.txt"), 2),
    ("form-3", include_str!("../fixtures/journals/form-3.txt"), 3),
];

fn journals(name: &str, text: &str) -> Vec<Journal> {
    lines::read(text).unwrap_or_else(|why| panic!("{name}: {why}"))
}

#[test]
fn each_form_has_its_journals() {
    let forms: BTreeSet<u16> = FORMS.iter().map(|(_, _, form)| *form).collect();
    assert_eq!(forms, (1..=SCHEMA).collect(), "a form without journals of its time");
    for (name, text, form) in FORMS {
        assert!(text.lines().count() > 100, "{name}");
        for line in text.lines() {
            let entry = Entry::read(line).unwrap_or_else(|why| panic!("{name}: {why:?}\n{line}"));
            assert_eq!(entry.body().schema, form, "{name}");
            // Its text is kept as it was written: its digest is that of its time.
            assert_eq!(entry.line(), line, "{name}");
        }
    }
}

#[test]
fn each_opens_verifies_and_folds() {
    for (name, text, _) in FORMS {
        let read = journals(name, text);
        assert_eq!(
            read.iter().map(|journal| journal.entries().len()).sum::<usize>(),
            text.lines().count()
        );
        for journal in &read {
            let (again, faults) = Journal::from_entries(journal.case(), journal.entries().to_vec());
            assert_eq!((&again, faults.as_slice()), (journal, &[][..]), "{name}");
            let case = Case::of(journal);
            assert_eq!(case.refused, [], "{name}: an entry that fitted then does not now");
            // As a file, from the archive, and told to others.
            let copy = file::write(journal, case.last);
            assert_eq!(file::read(&copy).as_deref(), Ok(std::slice::from_ref(journal)), "{name}");
            assert!(
                Archived::read(journal.case(), &journal.lines()).whole(journal.case()),
                "{name}"
            );
            if journal.case().is_case() {
                let _ = Note::of(&case, journal, &[], case.last, 60);
                let _ = fhir::write(&case, journal, case.last);
                let headline = serde_json::to_string(&case.headline(journal)).unwrap();
                assert!(serde_json::from_str::<Headline>(&headline).is_ok(), "{name}");
            }
            // And it goes on in the form of today.
            let mut on = journal.clone();
            on.append(case.last, 60, Event::Note("later".to_owned()));
            assert_eq!(journals(name, &on.lines()), [on], "{name}");
        }
    }
}

fn taken_up(entry: &Entry) -> bool {
    matches!(entry.event(), Event::TakenUp { .. })
}

/// What was given, when, and from which vials is the same in every form that knew it.
#[test]
fn each_says_what_it_said() {
    for (name, text, form) in FORMS {
        let read = journals(name, text);
        for (sample, told) in samples::all() {
            let now = told.case();
            if form < 3 && told.journal.entries().iter().any(taken_up) {
                continue;
            }
            let find = |journal: &&Journal| journal.case() == now.id;
            let journal = read.iter().find(find).unwrap_or_else(|| panic!("{name}: no {sample}"));
            let then = Case::of(journal);
            let of = |case: &Case, journal: &Journal| {
                let rounds = case.treatment.rounds().iter();
                let rounds: Vec<_> = rounds.map(|round| (round.units(), round.volume())).collect();
                let doses = case.reaction.doses().to_vec();
                let findings = case.findings.clone();
                (
                    (case.reference.clone(), case.opened, findings, case.way, case.answers.clone()),
                    (rounds, doses, case.vials_opened),
                    case.batches(journal),
                )
            };
            assert_eq!(of(&then, journal), of(&now, &told.journal), "{name}: {sample}");
            let expiries = |journal: &Journal| -> Vec<_> {
                let vial = |entry: &Entry| match entry.event() {
                    Event::Vial(vial) => Some((vial.batch.clone(), vial.expiry)),
                    _ => None,
                };
                journal.entries().iter().filter_map(vial).collect()
            };
            assert_eq!(expiries(journal), expiries(&told.journal), "{name}: {sample}");
        }
    }
    // What later forms brought.
    let of = |place: usize, id: CaseId| {
        let read = journals(FORMS[place].0, FORMS[place].1);
        read.into_iter().find(|journal| journal.case() == id)
    };
    let contacts = |place| of(place, CaseId::CLINIC).map(|clinic| Case::of(&clinic).contacts.len());
    assert_eq!([0, 1, 2, 3].map(contacts), [None, Some(0), Some(1), Some(1)]);
    let kit = of(3, CaseId::KIT).expect("the kit");
    assert_eq!(kit.entries().len(), 3);
}
