//! The texts about a case: read, printed, handed on as text; none in a rehearsal.

use freshet::care::rounds::Act;
use freshet::case::{Event, Journal};
use freshet::record::samples::{Told, ZONE, came_back, just_done, occlusion, opened};
use freshet::store::Key;
use freshet_browser_tests::flows::calling::{shared, watch, ways};
use freshet_browser_tests::flows::paper::{lay, open};
use freshet_browser_tests::flows::photo::traced;
use freshet_browser_tests::flows::records::lay_near;
use freshet_browser_tests::flows::rehearsal::let_in;
use freshet_browser_tests::phone::{AtEach, Phone};
use serde_json::json;

crate::on_both_engines! {
    each_paper_is_read_printed_and_handed_on
    a_photo_goes_on_the_page_by_a_tick_alone
    a_rehearsal_leaves_no_papers
    a_paper_made_meanwhile_or_of_a_broken_record_says_so
}

/// No print view is opened for real: it would stand before the test.
const NO_PRINTER: &str = "
    globalThis.printings = 0;
    globalThis.print = () => { globalThis.printings += 1; };";

const SHEET: &str = "Your treatment and what to do now";

async fn printed(phone: &mut Phone) {
    phone.run("window.printings = 0; return true;", vec![]).await;
    phone.tap("Print or save as PDF").await;
    phone.until("the print view is asked for", "return window.printings === 1;").await;
}

async fn handed_on(phone: &mut Phone) -> String {
    phone.tap("Share text").await;
    phone.see("Copied.").await;
    let (way, text) = shared(phone).await;
    phone.sure(way == "copy", &way).await;
    text
}

async fn each_paper_is_read_printed_and_handed_on(mut phone: Phone) -> Phone {
    phone.start().await;
    watch(&mut phone).await;
    phone.before_each_page(NO_PRINTER).await;
    let url = phone.server.url();
    phone.go(&url).await;
    phone.see("New case").await;
    let told = occlusion();
    lay(&mut phone, &told).await;
    phone.at_each = AtEach::Check;

    open(&mut phone, &told, "note", "Clinical note").await;
    ways(&phone, "copy").await;
    phone.see("250 units in 0.50 mL, 2 rounds").await;
    // Every point has its number and its state, in the drawing and in words.
    let numbers = "return [...document.querySelectorAll('.paper-map .point text')].map((text) => text.textContent.trim()).join(' ');";
    let numbers = phone.run(numbers, vec![]).await;
    phone.sure(numbers == json!("1 2 3 4 5 6 1 2 3"), &format!("points {numbers}")).await;
    phone.see("left out, not safe there").await;
    let struck = "return document.querySelector('.paper del')?.textContent ?? '';";
    let struck = phone.run(struck, vec![]).await;
    let so = struck.as_str().is_some_and(|text| text.contains("Colleague told by telephone"));
    phone.sure(so, &format!("struck out: {struck}")).await;
    phone.at("note").await;
    printed(&mut phone).await;
    let text = handed_on(&mut phone).await;
    let digest = told.journal.head().expect("entries").to_string();
    phone.sure(text.starts_with("CLINICAL NOTE\n") && text.contains(&digest), &text).await;

    open(&mut phone, &told, "patient", SHEET).await;
    ways(&phone, "copy").await;
    phone.see("Your clinic’s number is not set.").await;
    phone.see("We did this 2 times.").await;
    phone.at("patient-sheet").await;
    printed(&mut phone).await;
    let text = handed_on(&mut phone).await;
    phone.sure(text.contains("- Us: ____"), &text).await;

    open(&mut phone, &told, "report", "Adverse reaction report").await;
    ways(&phone, "copy").await;
    phone.at("report").await;
    printed(&mut phone).await;
    let text = handed_on(&mut phone).await;
    phone.sure(text.contains("[ ] A reporter") && text.contains("batch DEMO-1"), &text).await;

    phone.at_each = AtEach::Nothing;
    phone.nothing_found().await;
    phone
}

async fn a_photo_goes_on_the_page_by_a_tick_alone(mut phone: Phone) -> Phone {
    const LABEL: &str = "return [...document.querySelectorAll('label')].map((label) => norm(label.innerText)).find((text) => text.startsWith('Photo of '));";
    const SHOWN: &str = "return [...document.querySelectorAll('.paper-photo img')].filter((img) => img.complete && img.naturalWidth > 0).length === 1;";
    phone.open().await;
    traced(&mut phone).await;
    let id = phone.run("return new URLSearchParams(location.search).get('case');", vec![]).await;
    let url = format!("{}?page=note&case={}", phone.server.url(), id.as_str().unwrap_or(""));
    phone.go(&url).await;
    phone.settled().await;
    phone.headed("Clinical note").await;
    phone.see("Photos to go on the page").await;
    let none = phone.run("return document.querySelectorAll('.paper img').length;", vec![]).await;
    phone.sure(none == json!(0), "a photo stands on the page unasked").await;
    let label = phone.run(LABEL, vec![]).await;
    let label = label.as_str().unwrap_or("no photo to tick").to_owned();
    phone.tick(&label).await;
    phone.until("the photo is on the page", SHOWN).await;
    phone.at_each = AtEach::Check;
    phone.at("note-photo").await;
    phone.at_each = AtEach::Nothing;
    phone.tick(&label).await;
    phone.until("it is off again", "return !document.querySelector('.paper-photo');").await;
    phone.nothing_found().await;
    phone
}

