//! Texts and bytes under a key: what lies on a phone behind a passcode, and a backup that leaves it.
//!
//! | part | what it does |
//! |---|---|
//! | [`Tries`] | how long to wait after wrong ones |
//! | [`Cost`] | how hard a passcode is to guess (Argon2id) |
//! | [`Ring`] | the keys of a phone, wrapped under its passcode; may lie open |
//! | [`Keys`] | opens and seals all that the phone keeps |
//! | [`Letterbox`] | seals without a passcode: what only [`Keys`] open again |
//! | [`age`] | a file under a passphrase, in the open format of that name |
//!
//! Nothing here invents cryptography. Passcodes go through Argon2id (RFC 9106), texts through
//! XChaCha20-Poly1305, which is RFC 8439's ChaCha20-Poly1305 with a nonce long enough to be drawn at
//! random; what is sealed while the phone is locked goes to an X25519 key (RFC 7748) by HKDF
//! (RFC 5869). All of it is other people's code, tested here against the documents' own vectors.
//!
//! Nothing here draws random numbers either: they are handed in, see [`Random`].

pub mod age;
mod keys;
mod passcode;
mod patience;
pub mod random;
mod ring;

pub use keys::{Broken, Keys, Letterbox, are_sealed, is_letter, is_sealed};
pub use passcode::{Cost, CostError, LEAST};
pub use patience::Tries;
pub use random::Random;
pub use ring::{Ring, RingError};

#[cfg(test)]
mod tests;
#[cfg(test)]
mod vectors;
