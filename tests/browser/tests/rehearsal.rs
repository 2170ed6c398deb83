//! Rehearsal: played, debriefed, and kept apart.

use freshet_browser_tests::flows::around::home;
use freshet_browser_tests::flows::rehearsal::{let_in, marked, whole};
use freshet_browser_tests::flows::urgent::to_first_draw;
use freshet_browser_tests::phone::Phone;

crate::on_both_engines! {
    played_to_a_good_end_and_to_a_bad_one
    a_real_case_goes_first
}

async fn played_to_a_good_end_and_to_a_bad_one(mut phone: Phone) -> Phone {
    phone.open().await;
    whole(&mut phone).await;
    phone
}

async fn a_real_case_goes_first(mut phone: Phone) -> Phone {
    phone.open().await;
    let_in(&mut phone, "Days later").await;
    // Home is the real one; the rehearsal stands still meanwhile, and can be gone on with.
    home_without_loading(&mut phone).await;
    phone.tap("Rehearsal").await;
    phone.see("A rehearsal stands still meanwhile").await;
    phone.tap("Go on with it").await;
    marked(&mut phone).await;
    home_without_loading(&mut phone).await;

    // While a real solution is made nobody rehearses.
    to_first_draw(&mut phone).await;
    home(&mut phone).await;
    phone.tap("Rehearsal").await;
    phone.tap("A lip turns pale").await;
    phone.tap("Let the patient in").await;
    phone.see("A real case runs on this phone").await;
    phone
}

/// Back from the first step is home.
async fn home_without_loading(phone: &mut Phone) {
    phone.tap("Back").await;
    phone.see("New case").await;
}
