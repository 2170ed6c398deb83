//! A case with photos: a sample of the invented clinic, with pictures that the page draws itself.

use super::paper::{lay, open};
use crate::phone::Phone;
use freshet::care::territory::Photo;
use freshet::case::{Event, Journal};
use freshet::measure::{Hash, Span};
use freshet::plane::Extent;
use freshet::record::samples::{START, Told, ZONE, occlusion};
use serde_json::{Value as Json, json};

/// Draws so many pictures of skin whose pale patch shrinks, and puts them where the app keeps photos.
/// Their names, in order.
pub async fn keep_drawn(phone: &mut Phone, count: u32) -> Vec<Hash> {
    const KEEP: &str = "
        const [count, done] = arguments;
        (async () => {
          const names = [], all = [];
          for (let n = 0; n < count; n += 1) {
            const canvas = document.createElement('canvas');
            [canvas.width, canvas.height] = [600, 800];
            const brush = canvas.getContext('2d');
            brush.fillStyle = `rgb(${200 + n}, 150, 125)`;
            brush.fillRect(0, 0, 600, 800);
            brush.fillStyle = 'rgb(242, 226, 214)';
            brush.beginPath();
            brush.ellipse(300, 420, 220 - 35 * n, 150 - 20 * n, 0.4, 0, 2 * Math.PI);
            brush.fill();
            const blob = await new Promise((made) => canvas.toBlob(made, 'image/jpeg', 0.8));
            const bytes = new Uint8Array(await blob.arrayBuffer());
            const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
            names.push([...digest].map((byte) => byte.toString(16).padStart(2, '0')).join(''));
            all.push(bytes);
          }
          const open = indexedDB.open('freshet');
          open.onerror = () => done(String(open.error));
          open.onsuccess = () => {
            const work = open.result.transaction('photos', 'readwrite');
            names.forEach((name, n) => work.objectStore('photos').put(all[n], name));
            work.onabort = () => done(String(work.error));
            work.oncomplete = () => { open.result.close(); done(names); };
          };
        })().catch((error) => done(String(error)));";
    let kept = phone.client().execute_async(KEEP, vec![json!(count)]).await;
    let kept = kept.unwrap_or_else(|error| Json::String(error.to_string()));
    match serde_json::from_value(kept.clone()) {
        Ok(names) => names,
        Err(_) => phone.fail(&format!("no photos are kept: {kept}")).await,
    }
}

/// Tells photos in a case: the first ten minutes after its start, each other 70 minutes later.
pub fn tell(journal: &mut Journal, names: &[Hash]) {
    let extent = Extent { width: 600, height: 800 };
    for (n, name) in (0..).zip(names) {
        let at = START.after(Span::minutes(10 + 70 * n));
        journal.append(at, ZONE, Event::Photo(Photo { name: *name, extent }));
    }
}

/// Lays a case with so many photos on a phone that the app was opened on, and opens their page.
pub async fn lay_and_open(phone: &mut Phone, count: u32) -> Told {
    let names = keep_drawn(phone, count).await;
    let mut told = occlusion();
    tell(&mut told.journal, &names);
    lay(phone, &told).await;
    open(phone, &told, "photos", "Photos").await;
    if count > 0 {
        shown(phone, count.min(2)).await;
    }
    told
}

/// Waits until so many photos are seen on the page.
pub async fn shown(phone: &mut Phone, count: u32) {
    let all = "return [...document.querySelectorAll('.photo-open img')].filter((img) => img.complete && img.naturalWidth > 0).length";
    phone.until(&format!("{count} photos are shown"), &format!("{all} === {count};")).await;
}
