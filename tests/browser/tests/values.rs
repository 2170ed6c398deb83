//! Quick sums and the clinic's values.

use freshet_browser_tests::flows::around::{about, home, open_case, sums, values};
use freshet_browser_tests::flows::urgent::to_first_draw;
use freshet_browser_tests::phone::Phone;

crate::on_both_engines! {
    quick_sums
    a_changed_value_holds_for_new_cases_only
    a_changed_value_outlives_a_kill
}

async fn quick_sums(mut phone: Phone) -> Phone {
    phone.open().await;
    sums(&mut phone).await;
    about(&mut phone).await;
    let text = phone.text().await;
    phone.sure(!text.contains("Open cases"), "sums must not open a case").await;
    phone
}

async fn a_changed_value_holds_for_new_cases_only(mut phone: Phone) -> Phone {
    phone.open().await;
    to_first_draw(&mut phone).await;
    home(&mut phone).await;
    values(&mut phone).await;

    // The case opened before still runs under 500.
    open_case(&mut phone).await;
    phone.see("Movement 1 of").await;
    phone.tap("Back").await;
    phone.headed("Where is the skin without blood?").await;
    phone.go_on("500 units/mL").await;
    phone.see("Movement 1 of").await;

    // One opened now runs under 300, and its round follows: 12 points of 0.1 mL.
    home(&mut phone).await;
    phone.tap("New case").await;
    phone.go_on("None of these").await;
    phone.tick("Pale or white").await;
    phone.go_on("Urgent").await;
    phone.go_on("Ready").await;
    phone.tick("Upper lip").await;
    phone.reads("This round", "360 units").await;
    phone.go_on("300 units/mL").await;
    phone.see("Movement 1 of").await;

    phone
}

async fn a_changed_value_outlives_a_kill(mut phone: Phone) -> Phone {
    phone.open().await;
    values(&mut phone).await;
    phone.kill();
    phone.open().await;
    phone.tap("Clinic values").await;
    phone.see("Set here; supplied as 500 units/mL").await;
    phone
}
