//! What the phone can do when something falls due.

use freshet_browser_tests::flows::around::{back, clock, home};
use freshet_browser_tests::flows::solution::make;
use freshet_browser_tests::flows::urgent::{POINTS, Points, STRENGTH, VIAL, begin, to_first_draw};
use freshet_browser_tests::phone::{AtEach, Phone};
use serde_json::json;
use std::time::Duration;

crate::on_both_engines! {
    a_test_of_the_alarm
    notifications_asked_for_and_refused
    the_due_moment_out_of_view
    a_second_case_falls_due
    the_next_looks_for_the_calendar
    the_phone_changes_its_zone
}

/// Fakes what a phone may have or not, steered by words in the window's name, which outlives loads:
/// `late` sets the clock a minute ahead from now on, `away` takes the page out of view, `zone` moves
/// the zone by an hour, `refuse` has the user refuse, `allow` has allowed already, `nofile` takes no
/// file. Keeps what was shown and what files were made.
const PHONE: &str = "
    globalThis.shownNotices = []; globalThis.closedNotices = []; globalThis.offeredFiles = [];
    globalThis.askedTimes = 0; globalThis.badges = [];
    const says = (word) => globalThis.name.split(' ').includes(word);
    const real = Date.now.bind(Date);
    Date.now = () => real() + (says('late') ? 60000 : 0);
    const offset = Date.prototype.getTimezoneOffset;
    Date.prototype.getTimezoneOffset = function () { return offset.call(this) - (says('zone') ? 60 : 0); };
    Object.defineProperty(Document.prototype, 'visibilityState', { get: () => (says('away') ? 'hidden' : 'visible') });
    let permission = 'default';
    globalThis.Notification = class { static get permission() { return says('allow') ? 'granted' : permission; } static async requestPermission() { askedTimes += 1; permission = says('refuse') ? 'denied' : 'granted'; return permission; } };
    const worker = {
      showNotification: async (title, options) => { shownNotices.push(JSON.stringify([title, options])); },
      getNotifications: async ({ tag }) => [{ close: () => closedNotices.push(tag) }],
    };
    if (globalThis.ServiceWorkerContainer) ServiceWorkerContainer.prototype.getRegistration = async () => worker;
    Navigator.prototype.setAppBadge = async (count) => { badges.push(count); };
    Navigator.prototype.clearAppBadge = async () => { badges.push(0); };
    globalThis.tapNotice = (id) => navigator.serviceWorker.dispatchEvent(new MessageEvent('message', { data: { type: 'chosen', case: id } }));
    const make = URL.createObjectURL.bind(URL);
    URL.createObjectURL = (blob) => { if (says('nofile')) throw new DOMException('no', 'NotAllowedError'); blob.text().then((text) => offeredFiles.push([blob.type, text])); return make(blob); };";

/// The app on a phone of the test's own making.
async fn fresh(phone: &mut Phone) {
    phone.start().await;
    phone.before_each_page(PHONE).await;
    home(phone).await;
}

/// Says what the phone does from now on.
async fn phone_is(phone: &mut Phone, words: &str) {
    phone.note(&format!("the phone: {words:?}"));
    let script = "window.name = arguments[0]; \
        document.dispatchEvent(new Event('visibilitychange', { bubbles: true })); return true;";
    phone.run(script, vec![json!(words)]).await;
}

async fn read(phone: &Phone, script: &str) -> String {
    phone.run(&format!("return JSON.stringify({script});"), vec![]).await.as_str().unwrap().into()
}

/// A new case up to the end of its first round.
async fn a_round(phone: &mut Phone) {
    to_first_draw(phone).await;
    make(phone, VIAL, STRENGTH).await;
    begin(phone, 1).await;
    Points::default().inject_until(phone, POINTS).await;
    phone.tap("Round done, start the clock").await;
    phone.headed("Look again in").await;
}

async fn ringing_page(phone: &mut Phone) {
    let url = format!("{}?page=ringing", phone.server.url());
    phone.go(&url).await;
    phone.settled().await;
    phone.headed("Will this phone ring?").await;
}

async fn title(phone: &Phone) -> String {
    phone.run("return document.title;", vec![]).await.as_str().unwrap_or_default().to_owned()
}

async fn titled(phone: &mut Phone, begins: &str) {
    phone.until(begins, &format!("return document.title.startsWith({begins:?});")).await;
}

/// What the case on the screen is called, as soon as the screen says so.
async fn reference(phone: &mut Phone) -> String {
    const SHOWN: &str = "norm(document.querySelector('.top-reference')?.innerText)";
    phone.until("the case is named", &format!("return {SHOWN} !== '';")).await;
    let name = phone.run(&format!("return {SHOWN};"), vec![]).await;
    name.as_str().unwrap_or_default().to_owned()
}

