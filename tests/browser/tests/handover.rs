//! Whom to call, what is read out, and the signs that go before everything.

use freshet_browser_tests::flows::around::{clock, home};
use freshet_browser_tests::flows::calling::{
    EYES, back_to_case, contacts, dialled, links, shared, to_contacts, watch, ways,
};
use freshet_browser_tests::flows::solution::{make, units};
use freshet_browser_tests::flows::urgent::{
    AT_POINT, POINTS, Points, STRENGTH, VIAL, begin, finish, look, prepare_again, to_first_draw,
};
use freshet_browser_tests::phone::{AtEach, Phone};
use std::time::Duration;

crate::on_both_engines! {
    contacts_are_typed_and_called
    sight_noticed_in_the_hour
    a_sign_noted_by_mistake
    every_round_is_read_out
    adrenaline_by_weight_and_by_age
    how_long_to_watch_in_both_regions
    nothing_known_is_read_out_too
}

const SIGHT: &str = "Sight changed, or pain in the eye";
/// What the worker says when the notification of this case is tapped.
const TAPPED: &str = "navigator.serviceWorker.dispatchEvent(new MessageEvent('message', \
    { data: { type: 'chosen', case: arguments[0] } })); return true;";
const TO_SHEET: &str = "Read out or share the sheet";

/// Switched on, with nothing that dials or shares for real.
async fn watched(phone: &mut Phone) {
    phone.start().await;
    watch(phone).await;
    let url = phone.server.url();
    phone.go(&url).await;
    phone.see("New case").await;
}

/// Looks at this screen by every check, in light and dark and at the narrowest.
async fn checked(phone: &mut Phone, name: &str) {
    phone.at_each = AtEach::Check;
    phone.at(name).await;
    phone.at_each = AtEach::Nothing;
}

/// The hours that the phone's clock shows now and showed a minute ago. Not by the page's `Date.now`,
/// which a driver's script does not share in both engines.
async fn hours(phone: &Phone) -> Vec<String> {
    const HOUR: &str = "return [0, 1].map((back) => { const t = new Date(arguments[0] - back * 60000); \
        return `${String(t.getHours()).padStart(2, '0')}:${String(t.getMinutes()).padStart(2, '0')}`; });";
    let now = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH);
    let now = now.expect("a clock after 1970") + phone.ahead();
    let millis = u64::try_from(now.as_millis()).expect("a clock before the year 500 million");
    let hours = phone.run(HOUR, vec![serde_json::json!(millis)]).await;
    let hours = hours.as_array().cloned().unwrap_or_default();
    hours.iter().filter_map(|hour| hour.as_str().map(str::to_owned)).collect()
}

/// A sentence with one of two hours in it.
async fn said_at(phone: &mut Phone, text: &str, before: &str, hours: &[String], after: &str) {
    let so = hours.iter().any(|hour| text.contains(&format!("{before}{hour}{after}")));
    phone.sure(so, &format!("no {before:?} {hours:?} {after:?} in\n{text}")).await;
}

async fn contacts_are_typed_and_called(mut phone: Phone) -> Phone {
    watched(&mut phone).await;
    phone.at_each = AtEach::Check;
    contacts(&mut phone).await;
    phone.at_each = AtEach::Nothing;
    assert_eq!(links(&phone).await, ["tel:999", "tel:02079460958"]);

    // One confirmed leaves the other proposed; all of them confirmed leave nothing.
    phone.see("Not confirmed yet").await;
    phone.tap("Use 112: UK").await;
    phone.see_no("Not confirmed yet").await;
    assert_eq!(links(&phone).await, ["tel:999", "tel:112", "tel:02079460958"]);
    phone.tap("Change Emergency number, 112").await;
    phone.tap("Remove").await;
    phone.see("Use 112: UK").await;
    assert_eq!(links(&phone).await, ["tel:999", "tel:02079460958"]);

    // Changed, moved to another role, and put back; the order is that of the roles.
    phone.tap(&format!("Change {}, {}", EYES.0, EYES.1)).await;
    phone.headed("Change").await;
    phone.type_into("Number", "+44 20 7946 0959").await;
    phone.tick("Hospital").await;
    checked(&mut phone, "contacts-change").await;
    phone.tap("Save").await;
    phone.see("+44 20 7946 0959").await;
    phone.tap("Add: eye department").await;
    phone.type_into("Number", EYES.1).await;
    phone.tap("Save").await;
    phone.headed("Whom to call").await;
    phone.see(EYES.1).await;
    assert_eq!(links(&phone).await, ["tel:999", "tel:02079460958", "tel:+442079460959"]);

    // What was confirmed outlives the tab; removed, it is gone.
    phone.reload().await;
    phone.headed("Whom to call").await;
    phone.tap(&format!("Change {}, +44 20 7946 0959", EYES.0)).await;
    phone.tap("Remove").await;
    phone.see_no("+44 20 7946 0959").await;
    assert_eq!(links(&phone).await, ["tel:999", "tel:02079460958"]);

    // On the anaphylaxis sheet the call is one tap, and taken down with it.
    home(&mut phone).await;
    phone.tap("Anaphylaxis").await;
    phone.headed("Adrenaline now").await;
    phone.tap("Call emergency").await;
    phone.see("Emergency services called").await;
    assert_eq!(dialled(&phone).await, ["tel:999"]);
    phone.nothing_found().await;
    phone
}

