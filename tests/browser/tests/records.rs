//! Years of cases: found again quickly, moved into the archive safely, taken in from a file.

use freshet::case::{Event, Journal, SCHEMA};
use freshet::measure::Hash;
use freshet::record::file;
use freshet_browser_tests::flows::around::home;
use freshet_browser_tests::flows::records::{
    ENTRIES, choose_file, closed_case, lay_in_archive, lay_near, received,
};
use freshet_browser_tests::phone::{AtEach, Phone};
use serde_json::{Value as Json, json};
use std::collections::BTreeSet;
use std::time::{Duration, Instant};

crate::on_both_engines! {
    a_case_of_years_ago_is_found
    closed_cases_move_and_nothing_is_lost
    a_file_is_taken_in_or_refused
}

/// What a start and an opening may take here: this is a build without optimisation, on cores that
/// other browsers share. As built for users it is a fraction of that.
const PATIENT: Duration = Duration::from_secs(12);

async fn quick(phone: &mut Phone, what: &str, since: Instant) {
    let took = since.elapsed();
    eprintln!("{}: {what} took {:.2} s", phone.title(), took.as_secs_f64());
    phone.sure(took < PATIENT, &format!("{what} took {took:?}")).await;
}

async fn a_case_of_years_ago_is_found(mut phone: Phone) -> Phone {
    phone.open().await;
    let cases: Vec<Journal> = (0..1_000).map(|n| closed_case(n, ENTRIES)).collect();
    lay_in_archive(&mut phone, &cases).await;
    let (kit, lot) = received("DEMO-17");
    lay_near(&mut phone, &[kit]).await;

    let start = Instant::now();
    phone.reload().await;
    phone.see("1 000 closed cases").await;
    quick(&mut phone, "the start with 1,000 cases", start).await;

    phone.at_each = AtEach::Check;
    phone.tap("All records").await;
    phone.headed("Records").await;
    phone.see("1000 cases").await;
    phone.see("DEMO 0950").await;
    phone.sure(!phone.text().await.contains("DEMO 0949"), "more than fifty are drawn").await;
    phone.at("records").await;
    phone.tap("Show more").await;
    phone.see("DEMO 0949").await;

    // By batch, by date, by reference; in words why.
    phone.type_into(SEARCH, "demo-17").await;
    phone.see("11 of 1000 cases").await;
    phone.see("Batch DEMO-170").await;
    phone.at("records-found").await;
    phone.type_into(SEARCH, "1.3.2018").await;
    phone.see("1 of 1000 cases").await;
    phone.see("Opened 1 Mar 2018").await;
    phone.type_into(SEARCH, "nothing like it").await;
    phone.see("Nothing found").await;
    phone.at("records-none").await;
    // A batch is recalled: from its lot in the kit straight to the cases.
    let url = phone.server.url();
    phone.go(&format!("{url}?page=records&lot={lot}")).await;
    phone.see("11 of 1000 cases").await;
    phone.type_into(SEARCH, "demo 0003").await;
    phone.see("1 of 1000 cases").await;

    let start = Instant::now();
    phone.tap("DEMO 0003").await;
    phone.see(&format!("Chain whole: {ENTRIES} entries")).await;
    quick(&mut phone, "opening a case of years ago", start).await;

    // It goes on where it stopped, and is whole when the app starts anew.
    phone.tap("Add a note").await;
    phone.type_into("What happened", "Seen again").await;
    phone.tap("Write it into the record").await;
    phone.see(&format!("Chain whole: {} entries", ENTRIES + 1)).await;
    phone.reload().await;
    phone.see(&format!("Chain whole: {} entries", ENTRIES + 1)).await;
    phone.see("Seen again").await;
    // Every case, the note and the lot.
    let file = everything(&mut phone).await;
    phone.sure(file == ENTRIES * 1_000 + 2, &format!("the file has {file} lines")).await;
    phone.nothing_found().await;
    phone
}

const SEARCH: &str = "Reference, batch or date";

