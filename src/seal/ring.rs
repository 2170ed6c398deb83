//! The keys of a phone under its passcode, as a text that may lie open.

use super::keys::{Keys, Letterbox};
use super::passcode::{Cost, SALT};
use super::random::Random;
use base64ct::{Base64UrlUnpadded, Encoding};
use chacha20poly1305::XChaCha20Poly1305;
use chacha20poly1305::aead::{Aead, KeyInit, Payload};
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use std::fmt;
use x25519_dalek::PublicKey;
use zeroize::Zeroizing;

/// The form of a ring. A later form is refused by name.
const FORM: u32 = 1;

/// The keys, wrapped. The passcode's key opens nothing but this, so that another passcode changes
/// no record.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Ring {
    form: u32,
    cost: Cost,
    salt: Bytes<SALT>,
    public: Bytes<32>,
    nonce: Bytes<24>,
    wrapped: Bytes<80>,
}

/// Why a ring gives no keys.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RingError {
    /// The text is no ring.
    Unreadable,
    /// A later version of the app made it.
    Newer,
    /// Another passcode, or a ring that was altered: nobody can tell which.
    Wrong,
}

impl fmt::Display for RingError {
    /// For logs and error reports; screens word it themselves.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Unreadable => "not the keys of a phone",
            Self::Newer => "keys of a later version",
            Self::Wrong => "another passcode, or altered",
        })
    }
}

impl std::error::Error for RingError {}

impl Ring {
    /// New keys under a passcode.
    pub fn forge(passcode: &str, cost: Cost, random: &mut impl Random) -> (Self, Keys) {
        let keys = Keys::forge(random);
        (Self::of(&keys, passcode, cost, random), keys)
    }

    /// The same keys under a passcode, as when it is changed.
    pub fn of(keys: &Keys, passcode: &str, cost: Cost, random: &mut impl Random) -> Self {
        let mut ring = Self {
            form: FORM,
            cost,
            salt: Bytes(random.draw()),
            public: Bytes(keys.public().to_bytes()),
            nonce: Bytes(random.draw()),
            wrapped: Bytes([0; 80]),
        };
        let wrapped = ring.wrap(keys, passcode);
        ring.wrapped.0.copy_from_slice(&wrapped);
        ring
    }

    fn wrap(&self, keys: &Keys, passcode: &str) -> Vec<u8> {
        let (bytes, bound) = (keys.bytes(), self.bound());
        let payload = Payload { msg: bytes.as_slice(), aad: bound.as_bytes() };
        let sealed = self.cipher(passcode).encrypt(&self.nonce.0.into(), payload);
        sealed.expect("64 bytes are not too many")
    }

    /// The keys, if this is the passcode. Takes the time and the memory of [`Cost`].
    ///
    /// # Errors
    /// [`RingError::Wrong`] if it is not, or if the ring was altered.
    pub fn open(&self, passcode: &str) -> Result<Keys, RingError> {
        let bound = self.bound();
        let payload = Payload { msg: &self.wrapped.0, aad: bound.as_bytes() };
        let bytes = self.cipher(passcode).decrypt(&self.nonce.0.into(), payload);
        let bytes = Zeroizing::new(bytes.map_err(|_| RingError::Wrong)?);
        let bytes = bytes.as_slice().try_into().map_err(|_| RingError::Wrong)?;
        Ok(Keys::read(&Zeroizing::new(bytes)))
    }

    /// Whether these are the keys in it.
    pub fn is_of(&self, keys: &Keys) -> bool {
        self.public.0 == keys.public().to_bytes()
    }

    /// Whether the same keys are in another ring, perhaps under another passcode.
    pub fn shares_keys(&self, other: &Self) -> bool {
        self.public == other.public
    }

    /// Where to write while the keys are away.
    ///
    /// # Errors
    /// [`RingError::Wrong`] if the public key in it is none.
    pub fn letterbox(&self, random: &mut impl Random) -> Result<Letterbox, RingError> {
        Letterbox::to(PublicKey::from(self.public.0), random).map_err(|_| RingError::Wrong)
    }

    /// Reads a ring.
    ///
    /// # Errors
    /// [`RingError::Newer`] or [`RingError::Unreadable`].
    pub fn read(text: &str) -> Result<Self, RingError> {
        #[derive(Deserialize)]
        struct Head {
            form: u32,
        }
        let head: Head = serde_json::from_str(text).map_err(|_| RingError::Unreadable)?;
        if head.form > FORM {
            return Err(RingError::Newer);
        }
        serde_json::from_str(text).map_err(|_| RingError::Unreadable)
    }

    /// As a text, to be kept.
    ///
    /// # Panics
    /// Never: bytes and numbers are always JSON.
    pub fn text(&self) -> String {
        serde_json::to_string(self).expect("bytes and numbers")
    }

    fn cipher(&self, passcode: &str) -> XChaCha20Poly1305 {
        XChaCha20Poly1305::new((&*self.cost.key(passcode, &self.salt.0)).into())
    }

    /// Everything that stands open in the ring, so that none of it can be altered unseen.
    fn bound(&self) -> String {
        let (salt, public) = (self.salt.text(), self.public.text());
        format!("freshet ring {} {} {salt} {public}", self.form, self.cost.bound())
    }
}

/// Bytes that are written in base64.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Bytes<const N: usize>([u8; N]);

impl<const N: usize> Bytes<N> {
    fn text(self) -> String {
        Base64UrlUnpadded::encode_string(&self.0)
    }
}

impl<const N: usize> Serialize for Bytes<N> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.text())
    }
}

impl<'de, const N: usize> Deserialize<'de> for Bytes<N> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = String::deserialize(deserializer)?;
        let bytes = Base64UrlUnpadded::decode_vec(&text).ok();
        let bytes = bytes.and_then(|bytes| bytes.try_into().ok());
        bytes.map(Self).ok_or_else(|| serde::de::Error::custom("bytes in base64"))
    }
}
