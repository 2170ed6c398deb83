//! The plain page as it stands in `index.html`, with its words and the anaphylaxis sheet. Compiled for
//! the test alone, which holds the page to it: no number on the sheet can differ from `protocol`.

use super::super::{anaphylaxis, app, numbers, sheet, time};
use super::region;
use crate::care::anaphylaxis::{Build, Dose, Recognised, Sign, asks_build, dose, recognise};
use crate::protocol::adrenaline::{GROWN_MONTHS, MONTHS_OF_YEAR, Row, by_weight, source, table};
use crate::protocol::{Protocol, Region};

const FAILED: &str = "Freshet could not start";
const STOPPED: &str = "Freshet has stopped";
const AGAIN: &str = "Freshet stopped again";

const DO_FAILED: &str = "Start again. Nothing was read or changed; this page works by itself.";
const DO_STOPPED: &str = "Start again. What was confirmed as saved is saved.";
const DO_AGAIN: &str =
    "Start without opening a case. Nothing is lost: the record can be read and saved here.";

const GO: &str = "Start again";
const GO_BARE: &str = "Start without a case";

const TOLD: &str = "The case in hand";
const RAW: &str = "As stored, in the app’s own terms: units in thousandths, volumes in thousandths of a mL, the \
                   newest first.";
const SEALED: &str =
    "Records on this phone are locked with a passcode. They can be read once the app runs.";
const PAPER: &str =
    "Go on by your local protocol and write times and units on paper until the app runs.";

const ENOUGH: &str = "One of these is enough";
const WITH_SKIN: &str = "Or skin signs, with one of these";

const ELSE: &str = "If it does not start";
const SAVE: &str = "Save the record as a file";
const SAVE_FAILED: &str = "The browser did not take the file.";
const REPAIR: &str = "Repair: fetch the app anew";
const REPAIR_WHY: &str =
    "Repair needs a connection. It replaces the app’s own files and leaves records alone.";
const OFFLINE: &str =
    "No connection to where the app came from, so nothing was changed. Connect, then repair.";
const DETAIL: &str = "What happened";

/// The page, between the marks of `index.html`.
pub fn page() -> String {
    let mut lines = vec![
        "<main id=\"trouble\" class=\"trouble\" hidden>".to_owned(),
        "  <h1 id=\"trouble-title\" tabindex=\"-1\">".to_owned(),
    ];
    let when = |failed: &str, stopped: &str, again: &str| {
        [
            format!("    <span data-when=\"start\" hidden>{failed}</span>"),
            format!("    <span data-when=\"panic\" hidden>{stopped}</span>"),
            format!("    <span data-when=\"again\" hidden>{again}</span>"),
        ]
    };
    lines.extend(when(FAILED, STOPPED, AGAIN));
    lines.extend(["  </h1>".to_owned(), "  <p class=\"trouble-do\">".to_owned()]);
    lines.extend(when(DO_FAILED, DO_STOPPED, DO_AGAIN));
    lines.extend(["  </p>".to_owned(), "  <a id=\"trouble-go\" href=\"./\">".to_owned()]);
    lines.extend(when(GO, GO, GO_BARE));
    lines.push("  </a>".to_owned());
    lines.push(format!(
        "  <a class=\"trouble-danger\" href=\"#trouble-sheet\">{}</a>",
        sheet::TITLE
    ));
    lines.extend([
        "  <section id=\"trouble-told\" hidden>".to_owned(),
        format!("    <h2>{TOLD}</h2>"),
        format!("    <p>{PAPER}</p>"),
        format!("    <p id=\"trouble-raw\" hidden>{RAW}</p>"),
        format!("    <p id=\"trouble-sealed\" hidden>{SEALED}</p>"),
        "  </section>".to_owned(),
    ]);
    lines.extend([
        "  <section>".to_owned(),
        format!("    <h2>{ELSE}</h2>"),
        format!("    <button id=\"trouble-save\" type=\"button\">{SAVE}</button>"),
        format!("    <p id=\"trouble-unsaved\" role=\"alert\" hidden>{SAVE_FAILED}</p>"),
        format!("    <button id=\"trouble-repair\" type=\"button\">{REPAIR}</button>"),
        format!("    <p>{REPAIR_WHY}</p>"),
        format!("    <p id=\"trouble-offline\" role=\"alert\" hidden>{OFFLINE}</p>"),
        "    <details>".to_owned(),
        format!("      <summary>{DETAIL}</summary>"),
        "      <pre id=\"trouble-detail\" tabindex=\"0\"></pre>".to_owned(),
        "    </details>".to_owned(),
        "  </section>".to_owned(),
        "</main>".to_owned(),
    ]);
    lines.extend(sheet_lines());
    lines.iter().map(|line| format!("    {line}\n")).collect()
}

