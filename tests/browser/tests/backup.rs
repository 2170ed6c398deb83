//! A backup: made on one phone, restored on another, refused where anything is wrong.

use freshet::case::{CaseId, Event, Journal};
use freshet::measure::Moment;
use freshet::record::samples::{Told, occlusion};
use freshet_browser_tests::flows::around::home;
use freshet_browser_tests::flows::backup::{
    PHRASE, choose, look_into, made_elsewhere, make, open, save,
};
use freshet_browser_tests::flows::lock::{CODE, lying, set, unlock};
use freshet_browser_tests::flows::photo::kept;
use freshet_browser_tests::flows::photos::{keep_drawn, shown, tell};
use freshet_browser_tests::flows::records::{closed_case, lay_in_archive, lay_near, received};
use freshet_browser_tests::phone::{AtEach, Phone};
use std::time::Duration;

crate::on_both_engines! {
    a_new_phone_is_filled_from_a_backup
    behind_a_passcode_what_is_restored_is_sealed
    what_is_wrong_with_a_backup_is_told
    what_differs_is_named_and_stays
    a_restoring_that_finds_no_room_is_gone_on_with
}

/// A case with two photos, one on the shelves, one in the archive, and the kit.
async fn full(phone: &mut Phone) -> Told {
    phone.open().await;
    let names = keep_drawn(phone, 2).await;
    let mut told = occlusion();
    tell(&mut told.journal, &names);
    let (kit, _) = received("DEMO-1");
    lay_near(phone, &[told.journal.clone(), closed_case(1, 12), kit]).await;
    lay_in_archive(phone, &[closed_case(2, 12)]).await;
    home(phone).await;
    phone.see("DEMO 0001").await;
    told
}

async fn a_new_phone_is_filled_from_a_backup(mut phone: Phone) -> Phone {
    phone.at_each = AtEach::Check;
    let told = full(&mut phone).await;
    phone.see("No backup of this phone yet").await;
    open(&mut phone).await;
    phone.see("No backup of this phone yet").await;
    phone.at("backup").await;
    for (phrase, again, why) in [
        ("north", "north", "12 characters at least."),
        (PHRASE, "north of the rivet", "The two are not the same."),
    ] {
        phone.type_into("Passphrase", phrase).await;
        phone.type_into("The same again", again).await;
        phone.see(why).await;
    }
    make(&mut phone).await;
    phone.reads("Cases", "3").await;
    let entries = told.journal.entries().len() + 12 + 12 + 1;
    phone.reads("Entries", &entries.to_string()).await;
    phone.reads("Photos", "2").await;
    phone.at("backup-ready").await;
    phone.see("It is kept nowhere yet.").await;
    let (name, file) = save(&mut phone).await;
    phone.see_no("It is kept nowhere yet.").await;
    phone
        .sure(
            name.starts_with("freshet-backup-2")
                && name.rsplit_once('.').is_some_and(|(_, kind)| kind == "age"),
            &name,
        )
        .await;
    home(&mut phone).await;
    phone.see("Last backup").await;
    // Nothing went on since: it is old, and not due.
    phone.let_pass(Duration::from_hours(40 * 24)).await;
    phone.see("Last backup 40 days ago").await;
    phone.see_no("time for another").await;

    let mut other = Phone::off(phone.engine, "another-phone");
    other.at_each = AtEach::Check;
    other.open().await;
    open(&mut other).await;
    other.see("Nothing is on this phone yet").await;
    other.at("backup-empty").await;
    choose(&mut other, "any-name", &file).await;
    other.headed("This backup is sealed").await;
    other.at("backup-sealed").await;
    other.type_into("Passphrase", "north of the rivet").await;
    other.go_on("Open it").await;
    other.see("It does not open with this passphrase.").await;
    other.at("backup-wrong").await;
    other.type_into("Passphrase", PHRASE).await;
    other.go_on("Open it").await;
    other.headed("What is in this backup").await;
    other.reads("New cases", "3").await;
    other.reads("New photos", "2").await;
    other.see("Not begun on this phone: will be taken in").await;
    other.at("backup-preview").await;
    // Nothing is here before it is wanted.
    let before = lying(&mut other, "Colour").await;
    other.sure(before == (0, 0, false), &format!("{before:?} lie there")).await;
    other.go_on("Restore").await;
    other.see("4 records and 2 photos taken in.").await;
    home(&mut other).await;
    other.see("DEMO 0002").await;
    let url = other.server.url();
    other.go(&format!("{url}?page=timeline&case={}", told.journal.case())).await;
    other.see(&format!("Chain whole: {} entries", told.journal.entries().len())).await;
    other.go(&format!("{url}?page=photos&case={}", told.journal.case())).await;
    shown(&mut other, 2).await;
    let (here, there) = (kept(&mut phone).await, kept(&mut other).await);
    other.sure(here == there, "other photos").await;

    // Once more, by the other way in: there is nothing to do.
    home(&mut other).await;
    other.tap("Records").await;
    look_into(&mut other, &file, PHRASE).await;
    other.headed("What is in this backup").await;
    other.reads("New cases", "0").await;
    other.reads("Cases already here", "3").await;
    other.reads("Photos already here", "2").await;
    other.see("Nothing in it is new here.").await;
    other.nothing_found().await;
    other.put_away().await;
    phone.nothing_found().await;
    phone
}

