//! What people type, what a pack says, what an address names.

use super::{fuzz, texts};
use freshet::case::{CaseId, Number, Reference, Search};
use freshet::kit::gs1::{self, Gtin};
use freshet::kit::read_expiry;
use freshet::measure::{Area, Hash, Length, Mass, Span, Strength, Typed, Units, Volume};
use freshet::store::Key;
use proptest::prelude::*;

const QUANTITIES: &[&str] = &[
    "0.1",
    ".1",
    "0,125",
    "1 500 IU",
    "1,500",
    "37.5 u/ml",
    "3,4 s",
    "12.4 cm²",
    "10 mm",
    "70 kg",
    "99999999999",
    "-0.1",
    "1\u{202f}500.25 units",
    "0.0001",
    "500 units/mL",
    "1.2.3",
    "−5",
];

fn quantity<T: Typed + std::fmt::Debug>(name: &str) {
    fuzz(name, texts(QUANTITIES), |text| {
        let _ = T::read(&text);
        Ok(())
    });
}

#[test]
fn quantities() {
    quantity::<Units>("units");
    quantity::<Volume>("volumes");
    quantity::<Strength>("strengths");
    quantity::<Area>("areas");
    quantity::<Length>("lengths");
    quantity::<Span>("spans");
    quantity::<Mass>("masses");
    quantity::<u32>("counts");
}

#[test]
fn what_is_searched_for() {
    let typed = ["DEMO 1", "25.11.2026", "2026-11", "11/2026", "LOT-7 A", "2026", "5 Nov"];
    fuzz("searches", texts(&typed), |text| {
        let _ = Search::read(&text);
        Ok(())
    });
}

#[test]
fn expiry_dates() {
    let typed = ["11/2027", "2027-11", "30.11.2027", "1127", "nov 2027", "2027-11-30", "11.27"];
    fuzz("expiry dates", texts(&typed), |text| {
        let _ = read_expiry(&text);
        Ok(())
    });
}

#[test]
fn codes_on_packs() {
    let codes = [
        "]d2010950600013436717271130 10LOT7",
        "(01)09506000134367(17)271130(10)LOT-7(21)S1",
        "01095060001343671727113010LOT7\u{1d}21S1",
        "9506000134352",
        "310300123\u{1d}7003260101",
    ];
    fuzz("codes on packs", (texts(&codes), any::<i16>()), |(text, year)| {
        let _ = gs1::read(&text, year);
        if let Some(gtin) = Gtin::new(&text) {
            prop_assert_eq!(Gtin::new(gtin.as_str()), Some(gtin.clone()));
        }
        Ok(())
    });
}

#[test]
fn numbers_to_call_and_references() {
    let typed = [" +44 (0)20 7946-0958 ", "*31#0123", "112", "(0) 20 7946 0958", "DEMO 1", "A/7-b"];
    fuzz("numbers and references", texts(&typed), |text| {
        if let Ok(number) = Number::new(&text) {
            prop_assert_eq!(Number::new(number.as_str()), Ok(number.clone()));
            let dialled = number.uri();
            let digits = dialled.strip_prefix("tel:").unwrap_or_default();
            let fits = |sign: char| sign.is_ascii_digit() || "+*%".contains(sign);
            prop_assert!(digits.chars().all(fits), "{}", dialled);
        }
        if let Some(reference) = Reference::new(&text) {
            prop_assert_eq!(Reference::new(reference.as_str()), Some(reference.clone()));
        }
        Ok(())
    });
}

#[test]
fn names_of_cases_digests_and_lines() {
    let case = CaseId::from_random(7).to_string();
    let digest = Hash::of(b"a").to_string();
    let entry = format!("freshet/entry/{case}/000001/{}", &digest[..16]);
    let aside = format!("freshet/aside/{}/{case}/000001/{}", &digest[..16], &digest[..16]);
    fuzz("names", texts(&[&case, &digest, &entry, &aside]), |text| {
        if let Ok(id) = text.parse::<CaseId>() {
            prop_assert_eq!(id.to_string().parse(), Ok(id));
        }
        if let Ok(hash) = text.parse::<Hash>() {
            prop_assert_eq!(hash.to_string().parse::<Hash>().ok(), Some(hash));
        }
        if let Some(key) = Key::read(&text) {
            let _ = (key.case(), key.is_aside());
            prop_assert_eq!(key.origin().origin(), key.origin());
            prop_assert_eq!(key.as_str(), text);
        }
        Ok(())
    });
}