async fn sight_noticed_in_the_hour(mut phone: Phone) -> Phone {
    watched(&mut phone).await;
    contacts(&mut phone).await;
    home(&mut phone).await;
    to_first_draw(&mut phone).await;
    let made = make(&mut phone, VIAL, STRENGTH).await;
    begin(&mut phone, 1).await;
    let mut points = Points::default();
    points.inject_until(&mut phone, POINTS).await;
    finish(&mut phone, 1, points.done * AT_POINT, made.vials).await;
    phone.let_pass(Duration::from_mins(10)).await;
    phone.headed("Look again in").await;

    phone.tap("Sight or stroke signs").await;
    phone.headed("Any of these now?").await;
    phone.tap(SIGHT).await;
    let at = hours(&phone).await;
    phone.see("Call emergency and eye services now.").await;
    phone.see("Noted at ").await;
    checked(&mut phone, "sight-noted").await;
    assert_eq!(links(&phone).await, ["tel:999", "tel:02079460958"]);
    phone.let_pass(Duration::from_mins(12)).await;

    // It was recorded at the tap, and stands on the step without anything more.
    phone.headed("Look again in").await;
    phone.see("No look since has cleared it.").await;
    let left = clock(&mut phone).await;
    phone.sure(left > 30 * 60, "the hour's clock runs on").await;
    phone.tap(TO_SHEET).await;
    phone.headed("Hand-over").await;
    checked(&mut phone, "hand-over-sight").await;
    let text = phone.text().await;
    said_at(&mut phone, &text, "first noticed at ", &at, ", 12 min ago.").await;
    let none = !text.to_lowercase().contains("left") && !text.to_lowercase().contains("remain");
    phone.sure(none, &format!("time left is told: {text}")).await;
    phone.see("Hyaluronidase given into the skin so far: 600 units.").await;
    phone.see("Where: upper lip.").await;
    phone.see("Please see the eyes at once").await;
    assert_eq!(links(&phone).await, ["tel:999", "tel:02079460958"]);
    phone.tap("Call eye department").await;

    // Each way to hand it on gives the same text, without the case's reference.
    phone.tap("Share as text").await;
    phone.see("Handed on.").await;
    let (way, handed) = shared(&mut phone).await;
    assert_eq!(way, "share");
    said_at(&mut phone, &handed, "first noticed at ", &at, ", 12 min ago.").await;
    phone.sure(handed.contains("\nSituation\n- Sight changed"), &handed).await;
    ways(&phone, "copy").await;
    phone.tap("Share as text").await;
    phone.see("Copied.").await;
    let (way, copied) = shared(&mut phone).await;
    assert_eq!((way.as_str(), copied.lines().nth(3)), ("copy", handed.lines().nth(3)));
    ways(&phone, "none").await;
    phone.tap("Share as text").await;
    phone.see("This phone neither shares nor copies.").await;
    checked(&mut phone, "hand-over-by-hand").await;

    // The whole case is there as well.
    phone.tick("Whole case").await;
    phone.see("Round 1, ").await;
    phone.see("Batch not noted").await;
    checked(&mut phone, "hand-over-whole").await;
    phone.tap("Record").await;
    phone.headed("The record").await;
    phone.see("Sign noticed").await;
    let text = phone.text().await;
    let noted = at.iter().any(|hour| text.contains(&format!("{hour} Sign noticed")));
    phone.sure(noted, &format!("no {at:?} Sign noticed in {text}")).await;
    phone.see(&format!("Call begun: Eye department, {}, {}", EYES.0, EYES.1)).await;

    // Handed over and closed, the sheet is still one tap away.
    back_to_case(&mut phone).await;
    phone.tap("Sight or stroke signs").await;
    phone.tap("Handed over: close the case").await;
    phone.headed("Handed over: Sight changed").await;
    phone.tap(TO_SHEET).await;
    phone.headed("Hand-over").await;
    phone.nothing_found().await;
    phone
}

