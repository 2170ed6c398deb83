//! Whom to call, what is read out to them, and the signs that lead there.

use super::around::home;
use crate::phone::Phone;
use serde_json::json;

/// An eye department of the demo clinic. The number is of a range kept for fiction.
pub const EYES: (&str, &str) = ("Demo Eye Hospital", "020 7946 0958");

/// To whom the clinic calls, by its address: the way there from the start screen is another's.
pub async fn to_contacts(phone: &mut Phone) {
    let url = format!("{}?page=contacts", phone.server.url());
    phone.go(&url).await;
    phone.settled().await;
    phone.headed("Whom to call").await;
}

/// Confirms the emergency number and types an eye department in, with a slip of the finger.
pub async fn contacts(phone: &mut Phone) {
    to_contacts(phone).await;
    phone.at("contacts-none").await;
    let dialled = links(phone).await;
    phone.sure(dialled.is_empty(), &format!("dialled unconfirmed: {dialled:?}")).await;
    phone.tap("Use 999: UK").await;
    phone.see_no("Use 999: UK").await;
    phone.tap("Add: eye department").await;
    phone.headed("Add: eye department").await;
    phone.type_into("Name", EYES.0).await;
    // Letters, and a digit too few, are said in words and not kept.
    phone.type_into("Number", "020 7946 O958").await;
    phone.see("“O” is a letter: type digits only.").await;
    phone.at("contacts-wrong").await;
    phone.tap("Save").await;
    phone.headed("Add: eye department").await;
    phone.type_into("Number", "0").await;
    phone.see("Too short: 2 digits at least.").await;
    phone.type_into("Number", EYES.1).await;
    phone.see_no("Too short").await;
    phone.tap("Save").await;
    phone.headed("Whom to call").await;
    phone.see(EYES.0).await;
    phone.at("contacts").await;
}

/// Every address on the screen that a phone would dial, in order.
pub async fn links(phone: &Phone) -> Vec<String> {
    const LINKS: &str = "return [...scope().querySelectorAll('a[href^=\"tel:\"]')].filter(shown).map((a) => a.getAttribute('href'));";
    let found = phone.run(LINKS, vec![]).await;
    let found = found.as_array().cloned().unwrap_or_default();
    found.iter().filter_map(|one| one.as_str().map(str::to_owned)).collect()
}

/// From now on, and on each page to come: no telephone is started, and what is shared or copied is
/// kept for the test.
pub async fn watch(phone: &mut Phone) {
    phone.before_each_page(WATCH).await;
}

const WATCH: &str = "
    globalThis.dialled = [];
    addEventListener('click', (click) => {
      const link = click.target.closest?.('a[href^=\"tel:\"]');
      if (link) { dialled.push(link.getAttribute('href')); click.preventDefault(); }
    }, true);
    globalThis.shared = [];
    globalThis.ways = 'share';
    const share = (data) => { shared.push(['share', data.text]); return Promise.resolve(); };
    const copy = (text) => { shared.push(['copy', text]); return Promise.resolve(); };
    Object.defineProperty(navigator, 'share', { configurable: true, get: () => (ways === 'share' ? share : undefined) });
    Object.defineProperty(navigator, 'clipboard', { configurable: true, get: () => (ways === 'none' ? undefined : { writeText: copy }) });";

/// Lets the phone have this way to hand a text on: `share`, `copy`, or `none`.
pub async fn ways(phone: &Phone, way: &str) {
    phone.run("window.ways = arguments[0]; return true;", vec![json!(way)]).await;
}

/// What was handed on last: how, and the text.
pub async fn shared(phone: &mut Phone) -> (String, String) {
    phone.until("something is handed on", "return shared.length > 0;").await;
    let last = phone.run("return shared.pop();", vec![]).await;
    let word = |place: usize| last[place].as_str().unwrap_or_default().to_owned();
    (word(0), word(1))
}

/// What was dialled so far.
pub async fn dialled(phone: &Phone) -> Vec<String> {
    let found = phone.run("return dialled;", vec![]).await;
    let found = found.as_array().cloned().unwrap_or_default();
    found.iter().filter_map(|one| one.as_str().map(str::to_owned)).collect()
}

/// Home again, and into the open case.
pub async fn back_to_case(phone: &mut Phone) {
    home(phone).await;
    super::around::open_case(phone).await;
}
