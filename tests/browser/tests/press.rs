//! What a press is for happens, however late the browser paints.

use freshet_browser_tests::flows::around::open_case;
use freshet_browser_tests::flows::solution::make;
use freshet_browser_tests::flows::urgent::{Points, STRENGTH, VIAL, begin, to_first_draw};
use freshet_browser_tests::phone::Phone;

crate::on_both_engines! { taken_down_within_the_tap led_on_though_its_screen_is_gone }

/// No frame and no timer comes any more, as where the phone is laid down right after the tap.
const STILL: &str = "
    window.requestAnimationFrame = () => 1;
    window.setTimeout = () => 1;
    return true;";

/// Frames come late, as on a busy phone.
const LATE: &str = "
    const frame = window.requestAnimationFrame.bind(window);
    window.requestAnimationFrame = (act) => window.setTimeout(() => frame(act), 90);
    return true;";

async fn taken_down_within_the_tap(mut phone: Phone) -> Phone {
    phone.open().await;
    to_first_draw(&mut phone).await;
    make(&mut phone, VIAL, STRENGTH).await;
    begin(&mut phone, 1).await;
    let mut points = Points::default();
    points.inject(&mut phone).await;
    phone.run(STILL, vec![]).await;
    points.inject(&mut phone).await;
    phone.kill();
    phone.open().await;
    open_case(&mut phone).await;
    points.shown(&mut phone).await;
    phone
}

async fn led_on_though_its_screen_is_gone(mut phone: Phone) -> Phone {
    phone.open().await;
    to_first_draw(&mut phone).await;
    make(&mut phone, VIAL, STRENGTH).await;
    begin(&mut phone, 1).await;
    phone.run(LATE, vec![]).await;
    phone.tap("Sight or stroke signs").await;
    phone.tap("Sight changed, or pain in the eye").await;
    // The sheet that it stands in closes at once.
    phone.tap("Read out or share the sheet").await;
    phone.headed("Hand-over").await;
    phone.see("Read this out").await;
    phone
}
