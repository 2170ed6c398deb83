//! Codes on packs: whatever a reader hands on.

use freshet::kit::gs1::{Gtin, Misread, read};
use freshet::measure::Date;
use proptest::prelude::*;
use proptest::sample::Index;

const YEAR: i16 = 2026;

/// Signs of a code, for texts that come near to one.
fn near() -> impl Strategy<Value = String> {
    let bit = prop_oneof![
        4 => "[0-9]{1,8}",
        2 => prop::sample::select(&["01", "10", "17", "21", "11", "240", "3103", "7003", "99"][..])
            .prop_map(str::to_owned),
        2 => prop::sample::select(&["(01)", "(10)", "(17)", "(", ")", "]d2", "]C1", "]Q3"][..])
            .prop_map(str::to_owned),
        2 => Just("\u{1d}".to_owned()),
        1 => "[A-Za-z/%ä ]{1,6}",
        1 => any::<char>().prop_map(String::from),
    ];
    prop::collection::vec(bit, 0..14).prop_map(|bits| bits.concat())
}

/// Thirteen digits and the one that checks them, by the published rule: threes and ones from the right.
fn gtin() -> impl Strategy<Value = String> {
    prop::collection::vec(0_u32..10, 13).prop_map(|digits| {
        let sum: u32 = digits.iter().zip([3, 1].into_iter().cycle()).map(|(d, by)| d * by).sum();
        let check = (10 - sum % 10) % 10;
        digits.iter().chain([&check]).map(u32::to_string).collect()
    })
}

fn day() -> impl Strategy<Value = Date> {
    (2000_i16..2070, 1_i8..13, 1_i8..29)
        .prop_map(|(year, month, day)| Date::new(year, month, day).unwrap())
}

fn six(day: Date) -> String {
    format!("{:02}{:02}{:02}", day.year() % 100, day.month(), day.day())
}

proptest! {
    /// No text makes it panic, and what it does read keeps to the lengths laid down.
    #[test]
    fn no_text_makes_it_panic(text in prop_oneof![near(), any::<String>()], year in any::<i16>()) {
        if let Ok(pack) = read(&text, year) {
            prop_assert!(pack.gtin.is_some() || pack.batch.is_some() || pack.expiry.is_some());
            for field in pack.batch.iter().chain(&pack.serial) {
                prop_assert!((1..=20).contains(&field.chars().count()), "{:?}", field);
            }
        }
    }

    /// What is put on a pack is read from it, raw or in brackets, in whatever order.
    #[test]
    fn what_is_on_it_is_read(
        gtin in gtin(), batch in "[A-Za-z0-9./-]{1,20}", expiry in day(), serial in "[A-Z0-9]{1,20}",
        turn in 0_usize..4,
    ) {
        let mut fields =
            [("01", gtin.clone()), ("17", six(expiry)), ("10", batch.clone()), ("21", serial.clone())];
        fields.rotate_left(turn);
        let raw = fields.iter().flat_map(|(id, data)| [id, data.as_str(), "\u{1d}"]).collect::<String>();
        let printed =
            fields.iter().flat_map(|(id, data)| ["(", id, ")", data.as_str()]).collect::<String>();
        for text in [format!("]d2{raw}"), printed] {
            let pack = read(&text, YEAR);
            let pack = pack.map_err(|why| TestCaseError::fail(format!("{text:?}: {why:?}")))?;
            prop_assert_eq!(pack.gtin.as_ref().map(Gtin::as_str), Some(gtin.as_str()));
            prop_assert_eq!(pack.batch.as_deref(), Some(batch.as_str()));
            prop_assert_eq!(pack.expiry, Some(expiry));
            prop_assert_eq!(pack.serial.as_deref(), Some(serial.as_str()));
        }
    }

    /// One wrong digit in a trade item is always noticed.
    #[test]
    fn one_wrong_digit_is_refused(gtin in gtin(), at in any::<Index>(), by in 1_u32..10) {
        let mut digits: Vec<u32> = gtin.chars().filter_map(|digit| digit.to_digit(10)).collect();
        let at = at.index(digits.len());
        digits[at] = (digits[at] + by) % 10;
        let wrong: String = digits.iter().map(u32::to_string).collect();
        prop_assert_eq!(read(&format!("01{wrong}"), YEAR), Err(Misread::CheckDigit));
    }

    /// Cut anywhere, a code gives what stood before the cut or nothing; never something else.
    #[test]
    fn cut_short_it_says_nothing_new(gtin in gtin(), expiry in day(), at in any::<Index>()) {
        // With the sign of its symbol: thirteen digits alone may be the number under the bars.
        let whole = format!("]d201{gtin}17{}", six(expiry));
        let cut = &whole[..at.index(whole.len())];
        if let Ok(pack) = read(cut, YEAR) {
            prop_assert_eq!(pack.gtin.as_ref().map(Gtin::as_str), Some(gtin.as_str()));
            prop_assert_eq!(pack.expiry, None);
        }
    }
}
