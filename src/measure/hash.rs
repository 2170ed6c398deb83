//! SHA-256 (FIPS 180-4), as a value that prints and reads as hexadecimal.

use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};
use std::fmt;
use std::str::FromStr;

/// A SHA-256 digest.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(into = "String", try_from = "String")]
pub struct Hash([u8; 32]);

impl Hash {
    /// The digest of `bytes`.
    pub fn of(bytes: &[u8]) -> Self {
        Self(Sha256::digest(bytes).into())
    }

    /// The first eight hexadecimal digits: enough for two people to compare by eye.
    pub fn short(self) -> String {
        self.to_string()[..8].to_owned()
    }
}

impl fmt::Display for Hash {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().try_for_each(|byte| write!(f, "{byte:02x}"))
    }
}

impl fmt::Debug for Hash {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(self, f)
    }
}

impl From<Hash> for String {
    fn from(hash: Hash) -> Self {
        hash.to_string()
    }
}

impl FromStr for Hash {
    type Err = &'static str;

    /// Reads 64 hexadecimal digits, lower or upper case.
    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let wrong = "a SHA-256 digest has 64 hexadecimal digits";
        if text.len() != 64 || !text.bytes().all(|b| b.is_ascii_hexdigit()) {
            return Err(wrong);
        }
        let mut bytes = [0; 32];
        for (at, byte) in bytes.iter_mut().enumerate() {
            *byte = u8::from_str_radix(&text[2 * at..2 * at + 2], 16).map_err(|_| wrong)?;
        }
        Ok(Self(bytes))
    }
}

impl TryFrom<String> for Hash {
    type Error = &'static str;
    fn try_from(text: String) -> Result<Self, Self::Error> {
        text.parse()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_what_it_prints() {
        let hash = Hash::of(b"abc");
        assert_eq!(hash.to_string().parse(), Ok(hash));
        assert_eq!(hash.short(), "ba7816bf");
        assert!("ba78".parse::<Hash>().is_err());
        assert!("é".repeat(32).parse::<Hash>().is_err());
    }
}
