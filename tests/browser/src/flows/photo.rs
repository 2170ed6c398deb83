//! The skin traced on a photo: the file chosen, its scale found, the edge followed.

use super::outline::{measures, to_question};
use crate::finger::Place;
use crate::phone::Phone;
use crate::photo::{Blob, Camera, Scene, TempFile};
use fantoccini::Locator;
use serde_json::Value as Json;

/// A phone's camera, held aslant over a card and pale skin of 14 cm² in one plane.
pub const TILTED: Scene = Scene {
    camera: Camera {
        size: (1_200, 1_600),
        focal: 1_200.0,
        distance: 170.0,
        tilt: 28.0,
        about: 20.0,
    },
    card: Some(((4.0, 42.0), 7.0)),
    bar: None,
    blob: Blob { middle: (-6.0, -34.0), radius: 20.9, waves: [0.18, 0.1, -0.05] },
};

/// The same camera, square on, over a bar of 60 mm and pale skin.
pub const LEVEL: Scene = Scene {
    camera: Camera { tilt: 0.0, ..TILTED.camera },
    card: None,
    bar: Some([(-28.0, 40.0), (20.0, 76.0)]),
    blob: TILTED.blob,
};

/// To the page where a photo is taken.
pub async fn to_photo(phone: &mut Phone) {
    to_question(phone).await;
    phone.tap("Draw round it").await;
    phone.tick("Photo").await;
    phone.headed("Photo of the skin").await;
}

/// Chooses a file among the phone's own pictures, as its chooser hands it over.
pub async fn choose(phone: &mut Phone, file: &TempFile) {
    let path = file.path().to_str().expect("a plain path").to_owned();
    phone.note(&format!("choose {path}"));
    phone.until("there is a chooser", "return !!document.querySelector('input[type=file]');").await;
    let input = phone.client().find(Locator::Css("input[type=file]:not([capture])")).await;
    let chosen = match input {
        Ok(input) => input.send_keys(&path).await,
        Err(error) => Err(error),
    };
    if let Err(error) = chosen {
        phone.fail(&format!("the file cannot be chosen: {error}")).await;
    }
}

/// Chooses it and waits until its scale is asked for.
pub async fn choose_good(phone: &mut Phone, file: &TempFile) {
    choose(phone, file).await;
    phone.headed("Mark the card").await;
    phone.canvas().await;
}

/// Drags the four marks onto these places of the photo, near them first and then exactly, enlarged as
/// the screen says.
pub async fn mark_card(phone: &mut Phone, corners: [Place; 4]) {
    let middle = |pick: fn(Place) -> f64| corners.into_iter().map(pick).sum::<f64>() / 4.0;
    for enlarged in [false, true] {
        if enlarged {
            phone.pinch((middle(|at| at.0), middle(|at| at.1)), 2.0).await;
        }
        for (n, corner) in corners.into_iter().enumerate() {
            phone.drag(&format!("Corner {}", n + 1), corner).await;
        }
    }
}

/// Drags the two marks onto these places of the photo.
pub async fn mark_length(phone: &mut Phone, ends: [Place; 2]) {
    let [a, b] = ends;
    for enlarged in [false, true] {
        if enlarged {
            phone.pinch((f64::midpoint(a.0, b.0), f64::midpoint(a.1, b.1)), 2.0).await;
        }
        phone.drag("End 1", a).await;
        phone.drag("End 2", b).await;
    }
}

/// The corners of a scene's card in its photo.
pub fn corners(scene: &Scene) -> [Place; 4] {
    scene.corners().map(|place| scene.camera.photo(place))
}

/// Follows the edge of a scene's pale skin in its photo.
pub async fn trace(phone: &mut Phone, scene: &Scene) {
    let edge = scene.blob.edge(72);
    let edge: Vec<Place> = edge.into_iter().map(|place| scene.camera.photo(place)).collect();
    phone.draw(&edge).await;
}

/// Reads a figure as a number.
pub async fn reading(phone: &mut Phone, name: &str) -> f64 {
    let text = phone.figure(name).await;
    match text.split(' ').next().and_then(|number| number.parse().ok()) {
        Some(number) => number,
        None => phone.fail(&format!("{name} reads {text:?}")).await,
    }
}

/// Everything that lies in the database's store of photos.
pub async fn kept(phone: &mut Phone) -> Vec<Vec<u8>> {
    const ALL: &str = "
        const done = arguments[arguments.length - 1];
        const open = indexedDB.open('freshet');
        open.onerror = () => done(String(open.error));
        open.onsuccess = () => {
          const all = open.result.transaction('photos').objectStore('photos').getAll();
          all.onsuccess = () => { open.result.close(); done(all.result.map((bytes) => [...bytes])); };
        };";
    let all = phone.client().execute_async(ALL, vec![]).await;
    let all = all.unwrap_or_else(|error| Json::String(error.to_string()));
    match serde_json::from_value(all.clone()) {
        Ok(photos) => photos,
        Err(_) => phone.fail(&format!("photos cannot be read: {all}")).await,
    }
}

/// From the question to skin traced on a tilted photo with a card in it, measured.
pub async fn traced(phone: &mut Phone) {
    to_photo(phone).await;
    phone.at("photo").await;
    let file = TempFile::new("tilted.bmp", &TILTED.bmp());
    choose_good(phone, &file).await;
    phone.see("Put each corner into place: 4 to go.").await;
    mark_card(phone, corners(&TILTED)).await;
    let tilt = reading(phone, "Tilt").await;
    phone.sure((tilt - 28.0).abs() < 2.0, &format!("a tilt of {tilt} ° for 28 °")).await;
    let off = reading(phone, "Corners off by").await;
    phone.sure(off < 0.3, &format!("corners placed on the spot are off by {off} mm")).await;
    phone.at("card").await;
    phone.go_on("Draw on it").await;
    phone.headed(super::outline::EMPTY).await;
    trace(phone, &TILTED).await;
    let area = measures(phone, TILTED.blob.area() / 100.0, 3.0).await;
    eprintln!("{area} cm² shown for {:.2} on {}", TILTED.blob.area() / 100.0, phone.engine.name());
    phone.at("traced").await;
}
