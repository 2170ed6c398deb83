//! Times the geometry of the territory in Chromium and in Firefox, and tells it beside what
//! criterion measured on the host, as a table for the README: `tools/bench`.
//!
//! Fails when surface, grid and order of a drawing take longer than may be, or when a browser
//! answers otherwise than the host. `FRESHET_DIST` names the folder with the page, `CRITERION_HOME`
//! the one with criterion's figures.

#[path = "../../../../speed/src/drawing.rs"]
mod drawing;
mod host;
mod page;
mod table;

use freshet_browser_tests::engine::Engine;
use std::process::ExitCode;
use table::Figures;

/// What surface, grid and order may take together, in milliseconds: on the host.
const HOST_BUDGET: f64 = 5.0;
/// And in a browser.
const BROWSER_BUDGET: f64 = 16.0;

#[tokio::main(flavor = "current_thread")]
async fn main() -> ExitCode {
    let mut browsers = Vec::new();
    for engine in [Engine::Chromium, Engine::Firefox] {
        if !engine.left_out() {
            browsers.push(page::measured(engine).await);
        }
    }
    let Some((_, one)) = browsers.first() else {
        eprintln!("FRESHET_ENGINES leaves no browser");
        return ExitCode::FAILURE;
    };
    let mut faults = Vec::new();
    for (name, found) in &browsers {
        faults.extend(found.all().flat_map(|row| host::differs(name, row)));
    }
    let names = browsers.iter().map(|(name, _)| *name);
    let figures = Figures {
        names: ["host"].into_iter().chain(names).collect(),
        budgets: [HOST_BUDGET].into_iter().chain(browsers.iter().map(|_| BROWSER_BUDGET)).collect(),
        found: browsers.iter().map(|(_, found)| found).collect(),
    };
    println!("{}", figures.told());
    faults.extend(figures.over(one));
    for fault in &faults {
        eprintln!("!! {fault}");
    }
    if faults.is_empty() { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}
