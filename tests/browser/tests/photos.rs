//! Photos of a case: side by side over time, seen large, deleted when the patient wishes it.

use freshet::case::{CaseId, Event, Journal, Removal};
use freshet::record::samples::START;
use freshet_browser_tests::flows::around::home;
use freshet_browser_tests::flows::look::to_look;
use freshet_browser_tests::flows::outline::use_it;
use freshet_browser_tests::flows::photo::{LEVEL, choose, kept, traced};
use freshet_browser_tests::flows::photos::{keep_drawn, lay_and_open, shown, tell};
use freshet_browser_tests::flows::records::lay_in_archive;
use freshet_browser_tests::phone::{AtEach, Phone};
use freshet_browser_tests::photo::TempFile;
use serde_json::json;

crate::on_both_engines! {
    one_is_shown_once_and_deleted_for_good
    what_the_storage_refused_is_tried_again_at_the_next_start
    two_of_many_are_compared_and_one_is_seen_large
    no_deleted_photo_is_laid_over_the_next
    what_archived_cases_deleted_is_swept_unless_another_shows_it
}

/// Lets the database delete no photo as long as the page says so.
const REFUSE: &str = "
    const remove = IDBObjectStore.prototype.delete;
    window.refuses = true;
    IDBObjectStore.prototype.delete = function (...given) {
      if (window.refuses && this.name === 'photos') throw new DOMException('not now', 'UnknownError');
      return remove.apply(this, given);
    };
    return true;";
const NOT_YET: &str = "A photo is recorded as deleted, but the phone did not let go of it yet.";

/// The only names of buttons that begin so.
async fn named(phone: &mut Phone, begin: &str) -> Vec<String> {
    const NAMES: &str = "return buttons().map((el) => norm(el.getAttribute('aria-label') ?? el.innerText)).filter((name) => name.startsWith(arguments[0]));";
    let names = phone.run(NAMES, vec![json!(begin)]).await;
    serde_json::from_value(names).unwrap_or_default()
}

/// Sees the only photo large, or the nth of them.
async fn see_large(phone: &mut Phone, nth: usize) {
    let names = named(phone, "See large: Photo of ").await;
    // A button that holds a picture has its name within it, too.
    match names.get(nth) {
        Some(name) => phone.tap(name).await,
        None => phone.fail(&format!("photos to see large: {names:?}")).await,
    }
    phone
        .until("it is there", "return !!document.querySelector('dialog[open] .photo-frame img');")
        .await;
}

/// From its large view.
async fn delete(phone: &mut Phone) {
    phone.tap("Delete photo").await;
    phone.tick("The patient asked for it").await;
    phone.tap("Delete it for good").await;
    phone.until("the sheets are closed", "return !document.querySelector('dialog[open]');").await;
}

/// The database holds so many photos.
async fn lying(phone: &mut Phone, wanted: usize) {
    let lie = kept(phone).await.len();
    phone.sure(lie == wanted, &format!("{lie} photos lie there")).await;
}

async fn focused(phone: &mut Phone, what: &str, selector: &str) {
    let so = format!("return document.activeElement?.matches('{selector}') ?? false;");
    phone.until(&format!("{what} has the focus"), &so).await;
}

/// The address of the case that is shown.
async fn case_of(phone: &mut Phone) -> String {
    let case = phone.run("return new URLSearchParams(location.search).get('case');", vec![]).await;
    case.as_str().unwrap_or_default().to_owned()
}

