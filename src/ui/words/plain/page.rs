//! The plain page as it stands in `index.html`, with its words and the anaphylaxis sheet. Compiled for
//! the test alone, which holds the page to it: no number on the sheet can differ from `protocol`.

use super::super::{anaphylaxis, app, language, numbers, sheet, time};
use super::region;
use crate::care::anaphylaxis::{Build, Dose, Recognised, Sign, asks_build, dose, recognise};
use crate::protocol::adrenaline::{GROWN_MONTHS, MONTHS_OF_YEAR, Row, by_weight, source, table};
use crate::protocol::{Protocol, Region};

words! {
    starting = "Starting";
    late = "This takes longer than it should. Close the page and open it again. Stored records are safe.";

    failed = "Freshet could not start";
    stopped = "Freshet has stopped";
    again = "Freshet stopped again";

    do_failed = "Start again. Nothing was read or changed; this page works by itself.";
    do_stopped = "Start again. What was confirmed as saved is saved.";
    do_again = "Start without opening a case. Nothing is lost: the record can be read and saved here.";

    go = "Start again";
    go_bare = "Start without a case";

    told = "The case in hand";
    raw = "As stored, in the app’s own terms: units in thousandths, volumes in thousandths of a mL, the \
                       newest first.";
    sealed = "Records on this phone are locked with a passcode. They can be read once the app runs.";
    paper = "Go on by your local protocol and write times and units on paper until the app runs.";

    enough = "One of these is enough";
    with_skin = "Or skin signs, with one of these";

    else_label = "If it does not start";
    save = "Save the record as a file";
    save_failed = "The browser did not take the file.";
    repair = "Repair: fetch the app anew";
    repair_why = "Repair needs a connection. It replaces the app’s own files and leaves records alone.";
    offline = "No connection to where the app came from, so nothing was changed. Connect, then repair.";
    detail = "What happened";
}

/// What a start says until the app runs, with the names that `index.html` has for it.
pub fn start() -> [String; 3] {
    [
        format!("<span id=\"shell-danger\">{}</span>", app::anaphylaxis()),
        format!("<p id=\"shell-starting\" role=\"status\">{}</p>", starting()),
        format!("<p id=\"shell-late\">{}</p>", late()),
    ]
}

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
    lines.extend(when(failed(), stopped(), again()));
    lines.extend(["  </h1>".to_owned(), "  <p class=\"trouble-do\">".to_owned()]);
    lines.extend(when(do_failed(), do_stopped(), do_again()));
    lines.extend(["  </p>".to_owned(), "  <a id=\"trouble-go\" href=\"./\">".to_owned()]);
    lines.extend(when(go(), go(), go_bare()));
    lines.push("  </a>".to_owned());
    lines.push(format!(
        "  <a class=\"trouble-danger\" href=\"#trouble-sheet\">{}</a>",
        sheet::title()
    ));
    lines.extend([
        "  <section id=\"trouble-told\" hidden>".to_owned(),
        format!("    <h2>{}</h2>", told()),
        format!("    <p>{}</p>", paper()),
        format!("    <p id=\"trouble-raw\" hidden>{}</p>", raw()),
        format!("    <p id=\"trouble-sealed\" hidden>{}</p>", sealed()),
        "  </section>".to_owned(),
    ]);
    lines.extend([
        "  <section>".to_owned(),
        format!("    <h2>{}</h2>", else_label()),
        format!("    <button id=\"trouble-save\" type=\"button\">{}</button>", save()),
        format!(
            "    <p id=\"trouble-unsaved\" role=\"alert\" hidden>{save_failed}</p>",
            save_failed = save_failed()
        ),
        format!(
            "    <button id=\"trouble-repair\" type=\"button\">{repair}</button>",
            repair = repair()
        ),
        format!("    <p>{}</p>", repair_why()),
        format!(
            "    <p id=\"trouble-offline\" role=\"alert\" hidden>{offline}</p>",
            offline = offline()
        ),
        "    <details>".to_owned(),
        format!("      <summary>{}</summary>", detail()),
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
        format!("  <h2 id=\"trouble-name\">{}</h2>", sheet::title()),
        format!("  <p class=\"trouble-first\">{}</p>", sheet::call()),
        format!("  <p class=\"trouble-first\">{}. {}.</p>", sheet::give(), sheet::route()),
    ];
    for of in [Region::Uk, Region::Australia] {
        lines.push(format!("  <table data-region=\"{}\">", region(of)));
        lines.push(format!(
            "    <caption>{} {}</caption>",
            sheet::region(),
            anaphylaxis::region(of)
        ));
        for (whom, dose) in rows(of) {
            lines.push(format!(
                "    <tr><th scope=\"row\">{whom}</th><td><strong>{} {}</strong> {}</td></tr>",
                sheet::dose(dose),
                sheet::ml(),
                sheet::amount(dose),
            ));
        }
        lines.push("  </table>".to_owned());
        let weight = by_weight(of).map_or_else(String::new, |by| {
            let said = tr!(
                "Weight: {micrograms} micrograms for each kg, at most {most}.",
                micrograms = by.micrograms_per_kg,
                most = numbers::volume_named(by.most)
            );
            format!("{said} ")
        });
        lines.push(format!(
            "  <p class=\"trouble-small\" data-region=\"{}\">{weight}{}</p>",
            region(of),
            source(of).citation
        ));
    }
    lines.extend([
        format!("  <p>{}</p>", sheet::position()),
        format!(
            "  <p>{}</p>",
            tr!("Again in {span}, unless better.", span = time::span(protocol.adrenaline_repeat))
        ),
        format!("  <p>{}</p>", sheet::stay()),
        format!(
            "  <p>{}: {}</p>",
            sheet::refractory(protocol.refractory_doses),
            sheet::refractory_act(&protocol)
        ),
        format!("  <p>{}</p>", sheet::suspect()),
        format!("  <h3>{}. {}:</h3>", sheet::signs(), enough()),
        "  <ul>".to_owned(),
    ]);
    lines.extend(signs(|sign| recognise(&[sign]) != Recognised::NotMet));
    lines.extend([
        "  </ul>".to_owned(),
        format!("  <h3>{}:</h3>", with_skin()),
        "  <ul>".to_owned(),
    ]);
    lines.extend(signs(|sign| {
        recognise(&[sign]) == Recognised::NotMet
            && recognise(&[sign, Sign::Skin]) != Recognised::NotMet
    }));
    lines.extend([
        "  </ul>".to_owned(),
        format!("  <p class=\"trouble-small\">{}</p>", app::follow()),
    ]);
    lines.extend(language::mark().map(|mark| format!("  <p class=\"trouble-small\">{mark}</p>")));
    lines.push("</section>".to_owned());
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
        let whom = tr!("From {years} years, small or not yet grown", years);
        rows.insert(1, (whom, dose(GROWN_MONTHS, Build::Small, region)));
    }
    rows
}

