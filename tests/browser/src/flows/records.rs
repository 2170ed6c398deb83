//! Years of cases on a phone: made on the host by the app's own rules, and laid where the app keeps
//! them.

use crate::phone::Phone;
use freshet::care::allergy::Species;
use freshet::care::rounds::End;
use freshet::case::{Case, CaseId, Entry, Event, Journal, Reference};
use freshet::kit::{Act, Article, Lot, Place, Vial};
use freshet::measure::{Moment, Span, Units};
use freshet::protocol::Protocol;
use freshet::store::Key;
use serde_json::{Value as Json, json};

/// A day.
const DAY: Span = Span::hours(24);
/// Entries of a case, about as many as an occlusion of two rounds has.
pub const ENTRIES: usize = 80;
/// When the oldest case was opened: 1 March 2018, 12:00 UTC.
const OLDEST: Moment = Moment::from_millis(1_519_905_600_000);

/// A case closed within its day, the `n`th: opened three days after the one before, under the
/// reference `DEMO 000n`, with a vial of batch `DEMO-n`.
pub fn closed_case(n: u64, entries: usize) -> Journal {
    let opened = OLDEST.after(Span::millis(n * 3 * DAY.as_millis()));
    let mut journal = Journal::new(CaseId::from_random(0x00de_0000 + u128::from(n)));
    let reference = Reference::new(&format!("DEMO {n:04}")).expect("short");
    let protocol = Box::new(Protocol::default());
    journal.append(opened, 0, Event::Opened { reference, protocol });
    let vial = Vial {
        number: 1,
        units: Units::whole(1_500),
        batch: format!("DEMO-{n}"),
        expiry: None,
        from: None,
        solution: None,
    };
    journal.append(opened.after(Span::minutes(2)), 0, Event::Vial(vial));
    for entry in 3..entries as u64 {
        let note =
            format!("Colour at point {entry} after ten seconds: pale, slower than beside it.");
        journal.append(opened.after(Span::minutes(entry)), 0, Event::Note(note));
    }
    journal.append(opened.after(Span::hours(3)), 0, Event::Closed(End::Done));
    journal
}

/// The kit's journal with one lot of vials of this batch, and the lot's name in the address.
pub fn received(batch: &str) -> (Journal, String) {
    let article = Article::Hyaluronidase { units: Units::whole(1_500), species: Species::Ovine };
    let lot = Lot {
        article,
        batch: batch.to_owned(),
        expiry: None,
        gtin: None,
        place: Place::Clinic,
        count: 10,
    };
    let mut kit = Journal::new(CaseId::KIT);
    let lot = kit.append(OLDEST, 0, Event::Kit(Act::Received(Box::new(lot)))).id();
    (kit, lot.to_string())
}

/// Lays texts and headlines into the archive, as the app would have.
pub async fn lay_in_archive(phone: &mut Phone, cases: &[Journal]) {
    const LAY: &str = "
        const [cases, done] = arguments;
        const open = indexedDB.open('freshet');
        open.onerror = () => done(String(open.error));
        open.onsuccess = () => {
          const work = open.result.transaction(['archive', 'headlines'], 'readwrite');
          for (const [id, text, headline] of cases) {
            work.objectStore('archive').put(text, id);
            work.objectStore('headlines').put(headline, id);
          }
          work.onabort = () => done(String(work.error));
          work.oncomplete = () => { open.result.close(); done('laid'); };
        };";
    // In portions that a driver takes in one message.
    for portion in cases.chunks(50) {
        let cases: Vec<Json> = portion.iter().map(archived).collect();
        let laid = phone.client().execute_async(LAY, vec![json!(cases)]).await;
        let laid = laid.unwrap_or_else(|error| json!(error.to_string()));
        phone.sure(laid == json!("laid"), &format!("the archive takes nothing: {laid}")).await;
    }
}

fn archived(journal: &Journal) -> Json {
    let headline = Case::of(journal).headline(journal);
    let headline = serde_json::to_string(&headline).expect("a headline is JSON");
    json!([journal.case().to_string(), journal.lines(), headline])
}

/// Lays lines into localStorage, as the app before it had an archive.
pub async fn lay_near(phone: &mut Phone, cases: &[Journal]) {
    const LAY: &str =
        "for (const [key, line] of arguments[0]) localStorage.setItem(key, line); return true;";
    for journal in cases {
        let line = |entry: &Entry| json!([Key::of(entry).as_str(), entry.line()]);
        let lines: Vec<Json> = journal.entries().iter().map(line).collect();
        phone.run(LAY, vec![json!(lines)]).await;
    }
}

/// Chooses a file of this name that holds this text.
pub async fn choose_file(phone: &mut Phone, name: &str, text: &str) {
    const CHOOSE: &str = "
        const [name, text] = arguments;
        const input = document.querySelector('input[type=file]');
        const given = new DataTransfer();
        given.items.add(new File([text], name));
        input.files = given.files;
        input.dispatchEvent(new Event('change', { bubbles: true }));
        return true;";
    phone.note(&format!("choose the file {name}"));
    phone.run(CHOOSE, vec![json!(name), json!(text)]).await;
}
