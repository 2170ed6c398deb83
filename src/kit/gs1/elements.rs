//! Taking a code apart into its element strings.

use super::{Gtin, Misread};
use std::cmp::Ordering;

/// An application identifier with its data.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Element<'a> {
    /// Two to four digits.
    pub identifier: &'a str,
    /// What it says.
    pub data: &'a str,
}

/// What a reader puts for the sign FNC1 that ends a field.
const SEPARATOR: char = '\u{1d}';

/// What a reader may say of the symbol that it read (ISO/IEC 15424): GS1-128, GS1 DataBar, GS1 DataMatrix,
/// GS1 QR Code, GS1 DotCode. An EAN symbol has another form and is not among them.
const SYMBOLS: [&str; 5] = ["]C1", "]e0", "]d2", "]Q3", "]J1"];

/// Identifiers whose data have a length laid down for ever, by their first two digits, with the number
/// of signs including the identifier (figure 7.8.5-2 of the General Specifications).
const LAID_DOWN: [(&str, usize); 22] = [
    ("00", 20),
    ("01", 16),
    ("02", 16),
    ("03", 16),
    ("04", 18),
    ("11", 8),
    ("12", 8),
    ("13", 8),
    ("14", 8),
    ("15", 8),
    ("16", 8),
    ("17", 8),
    ("18", 8),
    ("19", 8),
    ("20", 4),
    ("31", 10),
    ("32", 10),
    ("33", 10),
    ("34", 10),
    ("35", 10),
    ("36", 10),
    ("41", 16),
];

/// Digits of the number under the bars of an EAN-13 symbol.
const EAN: usize = 13;
/// The longest data of batch and serial number.
const LONGEST: usize = 20;
/// No data of any identifier are longer.
const LONGEST_OF_ANY: usize = 90;

/// The first two digits of all identifiers whose data run to a separator.
const RUNNING: [&str; 28] = [
    "10", "21", "22", "23", "24", "25", "30", "37", "39", "40", "42", "43", "70", "71", "72", "80",
    "81", "82", "90", "91", "92", "93", "94", "95", "96", "97", "98", "99",
];

/// The element strings of a code, in their order.
pub(super) fn elements(text: &str) -> Result<Vec<Element<'_>>, Misread> {
    let text = text.trim_matches([' ', '\t', '\r', '\n']);
    if text.is_empty() {
        return Err(Misread::Empty);
    }
    if text.starts_with('(') {
        return bracketed(text);
    }
    // The number under the bars of a trade item's own symbol, and nothing else.
    if text.len() == EAN
        && text.bytes().all(|digit| digit.is_ascii_digit())
        && Gtin::new(text).is_some()
    {
        return Ok(vec![Element { identifier: "01", data: text }]);
    }
    let told = SYMBOLS.iter().find_map(|symbol| text.strip_prefix(symbol));
    if told.is_none() && text.starts_with(']') {
        return Err(Misread::OtherCode);
    }
    let mut rest = told.unwrap_or(text).trim_start_matches(SEPARATOR);
    let mut found = Vec::new();
    while !rest.is_empty() {
        let (element, after) = first(rest)?;
        found.push(element);
        rest = after.strip_prefix(SEPARATOR).unwrap_or(after);
    }
    Ok(found)
}

/// The first element string of a raw code, and what follows.
fn first(text: &str) -> Result<(Element<'_>, &str), Misread> {
    let identifier = text.get(..2).ok_or(Misread::OtherCode)?;
    let laid_down = LAID_DOWN.iter().find(|(start, _)| *start == identifier);
    let (data, rest) = if let Some((_, signs)) = laid_down {
        let whole = text.get(..*signs).ok_or(Misread::Cut)?;
        if whole.contains(SEPARATOR) {
            return Err(Misread::Cut);
        }
        (&whole[2..], &text[*signs..])
    } else if RUNNING.contains(&identifier) {
        let end = text.find(SEPARATOR).unwrap_or(text.len());
        (&text[2..end], &text[end..])
    } else {
        return Err(Misread::OtherCode);
    };
    Ok((checked(identifier, data)?, rest))
}

/// The form for people: each identifier in brackets before its data. Data may hold brackets
/// themselves; only those round two to four digits begin an element.
fn bracketed(text: &str) -> Result<Vec<Element<'_>>, Misread> {
    let mut found = Vec::new();
    let mut rest = text;
    while !rest.is_empty() {
        let (identifier, after) = opening(rest).ok_or(Misread::OtherCode)?;
        let next = after.char_indices().find(|(at, _)| opening(&after[*at..]).is_some());
        let end = next.map_or(after.len(), |(at, _)| at);
        let data = after[..end].trim();
        let laid_down = LAID_DOWN.iter().find(|(start, _)| identifier.starts_with(start));
        if let Some((_, signs)) = laid_down {
            match (identifier.len() + data.len()).cmp(signs) {
                Ordering::Less => return Err(Misread::Cut),
                Ordering::Greater => return Err(Misread::TooLong),
                Ordering::Equal => {}
            }
        }
        found.push(checked(identifier, data)?);
        rest = &after[end..];
    }
    Ok(found)
}

/// An identifier in brackets, and what follows it.
fn opening(text: &str) -> Option<(&str, &str)> {
    let (identifier, rest) = text.strip_prefix('(')?.split_once(')')?;
    let digits = (2..=4).contains(&identifier.len())
        && identifier.bytes().all(|digit| digit.is_ascii_digit());
    digits.then_some((identifier, rest))
}

/// Whether the data are such as the identifier allows, as far as it is read here.
fn checked<'a>(identifier: &'a str, data: &'a str) -> Result<Element<'a>, Misread> {
    let numeric = matches!(identifier, "01" | "17");
    let longest = if matches!(identifier, "10" | "21") { LONGEST } else { LONGEST_OF_ANY };
    if data.is_empty() {
        Err(Misread::Cut)
    } else if data.len() > longest {
        Err(Misread::TooLong)
    } else if numeric && !data.bytes().all(|digit| digit.is_ascii_digit()) {
        Err(Misread::Characters)
    } else if data.chars().all(allowed) {
        Ok(Element { identifier, data })
    } else {
        Err(Misread::Characters)
    }
}

/// The signs that data may hold (figure 7.11-1 of the General Specifications).
fn allowed(sign: char) -> bool {
    sign.is_ascii_alphanumeric() || "!\"%&'()*+,-./:;<=>?_".contains(sign)
}
