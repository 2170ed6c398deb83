//! What a user sees, waited for with a bound.

use crate::phone::Phone;
use serde_json::{Value as Json, json};
use std::time::{Duration, Instant};

/// How long anything may take. Two loaded cores need some of it.
pub const PATIENCE: Duration = Duration::from_secs(15);

const HEADING: &str =
    "return norm([...scope().querySelectorAll('h1, dialog h2')].filter(shown)[0]?.innerText);";
const TEXT: &str = "return norm(scope().innerText);";
const FIGURE: &str = "
    const labels = [...scope().querySelectorAll('dt')].filter((name) => norm(name.innerText) === arguments[0]);
    if (labels.length !== 1) return null;
    return norm(labels[0].parentElement.querySelector('dd > :first-child').innerText);";

impl Phone {
    async fn words(&self, script: &str) -> String {
        let said = self.try_run(script, vec![]).await.unwrap_or_default();
        said.as_str().unwrap_or_default().to_owned()
    }

    /// The heading of the screen, or of the sheet over it.
    pub async fn heading(&self) -> String {
        self.words(HEADING).await
    }

    /// Everything to be read on the screen, or on the sheet over it.
    pub async fn text(&self) -> String {
        self.words(TEXT).await
    }

    /// Waits until these words can be read.
    pub async fn see(&mut self, words: &str) {
        self.note(&format!("see {words:?}"));
        let start = Instant::now();
        loop {
            let text = self.text().await;
            if text.contains(words) {
                return;
            }
            if start.elapsed() > PATIENCE {
                self.fail(&format!(
                    "{words:?} does not show in {PATIENCE:?}; the text is\n  {text}"
                ))
                .await;
            }
            tokio::time::sleep(Duration::from_millis(40)).await;
        }
    }

    /// Waits until these words are gone.
    pub async fn see_no(&mut self, words: &str) {
        self.note(&format!("see no {words:?}"));
        let start = Instant::now();
        while self.text().await.contains(words) {
            if start.elapsed() > PATIENCE {
                self.fail(&format!("{words:?} still shows after {PATIENCE:?}")).await;
            }
            tokio::time::sleep(Duration::from_millis(40)).await;
        }
    }

    /// Waits for a heading that is just so.
    pub async fn headed(&mut self, heading: &str) {
        self.note(&format!("headed {heading:?}"));
        let start = Instant::now();
        loop {
            let now = self.heading().await;
            if now == heading {
                return;
            }
            if start.elapsed() > PATIENCE {
                self.fail(&format!("the heading is {now:?}, not {heading:?}, after {PATIENCE:?}"))
                    .await;
            }
            tokio::time::sleep(Duration::from_millis(40)).await;
        }
    }

    /// The number and unit under a name, once both are there.
    pub async fn figure(&mut self, name: &str) -> String {
        let start = Instant::now();
        loop {
            let read = self.try_run(FIGURE, vec![json!(name)]).await;
            if let Ok(Json::String(read)) = read {
                return read;
            }
            if start.elapsed() > PATIENCE {
                self.fail(&format!("no figure {name:?} in {PATIENCE:?}: {read:?}")).await;
            }
            tokio::time::sleep(Duration::from_millis(40)).await;
        }
    }

    /// Waits until the figure under a name is this.
    pub async fn reads(&mut self, name: &str, figure: &str) {
        self.note(&format!("{name} reads {figure:?}"));
        let start = Instant::now();
        loop {
            let now = self.figure(name).await;
            if now == figure {
                return;
            }
            if start.elapsed() > PATIENCE {
                self.fail(&format!("{name:?} reads {now:?}, not {figure:?}")).await;
            }
            tokio::time::sleep(Duration::from_millis(40)).await;
        }
    }

    /// Ends the test unless it is so.
    pub async fn sure(&mut self, so: bool, what: &str) {
        if !so {
            self.fail(what).await;
        }
    }
}
