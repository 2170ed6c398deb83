//! Quantities with their units, as they look everywhere.

use crate::measure::{Area, Length, Span, Strength, Units, Volume};
use crate::protocol::Quantity;
use crate::protocol::fact::Share;
use crate::ui::language::{self, decimal_sign};
use std::fmt::Display;

/// Narrow no-break space, between thousands.
const THIN: char = '\u{202f}';

/// A number as it is typed into a field: with the decimal sign of the language, not grouped.
pub fn typed(number: &impl Display) -> String {
    language::number(&number.to_string())
}

/// Numbers in a row. A comma between decimals that have commas themselves would not be seen.
pub fn row(numbers: &[String]) -> String {
    numbers.join(if decimal_sign() == ',' { "; " } else { ", " })
}

/// A whole number, grouped.
pub fn whole(number: impl Display) -> String {
    grouped(&number.to_string())
}

/// Groups the whole part of a number in threes from four digits on: 1380 is 1 380.
fn grouped(text: &str) -> String {
    let (whole, part) =
        text.split_once('.').map_or((text, None), |(whole, part)| (whole, Some(part)));
    let mut out = String::new();
    for (place, digit) in whole.chars().enumerate() {
        let left = whole.len() - place;
        if place > 0 && left.is_multiple_of(3) {
            out.push(THIN);
        }
        out.push(digit);
    }
    if let Some(part) = part {
        out.push(decimal_sign());
        out.push_str(part);
    }
    out
}

/// Units without their name: whole from 100 up, one decimal below, so that no more certainty shows
/// than a vial has.
pub fn units(units: Units) -> String {
    let text =
        if units >= Units::whole(100) { format!("{units:.0}") } else { format!("{units:.1}") };
    let text = text.strip_suffix(".0").unwrap_or(&text);
    grouped(text)
}

/// Units with their name.
pub fn units_named(amount: Units) -> String {
    tr!("{amount} units", amount = units(amount))
}

/// A range of units, or one figure when both ends are the same.
pub fn units_range(low: Units, high: Units) -> String {
    if low == high {
        units(low)
    } else {
        tr!("{low} to {high}", low = units(low), high = units(high))
    }
}

/// Millilitres with two decimals, as a barrel is read; three when it needs them.
pub fn volume(volume: Volume) -> String {
    typed(&if volume.raw().is_multiple_of(10) {
        format!("{volume:.2}")
    } else {
        volume.to_string()
    })
}

/// Millilitres with their name.
pub fn volume_named(amount: Volume) -> String {
    tr!("{amount} mL", amount = volume(amount))
}

/// Units per mL without their name.
pub fn strength(strength: Strength) -> String {
    units(strength.in_one_ml())
}

/// Units per mL with their name.
pub fn strength_named(amount: Strength) -> String {
    tr!("{amount} units/mL", amount = strength(amount))
}

/// cm² with one decimal.
pub fn area(area: Area) -> String {
    typed(&format!("{area:.1}"))
}

/// cm² with their name.
pub fn area_named(amount: Area) -> String {
    tr!("{amount} cm²", amount = area(amount))
}

/// Millimetres with their name.
pub fn length_named(length: Length) -> String {
    tr!("{length} mm", length = typed(&length))
}

/// Seconds with one decimal, as refill is timed.
pub fn seconds(span: Span) -> String {
    let tenths = span.as_millis() / 100;
    format!("{}{}{}", tenths / 10, decimal_sign(), tenths % 10)
}

/// Thousandths as a percentage: 70 is 7 %, 15 is 1.5 %.
pub fn per_mille(part: u64) -> String {
    if part.is_multiple_of(10) {
        format!("{} %", part / 10)
    } else {
        format!("{}{}{} %", part / 10, decimal_sign(), part % 10)
    }
}

/// So many of so many: "5 of 23"; of a hundred, as a percentage.
pub fn share(share: Share) -> String {
    match share.of {
        100 => format!("{} %", share.count),
        of => tr!("{part} of {whole}", part = share.count, whole = of),
    }
}

/// So many vials: "1 vial", "2 vials".
pub fn vials(vials: u32) -> String {
    tr!("{count} vial" | "{count} vials" % vials, count = whole(vials))
}

/// Any clinical value with its unit.
pub fn quantity(quantity: Quantity) -> String {
    match quantity {
        Quantity::Units(amount) => units_named(amount),
        Quantity::Volume(amount) => volume_named(amount),
        Quantity::Strength(amount) => strength_named(amount),
        Quantity::Area(amount) => area_named(amount),
        Quantity::Length(amount) => length_named(amount),
        Quantity::Span(span) => super::time::span(span),
        Quantity::Count(count) => whole(count),
        Quantity::PerMille(part) => tr!("{part} in 1000", part = part.0),
    }
}

/// A range of a clinical value, or one figure.
pub fn quantity_range(low: Quantity, high: Quantity) -> String {
    if low == high {
        quantity(low)
    } else {
        tr!("{low} to {high}", low = quantity(low), high = quantity(high))
    }
}
