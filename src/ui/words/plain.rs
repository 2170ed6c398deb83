//! The plain page, for when the app does not run: what it says of the cases in hand.
//!
//! The page itself stands in `index.html`, so that it is there without the app. What the app says of
//! the cases it hands to `boot.js`, which shows it as text when the app has stopped.

#[cfg(test)]
mod page;

use super::{contacts, numbers, time};
use crate::case::Contact;
use crate::measure::{Moment, Units};
use crate::protocol::Region;
use crate::ui::alarm::What;

const UK: &str = "uk";
const AUSTRALIA: &str = "australia";

/// Whose table of adrenaline goes, as the page's tables are named.
pub fn region(region: Region) -> &'static str {
    match region {
        Region::Uk => UK,
        Region::Australia => AUSTRALIA,
    }
}

words! {
    /// A case without a reference.
    pub unnamed = "Case without a reference";
}
pub use super::round_screens::{rounds_label, units_so_far};

words! {
    pub onset = "First sign seen";
    pub lines = "What was recorded, the newest first";
    /// Before an entry that does not count.
    pub struck_mark = "[STRUCK OUT]";
}

/// When it was read.
pub fn as_of(now: Moment) -> String {
    tr!("As it stood at {hour}.", hour = time::hour(now))
}

/// What is to come.
pub fn due(what: What, at: Moment) -> String {
    let hour = time::hour(at);
    match what {
        What::Adrenaline => tr!("Adrenaline again at {hour}, unless better: in", hour),
        What::Look => tr!("Next look at {hour}: in", hour),
    }
}

/// The same once it is past.
pub fn late(what: What, at: Moment) -> String {
    let hour = time::hour(at);
    match what {
        What::Adrenaline => {
            tr!("Adrenaline again, unless better: due since {hour}, for", hour)
        }
        What::Look => tr!("Look now: due since {hour}, for", hour),
    }
}

pub fn units(units: Units) -> String {
    numbers::units_named(units)
}

/// Earlier entries that are not shown.
pub fn earlier(count: usize) -> String {
    tr!(
        "{count} earlier entry: in the record." | "{count} earlier entries: in the record." % count,
        count = numbers::whole(count)
    )
}

/// A number that can be called.
pub fn call(contact: &Contact) -> String {
    let call = contacts::call(contact.role);
    match contact.name.as_str() {
        "" => format!("{call}: {}", contact.number.as_str()),
        _ => format!("{call}: {}", contacts::line(contact)),
    }
}
