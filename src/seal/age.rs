//! A file under a passphrase in the open format age, version 1 (age-encryption.org/v1): any reader of
//! that format opens it, today and in ten years, without this app.
//!
//! A header wraps the file's own key by scrypt (RFC 7914) and ChaCha20-Poly1305, and is bound by an
//! HMAC; the rest is the text in pieces of 64 KiB, each sealed under its number and whether it is the
//! last, so that none can be cut off, left out or moved.

use super::random::Random;
use base64ct::{Base64Unpadded, Encoding};
use chacha20poly1305::ChaCha20Poly1305;
use chacha20poly1305::aead::{Aead, KeyInit};
use hkdf::Hkdf;
use hmac::{Hmac, Mac};
use sha2::Sha256;
use std::fmt;
use zeroize::Zeroizing;

const VERSION: &str = "age-encryption.org/v1";
const STANZA: &str = "-> scrypt ";
const MAC: &str = "---";
/// The salt of scrypt goes with these words.
const LABEL: &[u8] = b"age-encryption.org/v1/scrypt";
const PIECE: usize = 64 * 1024;
const TAG: usize = 16;

/// What one guess at a passphrase costs, as the logarithm of scrypt's N: 2^17 with r = 8 and p = 1 is
/// what the OWASP Password Storage Cheat Sheet asks for at least. It takes 128 MiB for a moment.
pub const WORK: u8 = 17;

/// The most that is tried: 2^18 takes 256 MiB, and a phone gives hardly more.
const MOST_WORK: u8 = 18;

/// The logarithm of the bytes that scrypt takes for each of N: 128 times r.
const SCRYPT_BYTES: u32 = 10;

/// The fewest characters of a passphrase: a file that leaves the phone can be guessed at for years, on
/// other people's machines.
pub const LEAST: usize = 12;

/// Why a file gives no text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AgeError {
    /// No file of this format, or its head is cut or misshapen.
    NotAge,
    /// Of this format, but not under a passphrase.
    NotByPassphrase,
    /// Made to be harder to open than a phone can: with another program it may open.
    TooDear,
    /// Opening it takes more memory than the phone has to give now.
    NoRoom,
    /// Another passphrase, or the head was altered: nobody can tell which.
    Wrong,
    /// The passphrase is right, and what follows is cut or altered.
    Altered,
}

impl fmt::Display for AgeError {
    /// For logs and error reports; screens word it themselves.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::NotAge => "not an age file",
            Self::NotByPassphrase => "an age file, but not by passphrase",
            Self::TooDear => "an age file that costs more than a phone can pay",
            Self::NoRoom => "no memory to open an age file",
            Self::Wrong => "another passphrase, or altered",
            Self::Altered => "cut or altered",
        })
    }
}

impl std::error::Error for AgeError {}

/// Whether a file says it is one.
pub fn is_age(file: &[u8]) -> bool {
    file.starts_with(VERSION.as_bytes())
}

/// A file of these bytes under a passphrase, at the cost of `work` (see [`WORK`]).
pub fn seal(passphrase: &str, work: u8, bytes: &[u8], random: &mut impl Random) -> Vec<u8> {
    let mut sealer = Sealer::begin(passphrase, work, random);
    sealer.push(bytes);
    sealer.end().concat()
}

/// A file that is sealed while it is being made, so that what goes in need not be at hand all at once.
pub struct Sealer {
    cipher: ChaCha20Poly1305,
    /// What no piece was made of yet: whether it is the last is not known before more comes.
    waiting: Vec<u8>,
    pieces: usize,
    parts: Vec<Vec<u8>>,
}

