//! The near shelf: localStorage.

use super::trouble::refusal;
use super::{Key, Refusal, Shelf, Slip};
use gloo_storage::{LocalStorage, Storage};
use js_sys::Object;
use std::future::ready;

/// localStorage of this browser.
#[derive(Clone, Copy, Debug, Default)]
pub struct Local;

impl Shelf for Local {
    fn put(&self, slips: Vec<Slip>) -> impl Future<Output = Result<(), Refusal>> + 'static {
        ready(slips.iter().try_for_each(|slip| write(slip.key.as_str(), &slip.line)))
    }

    fn all(&self) -> impl Future<Output = Result<Vec<Slip>, Refusal>> + 'static {
        ready(all())
    }

    fn remove(&self, keys: Vec<Key>) -> impl Future<Output = Result<(), Refusal>> + 'static {
        ready(keys.iter().try_for_each(|key| remove(key.as_str())))
    }
}

fn remove(name: &str) -> Result<(), Refusal> {
    storage()?.remove_item(name).map_err(|error| refusal(&error))
}

/// Writes a line and reads it back.
fn write(name: &str, text: &str) -> Result<(), Refusal> {
    let storage = storage()?;
    storage.set_item(name, text).map_err(|error| refusal(&error))?;
    match storage.get_item(name) {
        Ok(Some(back)) if back == text => Ok(()),
        _ => Err(Refusal::NotReadBack),
    }
}

fn all() -> Result<Vec<Slip>, Refusal> {
    let storage = storage()?;
    // One call for all names; by index, some browsers count from the start each time.
    let names = Object::keys(&storage);
    let mut slips = Vec::new();
    for key in names.iter().filter_map(|name| Key::read(&name.as_string()?)) {
        if let Some(line) = storage.get_item(key.as_str()).map_err(|error| refusal(&error))? {
            slips.push(Slip { key, line });
        }
    }
    Ok(slips)
}

/// The storage itself, asked for carefully: with cookies forbidden the mere question throws.
pub(super) fn storage() -> Result<web_sys::Storage, Refusal> {
    match web_sys::window().ok_or(Refusal::Absent)?.local_storage() {
        Ok(Some(_)) => Ok(LocalStorage::raw()),
        Ok(None) => Err(Refusal::Absent),
        Err(error) => Err(refusal(&error)),
    }
}
