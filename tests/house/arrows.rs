//! An arrow goes down the list of floors only.

use super::floor;

/// The floors from the ground up; those on one line may use each other's floor from below only.
const FLOORS: [&[&str]; 8] = [
    &["measure"],
    &["plane", "seal"],
    &["protocol"],
    &["care"],
    &["kit"],
    &["case"],
    &["record", "rehearsal"],
    &["store", "phone"],
];

/// Crates that need a browser.
const BROWSER: [&str; 7] =
    ["leptos", "web_sys", "js_sys", "gloo_", "wasm_bindgen", "console_error", "reactive_"];

#[test]
fn no_floor_names_one_above_it() {
    let mut above: Vec<&str> = vec!["ui"];
    for floors in FLOORS.iter().rev() {
        for name in *floors {
            for (path, text) in floor(name) {
                for other in &above {
                    let named = format!("crate::{other}");
                    assert!(!text.contains(&named), "{path} names {other}, which is above it");
                }
            }
        }
        above.extend(*floors);
    }
}

#[test]
fn the_rules_know_no_browser() {
    for name in
        ["measure", "plane", "seal", "protocol", "care", "kit", "case", "record", "rehearsal"]
    {
        for (path, text) in floor(name) {
            for crate_name in BROWSER {
                assert!(!text.contains(crate_name), "{path} names {crate_name}");
            }
        }
    }
}

#[test]
fn no_dose_is_a_float() {
    for name in ["measure", "care", "kit", "case", "record", "rehearsal"] {
        for (path, text) in floor(name) {
            let code = text.lines().filter(|line| !line.trim_start().starts_with("//"));
            for line in code {
                assert!(!line.contains("f64") && !line.contains("f32"), "{path}: {line}");
            }
        }
    }
}

/// A sort weighs thousands of bytes for each type: see `measure::order`. Drawing and laying sort one
/// type of their own.
#[test]
fn one_sort_serves_all() {
    for name in
        ["seal", "protocol", "care", "kit", "case", "record", "rehearsal", "store", "phone", "ui"]
    {
        for (path, text) in floor(name) {
            let code = text.split("#[cfg(test)]\nmod tests {").next().unwrap_or_default();
            if path.contains("tests") {
                continue;
            }
            for call in [".sort(", ".sort_by", ".sort_unstable", ".sort_by_cached_key"] {
                assert!(!code.contains(call), "{path} sorts by {call}");
            }
        }
    }
}
