//! The figures as Markdown.

use super::host;
use super::page::{Found, Row, Series};
use std::fmt::Write as _;

/// What is timed apart, as criterion and the page call it and as the table does; and how many of
/// the table's units make a millisecond.
const WORKS: [(&str, &str, f64); 4] = [
    ("area", "surface, µs", 1_000.0),
    ("lay", "grid with its order, ms", 1.0),
    ("order", "order alone, ms", 1.0),
    ("reach", "reach, ms", 1.0),
];
/// What is asked for when a line has been drawn: surface and grid.
const TERRITORY: &str = "territory";

/// What was measured: on the host, then in each browser.
pub struct Figures<'a> {
    /// Where, in this order.
    pub names: Vec<&'static str>,
    /// What surface and grid may take there, in milliseconds.
    pub budgets: Vec<f64>,
    /// What each browser found.
    pub found: Vec<&'a Found>,
}

impl Figures<'_> {
    /// All of it.
    pub fn told(&self) -> String {
        let Some(&one) = self.found.first() else { return String::new() };
        let mut text = String::new();
        self.tell_territories(one, &mut text);
        self.tell_growth(one, &mut text);
        text
    }

    /// What took longer than it may, or was not measured.
    pub fn over(&self, one: &Found) -> Vec<String> {
        let mut faults = Vec::new();
        for (index, row) in one.territories.iter().enumerate() {
            let times = self.times(TERRITORY, row, |found| found.territories.get(index));
            for ((time, name), budget) in times.into_iter().zip(&self.names).zip(&self.budgets) {
                let what = &row.name;
                match time {
                    Some(time) if time <= *budget => {}
                    Some(time) => faults.push(format!(
                        "{name}: {what} takes {} ms of at most {budget}",
                        short(time)
                    )),
                    None => faults.push(format!("{name}: {what} was not measured")),
                }
            }
        }
        faults
    }

    fn tell_territories(&self, one: &Found, text: &mut String) {
        let heads = self.names.iter().zip(&self.budgets);
        let heads: Vec<_> =
            heads.map(|(name, budget)| format!("{name}, at most {budget} ms")).collect();
        let _ = writeln!(text, "| surface, grid and order | points | {} |", heads.join(" | "));
        let _ = writeln!(text, "|---|--:|{}", "--:|".repeat(heads.len()));
        for (index, row) in one.territories.iter().enumerate() {
            let times = self.times(TERRITORY, row, |found| found.territories.get(index));
            let times: Vec<_> = times.into_iter().map(|time| told(time, "", " ms")).collect();
            let lattice = if row.hexagonal { "hexagonal" } else { "square" };
            let _ = writeln!(
                text,
                "| {} vertices, {lattice}, margin {} mm | {} | {} |",
                row.vertices,
                row.margin,
                row.points,
                times.join(" | ")
            );
        }
        let first: Vec<_> =
            self.found.iter().map(|found| told(Some(found.first), "", " ms")).collect();
        let _ = writeln!(text, "| the first drawing after loading | | | {} |", first.join(" | "));
    }

    fn tell_growth(&self, one: &Found, text: &mut String) {
        let cores = std::thread::available_parallelism().map_or(0, std::num::NonZero::get);
        let heads = WORKS.map(|(_, name, _)| name);
        let _ = writeln!(text, "\n{}; {cores} cores\n", self.names.join(" / "));
        let _ = writeln!(text, "| vertices | points | {} |", heads.join(" | "));
        let _ = writeln!(text, "|--:|--:|{}", "--:|".repeat(heads.len()));
        for series in [Series::Vertices, Series::Points] {
            let rows = one.rows.iter().enumerate().filter(|(_, row)| row.series == Some(series));
            let rows: Vec<_> = rows.map(|(index, row)| (row, self.works(index, row))).collect();
            for (row, times) in &rows {
                let cells: Vec<_> = times.iter().map(|times| joined(times, "")).collect();
                let (vertices, points) = (row.vertices, row.points);
                let _ = writeln!(text, "| {vertices} | {points} | {} |", cells.join(" | "));
            }
            if let (Some(first), Some(last)) = (rows.first(), rows.last()) {
                let cells = first.1.iter().zip(&last.1);
                let cells: Vec<_> =
                    cells.map(|(few, many)| joined(&grown(few, many), "×")).collect();
                let more = |count: fn(&Row) -> u32| {
                    format!("×{}", short(f64::from(count(last.0)) / f64::from(count(first.0))))
                };
                let (vertices, points) = match series {
                    Series::Vertices => (more(|row| row.vertices), String::new()),
                    Series::Points => (String::new(), more(|row| row.points)),
                };
                let _ = writeln!(text, "| {vertices} | {points} | {} |", cells.join(" | "));
            }
        }
    }

    /// How long each work on a row took, in the table's units.
    fn works(&self, index: usize, row: &Row) -> [Vec<Option<f64>>; WORKS.len()] {
        WORKS.map(|(work, _, per_ms)| {
            let times = self.times(work, row, |found| found.rows.get(index));
            times.into_iter().map(|time| time.map(|time| time * per_ms)).collect()
        })
    }

    /// How long some work on a row took: on the host, then in each browser.
    fn times<'a>(
        &'a self,
        work: &str,
        row: &Row,
        there: impl Fn(&'a Found) -> Option<&'a Row>,
    ) -> Vec<Option<f64>> {
        let there = self.found.iter().map(|found| there(found).and_then(|row| row.time(work)));
        [host::time(row, work)].into_iter().chain(there).collect()
    }
}

