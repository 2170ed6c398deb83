//! The same on the host: how long it took, by criterion, and what it answers.

use super::drawing::Drawing;
use super::page::Row;
use freshet_browser_tests::build::root;
use serde_json::Value as Json;
use std::path::PathBuf;

/// Nanoseconds in a millisecond.
const PER_MS: f64 = 1e6;

/// The median of some work, in milliseconds, where criterion measured it.
pub fn time(row: &Row, work: &str) -> Option<f64> {
    let home = std::env::var_os("CRITERION_HOME")
        .map_or_else(|| root().join("target/criterion"), PathBuf::from);
    let folder = home.join(work);
    let folder = row.series.map_or_else(|| folder.clone(), |series| folder.join(series.name()));
    let text = std::fs::read_to_string(folder.join(&row.name).join("new/estimates.json")).ok()?;
    let estimates: Json = serde_json::from_str(&text).ok()?;
    Some(estimates["median"]["point_estimate"].as_f64()? / PER_MS)
}

/// Where a browser answered otherwise than this machine's own processor.
pub fn differs(browser: &str, row: &Row) -> Vec<String> {
    let drawing = Drawing::new(row.vertices, row.across, row.hexagonal, row.margin);
    let mut here = vec![
        ("area", drawing.area()),
        ("lay", drawing.lay()),
        ("order", drawing.order()),
        ("reach", drawing.reach()),
        ("territory", drawing.territory()),
    ];
    here.retain(|(work, answer)| row.answer(work).is_some_and(|there| there != *answer));
    let told = |(work, answer)| {
        let there = row.answer(work).unwrap_or_default();
        let (vertices, points) = (row.vertices, row.points);
        format!(
            "{browser} answers {there} and the host {answer}: {work} of {vertices} vertices and {points} points"
        )
    };
    let mut faults: Vec<String> = here.into_iter().map(told).collect();
    if drawing.points() != row.points {
        faults.push(format!("{browser} has {} points, the host {}", row.points, drawing.points()));
    }
    faults
}