async fn a_sign_noted_by_mistake(mut phone: Phone) -> Phone {
    watched(&mut phone).await;
    to_first_draw(&mut phone).await;
    make(&mut phone, VIAL, STRENGTH).await;
    phone.tap("Sight or stroke signs").await;
    // Nothing here changes under the arrow keys: who passes by has noticed nothing.
    let choices = phone.run("return options().length;", vec![]).await;
    phone.sure(choices == 0, &format!("{choices} to choose from")).await;
    phone.tap("Face, arm or speech weak; confused; sudden severe headache").await;
    phone.see("say: possible stroke").await;
    // No number is confirmed: nothing is dialled, and the way to set one is there.
    assert!(links(&phone).await.is_empty());
    phone.see("No emergency number yet").await;
    phone.see("Noted at ").await;
    phone
        .tap(&format!(
            "Noted by mistake: take it back: {}",
            "Face, arm or speech weak; confused; sudden severe headache"
        ))
        .await;
    phone.see_no("Noted at ").await;
    phone.tap("Go on meanwhile").await;
    phone.see_no("No look since has cleared it.").await;
    begin(&mut phone, 1).await;
    // In the middle of a round it is one tap away as well.
    phone.tap("Sight or stroke signs").await;
    phone.headed("Any of these now?").await;
    phone.tap("Go on meanwhile").await;
    phone.nothing_found().await;
    phone
}

async fn every_round_is_read_out(mut phone: Phone) -> Phone {
    watched(&mut phone).await;
    to_first_draw(&mut phone).await;
    phone.tap("Drawn, 1.00 mL").await;
    phone.see("Movement 2 of").await;
    phone.tap("Vial 1: batch").await;
    phone.type_into("Batch", "DEMO-77").await;
    phone.tap("Note it").await;
    phone.see("Vial 1: DEMO-77").await;
    // Taken back, so that the whole of it is made under the test's own arithmetic.
    phone.tap("Back").await;
    phone.see("Movement 1 of").await;
    phone.tap("It was not so: take it back").await;
    phone.see_no("It was not so").await;
    let first = make(&mut phone, VIAL, STRENGTH).await;
    begin(&mut phone, 1).await;
    let mut points = Points::default();
    points.inject_until(&mut phone, POINTS).await;
    let once = points.done * AT_POINT;
    finish(&mut phone, 1, once, first.vials).await;
    phone.let_pass(Duration::from_mins(61)).await;
    look(&mut phone, ("5", "2"), "Pale", "6").await;
    phone.headed("After round 1").await;
    prepare_again(&mut phone, 2, once).await;
    let second = make(&mut phone, VIAL, STRENGTH).await;
    begin(&mut phone, 2).await;
    let mut points = Points::default();
    points.inject_until(&mut phone, 3).await;
    let twice = points.done * AT_POINT;
    phone.sure(second.vials > 0, "a second solution").await;
    phone.tap("Sight or stroke signs").await;
    phone.tap(SIGHT).await;
    phone.tap(TO_SHEET).await;
    phone.tick("Whole case").await;
    phone.see("Batch DEMO-77.").await;
    let text = phone.text().await;
    let told = [
        format!("{} units of hyaluronidase in 1.20 mL, 500 units/mL. Batch DEMO-77.", units(once)),
        format!(
            "{} units of hyaluronidase in 0.30 mL, 500 units/mL. Batch not noted.",
            units(twice)
        ),
        format!("In all 2 rounds: {} units in 1.50 mL.", units(once + twice)),
        "refill 5.0 s, other side 2.0 s; colour pale; pain 6 of 10".to_owned(),
        "Not back yet: refill, colour, pain.".to_owned(),
    ];
    for sentence in told {
        phone.sure(text.contains(&sentence), &format!("no {sentence:?} in {text}")).await;
    }
    for part in ["Situation", "Background", "Assessment", "Recommendation"] {
        phone.sure(text.contains(part), part).await;
    }
    phone
}

