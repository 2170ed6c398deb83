//! What to say when typed text is not the quantity asked for.

use super::numbers;
use crate::measure::{Misread, Typed};
use crate::protocol::Quantity;
use crate::ui::language::{spoken, spoken_as};

/// Why it could not be read, and what would be.
pub fn misread(misread: &Misread) -> String {
    let text = match misread {
        Misread::Empty => spoken_as(Some("a quantity"), "Type a number."),
        Misread::Negative => spoken("A minus makes no sense here."),
        Misread::Zero => spoken("Zero makes no sense here."),
        Misread::TwoSeparators => spoken("Two decimal signs: type one number, such as 0.1."),
        Misread::Ambiguous { decimal, thousands } => {
            return tr!(
                "Is it {decimal} or {thousands}? Type it without the doubtful sign.",
                decimal = numbers::typed(decimal),
                thousands
            );
        }
        Misread::WrongUnit(unit) => return tr!("“{unit}” is not the unit asked for.", unit),
        Misread::NotANumber(sign) => return tr!("“{sign}” is not part of a number.", sign),
        Misread::TooFine(0) => spoken("Whole numbers only."),
        Misread::TooFine(1) => spoken("One decimal at most."),
        Misread::TooFine(places) => return tr!("{places} decimals at most.", places),
        Misread::TooLarge => spoken("That is too large a number."),
    };
    text.to_owned()
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
    tr!(
        "Unusual. Did you mean {quantity}? A decimal sign may have slipped.",
        quantity = numbers::quantity(meant)
    )
}

/// A number outside what is accepted.
pub fn out_of_bounds(low: Quantity, high: Quantity) -> String {
    tr!("Between {low} and {high}.", low = numbers::quantity(low), high = numbers::quantity(high))
}