impl Sealer {
    /// Begins a file under a passphrase, at the cost of `work`: this takes its time and its memory.
    pub fn begin(passphrase: &str, work: u8, random: &mut impl Random) -> Self {
        let file_key = Zeroizing::new(random.draw::<16>());
        let salt: [u8; 16] = random.draw();
        let wrap = cipher(&wrapping(passphrase, salt, work));
        let wrapped = sealed(&wrap, [0; 12], file_key.as_slice());
        let (salt, wrapped) = (b64(&salt), b64(&wrapped));
        let head = format!("{VERSION}\n{STANZA}{salt} {work}\n{wrapped}\n{MAC}");
        let mac = b64(&head_mac(&file_key, head.as_bytes()).finalize().into_bytes());
        let nonce: [u8; 16] = random.draw();
        let mut head = format!("{head} {mac}\n").into_bytes();
        head.extend(nonce);
        let cipher = cipher(&derived(&file_key, Some(&nonce), b"payload"));
        Self { cipher, waiting: Vec::with_capacity(PIECE), pieces: 0, parts: vec![head] }
    }

    /// Adds to what is in the file.
    pub fn push(&mut self, mut bytes: &[u8]) {
        while !bytes.is_empty() {
            if self.waiting.len() == PIECE {
                self.piece(false);
            }
            let (now, later) = bytes.split_at(bytes.len().min(PIECE - self.waiting.len()));
            self.waiting.extend_from_slice(now);
            bytes = later;
        }
    }

    /// The file, in parts that follow each other.
    pub fn end(mut self) -> Vec<Vec<u8>> {
        self.piece(true);
        self.parts
    }

    fn piece(&mut self, last: bool) {
        self.parts.push(sealed(&self.cipher, numbered(self.pieces, last), &self.waiting));
        self.pieces += 1;
        self.waiting.clear();
    }
}

/// The bytes of a file under a passphrase.
///
/// # Errors
/// [`AgeError`] says which part did not hold; nothing of a file that is not whole is given.
pub fn open(passphrase: &str, file: &[u8]) -> Result<Vec<u8>, AgeError> {
    let head = Head::read(file)?;
    if head.work > MOST_WORK {
        return Err(AgeError::TooDear);
    }
    if !has_room(1 << (u32::from(head.work) + SCRYPT_BYTES)) || !has_room(file.len()) {
        return Err(AgeError::NoRoom);
    }
    let file_key = cipher(&wrapping(passphrase, head.salt, head.work))
        .decrypt(&[0; 12].into(), head.wrapped.as_slice())
        .map_err(|_| AgeError::Wrong)?;
    let file_key: [u8; 16] = file_key.try_into().map_err(|_| AgeError::Wrong)?;
    let file_key = Zeroizing::new(file_key);
    head_mac(&file_key, head.bound).verify_slice(&head.mac).map_err(|_| AgeError::Wrong)?;

    let (nonce, rest) = head.rest.split_first_chunk::<16>().ok_or(AgeError::Altered)?;
    let cipher = cipher(&derived(&file_key, Some(nonce), b"payload"));
    let pieces: Vec<&[u8]> = rest.chunks(PIECE + TAG).collect();
    let mut bytes = Vec::with_capacity(rest.len());
    for (at, piece) in pieces.iter().enumerate() {
        let last = at + 1 == pieces.len();
        let opened = cipher.decrypt(&numbered(at, last).into(), *piece);
        let opened = opened.map_err(|_| AgeError::Altered)?;
        // An empty last piece belongs to an empty file only.
        if opened.is_empty() && at > 0 {
            return Err(AgeError::Altered);
        }
        bytes.extend(opened);
    }
    if pieces.is_empty() { Err(AgeError::Altered) } else { Ok(bytes) }
}

/// The head of a file, taken apart.
struct Head<'a> {
    salt: [u8; 16],
    work: u8,
    wrapped: [u8; 32],
    mac: [u8; 32],
    /// What the MAC is over.
    bound: &'a [u8],
    rest: &'a [u8],
}

