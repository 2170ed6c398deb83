//! No clinical number stands outside `protocol`.
//!
//! Every whole number in the code above `protocol` is looked at. 0, 1 and 2 are structure; any other
//! has to be listed here with what it is. Floats are drawing and are left out, as are the drawings
//! themselves (`ui/parts`). Digits inside texts are looked at too: a text that needs a clinical
//! number gets it from `protocol`.

use super::floor;
use proc_macro2::{TokenStream, TokenTree};

/// Numbers that are no clinical values: where, which, and what they are.
const LISTED: &[(&str, &[u64], &str)] = &[
];

/// Texts with digits that are no clinical values.
const TEXTS: &[(&str, &str)] = &[
];

#[test]
fn clinical_numbers_live_in_protocol() {
    let mut wrong = Vec::new();
    for name in ["care", "kit", "case", "ui"] {
        for (path, text) in floor(name) {
            if path.starts_with("ui/parts") {
                continue;
            }
            let code = text.split("#[cfg(test)]\nmod tests").next().unwrap();
            let tokens: TokenStream = code.parse().unwrap_or_else(|error| panic!("{path}: {error}"));
            look(tokens, &path, &mut wrong);
        }
    }
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
}

/// Every exception is still needed, so that the lists do not outlive their reasons.
#[test]
fn no_exception_outlives_its_reason() {
    for (path, numbers, _) in LISTED {
        let name = path.split('/').next().unwrap().trim_end_matches(".rs");
        let (_, text) = floor(name).into_iter().find(|(other, _)| other == path).unwrap();
        let code = text.split("#[cfg(test)]\nmod tests").next().unwrap().replace('_', "");
        for number in *numbers {
            assert!(code.contains(&number.to_string()), "{path} has no {number} any more");
        }
    }
}

fn look(tokens: TokenStream, path: &str, wrong: &mut Vec<String>) {
    let mut attribute = false;
    for token in tokens {
        match token {
            TokenTree::Punct(punct) => {
                attribute = punct.as_char() == '#' || (attribute && punct.as_char() == '!');
                continue;
            }
            TokenTree::Group(group) if !attribute => look(group.stream(), path, wrong),
            TokenTree::Literal(literal) => judge(&literal.to_string(), path, wrong),
            TokenTree::Group(_) | TokenTree::Ident(_) => {}
        }
        attribute = false;
    }
}

fn judge(literal: &str, path: &str, wrong: &mut Vec<String>) {
    if literal.starts_with('"') {
        let clinical = literal.bytes().any(|byte| byte.is_ascii_digit());
        let listed = TEXTS.iter().any(|(file, text)| *file == path && literal.contains(text));
        // A place in a format string is not a number of its own.
        let formats = strip_places(literal);
        if clinical && formats.bytes().any(|byte| byte.is_ascii_digit()) && !listed {
            wrong.push(format!("{path}: {literal}"));
        }
    } else if let Some(number) = whole(literal) {
        let listed = LISTED.iter().any(|(file, numbers, _)| *file == path && numbers.contains(&number));
        if number > 2 && !listed {
            wrong.push(format!("{path}: {literal}"));
        }
    }
}

/// The text without what stands in braces.
fn strip_places(literal: &str) -> String {
    let mut depth = 0_u32;
    literal
        .chars()
        .filter(|sign| {
            match sign {
                '{' => depth += 1,
                '}' => depth = depth.saturating_sub(1),
                _ => {}
            }
            depth == 0
        })
        .collect()
}

/// A whole number literal, whatever its suffix and underscores; `None` for floats and characters.
fn whole(literal: &str) -> Option<u64> {
    let digits = literal.replace('_', "");
    if digits.starts_with("0x") || digits.contains('.') || digits.starts_with('\'') {
        return None;
    }
    let end = digits.find(|c: char| !c.is_ascii_digit()).unwrap_or(digits.len());
    digits[..end].parse().ok()
}
