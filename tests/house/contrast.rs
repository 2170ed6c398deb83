//! Every pair of colours that the tokens make, in every theme, by the contrast of WCAG 2.2: 7:1 for
//! text (1.4.6, the enhanced level, everywhere) and 3:1 for what shows a control or a figure (1.4.11).

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

/// Text on its ground.
const TEXT: f64 = 7.0;
/// Outlines of controls, and what a drawing is read by.
const GRAPHIC: f64 = 3.0;

/// A theme: which of the switches stand, and whether the phone asks for more contrast.
#[derive(Clone, Copy)]
struct Theme {
    name: &'static str,
    stands: [&'static str; 2],
    more: bool,
}

const THEMES: [Theme; 5] = [
    Theme { name: "light", stands: ["--light", "--fine"], more: false },
    Theme { name: "dark", stands: ["--dark", "--fine"], more: false },
    Theme { name: "sunlight", stands: ["--sun", "--bold"], more: false },
    Theme { name: "sunlight, asked for by the phone", stands: ["--sun", "--bold"], more: true },
    Theme { name: "dark with more contrast", stands: ["--dark", "--bold"], more: true },
];

/// Colours of text, and the grounds that any of them may stand on.
const WORDS: [&str; 4] = ["--ink", "--soft", "--go", "--danger"];
const GROUNDS: [&str; 5] = ["--paper", "--card", "--pressed", "--wash", "--blush"];

/// Text on a ground of its own.
const SOLID: [(&str, &str); 5] = [
    ("--on-go", "--go"),
    ("--on-go", "--go-pressed"),
    ("--on-danger", "--danger"),
    ("--on-danger", "--danger-pressed"),
    ("--paper", "--ink"),
];

/// What shows where a control is or what a drawing says, on what it is drawn on.
const DRAWN: [(&str, &str); 22] = [
    ("--edge", "--paper"),
    ("--edge", "--card"),
    ("--edge", "--wash"),
    ("--edge", "--blush"),
    ("--go", "--paper"),
    ("--go", "--card"),
    ("--go", "--wash"),
    // How far along: the done part of a bar against the rest of it.
    ("--go", "--rest"),
    ("--danger", "--paper"),
    ("--danger", "--card"),
    ("--danger", "--blush"),
    ("--soft", "--card"),
    ("--soft", "--paper"),
    ("--ink", "--card"),
    ("--on-go", "--go"),
    ("--card", "--ink"),
    // Strokes of the hatch, by which liquids are told apart.
    ("--stock-hatch", "--card"),
    ("--diluent-hatch", "--card"),
    ("--diluent-hatch", "--diluent"),
    ("--skin-hatch", "--skin"),
    ("--skin-hatch", "--skin-pale"),
    ("--skin-hatch", "--skin-blanched"),
];

/// Strokes that let what is under them through, by their sheet and selector, and their ground.
const THROUGH: [(&str, &str, &str); 3] = [
    ("drawings.css", ".fluid.stock path", "--stock"),
    ("drawings.css", ".fluid.mixed path", "--mixed"),
    // The edge of a zone on the face.
    ("face.css", ".zone", "--card"),
];

/// Red, green and blue, 0 to 1.
type Colour = [f64; 3];

fn sheet(name: &str) -> String {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("style").join(name);
    let text = fs::read_to_string(&file).unwrap_or_else(|why| panic!("{name}: {why}"));
    without_comments(&text)
}

fn sheets() -> Vec<(String, String)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("style");
    let names = fs::read_dir(folder).unwrap();
    let mut names: Vec<_> =
        names.map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned()).collect();
    names.sort();
    names.into_iter().map(|name| (name.clone(), sheet(&name))).collect()
}

fn without_comments(text: &str) -> String {
    let mut rest = text;
    let mut kept = String::new();
    while let Some(start) = rest.find("/*") {
        kept.push_str(&rest[..start]);
        let end = rest[start..].find("*/").expect("a comment ends");
        rest = &rest[start + end + 2..];
    }
    kept + rest
}

/// The heads that it stands under, outermost first, and what it says.
type Rule = (Vec<String>, Vec<(String, String)>);

/// Each rule's selector, or the condition that it stands in, with its declarations; in order.
fn rules(text: &str) -> Vec<Rule> {
    let mut found = Vec::new();
    let mut within: Vec<(String, Vec<(String, String)>)> = Vec::new();
    let mut word = String::new();
    for letter in text.chars() {
        match letter {
            '{' => {
                within.push((word.trim().to_owned(), Vec::new()));
                word.clear();
            }
            ';' => {
                if let (Some((_, said)), Some((name, value))) =
                    (within.last_mut(), word.split_once(':'))
                {
                    said.push((name.trim().to_owned(), value.trim().to_owned()));
                }
                word.clear();
            }
            '}' => {
                let (head, said) = within.pop().expect("as many ends as beginnings");
                let mut heads: Vec<String> = within.iter().map(|(head, _)| head.clone()).collect();
                heads.push(head);
                if !said.is_empty() {
                    found.push((heads, said));
                }
                word.clear();
            }
            _ => word.push(letter),
        }
    }
    found
}