async fn a_rehearsal_leaves_no_papers(mut phone: Phone) -> Phone {
    phone.open().await;
    // What is no reaction is not reported.
    let told = opened();
    lay(&mut phone, &told).await;
    open(&mut phone, &told, "report", "Nothing in this case is a reaction to report").await;
    phone.see_no("Print or save as PDF").await;

    let url = phone.server.url();
    phone.go(&url).await;
    phone.see("New case").await;
    let_in(&mut phone, "The plain case, from the first sign to the end point").await;
    // Within the app, so that the rehearsal goes on.
    let go = "
        const to = new URLSearchParams(location.search);
        to.set('page', arguments[0]);
        history.pushState(null, '', `?${to}`);
        dispatchEvent(new PopStateEvent('popstate'));
        return location.search;";
    for page in ["note", "patient", "report"] {
        let there = phone.run(go, vec![json!(page)]).await;
        phone.note(&format!("go to {there}"));
        phone.headed("No papers in a rehearsal").await;
        phone.see_no("Print or save as PDF").await;
        phone.see_no("Share text").await;
    }
    let there = phone.run(go, vec![json!("papers")]).await;
    phone.note(&format!("go to {there}"));
    phone.headed("Hand on").await;
    phone.see("A rehearsal has no papers").await;
    for way in ["Clinical note", "Syringe label", "FHIR R4 bundle", "Case file"] {
        phone.see_no(way).await;
    }
    phone
}

/// The record as it was when the first round was over.
fn running(told: &Told) -> Journal {
    let mut running = Journal::new(told.journal.case());
    for entry in told.journal.entries() {
        running.append(entry.at(), ZONE, entry.event().clone());
        if matches!(entry.event(), Event::Round(Act::Finish)) {
            return running;
        }
    }
    panic!("no round is over");
}

async fn a_paper_made_meanwhile_or_of_a_broken_record_says_so(mut phone: Phone) -> Phone {
    const MEANWHILE: &str = "Written out before the treatment ended";
    const SHEET_MEANWHILE: &str = "We had not finished when this sheet was made.";
    const BROKEN: &str = "The record behind this text is NOT whole";
    phone.open().await;
    watch(&mut phone).await;
    // One that is over, one that is going on, and one of which an entry is lost.
    let (over, meanwhile, broken) = (occlusion(), just_done(), came_back());
    lay(&mut phone, &over).await;
    lay_near(&mut phone, &[running(&meanwhile)]).await;
    lay(&mut phone, &broken).await;
    let lost = Key::of(&broken.journal.entries()[5]);
    let forget = "localStorage.removeItem(arguments[0]); return true;";
    phone.run(forget, vec![json!(lost.as_str())]).await;

    open(&mut phone, &meanwhile, "note", "Clinical note").await;
    phone.see(MEANWHILE).await;
    phone.see_no(BROKEN).await;
    ways(&phone, "copy").await;
    let text = handed_on(&mut phone).await;
    phone.sure(text.contains(MEANWHILE) && text.contains("Closed: Still open"), &text).await;
    open(&mut phone, &meanwhile, "patient", SHEET).await;
    phone.see(SHEET_MEANWHILE).await;
    open(&mut phone, &meanwhile, "report", "Adverse reaction report").await;
    phone.see(MEANWHILE).await;

    open(&mut phone, &over, "note", "Clinical note").await;
    phone.see_no(MEANWHILE).await;
    open(&mut phone, &over, "patient", SHEET).await;
    phone.see_no(SHEET_MEANWHILE).await;

    phone.at_each = AtEach::Check;
    open(&mut phone, &broken, "note", "Clinical note").await;
    phone.see(BROKEN).await;
    phone.see("NOT whole, ").await;
    phone.at("note-broken").await;
    open(&mut phone, &broken, "papers", "Hand on").await;
    phone.see("The record of this case is not whole, so it makes no case file").await;
    phone.see("FHIR R4 bundle").await;
    phone.see_no("With its chain, to be taken in").await;
    phone.at("papers-broken").await;
    phone.at_each = AtEach::Nothing;
    phone.nothing_found().await;
    phone
}
