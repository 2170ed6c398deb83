//! After the look: the skin drawn again, and what is given besides the enzyme.

use super::outline::{EMPTY, OnSkin, begin, draw_lips, ellipse, measures, the_rest, use_it};
use super::urgent::{AT_POINT, finish, look};
use crate::phone::Phone;
use serde_json::json;
use std::time::Duration;

/// Lips drawn, a round given on them, the interval over and a look taken.
pub async fn drawn_and_looked(
    phone: &mut Phone,
    refill: (&str, &str),
    colour: &str,
    pain: &str,
) -> Given {
    draw_lips(phone).await;
    use_it(phone).await;
    let (round, vials) = begin(phone, 1).await;
    let given = round_whole(phone, round, Given { vials, ..Given::default() }).await;
    look(phone, refill, colour, pain).await;
    phone.headed("After round 1").await;
    given
}

/// What was given so far.
#[derive(Clone, Copy, Debug, Default)]
pub struct Given {
    /// Rounds that are over.
    pub rounds: u64,
    /// Thousandths of a unit.
    pub milli: u64,
    /// Vials opened, those for the round to come too.
    pub vials: u64,
}

/// All points of a round, its end and the interval after it.
pub async fn round_whole(phone: &mut Phone, mut round: OnSkin, before: Given) -> Given {
    round.shown(phone).await;
    round.inject(phone).await;
    the_rest(phone, &mut round).await;
    let milli = before.milli + round.done * AT_POINT;
    let rounds = before.rounds + 1;
    finish(phone, rounds, milli, before.vials).await;
    phone.let_pass(Duration::from_mins(61)).await;
    Given { rounds, milli, vials: before.vials }
}

/// Draws the skin again after a look, so many millimetres across and down; back to what is next.
pub async fn draw_again(phone: &mut Phone, round: u64, (across, down): (f64, f64), cm2: f64) {
    phone.tap("Draw the skin again").await;
    phone.headed(EMPTY).await;
    phone.draw(&ellipse((0.0, 24.0), across, down)).await;
    measures(phone, cm2, 3.0).await;
    phone.go_on("Use ").await;
    phone.headed(&format!("After round {round}")).await;
}

/// How a sign fared, by the table of what changed.
pub async fn fared(phone: &mut Phone, sign: &str, how: &str) {
    let script = format!(
        "return [...document.querySelectorAll('.changed')].some((line) =>
           norm(line.querySelector('.changed-name').innerText) === {}
           && norm(line.querySelector('.changed-word').innerText) === {}
           && !!line.querySelector('.changed-word svg'));",
        json!(sign),
        json!(how)
    );
    phone.until(&format!("{sign} is told as {how}"), &script).await;
}

/// Opens one of the things given besides, by its row.
pub async fn open_one(phone: &mut Phone, name: &str) {
    phone.tap(name).await;
    phone.headed(name).await;
}

/// The questions before aspirin that no case has answered by itself.
pub const QUESTIONS: [&str; 11] = [
    "Allergic to aspirin, a salicylate or an NSAID?",
    "Asthma or hives that such a medicine made worse?",
    "Haemophilia or another bleeding disorder?",
    "An anticoagulant?",
    "A stomach or duodenal ulcer, now or earlier?",
    "Younger than 16?",
    "Severe failure of liver, kidney or heart?",
    "Methotrexate?",
    "Aspirin already, or another medicine against platelets?",
    "Pregnant?",
    "Breastfeeding?",
];

/// Answers all of them with no, but for those named.
pub async fn answer(phone: &mut Phone, other: &[(&str, &str)]) {
    phone.headed("Before aspirin").await;
    for question in QUESTIONS {
        let found = other.iter().find(|(name, _)| *name == question);
        phone.choose(question, found.map_or("No", |(_, answer)| answer)).await;
    }
}