/// What every token says in a theme, as written.
fn tokens(theme: Theme) -> BTreeMap<String, String> {
    let mut said = BTreeMap::new();
    for (heads, declarations) in rules(&sheet("tokens.css")) {
        let conditions: Vec<&String> =
            heads.iter().filter(|head| head.starts_with("@media")).collect();
        let holds = conditions.iter().all(|condition| {
            assert!(
                condition.contains("prefers-contrast: more")
                    || condition.contains("forced-colors: active"),
                "what does {condition} mean for the colours?"
            );
            theme.more && condition.contains("prefers-contrast: more")
        });
        if holds {
            said.extend(declarations);
        }
    }
    said
}

/// Puts in what other tokens say, and lets vanish what does not stand in the theme.
fn resolve(value: &str, theme: Theme, said: &BTreeMap<String, String>) -> String {
    const SWITCHES: [&str; 5] = ["--light", "--dark", "--sun", "--fine", "--bold"];
    let Some(start) = value.find("var(") else { return value.trim().to_owned() };
    let mut depth = 0;
    let end = value[start..]
        .char_indices()
        .find(|(_, letter)| {
            depth += i32::from(*letter == '(') - i32::from(*letter == ')');
            depth == 0 && *letter == ')'
        })
        .map(|(end, _)| start + end)
        .expect("what opens is closed");
    let inside = &value[start + 4..end];
    let (name, otherwise) = inside.split_once(',').unwrap_or((inside, ""));
    let stands = if SWITCHES.contains(&name.trim()) {
        if theme.stands.contains(&name.trim()) { otherwise.to_owned() } else { String::new() }
    } else {
        said.get(name.trim()).cloned().unwrap_or_else(|| panic!("no token {name}"))
    };
    resolve(&format!("{}{stands}{}", &value[..start], &value[end + 1..]), theme, said)
}

fn colour(name: &str, theme: Theme) -> Colour {
    let said = tokens(theme);
    let value = said.get(name).unwrap_or_else(|| panic!("no token {name}"));
    let value = resolve(value, theme, &said);
    hex(&value).unwrap_or_else(|| panic!("{name} in {}: {value:?} is no colour", theme.name))
}

fn hex(text: &str) -> Option<Colour> {
    let digits = text.strip_prefix('#')?;
    let at = |from: usize, long: usize| u8::from_str_radix(digits.get(from..from + long)?, 16).ok();
    let all = match digits.len() {
        3 => [at(0, 1)? * 17, at(1, 1)? * 17, at(2, 1)? * 17],
        6 => [at(0, 2)?, at(2, 2)?, at(4, 2)?],
        _ => return None,
    };
    Some(all.map(|part| f64::from(part) / 255.0))
}

/// The relative luminance that WCAG 2.2 defines.
fn luminance(colour: Colour) -> f64 {
    let [red, green, blue] =
        colour.map(
            |part| {
                if part <= 0.04045 { part / 12.92 } else { ((part + 0.055) / 1.055).powf(2.4) }
            },
        );
    0.2126 * red + 0.7152 * green + 0.0722 * blue
}

/// Its contrast ratio.
fn contrast(one: Colour, other: Colour) -> f64 {
    let (one, other) = (luminance(one), luminance(other));
    (one.max(other) + 0.05) / (one.min(other) + 0.05)
}

/// A colour that lets some of what is under it through.
fn over(above: Colour, share: f64, below: Colour) -> Colour {
    std::array::from_fn(|n| above[n] * share + below[n] * (1.0 - share))
}

/// The token that a rule strokes with, and how much of it stands.
fn stroke(file: &str, selector: &str) -> (String, f64) {
    let rules = rules(&sheet(file));
    let (_, said) = rules
        .iter()
        .find(|(heads, _)| heads.last().is_some_and(|head| head == selector))
        .unwrap_or_else(|| panic!("no {selector} in {file}"));
    let said = |name: &str| said.iter().find(|(one, _)| one == name).map(|(_, value)| value);
    let line = said("stroke").and_then(|value| token(value)).expect("a stroke");
    (line, said("stroke-opacity").map_or(1.0, |share| share.parse().expect("a share")))
}

/// The token's name, where a value is one token and nothing else.
fn token(value: &str) -> Option<String> {
    value.strip_prefix("var(")?.strip_suffix(')').map(str::to_owned)
}

#[test]
fn the_arithmetic_is_the_standards_own() {
    let (black, white) = (hex("#000").unwrap(), hex("#ffffff").unwrap());
    assert!((contrast(black, white) - 21.0).abs() < 1e-9);
    assert!((contrast(white, white) - 1.0).abs() < 1e-9);
    // The grey that the understanding documents give as the lightest for 4.5:1 on white.
    let grey = contrast(hex("#767676").unwrap(), white);
    assert!((4.5..4.6).contains(&grey), "{grey}");
    assert!(contrast(hex("#777777").unwrap(), white) < 4.5);
}

