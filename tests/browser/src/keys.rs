//! A keyboard and nothing else: Tab, or Shift and Tab, until a thing has the focus, then the key that presses it.

use crate::phone::Phone;
use fantoccini::elements::Element;
use serde_json::{Value as Json, json};

const TAB: &str = "\u{e004}";
const ENTER: &str = "\u{e007}";
const DOWN: &str = "\u{e015}";
const SPACE: &str = " ";
const SHIFT: &str = "\u{e008}";
/// No screen has more to stop at; what is not reached by then is not reached.
const MOST: usize = 120;

/// What has the focus: whether it is the one that is sought, or another of its group of radios; what
/// it is called; what is wrong with how it shows.
const STOP: &str = "
    const sought = arguments[0].matches('label') ? arguments[0].querySelector('input') : arguments[0];
    const el = document.activeElement;
    const nowhere = !el || el === document.body;
    const group = !nowhere && el.type === 'radio' && el !== sought && el.name === sought.name;
    const wrong = [];
    const name = nowhere ? '' : norm(el.getAttribute('aria-label') || byIds(el.getAttribute('aria-labelledby')) || el.labels?.[0]?.innerText || el.innerText);
    if (!nowhere && el.tabIndex >= 0) {
      const shape = el.closest('label') ?? el;
      const ring = [el, shape].some((one) => { const { outlineStyle, outlineWidth } = getComputedStyle(one); return outlineStyle !== 'none' && parseFloat(outlineWidth) >= 2; });
      const line = el.closest('.field-line');
      if (!ring && !(line && getComputedStyle(line).boxShadow !== 'none')) wrong.push('shows no focus');
      if (!name) wrong.push('has no name');
      const box = shape.getBoundingClientRect();
      const x = Math.min(Math.max((box.left + box.right) / 2, 1), innerWidth - 1);
      const seen = [0.1, 0.3, 0.5, 0.7, 0.9].some((part) => {
        const hit = document.elementFromPoint(x, box.top + box.height * part);
        return hit && (shape.contains(hit) || hit.contains(shape));
      });
      if (!seen) wrong.push('is covered, or out of sight');
    }
    const kind = el?.type === 'checkbox' ? 'checkbox' : el?.type === 'radio' ? 'radio' : 'button';
    const before = !nowhere && !!(el.compareDocumentPosition(sought) & Node.DOCUMENT_POSITION_PRECEDING);
    return { there: el === sought, group, before, nowhere, kind, name, wrong, screen: norm(document.querySelector('h1')?.innerText) };";

impl Phone {
    /// Presses Tab until a thing has the focus; within a group of radios the arrows, which choose.
    pub(crate) async fn reach(&mut self, thing: &Element) -> Result<(), String> {
        self.reached(thing).await.map(|_| ())
    }

    /// The same, and then the key that presses it.
    pub(crate) async fn press_by_keys(
        &mut self,
        thing: &Element,
        name: &str,
    ) -> Result<(), String> {
        let stop = self.reached(thing).await?;
        let screen = stop["screen"].clone();
        match stop["kind"].as_str() {
            Some("radio" | "checkbox") => self.key(SPACE).await,
            _ => self.key(ENTER).await,
        }
        self.follow(&screen, name).await;
        Ok(())
    }

    async fn reached(&mut self, thing: &Element) -> Result<Json, String> {
        for _ in 0..MOST {
            let stop =
                self.try_run(STOP, vec![json!(thing)]).await.map_err(|error| error.to_string())?;
            for wrong in stop["wrong"].as_array().into_iter().flatten() {
                let line = format!("{}: {} {}", stop["screen"], stop["name"], wrong);
                if !self.findings.contains(&line) {
                    self.findings.push(line);
                }
            }
            if stop["there"] == json!(true) {
                return Ok(stop);
            }
            if stop["group"] == json!(true) {
                self.key(DOWN).await;
            } else if stop["before"] == json!(true) {
                // Onwards it would lead through the browser's own bars first.
                self.key_with(SHIFT, TAB).await;
            } else {
                self.key(TAB).await;
            }
        }
        Err(format!("not reached in {MOST} stops"))
    }

    /// Where a press led to another screen, the focus must have come along: to something on it, and
    /// not to the top of the page.
    async fn follow(&mut self, before: &Json, name: &str) {
        const AFTER: &str = "
            const el = document.activeElement;
            return [norm(document.querySelector('h1')?.innerText), !el || el === document.body];";
        tokio::time::sleep(std::time::Duration::from_millis(150)).await;
        let Ok(after) = self.try_run(AFTER, vec![]).await else { return };
        if after[1] == json!(true) {
            let line = format!("from {before} by {name:?} to {}: the focus is nowhere", after[0]);
            self.findings.push(line);
        }
    }
}
