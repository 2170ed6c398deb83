//! The passcode: what lies sealed, what is in reach without it, and what a wrong one costs.

use freshet_browser_tests::flows::around::{home, open_case};
use freshet_browser_tests::flows::lock::{CODE, lying, set, unlock};
use freshet_browser_tests::flows::outline::{EMPTY, draw_lips};
use freshet_browser_tests::flows::photos::lay_and_open;
use freshet_browser_tests::flows::records::{closed_case, lay_in_archive, lay_near};
use freshet_browser_tests::flows::solution::make;
use freshet_browser_tests::flows::urgent::{STRENGTH, VIAL, begin, to_first_draw};
use freshet_browser_tests::phone::{AtEach, Phone};
use std::time::Duration;

/// Another passcode.
const OTHER: &str = "five wells south";

crate::on_both_engines! {
    everything_lies_sealed_and_is_read_with_the_passcode
    a_case_begun_while_locked_is_sealed_and_joins_the_records
    it_locks_itself_and_leaves_the_running_case_in_reach
    wrong_passcodes_slow_down
    a_passcode_is_changed_and_taken_off
    photos_lie_sealed_too
    a_passcode_of_another_tab_is_not_set_anew
    another_tab_hears_of_the_passcode
    what_is_half_drawn_lies_sealed_too
}

/// One closed case on the shelves and one in the archive.
async fn two_cases(phone: &mut Phone) {
    phone.open().await;
    lay_near(phone, &[closed_case(1, 12)]).await;
    lay_in_archive(phone, &[closed_case(2, 12)]).await;
    home(phone).await;
    phone.see("DEMO 0001").await;
    phone.see("DEMO 0002").await;
}

/// To the start screen without loading the page again, which would put the keys away.
async fn to_start(phone: &mut Phone) {
    for _ in 0..8 {
        if !phone.offers("New case").await {
            phone.tap("Back").await;
            phone.settled().await;
        }
    }
    phone.see("New case").await;
}

async fn everything_lies_sealed_and_is_read_with_the_passcode(mut phone: Phone) -> Phone {
    phone.at_each = AtEach::Check;
    two_cases(&mut phone).await;
    let before = lying(&mut phone, "Colour at point").await;
    phone.sure(before.0 > 24 && before.1 == 0 && before.2, &format!("{before:?} lie open")).await;

    // What is missing is told, and nothing is set.
    phone.tap("Passcode").await;
    phone.at("lock-unset").await;
    for (new, again, why) in [
        ("short", "short", "Six characters at least."),
        (CODE, "four wells south", "The two are not the same."),
        (CODE, CODE, "Tick first that you know it is final."),
    ] {
        phone.type_into("New passcode", new).await;
        phone.type_into("The same again", again).await;
        phone.see(why).await;
    }
    home(&mut phone).await;
    set(&mut phone, CODE).await;
    phone.see("Set: the records are sealed").await;
    let after = lying(&mut phone, "Colour at point").await;
    phone.sure(after == (0, before.0, false), &format!("{after:?} of {before:?}")).await;

    // A page that was loaded again knows nothing.
    phone.see("Records are sealed.").await;
    phone.see_no("DEMO").await;
    phone.at("lock-home").await;
    phone.tap("Records").await;
    phone.headed("This is sealed").await;
    phone.at("lock-page").await;
    unlock(&mut phone, "four wells south").await;
    phone.see("Not the passcode.").await;
    phone.at("lock-wrong").await;
    unlock(&mut phone, CODE).await;
    phone.headed("Records").await;
    phone.see("2 cases").await;
    phone.tap("DEMO 0002").await;
    phone.see("Chain whole: 12 entries").await;

    // An address of a case asks for it, and shows it then.
    phone.reload().await;
    phone.headed("This case is sealed").await;
    phone.see_no("Colour at point").await;
    phone.at("lock-case").await;
    unlock(&mut phone, CODE).await;
    phone.see("Chain whole: 12 entries").await;
    phone.nothing_found().await;
    phone
}

async fn a_case_begun_while_locked_is_sealed_and_joins_the_records(mut phone: Phone) -> Phone {
    two_cases(&mut phone).await;
    set(&mut phone, CODE).await;
    phone.reload().await;
    phone.see("Records are sealed.").await;

    // The whole urgent way without the passcode, to the first movement.
    to_first_draw(&mut phone).await;
    let place = phone.heading().await;
    home(&mut phone).await;
    phone.see("Records are sealed.").await;
    phone.see_no("Open cases").await;
    let lies = lying(&mut phone, "Opened").await;
    phone.sure(lies.0 == 0 && !lies.2, &format!("{lies:?} lie open")).await;

    unlock(&mut phone, CODE).await;
    phone.see("DEMO 0001").await;
    open_case(&mut phone).await;
    phone.headed(&place).await;
    make(&mut phone, VIAL, STRENGTH).await;
    begin(&mut phone, 1).await;
    home(&mut phone).await;
    unlock(&mut phone, CODE).await;
    open_case(&mut phone).await;
    phone.headed("Point 1 0.10 mL").await;
    let lies = lying(&mut phone, "Opened").await;
    phone.sure(lies.0 == 0 && !lies.2, &format!("{lies:?} lie open")).await;
    phone
}

