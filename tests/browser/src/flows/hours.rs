//! The hours after the first round, screen by screen: whom to call, the clock, what is given besides,
//! the look, what is next, the sign that goes before everything, the sheet that is read out.

use super::around::home;
use super::calling::contacts;
use super::look::type_refill;
use super::solution::make;
use super::urgent::{AT_POINT, POINTS, Points, STRENGTH, VIAL, begin, finish, to_first_draw};
use crate::phone::Phone;
use std::time::Duration;

/// From the start screen to the sheet for the eyes.
pub async fn shown(phone: &mut Phone) {
    contacts(phone).await;
    home(phone).await;
    phone.tap("Will it ring?").await;
    phone.headed("Will this phone ring?").await;
    phone.at("ringing").await;
    home(phone).await;

    to_first_draw(phone).await;
    let made = make(phone, VIAL, STRENGTH).await;
    begin(phone, 1).await;
    let mut points = Points::default();
    points.inject_until(phone, POINTS).await;
    finish(phone, 1, points.done * AT_POINT, made.vials).await;
    phone.tap("Besides the enzyme").await;
    phone.headed("Besides the enzyme").await;
    phone.at("besides").await;
    phone.tap("Back").await;
    phone.headed("Look again in").await;

    phone.let_pass(Duration::from_mins(61)).await;
    phone.headed("The look is due").await;
    phone.at("due").await;
    look_with_readings(phone, "4.2", "Pale", "5").await;
    phone.headed("After round 1").await;

    phone.tap("Look again").await;
    look_with_readings(phone, "3.1", "Pale", "3").await;
    phone.headed("After round 1").await;
    phone.at("next").await;

    phone.tap("Hand over").await;
    phone.tap("Sight changed").await;
    phone.at("sign").await;
    phone.tap("Read out or share the sheet").await;
    phone.see("Read this out").await;
    phone.at("eyes").await;
    phone.choose("Sheet", "Whole case").await;
    phone.see("Round 1, ").await;
    phone.at("handover").await;
}

/// A look with one reading on each side, typed.
async fn look_with_readings(phone: &mut Phone, affected: &str, colour: &str, pain: &str) {
    if phone.offers("Look now").await {
        phone.tap("Look now").await;
    }
    phone.headed("What does the skin show?").await;
    phone.at("refill").await;
    type_refill(phone, (affected, "1.5")).await;
    phone.tick(colour).await;
    phone.tick("Cooler than the other side").await;
    phone.at("refill-read").await;
    phone.tap("Go on").await;
    phone.headed("And the patient?").await;
    phone.tick(pain).await;
    phone.tap("Take down this look").await;
}