async fn one_is_shown_once_and_deleted_for_good(mut phone: Phone) -> Phone {
    phone.open().await;
    traced(&mut phone).await;
    use_it(&mut phone).await;
    let case = case_of(&mut phone).await;
    let url = phone.server.url();
    phone.at_each = AtEach::Check;
    phone.go(&format!("{url}?page=photos&case={case}")).await;
    phone.headed("Photos").await;
    shown(&mut phone, 1).await;
    phone.see_no("Choose which two").await;
    phone.at("photos-one").await;

    // The phone does not let go of it: it is recorded, said, and can be tried again at once.
    phone.run(REFUSE, vec![]).await;
    see_large(&mut phone, 0).await;
    phone.at("photos-large").await;
    phone.tap("Delete photo").await;
    phone.at("photos-delete").await;
    phone.tap("Delete it for good").await;
    phone.see("Choose why.").await;
    phone.tap("Close").await;
    delete(&mut phone).await;
    phone.see(NOT_YET).await;
    phone.see("The patient asked for it.").await;
    focused(&mut phone, "the heading", "h1").await;
    phone.at("photos-refused").await;
    lying(&mut phone, 1).await;
    phone.tap("Try again now").await;
    phone.see("The phone still does not let go of it.").await;
    phone.see(NOT_YET).await;
    phone.run("window.refuses = false; return true;", vec![]).await;
    phone.tap("Try again now").await;
    phone.see("Deleted.").await;
    phone.see_no(NOT_YET).await;
    phone.see("No photo of this case is left.").await;
    focused(&mut phone, "the heading", "h1").await;
    phone.at("photos-deleted").await;
    lying(&mut phone, 0).await;

    // It is not drawn on any more.
    phone.go(&format!("{url}?page=outline&case={case}")).await;
    phone.see("Draw round").await;
    phone.see_no("The photo is not on this phone.").await;
    phone.tick("Photo").await;
    phone.headed("Photo of the skin").await;
    phone.see_no("The last photo").await;
    home(&mut phone).await;
    phone.nothing_found().await;
    phone
}

async fn what_the_storage_refused_is_tried_again_at_the_next_start(mut phone: Phone) -> Phone {
    phone.open().await;
    lay_and_open(&mut phone, 2).await;
    phone.run(REFUSE, vec![]).await;
    see_large(&mut phone, 0).await;
    delete(&mut phone).await;
    phone.see(NOT_YET).await;
    shown(&mut phone, 1).await;
    lying(&mut phone, 2).await;
    phone.reload().await;
    phone.headed("Photos").await;
    shown(&mut phone, 1).await;
    phone.see_no(NOT_YET).await;
    phone.see("The patient asked for it.").await;
    lying(&mut phone, 1).await;
    phone
}

async fn two_of_many_are_compared_and_one_is_seen_large(mut phone: Phone) -> Phone {
    phone.open().await;
    lay_and_open(&mut phone, 5).await;
    phone.at_each = AtEach::Check;
    phone.at("photos-five").await;
    let places = named(&mut phone, "Left: Photo of ").await;
    phone.sure(places.len() == 5, &format!("to choose from: {places:?}")).await;
    // The first and the newest.
    sides(&mut phone, 0, 4).await;
    phone.tap(&places[1]).await;
    sides(&mut phone, 1, 4).await;
    // The one that is on the other side changes places.
    phone.tap(&places[4]).await;
    sides(&mut phone, 4, 1).await;
    let right = named(&mut phone, "Right: Photo of ").await;
    phone.tap(&right[2]).await;
    sides(&mut phone, 4, 2).await;

    see_large(&mut phone, 1).await;
    let wide =
        "const photo = document.querySelector('.photo-frame img').getBoundingClientRect().width;
        const frame = document.querySelector('.photo-frame').getBoundingClientRect().width;";
    phone.until("the whole is seen", &format!("{wide} return photo <= frame + 1;")).await;
    phone.tap("Enlarge").await;
    phone.until("it is larger", &format!("{wide} return photo > 2 * frame;")).await;
    phone
        .until(
            "its middle is seen",
            "const frame = document.querySelector('.photo-frame'); return frame.scrollLeft > 0 && frame.scrollTop > 0;",
        )
        .await;
    phone.tap("Whole photo").await;
    phone.until("the whole is seen again", &format!("{wide} return photo <= frame + 1;")).await;
    // A tap enlarges where it is: at the right lower corner.
    let corner = "const box = document.querySelector('.photo-frame img').getBoundingClientRect(); return [box.right - 8, box.bottom - 8];";
    let corner = phone.run(corner, vec![]).await;
    let at = (corner[0].as_f64().unwrap_or_default(), corner[1].as_f64().unwrap_or_default());
    phone.touch(at).await;
    phone
        .until(
            "that corner is seen",
            "const frame = document.querySelector('.photo-frame'); return frame.scrollLeft + frame.clientWidth > frame.scrollWidth - 4 && frame.scrollTop + frame.clientHeight > frame.scrollHeight - 4;",
        )
        .await;
    // Escape closes it, and what opened it has the focus.
    phone.key("\u{e00c}").await;
    phone.until("it is closed", "return !document.querySelector('dialog[open]');").await;
    focused(&mut phone, "the photo", "figure[aria-label=\"Right photo\"] button").await;
    phone.nothing_found().await;
    phone
}