async fn it_locks_itself_and_leaves_the_running_case_in_reach(mut phone: Phone) -> Phone {
    two_cases(&mut phone).await;
    set(&mut phone, CODE).await;
    unlock(&mut phone, CODE).await;
    phone.see("DEMO 0001").await;
    to_first_draw(&mut phone).await;
    // Five minutes untouched, in the middle of it.
    phone.sleep(Duration::from_secs(290)).await;
    to_start(&mut phone).await;
    phone.see("DEMO 0001").await;
    phone.sleep(Duration::from_secs(310)).await;
    phone.see("Records are sealed.").await;
    phone.see_no("DEMO").await;
    open_case(&mut phone).await;
    make(&mut phone, VIAL, STRENGTH).await;
    begin(&mut phone, 1).await;
    home(&mut phone).await;
    unlock(&mut phone, CODE).await;
    phone.see("DEMO 0001").await;
    open_case(&mut phone).await;
    phone.headed("Point 1 0.10 mL").await;
    phone
}

async fn wrong_passcodes_slow_down(mut phone: Phone) -> Phone {
    two_cases(&mut phone).await;
    set(&mut phone, CODE).await;
    home(&mut phone).await;
    for _ in 0..4 {
        unlock(&mut phone, "0000000").await;
        phone.see("Not the passcode.").await;
    }
    unlock(&mut phone, "0000000").await;
    phone.see("Too many wrong ones. Try again in").await;
    // Nor does a page that is loaded again let another try through.
    phone.reload().await;
    phone.see("Too many wrong ones. Try again in").await;
    unlock(&mut phone, CODE).await;
    phone.see("Records are sealed.").await;
    phone.let_pass(Duration::from_secs(20)).await;
    phone.see_no("Too many wrong ones").await;
    unlock(&mut phone, CODE).await;
    phone.see("DEMO 0001").await;
    phone
}

async fn a_passcode_is_changed_and_taken_off(mut phone: Phone) -> Phone {
    phone.at_each = AtEach::Check;
    two_cases(&mut phone).await;
    let before = lying(&mut phone, "Colour at point").await;
    set(&mut phone, CODE).await;
    unlock(&mut phone, CODE).await;
    phone.see("DEMO 0001").await;
    phone.tap("Passcode").await;
    phone.see("Set, and unlocked now.").await;
    phone.at("lock-open").await;
    phone.tap("Change the passcode").await;
    phone.type_into("Passcode now", CODE).await;
    phone.type_into("New passcode", OTHER).await;
    phone.type_into("The same again", OTHER).await;
    phone.at("lock-change").await;
    phone.tap("Change the passcode").await;
    phone.see("Changed.").await;
    home(&mut phone).await;
    unlock(&mut phone, CODE).await;
    phone.see("Not the passcode.").await;
    unlock(&mut phone, OTHER).await;
    phone.see("DEMO 0001").await;

    phone.tap("Passcode").await;
    phone.tap("Take the passcode off").await;
    phone.type_into("Passcode now", CODE).await;
    phone.tap("Take the passcode off").await;
    phone.see("Not the passcode.").await;
    phone.type_into("Passcode now", OTHER).await;
    phone.at("lock-clear").await;
    phone.tap("Take the passcode off").await;
    phone.see("Taken off. Records lie open.").await;
    let after = lying(&mut phone, "Colour at point").await;
    phone.sure(after == before, &format!("{after:?} lie, not {before:?}")).await;
    home(&mut phone).await;
    phone.see("DEMO 0002").await;
    phone.nothing_found().await;
    phone
}

async fn photos_lie_sealed_too(mut phone: Phone) -> Phone {
    phone.open().await;
    lay_and_open(&mut phone, 2).await;
    home(&mut phone).await;
    set(&mut phone, CODE).await;
    let lies = lying(&mut phone, "photo").await;
    phone.sure(lies.0 == 0 && !lies.2, &format!("{lies:?} lie open")).await;
    phone
}

/// In a browser that tells no tab which of them writes, nor what the other did, both may set a passcode.
/// The second would take the keys to all that is sealed under the first.
async fn a_passcode_of_another_tab_is_not_set_anew(mut phone: Phone) -> Phone {
    const ALONE: &str =
        "Object.defineProperty(Navigator.prototype, 'locks', { get: () => undefined });
        addEventListener('storage', (event) => event.stopImmediatePropagation(), true);";
    phone.start().await;
    phone.before_each_page(ALONE).await;
    let url = phone.server.url();
    phone.go(&url).await;
    phone.see("New case").await;
    lay_near(&mut phone, &[closed_case(1, 12)]).await;
    home(&mut phone).await;
    phone.tap("Passcode").await;
    let (first, second) = phone.another_tab().await;
    home(&mut phone).await;
    set(&mut phone, CODE).await;

    phone.turn_to(&first).await;
    phone.type_into("New passcode", "five wells south").await;
    phone.type_into("The same again", "five wells south").await;
    phone.tick("I know that a forgotten passcode is final").await;
    phone.go_on("Set the passcode").await;
    phone.see("Not done: another tab wrote it meanwhile.").await;
    home(&mut phone).await;
    unlock(&mut phone, "five wells south").await;
    phone.see("Not the passcode.").await;
    unlock(&mut phone, CODE).await;
    phone.see("DEMO 0001").await;
    phone.turn_to(&second).await;
    phone
}

