//! The anaphylaxis sheet: from the middle of a step and back, and without a case.

use freshet_browser_tests::flows::around::{logged, reaction_without_a_case};
use freshet_browser_tests::flows::urgent::to_first_draw;
use freshet_browser_tests::phone::Phone;
use std::time::Duration;

crate::on_both_engines! {
    a_reaction_in_the_middle_of_a_step
    a_reaction_without_a_case
    a_small_person_stays_small
    a_dose_before_its_time_is_known_first
}

async fn a_reaction_in_the_middle_of_a_step(mut phone: Phone) -> Phone {
    phone.open().await;
    to_first_draw(&mut phone).await;
    let heading = phone.heading().await;
    phone.tap("Anaphylaxis").await;
    phone.headed("Adrenaline now").await;
    phone.tap("Adrenaline given, 0.50 mL").await;
    phone.headed("Again in").await;
    logged(&mut phone, "Dose 1 given at ").await;
    phone.tap("Back").await;
    phone.headed(&heading).await;
    phone.see("Movement 1 of").await;
    phone.pause().await;
    // And the step goes on from where it stood.
    phone.tap("Drawn, 1.00 mL").await;
    phone.see("Movement 2 of").await;
    // The reaction is still on the sheet, with its hour.
    phone.tap("Anaphylaxis").await;
    phone.headed("Again in").await;
    logged(&mut phone, "Dose 1 given at ").await;
    phone
}

async fn a_reaction_without_a_case(mut phone: Phone) -> Phone {
    phone.open().await;
    reaction_without_a_case(&mut phone).await;
    phone
}

/// Somebody of 14 and small has had the first dose, 0.30 mL, and no case was open before.
async fn small_and_given(phone: &mut Phone) {
    phone.open().await;
    phone.tap("Anaphylaxis").await;
    phone.headed("Adrenaline now").await;
    phone.tap("Child, small person, other table").await;
    phone.type_into("Age", "14").await;
    phone.tick("Small, or not yet grown").await;
    phone.see("300 micrograms · 14 years, small, UK").await;
    phone.tap("Adrenaline given, 0.30 mL").await;
    phone.headed("Again in").await;
}

async fn a_small_person_stays_small(mut phone: Phone) -> Phone {
    small_and_given(&mut phone).await;
    phone.tap("Read out or share the sheet").await;
    phone.headed("Hand-over").await;
    phone.tap("Back").await;
    phone.headed("Again in").await;
    phone.tap("Dose 2 is given already").await;
    phone.see("300 micrograms · 14 years, small, UK").await;
    phone.see("Dose 2, 0.30 mL, is in").await;
    phone.tap("Close").await;
    // Loaded anew, nobody knows who it is any more: as before, until something is said.
    phone.let_pass(Duration::from_mins(6)).await;
    phone.reload().await;
    phone.headed("Adrenaline again now, unless better").await;
    phone.see("300 micrograms · as given before").await;
    phone.see_no("500 micrograms").await;
    phone.tap("Child, small person, other table").await;
    phone.type_into("Age", "40").await;
    phone.see("500 micrograms · 40 years, UK").await;
    phone.type_into("Age", "").await;
    phone.see("300 micrograms · as given before").await;
    phone
}

async fn a_dose_before_its_time_is_known_first(mut phone: Phone) -> Phone {
    small_and_given(&mut phone).await;
    phone.tap("Dose 2 is given already").await;
    phone.see("The tables repeat after").await;
    phone.see("300 micrograms · 14 years, small, UK").await;
    phone.tap("Child, small person, other table").await;
    phone.type_into("Age", "1O").await;
    phone.see("No dose yet. Put the age right.").await;
    // The button says what is wanting, and takes nothing down.
    phone.tap("Dose 2 is in").await;
    phone.see("The tables repeat after").await;
    phone.type_into("Age", "10").await;
    phone.see("300 micrograms · 10 years, UK").await;
    phone.tap("Dose 2, 0.30 mL, is in").await;
    phone.headed("Again in").await;
    logged(&mut phone, "Dose 2 given at ").await;
    phone
}