impl<'a> Head<'a> {
    fn read(file: &'a [u8]) -> Result<Self, AgeError> {
        let wrong = AgeError::NotAge;
        let (version, after) = line(file).ok_or(wrong)?;
        let (stanza, after) = line(after).ok_or(wrong)?;
        if version != VERSION {
            return Err(wrong);
        }
        let Some(told) = stanza.strip_prefix(STANZA) else {
            let other = stanza.starts_with("-> ");
            return Err(if other { AgeError::NotByPassphrase } else { wrong });
        };
        let (salt, work) = told.split_once(' ').ok_or(wrong)?;
        let (wrapped, after) = line(after).ok_or(wrong)?;
        let bound = &file[..file.len() - after.len() + MAC.len().min(after.len())];
        let (mac, rest) = line(after).ok_or(wrong)?;
        let mac = mac.strip_prefix(MAC).and_then(|mac| mac.strip_prefix(' ')).ok_or(wrong)?;
        // As the format writes numbers: no sign, no zero before.
        let plain = !work.is_empty()
            && !work.starts_with('0')
            && work.bytes().all(|byte| byte.is_ascii_digit());
        if !plain {
            return Err(wrong);
        }
        Ok(Self {
            salt: unb64(salt).ok_or(wrong)?,
            // What does not fit is too dear, not misshapen.
            work: work.parse().unwrap_or(u8::MAX),
            wrapped: unb64(wrapped).ok_or(wrong)?,
            mac: unb64(mac).ok_or(wrong)?,
            bound,
            rest,
        })
    }
}

/// Whether so many bytes can be had: a program that asks for more than there are is ended.
fn has_room(bytes: usize) -> bool {
    Vec::<u8>::new().try_reserve_exact(bytes).is_ok()
}

/// The first line, and what follows it.
fn line(bytes: &[u8]) -> Option<(&str, &[u8])> {
    let end = bytes.iter().take(256).position(|byte| *byte == b'\n')?;
    Some((str::from_utf8(&bytes[..end]).ok()?, &bytes[end + 1..]))
}

fn wrapping(passphrase: &str, salt: [u8; 16], work: u8) -> Zeroizing<[u8; 32]> {
    let mut key = Zeroizing::new([0; 32]);
    let params = scrypt::Params::new(work, 8, 1).expect("work is from 1 to the most that is tried");
    let salt = [LABEL, &salt].concat();
    scrypt::scrypt(passphrase.as_bytes(), &salt, &params, key.as_mut_slice())
        .expect("32 bytes are within the bounds of scrypt");
    key
}

fn derived(file_key: &[u8; 16], salt: Option<&[u8]>, what: &[u8]) -> Zeroizing<[u8; 32]> {
    let mut key = Zeroizing::new([0; 32]);
    let hkdf = Hkdf::<Sha256>::new(salt, file_key);
    hkdf.expand(what, key.as_mut_slice()).expect("32 bytes are within the bounds of HKDF");
    key
}

fn head_mac(file_key: &[u8; 16], head: &[u8]) -> Hmac<Sha256> {
    let key = derived(file_key, None, b"header");
    let mac = <Hmac<Sha256> as KeyInit>::new_from_slice(&*key);
    let mut mac = mac.expect("a key of any length will do");
    mac.update(head);
    mac
}

/// The nonce of a piece: its number in eleven bytes, and whether it is the last.
fn numbered(at: usize, last: bool) -> [u8; 12] {
    let mut nonce = [0; 12];
    nonce[3..11].copy_from_slice(&(at as u64).to_be_bytes());
    nonce[11] = u8::from(last);
    nonce
}

fn cipher(key: &[u8; 32]) -> ChaCha20Poly1305 {
    ChaCha20Poly1305::new(key.into())
}

fn sealed(cipher: &ChaCha20Poly1305, nonce: [u8; 12], bytes: &[u8]) -> Vec<u8> {
    cipher.encrypt(&nonce.into(), bytes).expect("far fewer than 256 GiB")
}

fn b64(bytes: &[u8]) -> String {
    Base64Unpadded::encode_string(bytes)
}

fn unb64<const N: usize>(text: &str) -> Option<[u8; N]> {
    Base64Unpadded::decode_vec(text).ok()?.try_into().ok()
}
