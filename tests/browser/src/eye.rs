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
        self.understood(&self.words(HEADING).await)
    }

    /// What is read on the screen, in English.
    fn understood(&self, read: &str) -> String {
        self.tongue.as_ref().map_or(read.to_owned(), |tongue| tongue.understand(read))
    }

    /// A text of the English app as this phone says it.
    pub fn said(&self, english: &str) -> String {
        self.tongue.as_ref().map_or(english.to_owned(), |tongue| tongue.say(english))
    }

    /// Everything to be read on the screen, or on the sheet over it.
    pub async fn text(&self) -> String {
        self.words(TEXT).await
    }

    /// Whether these words can be read now.
    pub async fn shows(&self, words: &str) -> bool {
        self.text().await.contains(&self.said(words))
    }

    /// Waits until these words can be read.
    pub async fn see(&mut self, words: &str) {
        let words = &*self.said(words);
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
        let words = &*self.said(words);
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
        let said = &*self.said(heading);
        self.note(&format!("headed {heading:?}"));
        let start = Instant::now();
        loop {
            let now = self.words(HEADING).await;
            // The same English word may be said in more than one way.
            if now == said || self.understood(&now) == heading {
                return;
            }
            if start.elapsed() > PATIENCE {
                self.fail(&format!("the heading is {now:?}, not {said:?}, after {PATIENCE:?}"))
                    .await;
            }
            tokio::time::sleep(Duration::from_millis(40)).await;
        }
    }

    /// The number and unit under a name, once both are there.
    pub async fn figure(&mut self, name: &str) -> String {
        let start = Instant::now();
        loop {
            let read = self.try_run(FIGURE, vec![json!(self.said(name))]).await;
            if let Ok(Json::String(read)) = read {
                return self.understood(&read);
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
