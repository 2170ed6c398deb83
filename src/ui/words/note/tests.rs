//! The note of each sample case, as text.

use super::*;
use crate::protocol::diluent::Diluent;
use crate::record::samples::{all, occlusion};
use crate::ui::words::document::kept;

#[test]
fn notes_read_as_they_were_read_last() {
    for (name, told) in all() {
        kept(&format!("{name}-note"), &document(&told.note()).text());
    }
}

#[test]
fn what_was_struck_out_stands_as_struck_out_and_the_chain_with_its_digest() {
    let told = occlusion();
    let text = document(&told.note()).text();
    let struck: Vec<&str> =
        text.lines().filter(|line| line.contains("Colleague told by telephone")).collect();
    assert!(matches!(struck[..], [line] if line.starts_with("- [STRUCK OUT]")), "{struck:?}");
    let digest = told.journal.head().unwrap().short().to_string();
    assert!(text.contains(&digest), "{digest}");
}

#[test]
fn a_broken_chain_is_told() {
    let mut note = occlusion().note();
    assert!(!document(&note).text().contains("NOT whole"));
    note.chain.faults = vec![crate::case::Fault::Missing { seq: 3 }];
    assert!(document(&note).text().contains("NOT whole"));
}

#[test]
fn a_diluent_is_the_one_in_force_when_the_solution_was_drawn_up() {
    use crate::case::Event;
    let told = occlusion();
    let diluents = |after: fn(&Event) -> bool| -> Vec<Diluent> {
        let mut journal = crate::case::Journal::new(told.journal.case());
        for entry in told.journal.entries() {
            journal.append(entry.at(), entry.body().zone, entry.event().clone());
            if after(entry.event()) {
                journal.append(entry.at(), entry.body().zone, Event::Diluent(Diluent::Water));
            }
        }
        let case = crate::case::Case::of(&journal);
        let note = Note::of(&case, &journal, &[], told.note().printed, 0);
        note.solutions.iter().map(|made| made.diluent).collect()
    };
    let chosen = |event: &Event| matches!(event, Event::Preparation(_));
    assert_eq!(diluents(chosen), [Diluent::Water, Diluent::Water]);
    // Once it is drawn up, another diluent is for the next solution.
    let drawn = |event: &Event| matches!(event, Event::Round(crate::care::rounds::Act::Finish));
    assert_eq!(diluents(drawn), [Diluent::Saline, Diluent::Water]);
}
