//! Calls by name, for what `web-sys` does not carry or counts among what may still change.

use js_sys::{Array, Function, Promise, Reflect, Uint8Array};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{DomException, Navigator, Window};

pub fn window() -> Option<Window> {
    web_sys::window()
}

pub fn navigator() -> Option<Navigator> {
    Some(window()?.navigator())
}

/// A property; none if it is not there or is null.
pub fn get(object: &JsValue, name: &str) -> Option<JsValue> {
    let value = Reflect::get(object, &name.into()).ok()?;
    (!value.is_undefined() && !value.is_null()).then_some(value)
}

/// Calls a method. What it throws comes back as the error, and so does its absence.
pub fn call(object: &JsValue, name: &str, given: &[JsValue]) -> Result<JsValue, JsValue> {
    let method: Function = Reflect::get(object, &name.into())?.dyn_into()?;
    method.apply(object, &given.iter().collect::<Array>())
}

/// The bytes that are promised as an `ArrayBuffer`.
pub async fn bytes(promised: Promise) -> Result<Vec<u8>, JsValue> {
    Ok(Uint8Array::new(&JsFuture::from(promised).await?).to_vec())
}

/// A thrown value in words, for a log.
pub fn words(thrown: &JsValue) -> String {
    match thrown.dyn_ref::<DomException>() {
        Some(exception) => format!("{}: {}", exception.name(), exception.message()),
        None => format!("{thrown:?}"),
    }
}
