//! The patient seen again, until the case is closed or the treatment is taken up again.

use freshet_browser_tests::flows::followup::{seen_again, treated};
use freshet_browser_tests::phone::{AtEach, Phone};
use std::time::Duration;

crate::on_both_engines! {
    seen_well_and_closed
    seen_worse_and_treated_again
}

async fn seen_well_and_closed(mut phone: Phone) -> Phone {
    phone.open().await;
    treated(&mut phone).await;
    phone.at_each = AtEach::Check;
    phone.flow = "followup-";
    phone.go_on("Follow-up").await;
    phone.headed("Follow-up").await;
    phone.see("Next review in ").await;
    phone.at("proposed").await;
    phone.tap("Agree on the next review").await;
    phone.headed("When is the next review?").await;
    phone.at("when").await;
    phone.tap("Agreed with the patient").await;
    phone.headed("Follow-up").await;
    phone.see("Agreed.").await;
    phone.let_pass(Duration::from_hours(30)).await;
    phone.see("Review due for ").await;
    seen_again(&mut phone, ("1.5", "1.5"), "As the other side", "0").await;
    phone.see("Well: nothing more is asked for").await;
    phone.at("well").await;
    // Pustules may still come: closing asks why.
    phone.tap("Close the case").await;
    phone.headed("Do otherwise").await;
    phone.see("Pustules may come up to ").await;
    phone.type_into("Why, in your words", "Seen on by the clinic at home").await;
    phone.tap("Record it and go on").await;
    phone.headed("The record").await;
    phone.see("Case closed").await;
    phone.nothing_found().await;
    phone
}

async fn seen_worse_and_treated_again(mut phone: Phone) -> Phone {
    phone.open().await;
    treated(&mut phone).await;
    phone.at_each = AtEach::Check;
    phone.flow = "followup-worse-";
    phone.go_on("Follow-up").await;
    phone.headed("Follow-up").await;
    phone.let_pass(Duration::from_hours(30)).await;
    phone.see("Review due for ").await;
    seen_again(&mut phone, ("5", "2"), "Pale", "6").await;
    phone.see("Worse, or short of blood: treat it as an occlusion now").await;
    phone.at("worse").await;
    phone.tap("Treat again now").await;
    phone.headed("After round 1").await;
    phone.see("Proposed: repeat").await;
    // It is one entry: what was acknowledged is whole after a reload.
    phone.reload().await;
    phone.headed("After round 1").await;
    phone.see("Prepare round 2").await;
    phone.nothing_found().await;
    phone
}
