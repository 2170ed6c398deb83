//! The primitives against the vectors of the documents that define them: what is used here is what
//! the documents mean, on every target it is compiled for.

use argon2::{Algorithm, Argon2, AssociatedData, ParamsBuilder, Version};
use chacha20poly1305::aead::{Aead, KeyInit, Payload};
use chacha20poly1305::{ChaCha20Poly1305, XChaCha20Poly1305};
use hkdf::Hkdf;
use sha2::Sha256;
use x25519_dalek::x25519;

const SUNSCREEN: &[u8] =
    b"Ladies and Gentlemen of the class of '99: If I could offer you only one \
tip for the future, sunscreen would be it.";

fn hex(text: &str) -> Vec<u8> {
    let digits = text.as_bytes().chunks(2);
    digits.map(|two| u8::from_str_radix(str::from_utf8(two).unwrap(), 16).unwrap()).collect()
}

fn counted(from: u8, count: u8) -> Vec<u8> {
    (from..from + count).collect()
}

// RFC 9106, 5.3
#[test]
fn argon2id() {
    let mut params = ParamsBuilder::new();
    params.m_cost(32).t_cost(3).p_cost(4).data(AssociatedData::new(&[4; 12]).unwrap());
    let argon2 = Argon2::new_with_secret(
        &[3; 8],
        Algorithm::Argon2id,
        Version::V0x13,
        params.build().unwrap(),
    );
    let mut tag = [0; 32];
    argon2.unwrap().hash_password_into(&[1; 32], &[2; 16], &mut tag).unwrap();
    let wanted = "0d640df58d78766c08c037a34a8b53c9d01ef0452d75b65eb52520e96b01e659";
    assert_eq!(tag.to_vec(), hex(wanted));
}

// RFC 8439, 2.8.2
#[test]
fn chacha20_poly1305() {
    let cipher = ChaCha20Poly1305::new_from_slice(&counted(0x80, 32)).unwrap();
    let nonce: [u8; 12] = hex("070000004041424344454647").try_into().unwrap();
    let payload = Payload { msg: SUNSCREEN, aad: &hex("50515253c0c1c2c3c4c5c6c7") };
    let sealed = cipher.encrypt(&nonce.into(), payload).unwrap();
    assert_eq!(sealed[..16], hex("d31a8d34648e60db7b86afbc53ef7ec2"));
    assert_eq!(sealed[SUNSCREEN.len()..], hex("1ae10b594f09e26a7e902ecbd0600691"));
}

// draft-irtf-cfrg-xchacha-03, A.3.1
#[test]
fn xchacha20_poly1305() {
    let cipher = XChaCha20Poly1305::new_from_slice(&counted(0x80, 32)).unwrap();
    let nonce: [u8; 24] = counted(0x40, 24).try_into().unwrap();
    let payload = Payload { msg: SUNSCREEN, aad: &hex("50515253c0c1c2c3c4c5c6c7") };
    let sealed = cipher.encrypt(&nonce.into(), payload).unwrap();
    assert_eq!(sealed[..16], hex("bd6d179d3e83d43b9576579493c0e939"));
    assert_eq!(sealed[SUNSCREEN.len()..], hex("c0875924c1c7987947deafd8780acf49"));
}

// RFC 7748, 5.2
#[test]
fn x25519_ladder() {
    let scalar = hex("a546e36bf0527c9d3b16154b82465edd62144c0ac1fc5a18506a2244ba449ac4");
    let point = hex("e6db6867583030db3594c1a424b15f7c726624ec26b3353b10a903a6d0ab1c4c");
    let wanted = hex("c3da55379de9c6908e94ea4df28d084f32eccf03491c71f754b4075577a28552");
    let got = x25519(scalar.try_into().unwrap(), point.try_into().unwrap());
    assert_eq!(got.to_vec(), wanted);
}

// RFC 5869, A.1
#[test]
fn hkdf_sha256() {
    let mut okm = [0; 42];
    let hkdf = Hkdf::<Sha256>::new(Some(&counted(0, 13)), &[0x0b; 22]);
    hkdf.expand(&counted(0xf0, 10), &mut okm).unwrap();
    let wanted =
        "3cb25f25faacd57a90434f64d0362f2a2d2d0a90cf1a5a4c5db02d56ecc4c5bf34007208d5b887185865";
    assert_eq!(okm.to_vec(), hex(wanted));
}

// RFC 7914, 12
#[test]
fn scrypt() {
    let mut key = [0; 64];
    let params = scrypt::Params::new(14, 8, 1).unwrap();
    scrypt::scrypt(b"pleaseletmein", b"SodiumChloride", &params, &mut key).unwrap();
    let wanted = "7023bdcb3afd7348461c06cd81fd38ebfda8fbba904f8e3ea9b543f6545da1f2\
                  d5432955613f0fcf62d49705242a9af9e61e85dc0d651e40dfcf017b45575887";
    assert_eq!(key.to_vec(), hex(wanted));
}
