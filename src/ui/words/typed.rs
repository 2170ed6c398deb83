//! What to say when typed text is not the quantity asked for.

use super::numbers;
use crate::measure::{Misread, Typed};
use crate::protocol::Quantity;

/// Why it could not be read, and what would be.
pub fn misread(misread: &Misread) -> String {
    match misread {
        Misread::Empty => "Type a number.".into(),
        Misread::Negative => "A minus makes no sense here.".into(),
        Misread::Zero => "Zero makes no sense here.".into(),
        Misread::TwoSeparators => "Two decimal signs: type one number, such as 0.1.".into(),
        Misread::Ambiguous { decimal, thousands } => {
            format!("Is it {decimal} or {thousands}? Type it without the doubtful sign.")
        }
        Misread::WrongUnit(unit) => format!("“{unit}” is not the unit asked for."),
        Misread::NotANumber(sign) => format!("“{sign}” is not part of a number."),
        Misread::TooFine(0) => "Whole numbers only.".into(),
        Misread::TooFine(1) => "One decimal at most.".into(),
        Misread::TooFine(places) => format!("{places} decimals at most."),
        Misread::TooLarge => "That is too large a number.".into(),
    }
}

/// Reads a field: nothing typed is neither a value nor an error yet.
pub fn field<T: Typed>(text: &str) -> Result<Option<T>, String> {
    match T::read(text) {
        Ok(value) => Ok(Some(value)),
        Err(Misread::Empty) => Ok(None),
        Err(error) => Err(misread(&error)),
    }
}

/// Asks about a number ten times too large or small.
pub fn slip(meant: Quantity) -> String {
    format!("Unusual. Did you mean {}? A decimal sign may have slipped.", numbers::quantity(meant))
}

/// A number outside what is accepted.
pub fn out_of_bounds(low: Quantity, high: Quantity) -> String {
    format!("Between {} and {}.", numbers::quantity(low), numbers::quantity(high))
}
