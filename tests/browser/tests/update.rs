//! A new version: fetched beside the old one, offered only when nothing runs, taken when asked.

use crate::offline::KEPT;
use freshet_browser_tests::build::{another_version, dist};
use freshet_browser_tests::flows::solution::make;
use freshet_browser_tests::flows::urgent::{Points, STRENGTH, VIAL, begin, to_first_draw};
use freshet_browser_tests::phone::Phone;
use serde_json::json;
use std::time::Duration;

crate::on_both_engines! { a_new_version_waits_for_the_round }

const VERSION: &str = "return document.documentElement.dataset.version;";

async fn a_new_version_waits_for_the_round(mut phone: Phone) -> Phone {
    phone.open().await;
    phone.until("the app is on the phone", KEPT).await;
    let old = phone.run(VERSION, vec![]).await;
    to_first_draw(&mut phone).await;
    make(&mut phone, VIAL, STRENGTH).await;
    begin(&mut phone, 1).await;
    let mut points = Points::default();
    points.inject(&mut phone).await;

    // The host has a new version; the phone looks, as it does each quarter of an hour.
    let folder = std::env::temp_dir().join(format!(
        "freshet-next-{}-{}",
        std::process::id(),
        phone.engine.name()
    ));
    let new = another_version(&dist(), &folder);
    phone.server.restart(Some(&folder));
    phone.run("dispatchEvent(new Event('freshet-check')); return true;", vec![]).await;
    let waiting = "return document.documentElement.dataset.update === 'waiting';";
    phone.until("the new version is on the phone", waiting).await;

    // In the middle of a round nothing is said, and the old one goes on.
    tokio::time::sleep(Duration::from_millis(1500)).await;
    points.shown(&mut phone).await;
    let text = phone.text().await;
    phone.sure(!text.contains("new version"), "a new version is offered in a round").await;
    points.inject(&mut phone).await;
    let offered = phone.text().await.contains("new version");
    phone.sure(!offered && phone.run(VERSION, vec![]).await == old, "the version changed").await;

    // Handed over: nothing runs any more.
    phone.tap("Sight or stroke signs").await;
    phone.headed("Any of these now?").await;
    phone.at("hand-over").await;
    phone.tap("Sight changed, or pain in the eye").await;
    phone.tap("Handed over: close the case").await;
    phone.headed("Handed over: Sight changed").await;
    phone.see("A new version is ready.").await;
    phone.at("update").await;
    phone.tap("Take it").await;
    let script = format!("return document.documentElement.dataset.version === {};", json!(new));
    phone.until("the new version runs", &script).await;
    phone.settled().await;
    // With the record as it was.
    phone.headed("Handed over: Sight changed").await;
    phone.reads("Given in all", "100 units").await;
    // Left behind only in the folder for temporary files.
    let _ = std::fs::remove_dir_all(folder);
    phone
}
