//! The kit: filled, counted, carried, looked up.

use freshet_browser_tests::flows::kit::{
    Delivery, VIALS, nothing_noted, receive, receive_other, to_kit,
};
use freshet_browser_tests::flows::records::lay_in_archive;
use freshet_browser_tests::flows::urgent;
use freshet_browser_tests::phone::{AtEach, Phone};
use serde_json::json;

crate::on_both_engines! {
    vials_in_and_counted_down
    what_cannot_be_read_is_said
    carried_struck_out_and_in_the_calendar
    a_pack_is_scanned
    a_case_takes_its_vial_from_the_kit
    what_nobody_noted_is_noted_in_a_closed_case
}

/// Keeps what files were made. Reads no codes, on whatever machine it runs.
const PHONE: &str = "
    globalThis.offeredFiles = [];
    const make = URL.createObjectURL.bind(URL);
    URL.createObjectURL = (blob) => { blob.text?.().then((text) => offeredFiles.push([blob.type, text])); return make(blob); };
    delete globalThis.BarcodeDetector;";

/// A camera that sees one pack, and a browser that reads its code.
const SCANNER: &str = "
    globalThis.stopped = 0;
    const devices = { getUserMedia: async () => {
      const canvas = document.createElement('canvas');
      canvas.getContext('2d').fillRect(0, 0, 9, 9);
      const stream = canvas.captureStream(5);
      for (const track of stream.getTracks()) {
        const stop = track.stop.bind(track);
        track.stop = () => { stopped += 1; stop(); };
      }
      return stream;
    } };
    Object.defineProperty(navigator, 'mediaDevices', { configurable: true, get: () => devices });
    globalThis.BarcodeDetector = class {
      static async getSupportedFormats() { return ['data_matrix']; }
      async detect() { return globalThis.pack ? [{ rawValue: pack }] : []; }
    };";

/// The kit on a phone of the test's own making.
async fn fresh(phone: &mut Phone) {
    phone.start().await;
    phone.before_each_page(PHONE).await;
    to_kit(phone).await;
    phone.at_each = AtEach::Check;
}

async fn vials_in_and_counted_down(mut phone: Phone) -> Phone {
    fresh(&mut phone).await;
    phone.see("Nothing noted yet").await;
    phone.at("kit-empty").await;
    receive(&mut phone, VIALS).await;
    phone.see("Not known: not all is noted").await;
    phone.see("Needles: never noted").await;
    // Four vials of 1500 are four rounds of each size: what is left of a vial is thrown away.
    phone.reads("Rounds of 500 units", "4").await;
    phone.reads("Rounds of 1 500 units", "4").await;
    let bag = Delivery { batch: "DEMO-2", count: 1, place: "Bag", ..VIALS };
    receive(&mut phone, bag).await;
    for kind in ["Diluent", "Syringes", "Needles", "Adrenaline", "Aspirin"] {
        receive_other(&mut phone, kind, 6).await;
    }
    phone.see_no("never noted").await;
    phone.see_no("Not known").await;
    phone.reads("Rounds of 1 000 units", "5").await;
    phone.at("kit").await;
    // On a home visit only the bag counts.
    phone.tick("Bag").await;
    phone.see("Not ready").await;
    phone.reads("Rounds of 1 000 units", "1").await;
    phone.see_no("Batch DEMO-1 ").await;
    phone.at("kit-bag").await;
    phone.tick("All").await;
    phone.see_no("Not ready").await;

    // Counted by hand, most of them are not there.
    phone.tap_first("Hyaluronidase").await;
    phone.headed("Hyaluronidase, 1 500 units · Ovine").await;
    phone.at("kit-lot").await;
    phone.tap("Count again").await;
    phone.headed("Count again").await;
    phone.choose("Where", "Clinic").await;
    phone.type_into("How many", "0").await;
    phone.at("kit-count").await;
    phone.go_on("So many lie there").await;
    phone.headed("Kit").await;
    phone.reads("Rounds of 1 000 units", "1").await;
    phone.see("Hyaluronidase: 1 of 4 wanted").await;
    phone.tap_first("Hyaluronidase").await;
    phone.tap("Throw away").await;
    phone.type_into("How many", "1").await;
    phone.tick("Recalled").await;
    phone.at("kit-discard").await;
    phone.go_on("Thrown away").await;
    phone.headed("Kit").await;
    phone.see("Not ready").await;
    phone.see("Hyaluronidase: 0 of 4").await;

    // Kept, and told on the start screen.
    phone.reload().await;
    phone.see("Not ready").await;
    phone.reads("Rounds of 500 units", "0").await;
    phone.at_each = AtEach::Nothing;
    freshet_browser_tests::flows::around::home(&mut phone).await;
    phone.see("0 vials").await;
    phone.nothing_found().await;
    phone
}

