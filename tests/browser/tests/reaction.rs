//! The anaphylaxis sheet: from the middle of a step and back, and without a case.

use freshet_browser_tests::flows::around::{logged, reaction_without_a_case};
use freshet_browser_tests::flows::urgent::to_first_draw;
use freshet_browser_tests::phone::Phone;

crate::on_both_engines! { a_reaction_in_the_middle_of_a_step a_reaction_without_a_case }

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
