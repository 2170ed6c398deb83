//! Skin traced on a photo, and files that are none.

use freshet_browser_tests::flows::around::open_case;
use freshet_browser_tests::flows::outline::{EMPTY, measures, use_it};
use freshet_browser_tests::flows::photo::{
    LEVEL, TILTED, choose, choose_good, corners, kept, mark_card, mark_length, to_photo, trace,
    traced,
};
use freshet_browser_tests::phone::{AtEach, Phone};
use freshet_browser_tests::photo::{Camera, Flat, Scene, TempFile, extent};

crate::on_both_engines! {
    a_card_on_a_tilted_photo_measures_the_skin_beside_it
    a_known_length_measures_and_corners_of_no_card_do_not
    files_that_are_no_photos_and_photos_that_tell_too_much
    a_photo_that_is_not_kept_is_drawn_on
}

async fn a_card_on_a_tilted_photo_measures_the_skin_beside_it(mut phone: Phone) -> Phone {
    phone.at_each = AtEach::Check;
    phone.open().await;
    traced(&mut phone).await;

    // Loaded again while it is traced: scale, photo and trace are there.
    phone.reload().await;
    measures(&mut phone, TILTED.blob.area() / 100.0, 3.0).await;
    phone.canvas().await;
    use_it(&mut phone).await;
    phone.see("Traced on a photo, measured by a card").await;
    phone.nothing_found().await;
    phone.only_own_origin().await;
    phone
}

async fn a_known_length_measures_and_corners_of_no_card_do_not(mut phone: Phone) -> Phone {
    phone.open().await;
    to_photo(&mut phone).await;
    let file = TempFile::new("level.bmp", &LEVEL.bmp());
    choose_good(&mut phone, &file).await;

    // Two sides crossed, one corner inside the others, a sliver, and what no card looks like: each in
    // words, and none is used.
    let [a, b, c, d] = [(350.0, 600.0), (850.0, 600.0), (850.0, 915.0), (350.0, 915.0)];
    mark_card(&mut phone, [a, (850.0, 920.0), (830.0, 620.0), d]).await;
    refused(&mut phone, "Two sides of the card cross.").await;
    for (corners, words) in [
        ([b, (500.0, 680.0), d], "These four corners make no card"),
        ([b, (850.0, 660.0), (350.0, 660.0)], "Too small in the photo to measure by"),
        ([(850.0, 520.0), c, d], "No flat card looks like that"),
        ([b, c, d], "Tilt"),
    ] {
        for (n, corner) in corners.into_iter().enumerate() {
            phone.drag(&format!("Corner {}", n + 2), corner).await;
        }
        if words == "Tilt" {
            phone.figure(words).await;
        } else {
            refused(&mut phone, words).await;
        }
    }
    let aslant = Camera { tilt: 46.0, about: 0.0, distance: 200.0, ..LEVEL.camera };
    let aslant = Scene { camera: aslant, card: Some(((0.0, -5.0), 0.0)), ..LEVEL };
    phone.tap("All").await;
    mark_card(&mut phone, corners(&aslant)).await;
    refused(&mut phone, "The card is tilted by").await;

    // The bar is 60 mm long.
    phone.tick("A length").await;
    phone.headed("Mark a length").await;
    phone.type_into("From mark to mark", "60").await;
    phone.tap("All").await;
    mark_length(&mut phone, LEVEL.bar.expect("a bar").map(|end| LEVEL.camera.photo(end))).await;
    phone.go_on("Draw on it").await;
    phone.headed(EMPTY).await;
    trace(&mut phone, &LEVEL).await;
    measures(&mut phone, LEVEL.blob.area() / 100.0, 2.0).await;
    use_it(&mut phone).await;
    phone.see("Traced on a photo, measured by a length of 60 mm").await;
    phone
}

async fn refused(phone: &mut Phone, words: &str) {
    phone.see(words).await;
    phone.go_on("Draw on it").await;
    phone.headed("Mark the card").await;
}

