//! Planned work whole, and a positive test.

use freshet_browser_tests::flows::planned::{place_test, to_questions, wait_for_reading, whole};
use freshet_browser_tests::phone::Phone;

crate::on_both_engines! { planned_case_whole a_positive_test_closes_the_case }

async fn planned_case_whole(mut phone: Phone) -> Phone {
    phone.open().await;
    whole(&mut phone).await;
    phone
}

async fn a_positive_test_closes_the_case(mut phone: Phone) -> Phone {
    phone.open().await;
    to_questions(&mut phone).await;
    place_test(&mut phone).await;
    wait_for_reading(&mut phone).await;
    phone.type_into("Wheal across", "14").await;
    phone.tick("Redness round the wheal").await;
    phone.tick("Itching").await;
    phone.see("Record: positive").await;
    phone.tap("Record: positive").await;
    phone.see("The case is closed to hyaluronidase.").await;
    phone.at("test-positive").await;
    // There is no way on, not even with a reason.
    for way in ["Do otherwise", "Go on"] {
        let offered = phone.offers(way).await;
        phone.sure(!offered, &format!("after a positive test {way:?} is offered")).await;
    }
    phone.tap("Close the case").await;
    phone.headed("The record").await;
    phone.see("Stopped before it was done").await;
    phone
}
