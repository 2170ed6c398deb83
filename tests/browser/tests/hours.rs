//! A case of several rounds: its clock shifted, the browser killed in each state, the phone asleep.

use freshet_browser_tests::flows::around::{home, open_case};
use freshet_browser_tests::flows::solution::{make, units};
use freshet_browser_tests::flows::urgent::{
    AT_POINT, POINTS, Points, STRENGTH, VIAL, begin, enough, finish, look, prepare_again,
    to_first_draw,
};
use freshet_browser_tests::phone::Phone;
use std::time::Duration;

crate::on_both_engines! {
    four_rounds_by_a_shifted_clock
    killed_in_each_state_after_a_round
    asleep_across_the_due_moment
    the_clock_is_set_back_and_forward
}

/// A round as it is planned, every point in.
async fn whole_round(phone: &mut Phone, number: u64, given: &mut u64, vials: u64) {
    begin(phone, number).await;
    let mut points = Points::default();
    points.inject_until(phone, POINTS).await;
    *given += points.done * AT_POINT;
    finish(phone, number, *given, vials).await;
}

/// To the hour after the first round. Returns what was given, in thousandths of a unit.
async fn to_the_hour(phone: &mut Phone) -> u64 {
    to_first_draw(phone).await;
    let made = make(phone, VIAL, STRENGTH).await;
    let mut given = 0;
    whole_round(phone, 1, &mut given, made.vials).await;
    given
}

/// Over the hour, in steps across midnight if it comes so: the look is due at its moment.
async fn hour_passes(phone: &mut Phone) {
    phone.let_pass(Duration::from_mins(59)).await;
    phone.headed("Look again in").await;
    phone.let_pass(Duration::from_mins(2)).await;
    phone.headed("The look is due").await;
}

async fn four_rounds_by_a_shifted_clock(mut phone: Phone) -> Phone {
    phone.open().await;
    to_first_draw(&mut phone).await;
    let mut given = 0;
    let mut vials = 0;
    // Refill of the affected side, colour and pain after each round; the last is the end point.
    let looks = [("5", "Pale", "6"), ("4.1", "Pale", "4"), ("3", "Pale", "2")];
    for (number, (refill, colour, pain)) in (1..).zip(looks) {
        let made = make(&mut phone, VIAL, STRENGTH).await;
        enough(&mut phone, &made).await;
        vials += made.vials;
        whole_round(&mut phone, number, &mut given, vials).await;
        hour_passes(&mut phone).await;
        look(&mut phone, (refill, "2"), colour, pain).await;
        phone.headed(&format!("After round {number}")).await;
        phone.see("Another round").await;
        prepare_again(&mut phone, number + 1, given).await;
    }
    let made = make(&mut phone, VIAL, STRENGTH).await;
    whole_round(&mut phone, 4, &mut given, vials + made.vials).await;
    hour_passes(&mut phone).await;
    look(&mut phone, ("1.5", "1.5"), "As the other side", "0").await;
    phone.headed("After round 4").await;
    phone.see("Refill, colour and pain are back").await;
    phone.tap("All back: end the treatment").await;
    phone.headed("Done").await;
    assert_eq!(given, 4 * POINTS * AT_POINT, "each round was whole");
    phone.reads("Given in all", &format!("{} units", units(given))).await;
    phone.reads("Rounds", "4").await;
    phone
}