async fn files_that_are_no_photos_and_photos_that_tell_too_much(mut phone: Phone) -> Phone {
    phone.open().await;
    to_photo(&mut phone).await;
    let told = Flat { size: (1_200, 900), exif: true }.bytes();

    for (name, bytes, words) in [
        ("notes.txt", &b"no photo at all"[..], "That is not a photo."),
        ("notes.jpg", &b"no photo at all"[..], "This phone cannot read that photo"),
        ("cut.jpg", &told[..200], "This phone cannot read that photo"),
        ("empty.jpg", &[][..], "That is not a photo."),
    ] {
        choose(&mut phone, &TempFile::new(name, bytes)).await;
        phone.see(words).await;
        phone.headed("Photo of the skin").await;
    }
    let none = kept(&mut phone).await;
    phone.sure(none.is_empty(), "what is no photo was kept").await;

    // The camera lay on its side and told who and where: kept upright, and without a word of it.
    choose_good(&mut phone, &TempFile::new("told.jpg", &told)).await;
    let photos = kept(&mut phone).await;
    phone.sure(photos.len() == 1, &format!("{} photos are kept", photos.len())).await;
    phone.sure(extent(&photos[0]) == Some((900, 1_200)), "the photo is not upright").await;
    for word in [&b"Exif"[..], b"Invented", b"GPS"] {
        let found = photos[0].windows(word.len()).any(|part| part == word);
        phone.sure(!found, "the photo that is kept tells more than the picture").await;
    }

    // Forty megapixels are made small.
    phone.tap("Another photo").await;
    let large = Flat { size: (8_000, 5_000), exif: false }.bytes();
    choose_good(&mut phone, &TempFile::new("large.jpg", &large)).await;
    let photos = kept(&mut phone).await;
    let extents: Vec<_> = photos.iter().filter_map(|photo| extent(photo)).collect();
    let small = extents.len() == 2 && extents.contains(&(1_600, 1_000));
    phone.sure(small, &format!("kept: {extents:?}")).await;
    phone
}

/// Lets the database refuse photos, and nothing else, when told to.
const REFUSE: &str = "
    const put = IDBObjectStore.prototype.put;
    IDBObjectStore.prototype.put = function (...given) {
      if (globalThis.name === 'full' && this.name === 'photos') throw new DOMException('no room', 'QuotaExceededError');
      return put.apply(this, given);
    };";

async fn a_photo_that_is_not_kept_is_drawn_on(mut phone: Phone) -> Phone {
    const FULL: &str = "The photo is not kept: this browser’s storage is full.";
    phone.start().await;
    phone.before_each_page(REFUSE).await;
    let url = phone.server.url();
    phone.go(&url).await;
    phone.see("New case").await;
    phone.run("window.name = 'full'; return true;", vec![]).await;
    to_photo(&mut phone).await;
    choose_good(&mut phone, &TempFile::new("tilted.bmp", &TILTED.bmp())).await;
    phone.see(FULL).await;
    let none = kept(&mut phone).await;
    phone.sure(none.is_empty(), "the photo was kept after all").await;
    mark_card(&mut phone, corners(&TILTED)).await;
    phone.go_on("Draw on it").await;
    phone.see(FULL).await;
    trace(&mut phone, &TILTED).await;
    measures(&mut phone, TILTED.blob.area() / 100.0, 3.0).await;
    phone.at("photo-refused").await;
    use_it(&mut phone).await;
    let area = phone.figure("Skin without blood").await;
    phone.go_on("500 units/mL").await;
    phone.see("Movement 1 of").await;

    // After a reload the photo is gone, and nothing else.
    phone.reload().await;
    phone.see("Movement 1 of").await;
    let place = phone.run("return location.search;", vec![]).await;
    let place = place.as_str().unwrap_or_default().replace("&step=syringe", "");
    phone.go(&format!("{url}{place}&page=timeline")).await;
    phone.headed("The record").await;
    phone.see("Chain whole").await;
    phone.go(&url).await;
    open_case(&mut phone).await;
    phone.see("Movement 1 of").await;
    phone.tap("Back").await;
    phone.reads("Skin without blood", &area).await;
    phone.tap("Draw it anew").await;
    phone.see("The photo is not on this phone.").await;
    phone.tap("Last outline").await;
    measures(&mut phone, TILTED.blob.area() / 100.0, 3.0).await;
    phone
}
