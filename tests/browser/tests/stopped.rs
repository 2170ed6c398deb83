//! The app breaks: in a round, at its start, again and again, behind a passcode, or it never comes, or
//! comes late.
//! The case stays readable, the anaphylaxis sheet in reach, and nothing more is written.
//!
//! Nothing in the app can be told to break. The browser is: it refuses something that a library of the
//! app takes for granted, which is a panic in the app's own code.

use freshet::case::{Entry, Journal};
use freshet_browser_tests::build::{copy, dist};
use freshet_browser_tests::flows::around::home;
use freshet_browser_tests::flows::calling::{EYES, contacts};
use freshet_browser_tests::flows::lock::{CODE, set};
use freshet_browser_tests::flows::solution::make;
use freshet_browser_tests::flows::urgent::{
    AT_POINT, POINTS, Points, STRENGTH, VIAL, begin, finish, to_first_draw,
};
use freshet_browser_tests::phone::{AtEach, Phone};
use freshet_browser_tests::tongue::Tongue;
use serde_json::json;

crate::on_both_engines! {
    stops_in_a_round_and_again_at_the_start
    stops_before_anything_is_read
    stops_behind_a_passcode
    never_comes
    comes_late
}

/// Lets the browser break the app when told to, by the window's name, which outlives a reload:
/// `way`, the next page cannot be gone to; `start`, nothing can be drawn; `none`, no WebAssembly.
/// Also keeps the files that are offered, and says what becomes of a further write.
const BREAK: &str = "
    const when = (word) => globalThis.name === word;
    const push = History.prototype.pushState;
    History.prototype.pushState = function (...given) {
      if (when('way')) throw new Error('no way on');
      return push.apply(this, given);
    };
    const make = Document.prototype.createElement;
    Document.prototype.createElement = function (...given) {
      if (when('start') && !globalThis.broken && /wasm/.test(new Error().stack)) {
        globalThis.broken = true;
        throw new Error('nothing is drawn');
      }
      return make.apply(this, given);
    };
    for (const name of ['instantiate', 'instantiateStreaming']) {
      const begin = WebAssembly[name];
      WebAssembly[name] = (...given) => when('none') ? Promise.reject(new Error('no wasm')) : begin(...given);
    }
    globalThis.offeredFiles = [];
    const offer = URL.createObjectURL.bind(URL);
    URL.createObjectURL = (blob) => { blob.text().then((text) => offeredFiles.push(text)); return offer(blob); };
    addEventListener('write-on', () => {
      let said = 'written';
      try { localStorage.setItem('freshet/probe', '1'); } catch { said = 'refused'; }
      document.documentElement.dataset.write = said;
    });
    addEventListener('stack-full', () => {
      dispatchEvent(new ErrorEvent('error', { error: new WebAssembly.RuntimeError('the stack is full') }));
    });";

const LINES: &str =
    "return Object.keys(localStorage).filter((key) => key.startsWith('freshet/entry/'))
    .sort().map((key) => localStorage.getItem(key));";

async fn on_breakable(phone: &mut Phone) {
    phone.start().await;
    phone.before_each_page(BREAK).await;
    let url = phone.server.url();
    phone.go(&url).await;
    phone.see("New case").await;
}

async fn name(phone: &mut Phone, name: &str) {
    phone.run("window.name = arguments[0]; return true;", vec![json!(name)]).await;
}

async fn lines(phone: &Phone) -> Vec<String> {
    let lines = phone.run(LINES, vec![]).await;
    serde_json::from_value(lines).expect("lines")
}

/// What stands in the file that the plain page offers.
async fn saved(phone: &mut Phone) -> String {
    phone.tap("Save the record as a file").await;
    phone.until("the file is made", "return window.offeredFiles.length > 0;").await;
    let text = phone.run("return window.offeredFiles.pop();", vec![]).await;
    text.as_str().unwrap_or_default().to_owned()
}

/// The sheet is in reach: by the link near the top, with the dose of a grown person in sight.
async fn sheet_in_reach(phone: &mut Phone) {
    const SEEN: &str = "
        const dose = document.querySelector('#trouble-sheet tr td strong').getBoundingClientRect();
        return dose.top >= 0 && dose.bottom <= innerHeight;";
    phone.tap("Anaphylaxis").await;
    phone.until("the dose is in sight", SEEN).await;
    phone.see("Adrenaline 1 mg/mL, into the muscle of the outer thigh").await;
    phone.see("0.50 mL 500 micrograms").await;
    phone.see("Again in 5 min, unless better.").await;
}