async fn what_cannot_be_read_is_said(mut phone: Phone) -> Phone {
    fresh(&mut phone).await;
    phone.go_on("Add to the kit").await;
    phone.headed("Add to the kit").await;
    phone.see("This phone cannot read codes by its camera").await;
    phone.type_into("Expiry", "2031-13").await;
    phone.see("There is no such day.").await;
    phone.type_into("Expiry", "soon").await;
    phone.go_on("Put it in").await;
    phone.see("Type year and month, or day, month and year").await;
    phone.type_into("Expiry", "2031-05").await;
    phone.type_into("How many", "0").await;
    phone.see("Zero makes no sense here.").await;
    phone.type_into("How many", "3").await;

    // One digit of the number is wrong: its check digit says so, and nothing is filled in.
    phone.tap("Type or paste the code on the pack").await;
    phone.type_into("Code on the pack", "(01)09506000134353(17)310531(10)DEMO-7").await;
    phone.tap("Fill in from the code").await;
    phone.see("check digit").await;
    phone.at("kit-add-wrong").await;
    phone.type_into("Code on the pack", "(01)09506000134352(17)310531(10)DEMO-7").await;
    phone.tap("Fill in from the code").await;
    phone.see("Compare with what is printed.").await;
    phone.go_on("Put it in").await;
    phone.headed("Kit").await;
    phone.see("Batch DEMO-7 · use until 31 May 2031").await;

    // The same again would be counted twice: it is said, and added to the first.
    phone.go_on("Add to the kit").await;
    phone.type_into("Batch", "DEMO-7").await;
    phone.type_into("Expiry", "31.05.2031").await;
    phone.type_into("How many", "2").await;
    phone.see("The kit has this lot already").await;
    phone.go_on("Add to it: then 5 lie there").await;
    phone.headed("Kit").await;
    phone.see("Clinic 5").await;
    phone.nothing_found().await;
    phone
}

async fn carried_struck_out_and_in_the_calendar(mut phone: Phone) -> Phone {
    const FILE: &str = "return offeredFiles.map((file) => file[1]).join().replace(/\\r\\n /g, '');";
    fresh(&mut phone).await;
    receive(&mut phone, VIALS).await;
    phone.tap_first("Hyaluronidase").await;
    phone.tap("Carry to the other place").await;
    phone.type_into("How many", "5").await;
    phone.see("Only 4 in the clinic by the book").await;
    phone.type_into("How many", "3").await;
    phone.at("kit-move").await;
    phone.go_on("Carried").await;
    phone.headed("Kit").await;
    phone.see("Clinic 1").await;
    phone.see("Bag 3").await;

    // It was not so: all are in the clinic again, and both entries stay readable.
    phone.tap_first("Hyaluronidase").await;
    phone.tap("To the bag: 3").await;
    phone.headed("Entry").await;
    phone.tap("Strike it out").await;
    phone.see("Write what was wrong").await;
    phone.type_into("What was wrong, and how it was", "Left in the clinic").await;
    phone.at("kit-entry").await;
    phone.tap("Strike it out").await;
    phone.headed("Kit").await;
    phone.see("Clinic 4").await;
    phone.tap("The kit’s record").await;
    phone.see("Struck out: To the bag: 3").await;
    phone.see("It was not so: Left in the clinic").await;
    phone.at("kit-record").await;

    // Three dates of one lot, at nine in the morning here; nothing of a patient.
    phone.tap("Put expiry dates into the phone’s calendar").await;
    phone.see("Downloaded.").await;
    phone.until("a file", "return offeredFiles.length === 1;").await;
    let file = phone.run(FILE, vec![]).await.as_str().unwrap_or_default().to_owned();
    let so = file.matches("BEGIN:VEVENT").count() == 3
        && file.contains("SUMMARY:Last day of use: Hyaluronidase\\, 1")
        && file.contains("batch DEMO-1");
    phone.sure(so, &file).await;
    let starts = "const day = new Date(2031, 4, 31, 9).toISOString().replace(/[-:]|\\.000/g, ''); \
        return offeredFiles[0][1].includes(`DTSTART:${day}`);";
    let so = phone.run(starts, vec![]).await;
    phone.sure(so == json!(true), &file).await;
    phone.nothing_found().await;
    phone
}