/// How many lines the file of the whole record has.
async fn everything(phone: &mut Phone) -> usize {
    const WATCH: &str = "
        window.fileLines = [];
        const make = URL.createObjectURL.bind(URL);
        URL.createObjectURL = (blob) => { blob.text().then((text) => window.fileLines.push(text.trim().split('\\n').length)); return make(blob); };
        return true;";
    home(phone).await;
    phone.tap("About and cautions").await;
    phone.headed("About and cautions").await;
    phone.run(WATCH, vec![]).await;
    phone.tap("Save the record as a file").await;
    phone.until("the file is made", "return window.fileLines.length > 0;").await;
    let lines = phone.run("return window.fileLines.at(-1);", vec![]).await;
    lines.as_u64().and_then(|lines| usize::try_from(lines).ok()).unwrap_or_default()
}

/// Lets the archive refuse when told to.
const FULL: &str = "
    const put = IDBObjectStore.prototype.put;
    IDBObjectStore.prototype.put = function (...given) {
      if (globalThis.name === 'full' && this.name === 'archive') throw new DOMException('no room', 'QuotaExceededError');
      return put.apply(this, given);
    };";

/// How many characters localStorage holds of entries, how many lines the deep shelf has, the texts in
/// the archive, and every line wherever it lies.
const KEPT: &str = "
    const done = arguments[arguments.length - 1];
    const near = Object.entries(localStorage).filter(([key]) => key.startsWith('freshet/entry/'));
    const open = indexedDB.open('freshet');
    open.onerror = () => done(String(open.error));
    open.onsuccess = () => {
      const work = open.result.transaction(['entries', 'archive', 'headlines']);
      const entries = work.objectStore('entries').getAll();
      const texts = work.objectStore('archive').getAll();
      const headlines = work.objectStore('headlines').getAllKeys();
      work.oncomplete = () => {
        open.result.close();
        const lines = new Set(near.map(([, line]) => line).concat(entries.result, texts.result.join('').split('\\n').filter(Boolean)));
        done({
          near: near.reduce((sum, [key, line]) => sum + key.length + line.length, 0),
          deep: entries.result.length,
          texts: texts.result.length,
          headlines: headlines.result.length,
          lines: [...lines].map((line) => line.slice(0, 64)),
        });
      };
    };";

async fn kept(phone: &mut Phone) -> Json {
    let kept = phone.client().execute_async(KEPT, vec![]).await;
    kept.unwrap_or_else(|error| json!(error.to_string()))
}

/// Every entry lies somewhere.
async fn all_kept(phone: &mut Phone, cases: &[Journal]) -> Json {
    let kept = kept(phone).await;
    let lines = kept["lines"].as_array().cloned().unwrap_or_default();
    let lines: BTreeSet<&str> = lines.iter().filter_map(Json::as_str).collect();
    let lost: Vec<String> = cases
        .iter()
        .flat_map(Journal::entries)
        .map(|entry| entry.id().to_string())
        .filter(|id| !lines.contains(id.as_str()))
        .collect();
    phone.sure(lost.is_empty(), &format!("{} entries are gone", lost.len())).await;
    kept
}