async fn adrenaline_by_weight_and_by_age(mut phone: Phone) -> Phone {
    watched(&mut phone).await;
    phone.tap("Anaphylaxis").await;
    phone.headed("Adrenaline now").await;
    phone.tap("Child, small person, other table").await;
    // The UK table goes by age alone: 5 years have 0.15 mL.
    phone.see("The UK table goes by age alone").await;
    phone.type_into("Age", "5").await;
    phone.see("150 micrograms · 5 years, UK").await;
    // Australia, by age 0.20 mL; by weight 10 microgram/kg: 12.5 kg have 0.13 mL.
    phone.tick("Australia, NZ").await;
    phone.see("200 micrograms · 5 years, Australia, NZ").await;
    phone.type_into("Weight", "12.5").await;
    phone.see("130 micrograms · 12.5 kg, 5 years, Australia, NZ").await;
    checked(&mut phone, "anaphylaxis-weight").await;
    // A slip of a digit is asked about: 125 kg at 5 years.
    phone.type_into("Weight", "125").await;
    phone.see("The weight does not go with the age.").await;
    phone.see("Choose the dose.").await;
    // A weight that gives no dose, and no age: nobody is taken for grown.
    phone.type_into("Weight", "3").await;
    phone.see("The table begins at 5 kg").await;
    phone.type_into("Age", "").await;
    phone.see("No dose yet. Type the age.").await;
    phone.see_no("0.50").await;
    phone.see_no("500 micrograms").await;
    checked(&mut phone, "anaphylaxis-doubt").await;
    // Nor while what was typed cannot be read; and a weight is nothing to a table by age.
    phone.type_into("Weight", "7O").await;
    phone.see("No dose yet. Put the weight right.").await;
    phone.tick("UK").await;
    phone.see("500 micrograms · adult, UK").await;
    phone.type_into("Age", "1O").await;
    phone.see("No dose yet. Put the age right.").await;
    phone.see_no("500 micrograms").await;
    phone.type_into("Age", "").await;
    phone.tick("Australia, NZ").await;
    phone.see("No dose yet. Put the weight right.").await;
    phone.type_into("Weight", "7").await;
    phone.see("The weight does not go with the age.").await;
    phone.type_into("Age", "1").await;
    phone.see("70 micrograms · 7 kg, 1 year, Australia, NZ").await;
    phone.tap("Adrenaline given, 0.07 mL").await;
    phone.headed("Again in").await;
    phone.see("0.07 mL into the thigh muscle").await;
    // Whose table it was stands in the record of the case.
    phone.tap(TO_SHEET).await;
    phone.see("Adrenaline 70 micrograms into the thigh muscle at ").await;
    phone.tap("Record").await;
    phone.see("Adrenaline table for this case: Australia, NZ").await;
    phone.nothing_found().await;
    phone
}

async fn how_long_to_watch_in_both_regions(mut phone: Phone) -> Phone {
    watched(&mut phone).await;
    phone.tap("Anaphylaxis").await;
    phone.headed("Adrenaline now").await;
    phone.tap("Adrenaline given, 0.50 mL").await;
    phone.headed("Again in").await;
    // A notification that is tapped leads to the sheet while the reaction runs, not to the skin.
    let id = phone.run("return new URLSearchParams(location.search).get('case');", vec![]).await;
    home(&mut phone).await;
    phone.run(TAPPED, vec![id]).await;
    phone.headed("Again in").await;
    phone.tap("Fluids running").await;
    phone.see("Fluids into a vein").await;
    phone.tap("Better").await;
    phone.headed("Better. Stay and watch").await;
    phone.tap("Over, or taken over").await;
    phone.headed("How long to watch").await;
    phone.see("At least 6 h").await;
    phone.see("from when it had settled, at ").await;
    phone.see("Length: published. Starting moment: this app’s proposal.").await;
    phone.see("Australia, NZ says: at least 4 h, from the last dose at ").await;
    phone.see("Length and starting moment: from memory, no source opened.").await;
    phone.see("Consider a night in hospital.").await;
    phone.tick("Fully settled; has auto-injectors, knows how; somebody at home").await;
    phone.see_no("Consider a night in hospital.").await;
    checked(&mut phone, "observation-uk").await;
    phone.tick("Australia, NZ").await;
    phone.see("At least 4 h").await;
    phone.see("Australia, NZ rule. To be looked up: ").await;
    phone.see("UK says: at least 6 h, from when it had settled, at ").await;
    phone.tick("Severe asthma or breathing trouble").await;
    phone.see("Consider a night in hospital.").await;
    phone.see("UK says: at least 12 h").await;
    checked(&mut phone, "observation-australia").await;
    phone.tap("Take this down").await;
    phone.see("Taken down.").await;
    phone.tap(TO_SHEET).await;
    phone.headed("Hand-over").await;
    phone.see("Severe allergic reaction, noticed at ").await;
    phone.tap("Record").await;
    phone.see("Observation after anaphylaxis, Australia, NZ rule: at least 4 h, from the last dose at ")
        .await;
    phone.nothing_found().await;
    phone
}

async fn nothing_known_is_read_out_too(mut phone: Phone) -> Phone {
    watched(&mut phone).await;
    phone.tap("New case").await;
    phone.headed("Any of these now?").await;
    let id = phone.run("return new URLSearchParams(location.search).get('case');", vec![]).await;
    let url = format!("{}?page=handover&case={}", phone.server.url(), id.as_str().unwrap_or(""));
    phone.go(&url).await;
    phone.settled().await;
    phone.headed("Hand-over").await;
    phone.see("Nobody noted when the first sign was seen.").await;
    phone.see("No hyaluronidase was given.").await;
    phone.see("Please take over.").await;
    checked(&mut phone, "hand-over-nothing").await;
    to_contacts(&mut phone).await;
    phone.nothing_found().await;
    phone
}
