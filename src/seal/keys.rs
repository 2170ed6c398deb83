//! The keys of a phone, and the letterbox for what is written while they are away.
//!
//! Sealed bytes begin with four that say how they were sealed:
//!
//! - `FRK1`, nonce (24), text: XChaCha20-Poly1305 under the data key;
//! - `FRL1`, a passing public key (32), the letter key wrapped (32 + 16), nonce (24), text: under the
//!   letter key, which only who holds the phone's secret key can unwrap.
//!
//! Each is bound to the place where it lies, so that it cannot be put elsewhere unseen.

use super::random::Random;
use base64ct::{Base64UrlUnpadded, Encoding};
use chacha20poly1305::aead::{Aead, KeyInit, Payload};
use chacha20poly1305::{ChaCha20Poly1305, XChaCha20Poly1305};
use hkdf::Hkdf;
use hmac::{Hmac, Mac};
use sha2::Sha256;
use std::fmt;
use x25519_dalek::{PublicKey, SharedSecret, StaticSecret};
use zeroize::Zeroizing;

const KEYED: &[u8; 4] = b"FRK1";
const LETTER: &[u8; 4] = b"FRL1";
/// What a sealed text begins with; no line of a journal does.
const SEALED: &str = "sealed:";

const KEY: usize = 32;
const TAG: usize = 16;
const NONCE: usize = 24;
/// What a letter carries before its nonce: how to unwrap its key.
const ENVELOPE: usize = 4 + KEY + KEY + TAG;

/// What lies here was not sealed with these keys for this place, or was altered since.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Broken;

impl fmt::Display for Broken {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("not sealed with this key for this place, or altered since")
    }
}

impl std::error::Error for Broken {}

/// Whether a text is a sealed one.
pub fn is_sealed(text: &str) -> bool {
    text.starts_with(SEALED)
}

/// Whether bytes are sealed ones. No picture begins so.
pub fn are_sealed(bytes: &[u8]) -> bool {
    bytes.starts_with(KEYED) || bytes.starts_with(LETTER)
}

/// Whether a text was sealed without the keys, and is better sealed anew with them.
pub fn is_letter(text: &str) -> bool {
    unwritten(text).is_ok_and(|bytes| bytes.starts_with(LETTER))
}

/// All that is needed to open and to seal what a phone keeps. Not to be had without its passcode.
pub struct Keys {
    data: Zeroizing<[u8; KEY]>,
    secret: StaticSecret,
}

impl Keys {
    /// New keys that never were before.
    pub(super) fn forge(random: &mut impl Random) -> Self {
        Self::read(&Zeroizing::new(random.draw()))
    }

    pub(super) fn read(bytes: &Zeroizing<[u8; 2 * KEY]>) -> Self {
        let mut data = Zeroizing::new([0; KEY]);
        let mut secret = Zeroizing::new([0; KEY]);
        data.copy_from_slice(&bytes[..KEY]);
        secret.copy_from_slice(&bytes[KEY..]);
        Self { data, secret: StaticSecret::from(*secret) }
    }

    pub(super) fn bytes(&self) -> Zeroizing<[u8; 2 * KEY]> {
        let mut bytes = Zeroizing::new([0; 2 * KEY]);
        bytes[..KEY].copy_from_slice(&*self.data);
        bytes[KEY..].copy_from_slice(self.secret.as_bytes());
        bytes
    }

    pub(super) fn public(&self) -> PublicKey {
        PublicKey::from(&self.secret)
    }

    /// Seals bytes for a place.
    pub fn seal(&self, place: &str, bytes: &[u8], random: &mut impl Random) -> Vec<u8> {
        put(&self.data, KEYED, place, bytes, random)
    }

    /// Opens what these keys sealed for this place, or a letter to them.
    ///
    /// # Errors
    /// [`Broken`] when it is neither.
    pub fn open(&self, place: &str, sealed: &[u8]) -> Result<Vec<u8>, Broken> {
        if sealed.starts_with(KEYED) {
            return take(&self.data, KEYED, place, sealed);
        }
        let envelope = sealed.get(..ENVELOPE).ok_or(Broken)?;
        let passing: [u8; KEY] = envelope[LETTER.len()..][..KEY].try_into().map_err(|_| Broken)?;
        let passing = PublicKey::from(passing);
        let wrap = wrapping(&self.secret.diffie_hellman(&passing), passing, self.public())?;
        let key = cipher(&wrap).decrypt(&[0; 12].into(), &envelope[LETTER.len() + KEY..]);
        let key = Zeroizing::new(key.map_err(|_| Broken)?.try_into().map_err(|_| Broken)?);
        take(&key, envelope, place, sealed)
    }

    /// Seals a text for a place.
    pub fn seal_text(&self, place: &str, text: &str, random: &mut impl Random) -> String {
        written(&self.seal(place, text.as_bytes(), random))
    }

    /// Opens a text that these keys sealed for this place, or a letter to them.
    ///
    /// # Errors
    /// [`Broken`] when it is neither.
    pub fn open_text(&self, place: &str, sealed: &str) -> Result<String, Broken> {
        String::from_utf8(self.open(place, &unwritten(sealed)?)?).map_err(|_| Broken)
    }

    /// A name for `text` that nobody can guess at without the keys: 16 hexadecimal digits.
    pub fn name(&self, text: &str) -> String {
        let digest = keyed(&self.data, &["freshet name 1 ", text]);
        format!("{:016x}", u64::from_be_bytes(digest))
    }
}