/// Which two are shown, by the list.
async fn sides(phone: &mut Phone, left: usize, right: usize) {
    const PRESSED: &str = "
        const rows = [...document.querySelectorAll('.photo-list li')];
        const at = (n) => rows.map((row, k) => (row.querySelectorAll('button')[n].ariaPressed === 'true' ? k : -1)).filter((k) => k >= 0);
        const big = [...document.querySelectorAll('.photo-pair .unseen')].map((el) => norm(el.textContent).replace('See large: ', ''));
        const named = (n) => rows.findIndex((row) => norm(row.querySelector('button').ariaLabel).endsWith(big[n]));
        return JSON.stringify([at(0), at(1), named(0), named(1)]);";
    let wanted = format!("[[{left}],[{right}],{left},{right}]");
    let so = PRESSED.replace("return JSON", &format!("return '{wanted}' === JSON"));
    phone.until(&format!("{left} stands left and {right} right"), &so).await;
}

async fn no_deleted_photo_is_laid_over_the_next(mut phone: Phone) -> Phone {
    phone.open().await;
    to_look(&mut phone).await;
    let case = case_of(&mut phone).await;
    phone.tap("Photo from the same angle").await;
    phone.headed("First photo").await;
    choose(&mut phone, &TempFile::new("level.bmp", &LEVEL.bmp())).await;
    phone.see("Keep this photo").await;
    phone.pause().await;
    phone.go_on("Keep this photo").await;
    phone.see("Photo taken, kept on this phone only.").await;
    phone.tap("Take the photo again").await;
    phone.headed("The same angle").await;
    phone.see("Earlier photo laid over").await;

    // Deleted, and not let go of: it is shown nowhere all the same.
    let url = phone.server.url();
    phone.go(&format!("{url}?page=photos&case={case}")).await;
    phone.headed("Photos").await;
    shown(&mut phone, 1).await;
    phone.run(REFUSE, vec![]).await;
    see_large(&mut phone, 0).await;
    delete(&mut phone).await;
    phone.see(NOT_YET).await;
    lying(&mut phone, 1).await;
    let within = "history.pushState(null, '', `?case=${arguments[0]}`); dispatchEvent(new PopStateEvent('popstate')); return true;";
    phone.run(within, vec![json!(case)]).await;
    phone.tap("Note the skin first").await;
    phone.tap("Photo from the same angle").await;
    phone.headed("First photo").await;
    phone.see_no("Earlier photo laid over").await;
    let over = phone.run("return document.querySelectorAll('.laid-over').length;", vec![]).await;
    phone.sure(over == json!(0), "a deleted photo is laid over").await;
    phone
}

async fn what_archived_cases_deleted_is_swept_unless_another_shows_it(mut phone: Phone) -> Phone {
    phone.open().await;
    let names = keep_drawn(&mut phone, 3).await;
    let [gone, shared, shown] = names[..] else { panic!("three photos") };
    let mut one = Journal::new(CaseId::from_random(21));
    tell(&mut one, &[gone, shared, shown]);
    for photo in [gone, shared] {
        one.append(START, 0, Event::PhotoRemoved { photo, why: Removal::PatientsWish });
    }
    let mut other = Journal::new(CaseId::from_random(22));
    tell(&mut other, &[shared]);
    lay_in_archive(&mut phone, &[one, other]).await;
    lying(&mut phone, 3).await;
    phone.reload().await;
    phone.see("New case").await;
    let start = std::time::Instant::now();
    while kept(&mut phone).await.len() == 3 && start.elapsed().as_secs() < 10 {
        tokio::time::sleep(std::time::Duration::from_millis(50)).await;
    }
    lying(&mut phone, 2).await;
    phone
}
