//! The texts about a case: whole cases of the invented clinic are laid on the phone, and their papers
//! opened.

use super::records::lay_near;
use crate::phone::Phone;
use freshet::record::samples::Told;
use serde_json::{Value as Json, json};

/// Lays a sample case on a phone that the app was opened on.
pub async fn lay(phone: &mut Phone, told: &Told) {
    lay_near(phone, std::slice::from_ref(&told.journal)).await;
}

/// Opens a paper of it by its name in the address.
pub async fn open(phone: &mut Phone, told: &Told, paper: &str, heading: &str) {
    let url = format!("{}?page={paper}&case={}", phone.server.url(), told.journal.case());
    phone.go(&url).await;
    phone.settled().await;
    phone.headed(heading).await;
}

/// A page as Chromium prints it, with no head or foot of its own: a PDF file.
pub async fn printed(phone: &Phone) -> Vec<u8> {
    let asked = json!({"preferCSSPageSize": true, "paperWidth": A4.0, "paperHeight": A4.1});
    let answer = phone.devtools("Page.printToPDF", asked).await;
    decoded(&answer["data"])
}

/// In inches.
const A4: (f64, f64) = (8.27, 11.69);

/// Base64 as browsers write it.
pub(super) fn decoded(data: &Json) -> Vec<u8> {
    const SIGNS: &[u8] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let text = data.as_str().expect("data").bytes();
    let sixes = text.filter_map(|sign| SIGNS.iter().position(|known| *known == sign));
    let mut bytes = Vec::new();
    let (mut held, mut bits) = (0_usize, 0);
    for six in sixes {
        held = (held << 6) | six;
        bits += 6;
        if bits >= 8 {
            bits -= 8;
            bytes.push(u8::try_from((held >> bits) & 0xff).expect("a byte"));
        }
    }
    bytes
}
