//! Storage that is full or damaged.

use freshet_browser_tests::flows::around::home;
use freshet_browser_tests::flows::urgent::to_first_draw;
use freshet_browser_tests::phone::Phone;
use serde_json::{Value as Json, json};

crate::on_both_engines! { storage_full a_damaged_entry }

/// Fills localStorage to the last character.
const FILL: &str = "
    let size = 1 << 20, n = 0;
    while (size >= 1) {
      try { localStorage.setItem(`filler/${n++}`, 'x'.repeat(size)); } catch { size = size >> 1; }
    }
    return n;";
const EMPTY: &str = "
    for (const key of Object.keys(localStorage)) if (key.startsWith('filler/')) localStorage.removeItem(key);
    return true;";
/// Keeps the text of every file that the app offers, and lets IndexedDB refuse when told to.
const WATCH: &str = "
    globalThis.offeredFiles = [];
    const make = URL.createObjectURL.bind(URL);
    URL.createObjectURL = (blob) => { blob.text().then((text) => offeredFiles.push(text)); return make(blob); };
    const put = IDBObjectStore.prototype.put;
    IDBObjectStore.prototype.put = function (...given) {
      if (globalThis.name === 'full') throw new DOMException('no room', 'QuotaExceededError');
      return put.apply(this, given);
    };";
/// How many entries localStorage holds.
const ENTRIES: &str =
    "return Object.keys(localStorage).filter((key) => key.startsWith('freshet/entry/')).length;";

async fn storage_full(mut phone: Phone) -> Phone {
    phone.start().await;
    phone.before_each_page(WATCH).await;
    let url = phone.server.url();
    phone.go(&url).await;
    phone.see("New case").await;

    // One of the two places is full: said, and the case goes on.
    let filled = phone.run(FILL, vec![]).await;
    phone.sure(filled.as_u64().is_some_and(|n| n > 4), "localStorage does not fill").await;
    to_first_draw(&mut phone).await;
    phone.see("The last entry is kept in one place only: this browser’s storage is full.").await;
    phone.at("storage-weak").await;
    let heading = phone.heading().await;

    // Both are full: said with more weight, the file is offered, and the case goes on.
    phone.run("window.name = 'full'; return true;", vec![]).await;
    phone.tap("Drawn, 1.00 mL").await;
    phone
        .see("1 entry is not saved on this phone. Do not close the app; save the record as a file.")
        .await;
    phone.see("Movement 2 of").await;
    phone.tap("Dissolved").await;
    phone.see("2 entries are not saved on this phone.").await;
    phone.at("storage-full").await;
    let place = phone.heading().await;
    phone.sure(place != heading, "the case does not go on").await;

    let file = saved_file(&mut phone).await;
    for word in ["Opened", "Found", "Way", "Asked", "Ready", "Territory", "Preparation"] {
        phone.sure(file.contains(&format!("\"{word}\"")), &format!("the file lacks {word}")).await;
    }
    let drawn = file.matches("\"Drew\"").count();
    phone.sure(drawn == 2, &format!("the file has {drawn} of 2 unsaved entries")).await;
    let lines = file.lines().count();

    // Room again: kept after all, and there after the page is loaded anew.
    phone.run("window.name = ''; return true;", vec![]).await;
    phone.run(EMPTY, vec![]).await;
    phone.tap("Try again").await;
    phone.see_no("not saved on this phone").await;
    phone.reload().await;
    phone.headed(&place).await;
    let kept = phone.run(ENTRIES, vec![]).await;
    phone.sure(kept == json!(lines), &format!("{kept} of {lines} entries in localStorage")).await;
    phone
}

/// Presses the first offer of the file and returns what it holds.
async fn saved_file(phone: &mut Phone) -> String {
    const PRESS: &str = "
        const offers = find('button', 'Save the record as a file');
        offers[0]?.click();
        return offers.length;";
    let offers = phone.run(PRESS, vec![]).await;
    phone.sure(offers.as_u64().is_some_and(|n| n > 0), "the file is not offered").await;
    phone.until("the file is made", "return window.offeredFiles.length > 0;").await;
    let text = phone.run("return window.offeredFiles.at(-1);", vec![]).await;
    text.as_str().unwrap_or_default().to_owned()
}

/// Changes one letter of the last entry of the first case: in localStorage, or in both places.
const DAMAGE: &str = "
    const [both, done] = arguments;
    const keys = Object.keys(localStorage).filter((key) => key.startsWith('freshet/entry/')).sort();
    const key = keys.at(-1);
    const line = localStorage.getItem(key);
    const cut = line.slice(0, -9) + '#' + line.slice(-8);
    localStorage.setItem(key, cut);
    if (!both) return done([key, cut]);
    const open = indexedDB.open('freshet');
    open.onerror = () => done(String(open.error));
    open.onsuccess = () => {
      const work = open.result.transaction('entries', 'readwrite');
      work.objectStore('entries').put(cut, key);
      work.oncomplete = () => { open.result.close(); done([key, cut]); };
    };";

async fn a_damaged_entry(mut phone: Phone) -> Phone {
    phone.start().await;
    phone.before_each_page(WATCH).await;
    let url = phone.server.url();
    phone.go(&url).await;
    phone.see("New case").await;
    to_first_draw(&mut phone).await;
    let heading = phone.heading().await;
    let entries = phone.run(ENTRIES, vec![]).await;

    // In one place: the other has it whole, so nothing is missing and it is put right.
    let cut = damage(&mut phone, false).await;
    phone.reload().await;
    phone.headed(&heading).await;
    let text = phone.text().await;
    phone
        .sure(!text.contains("Damaged on this phone"), "a line that was mended is called damaged")
        .await;
    let now = phone.run(ENTRIES, vec![]).await;
    phone.sure(now == entries, &format!("{now} of {entries} entries after mending")).await;
    let aside = kept_aside(&mut phone, &cut).await;
    phone.sure(aside, "the damaged line was not kept aside").await;

    // In both: named at the start, kept aside, and the rest is whole.
    let cut = damage(&mut phone, true).await;
    home(&mut phone).await;
    phone.see("Damaged on this phone: entry").await;
    phone.at("damaged").await;
    let file = saved_file(&mut phone).await;
    phone.sure(file.contains(&cut), "the file lacks the damaged line").await;
    let aside = kept_aside(&mut phone, &cut).await;
    phone.sure(aside, "the damaged line was not kept aside").await;
    // The entries before it count: the case stands where it stood before the last of them.
    freshet_browser_tests::flows::around::open_case(&mut phone).await;
    phone.headed("Where is the skin without blood?").await;
    phone.reads("This round", "600 units").await;
    phone
}

async fn damage(phone: &mut Phone, both: bool) -> String {
    let told = phone.client().execute_async(DAMAGE, vec![json!(both)]).await;
    let told = told.unwrap_or_else(|error| json!(error.to_string()));
    match told[1].as_str() {
        Some(cut) => cut.to_owned(),
        None => phone.fail(&format!("the entry could not be damaged: {told}")).await,
    }
}

async fn kept_aside(phone: &mut Phone, cut: &str) -> bool {
    const ASIDE: &str = "return Object.entries(localStorage)
        .some(([key, line]) => key.startsWith('freshet/aside/') && line === arguments[0]);";
    phone.run(ASIDE, vec![json!(cut)]).await == Json::Bool(true)
}
