//! From a passcode to a key, at a price: Argon2id, RFC 9106.

use argon2::{Algorithm, Argon2, Params, Version};
use serde::{Deserialize, Serialize};
use std::fmt;
use zeroize::Zeroizing;

/// The fewest characters of a passcode: fewer are tried out by hand.
pub const LEAST: usize = 6;

/// Bytes of a salt, as RFC 9106, 3.1, recommends.
pub(super) const SALT: usize = 16;

/// What one guess at a passcode costs. Kept with what it protects, so that it can rise later.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "Told", into = "Told")]
pub struct Cost {
    memory: u32,
    passes: u32,
    lanes: u32,
}

/// A cost as it is written down.
#[derive(Serialize, Deserialize)]
#[serde(rename_all = "camelCase")]
struct Told {
    kdf: Kdf,
    /// In KiB.
    memory: u32,
    passes: u32,
    lanes: u32,
}

/// The one way there is.
#[derive(Serialize, Deserialize)]
enum Kdf {
    #[serde(rename = "argon2id-19")]
    Argon2id,
}

/// This cost is out of bounds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CostError;

impl fmt::Display for CostError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a cost that no phone can pay, or none")
    }
}

impl std::error::Error for CostError {}

impl Cost {
    /// 19 MiB, two passes, one lane: what the OWASP Password Storage Cheat Sheet asks for at least.
    pub const OWASP: Self = Self { memory: 19 * 1024, passes: 2, lanes: 1 };

    /// From memory in KiB (8 for each lane to 262,144), passes over it (1 to 16) and lanes (1 to 4).
    ///
    /// # Errors
    /// [`CostError`] out of these bounds: more would stop a phone, and a file may say anything.
    pub const fn new(memory: u32, passes: u32, lanes: u32) -> Result<Self, CostError> {
        let pays = matches!(lanes, 1..=4) && matches!(passes, 1..=16);
        if pays && memory >= 8 * lanes && memory <= 256 * 1024 {
            Ok(Self { memory, passes, lanes })
        } else {
            Err(CostError)
        }
    }

    /// The key that a passcode gives with this salt.
    pub(super) fn key(self, passcode: &str, salt: &[u8; SALT]) -> Zeroizing<[u8; 32]> {
        let mut key = Zeroizing::new([0; 32]);
        let params = Params::new(self.memory, self.passes, self.lanes, Some(key.len()));
        let params = params.expect("the bounds of a cost are within those of Argon2");
        Argon2::new(Algorithm::Argon2id, Version::V0x13, params)
            .hash_password_into(passcode.as_bytes(), salt, key.as_mut_slice())
            .expect("a key of 32 bytes and a salt of 16 are within the bounds of Argon2");
        key
    }

    /// As it is bound to what it protects.
    pub(super) fn bound(self) -> String {
        format!("argon2id-19 {} {} {}", self.memory, self.passes, self.lanes)
    }
}

impl TryFrom<Told> for Cost {
    type Error = CostError;

    fn try_from(told: Told) -> Result<Self, CostError> {
        let Kdf::Argon2id = told.kdf;
        Self::new(told.memory, told.passes, told.lanes)
    }
}

impl From<Cost> for Told {
    fn from(Cost { memory, passes, lanes }: Cost) -> Self {
        Self { kdf: Kdf::Argon2id, memory, passes, lanes }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_cost_is_what_is_recommended_at_least() {
        assert_eq!(Cost::new(19_456, 2, 1), Ok(Cost::OWASP));
    }

    #[test]
    fn a_cost_that_no_phone_can_pay_is_refused() {
        for (memory, passes, lanes) in
            [(7, 1, 1), (8, 0, 1), (8, 1, 0), (15, 1, 2), (262_145, 1, 1), (64, 17, 1), (64, 1, 5)]
        {
            assert_eq!(
                Cost::new(memory, passes, lanes),
                Err(CostError),
                "{memory} {passes} {lanes}"
            );
        }
        assert!(Cost::new(262_144, 16, 4).is_ok());
    }

    #[test]
    fn a_cost_reads_as_it_was_written() {
        let text = serde_json::to_string(&Cost::OWASP).unwrap();
        assert_eq!(text, r#"{"kdf":"argon2id-19","memory":19456,"passes":2,"lanes":1}"#);
        assert_eq!(serde_json::from_str::<Cost>(&text).unwrap(), Cost::OWASP);
        let other = text.replace("argon2id", "argon2i");
        assert!(serde_json::from_str::<Cost>(&other).is_err());
        let dear = text.replace("19456", "4000000");
        assert!(serde_json::from_str::<Cost>(&dear).is_err());
    }
}