/// The sheet: when it is anaphylaxis, what to do, how much.
fn sheet_lines() -> Vec<String> {
    let protocol = Protocol::default();
    let signs = |meant: fn(Sign) -> bool| {
        let signs = anaphylaxis::SIGNS.into_iter().filter(|sign| meant(*sign));
        signs.map(|sign| format!("    <li>{}</li>", anaphylaxis::sign(sign))).collect::<Vec<_>>()
    };
    let mut lines = vec![
        "<section id=\"trouble-sheet\" class=\"trouble\" aria-labelledby=\"trouble-name\" tabindex=\"-1\">"
            .to_owned(),
        format!("  <h2 id=\"trouble-name\">{}</h2>", sheet::TITLE),
        format!("  <p class=\"trouble-first\">{}</p>", sheet::CALL),
        format!("  <p class=\"trouble-first\">{}. {}.</p>", sheet::give(), sheet::route()),
    ];
    for of in [Region::Uk, Region::Australia] {
        lines.push(format!("  <table data-region=\"{}\">", region(of)));
        lines.push(format!("    <caption>{} {}</caption>", sheet::REGION, anaphylaxis::region(of)));
        for (whom, dose) in rows(of) {
            lines.push(format!(
                "    <tr><th scope=\"row\">{whom}</th><td><strong>{} {}</strong> {}</td></tr>",
                sheet::dose(dose),
                sheet::ML,
                micrograms(dose),
            ));
        }
        lines.push("  </table>".to_owned());
        let weight = by_weight(of).map_or_else(String::new, |by| {
            let most = numbers::volume_named(by.most);
            format!(
                "{}: {} micrograms for each {}, at most {most}. ",
                sheet::WEIGHT,
                by.micrograms_per_kg,
                sheet::KG,
            )
        });
        lines.push(format!(
            "  <p class=\"trouble-small\" data-region=\"{}\">{weight}{}</p>",
            region(of),
            source(of).citation
        ));
    }
    lines.extend([
        format!("  <p>{}</p>", sheet::POSITION),
        format!(
            "  <p>{} {}, unless better.</p>",
            sheet::AGAIN_IN,
            time::span(protocol.adrenaline_repeat)
        ),
        format!("  <p>{}</p>", sheet::STAY),
        format!(
            "  <p>{}: {}</p>",
            sheet::refractory(protocol.refractory_doses),
            sheet::refractory_act(&protocol)
        ),
        format!("  <p>{}</p>", sheet::SUSPECT),
        format!("  <h3>{}. {ENOUGH}:</h3>", sheet::SIGNS),
        "  <ul>".to_owned(),
    ]);
    lines.extend(signs(|sign| recognise(&[sign]) != Recognised::NotMet));
    lines.extend(["  </ul>".to_owned(), format!("  <h3>{WITH_SKIN}:</h3>"), "  <ul>".to_owned()]);
    lines.extend(signs(|sign| {
        recognise(&[sign]) == Recognised::NotMet
            && recognise(&[sign, Sign::Skin]) != Recognised::NotMet
    }));
    lines.extend([
        "  </ul>".to_owned(),
        format!("  <p class=\"trouble-small\">{}</p>", app::FOLLOW),
        "</section>".to_owned(),
    ]);
    lines
}