async fn closed_cases_move_and_nothing_is_lost(mut phone: Phone) -> Phone {
    phone.start().await;
    phone.before_each_page(FULL).await;
    let url = phone.server.url();
    phone.go(&url).await;
    phone.see("New case").await;
    let cases: Vec<Journal> = (0..60).map(|n| closed_case(n, ENTRIES)).collect();
    let all: usize = cases.iter().map(|journal| journal.lines().len()).sum();
    let budget = freshet::store::archive::BUDGET;
    phone.sure(all > budget + 100_000, &format!("{all} characters are too few")).await;
    lay_near(&mut phone, &cases).await;

    // The archive has no room: every case stays, is listed, and opens.
    phone.run("window.name = 'full'; return true;", vec![]).await;
    phone.reload().await;
    phone.see("60 closed cases").await;
    let now = all_kept(&mut phone, &cases).await;
    phone.sure(now["texts"] == json!(0), "something is in a full archive").await;
    phone.sure(now["near"].as_u64() > Some(budget as u64), "something left the shelf").await;

    // Killed in the middle of moving, again and again.
    phone.run("window.name = ''; return true;", vec![]).await;
    for pause in [150, 400, 800] {
        phone.run("setTimeout(() => location.reload()); return true;", vec![]).await;
        tokio::time::sleep(Duration::from_millis(pause)).await;
        phone.kill();
        phone.start().await;
        phone.go(&format!("{url}boot.js")).await;
        all_kept(&mut phone, &cases).await;
        phone.go(&url).await;
    }
    phone.see("60 closed cases").await;

    // Moved: the longest closed, just enough of them.
    let now = all_kept(&mut phone, &cases).await;
    let near = now["near"].as_u64().unwrap_or(u64::MAX);
    phone.sure(near <= budget as u64, &format!("{near} characters on the near shelf")).await;
    phone.sure(near > budget as u64 * 9 / 10, &format!("only {near} characters stayed")).await;
    let moved = now["texts"].as_u64().unwrap_or_default();
    phone.sure(moved > 0 && now["headlines"] == now["texts"], &format!("{moved} texts")).await;
    let deep = now["deep"].as_u64().unwrap_or_default();
    let left = (cases.len() as u64 - moved) * ENTRIES as u64;
    phone.sure(deep == left, &format!("{deep} lines on the deep shelf, not {left}")).await;
    phone.tap("All records").await;
    phone.type_into(SEARCH, "demo 0000").await;
    phone.tap("DEMO 0000").await;
    phone.see(&format!("Chain whole: {ENTRIES} entries")).await;
    phone
}

async fn a_file_is_taken_in_or_refused(mut phone: Phone) -> Phone {
    phone.at_each = AtEach::Check;
    phone.open().await;
    let case = closed_case(7, 12);
    let text = case.lines();
    let (start, _) = text.split_at(text.len() - 40);
    let newer = format!("{{\"schema\":{}}}", SCHEMA + 1);
    let newer = format!("{} {newer}\n", Hash::of(newer.as_bytes()));
    let (_, lost) = text.split_once('\n').expect("several lines");
    let file = file::write(&case, case.entries()[11].at());
    phone.tap("Records").await;
    phone.see("No case on this phone yet.").await;
    phone.at("records-empty").await;

    // Each refused in words, and nothing is changed.
    for (name, text, why) in [
        ("truncated.txt", start, "Entry 12 in it is cut or missing"),
        ("altered.txt", &text.replace("point 5", "point 6"), "Entry 5 is not what was recorded"),
        ("newer.txt", &(text.clone() + &newer), "Entry 13 was written by a later version"),
        ("foreign.txt", "Dear colleague", "It is not a record of this app."),
        ("empty.txt", "", "It is empty."),
        ("lost.txt", lost, "its entry 1 is missing"),
        ("cut.json", file.split_at(file.len() - 60).0, "Entry 12 in it is cut or missing"),
        ("altered.json", &file.replace("point 5", "point 6"), "Entry 5 is not what was recorded"),
        ("newer.json", &file.replace("\"version\":1", "\"version\":2"), "saved by a later version"),
        ("head.json", &file.replace("\"count\":12", "\"count\":11"), "Its head does not fit"),
        ("bundle.json", "{\"resourceType\":\"Bundle\"}", "It is not a record of this app."),
    ] {
        choose_file(&mut phone, name, text).await;
        phone.headed("This file is not taken in").await;
        phone.see(why).await;
        phone.see("Nothing was changed.").await;
        if name == "truncated.txt" {
            phone.at("file-refused").await;
        }
        phone.tap("Leave it").await;
        phone.see("No case on this phone yet.").await;
    }
    files_that_are_no_text(&mut phone).await;
    lines_that_end_early(&mut phone, &text, &file).await;
    a_file_is_shown_and_taken(&mut phone, &case).await;
    phone
}

