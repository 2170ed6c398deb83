//! How heavy somebody is.

use super::Typed;
use serde::{Deserialize, Serialize};

/// A mass in whole grams.
#[derive(
    Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize,
)]
#[serde(transparent)]
pub struct Mass(u64);

impl Mass {
    /// From grams.
    pub const fn grams(grams: u64) -> Self {
        Self(grams)
    }

    /// From whole kilograms.
    pub const fn kg(kilograms: u64) -> Self {
        Self(kilograms * 1_000)
    }

    /// In grams.
    pub const fn as_grams(self) -> u64 {
        self.0
    }
}

/// Kilograms, as a weight is typed.
impl Typed for Mass {
    const SUFFIXES: &'static [&'static str] = &["kg", "kilo", "kilos"];
    const DECIMALS: usize = 1;
    fn from_count(count: u64) -> Self {
        Self::grams(count.saturating_mul(100))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::Misread;

    #[test]
    fn kilograms_are_read() {
        assert_eq!(Mass::read("12,5 kg"), Ok(Mass::grams(12_500)));
        assert_eq!(Mass::read("70"), Ok(Mass::kg(70)));
        assert_eq!(Mass::read("70 lb"), Err(Misread::WrongUnit("lb".into())));
        assert_eq!(Mass::read("12.55"), Err(Misread::TooFine(1)));
    }
}
