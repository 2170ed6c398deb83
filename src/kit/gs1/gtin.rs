//! The number of a trade item.

use serde::{Deserialize, Serialize};

/// A Global Trade Item Number: 14 digits, the last a check digit. Shorter ones are filled with noughts
/// from the left.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Gtin(String);

impl Gtin {
    /// Its length in digits.
    pub const DIGITS: usize = 14;

    /// Reads 8, 12, 13 or 14 digits; `None` for anything else, or where the check digit does not fit.
    pub fn new(digits: &str) -> Option<Self> {
        const LENGTHS: [usize; 4] = [8, 12, 13, Gtin::DIGITS];
        let numeric = digits.bytes().all(|digit| digit.is_ascii_digit());
        (numeric && LENGTHS.contains(&digits.len()) && check(digits))
            .then(|| Self(format!("{digits:0>width$}", width = Self::DIGITS)))
    }

    /// The digits.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

/// Whether the last digit makes the sum, weighted 1 and 3 from the right, a multiple of ten.
fn check(digits: &str) -> bool {
    let weighted = digits.bytes().rev().zip([1_u32, 3].into_iter().cycle());
    let sum: u32 = weighted.map(|(digit, weight)| u32::from(digit - b'0') * weight).sum();
    sum.is_multiple_of(10)
}

impl TryFrom<String> for Gtin {
    type Error = &'static str;
    fn try_from(text: String) -> Result<Self, Self::Error> {
        Self::new(&text).ok_or("no trade item has this number, or its check digit does not fit")
    }
}

impl From<Gtin> for String {
    fn from(gtin: Gtin) -> Self {
        gtin.0
    }
}