/// Chosen by mistake: neither can be a record.
async fn files_that_are_no_text(phone: &mut Phone) {
    let huge = "
        const input = document.querySelector('input[type=file]');
        const given = new DataTransfer();
        const part = new Uint8Array(1_000_001);
        given.items.add(new File(Array(50).fill(part), 'huge.txt'));
        input.files = given.files;
        input.dispatchEvent(new Event('change', { bubbles: true }));
        return true;";
    phone.run(huge, vec![]).await;
    phone.see("It is larger than 50 MB").await;
    phone.tap("Leave it").await;
    choose_file(phone, "bytes.txt", "\u{0}").await;
    phone.see("It is not a record of this app.").await;
    phone.tap("Leave it").await;
    let picture = "
        const input = document.querySelector('input[type=file]');
        const given = new DataTransfer();
        given.items.add(new File([new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0xff])], 'label.png'));
        input.files = given.files;
        input.dispatchEvent(new Event('change', { bubbles: true }));
        return true;";
    phone.run(picture, vec![]).await;
    phone.see("It is not a text").await;
    phone.tap("Leave it").await;
}

/// Lines that end early between two entries look whole: how many there are, and that lines cannot show
/// their end, is said. A case file can.
async fn lines_that_end_early(phone: &mut Phone, text: &str, file: &str) {
    const NO_END: &str = "they cannot show whether entries after the last are lost";
    let early: String = text.split_inclusive('\n').take(8).collect();
    choose_file(phone, "early.txt", &early).await;
    phone.see("8 entries, the first 22 Mar 2018, 12:00, the last 22 Mar 2018, 12:08").await;
    phone.see(NO_END).await;
    phone.at("file-early").await;
    phone.tap("Leave it").await;
    choose_file(phone, "case.json", file).await;
    phone.see("12 entries, the first 22 Mar 2018, 12:00, the last 22 Mar 2018, 15:00").await;
    phone.see_no(NO_END).await;
    phone.tap("Leave it").await;
}

/// Shown first; taken with one tap. The same again gives nothing; less gives nothing; more is added;
/// what differs is refused.
async fn a_file_is_shown_and_taken(phone: &mut Phone, case: &Journal) {
    let text = case.lines();
    choose_file(phone, "case.txt", &text).await;
    phone.headed("What is in this file").await;
    phone.see("DEMO 0007").await;
    phone.see("12 entries").await;
    phone.see("Not on this phone: will be taken in").await;
    phone.at("file").await;
    phone.go_on("Take it in").await;
    phone.see("Taken in.").await;
    phone.see("1 case").await;

    choose_file(phone, "same.txt", &text).await;
    phone.see("Already here, the same").await;
    phone.see("Nothing in it is new here.").await;
    phone.tap("Leave it").await;
    let mut longer = case.clone();
    let then = case.entries()[11].at();
    longer.append(then, 0, Event::Note("Seen again elsewhere".to_owned()));
    choose_file(phone, "longer.txt", &longer.lines()).await;
    phone.see("Here without its last 1 entry: will be added").await;
    phone.go_on("Take it in").await;
    phone.see("Taken in.").await;
    choose_file(phone, "older.txt", &text).await;
    phone.see("Already here, with 1 entry more than in the file").await;
    phone.tap("Leave it").await;
    let mut other = case.clone();
    other.append(then, 0, Event::Note("Otherwise".to_owned()));
    choose_file(phone, "other.txt", &other.lines()).await;
    phone.see("Goes on differently here after 12 entries").await;
    phone.at("file-forked").await;
    phone.tap("Leave it").await;
    phone.tap("DEMO 0007").await;
    phone.see("Chain whole: 13 entries").await;
    phone.see("Seen again elsewhere").await;
    phone.reload().await;
    phone.see("Chain whole: 13 entries").await;
    phone.nothing_found().await;
}
