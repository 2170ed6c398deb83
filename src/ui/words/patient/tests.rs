//! The sheet of each sample case, as text.

use super::*;
use crate::case::Number;
use crate::protocol::Protocol;
use crate::record::samples::{Told, all, occlusion, planned, tested};
use crate::ui::words::document::kept;

fn numbers() -> Vec<Contact> {
    let contact = |role, name: &str, number| Contact {
        role,
        name: name.to_owned(),
        number: Number::new(number).unwrap(),
    };
    vec![contact(Role::Emergency, "", "000"), contact(Role::Clinic, "Demo Clinic", "000 000 001")]
}

fn text(told: &Told, numbers: &[Contact]) -> String {
    let note = told.note();
    document(&note, &Leaf::of(&note, &Protocol::default()), numbers).text()
}

#[test]
fn sheets_read_as_they_were_read_last() {
    for (name, told) in all() {
        kept(&format!("{name}-patient"), &text(&told, &numbers()));
    }
}

#[test]
fn a_number_that_is_not_set_is_a_line_to_write_on() {
    let bare = text(&occlusion(), &[]);
    assert!(bare.contains("- Us: ____") && bare.contains("- Ambulance: ____"), "{bare}");
    assert_eq!(missing(&[]), Some(no_clinic()));
    assert_eq!(missing(&numbers()[1..]), Some(no_emergency()));
    assert_eq!(missing(&numbers()), None);
    let set = text(&occlusion(), &numbers());
    assert!(set.contains("- Us, Demo Clinic: 000 000 001"), "{set}");
    assert!(
        set.lines()
            .filter(|line| line.contains("____"))
            .eq(["- Your name: ______________________________"]),
        "{set}"
    );
}

#[test]
fn no_hours_are_promised_that_no_clinic_confirmed() {
    for (name, told) in all() {
        let text = text(&told, &numbers()).to_lowercase();
        for promise in ["night", "24", "always", "any time"] {
            assert!(!text.contains(promise), "{name} promises {promise:?}");
        }
    }
}

#[test]
fn each_claim_says_how_well_it_is_founded() {
    for told in [occlusion(), planned(), tested()] {
        let note = told.note();
        let leaf = Leaf::of(&note, &Protocol::default());
        let all = founded(&note, &leaf);
        let claims = leaf.watch.len() + leaf.back.len() + leaf.avoid.len();
        assert!(all.len() > claims, "the hospital is a claim too");
        assert!(all.iter().all(|one| !one.status.is_empty()));
    }
}