/// For whom, and how much: a grown person first, who is the likeliest.
fn rows(region: Region) -> Vec<(String, Dose)> {
    let mut rows: Vec<(String, Dose)> = table(region)
        .iter()
        .rev()
        .map(|row| (age(row), Dose { low: row.low, high: row.high }))
        .collect();
    if asks_build(GROWN_MONTHS, region) {
        let years = grown_from(region) / MONTHS_OF_YEAR;
        let whom = format!("From {years} {}, small or not yet grown", sheet::YEARS);
        rows.insert(1, (whom, dose(GROWN_MONTHS, Build::Small, region)));
    }
    rows
}

/// From how many months on the dose of the grown is given.
fn grown_from(region: Region) -> u32 {
    table(region).last().map_or(GROWN_MONTHS, |row| row.from_months)
}

fn micrograms(dose: Dose) -> String {
    let high = sheet::micrograms(dose.high);
    if dose.low == dose.high {
        high
    } else {
        let low = sheet::micrograms(dose.low);
        format!("{} to {high}", low.split(' ').next().unwrap_or(&low))
    }
}

/// The ages of a row, in months below a year and in years above.
fn age(row: &Row) -> String {
    let whole = |months: u32| months.is_multiple_of(MONTHS_OF_YEAR) && months > 0;
    let from = row.from_months;
    // Both ends are meant: up to the day before the next birthday.
    let to = row.to_months.checked_add(1);
    match to {
        None => format!("Grown, and from {} {}", from / MONTHS_OF_YEAR, sheet::YEARS),
        Some(to) if to <= MONTHS_OF_YEAR => format!("{from} to {} {}", to - 1, sheet::MONTHS),
        Some(to) if whole(from) && whole(to) => {
            format!("{} to {} {}", from / MONTHS_OF_YEAR, to / MONTHS_OF_YEAR - 1, sheet::YEARS)
        }
        Some(to) => {
            format!("{from} {} to {} {}", sheet::MONTHS, to / MONTHS_OF_YEAR - 1, sheet::YEARS)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_page_in_index_html_says_this() {
        const BEGIN: &str =
            "    <!-- The plain page: written by ui::words::plain, kept by its test. -->\n";
        const END: &str = "    <!-- The end of the plain page. -->\n";
        let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("index.html");
        let html = std::fs::read_to_string(&path).unwrap();
        let (before, rest) = html.split_once(BEGIN).expect("where it begins");
        let (kept, after) = rest.split_once(END).expect("where it ends");
        let page = page();
        if std::env::var_os("FRESHET_RENEW").is_some() {
            std::fs::write(&path, format!("{before}{BEGIN}{page}{END}{after}")).unwrap();
            return;
        }
        let differs = kept.lines().zip(page.lines()).find(|(kept, now)| kept != now);
        assert!(kept == page, "the plain page says something else: {differs:?}");
    }

    #[test]
    fn every_age_of_the_tables_has_its_row() {
        let ages =
            |of| rows(of).into_iter().map(|(whom, dose)| format!("{whom}: {}", sheet::dose(dose)));
        assert_eq!(
            ages(Region::Uk).collect::<Vec<_>>(),
            [
                "Grown, and from 13 years: 0.50",
                "From 13 years, small or not yet grown: 0.30",
                "6 to 12 years: 0.30",
                "6 months to 5 years: 0.15",
                "0 to 5 months: 0.10 to 0.15",
            ]
        );
        assert_eq!(ages(Region::Australia).next_back().unwrap(), "0 to 11 months: 0.05 to 0.10");
        assert_eq!(rows(Region::Australia).len(), table(Region::Australia).len());
    }
}
