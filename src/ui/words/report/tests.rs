//! The report of each sample case, as text.

use super::*;
use crate::record::note::reported;
use crate::record::samples::{Told, all, anaphylaxis, occlusion, planned};
use crate::ui::words::document::kept;

fn text(told: &Told) -> Option<String> {
    let note = told.note();
    let reported = reported(&note);
    (!reported.is_empty()).then(|| document(&note, &reported, &Protocol::default()).text())
}

#[test]
fn reports_read_as_they_were_read_last() {
    for (name, told) in all() {
        kept(&format!("{name}-report"), text(&told).as_deref().unwrap_or(nothing()));
    }
}

#[test]
fn what_is_not_known_is_left_to_be_filled_in() {
    let text = text(&occlusion()).unwrap();
    for blank in ["Name and profession", "Product name", "Batch", "Amount injected"] {
        assert!(text.contains(&format!("- {blank}: ____")), "{blank} in {text}");
    }
    assert!(text.contains("batch DEMO-1"), "{text}");
}

#[test]
fn filler_to_be_taken_away_is_never_told_as_injected() {
    let mut note = planned().note();
    assert!(note.filler.is_some());
    note.way = Some((crate::care::allergy::Urgency::Urgent, None));
    let text = document(&note, &reported(&note), &Protocol::default()).text();
    let amounts: Vec<&str> = text.lines().filter(|line| line.contains("Amount")).collect();
    assert!(amounts.iter().all(|line| line.contains("____")), "{amounts:?}");
}

#[test]
fn only_what_the_record_shows_is_ticked() {
    let ticked = |told: &Told| {
        let text = text(told).unwrap();
        let lines = text.lines().filter(|line| line.starts_with("[x]"));
        lines.map(str::to_owned).collect::<Vec<_>>()
    };
    let serious = |lines: &[String]| lines.iter().any(|line| line.contains(important()));
    assert!(serious(&ticked(&anaphylaxis())));
    assert!(!serious(&ticked(&occlusion())));
    for line in ticked(&anaphylaxis()) {
        assert!(!super::serious().iter().any(|one| line.contains(one)), "{line}");
    }
}
