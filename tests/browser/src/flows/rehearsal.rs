//! A rehearsal: a patient let in, played, and looked back on.

use super::around::home;
use super::solution::make;
use super::urgent::{
    AT_POINT, POINTS, Points, STRENGTH, VIAL, begin, enough, finish, from_situation, look,
    prepare_again,
};
use crate::phone::Phone;

/// Lets a patient in.
pub async fn let_in(phone: &mut Phone, name: &str) {
    phone.tap("Rehearsal").await;
    phone.headed("Rehearsal").await;
    phone.tap(name).await;
    phone.choose("How fast while you wait", "×120").await;
    phone.at("rehearsal-begin").await;
    phone.tap("Let the patient in").await;
    phone.headed("Any of these now?").await;
}

/// A round as it is planned, every point in, then on to its look.
async fn round(phone: &mut Phone, number: u64, given: &mut u64, vials: u64) {
    begin(phone, number).await;
    let mut points = Points::default();
    points.inject_until(phone, POINTS).await;
    *given += points.done * AT_POINT;
    finish(phone, number, *given, vials).await;
    marked(phone).await;
    phone.tap("Clock of the rehearsal: ×120").await;
    phone.tap("On to what is due").await;
    phone.headed("The look is due").await;
}

/// The screen says that it is none of a real case, in words and in its title.
pub async fn marked(phone: &mut Phone) {
    phone.see("Rehearsal").await;
    phone.until("its title says so", "return document.title.startsWith('Rehearsal · ');").await;
}

/// What the phone keeps of cases.
async fn records(phone: &Phone) -> u64 {
    const COUNT: &str = "return Object.keys(localStorage).filter((key) => key.startsWith('freshet/entry/')).length;";
    phone.run(COUNT, vec![]).await.as_u64().unwrap_or_default()
}

/// A lip played to a good end, and one left as soon as begun.
pub async fn whole(phone: &mut Phone) {
    phone.tap("Rehearsal").await;
    phone.headed("Rehearsal").await;
    phone.at("rehearsal").await;
    home(phone).await;
    let before = records(phone).await;

    let_in(phone, "The plain case, from the first sign to the end point").await;
    marked(phone).await;
    phone.at("rehearsal-situation").await;
    phone.tap("Patient").await;
    phone.see("Pale or white").await;
    phone.at("rehearsal-patient").await;
    phone.tap("Close").await;
    from_situation(phone).await;
    let mut given = 0;
    let first = make(phone, VIAL, STRENGTH).await;
    enough(phone, &first).await;
    round(phone, 1, &mut given, first.vials).await;
    look(phone, ("3.6", "1.4"), "Pale", "4").await;
    phone.headed("After round 1").await;
    prepare_again(phone, 2, given).await;
    let second = make(phone, VIAL, STRENGTH).await;
    round(phone, 2, &mut given, first.vials + second.vials).await;
    // The model's patient is well after two such rounds.
    phone.tap("Patient").await;
    phone.see("Colour: as the other side").await;
    phone.see("Pain: 0 of 10").await;
    phone.tap("Close").await;
    look(phone, ("1.4", "1.4"), "As the other side", "0").await;
    phone.headed("After round 2").await;
    phone.tap("All back: end the treatment").await;
    phone.headed("Done").await;
    phone.tap("Debrief").await;
    phone.headed("Looking back").await;
    phone.see("The skin has its blood back").await;
    phone.reads("Rounds", "2").await;
    phone.at("debrief").await;

    // Nothing of it came among the records, and it is remembered as what it was.
    phone.sure(records(phone).await == before, "a rehearsal was recorded").await;
    phone.reload().await;
    phone.headed("Rehearsal").await;
    phone.see("1 of 1 to a good end").await;
    phone.at("rehearsal-history").await;

    // Left as soon as begun: a bad end, and said so.
    home(phone).await;
    let text = phone.text().await;
    phone.sure(!text.contains("Open cases"), "a rehearsal is among the open cases").await;
    let_in(phone, "The plain case, from the first sign to the end point").await;
    phone.tap("Clock of the rehearsal: ×1").await;
    phone.at("rehearsal-clock").await;
    phone.tap("End and look back").await;
    phone.headed("Looking back").await;
    phone.see("Skin is still without blood").await;
    phone.at("debrief-bad").await;
    phone.tap("Rehearse again").await;
    phone.see("1 of 2 to a good end").await;
    phone.sure(records(phone).await == before, "a rehearsal was recorded").await;
}
