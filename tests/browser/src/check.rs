//! What is checked, or pictured, on each screen that a flow passes.

use crate::engine::Engine;
use crate::phone::{AtEach, Phone, SIZE};
use serde_json::{Value as Json, json};
use std::path::Path;
use std::sync::OnceLock;
use std::time::Duration;

/// The narrowest phone that is sold, in CSS pixels.
const NARROWEST: u32 = 320;
/// The smallest side of a button or an option, in CSS pixels.
pub const TARGET: f64 = 48.0;
/// The smallest side of anything else that takes a finger: what the enhanced level of the standard
/// asks for (2.5.5).
const ANYTHING: f64 = 44.0;

/// The rules of all levels of the standard and the best practice; contrast and targets by the enhanced
/// and the newest rule too, which are off unless asked for. What stays in sight while the rest scrolls
/// is laid into the page meanwhile: what it happens to lie over is seen and measured as well, and what
/// takes the focus is not covered by it, which is checked elsewhere.
const AXE: &str = "
    const done = arguments[arguments.length - 1];
    const sticky = [...document.querySelectorAll('*')].filter((el) => getComputedStyle(el).position === 'sticky');
    for (const el of sticky) el.style.position = 'static';
    const free = () => { for (const el of sticky) el.style.position = ''; };
    const rules = { 'color-contrast-enhanced': { enabled: true }, 'target-size': { enabled: true } };
    axe.run(document, { resultTypes: ['violations'], rules }).then(
      (found) => (free(), done(found.violations.map((v) => `${v.id}: ${v.nodes.map((n) => `${n.target} ${n.failureSummary}`).join(' | ')}`))),
      (error) => (free(), done([String(error)])),
    );";

const SIDEWAYS: &str = "
    const wide = [];
    const room = document.documentElement.clientWidth;
    if (document.scrollingElement.scrollWidth > room) wide.push(`page ${document.scrollingElement.scrollWidth}`);
    for (const el of scope().querySelectorAll('*')) {
      if (el.closest('svg') || !shown(el) || getComputedStyle(el).position === 'absolute') continue;
      const box = el.getBoundingClientRect();
      if (box.right > room + 1 || box.left < -1) wide.push(`${el.tagName}.${el.className} ${Math.round(box.left)}..${Math.round(box.right)}`);
      if (/auto|scroll/.test(getComputedStyle(el).overflowX) && el.scrollWidth > el.clientWidth + 1) wide.push(`${el.tagName}.${el.className} scrolls`);
    }
    return wide;";

const SMALL: &str = "
    return [...buttons(), ...options()]
      .map((el) => [norm(el.getAttribute('aria-label') ?? el.innerText), el.getBoundingClientRect()])
      .filter(([, box]) => box.width < arguments[0] - 0.01 || box.height < arguments[0] - 0.01)
      .map(([name, box]) => `${name} ${box.width.toFixed(1)} × ${box.height.toFixed(1)}`);";

/// Whatever else takes a finger or the focus, as large as what of it is pressed. Links within a line
/// of text are left out, as the standard does.
const SMALL_BESIDE: &str = "
    const known = new Set([...buttons(), ...options()]);
    const every = 'a[href], button, input, select, textarea, summary, [tabindex], [role=button], [role=slider], [role=checkbox], [role=switch]';
    return [...scope().querySelectorAll(every)]
      .filter((el) => shown(el) && el.tabIndex >= 0 && !el.disabled)
      .map((el) => el.closest('label') ?? el)
      .filter((el) => !known.has(el) && getComputedStyle(el).display !== 'inline')
      .map((el) => [el, el.getBoundingClientRect()])
      .filter(([, box]) => box.width < arguments[0] - 0.01 || box.height < arguments[0] - 0.01)
      .map(([el, box]) => `${el.tagName}.${el.getAttribute('class')} ${box.width.toFixed(1)} × ${box.height.toFixed(1)}`);";

/// Wears a theme as if it were chosen, without choosing it.
const WEAR: &str = "
    if (arguments[0]) document.documentElement.dataset.theme = arguments[0];
    else delete document.documentElement.dataset.theme;
    return true;";

const FROM_THE_TOP: &str = "
    for (const el of [document.scrollingElement, document.querySelector('main')]) el?.scrollTo({ top: 0, behavior: 'instant' });
    return true;";

fn axe() -> &'static str {
    static SOURCE: OnceLock<String> = OnceLock::new();
    SOURCE.get_or_init(|| {
        let file = std::env::var("FRESHET_AXE").expect("FRESHET_AXE names axe.min.js");
        std::fs::read_to_string(file).expect("axe")
    })
}

impl Phone {
    /// A flow stands at this screen: whatever is done at each is done.
    pub async fn at(&mut self, name: &str) {
        let name = &format!("{}{name}", self.flow);
        self.note(&format!("at {name}"));
        match self.at_each.clone() {
            AtEach::Nothing => {}
            AtEach::Check => self.check(name).await,
            AtEach::Fit => self.fits(name).await,
            AtEach::Picture(folder) => {
                self.run(FROM_THE_TOP, vec![]).await;
                self.picture(name, &folder).await;
            }
        }
        if !self.screens.contains(name) {
            self.screens.push(name.clone());
        }
    }