async fn another_tab_hears_of_the_passcode(mut phone: Phone) -> Phone {
    two_cases(&mut phone).await;
    let (first, second) = phone.another_tab().await;
    phone.see("DEMO 0001").await;

    // Set where the writing is, and gone from the other, untouched.
    phone.turn_to(&first).await;
    set(&mut phone, CODE).await;
    phone.turn_to(&second).await;
    phone.see("Records are sealed.").await;
    phone.see_no("DEMO").await;
    unlock(&mut phone, CODE).await;
    phone.see("DEMO 0001").await;

    // Changed, it stays open: the keys are the same.
    phone.turn_to(&first).await;
    phone.tap("Write here instead").await;
    unlock(&mut phone, CODE).await;
    phone.see("DEMO 0001").await;
    phone.tap("Passcode").await;
    phone.tap("Change the passcode").await;
    phone.type_into("Passcode now", CODE).await;
    phone.type_into("New passcode", OTHER).await;
    phone.type_into("The same again", OTHER).await;
    phone.tap("Change the passcode").await;
    phone.see("Changed.").await;
    phone.turn_to(&second).await;
    phone.see("DEMO 0001").await;
    phone.reload().await;
    unlock(&mut phone, CODE).await;
    phone.see("Not the passcode.").await;

    // Taken off, it opens by itself.
    phone.turn_to(&first).await;
    phone.tap("Back").await;
    phone.tap("Passcode").await;
    phone.tap("Take the passcode off").await;
    phone.type_into("Passcode now", OTHER).await;
    phone.tap("Take the passcode off").await;
    phone.see("Taken off. Records lie open.").await;
    phone.turn_to(&second).await;
    phone.see("DEMO 0001").await;
    phone.see("DEMO 0002").await;
    phone
}

/// How many outlines are kept half drawn, and how many of them lie sealed.
async fn drafts(phone: &mut Phone) -> (u64, u64) {
    const COUNT: &str = "
        const all = Object.entries(localStorage).filter(([key]) => key.startsWith('freshet/drawing/'));
        return [all.length, all.filter(([, text]) => text.startsWith('sealed:')).length];";
    let found = phone.run(COUNT, vec![]).await;
    (found[0].as_u64().unwrap_or(u64::MAX), found[1].as_u64().unwrap_or(u64::MAX))
}

async fn what_is_half_drawn_lies_sealed_too(mut phone: Phone) -> Phone {
    phone.open().await;
    draw_lips(&mut phone).await;
    let size = phone.heading().await;
    let lie = drafts(&mut phone).await;
    phone.sure(lie == (1, 0), &format!("{lie:?} drafts")).await;
    let place = phone.client().current_url().await.expect("an address").to_string();
    home(&mut phone).await;
    set(&mut phone, CODE).await;
    let lie = drafts(&mut phone).await;
    phone.sure(lie == (1, 1), &format!("{lie:?} drafts")).await;

    // Gone on with after a reload, and kept sealed while it is.
    phone.go(&place).await;
    phone.headed("This case is sealed").await;
    unlock(&mut phone, CODE).await;
    phone.headed(&size).await;
    phone.tap("Start anew").await;
    phone.headed(EMPTY).await;
    let lie = drafts(&mut phone).await;
    phone.sure(lie == (1, 1), &format!("{lie:?} drafts")).await;

    // One that is begun without the keys is sealed all the same, and opened with them.
    home(&mut phone).await;
    phone.see("Records are sealed.").await;
    draw_lips(&mut phone).await;
    let lie = drafts(&mut phone).await;
    phone.sure(lie == (2, 2), &format!("{lie:?} drafts")).await;
    let place = phone.client().current_url().await.expect("an address").to_string();
    phone.reload().await;
    unlock(&mut phone, CODE).await;
    phone.headed(&size).await;
    phone.sure(place.contains("outline"), &place).await;

    // Without a passcode they lie open again.
    home(&mut phone).await;
    unlock(&mut phone, CODE).await;
    phone.tap("Passcode").await;
    phone.tap("Take the passcode off").await;
    phone.type_into("Passcode now", CODE).await;
    phone.tap("Take the passcode off").await;
    phone.see("Taken off. Records lie open.").await;
    let lie = drafts(&mut phone).await;
    phone.sure(lie == (2, 0), &format!("{lie:?} drafts")).await;
    phone
}