#[test]
fn text_stands_out_seven_to_one_in_every_theme() {
    let mut pairs: Vec<(&str, &str)> = SOLID.to_vec();
    pairs.extend(WORDS.iter().flat_map(|word| GROUNDS.map(|ground| (*word, ground))));
    let mut low = Vec::new();
    for theme in THEMES {
        for (word, ground) in &pairs {
            let ratio = contrast(colour(word, theme), colour(ground, theme));
            if ratio < TEXT {
                low.push(format!("{word} on {ground} in {}: {ratio:.2}", theme.name));
            }
        }
    }
    assert!(low.is_empty(), "below {TEXT}:1:\n{}", low.join("\n"));
}

#[test]
fn outlines_and_drawings_stand_out_three_to_one_and_more_in_the_sun() {
    let mut low = Vec::new();
    for theme in THEMES {
        let in_the_sun = theme.stands.contains(&"--bold");
        let mut see = |what: String, least: f64, ratio: f64| {
            if ratio < least {
                low.push(format!("{what} in {}: {ratio:.2} of {least}", theme.name));
            }
        };
        for (line, ground) in DRAWN {
            let ratio = contrast(colour(line, theme), colour(ground, theme));
            // Simulated skin is as bright as skin is; nothing of a patient is read by it.
            let bold = in_the_sun && !line.starts_with("--skin") && !line.contains("diluent");
            let least = if bold { TEXT } else { GRAPHIC };
            see(format!("{line} on {ground}"), least, ratio);
        }
        for (file, selector, ground) in THROUGH {
            let (line, share) = stroke(file, selector);
            let under = colour(ground, theme);
            let seen = over(colour(&line, theme), share, under);
            see(format!("{selector} on {ground}"), GRAPHIC, contrast(seen, under));
        }
    }
    assert!(low.is_empty(), "too faint:\n{}", low.join("\n"));
}

#[test]
fn no_sheet_makes_a_pair_that_is_not_measured() {
    let words: BTreeSet<&str> =
        WORDS.into_iter().chain(SOLID.iter().map(|(word, _)| *word)).chain(["--off"]).collect();
    // A bar takes its colour as text does.
    let solid: BTreeSet<(&str, &str)> = SOLID.into_iter().chain([("--go", "--rest")]).collect();
    let mut seen = 0;
    for (file, text) in sheets() {
        // The page before the app is measured below; the tokens are what is measured.
        if ["shell.css", "trouble.css", "tokens.css"].contains(&file.as_str()) {
            continue;
        }
        for (heads, said) in rules(&text) {
            let of = |name: &str| {
                said.iter().rev().find(|(one, _)| one == name).and_then(|(_, value)| token(value))
            };
            let (word, ground) = (of("color"), of("background"));
            let place = format!("{file}: {}", heads.join(" "));
            if let Some(word) = &word {
                seen += 1;
                assert!(words.contains(word.as_str()), "{place}: text in {word} is not measured");
            }
            if let (Some(word), Some(ground)) = (&word, &ground) {
                let measured = solid.contains(&(word.as_str(), ground.as_str()))
                    || (WORDS.contains(&word.as_str()) && GROUNDS.contains(&ground.as_str()));
                assert!(measured, "{place}: {word} on {ground} is not measured");
            }
            let printed = heads.iter().any(|head| head.contains("print"));
            for (name, value) in &said {
                let literal = value.starts_with('#') || value.starts_with("rgb");
                assert!(printed || !literal, "{place}: {name} is {value}, beside the tokens");
            }
        }
    }
    assert!(seen > 80, "the sheets are read: {seen}");
}

#[test]
fn the_page_before_the_app_is_as_legible() {
    let shell = sheet("shell.css");
    let (_, said) = rules(&shell)
        .into_iter()
        .find(|(heads, _)| {
            heads.last().is_some_and(|head| head.contains("#shell") && head.contains(".trouble"))
        })
        .expect("its colours");
    let said: BTreeMap<String, String> = said.into_iter().collect();
    for theme in THEMES {
        let of = |name: &str| hex(&resolve(&said[name], theme, &said)).expect("a colour");
        let pairs = [
            ("--ink", "--paper"),
            ("--soft", "--paper"),
            ("--go", "--paper"),
            ("--danger", "--paper"),
            ("--danger", "--blush"),
            ("--ink", "--blush"),
            ("--ink", "--card"),
        ];
        for (word, ground) in pairs {
            let ratio = contrast(of(word), of(ground));
            assert!(ratio >= TEXT, "{word} on {ground} in {}: {ratio:.2}", theme.name);
        }
        assert!(contrast(of("--on-go"), of("--go")) >= TEXT);
        assert!(contrast(of("--line"), of("--paper")) >= GRAPHIC);
        // Before and after the app starts it is one page.
        if !theme.more {
            for name in ["--ink", "--soft", "--paper", "--card", "--go", "--on-go"] {
                let (here, there) = (of(name), colour(name, theme));
                assert!(contrast(here, there) < 1.001, "{name} differs in {}", theme.name);
            }
        }
    }
}