/// From how many months on the dose of the grown is given.
fn grown_from(region: Region) -> u32 {
    table(region).last().map_or(GROWN_MONTHS, |row| row.from_months)
}

/// The ages of a row, in months below a year and in years above.
fn age(row: &Row) -> String {
    let whole = |months: u32| months.is_multiple_of(MONTHS_OF_YEAR) && months > 0;
    let from = row.from_months;
    // Both ends are meant: up to the day before the next birthday.
    let to = row.to_months.checked_add(1);
    match to {
        None => tr!("Grown, and from {years} years", years = from / MONTHS_OF_YEAR),
        Some(to) if to <= MONTHS_OF_YEAR => tr!("{from} to {to} months", from, to = to - 1),
        Some(to) if whole(from) && whole(to) => {
            tr!("{from} to {to} years", from = from / MONTHS_OF_YEAR, to = to / MONTHS_OF_YEAR - 1)
        }
        Some(to) => {
            tr!("{from} months to {to} years", from, to = to / MONTHS_OF_YEAR - 1)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::path::{Path, PathBuf};

    fn index() -> (PathBuf, String) {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("index.html");
        let html = std::fs::read_to_string(&path).unwrap();
        (path, html)
    }

    /// Holds what stands between two marks of `index.html` to what it is to be; with `FRESHET_RENEW`
    /// set it is written anew.
    fn kept(which: &str, now: &str) {
        let (begin, end) = (
            format!("    <!-- {which}: written by ui::words::plain, kept by its test. -->\n"),
            format!("    <!-- The end of it. {which} -->\n"),
        );
        let (path, html) = index();
        let (before, rest) = html.split_once(&begin).expect("where it begins");
        let (kept, after) = rest.split_once(&end).expect("where it ends");
        if std::env::var_os("FRESHET_RENEW").is_some() {
            std::fs::write(&path, format!("{before}{begin}{now}{end}{after}")).unwrap();
            return;
        }
        let differs = kept.lines().zip(now.lines()).find(|(kept, now)| kept != now);
        assert!(kept == now, "{which} says something else: {differs:?}");
    }

    /// One after the other: each writes the same file when it is renewed.
    #[test]
    fn the_pages_in_index_html_say_this() {
        kept("The plain page", &page());
        // The language of a thread is in force for as long as the thread.
        let german = std::thread::spawn(|| {
            crate::ui::language::tests::in_german();
            (start().map(|line| format!("    {line}\n")).concat(), page())
        });
        let (start, page) = german.join().unwrap();
        kept("The start in German", &start);
        kept("The plain page in German", &page);
        // In English the start stands in the page that is laid out around it.
        let (_, html) = index();
        for line in super::start() {
            assert_eq!(html.matches(&line).count(), 1, "{line}");
        }
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
