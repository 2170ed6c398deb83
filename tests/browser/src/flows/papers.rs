//! Handing on a case.

use super::paper::decoded;
use super::records::lay_near;
use crate::phone::Phone;
use freshet::case::Journal;
use serde_json::{Value as Json, json};

/// Lays a case onto the phone and opens what can leave it.
pub async fn lay_and_open(phone: &mut Phone, case: &Journal) {
    lay_near(phone, std::slice::from_ref(case)).await;
    let url = phone.server.url();
    phone.go(&format!("{url}?page=papers&case={}", case.case())).await;
    phone.headed("Hand on").await;
}

/// Puts a way of sharing in the place of the browser's own, and looks at what is handed out: `none`
/// shares no files, `shares` does, `closes` is closed by the user, `refuses` says it would and does not.
pub async fn watch(phone: &mut Phone, way: &str) {
    const WATCH: &str = "
        const way = arguments[0];
        window.given = null;
        const take = (how, file) => file.text().then((text) => {
          window.given = { how, name: file.name, kind: file.type, size: file.size, text };
        });
        const put = (name, value) => Object.defineProperty(navigator, name, { value, configurable: true });
        put('canShare', () => way !== 'none');
        put('share', async (data) => {
          if (way === 'closes') throw new DOMException('closed', 'AbortError');
          if (way === 'refuses') throw new DOMException('not so', 'NotAllowedError');
          if (data.files) await take('share', data.files[0]);
          else window.given = { how: 'share', text: data.text };
        });
        window.makes ??= URL.createObjectURL.bind(URL);
        URL.createObjectURL = (blob) => {
          // A picture to be shown is no file to be kept.
          if (blob instanceof File) take('download', blob);
          return window.makes(blob);
        };
        return true;";
    phone.run(WATCH, vec![json!(way)]).await;
}

/// What was handed out since.
pub async fn given(phone: &mut Phone) -> Json {
    phone.until("something is handed out", "return !!window.given;").await;
    phone.run("return window.given;", vec![]).await
}

/// The label of a syringe as the app draws it: a picture in PNG. The sheet with it is to be open.
pub async fn label_picture(phone: &mut Phone) -> Vec<u8> {
    // The page's own policy lets nothing be fetched; a canvas may be read.
    const READ: &str = "
        const label = document.querySelector('.label-picture');
        const canvas = document.createElement('canvas');
        canvas.width = label.naturalWidth;
        canvas.height = label.naturalHeight;
        canvas.getContext('2d').drawImage(label, 0, 0);
        return canvas.toDataURL('image/png').split(',')[1];";
    phone
        .until(
            "the label is drawn",
            "return document.querySelector('.label-picture')?.complete ?? false;",
        )
        .await;
    decoded(&phone.run(READ, vec![]).await)
}
