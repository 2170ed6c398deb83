//! Random bits from the browser's own generator.

use super::js::window;
use crate::seal::Random;
use std::fmt;

/// The browser has no generator that deserves the name; nothing is invented in its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NoRandomness;

impl fmt::Display for NoRandomness {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("the browser gives no random bits")
    }
}

impl std::error::Error for NoRandomness {}

/// 128 random bits: enough to name a case on any phone and never name another.
///
/// # Errors
/// [`NoRandomness`] when the browser gives none.
pub fn bits() -> Result<u128, NoRandomness> {
    let mut bytes = [0; 16];
    window()
        .and_then(|window| window.crypto().ok())
        .ok_or(NoRandomness)?
        .get_random_values_with_u8_array(&mut bytes)
        .map_err(|_| NoRandomness)?;
    Ok(u128::from_be_bytes(bytes))
}

/// The browser's generator, for what is sealed.
#[derive(Clone, Copy, Debug)]
pub struct Dice;

impl Random for Dice {
    /// # Panics
    /// If the browser gives no random bits: nothing is sealed with what anybody could foretell. Whether
    /// it gives any is asked by [`bits`] before a passcode is set.
    fn fill(&mut self, bytes: &mut [u8]) {
        window()
            .and_then(|window| window.crypto().ok())
            .and_then(|crypto| crypto.get_random_values_with_u8_array(bytes).ok())
            .expect("random bits from the browser");
    }
}
