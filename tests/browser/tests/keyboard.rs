//! By a keyboard alone: each stop shows, has a name and lies in sight; the focus comes along.

use freshet_browser_tests::flows::solution::make;
use freshet_browser_tests::flows::urgent::{
    AT_POINT, POINTS, Points, STRENGTH, VIAL, begin, enough, finish, look, to_first_draw,
};
use freshet_browser_tests::phone::{By, Phone};
use std::time::Duration;

crate::on_both_engines! { an_urgent_case_by_keyboard_alone }

async fn an_urgent_case_by_keyboard_alone(mut phone: Phone) -> Phone {
    phone.by = By::Keys;
    phone.open().await;
    to_first_draw(&mut phone).await;
    let made = make(&mut phone, VIAL, STRENGTH).await;
    enough(&mut phone, &made).await;
    begin(&mut phone, 1).await;
    let mut points = Points::default();
    points.inject_until(&mut phone, 2).await;
    points.skip(&mut phone).await;
    points.inject_until(&mut phone, POINTS).await;
    finish(&mut phone, 1, points.done * AT_POINT, made.vials).await;
    phone.let_pass(Duration::from_mins(61)).await;
    phone.headed("The look is due").await;
    look(&mut phone, ("5", "2"), "Pale", "6").await;
    phone.headed("After round 1").await;
    phone.nothing_found().await;
    phone
}