/// Nothing is written any more, and what was is whole.
async fn stays_as_it_is(phone: &mut Phone, before: &[String]) {
    phone.run("dispatchEvent(new Event('write-on')); return true;", vec![]).await;
    let refused = "return document.documentElement.dataset.write === 'refused';";
    phone.until("a further write is refused", refused).await;
    tokio::time::sleep(std::time::Duration::from_millis(800)).await;
    let after = lines(phone).await;
    phone.sure(after == before, &format!("{} of {} lines", after.len(), before.len())).await;
}

async fn stops_in_a_round_and_again_at_the_start(mut phone: Phone) -> Phone {
    phone.at_each = AtEach::Check;
    on_breakable(&mut phone).await;
    phone.at_each = AtEach::Nothing;
    contacts(&mut phone).await;
    home(&mut phone).await;
    to_first_draw(&mut phone).await;
    let made = make(&mut phone, VIAL, STRENGTH).await;
    begin(&mut phone, 1).await;
    let mut points = Points::default();
    points.inject_until(&mut phone, POINTS).await;
    finish(&mut phone, 1, points.done * AT_POINT, made.vials).await;
    let before = lines(&phone).await;
    phone.at_each = AtEach::Check;

    // A way on that the browser refuses, right after an entry: the sign is taken down, then it stops.
    name(&mut phone, "way").await;
    phone.tap("Record").await;
    phone.headed("Freshet has stopped").await;
    phone.see("What was confirmed as saved is saved.").await;
    phone.see("Next look at ").await;
    phone.see("Units so far: 600 units").await;
    phone.see("Rounds: 1").await;
    phone.see("Round done").await;
    phone.see("Case opened: ").await;
    phone.see(&format!("Call eye department: {}, {}", EYES.0, EYES.1)).await;
    phone.see_no("As stored").await;
    // The clinic's table alone.
    phone.see("Table UK").await;
    phone.see_no("Table Australia").await;
    phone.at("stopped").await;
    stays_as_it_is(&mut phone, &before).await;
    sheet_in_reach(&mut phone).await;
    phone.at("stopped-sheet").await;
    let file = saved(&mut phone).await;
    phone
        .sure(before.iter().all(|line| file.contains(line.as_str())), "the file lacks a line")
        .await;

    // Again, and it goes on where it was.
    name(&mut phone, "").await;
    phone.tap("Start again").await;
    phone.headed("Look again in").await;
    phone.see("Round 1 done").await;

    // It stops at once after the start: the next start is offered without a case.
    name(&mut phone, "way").await;
    phone.tap("Record").await;
    phone.headed("Freshet stopped again").await;
    phone.see("Next look at ").await;
    phone.at("stopped-again").await;
    name(&mut phone, "").await;
    phone.tap("Start without a case").await;
    phone.see("New case").await;
    phone.nothing_found().await;
    phone
}

async fn stops_before_anything_is_read(mut phone: Phone) -> Phone {
    on_breakable(&mut phone).await;
    to_first_draw(&mut phone).await;
    let before = lines(&phone).await;
    phone.at_each = AtEach::Check;

    for heading in ["Freshet has stopped", "Freshet stopped again", "Freshet stopped again"] {
        name(&mut phone, "start").await;
        phone.reload().await;
        phone.headed(heading).await;
    }
    // What is stored is told as it lies, the newest first.
    phone.see("As stored, in the app’s own terms").await;
    phone.see("Preparation").await;
    phone.see("Opened").await;
    phone.at("stopped-unread").await;
    sheet_in_reach(&mut phone).await;
    phone.see("Table Australia, NZ").await;
    stays_as_it_is(&mut phone, &before).await;

    // And can be taken along: every entry whole, and each following from the one before.
    let file = saved(&mut phone).await;
    let entries: Vec<Entry> = file.lines().filter_map(|line| Entry::read(line).ok()).collect();
    phone.sure(entries.len() == before.len(), "the file lacks entries").await;
    let (_, faults) = Journal::from_entries(entries[0].case(), entries);
    phone.sure(faults.is_empty(), &format!("{faults:?}")).await;

    name(&mut phone, "").await;
    phone.tap("Start without a case").await;
    phone.see("Open cases").await;
    phone.nothing_found().await;
    phone
}