/// How many times as long.
fn grown(few: &[Option<f64>], many: &[Option<f64>]) -> Vec<Option<f64>> {
    few.iter().zip(many).map(|(few, many)| Some((*many)? / (*few)?)).collect()
}

/// Nothing at all where nobody measured.
fn joined(numbers: &[Option<f64>], before: &str) -> String {
    if numbers.iter().all(Option::is_none) {
        return String::new();
    }
    let told: Vec<_> = numbers.iter().map(|number| told(*number, before, "")).collect();
    told.join(" / ")
}

fn told(number: Option<f64>, before: &str, after: &str) -> String {
    number.map_or_else(|| "–".to_owned(), |number| format!("{before}{}{after}", short(number)))
}

/// To two digits that count, or to the whole number.
fn short(number: f64) -> String {
    let places = match number {
        9.95.. => 0,
        0.995.. => 1,
        0.0995.. => 2,
        _ => 3,
    };
    format!("{number:.places$}")
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    fn found(time: f64) -> Found {
        let row = |what: &str, count: u32, points: u32, lay: f64| {
            json!({
                "what": what, "count": count, "vertices": count, "across": 10.5, "points": points,
                "times": { "area": 0.001, "lay": lay }, "answers": {},
            })
        };
        let drawn = json!({
            "hexagonal": true, "margin": 3, "vertices": 2_000, "across": 282, "points": 608,
            "times": { "territory": time }, "answers": { "territory": 7 },
        });
        Found::read(&json!({
            "first": 31.4,
            "territories": [drawn],
            "rows": [row("vertices", 1, 500, 0.25), row("vertices", 3, 500, 1.0)],
        }))
    }

    fn figures(found: &Found) -> Figures<'_> {
        Figures { names: vec!["host", "Chromium"], budgets: vec![5.0, 16.0], found: vec![found] }
    }

    #[test]
    fn what_takes_longer_than_it_may_is_a_fault() {
        let faults = |time: f64| {
            let found = found(time);
            let mut faults = figures(&found).over(&found);
            // The host may have been measured in this folder or not.
            faults.retain(|fault| fault.starts_with("Chromium"));
            faults
        };
        assert_eq!(faults(15.9), [""; 0]);
        assert_eq!(faults(17.0), ["Chromium: Hexagonal, margin 3 mm takes 17 ms of at most 16"]);
    }

    #[test]
    fn each_row_is_told_and_how_it_grows() {
        let found = found(4.27);
        let text = figures(&found).told();
        let told = |line: &str| assert!(text.lines().any(|told| told.ends_with(line)), "{text}");
        told(" | 4.3 ms |");
        told(" | 31 ms |");
        told("| 3 | 500 | – / 1.0 | – / 1.0 |  |  |");
        told("| ×3.0 |  | – / ×1.0 | – / ×4.0 |  |  |");
    }

    #[test]
    fn numbers_have_two_digits_that_count() {
        let told = [1_204.0, 31.4, 9.96, 9.94, 0.996, 0.25, 0.0123].map(short);
        assert_eq!(told, ["1204", "31", "10", "9.9", "1.0", "0.25", "0.012"]);
    }
}
