//! Whether hours of a case leave anything behind in memory.

use super::{Figure, watched};
use freshet_browser_tests::flows::{solution, urgent};
use freshet_browser_tests::phone::Phone;
use serde_json::json;
use std::time::Duration;

/// Before each page.
const WATCH: &str = include_str!("memory.js");
/// Opens the sheet and goes back, by the page itself: a driver holds on to each element that it was
/// ever given.
const VISIT: &str = "
    const done = arguments[arguments.length - 1];
    [...document.querySelectorAll('button')].find((one) => one.textContent.trim() === 'Anaphylaxis').click();
    setTimeout(() => { history.back(); setTimeout(done, 150); }, 150);";
/// How often that is done in an hour.
const VISITS: u32 = 30;
/// Memory of the app grows by pages of this size, in kilobytes.
const PAGE: f64 = 65.536;

/// In kilobytes.
#[derive(Clone, Copy)]
struct Used {
    heap: f64,
    wasm: f64,
    nodes: f64,
}

/// What stands in memory after everything that can go has gone.
async fn used(phone: &Phone) -> Used {
    for _ in 0..3 {
        phone.devtools("HeapProfiler.collectGarbage", json!({})).await;
    }
    phone.devtools("Performance.enable", json!({})).await;
    let told = phone.devtools("Performance.getMetrics", json!({})).await;
    let metric = |name: &str| {
        let all = told["metrics"].as_array().into_iter().flatten();
        all.filter(|one| one["name"] == name)
            .find_map(|one| one["value"].as_f64())
            .expect("a metric")
    };
    let wasm = phone.run("return globalThis.paceMemory.buffer.byteLength;", vec![]).await;
    Used {
        heap: metric("JSHeapUsedSize") / 1e3,
        wasm: wasm.as_f64().expect("bytes") / 1e3,
        nodes: metric("Nodes"),
    }
}

/// Six hours of a round's clock: the phone sleeps for minutes and wakes, and a page beside the clock is
/// opened and left, as people do who wait.
pub async fn grown() -> Vec<Figure> {
    let mut phone = watched("pace-memory", WATCH).await;
    urgent::to_first_draw(&mut phone).await;
    let made = solution::make(&mut phone, urgent::VIAL, urgent::STRENGTH).await;
    urgent::begin(&mut phone, 1).await;
    let points = urgent::round_with_slips(&mut phone).await;
    urgent::finish(&mut phone, 1, points.done * urgent::AT_POINT, made.vials).await;
    phone.headed("Look again in").await;
    // Everything that is made once has been made.
    wait(&mut phone).await;
    let before = used(&phone).await;
    for hour in 1..=6 {
        wait(&mut phone).await;
        let now = used(&phone).await;
        println!(
            "hour {hour}: heap {:.0} kB, wasm {:.0} kB, nodes {:.0}",
            now.heap, now.wasm, now.nodes
        );
    }
    let after = used(&phone).await;
    phone.put_away().await;
    println!(
        "memory before and after six hours: heap {:.0} and {:.0} kB, wasm {:.0} and {:.0} kB, nodes {:.0} and {:.0}",
        before.heap, after.heap, before.wasm, after.wasm, before.nodes, after.nodes
    );
    let figure = |what: &str, found: f64, most, unit| Figure {
        what: format!("{what} that six hours of a case leave behind"),
        found,
        most: Some(most),
        unit,
    };
    vec![
        figure("script memory", after.heap - before.heap, 500.0, "kB"),
        figure("wasm memory", after.wasm - before.wasm, PAGE, "kB"),
        figure("nodes", after.nodes - before.nodes, 50.0, ""),
    ]
}

/// An hour of waiting.
async fn wait(phone: &mut Phone) {
    // Asleep in between: a clock that is set while one looks would be taken down, and records grow.
    let asleep = Duration::from_secs(u64::from(3_600 / VISITS));
    for _ in 0..VISITS {
        phone.sleep(asleep).await;
        phone.client().execute_async(VISIT, vec![]).await.expect("there and back");
    }
    // The clock on the screen ticks meanwhile.
    tokio::time::sleep(Duration::from_secs(10)).await;
}