async fn a_pack_is_scanned(mut phone: Phone) -> Phone {
    phone.start().await;
    phone.before_each_page(SCANNER).await;
    to_kit(&mut phone).await;
    scan(&mut phone, "01095060001343521731053110DEMO-7").await;
    phone.see("Compare with what is printed.").await;
    let stopped = phone.run("return stopped;", vec![]).await;
    phone.sure(stopped == json!(1), &format!("stopped {stopped} times")).await;
    phone.choose("On the vial’s label", "300").await;
    phone.choose("The enzyme at hand", "Bovine").await;
    phone.type_into("How many", "2").await;
    phone.go_on("Put it in").await;
    phone.headed("Kit").await;
    phone.see("300 units · Bovine").await;
    phone.see("use until 31 May 2031").await;

    // Its number is known now, so another batch of it needs no more than how many.
    scan(&mut phone, "01095060001343521732063010DEMO-8").await;
    phone.see("the article is the one you received before").await;
    phone.type_into("How many", "3").await;
    phone.go_on("Put it in").await;
    phone.headed("Kit").await;
    phone.see("Batch DEMO-8 · use until 30 Jun 2032").await;
    let text = phone.text().await;
    phone.sure(text.matches("300 units · Bovine").count() == 2, &text).await;
    phone
}

async fn a_case_takes_its_vial_from_the_kit(mut phone: Phone) -> Phone {
    fresh(&mut phone).await;
    receive(&mut phone, VIALS).await;
    phone.at_each = AtEach::Nothing;
    freshet_browser_tests::flows::around::home(&mut phone).await;
    urgent::to_first_draw(&mut phone).await;
    phone.at_each = AtEach::Check;
    phone.tap("Vial 1: batch").await;
    phone.see("4 left").await;
    phone.at("kit-take").await;
    phone.tap("1 500 units · Batch DEMO-1").await;
    phone.see("Vial 1: DEMO-1").await;
    let id = phone.run("return new URLSearchParams(location.search).get('case');", vec![]).await;
    to_kit(&mut phone).await;
    phone.see("Clinic 3").await;

    // It was not so: struck out in the case, it lies in the kit again.
    let record = format!("{}?page=timeline&case={}", phone.server.url(), id.as_str().unwrap_or(""));
    phone.go(&record).await;
    phone.headed("The record").await;
    phone.tap("Vial 1 in hand").await;
    phone.type_into("What was wrong, and how it was", "Put back unopened").await;
    phone.tap("Strike it out").await;
    phone.see("It was not so: Put back unopened").await;
    to_kit(&mut phone).await;
    phone.see("Clinic 4").await;
    phone.nothing_found().await;
    phone
}

async fn what_nobody_noted_is_noted_in_a_closed_case(mut phone: Phone) -> Phone {
    fresh(&mut phone).await;
    let case = nothing_noted();
    lay_in_archive(&mut phone, std::slice::from_ref(&case)).await;
    phone.reload().await;
    receive(&mut phone, Delivery { place: "Bag", ..VIALS }).await;
    phone.see("Opened in cases, not noted").await;
    phone.see("3 vials without a batch").await;
    phone.at("kit-unnoted").await;
    phone.tap("DEMO late").await;
    phone.headed("Vials of this case").await;
    phone.see("3 vials of this case without a batch").await;
    phone.see("Of the solution of ").await;
    phone.at("vials-unnoted").await;

    // The last one’s, typed; what cannot be read is said once one goes on.
    phone.tap("Of the solution made last").await;
    phone.headed("Vial 1").await;
    phone.see("4 left").await;
    phone.tap("Another, typed").await;
    phone.type_into("Expiry", "soon").await;
    phone.go_on("Note it").await;
    phone.see("Type year and month, or day").await;
    phone.type_into("Expiry", "2031-05").await;
    phone.type_into("Batch", "DEMO-9").await;
    phone.at("vial-typed").await;
    phone.go_on("Note it").await;
    phone.see("2 vials of this case without a batch").await;

    // The first solution’s from the kit, the next one like it, from the same place.
    phone.tap("Vial 1: batch").await;
    phone.tap("1 500 units · Batch DEMO-1").await;
    phone.see("1 vial of this case without a batch").await;
    phone.tap("Vial 2: batch").await;
    phone.headed("Vial 2").await;
    phone.see("3 left").await;
    phone.tap("Another, typed").await;
    phone.tap("The same as vial 1, bag").await;
    phone.see("Every vial that was opened is noted.").await;
    phone.at("vials-noted").await;
    phone.go_on("To the record").await;
    phone.headed("The record").await;
    phone.see("Vial 1 of an earlier solution").await;
    phone.see("Vial 2 of an earlier solution").await;
    phone.see(&format!("Chain whole: {} entries", case.entries().len() + 3)).await;
    to_kit(&mut phone).await;
    phone.see("Bag 2").await;
    phone.see_no("Opened in cases, not noted").await;
    phone.nothing_found().await;
    phone
}

/// Opens the sheet, and the camera, which sees nothing at first and then this code.
async fn scan(phone: &mut Phone, code: &str) {
    phone.run("window.pack = null; return true;", vec![]).await;
    phone.go_on("Add to the kit").await;
    phone.headed("Add to the kit").await;
    phone.tap("Scan the pack").await;
    phone.see("Stop scanning").await;
    phone.run("window.pack = arguments[0]; return true;", vec![json!(code)]).await;
    phone.see_no("Stop scanning").await;
}
