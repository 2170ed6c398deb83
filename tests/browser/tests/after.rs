//! What is proposed after a look, what changed, and what is given besides the enzyme.

use freshet_browser_tests::flows::after::{
    Given, QUESTIONS, answer, draw_again, drawn_and_looked, fared, open_one, round_whole,
};
use freshet_browser_tests::flows::outline::begin;
use freshet_browser_tests::flows::solution::make;
use freshet_browser_tests::flows::urgent::{
    AT_POINT, POINTS, Points, STRENGTH, VIAL, begin as begin_usual, finish, look, to_first_draw,
};
use freshet_browser_tests::phone::{AtEach, Phone};
use serde_json::json;
use std::time::Duration;

crate::on_both_engines! {
    a_grown_outline_asks_for_more_skin
    no_improvement_hands_over_and_all_back_stops
    aspirin_only_once_it_was_asked
    what_does_not_go_together_is_said_before
}

/// The names of the courses of the picture, and whether all of them are drawn on one width.
async fn courses(phone: &mut Phone, names: &[&str]) {
    let script = format!(
        "const found = [...document.querySelectorAll('.trend .drawing-caption span')].map((name) => norm(name.innerText));
         const widths = [...document.querySelectorAll('.trend svg')].map((svg) => Math.round(svg.getBoundingClientRect().width));
         const labels = [...document.querySelectorAll('.trend svg[role=img]')].every((svg) => svg.getAttribute('aria-label'));
         return JSON.stringify(found) === {} && new Set(widths).size === 1 && labels;",
        json!(serde_json::to_string(names).expect("names"))
    );
    phone.until(&format!("the courses {names:?}"), &script).await;
}

async fn a_grown_outline_asks_for_more_skin(mut phone: Phone) -> Phone {
    phone.at_each = AtEach::Check;
    phone.flow = "after-";
    phone.open().await;
    let given = drawn_and_looked(&mut phone, ("5", "2"), "Pale", "6").await;
    phone.see("Proposed: repeat").await;
    phone.see("The first look: there is none before it to compare with.").await;
    phone.see("Not drawn since this round.").await;
    let all = ["Refill ●, other side ◇", "Pain", "Skin without blood, as told", "Units in all"];
    courses(&mut phone, &all).await;
    phone.at("first-look").await;
    // Drawn again as it was: 52 × 27 mm are 11.0 cm².
    draw_again(&mut phone, 1, (52.0, 27.0), 11.03).await;
    phone.see_no("Not drawn since this round.").await;
    phone.tap("Prepare round 2").await;
    phone.headed("Where is the skin without blood?").await;
    let (round, vials) = begin(&mut phone, 2).await;
    round_whole(&mut phone, round, Given { vials: given.vials + vials, ..given }).await;
    look(&mut phone, ("4", "2"), "Pale", "6").await;
    phone.headed("After round 2").await;
    phone.see("Proposed: repeat").await;
    fared(&mut phone, "Refill", "better").await;
    fared(&mut phone, "Pain", "as before").await;
    fared(&mut phone, "Skin without blood", "not compared").await;
    // 60 × 40 mm are 18.8 cm².
    draw_again(&mut phone, 2, (60.0, 40.0), 18.85).await;
    phone.see("Proposed: widen").await;
    phone.see("Another round, on more skin").await;
    fared(&mut phone, "Skin without blood", "worse").await;
    fared(&mut phone, "Refill", "better").await;
    phone.tap("How each is judged").await;
    phone.see("Better: quicker by more than 0.2 s").await;
    courses(&mut phone, &all).await;
    phone.at("widen").await;
    phone.tap("All of it in numbers").await;
    phone.see("Round 2").await;
    phone.at("numbers").await;
    // The round is on the skin that has grown.
    phone.go_on("Prepare round 3, on 18.").await;
    phone.headed("Where is the skin without blood?").await;
    phone.nothing_found().await;
    phone
}

async fn no_improvement_hands_over_and_all_back_stops(mut phone: Phone) -> Phone {
    phone.open().await;
    to_first_draw(&mut phone).await;
    let made = make(&mut phone, VIAL, STRENGTH).await;
    let (mut vials, mut milli) = (made.vials, 0);
    // Four rounds without improvement are the clinic's number, as it is supplied.
    for number in 1..=4 {
        begin_usual(&mut phone, number).await;
        let mut points = Points::default();
        points.shown(&mut phone).await;
        phone.tap("All that are left").await;
        phone.tap(&format!("All {POINTS} injected, 1.20 mL in all")).await;
        points.done = POINTS;
        milli += POINTS * AT_POINT;
        points.shown(&mut phone).await;
        finish(&mut phone, number, milli, vials).await;
        phone.let_pass(Duration::from_mins(61)).await;
        look(&mut phone, ("5", "2"), "Pale", "6").await;
        phone.headed(&format!("After round {number}")).await;
        if number == 4 {
            break;
        }
        phone.see("Proposed: repeat").await;
        phone.go_on(&format!("Prepare round {}", number + 1)).await;
        phone.headed("Where is the skin without blood?").await;
        phone.go_on("500 units/mL").await;
        phone.see("Movement 1 of").await;
        phone.pause().await;
        vials += make(&mut phone, VIAL, STRENGTH).await.vials;
    }
    phone.see("Proposed: hand over").await;
    phone.see("4 rounds without improvement").await;
    fared(&mut phone, "Refill", "as before").await;
    // Looked again, and all is back: to stop is proposed.
    phone.tap("Undo this look").await;
    look(&mut phone, ("1.5", "1.5"), "As the other side", "0").await;
    phone.headed("After round 4").await;
    phone.see("Proposed: stop").await;
    fared(&mut phone, "Pain", "better").await;
    // Another round all the same is possible, and asks why.
    phone.tap("Another round").await;
    phone.headed("Do otherwise").await;
    phone.see("Proposed: Refill, colour and pain are back").await;
    phone.tap("Close").await;
    phone.tap("All back: end the treatment").await;
    phone.headed("Done").await;
    phone
}

