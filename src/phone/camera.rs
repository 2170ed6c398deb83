//! The camera of the phone, live in the page, by the W3C's Media Capture and Streams.
//!
//! What it sees goes to a `video` in the page and nowhere else. It is let go when its [`Camera`] is.

use super::js::{call, get, navigator};
use super::picture::LONGER_SIDE;
use gloo_events::EventListener;
use js_sys::{Array, Object, Promise, Reflect};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{EventTarget, HtmlVideoElement};

/// Why there is no picture from the camera.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoCamera {
    /// The phone has none, or the browser shows none to pages.
    Absent,
    /// The user or the browser forbids it.
    Refused,
    /// It is there and does not work, as while another app holds it.
    Failed,
    /// It was open, and was stopped as the page left the screen.
    Stopped,
}

/// An open camera. It is stopped when this is dropped.
#[derive(Debug)]
pub struct Camera {
    stream: JsValue,
    /// Listens for the phone taking it away.
    _taken: Vec<EventListener>,
}

impl Camera {
    /// Opens the camera that looks away from the user, where there are several. `taken` is called if
    /// the phone takes it away later. The browser may ask the user first, and wait for as long as
    /// the user does.
    ///
    /// # Errors
    /// [`NoCamera`].
    pub async fn open(taken: impl Fn() + Clone + 'static) -> Result<Self, NoCamera> {
        // Absent on pages that came over an open connection.
        let devices = navigator().and_then(|navigator| get(&navigator, "mediaDevices"));
        let devices = devices.ok_or(NoCamera::Absent)?;
        let asked = call(&devices, "getUserMedia", &[wanted()]).map_err(|error| reason(&error))?;
        let asked: Promise = asked.dyn_into().map_err(|_| NoCamera::Absent)?;
        let stream = JsFuture::from(asked).await.map_err(|error| reason(&error))?;
        let listen = |track: JsValue| {
            let taken = taken.clone();
            EventListener::new(&track.unchecked_into::<EventTarget>(), "ended", move |_| taken())
        };
        let listening = tracks(&stream).into_iter().map(listen).collect();
        Ok(Self { stream, _taken: listening })
    }

    /// Shows what it sees.
    pub fn show_in(&self, video: &HtmlVideoElement) {
        // By name: the picture of a stream is set on every browser that has streams.
        let _ = Reflect::set(video, &"srcObject".into(), &self.stream);
        // Muted and inline it may always play; one that is not shown yet plays when it is.
        if let Ok(playing) = video.play() {
            wasm_bindgen_futures::spawn_local(async move {
                let _ = JsFuture::from(playing).await;
            });
        }
    }
}

impl Drop for Camera {
    fn drop(&mut self) {
        for track in tracks(&self.stream) {
            // A track that has ended is stopped again without harm.
            let _ = call(&track, "stop", &[]);
        }
    }
}

fn tracks(stream: &JsValue) -> Vec<JsValue> {
    let tracks = call(stream, "getTracks", &[]).ok().and_then(|all| all.dyn_into::<Array>().ok());
    tracks.map(|all| all.iter().collect()).unwrap_or_default()
}

/// A picture of the size at which photos are kept, from the camera that looks away from the user; no
/// sound.
fn wanted() -> JsValue {
    let object = |pairs: &[(&str, JsValue)]| {
        let object = Object::new();
        for (name, value) in pairs {
            // Fails for no plain object.
            let _ = Reflect::set(&object, &(*name).into(), value);
        }
        JsValue::from(object)
    };
    let video = object(&[
        ("facingMode", object(&[("ideal", "environment".into())])),
        ("width", object(&[("ideal", LONGER_SIDE.into())])),
        ("height", object(&[("ideal", LONGER_SIDE.into())])),
    ]);
    object(&[("audio", JsValue::FALSE), ("video", video)])
}

/// Why it was not opened, by the names that the standard gives.
fn reason(error: &JsValue) -> NoCamera {
    let name = get(error, "name").and_then(|name| name.as_string()).unwrap_or_default();
    match name.as_str() {
        "NotAllowedError" | "SecurityError" => NoCamera::Refused,
        "NotFoundError" | "OverconstrainedError" | "TypeError" => NoCamera::Absent,
        _ => NoCamera::Failed,
    }
}
