//! Lines of the journal, and what folds from them: spoilt as they lie, and spoilt within a line that is
//! then sealed anew, so that the digest is right and the body is read.

use super::{fuzz, spoilt, texts};
use freshet::case::{Case, CaseId, Damage, Entry, Headline, Journal};
use freshet::measure::{Hash, Moment, Span};
use freshet::protocol::Protocol;
use freshet::record::note::Note;
use freshet::record::{fhir, label, lines, samples};
use freshet::rehearsal::Debrief;
use freshet::seal::Tries;
use freshet::store::archive::Archived;
use freshet::store::habits::Habits;
use proptest::prelude::*;
use proptest::sample::Index;
use serde::de::DeserializeOwned;

fn journals() -> Vec<Journal> {
    samples::all().into_iter().map(|(_, told)| told.journal).collect()
}

#[test]
fn lines_of_a_record() {
    let valid: Vec<String> = journals().iter().map(Journal::lines).collect();
    let valid = super::shortest(&valid);
    fuzz("records", texts(&valid), |text| {
        if let Ok(journals) = lines::read(&text) {
            let again: String = journals.iter().map(Journal::lines).collect();
            prop_assert_eq!(lines::read(&again), Ok(journals));
        }
        let id = journals_first();
        let archived = Archived::read(id, &text);
        prop_assert_eq!(archived.entries.len() + archived.damaged.len(), text.lines().count());
        let (journal, _) = archived.journal(id);
        let _ = Case::of(&journal).headline(&journal);
        Ok(())
    });
}

fn journals_first() -> CaseId {
    samples::occlusion().journal.case()
}

/// A body sealed by hand: whatever it says, its digest is right.
fn sealed(body: &str) -> String {
    format!("{} {body}", Hash::of(body.as_bytes()))
}

/// The case folds, and everything that is told of it is told, whatever stands in one entry.
#[test]
fn bodies_of_entries() {
    let journals = journals();
    let bodies: Vec<Vec<u8>> = journals
        .iter()
        .flat_map(Journal::entries)
        .map(|entry| entry.line().split_once(' ').unwrap().1.as_bytes().to_vec())
        .collect();
    let inputs = (spoilt(bodies), any::<Index>(), any::<Index>());
    fuzz("bodies of entries", inputs, |(body, journal, at)| {
        let body = String::from_utf8_lossy(&body);
        let entry = match Entry::read(&sealed(&body)) {
            Ok(entry) => entry,
            Err(why) => {
                prop_assert!(matches!(
                    why,
                    Damage::Newer(_) | Damage::Unreadable | Damage::NoDigest | Damage::Altered
                ));
                return Ok(());
            }
        };
        prop_assert_eq!(Entry::read(&entry.line()), Ok(entry.clone()));
        // In its own case, and put in the place of any entry of a case of the samples.
        let (own, _) = Journal::from_entries(entry.case(), vec![entry.clone()]);
        told(&own);
        let journal = journal.get(&journals);
        let mut entries = journal.entries().to_vec();
        let place = at.index(entries.len());
        let mut other = entry.body().clone();
        (other.case, other.seq) = (journal.case(), u32::try_from(place).unwrap_or(0));
        entries[place] = Entry::seal(other);
        let (journal, _) = Journal::from_entries(journal.case(), entries);
        told(&journal);
        Ok(())
    });
}

/// Everything that is made of a case.
fn told(journal: &Journal) {
    let case = Case::of(journal);
    for now in [case.last, case.last.after(Span::hours(30)), Moment::from_millis(0)] {
        let _ = (case.step(), case.in_reach(now), case.stop(), case.next_review());
        let _ = case.handover(journal, None, now);
    }
    let _ = (case.headline(journal), case.taken(journal), case.stock(journal, &[]));
    let _ = Note::of(&case, journal, &[], case.last, 60);
    let _ = (fhir::write(&case, journal, case.last), label::labels(&case, journal));
}

fn json<T: DeserializeOwned + serde::Serialize + PartialEq + std::fmt::Debug>(
    name: &str,
    valid: &[&str],
) {
    fuzz(name, texts(valid), |text| {
        if let Ok(read) = serde_json::from_str::<T>(&text) {
            let again = serde_json::to_string(&read).unwrap();
            prop_assert_eq!(serde_json::from_str::<T>(&again).unwrap(), read);
        }
        Ok(())
    });
}

/// What is no record and is kept beside it.
#[test]
fn what_lies_beside_the_record() {
    let told = samples::occlusion();
    let headline = serde_json::to_string(&told.case().headline(&told.journal)).unwrap();
    json::<Headline>("headlines", &[&headline]);
    json::<Habits>(
        "habits",
        &[
            "{}",
            r#"{"screen":"MaySleep","patience":"Long","tried":{"at":1795615500000,"late":0,"left":true,"noticed":"Heard"}}"#,
        ],
    );
    json::<Tries>("wrong passcodes", &[r#"{"wrong":3,"last":1795615500000}"#]);
    let protocol = serde_json::to_string(&Protocol::default()).unwrap();
    json::<Protocol>("values of a clinic", &[&protocol]);
    fuzz("debriefs", texts(&["{}", r#"{"findings":[]}"#]), |text| {
        let _ = serde_json::from_str::<Debrief>(&text);
        Ok(())
    });
    fuzz("waiting after wrong passcodes", any::<(u32, i64, i64)>(), |(wrong, last, now)| {
        let tries: Tries =
            serde_json::from_str(&format!(r#"{{"wrong":{wrong},"last":{last}}}"#)).unwrap();
        let now = Moment::from_millis(now);
        let _ = (tries.settled(now).wait(now), tries.wrong(now));
        Ok(())
    });
}