impl fmt::Debug for Keys {
    /// Keys are shown to nobody.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("Keys")
    }
}

/// Seals for a phone whose keys are away. Only the keys open it; the letterbox itself opens what it
/// sealed as long as it is in memory.
pub struct Letterbox {
    envelope: [u8; ENVELOPE],
    key: Zeroizing<[u8; KEY]>,
}

impl Letterbox {
    pub(super) fn to(public: PublicKey, random: &mut impl Random) -> Result<Self, Broken> {
        let key = Zeroizing::new(random.draw());
        let secret = StaticSecret::from(random.draw());
        let passing = PublicKey::from(&secret);
        let wrap = wrapping(&secret.diffie_hellman(&public), passing, public)?;
        // This key wraps nothing else ever, so that the nonce need not differ.
        let wrapped = cipher(&wrap).encrypt(&[0; 12].into(), key.as_slice()).map_err(|_| Broken)?;
        let mut envelope = [0; ENVELOPE];
        let (kind, rest) = envelope.split_at_mut(LETTER.len());
        let (to, rest) = rest.split_at_mut(KEY);
        kind.copy_from_slice(LETTER);
        to.copy_from_slice(passing.as_bytes());
        rest.copy_from_slice(&wrapped);
        Ok(Self { envelope, key })
    }

    /// Seals a text for a place.
    pub fn seal_text(&self, place: &str, text: &str, random: &mut impl Random) -> String {
        written(&self.seal(place, text.as_bytes(), random))
    }

    /// Seals bytes for a place.
    pub fn seal(&self, place: &str, bytes: &[u8], random: &mut impl Random) -> Vec<u8> {
        put(&self.key, &self.envelope, place, bytes, random)
    }

    /// Opens a text that this very letterbox sealed for this place.
    ///
    /// # Errors
    /// [`Broken`] when it did not.
    pub fn open_text(&self, place: &str, sealed: &str) -> Result<String, Broken> {
        String::from_utf8(self.open(place, &unwritten(sealed)?)?).map_err(|_| Broken)
    }

    /// Opens bytes that this very letterbox sealed for this place.
    ///
    /// # Errors
    /// [`Broken`] when it did not.
    pub fn open(&self, place: &str, sealed: &[u8]) -> Result<Vec<u8>, Broken> {
        take(&self.key, &self.envelope, place, sealed)
    }
}

impl fmt::Debug for Letterbox {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("Letterbox")
    }
}

fn put(
    key: &[u8; KEY],
    head: &[u8],
    place: &str,
    bytes: &[u8],
    random: &mut impl Random,
) -> Vec<u8> {
    let nonce: [u8; NONCE] = random.draw();
    let payload = Payload { msg: bytes, aad: &bound(head, place) };
    let text = XChaCha20Poly1305::new(key.into()).encrypt(&nonce.into(), payload);
    let text = text.expect("a text far shorter than 256 GiB");
    [head, &nonce, &text].concat()
}

fn take(key: &[u8; KEY], head: &[u8], place: &str, sealed: &[u8]) -> Result<Vec<u8>, Broken> {
    let rest = sealed.strip_prefix(head).ok_or(Broken)?;
    let (nonce, text) = rest.split_first_chunk::<NONCE>().ok_or(Broken)?;
    let payload = Payload { msg: text, aad: &bound(head, place) };
    XChaCha20Poly1305::new(key.into()).decrypt(nonce.into(), payload).map_err(|_| Broken)
}

/// What a text is bound to besides its key.
fn bound(head: &[u8], place: &str) -> Vec<u8> {
    [head, place.as_bytes()].concat()
}

/// The key that wraps a letter's, from what the two sides share.
fn wrapping(
    shared: &SharedSecret,
    passing: PublicKey,
    public: PublicKey,
) -> Result<Zeroizing<[u8; KEY]>, Broken> {
    // A public key of low order would give everybody the same.
    if !shared.was_contributory() {
        return Err(Broken);
    }
    let salt = [passing.to_bytes(), public.to_bytes()].concat();
    let mut key = Zeroizing::new([0; KEY]);
    Hkdf::<Sha256>::new(Some(&salt), shared.as_bytes())
        .expand(b"freshet letter 1", key.as_mut_slice())
        .map_err(|_| Broken)?;
    Ok(key)
}

/// Eight bytes that follow from a text and a key.
fn keyed(key: &[u8; KEY], texts: &[&str]) -> [u8; 8] {
    let mac = <Hmac<Sha256> as KeyInit>::new_from_slice(key);
    let mut mac = mac.expect("a key of any length will do");
    for text in texts {
        mac.update(text.as_bytes());
    }
    let digest: [u8; 32] = mac.finalize().into_bytes().into();
    let (first, _) = digest.split_first_chunk().expect("32 bytes hold eight");
    *first
}

fn cipher(key: &[u8; KEY]) -> ChaCha20Poly1305 {
    ChaCha20Poly1305::new(key.into())
}

fn written(sealed: &[u8]) -> String {
    SEALED.to_owned() + &Base64UrlUnpadded::encode_string(sealed)
}

fn unwritten(text: &str) -> Result<Vec<u8>, Broken> {
    let text = text.strip_prefix(SEALED).ok_or(Broken)?;
    Base64UrlUnpadded::decode_vec(text).map_err(|_| Broken)
}
