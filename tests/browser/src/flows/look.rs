//! The look: refill timed or typed, colour, temperature, the photo, the patient.

use super::solution::make;
use super::urgent::{STRENGTH, VIAL, enough, to_first_draw};
use crate::phone::Phone;
use serde_json::{Value as Json, json};
use std::time::Duration;

/// The readings of a side, as they stand in its row.
const READINGS: &str = "
    const side = [...document.querySelectorAll('section')].filter((s) => norm(s.querySelector(':scope > h3')?.innerText) === arguments[0]);
    return side.flatMap((s) => [...s.querySelectorAll('li:not([aria-hidden])')]).map((li) => norm(li.innerText));";

/// From the start screen to the look before the first point, with a solution that is made.
pub async fn to_look(phone: &mut Phone) {
    to_first_draw(phone).await;
    let made = make(phone, VIAL, STRENGTH).await;
    enough(phone, &made).await;
    phone.tap("Note the skin first").await;
    phone.headed("What does the skin show?").await;
}

/// The readings of a side, with what is marked at each.
pub async fn readings(phone: &mut Phone, side: &str) -> Vec<String> {
    let read = phone.run(READINGS, vec![json!(side)]).await;
    let read = read.as_array().cloned().unwrap_or_default();
    read.iter().filter_map(Json::as_str).map(str::to_owned).collect()
}

/// Waits until a side has these readings.
pub async fn read_as(phone: &mut Phone, side: &str, wanted: &[&str]) {
    let start = std::time::Instant::now();
    loop {
        let now = readings(phone, side).await;
        if now == wanted {
            return;
        }
        if start.elapsed() > crate::eye::PATIENCE {
            phone.fail(&format!("{side} reads {now:?}, not {wanted:?}")).await;
        }
        tokio::time::sleep(Duration::from_millis(40)).await;
    }
}

/// Types one reading on each side.
pub async fn type_refill(phone: &mut Phone, (affected, other): (&str, &str)) {
    phone.choose("How", "Type").await;
    phone.type_into("Affected side", affected).await;
    phone.tap("Take this reading").await;
    phone.see("Other side, reading 1 of 3").await;
    phone.type_into("Other side", other).await;
    phone.tap("Take this reading").await;
    phone.see("on the other side").await;
}

/// The middle of the button that is held, brought into view.
pub async fn press_button(phone: &mut Phone) -> (f64, f64) {
    const PLACE: &str = "
        const button = find('button', 'Hold to press')[0];
        button.scrollIntoView({ block: 'center', behavior: 'instant' });
        button.focus({ preventScroll: true });
        const box = button.getBoundingClientRect();
        return [box.x + box.width / 2, box.y + box.height / 2];";
    let place = phone.run(PLACE, vec![]).await;
    (place[0].as_f64().unwrap_or_default(), place[1].as_f64().unwrap_or_default())
}
