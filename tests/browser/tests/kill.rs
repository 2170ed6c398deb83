//! The browser is killed right after a tap was acknowledged. Nothing acknowledged may be lost.

use freshet_browser_tests::flows::around::open_case;
use freshet_browser_tests::flows::solution::make;
use freshet_browser_tests::flows::urgent::{
    AT_POINT, POINTS, Points, STRENGTH, VIAL, begin, finish, to_first_draw,
};
use freshet_browser_tests::phone::Phone;

crate::on_both_engines! { killed_again_and_again }

/// Kills and opens again, and goes back into the case as a user does.
async fn kill_and_open(phone: &mut Phone) {
    phone.kill();
    phone.open().await;
    open_case(phone).await;
}

async fn killed_again_and_again(mut phone: Phone) -> Phone {
    phone.open().await;
    to_first_draw(&mut phone).await;

    // 1: in the middle of a preparation, after the first movement.
    let first = phone.heading().await;
    phone.tap("Drawn, 1.00 mL").await;
    phone.see("Movement 2 of").await;
    let second = phone.heading().await;
    phone.sure(first != second, "the second movement is the first").await;
    kill_and_open(&mut phone).await;
    phone.headed(&second).await;
    phone.see("Movement 2 of").await;
    // Taken back, so that the whole of it is made under the test's own arithmetic.
    phone.tap("Back").await;
    phone.see("Movement 1 of").await;
    phone.tap("It was not so: take it back").await;
    phone.see_no("It was not so").await;
    phone.see("Movement 1 of").await;
    let made = make(&mut phone, VIAL, STRENGTH).await;

    // 2: the moment the first point is in.
    begin(&mut phone, 1).await;
    let mut points = Points::default();
    points.inject(&mut phone).await;
    kill_and_open(&mut phone).await;
    points.shown(&mut phone).await;

    // 3: after one was left out.
    points.inject_until(&mut phone, 4).await;
    points.skip(&mut phone).await;
    kill_and_open(&mut phone).await;
    points.shown(&mut phone).await;

    // 4: after one was undone.
    points.inject_until(&mut phone, 8).await;
    phone.tap("Undo 8").await;
    points.done -= 1;
    points.shown(&mut phone).await;
    kill_and_open(&mut phone).await;
    points.shown(&mut phone).await;

    // 5: all settled, the round not finished.
    points.inject_until(&mut phone, POINTS).await;
    kill_and_open(&mut phone).await;
    points.shown(&mut phone).await;
    phone.headed(&format!("All {POINTS} points settled")).await;

    // 6: while the hour runs; it goes on by the clock, not by what was counted.
    finish(&mut phone, 1, points.done * AT_POINT, made.vials).await;
    let due = due(&mut phone).await;
    kill_and_open(&mut phone).await;
    phone.headed("Look again in").await;
    phone.see(&due).await;
    phone.see("Round 1 done").await;

    // And no entry is said to be damaged or kept in one place only.
    let text = phone.text().await;
    for word in ["damaged", "one place only", "not saved", "could not be read"] {
        phone.sure(!text.contains(word), &format!("after kills the screen says {word:?}")).await;
    }
    phone
}

/// The hour and minute at which the look is due, as it is said: "at 14:05".
async fn due(phone: &mut Phone) -> String {
    let text = phone.text().await;
    let due = text.split(" at ").skip(1).find_map(|rest| {
        let hour = rest.get(..5)?;
        let digits = hour
            .bytes()
            .enumerate()
            .all(|(n, b)| if n == 2 { b == b':' } else { b.is_ascii_digit() });
        digits.then(|| format!("at {hour}"))
    });
    match due {
        Some(due) => due,
        None => phone.fail("the hour of the next look is not said").await,
    }
}
