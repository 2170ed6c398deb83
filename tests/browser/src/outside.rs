//! What is set about a phone from outside the page: its clock, width and colours, its tabs; and
//! what the browser itself tells. The only place where the engines are asked differently.

use crate::engine::Engine;
use crate::phone::{Phone, SIZE};
use fantoccini::wd::WebDriverCompatibleCommand;
use serde_json::{Value as Json, json};
use std::time::{Duration, Instant};

impl Phone {
    /// Has Firefox tell of every request from now on; Chromium does by itself.
    pub(crate) fn listen(&mut self) {
        if let Some(bidi) = &mut self.session_mut().bidi {
            bidi.ask("session.subscribe", &json!({"events": ["network.beforeRequestSent"]}));
        }
    }

    /// Sets the phone's clock ahead, as time that passes with the app closed: the page is loaded
    /// again under the new time. Only what the page reads of the clock changes, and only here.
    pub async fn let_pass(&mut self, time: Duration) {
        self.note(&format!("{} min pass", time.as_secs() / 60));
        self.ahead += time;
        self.set_clock().await;
        self.reload().await;
    }

    /// The page sleeps and wakes: it goes out of view, time passes, it comes back, and nothing of it
    /// ran meanwhile.
    pub async fn sleep(&mut self, time: Duration) {
        self.note(&format!("asleep for {} min", time.as_secs() / 60));
        self.ahead += time;
        let script = format!(
            "const told = () => document.dispatchEvent(new Event('visibilitychange'));
             const seen = {{ configurable: true, get: () => 'hidden' }};
             Object.defineProperty(document, 'visibilityState', seen);
             told();
             {}
             delete document.visibilityState;
             told();",
            shift(i64::try_from(time.as_millis()).expect("no age of the world"))
        );
        self.in_page(&script).await;
    }

    /// Somebody sets the phone's clock, forward or back if negative, while the page is in full view.
    pub async fn turn_clock(&mut self, seconds: i64) {
        self.note(&format!("the clock is set by {} min", seconds / 60));
        let by = Duration::from_secs(seconds.unsigned_abs());
        self.ahead =
            if seconds < 0 { self.ahead.saturating_sub(by) } else { self.ahead.saturating_add(by) };
        self.in_page(&shift(seconds * 1000)).await;
    }

    /// Runs a script among the page's own. Firefox runs a driver's scripts beside them, where what is
    /// set of the page's objects is not seen by it.
    async fn in_page(&mut self, script: &str) {
        match self.engine {
            Engine::Chromium | Engine::WebKit => drop(self.run(script, vec![]).await),
            Engine::Firefox => {
                let context = self.session_mut().window.clone();
                let expression = format!("(() => {{ {script} }})()");
                let params = json!({
                    "expression": expression, "target": {"context": context},
                    "awaitPromise": false,
                });
                self.bidi("script.evaluate", &params);
            }
        }
    }

    /// How far the phone's clock is ahead of this machine's.
    pub const fn ahead(&self) -> Duration {
        self.ahead
    }

    pub(crate) async fn set_clock(&mut self) {
        let script = format!(
            "{{ const real = Date.now.bind(Date); Date.now = () => real() + {}; }}",
            self.ahead.as_millis()
        );
        if let Some(old) = self.session_mut().clock.take() {
            match self.engine {
                Engine::Chromium => {
                    let params = json!({"identifier": old});
                    self.devtools("Page.removeScriptToEvaluateOnNewDocument", params).await;
                }
                Engine::Firefox => {
                    self.bidi("script.removePreloadScript", &json!({"script": old}));
                }
                Engine::WebKit => unreachable!("it runs no script before the page's own"),
            }
        }
        if self.ahead.is_zero() {
            return;
        }
        let made = match self.engine {
            Engine::Chromium => {
                let params = json!({"source": script});
                let made = self.devtools("Page.addScriptToEvaluateOnNewDocument", params).await;
                made["identifier"].clone()
            }
            Engine::Firefox => {
                let params = json!({"functionDeclaration": format!("() => {{ {script} }}")});
                self.bidi("script.addPreloadScript", &params)["script"].clone()
            }
            Engine::WebKit => panic!("WebKitGTK's clock can be set in an open page only: sleep"),
        };
        self.session_mut().clock = Some(made.as_str().expect("a name").to_owned());
    }

