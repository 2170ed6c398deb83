//! The app in two tabs: one writes, the other says so and can take over. The record never forks.

use freshet_browser_tests::flows::around::open_case;
use freshet_browser_tests::flows::urgent::to_first_draw;
use freshet_browser_tests::phone::Phone;

crate::on_both_engines! { two_tabs_take_turns }

const OTHER: &str = "Freshet is open in another tab, which writes.";

async fn two_tabs_take_turns(mut phone: Phone) -> Phone {
    phone.open().await;
    to_first_draw(&mut phone).await;

    let (first, _) = phone.another_tab().await;
    phone.see(OTHER).await;
    phone.tap("Write here instead").await;
    phone.see_no(OTHER).await;
    open_case(&mut phone).await;
    phone.see("Movement 1 of").await;
    phone.pause().await;
    phone.tap("Drawn, 1.00 mL").await;
    phone.see("Movement 2 of").await;

    // The first tab lost its turn, and takes it back with what the other has written.
    phone.turn_to(&first).await;
    phone.see(OTHER).await;
    phone.at("other-tab").await;
    phone.tap("Write here instead").await;
    phone.see_no(OTHER).await;
    phone.see("Movement 2 of").await;
    phone.pause().await;
    phone.tap("Dissolved").await;
    phone.see("Movement 3 of").await;

    // One record, without a gap and without a fork.
    phone.reload().await;
    phone.see("Movement 3 of").await;
    let place = phone.run("return location.search;", vec![]).await;
    let place = place.as_str().unwrap_or_default().replace("&step=syringe", "");
    let record = format!("{}{place}&page=timeline", phone.server.url());
    phone.go(&record).await;
    phone.headed("The record").await;
    phone.see("Chain whole").await;
    phone
}
