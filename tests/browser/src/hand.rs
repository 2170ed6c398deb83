//! What a user does, by the words on the screen.

use crate::eye::PATIENCE;
use crate::phone::{By, Phone, Tapped};
use fantoccini::elements::{Element, ElementRef};
use serde_json::{Value as Json, json};
use std::time::{Duration, Instant};

/// The name that WebDriver gives an element in JSON.
const ELEMENT: &str = "element-6066-11e4-a52e-4f735466cecf";
/// The app takes two taps within 400 ms for one hand that bounced; a user is no faster.
const BETWEEN_TAPS: Duration = Duration::from_millis(430);
/// A press that is not done by then never will be: the app has stopped.
const DONE_BY: Duration = Duration::from_secs(2);

impl Phone {
    /// Taps a button, a row or a link, by the words on it or its spoken name.
    pub async fn tap(&mut self, name: &str) {
        self.press("button", name, "").await;
    }

    /// Taps the first row under a heading. By its words it could not be named where a clock runs in
    /// them.
    pub async fn tap_first(&mut self, heading: &str) {
        self.press("first", heading, "").await;
    }

    /// Taps the one large button of the screen, the next action, whose words must contain these.
    pub async fn go_on(&mut self, words: &str) {
        self.press("next", words, "").await;
    }

    /// Ticks a box or chooses one of several, by its words.
    pub async fn tick(&mut self, name: &str) {
        self.press("option", name, "").await;
    }

    /// The same under one of several questions with the same answers.
    pub async fn choose(&mut self, question: &str, name: &str) {
        self.press("option", name, question).await;
    }

    /// Types into a field, in place of what stands there.
    pub async fn type_into(&mut self, label: &str, text: &str) {
        let label = &*self.said(label);
        self.note(&format!("type {text:?} into {label:?}"));
        let start = Instant::now();
        loop {
            let typed = match self.found("field", label, "").await {
                Ok((field, _)) => match self.meet(&field).await {
                    Ok(()) => self.type_over(&field, text).await,
                    Err(why) => Err(why),
                },
                Err(why) => Err(why),
            };
            let Err(why) = typed else { return };
            if start.elapsed() > PATIENCE {
                self.fail(&format!("cannot type into {label:?}: {why}")).await;
            }
            tokio::time::sleep(Duration::from_millis(60)).await;
        }
    }

    /// Puts the focus on a field.
    async fn meet(&mut self, field: &Element) -> Result<(), String> {
        match self.by {
            By::Finger | By::TimedFinger { .. } => {
                field.click().await.map_err(|error| error.to_string())
            }
            By::Keys => self.reach(field).await,
        }
    }

    async fn type_over(&self, field: &Element, text: &str) -> Result<(), String> {
        // As a user clears a field: from its end, letter by letter.
        let before = field.prop("value").await.map_err(|error| error.to_string())?;
        let letters = before.unwrap_or_default().chars().count();
        let keys = format!("\u{e010}{}{text}", "\u{e003}".repeat(letters));
        field.send_keys(&keys).await.map_err(|error| error.to_string())?;
        let now = field.prop("value").await.map_err(|error| error.to_string())?;
        if now.as_deref() == Some(text) { Ok(()) } else { Err(format!("it shows {now:?}")) }
    }

    /// Whether a button with these words is there, without waiting.
    pub async fn offers(&self, name: &str) -> bool {
        let script = "return find('button', arguments[0]).length > 0;";
        matches!(self.try_run(script, vec![json!(self.said(name))]).await, Ok(Json::Bool(true)))
    }

    /// Reads what has just come up. The app takes a tap in the first moment of a screen that came
    /// under the finger for one that bounced, and no user reads that fast.
    pub async fn pause(&mut self) {
        tokio::time::sleep(BETWEEN_TAPS).await;
    }

    /// Begins to count taps anew.
    pub fn count_taps_from_here(&mut self) {
        self.taps.clear();
    }

    async fn press(&mut self, kind: &str, name: &str, question: &str) {
        let (name, question) = (&*self.said(name), &*self.said(question));
        let step = if question.is_empty() { String::new() } else { format!(" under {question:?}") };
        self.note(&format!("tap {name:?}{step}"));
        if let Some(last) = self.last_tap {
            tokio::time::sleep(BETWEEN_TAPS.saturating_sub(last.elapsed())).await;
        }
        let start = Instant::now();
        loop {
            let pressed = match self.found(kind, name, question).await {
                Ok((element, tapped)) => match self.by {
                    By::Finger => element.click().await.map_err(|error| error.to_string()),
                    By::TimedFinger { .. } => {
                        self.press_past_the_driver(&tapped).await;
                        Ok(())
                    }
                    By::Keys => self.press_by_keys(&element, name).await,
                }
                .map(|()| tapped),
                Err(why) => Err(why),
            };
            match pressed {
                Ok(tapped) => {
                    self.taps.push(tapped);
                    self.last_tap = Some(Instant::now());
                    match self.by {
                        By::TimedFinger { let_be } => tokio::time::sleep(let_be).await,
                        By::Finger | By::Keys => self.done().await,
                    }
                    return;
                }
                Err(why) if start.elapsed() > PATIENCE => {
                    self.fail(&format!("cannot tap {name:?}{step}: {why}")).await;
                }
                Err(_) => tokio::time::sleep(Duration::from_millis(60)).await,
            }
        }
    }

    /// Waits until the app has done what was pressed. It paints the press first, and a user looks only
    /// then at what came of it.
    async fn done(&self) {
        const PRESSED: &str = "return document.querySelector('[data-pressed]') !== null;";
        let start = Instant::now();
        // A page that is leaving, or whose browser was ended, has nothing more to do.
        while matches!(self.try_run(PRESSED, vec![]).await, Ok(Json::Bool(true))) {
            if start.elapsed() > DONE_BY {
                return;
            }
            tokio::time::sleep(Duration::from_millis(10)).await;
        }
    }

    async fn press_past_the_driver(&self, tapped: &Tapped) {
        let (x, y) = tapped.middle;
        for kind in ["mousePressed", "mouseReleased"] {
            let params = json!({"type": kind, "x": x, "y": y, "button": "left", "clickCount": 1});
            self.devtools("Input.dispatchMouseEvent", params).await;
        }
    }

    /// The one thing called so, brought into view, with its size.
    async fn found(
        &self,
        kind: &str,
        name: &str,
        question: &str,
    ) -> Result<(Element, Tapped), String> {
        const FIND: &str = "
            const found = find(arguments[0], arguments[1], arguments[2]);
            if (found.length !== 1) return { count: found.length };
            if (arguments[3]) found[0].scrollIntoView({ block: 'center', behavior: 'instant' });
            const { x, y, width, height } = found[0].getBoundingClientRect();
            return { count: 1, element: found[0], x: x + width / 2, y: y + height / 2, width, height };";
        // The keyboard brings in view what it reaches by itself.
        let arguments = vec![json!(kind), json!(name), json!(question), json!(self.by != By::Keys)];
        let found = self.try_run(FIND, arguments).await.map_err(|error| error.to_string())?;
        if found["count"] != json!(1) {
            return Err(format!("{} of that name", found["count"]));
        }
        let id = found["element"][ELEMENT].as_str().ok_or("no element")?.to_owned();
        let element = Element::from_element_id(self.client().clone(), ElementRef::from(id));
        let size = |side: &str| found[side].as_f64().unwrap_or_default();
        let tapped = Tapped {
            name: name.to_owned(),
            middle: (size("x"), size("y")),
            width: size("width"),
            height: size("height"),
        };
        Ok((element, tapped))
    }
}