async fn behind_a_passcode_what_is_restored_is_sealed(mut phone: Phone) -> Phone {
    full(&mut phone).await;
    set(&mut phone, CODE).await;
    phone.tap("Backup").await;
    phone.headed("This is sealed").await;
    unlock(&mut phone, CODE).await;
    phone.headed("Backup").await;
    make(&mut phone).await;
    let (_, file) = save(&mut phone).await;

    let mut other = Phone::new(phone.engine, "another-phone").await;
    set(&mut other, CODE).await;
    unlock(&mut other, CODE).await;
    other.see("New case").await;
    other.tap("Backup").await;
    look_into(&mut other, &file, PHRASE).await;
    other.headed("What is in this backup").await;
    other.go_on("Restore").await;
    other.see("4 records and 2 photos taken in.").await;
    let lies = lying(&mut other, "Colour").await;
    other.sure(lies.0 == 0 && lies.1 > 30 && !lies.2, &format!("{lies:?} lie open")).await;
    home(&mut other).await;
    other.see("Records are sealed.").await;
    other.see_no("DEMO").await;
    unlock(&mut other, CODE).await;
    other.see("DEMO 0001").await;
    other.see("DEMO 0002").await;
    other.put_away().await;
    phone
}

/// How the head of a file of this kind tells what a guess costs.
fn with_work(file: &[u8], work: &str) -> Vec<u8> {
    let at = file.windows(4).position(|part| part == b" 17\n").expect("the cost in its head");
    [&file[..at], b" ", work.as_bytes(), &file[at + 3..]].concat()
}

async fn what_is_wrong_with_a_backup_is_told(mut phone: Phone) -> Phone {
    phone.open().await;
    lay_near(&mut phone, &[closed_case(1, 12)]).await;
    home(&mut phone).await;
    let before = lying(&mut phone, "Colour").await;
    open(&mut phone).await;
    let file = made_elsewhere(&[closed_case(2, 12)]);
    let mut altered = file.clone();
    let last = altered.len() - 1;
    altered[last] ^= 1;
    let text = String::from_utf8_lossy(&file[..60]).into_owned();
    let keyed = [text.replace("-> scrypt", "-> X25519").as_bytes(), &file[60..]].concat();
    let refused = [
        ("cut", file[..file.len() - 40].to_vec(), "the file is cut or changed after its head"),
        ("altered", altered, "the file is cut or changed after its head"),
        ("headless", file[..50].to_vec(), "Its head is cut or damaged"),
        ("dear", with_work(&file, "30"), "harder to open than a phone can"),
        ("keyed", keyed, "sealed to a key and not under a passphrase"),
    ];
    for (name, bytes, why) in refused {
        look_into(&mut phone, &bytes, PHRASE).await;
        phone.headed("This file is not taken in").await;
        phone.see(why).await;
        phone.see("Nothing was changed.").await;
        phone.tap("Leave it").await;
        phone.headed("Backup").await;
        phone.note(name);
    }
    choose(&mut phone, "foreign", &[0, 159, 146, 150]).await;
    phone.see("It is not a text, so it is not a record of this app.").await;
    phone.tap("Leave it").await;
    let after = lying(&mut phone, "Colour").await;
    phone.sure(before == after, &format!("{after:?} lie there, not {before:?}")).await;
    phone
}