    /// A script that runs before the page's own, at each load from now on.
    pub async fn before_each_page(&mut self, script: &str) {
        match self.engine {
            Engine::Chromium => {
                let params = json!({"source": script});
                self.devtools("Page.addScriptToEvaluateOnNewDocument", params).await;
            }
            Engine::Firefox => {
                let params = json!({"functionDeclaration": format!("() => {{ {script} }}")});
                self.bidi("script.addPreloadScript", &params);
            }
            Engine::WebKit => panic!("WebKitGTK runs no script before the page's own"),
        }
    }

    /// Makes the page so many CSS pixels wide.
    pub async fn resize(&mut self, width: u32) {
        self.shape((width, SIZE.1)).await;
    }

    /// Makes the page so many CSS pixels wide and high.
    pub async fn shape(&mut self, (width, height): (u32, u32)) {
        match self.engine {
            Engine::Chromium => {
                let params = json!({
                    "width": width, "height": height, "deviceScaleFactor": 1, "mobile": true,
                });
                self.devtools("Emulation.setDeviceMetricsOverride", params).await;
            }
            Engine::Firefox => {
                let context = self.session_mut().window.clone();
                let params = json!({
                    "context": context, "viewport": {"width": width, "height": height},
                });
                self.bidi("browsingContext.setViewport", &params);
            }
            Engine::WebKit => {
                self.client().set_window_size(width, height).await.expect("a size");
            }
        }
    }

    /// Opens the app in one more tab and turns to it. Returns both, the one before first.
    pub async fn another_tab(&mut self) -> (String, String) {
        self.note("another tab");
        let before = self.session_mut().window.clone();
        let made = self.client().new_window(true).await.expect("a tab");
        let made: String = made.handle.into();
        self.turn_to(&made).await;
        let url = self.server.url();
        self.go(&url).await;
        self.see("New case").await;
        (before, made)
    }

    /// Turns to a tab.
    pub async fn turn_to(&mut self, tab: &str) {
        self.note("turn to the other tab");
        let handle = tab.to_owned().try_into().expect("the name of a tab");
        self.client().switch_to_window(handle).await.expect("the tab is open");
        tab.clone_into(&mut self.session_mut().window);
        self.resize(SIZE.0).await;
    }

    /// Light or dark, as the phone's own setting.
    pub async fn set_dark(&mut self, dark: bool) {
        match self.engine {
            Engine::Chromium => {
                let value = if dark { "dark" } else { "light" };
                let params = json!({
                    "features": [{"name": "prefers-color-scheme", "value": value}],
                });
                self.devtools("Emulation.setEmulatedMedia", params).await;
            }
            Engine::Firefox => {
                let value = i32::from(!dark);
                let script = format!(
                    "Services.prefs.setIntPref('layout.css.prefers-color-scheme.content-override', {value});"
                );
                self.in_chrome(&script).await;
            }
            Engine::WebKit => assert!(!dark, "WebKitGTK's scheme is the desktop's"),
        }
        let asked = "return matchMedia('(prefers-color-scheme: dark)').matches;";
        let start = Instant::now();
        while self.run(asked, vec![]).await != json!(dark) {
            assert!(start.elapsed() < Duration::from_secs(5), "the scheme does not change");
        }
    }