async fn stops_behind_a_passcode(mut phone: Phone) -> Phone {
    on_breakable(&mut phone).await;
    set(&mut phone, CODE).await;
    to_first_draw(&mut phone).await;
    let before = lines(&phone).await;
    phone.sure(before.iter().any(|line| line.starts_with("sealed:")), "nothing is sealed").await;

    // A case where a patient is waiting is in reach of who holds the phone; a stop without a word of
    // the app's own finds it told all the same.
    tokio::time::sleep(std::time::Duration::from_millis(1500)).await;
    phone.run("dispatchEvent(new Event('stack-full')); return true;", vec![]).await;
    phone.headed("Freshet has stopped").await;
    phone.see("Case opened: ").await;
    phone.see_no("As stored").await;

    // After a reload nobody has the keys: nothing of it is told.
    name(&mut phone, "start").await;
    phone.reload().await;
    phone.headed("Freshet stopped again").await;
    phone.see("Records on this phone are locked with a passcode.").await;
    phone.see_no("Opened").await;
    phone.see_no("Case opened").await;
    phone.at_each = AtEach::Check;
    phone.at("stopped-locked").await;
    sheet_in_reach(&mut phone).await;
    let file = saved(&mut phone).await;
    phone
        .sure(before.iter().all(|line| file.contains(line.as_str())), "the file lacks a line")
        .await;
    phone.nothing_found().await;
    phone
}

async fn never_comes(mut phone: Phone) -> Phone {
    phone.start().await;
    phone.before_each_page(BREAK).await;
    let url = phone.server.url();
    phone.go(&url).await;
    phone.see("New case").await;

    // The browser does not know what the app is made of.
    name(&mut phone, "none").await;
    phone.go(&format!("{url}?page=about")).await;
    phone.headed("Freshet could not start").await;
    sheet_in_reach(&mut phone).await;
    phone.at_each = AtEach::Check;
    phone.at("unstarted").await;
    name(&mut phone, "").await;
    phone.tap("Start again").await;
    phone.headed("About and cautions").await;

    // A script that the browser cannot read: nothing starts, and the sheet is reached all the same.
    let folder = std::env::temp_dir().join(format!(
        "freshet-mute-{}-{}",
        std::process::id(),
        phone.engine.name()
    ));
    copy(&dist(), &folder);
    std::fs::write(folder.join("boot.js"), "not a script that any browser reads (")
        .expect("a file");
    let mute = freshet_browser_tests::server::Server::start(&folder);
    phone.go(&mute.url()).await;
    phone.see("This takes longer than it should.").await;
    phone.tap("Anaphylaxis").await;
    phone.see("0.50 mL 500 micrograms").await;
    phone.at("mute").await;
    phone.nothing_found().await;
    // Left behind only in the folder for temporary files.
    let _ = std::fs::remove_dir_all(folder);
    phone
}

/// Lets the app come only when told to.
const LATE: &str = "
    for (const name of ['instantiate', 'instantiateStreaming']) {
      const begin = WebAssembly[name];
      WebAssembly[name] = async (...given) => {
        await new Promise((come) => addEventListener('come', come));
        return begin(...given);
      };
    }";
const COME: &str = "dispatchEvent(new Event('come')); return true;";
const WAITS: &str = "return performance.now() > 500 && !!document.getElementById('shell');";

async fn comes_late(mut phone: Phone) -> Phone {
    phone.start().await;
    phone.before_each_page(LATE).await;
    let url = phone.server.url();
    phone.go(&url).await;
    phone.see("The first start takes a moment").await;
    phone.at_each = AtEach::Check;
    phone.at("shell").await;
    phone.at_each = AtEach::Nothing;

    // Who could not wait for the app stays with the sheet when it comes.
    phone.tap("Anaphylaxis").await;
    phone.see("0.50 mL 500 micrograms").await;
    phone.run(COME, vec![]).await;
    phone.headed("Adrenaline now").await;
    phone.tap("Back").await;
    phone.see("New case").await;

    // On the phone by now: no word of a first start.
    phone
        .until(
            "the app is on the phone",
            "return document.documentElement.dataset.offline === 'ready';",
        )
        .await;
    start_again(&mut phone).await;
    let text = phone.text().await;
    phone.sure(!text.contains("first start"), &format!("not the first start: {text}")).await;
    phone.run(COME, vec![]).await;
    phone.see("New case").await;

    // Nor does a start wait for the app to speak the language that was chosen.
    phone.run(GERMAN, vec![]).await;
    start_again(&mut phone).await;
    phone.see("Startet").await;
    phone.run(COME, vec![]).await;
    phone.tongue = Some(Tongue::german());
    phone.see("New case").await;
    phone.nothing_found().await;
    phone
}

/// What the language page keeps.
const GERMAN: &str = "
    const habits = JSON.parse(localStorage.getItem('freshet/habits') ?? '{}');
    localStorage.setItem('freshet/habits', JSON.stringify({ ...habits, language: 'german' }));
    return true;";

/// Starts the app anew, up to where it waits for itself.
async fn start_again(phone: &mut Phone) {
    phone
        .run("setTimeout(() => location.reload()); window.before = true; return true;", vec![])
        .await;
    phone.until("the shell stands", &format!("if (window.before) return false; {WAITS}")).await;
}
