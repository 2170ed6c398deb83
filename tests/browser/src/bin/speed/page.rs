//! What the page found in a browser.

use freshet_browser_tests::engine::Engine;
use freshet_browser_tests::phone::Phone;
use serde_json::Value as Json;
use std::time::{Duration, Instant};

/// Half a minute where nothing else runs.
const PATIENCE: Duration = Duration::from_mins(4);

/// What was timed on one drawing.
pub struct Row {
    /// What changes in its series; nothing for the drawing that the budget is for.
    pub series: Option<Series>,
    /// How criterion calls it: a count in its series, or a name.
    pub name: String,
    /// Places of the outline.
    pub vertices: u32,
    /// How wide it is, in millimetres.
    pub across: f64,
    /// Whether the points have six neighbours.
    pub hexagonal: bool,
    /// How far outside points may lie, in millimetres.
    pub margin: u32,
    /// Points of the grid.
    pub points: u32,
    times: Json,
    answers: Json,
}

/// What grows from row to row.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Series {
    /// Places of the outline.
    Vertices,
    /// Points of the grid.
    Points,
}

impl Series {
    /// As criterion and the page call it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Vertices => "vertices",
            Self::Points => "points",
        }
    }
}

impl Row {
    /// The median of some work, in milliseconds, where it was timed.
    pub fn time(&self, work: &str) -> Option<f64> {
        self.times[work].as_f64()
    }

    /// What the work answered, where it was timed.
    pub fn answer(&self, work: &str) -> Option<u32> {
        u32::try_from(self.answers[work].as_u64()?).ok()
    }

    fn read(json: &Json) -> Self {
        let count = |name: &str| -> u32 {
            let count = json[name].as_u64().and_then(|count| u32::try_from(count).ok());
            count.unwrap_or_else(|| panic!("no {name} in {json}"))
        };
        let hexagonal = json["hexagonal"].as_bool().unwrap_or_default();
        let margin = if json["margin"].is_null() { 0 } else { count("margin") };
        let series = json["what"].as_str().map(|what| {
            let known = [Series::Vertices, Series::Points].into_iter();
            known.into_iter().find(|one| one.name() == what).expect("a known series")
        });
        let name = if series.is_some() {
            count("count").to_string()
        } else {
            let lattice = if hexagonal { "Hexagonal" } else { "Square" };
            format!("{lattice}, margin {margin} mm")
        };
        Self {
            series,
            name,
            vertices: count("vertices"),
            across: json["across"].as_f64().expect("a width"),
            hexagonal,
            margin,
            points: count("points"),
            times: json["times"].clone(),
            answers: json["answers"].clone(),
        }
    }
}

/// All that one browser found.
pub struct Found {
    /// The very first drawing, before the browser has compiled well, in milliseconds.
    pub first: f64,
    /// The drawing that the budget is for, with its lattices and margins.
    pub territories: Vec<Row>,
    /// How it grows.
    pub rows: Vec<Row>,
}

impl Found {
    /// Every row.
    pub fn all(&self) -> impl Iterator<Item = &Row> {
        self.territories.iter().chain(&self.rows)
    }

    /// What the page writes.
    pub fn read(json: &Json) -> Self {
        let rows = |name: &str| -> Vec<Row> {
            json[name].as_array().expect("rows").iter().map(Row::read).collect()
        };
        Self {
            first: json["first"].as_f64().expect("a first time"),
            territories: rows("territories"),
            rows: rows("rows"),
        }
    }
}

/// Opens the page in a browser and waits for what it finds.
pub async fn measured(engine: Engine) -> (&'static str, Found) {
    let mut phone = Phone::off(engine, "speed");
    phone.start().await;
    let url = phone.server.url();
    phone.go(&url).await;
    let start = Instant::now();
    let found = loop {
        let said = |id: &str| format!("return document.getElementById('{id}')?.textContent ?? '';");
        let failed = phone.run(&said("failed"), vec![]).await;
        if failed != "" {
            phone.fail(&format!("the page says {failed}")).await;
        }
        let done = phone.run(&said("done"), vec![]).await;
        if let Some(text) = done.as_str().filter(|text| !text.is_empty()) {
            break serde_json::from_str(text).expect("JSON");
        }
        if start.elapsed() > PATIENCE {
            phone.fail(&format!("no figures in {PATIENCE:?}")).await;
        }
        // Seldom, since each look takes a little of the time that is measured.
        tokio::time::sleep(Duration::from_secs(2)).await;
    };
    phone.put_away().await;
    let name = match engine {
        Engine::Chromium => "Chromium",
        Engine::Firefox => "Firefox",
        Engine::WebKit => "WebKitGTK",
    };
    (name, Found::read(&found))
}
