//! The main job in WebKitGTK, which is Safari's engine. Left out is what its browser for automation
//! cannot do: keep anything once it ends (so nothing is killed here), be told of requests, run a
//! script before the page's own (so time passes as it does for a page that slept), be dark by the
//! phone's setting, or be touched by two fingers.

use crate::offline::KEPT;
use freshet_browser_tests::flows::around::{home, open_case};
use freshet_browser_tests::flows::solution::{make, units};
use freshet_browser_tests::flows::urgent::{
    AT_POINT, POINTS, STRENGTH, VIAL, begin, enough, finish, look, round_with_slips, to_first_draw,
};
use freshet_browser_tests::phone::{AtEach, Phone};
use std::time::Duration;

crate::on_engine! { webkit WebKit: the_main_job_in_safaris_engine }

async fn the_main_job_in_safaris_engine(mut phone: Phone) -> Phone {
    phone.at_each = AtEach::Fit;
    phone.open().await;
    phone.until("the app is on the phone", KEPT).await;
    to_first_draw(&mut phone).await;
    // From here on without a network.
    phone.server.stop();
    let heading = phone.heading().await;
    phone.reload().await;
    phone.headed(&heading).await;
    let made = make(&mut phone, VIAL, STRENGTH).await;
    enough(&mut phone, &made).await;
    begin(&mut phone, 1).await;
    phone.at_each = AtEach::Nothing;
    let points = round_with_slips(&mut phone).await;
    phone.reload().await;
    phone.headed(&format!("All {POINTS} points settled")).await;
    finish(&mut phone, 1, points.done * AT_POINT, made.vials).await;
    home(&mut phone).await;
    open_case(&mut phone).await;
    phone.headed("Look again in").await;
    phone.sleep(Duration::from_mins(61)).await;
    phone.headed("The look is due").await;
    look(&mut phone, ("1.5", "1.5"), "As the other side", "0").await;
    phone.headed("After round 1").await;
    phone.tap("All back: end the treatment").await;
    phone.headed("Done").await;
    let given = units(points.done * AT_POINT);
    phone.reads("Given in all", &format!("{given} units")).await;
    phone.tap("To the start").await;
    phone.see("Open cases").await;
    phone.tap("Records").await;
    phone.see("Urgent").await;
    phone.nothing_found().await;
    let version = phone.client().capabilities().and_then(|all| all.get("browserVersion"));
    eprintln!("WebKitGTK {}", version.and_then(|text| text.as_str()).unwrap_or("of some version"));
    phone
}