async fn killed_in_each_state_after_a_round(mut phone: Phone) -> Phone {
    phone.open().await;
    let given = to_the_hour(&mut phone).await;

    // Due: it is still due, and not anew.
    phone.let_pass(Duration::from_mins(63)).await;
    phone.headed("The look is due").await;
    kill_and_open(&mut phone).await;
    phone.headed("The look is due").await;

    // While looking nothing is recorded yet; the look is still due, and nothing is half taken down.
    phone.tap("Look now").await;
    phone.headed("What does the skin show?").await;
    phone.tick("Pale").await;
    kill_and_open(&mut phone).await;
    phone.headed("The look is due").await;

    // Looked: what was proposed is proposed again.
    look(&mut phone, ("5", "2"), "Pale", "6").await;
    phone.headed("After round 1").await;
    kill_and_open(&mut phone).await;
    phone.headed("After round 1").await;
    phone.see("Another round").await;

    // Ready for the second round, with a solution made.
    prepare_again(&mut phone, 2, given).await;
    make(&mut phone, VIAL, STRENGTH).await;
    phone.reads("Given so far", &format!("{} units", units(given))).await;
    kill_and_open(&mut phone).await;
    phone.reads("Given so far", &format!("{} units", units(given))).await;

    // In a reaction: the next dose is due when it was.
    phone.tap("Anaphylaxis").await;
    phone.headed("Adrenaline now").await;
    phone.tap("Adrenaline given, 0.50 mL").await;
    phone.headed("Again in").await;
    phone.kill();
    phone.open().await;
    open_case(&mut phone).await;
    phone.tap("Anaphylaxis").await;
    phone.headed("Again in").await;
    phone.tap("Better").await;
    phone.headed("Better. Stay and watch").await;
    phone.kill();
    phone.open().await;
    open_case(&mut phone).await;
    phone.tap("Anaphylaxis").await;
    phone.headed("Better. Stay and watch").await;

    let text = phone.text().await;
    for word in ["damaged", "one place only", "not saved", "could not be read"] {
        phone.sure(!text.contains(word), &format!("after kills the screen says {word:?}")).await;
    }
    phone
}

/// Kills and opens again, and goes back into the case as a user does.
async fn kill_and_open(phone: &mut Phone) {
    phone.kill();
    phone.open().await;
    open_case(phone).await;
}

async fn asleep_across_the_due_moment(mut phone: Phone) -> Phone {
    phone.open().await;
    to_the_hour(&mut phone).await;
    // The same page wakes, half an hour late: nothing counted the ticks that it missed.
    phone.sleep(Duration::from_mins(90)).await;
    phone.headed("The look is due").await;
    let late = clock(&mut phone).await;
    phone.sure((29 * 60..=31 * 60).contains(&late), &format!("{late} s overdue")).await;
    // A phone that slept has no clock that jumped.
    phone.see_no("clock").await;
    // Asleep over a day and midnight: later still, and right.
    phone.sleep(Duration::from_hours(25)).await;
    let late = clock(&mut phone).await;
    let whole = Duration::from_mins(25 * 60 + 30).as_secs();
    phone.sure((whole - 60..=whole + 60).contains(&late), &format!("{late} s overdue")).await;
    phone
}

async fn the_clock_is_set_back_and_forward(mut phone: Phone) -> Phone {
    phone.open().await;
    to_the_hour(&mut phone).await;
    let left = clock(&mut phone).await;
    // Back by half an hour in full view: said, recorded, and the look stays as far away.
    phone.turn_clock(-30 * 60).await;
    phone.see("clock was set back").await;
    as_before(&mut phone, left).await;
    // Forward again, and no further off than it was.
    phone.turn_clock(30 * 60).await;
    phone.see("clock was set forward").await;
    as_before(&mut phone, left).await;
    home(&mut phone).await;
    phone
}

/// Waits until the large clock shows within a minute of what it showed. That the clock was set is said
/// at once, and counts once it is written.
async fn as_before(phone: &mut Phone, before: u64) {
    let start = std::time::Instant::now();
    loop {
        let after = clock(phone).await;
        if before.abs_diff(after) < 60 {
            return;
        }
        let late = start.elapsed() > freshet_browser_tests::eye::PATIENCE;
        phone.sure(!late, &format!("{before} s before, {after} s after")).await;
        tokio::time::sleep(std::time::Duration::from_millis(60)).await;
    }
}

/// The seconds that the large clock shows.
async fn clock(phone: &mut Phone) -> u64 {
    const SHOWN: &str = "return norm(document.querySelector('[role=timer]')?.innerText ?? '');";
    let shown = phone.run(SHOWN, vec![]).await.as_str().unwrap_or_default().to_owned();
    let digits = |part: &str| {
        part.chars().filter(char::is_ascii_digit).collect::<String>().parse::<u64>().ok()
    };
    let parts: Vec<u64> = shown.split(':').filter_map(digits).collect();
    parts.into_iter().fold(0, |sum, part| sum * 60 + part)
}
