//! The clinic's own values and the app's habits, each a small JSON text under `freshet/clinic/`.
//!
//! A text that cannot be read is never overwritten: it is kept aside first, and the caller is told.

use super::Refusal;
use crate::measure::Hash;
use serde::Serialize;
use serde::de::DeserializeOwned;

const KEPT: &str = "freshet/clinic/";
const ASIDE: &str = "freshet/clinic-aside/";

/// Where small texts are kept by name.
pub trait Drawer {
    /// The text under a name, if there is one.
    ///
    /// # Errors
    /// [`Refusal`] when it cannot be read.
    fn read(&self, name: &str) -> Result<Option<String>, Refusal>;

    /// Keeps a text under a name.
    ///
    /// # Errors
    /// [`Refusal`] when it was not kept.
    fn write(&self, name: &str, text: &str) -> Result<(), Refusal>;
}

/// What was found under a name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Loaded<T> {
    /// The value.
    Found(T),
    /// Nothing was ever kept there.
    Missing,
    /// A text that is no such value, as found. It stays kept.
    Damaged(String),
    /// It cannot be known: the storage refuses.
    Unreachable(Refusal),
}

/// Reads a value.
pub fn load_from<T: DeserializeOwned>(drawer: &impl Drawer, name: &str) -> Loaded<T> {
    match drawer.read(&format!("{KEPT}{name}")) {
        Err(why) => Loaded::Unreachable(why),
        Ok(None) => Loaded::Missing,
        Ok(Some(text)) => serde_json::from_str(&text).map_or(Loaded::Damaged(text), Loaded::Found),
    }
}

/// Keeps a value. A damaged one that it replaces is kept aside first.
///
/// # Errors
/// [`Refusal`] when it was not kept; what was there is then there still.
pub fn save_to<T: Serialize + DeserializeOwned>(
    drawer: &impl Drawer,
    name: &str,
    value: &T,
) -> Result<(), Refusal> {
    let text = serde_json::to_string(value).map_err(|error| Refusal::Other(error.to_string()))?;
    match load_from::<T>(drawer, name) {
        Loaded::Unreachable(why) => return Err(why),
        Loaded::Damaged(raw) => {
            let digest = Hash::of(raw.as_bytes()).short();
            drawer.write(&format!("{ASIDE}{name}/{digest}"), &raw)?;
        }
        Loaded::Found(_) | Loaded::Missing => {}
    }
    drawer.write(&format!("{KEPT}{name}"), &text)
}

#[cfg(feature = "app")]
mod here {
    use super::super::local::Local;
    use super::{Loaded, Refusal, load_from, save_to};
    use serde::Serialize;
    use serde::de::DeserializeOwned;

    /// Reads a value kept in this browser.
    pub fn load<T: DeserializeOwned>(name: &str) -> Loaded<T> {
        load_from(&Local, name)
    }

    /// Keeps a value in this browser. A damaged one that it replaces is kept aside first.
    ///
    /// # Errors
    /// [`Refusal`] when it was not kept; what was there is then there still.
    pub fn save<T: Serialize + DeserializeOwned>(name: &str, value: &T) -> Result<(), Refusal> {
        save_to(&Local, name, value)
    }
}

#[cfg(feature = "app")]
pub use here::{load, save};

#[cfg(test)]
mod tests {
    use super::*;
    use std::cell::RefCell;
    use std::collections::BTreeMap;

    #[derive(Default)]
    struct Fake {
        texts: RefCell<BTreeMap<String, String>>,
        room: usize,
    }

    impl Drawer for Fake {
        fn read(&self, name: &str) -> Result<Option<String>, Refusal> {
            Ok(self.texts.borrow().get(name).cloned())
        }

        fn write(&self, name: &str, text: &str) -> Result<(), Refusal> {
            let mut texts = self.texts.borrow_mut();
            if !texts.contains_key(name) && texts.len() >= self.room {
                return Err(Refusal::Full);
            }
            texts.insert(name.to_owned(), text.to_owned());
            Ok(())
        }
    }

    #[test]
    fn a_value_comes_back() {
        let drawer = Fake { room: 1, ..Fake::default() };
        assert_eq!(load_from::<u32>(&drawer, "theme"), Loaded::Missing);
        assert_eq!(save_to(&drawer, "theme", &7_u32), Ok(()));
        assert_eq!(load_from(&drawer, "theme"), Loaded::Found(7_u32));
    }

    #[test]
    fn a_damaged_value_is_said_and_outlives_the_next() {
        let drawer = Fake { room: 2, ..Fake::default() };
        drawer.write("freshet/clinic/theme", "{cut").unwrap();
        assert_eq!(load_from::<u32>(&drawer, "theme"), Loaded::Damaged("{cut".to_owned()));
        assert_eq!(save_to(&drawer, "theme", &7_u32), Ok(()));
        assert_eq!(load_from(&drawer, "theme"), Loaded::Found(7_u32));
        assert!(drawer.texts.borrow().values().any(|text| text == "{cut"));
    }

    #[test]
    fn without_room_to_keep_it_aside_a_damaged_value_is_not_replaced() {
        let drawer = Fake { room: 1, ..Fake::default() };
        drawer.write("freshet/clinic/theme", "{cut").unwrap();
        assert_eq!(save_to(&drawer, "theme", &7_u32), Err(Refusal::Full));
        assert_eq!(load_from::<u32>(&drawer, "theme"), Loaded::Damaged("{cut".to_owned()));
    }
}