async fn a_test_of_the_alarm(mut phone: Phone) -> Phone {
    fresh(&mut phone).await;
    phone.at_each = AtEach::Check;
    ringing_page(&mut phone).await;
    phone.see("Not tried yet").await;
    phone.at("ringing").await;

    // In front: on time, after ten real seconds.
    phone.go_on("Ring me in 10 s").await;
    phone.see("Lock the phone now.").await;
    let early = phone.text().await;
    phone.sure(!early.contains("Rang"), "it rang at once").await;
    phone.see("Rang on time, with Freshet in front.").await;
    let now = title(&phone).await;
    phone.sure(now.starts_with("Test · "), &format!("the title is {now:?}")).await;
    let shown = read(&phone, "shownNotices").await;
    phone.sure(shown == "[]", "a notification of what is in view").await;
    phone.at("ringing-answer").await;
    phone.tap("I heard it").await;
    phone.see(": rang in front").await;
    titled(&mut phone, "Will this phone ring?").await;

    // Out of view, the code runs a minute late: said, kept, and there after a load.
    phone_is(&mut phone, "allow").await;
    phone.go_on("Ring me in 10 s").await;
    phone.see("Lock the phone now.").await;
    phone_is(&mut phone, "allow away").await;
    phone_is(&mut phone, "allow away late").await;
    phone.see("late: out of view the phone slept").await;
    let shown = read(&phone, "shownNotices").await;
    phone.sure(shown.contains("Freshet rings: the test."), &format!("shown: {shown}")).await;
    phone_is(&mut phone, "").await;
    phone.tap("Nothing").await;
    phone.see(": silent when out of view").await;
    phone.reload().await;
    phone.see(": silent when out of view").await;

    // Stopped before its time it does not ring.
    phone.go_on("Ring me in 10 s").await;
    phone.see("Lock the phone now.").await;
    phone.tap("Stop the test").await;
    phone_is(&mut phone, "late").await;
    phone.pause().await;
    let text = phone.text().await;
    phone.sure(!text.contains("What did you notice?"), "a test that was stopped rang").await;
    phone.nothing_found().await;
    phone
}

async fn notifications_asked_for_and_refused(mut phone: Phone) -> Phone {
    fresh(&mut phone).await;
    a_round(&mut phone).await;
    phone.let_pass(Duration::from_mins(61)).await;
    phone.headed("The look is due").await;
    // Nothing asks by itself.
    phone.sure(read(&phone, "askedTimes").await == "0", "asked without a tap").await;

    ringing_page(&mut phone).await;
    phone.see("Not asked").await;
    phone_is(&mut phone, "refuse").await;
    phone.tap("Allow notifications").await;
    phone.see("Refused").await;
    phone.sure(read(&phone, "askedTimes").await == "1", "not asked once").await;
    let offered = phone.offers("Allow notifications").await;
    phone.sure(!offered, "still asks after a refusal").await;
    phone.at("ringing-refused").await;
    phone
}

async fn the_due_moment_out_of_view(mut phone: Phone) -> Phone {
    fresh(&mut phone).await;
    a_round(&mut phone).await;
    let before = title(&phone).await;
    phone.sure(before == "Rounds · Freshet", &format!("the title is {before:?}")).await;

    // The choice to let the screen sleep is kept for this phone.
    phone.tick("May sleep").await;
    phone.see("A phone that sleeps does not ring.").await;
    phone.reload().await;
    phone.see("A phone that sleeps does not ring.").await;

    // A minute before it is due the page goes out of view; the clock reaches it there.
    phone.let_pass(Duration::from_secs(59 * 60 + 30)).await;
    phone.headed("Look again in").await;
    phone_is(&mut phone, "allow away").await;
    phone_is(&mut phone, "allow away late").await;
    titled(&mut phone, "Look now · Rounds · Freshet").await;
    phone.until("a notification", "return shownNotices.length > 0;").await;
    let shown = read(&phone, "shownNotices").await;
    phone.sure(shown.contains("Freshet: a look at the skin is due."), &shown).await;
    let name = reference(&mut phone).await;
    phone.sure(!shown.contains(&name), &format!("{name:?} in {shown}")).await;
    phone.sure(read(&phone, "badges.at(-1)").await == "1", "no badge").await;

    // Silenced, it is taken away; still due, the title stays. Looked, all is as before.
    phone_is(&mut phone, "allow late").await;
    phone.headed("The look is due").await;
    phone.at_each = AtEach::Check;
    phone.at("hour-due").await;
    phone.nothing_found().await;
    phone.tap("Stop ringing").await;
    phone.see_no("Stop ringing").await;
    phone.until("it is closed", "return closedNotices.length > 0;").await;
    titled(&mut phone, "Look now · ").await;
    phone.tap("The round is not done yet").await;
    titled(&mut phone, "Rounds · Freshet").await;
    phone.until("no badge", "return badges.at(-1) === 0;").await;
    phone
}