    /// The size of text, in hundredths of the usual, as the reader's own setting of the browser.
    pub async fn set_text(&mut self, hundredths: u32) {
        // Every browser's usual size.
        let size = 16 * hundredths / 100;
        match self.engine {
            Engine::Chromium => {
                let params = json!({"fontSizes": {"standard": size}});
                self.devtools("Page.setFontSizes", params).await;
            }
            Engine::Firefox => {
                let script = format!(
                    "Services.prefs.setIntPref('font.size.variable.x-western', {size}); \
                     Services.prefs.setIntPref('font.size.variable.x-unicode', {size});"
                );
                self.in_chrome(&script).await;
            }
            Engine::WebKit => assert_eq!(hundredths, 100, "WebKitGTK's is set at its start"),
        }
        let asked = "const probe = document.createElement('p'); \
            probe.style.fontSize = 'medium'; document.body.append(probe); \
            const size = parseFloat(getComputedStyle(probe).fontSize); probe.remove(); \
            return size;";
        let start = Instant::now();
        while self.run(asked, vec![]).await.as_f64() != Some(f64::from(size)) {
            assert!(start.elapsed() < Duration::from_secs(5), "the text does not change");
        }
    }

    /// More contrast or not, as the phone's own setting. Chromium's alone can be set.
    pub async fn set_contrast(&mut self, more: bool) {
        let value = if more { "more" } else { "no-preference" };
        let params = json!({"features": [{"name": "prefers-contrast", "value": value}]});
        self.devtools("Emulation.setEmulatedMedia", params).await;
    }

    /// Runs a script of Firefox's own, which may change its settings.
    async fn in_chrome(&self, script: &str) {
        self.ask("moz/context", json!({"context": "chrome"})).await;
        let ran = self.client().execute(script, vec![]).await;
        self.ask("moz/context", json!({"context": "content"})).await;
        ran.expect("Firefox takes its own setting");
    }

    fn bidi(&mut self, method: &str, params: &Json) -> Json {
        self.session_mut().bidi.as_mut().expect("only Firefox is asked by BiDi").ask(method, params)
    }

    /// Asks Chromium by its developer tools' protocol.
    pub async fn devtools(&self, method: &str, params: Json) -> Json {
        self.ask("goog/cdp/execute", json!({"cmd": method, "params": params})).await
    }

    pub(crate) async fn ask(&self, path: &str, body: Json) -> Json {
        let command = Vendor { path: path.to_owned(), body };
        let answer = self.client().issue_cmd(command).await;
        answer.unwrap_or_else(|error| panic!("{path}: {error}"))
    }

    /// Every address that the browser asked for since it was started, by its own account.
    pub async fn requests(&mut self) -> Vec<String> {
        if let Some(bidi) = &mut self.session_mut().bidi {
            return bidi.requests();
        }
        let log = self.ask("se/log", json!({"type": "performance"})).await;
        let lines = log.as_array().cloned().unwrap_or_default();
        let sent = lines.iter().filter_map(|line| {
            let message: Json = serde_json::from_str(line["message"].as_str()?).ok()?;
            let message = &message["message"];
            (message["method"] == json!("Network.requestWillBeSent"))
                .then(|| message["params"]["request"]["url"].as_str().map(str::to_owned))?
        });
        sent.collect()
    }
}

/// Sets the clock of the page that is open.
fn shift(millis: i64) -> String {
    format!("{{ const before = Date.now.bind(Date); Date.now = () => before() + {millis}; }}")
}

/// A command of one browser only.
#[derive(Debug)]
struct Vendor {
    path: String,
    body: Json,
}

impl WebDriverCompatibleCommand for Vendor {
    fn endpoint(
        &self,
        base: &url::Url,
        session: Option<&str>,
    ) -> Result<url::Url, url::ParseError> {
        base.join(&format!("session/{}/{}", session.unwrap_or_default(), self.path))
    }

    fn method_and_body(&self, _: &url::Url) -> (http::Method, Option<String>) {
        (http::Method::POST, Some(self.body.to_string()))
    }
}
