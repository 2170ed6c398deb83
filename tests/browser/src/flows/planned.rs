//! Planned work, from the start screen to the end.

use super::solution::{make, ml, units};
use crate::phone::Phone;
use std::time::Duration;

/// Units per mL, for taking part of it away.
pub const STRENGTH: u64 = 150;
/// Units in a vial.
pub const VIAL: u64 = 1500;

/// To the allergy questions.
pub async fn to_questions(phone: &mut Phone) {
    phone.tap("New case").await;
    phone.go_on("None of these").await;
    phone.headed("What does the skin show?").await;
    phone.go_on("planned work").await;
    phone.headed("How much is to go?").await;
    phone.tick("Take part of it away").await;
    phone.at("aim").await;
    phone.tap("Go on").await;
    phone.headed("Ask the patient").await;
}

/// Answers the questions and places the skin test: 0.10 mL of 150 units/mL, 15 units.
pub async fn place_test(phone: &mut Phone) {
    phone.choose("Reacted to hyaluronidase before", "No").await;
    phone.choose("Allergic to bee stings", "No").await;
    phone.choose("Allergic to wasp stings", "No").await;
    phone.choose("Pregnant or nursing", "Neither").await;
    phone.tick("Ovine").await;
    phone.at("allergy").await;
    phone.tap("Go on").await;
    phone.see("Skin test first").await;
    phone.at("way").await;
    phone.go_on("Ready").await;
    phone.headed("Inject into the skin").await;
    phone.tick("0.10 mL = 15 units").await;
    phone.type_into("Bleb, right after", "7").await;
    phone.at("test-place").await;
    phone.tap("Injected: start the clock").await;
    phone.headed("Wait, watch the patient").await;
    phone.at("test-wait").await;
}

/// Lets the first reading's time come.
pub async fn wait_for_reading(phone: &mut Phone) {
    phone.let_pass(Duration::from_secs(15 * 60 + 20)).await;
    phone.headed("Read the test").await;
}

/// Reads it: no wheal, nothing.
pub async fn read_negative(phone: &mut Phone) {
    wait_for_reading(phone).await;
    phone.at("test-read").await;
    phone.type_into("Wheal across", "0").await;
    phone.tap("Record: negative").await;
}

/// Filler and dose: 0.4 mL of filler at the low end, 15 units for each 0.1 mL: 60 units.
pub async fn dose(phone: &mut Phone) {
    phone.headed("How much filler is to go?").await;
    phone.type_into("Filler", "0.4").await;
    phone.tick("Low").await;
    phone.reads("Dose", "60 to 120 units").await;
    phone.at("strength-planned").await;
    phone.go_on("150 units/mL").await;
    phone.see("Movement 1 of").await;
    phone.pause().await;
}

/// Deposits of 0.1 mL at 150 units/mL hold 15 units each: 60 units are four.
pub const DEPOSITS: u64 = 4;
/// Thousandths of a unit in each.
pub const IN_DEPOSIT: u64 = STRENGTH * 100;

/// All deposits, one after the other.
pub async fn deposits(phone: &mut Phone) {
    phone.reads("This round", &format!("{} units", units(DEPOSITS * IN_DEPOSIT))).await;
    phone.reads("Volume", &format!("{} mL", ml(DEPOSITS * 100))).await;
    phone.reads("In each deposit", &format!("{} units", units(IN_DEPOSIT))).await;
    phone.at("deposits-ready").await;
    phone.tap("Begin the deposits").await;
    for number in 1..=DEPOSITS {
        phone.headed(&format!("Deposit {number} 0.10 mL")).await;
        let given = units((number - 1) * IN_DEPOSIT);
        phone.reads("Given this round", &format!("{given} units")).await;
        if number == 2 {
            phone.at("deposits").await;
        }
        phone.tap("Injected, 0.10 mL").await;
    }
    phone.headed(&format!("All {DEPOSITS} deposits settled")).await;
    phone.tap("All deposits done").await;
    phone.headed("Done: watch for a reaction").await;
    phone.reads("Given in all", &format!("{} units", units(DEPOSITS * IN_DEPOSIT))).await;
    phone.reads("Volume", &format!("{} mL", ml(DEPOSITS * 100))).await;
    phone.at("planned-done").await;
}

/// The whole case: a negative test, an expired vial, four deposits.
pub async fn whole(phone: &mut Phone) {
    to_questions(phone).await;
    place_test(phone).await;
    read_negative(phone).await;
    dose(phone).await;
    expired_vial_stops(phone).await;
    let made = make(phone, VIAL, STRENGTH).await;
    let enough = made.milli >= 60_000;
    phone.sure(enough, &format!("60 units are wanted: {made:?}")).await;
    deposits(phone).await;
    phone.see("Tell the patient: call at once").await;
    // Two weeks, as the clinic's value is supplied.
    phone.see("14 days").await;
    phone.tap("End the treatment").await;
    phone.headed("Done").await;
    phone.reads("Given in all", "60 units").await;
    phone.tap("To the start").await;
    // Open until the result was seen.
    phone.see("Open cases").await;
    phone.see("Planned · Follow-up").await;
}

/// Batch and expiry are typed; a vial past its day stops the movement until another is noted or a
/// reason is given.
async fn expired_vial_stops(phone: &mut Phone) {
    phone.tap("Vial 1: batch").await;
    phone.headed("Vial 1").await;
    phone.type_into("Batch", "A17-204").await;
    phone.type_into("Expiry", "2021-03").await;
    phone.at("vial").await;
    phone.tap("Note it").await;
    phone.see("Vial 1: A17-204").await;
    // The vial is in hand at the movement that is about it.
    let mut first = phone.heading().await;
    while !phone.shows("Take another and note it").await {
        let button = go(phone).await;
        phone.tap(&button).await;
        let start = std::time::Instant::now();
        while phone.heading().await == first {
            if start.elapsed() > crate::eye::PATIENCE {
                phone.fail("a movement without the expired vial does not go on").await;
            }
        }
        first = phone.heading().await;
    }
    phone.see("Vial 1 expired on 31 Mar 2021. Take another and note it.").await;
    phone.at("expired").await;
    // Pressed all the same, it does not go on.
    let button = go(phone).await;
    phone.tap(&button).await;
    phone.see("The vial expired on 31 Mar 2021.").await;
    phone.headed(&first).await;
    phone.tap("Use it all the same").await;
    phone.headed("Do otherwise").await;
    phone.tap("Record it and go on").await;
    phone.see("Write why: it goes into the record.").await;
    phone.at("reason").await;
    phone.type_into("Why, in your words", "The only vial in the house").await;
    phone.tap("Record it and go on").await;
    phone.see_no("expired on").await;
    // Back to the first movement, so that the whole of it is made under the test's own arithmetic.
    if phone.shows("Movement 1 of").await {
        return;
    }
    while !phone.shows("Movement 1 of").await {
        phone.tap("Back").await;
    }
    phone.tap("It was not so: take it back").await;
    phone.see_no("It was not so").await;
    phone.see("Movement 1 of").await;
    phone.pause().await;
}

/// The words on the one large button.
async fn go(phone: &mut Phone) -> String {
    const GO: &str = "return norm(scope().querySelector('footer button').innerText);";
    phone.run(GO, vec![]).await.as_str().unwrap_or_default().to_owned()
}