/// To the first round's screen and from there to what is given besides.
async fn to_besides(phone: &mut Phone) {
    to_first_draw(phone).await;
    make(phone, VIAL, STRENGTH).await;
    phone.tap("Besides the enzyme").await;
    phone.headed("Besides the enzyme").await;
}

async fn aspirin_only_once_it_was_asked(mut phone: Phone) -> Phone {
    phone.at_each = AtEach::Check;
    phone.flow = "besides-";
    phone.open().await;
    to_besides(&mut phone).await;
    phone.see("None of it replaces the enzyme.").await;
    phone.at("list").await;
    open_one(&mut phone, "Aspirin").await;
    phone.see("Not before these are asked").await;
    no_dose(&mut phone).await;
    phone.at("aspirin-unasked").await;

    // An ulcer forbids it: no dose is offered, however much is confirmed.
    phone.tap("Ask the patient now").await;
    answer(&mut phone, &[(QUESTIONS[4], "Yes")]).await;
    phone.at("asking").await;
    phone.go_on("Take down: must not be given").await;
    phone.headed("Aspirin").await;
    phone.see("Aspirin must not be given").await;
    phone.see("a stomach or duodenal ulcer, now or earlier").await;
    no_dose(&mut phone).await;
    phone.at("aspirin-forbidden").await;

    // An anticoagulant is weighed by a prescriber; until then nothing is taken down as given.
    phone.tap("Ask again").await;
    answer(&mut phone, &[(QUESTIONS[3], "Yes")]).await;
    phone.go_on("Take down: a prescriber first").await;
    phone.headed("Aspirin").await;
    phone.see("A prescriber weighs it first").await;
    // Nor is a dose chosen beforehand.
    phone.tap("Given now").await;
    phone.see("Choose the dose first.").await;
    phone.tick("300 mg at once, then 75 mg each day until resolved").await;
    phone.tap("300 mg given now").await;
    phone.see("tick it once that is done").await;
    phone.headed("Aspirin").await;
    phone.at("aspirin-weighed").await;
    phone.tick("A prescriber has weighed it").await;
    phone.tap("300 mg given now").await;
    phone.headed("Besides the enzyme").await;
    phone.see("300 mg given").await;

    // A slip is struck.
    open_one(&mut phone, "Aspirin").await;
    phone.tap("The last was a slip: strike it").await;
    phone.see_no("The last was a slip").await;

    // Methotrexate is a matter of how much in a week.
    phone.tap("Ask again").await;
    answer(&mut phone, &[("Methotrexate?", "Yes")]).await;
    phone.see("Take down: not all is known").await;
    phone.type_into("How much in a week", "15").await;
    phone.see("Take down: must not be given").await;
    phone.type_into("How much in a week", "12.5").await;
    phone.go_on("Take down: may be given").await;
    phone.headed("Aspirin").await;
    phone.see("Asked: nothing speaks against it").await;
    phone.see("The UK label against clots has 300 mg each day.").await;
    phone.at("aspirin-allowed").await;
    phone.tick("650 mg, once").await;
    phone.tap("650 mg given now").await;
    phone.headed("Besides the enzyme").await;
    phone.see("650 mg given").await;
    phone.see("Salicylates in large doses may blunt the enzyme").await;
    phone.at("given").await;

    // And all of it outlives a reload, by the page's own address.
    phone.reload().await;
    phone.headed("Besides the enzyme").await;
    phone.see("650 mg given").await;
    phone.nothing_found().await;
    phone
}

/// No dose can be taken down as given.
async fn no_dose(phone: &mut Phone) {
    let script = "return !buttons().some((button) => /given now|all the same/.test(norm(button.innerText)));";
    phone.until("no dose is offered", script).await;
}

async fn what_does_not_go_together_is_said_before(mut phone: Phone) -> Phone {
    phone.at_each = AtEach::Check;
    phone.flow = "together-";
    phone.open().await;
    to_besides(&mut phone).await;
    open_one(&mut phone, "Warm compress").await;
    phone.see("take it away 5 min before refill is timed").await;
    phone.tap("Given now").await;
    phone.headed("Besides the enzyme").await;
    phone.see("Warm skin refills quickly").await;

    // Before the second of two that exclude each other.
    open_one(&mut phone, "Cold compress").await;
    phone.see("Warmth widens the vessels that cold narrows").await;
    phone.at("before").await;
    phone.tap("Given all the same").await;
    phone.headed("Besides the enzyme").await;
    phone.see("Warmth widens the vessels that cold narrows").await;
    phone.at("both").await;
    open_one(&mut phone, "Cold compress").await;
    phone.tap("Stopped, taken away").await;
    phone.see_no("Warmth widens the vessels that cold narrows").await;

    // Clopidogrel is for a prescriber, whatever was asked.
    open_one(&mut phone, "Clopidogrel").await;
    phone.tick("300 mg at once, then 75 mg each day until resolved").await;
    phone.tap("300 mg given now").await;
    phone.see("tick it once that is done").await;
    phone.tap("Not possible, because").await;
    phone.at("clopidogrel").await;
    phone.tap("nobody here may prescribe it").await;
    phone.headed("Besides the enzyme").await;
    phone.see("not possible").await;
    open_one(&mut phone, "Hyperbaric oxygen").await;
    phone.tap("Not wanted").await;
    phone.see("not wanted").await;
    phone.tap("Back to the case").await;
    phone.see("Given: warm compress").await;
    phone.at("ready").await;
    phone.nothing_found().await;
    phone
}
