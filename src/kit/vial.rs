//! A vial in the hand, and whether it may be used.

use super::{LotId, Place};
use crate::measure::{Date, Units};
use serde::{Deserialize, Serialize};

/// Where in the kit a vial was taken from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Source {
    /// The lot.
    pub lot: LotId,
    /// The place.
    pub place: Place,
}

/// A vial in the hand.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Vial {
    /// Which of the preparation, from 1.
    pub number: u32,
    /// Units on its label.
    pub units: Units,
    /// Batch as printed; empty if it was not noted.
    pub batch: String,
    /// Last day of use, if it was noted.
    pub expiry: Option<Date>,
    /// Where it was taken from; none for one that the kit did not hold, and in records of the first
    /// two forms.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub from: Option<Source>,
}

/// Whether a vial is in date.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Dating {
    /// In date until this day, included.
    InDate(Date),
    /// Past this day.
    Expired(Date),
    /// Nobody noted the expiry.
    Unknown,
}

impl Vial {
    /// Compares the expiry with the day that it is where the vial is used.
    pub fn dating(&self, today: Date) -> Dating {
        match self.expiry {
            Some(last) if today > last => Dating::Expired(last),
            Some(last) => Dating::InDate(last),
            None => Dating::Unknown,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_last_day_counts() {
        let vial = |expiry| Vial {
            number: 1,
            units: Units::whole(1500),
            batch: String::new(),
            expiry,
            from: None,
        };
        let last = Date::new(2027, 2, 28).unwrap();
        assert_eq!(vial(Some(last)).dating(last), Dating::InDate(last));
        let next = Date::new(2027, 3, 1).unwrap();
        assert_eq!(vial(Some(last)).dating(next), Dating::Expired(last));
        assert_eq!(vial(None).dating(last), Dating::Unknown);
    }

    #[test]
    fn a_vial_of_an_earlier_form_is_read_and_written_as_it_was() {
        let text = r#"{"number":1,"units":1500000,"batch":"DEMO-1","expiry":null}"#;
        let vial: Vial = serde_json::from_str(text).unwrap();
        assert_eq!(vial.from, None);
        assert_eq!(serde_json::to_string(&vial).unwrap(), text);
    }
}