/// The same case with another end.
fn otherwise(journal: &Journal, kept: usize) -> Journal {
    let mut other = Journal::new(journal.case());
    for entry in &journal.entries()[..kept] {
        other.append(entry.at(), entry.body().zone, entry.event().clone());
    }
    other.append(journal.entries()[kept].at(), 0, Event::Note("Another end".to_owned()));
    other
}

async fn what_differs_is_named_and_stays(mut phone: Phone) -> Phone {
    phone.at_each = AtEach::Check;
    phone.open().await;
    let (same, differs, longer) = (closed_case(1, 12), closed_case(2, 12), closed_case(3, 12));
    let mut short = Journal::new(longer.case());
    for entry in &longer.entries()[..5] {
        short.push(entry.clone()).expect("it follows");
    }
    let (kit, _) = received("DEMO-1");
    lay_near(&mut phone, &[same.clone(), differs.clone(), short, kit]).await;
    home(&mut phone).await;
    let (other_kit, _) = received("DEMO-2");
    let mut clinic = Journal::new(CaseId::CLINIC);
    clinic.append(Moment::from_millis(1_600_000_000_000), 0, Event::Contacts(Vec::new()));
    let file = made_elsewhere(&[
        same,
        otherwise(&differs, 7),
        longer,
        closed_case(4, 12),
        other_kit,
        clinic,
    ]);
    open(&mut phone).await;
    look_into(&mut phone, &file, PHRASE).await;
    phone.headed("What is in this backup").await;
    for (label, number) in [
        ("New cases", "1"),
        ("Cases that go on", "1"),
        ("Cases already here", "1"),
        ("Cases that differ", "1"),
    ] {
        phone.reads(label, number).await;
    }
    phone.see("1 case went on differently here and in the file.").await;
    phone.see("Goes on differently here after 7 entries: not taken in.").await;
    phone.see("Begun on this phone too, apart from the file: kept as it is here.").await;
    phone.see("Not set on this phone: will be taken in.").await;
    phone.at("backup-differs").await;
    phone.go_on("Restore").await;
    phone.see("3 taken in.").await;
    let url = phone.server.url();
    phone.go(&format!("{url}?page=timeline&case={}", differs.case())).await;
    phone.see("Chain whole: 12 entries").await;
    phone.see_no("Another end").await;
    home(&mut phone).await;
    phone.tap("Records").await;
    phone.see("4 cases").await;
    phone.tap("DEMO 0003").await;
    phone.see("Chain whole: 12 entries").await;
    phone.nothing_found().await;
    phone
}

/// Lets the database take no photo, or no entry, as long as the page says so.
const FULL: &str = "
    const put = IDBObjectStore.prototype.put;
    window.full = '';
    IDBObjectStore.prototype.put = function (...given) {
      if (window.full === this.name) throw new DOMException('no room', 'QuotaExceededError');
      return put.apply(this, given);
    };
    return true;";

async fn a_restoring_that_finds_no_room_is_gone_on_with(mut phone: Phone) -> Phone {
    let told = full(&mut phone).await;
    open(&mut phone).await;
    make(&mut phone).await;
    let (_, file) = save(&mut phone).await;

    let mut other = Phone::new(phone.engine, "another-phone").await;
    open(&mut other).await;
    other.run(FULL, vec![]).await;
    other.run("window.full = 'entries'; return true;", vec![]).await;
    look_into(&mut other, &file, PHRASE).await;
    other.go_on("Restore").await;
    other.see("Not taken in: this browser’s storage is full.").await;
    other.see("Nothing is on this phone yet").await;

    other.run("window.full = 'photos'; return true;", vec![]).await;
    look_into(&mut other, &file, PHRASE).await;
    other.go_on("Restore").await;
    other.headed("Not all of it was restored").await;
    other.at_each = AtEach::Check;
    other.at("backup-partly").await;
    other.see("4 taken in.").await;
    other.see("this browser’s storage is full").await;
    other.run("window.full = ''; return true;", vec![]).await;
    look_into(&mut other, &file, PHRASE).await;
    other.headed("What is in this backup").await;
    other.reads("New cases", "0").await;
    other.reads("New photos", "2").await;
    other.go_on("Restore").await;
    other.see("2 photos taken in.").await;
    let url = other.server.url();
    other.go(&format!("{url}?page=photos&case={}", told.journal.case())).await;
    shown(&mut other, 2).await;
    other.nothing_found().await;
    other.put_away().await;
    phone
}