    /// The same with a drawing, named by the first words that are said of it, in sight on pictures.
    pub async fn at_drawing(&mut self, name: &str, words: &str) {
        const THERE: &str = "
            const drawing = [...document.querySelectorAll('svg[role=img]')]
              .find((svg) => norm(svg.getAttribute('aria-label')).startsWith(arguments[0]));
            drawing?.scrollIntoView({ block: 'center', behavior: 'instant' });
            return !!drawing;";
        if let AtEach::Picture(folder) = self.at_each.clone() {
            let there = self.run(THERE, vec![json!(words)]).await;
            self.sure(there == json!(true), &format!("no drawing {words:?}")).await;
            let name = &format!("{}{name}", self.flow);
            self.picture(name, &folder).await;
            self.screens.push(name.clone());
        } else {
            self.at(name).await;
        }
    }

    async fn check(&mut self, name: &str) {
        for (theme, dark) in [("light", false), ("sunlight", false), ("dark", true)] {
            self.set_dark(dark).await;
            // Light and dark as the phone has them, which most users never change.
            self.run(WEAR, vec![json!(if theme == "sunlight" { theme } else { "" })]).await;
            let script = format!("{}\n{AXE}", axe());
            let found = self.client().execute_async(&script, vec![]).await.expect("axe runs");
            self.report(name, theme, &found);
        }
        self.set_dark(false).await;
        for (script, least) in [(SMALL, TARGET), (SMALL_BESIDE, ANYTHING)] {
            let small = self.run(script, vec![json!(least)]).await;
            self.report(name, "too small to tap", &small);
        }
        self.check_spoken(name).await;
        for width in [NARROWEST, SIZE.0] {
            self.resize(width).await;
            let wide = self.run(SIDEWAYS, vec![]).await;
            self.report(name, &format!("wider than {width}"), &wide);
        }
    }

    /// Whatever takes the focus has a name and a role. By the tree that Chromium hands to a screen
    /// reader: axe reads the markup alone.
    async fn check_spoken(&mut self, name: &str) {
        if self.engine != Engine::Chromium {
            return;
        }
        let tree = self.devtools("Accessibility.getFullAXTree", json!({})).await;
        let nodes = tree["nodes"].as_array().cloned().unwrap_or_default();
        let focusable = |node: &&Json| {
            let properties = node["properties"].as_array();
            properties.into_iter().flatten().any(|property| {
                property["name"] == json!("focusable") && property["value"]["value"] == json!(true)
            })
        };
        let stops: Vec<&Json> = nodes.iter().filter(focusable).collect();
        self.sure(stops.len() > 1, "Chromium gives no tree").await;
        let silent = stops.iter().filter_map(|node| {
            let role = node["role"]["value"].as_str().unwrap_or_default();
            let said = node["name"]["value"].as_str().unwrap_or_default().trim();
            let bare = said.is_empty() || ["", "generic", "none"].contains(&role);
            bare.then(|| json!(format!("a {role:?} called {said:?}")))
        });
        let silent = Json::Array(silent.collect());
        self.report(name, "told to a screen reader", &silent);
    }

    pub(crate) fn report(&mut self, screen: &str, what: &str, found: &Json) {
        let found = found.as_array().expect("a list");
        let lines =
            found.iter().map(|one| format!("{screen}, {what}: {}", one.as_str().unwrap_or("?")));
        self.findings.extend(lines);
    }

    async fn picture(&mut self, name: &str, folder: &Path) {
        for (dark, scheme) in [(true, "dark"), (false, "light")] {
            self.set_dark(dark).await;
            // Nothing is to be caught half way of a change of colour.
            tokio::time::sleep(Duration::from_millis(250)).await;
            let picture = self.client().screenshot().await.expect("a picture");
            std::fs::write(folder.join(format!("{name}-{scheme}.png")), picture).expect("a file");
        }
    }

    /// Ends the test with everything that the checks found on any screen.
    pub async fn nothing_found(&mut self) {
        if !self.findings.is_empty() {
            let all = self.findings.join("\n    ");
            self.fail(&format!("{} findings:\n    {all}", self.findings.len())).await;
        }
    }

    /// Ends the test if anything was asked of another origin, by the browser's own account and by
    /// the page's.
    pub async fn only_own_origin(&mut self) {
        let own = self.server.origin();
        // Pages of the browser's own, and what the page made itself, go over no network.
        let over_network = |url: &str| url.starts_with("http") || url.starts_with("ws");
        let ours = |url: &str| !over_network(url) || url.starts_with(&own);
        let requests = self.requests().await;
        let some = requests.iter().any(|url| url.starts_with(&own));
        self.sure(some, "the browser gives no account of its requests").await;
        let entries = self
            .run("return performance.getEntriesByType('resource').map((one) => one.name);", vec![])
            .await;
        let entries = entries.as_array().cloned().unwrap_or_default();
        let entries = entries.iter().filter_map(|url| url.as_str().map(str::to_owned));
        let others: Vec<String> =
            requests.into_iter().chain(entries).filter(|url| !ours(url)).collect();
        self.sure(others.is_empty(), &format!("asked of other origins: {others:?}")).await;
    }

    /// Ends the test unless everything tapped since counting began was large enough.
    pub async fn all_taps_large(&mut self) {
        let small: Vec<String> = self
            .taps
            .iter()
            .filter(|tap| tap.width < TARGET - 0.01 || tap.height < TARGET - 0.01)
            .map(|tap| format!("{} {} × {}", tap.name, tap.width, tap.height))
            .collect();
        if !small.is_empty() {
            self.fail(&format!("tapped but smaller than {TARGET} px: {}", small.join(", "))).await;
        }
    }
}