async fn a_second_case_falls_due(mut phone: Phone) -> Phone {
    fresh(&mut phone).await;
    a_round(&mut phone).await;
    let first = phone.run("return location.search;", vec![]).await;
    // Another reference, though both are opened within a minute.
    phone.let_pass(Duration::from_mins(5)).await;
    let name = reference(&mut phone).await;
    home(&mut phone).await;
    a_round(&mut phone).await;
    let second = reference(&mut phone).await;
    phone.sure(name != second, "both cases have one name").await;

    // The first falls due while the second is open.
    phone.let_pass(Duration::from_mins(56)).await;
    phone.headed("Look again in").await;
    phone.see(&format!("{name}: the look is due.")).await;
    let offered = phone.offers("Stop ringing").await;
    phone.sure(!offered, "the second case offers to silence the first").await;
    phone.at("hour-other-due").await;

    // Then the second too. Silencing one leaves the other ringing.
    phone.let_pass(Duration::from_mins(5)).await;
    phone.headed("The look is due").await;
    phone.tap("Stop ringing").await;
    phone.see_no("Stop ringing").await;
    phone.tap(&format!("Go to {name}")).await;
    phone.headed("The look is due").await;
    let there = phone.run("return location.search;", vec![]).await;
    let case = first.as_str().unwrap_or_default().split('&').next().unwrap_or_default().to_owned();
    let there = there.as_str().unwrap_or_default().to_owned();
    phone.sure(there.contains(&case), &format!("{there} is not {case}")).await;
    phone.see("Stop ringing").await;
    phone.see(&format!("{second}: the look is due.")).await;

    // A notification that is tapped leads to its case too: the worker says which.
    home(&mut phone).await;
    let id = case.split('=').nth(1).unwrap_or_default().to_owned();
    phone.run("return tapNotice(arguments[0]);", vec![json!(id)]).await;
    phone.headed("The look is due").await;
    phone.see(&format!("{second}: the look is due.")).await;
    phone
}

async fn the_next_looks_for_the_calendar(mut phone: Phone) -> Phone {
    fresh(&mut phone).await;
    a_round(&mut phone).await;
    phone.tap("Put the next looks into the phone’s calendar").await;
    phone.see("Downloaded. Open the file to add the looks").await;
    phone.until("the file is made", "return offeredFiles.length > 0;").await;
    let kind = read(&phone, "offeredFiles.at(-1)[0]").await;
    phone.sure(kind.contains("text/calendar"), &kind).await;
    let file = phone.run("return offeredFiles.at(-1)[1];", vec![]).await;
    let file = file.as_str().unwrap_or_default().replace("\r\n ", "");
    // As many looks as there are rounds before handing over, by the values supplied.
    let looks = file.matches("BEGIN:VEVENT").count();
    phone.sure(looks == 4, &format!("{looks} looks in {file}")).await;
    let alarms = file.matches("TRIGGER:PT0S").count();
    phone.sure(alarms == 4, &format!("{alarms} alarms")).await;
    let texts = file.matches("SUMMARY:Freshet: look at the skin\r\n").count();
    phone.sure(texts == 4, "the texts differ").await;
    let name = reference(&mut phone).await;
    phone.sure(!file.contains(&name), "the file names the case").await;
    // The first is an hour from now, by the test's own clock.
    let start = file.split("DTSTART:").nth(1).and_then(|rest| rest.get(..15)).unwrap_or_default();
    let wanted = "const at = (m) => new Date(Date.now() + m * 60000).toISOString().replace(/[-:]/g, '').slice(0, 13); \
        return [58, 59, 60].map(at);";
    let wanted = phone.run(wanted, vec![]).await;
    let so = wanted.as_array().is_some_and(|all| {
        all.iter().any(|minute| minute.as_str().is_some_and(|minute| start.starts_with(minute)))
    });
    phone.sure(so, &format!("{start} is none of {wanted}")).await;
    // A later file names the same looks the same, so that they move.
    let names = |file: &str| -> Vec<String> {
        file.lines().filter(|line| line.starts_with("UID:")).map(str::to_owned).collect()
    };
    phone.tap("Put the next looks into the phone’s calendar").await;
    phone.until("another file", "return offeredFiles.length > 1;").await;
    let again = phone.run("return offeredFiles.at(-1)[1];", vec![]).await;
    let again = again.as_str().unwrap_or_default().replace("\r\n ", "");
    phone.sure(names(&file) == names(&again) && names(&file).len() == 4, "other names").await;
    phone.at_each = AtEach::Check;
    phone.at("hour-calendar").await;
    phone.nothing_found().await;

    // A browser that takes no file is not passed over in silence.
    phone_is(&mut phone, "nofile").await;
    phone.tap("Put the next looks into the phone’s calendar").await;
    phone.see("The browser did not take the file. Nothing is in the calendar").await;

    // What is not known is said, and leads to where it is set.
    phone.tap("Vials left: not counted. Count them with the next solution").await;
    phone.headed("Where is the skin without blood?").await;
    back(&mut phone).await;
    phone
}

async fn the_phone_changes_its_zone(mut phone: Phone) -> Phone {
    fresh(&mut phone).await;
    a_round(&mut phone).await;
    let text = phone.text().await;
    phone.sure(!text.contains("time zone"), "a zone that did not change is said to have").await;
    phone_is(&mut phone, "zone").await;
    phone.see("The phone’s time zone changed by +1 h since the round.").await;
    phone.headed("Look again in").await;
    let left = clock(&mut phone).await;
    phone.sure((3_000..=3_600).contains(&left), &format!("{left} s left")).await;
    phone
}
