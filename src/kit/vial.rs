//! A vial in the hand, and whether it may be used.

use super::{LotId, Place};
use crate::measure::{Date, Hash, Units};
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
    /// The entry that chose the solution which it is of; none for the one in hand when it was noted,
    /// as in every earlier record.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub solution: Option<Hash>,
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

    /// The solution that it is of, among those made until it was noted; each under the entry that
    /// chose it. None for one noted before any was made, or whose solution is not among them.
    pub fn solution_in<'a, T>(&self, made: &'a mut [(Hash, T)]) -> Option<&'a mut T> {
        let made = match self.solution {
            None => made.last_mut(),
            Some(named) => made.iter_mut().find(|(id, _)| *id == named),
        };
        made.map(|(_, made)| made)
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
            solution: None,
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
        assert_eq!((vial.from, vial.solution), (None, None));
        assert_eq!(serde_json::to_string(&vial).unwrap(), text);
    }

    #[test]
    fn a_vial_is_of_the_solution_that_it_names_and_else_of_the_last() {
        let text = r#"{"number":1,"units":1500000,"batch":"DEMO-1","expiry":null}"#;
        let mut vial: Vial = serde_json::from_str(text).unwrap();
        let [first, second, third] = [1_u8, 2, 3].map(|n| Hash::of(&[n]));
        let mut made = [(first, 'a'), (second, 'b')];
        assert_eq!(vial.solution_in(&mut made).copied(), Some('b'));
        assert_eq!(vial.solution_in::<char>(&mut []), None);
        vial.solution = Some(first);
        assert_eq!(vial.solution_in(&mut made).copied(), Some('a'));
        // One that does not stand, as after it was struck out.
        vial.solution = Some(third);
        assert_eq!(vial.solution_in(&mut made), None);
        let text = serde_json::to_string(&vial).unwrap();
        assert_eq!(serde_json::from_str::<Vial>(&text).unwrap(), vial);
    }
}
