//! A phone: a phone-sized browser with a profile of its own, which outlives a kill.

use crate::bidi::Bidi;
use crate::build;
use crate::engine::{Driver, Engine, kill_by_profile};
use crate::finger::Place;
use crate::server::Server;
use crate::tongue::Tongue;
use fantoccini::error::CmdError;
use fantoccini::{Client, ClientBuilder};
use hyper_util::client::legacy::connect::HttpConnector;
use serde_json::Value as Json;
use std::path::PathBuf;
use std::sync::atomic::{AtomicU32, Ordering};
use std::time::{Duration, Instant};

/// Width and height in CSS pixels.
pub const SIZE: (u32, u32) = (360, 740);

/// Finds things in the page; stands before each script.
const PAGE: &str = include_str!("page.js");

/// Something that was tapped and how large it was.
#[derive(Clone, Debug)]
pub struct Tapped {
    /// What it said.
    pub name: String,
    /// Where its middle stood on the screen.
    pub middle: Place,
    /// In CSS pixels.
    pub width: f64,
    /// In CSS pixels.
    pub height: f64,
}

/// What is done at each screen that a flow passes.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum AtEach {
    /// Nothing.
    #[default]
    Nothing,
    /// axe in each theme, and no sideways scrolling, also on the narrowest phone.
    Check,
    /// Nothing cut off, covered or out of reach: on a small phone upright and lying, and with text of
    /// twice the size.
    Fit,
    /// A picture in light and one in dark, into this folder.
    Picture(PathBuf),
}

/// What the user acts with.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum By {
    /// A finger on the glass.
    #[default]
    Finger,
    /// A finger whose time is taken, in Chromium: past the driver, whose own tap asks the page this and
    /// that before it has painted.
    TimedFinger {
        /// How long the page is left alone after each tap: a script that asks what it shows holds up
        /// what it is about to show.
        let_be: Duration,
    },
    /// A keyboard and nothing else.
    Keys,
}

/// How often a browser is started before it is said that it does not start.
const STARTS: u32 = 3;

/// A phone with the app's host beside it.
pub struct Phone {
    /// Which browser it runs.
    pub engine: Engine,
    /// The app's host.
    pub server: Server,
    /// Everything tapped since the last [`Phone::count_taps_from_here`].
    pub taps: Vec<Tapped>,
    /// What is done at each screen.
    pub at_each: AtEach,
    /// What taps and ticks are done with.
    pub by: By,
    /// What the app speaks, if not English.
    pub tongue: Option<Tongue>,
    /// Stands before the names of screens.
    pub flow: &'static str,
    /// Screens passed so far, by name.
    pub screens: Vec<String>,
    /// What the checks found.
    pub findings: Vec<String>,
    pub(crate) last_tap: Option<Instant>,
    trail: Vec<String>,
    name: String,
    profile: PathBuf,
    session: Option<Session>,
    pub(crate) ahead: Duration,
}

pub(crate) struct Session {
    client: Client,
    pub(crate) bidi: Option<Bidi>,
    /// The tab that is turned to.
    pub(crate) window: String,
    /// The script that sets the clock ahead, by the browser's name for it.
    pub(crate) clock: Option<String>,
    _driver: Driver,
}

static NUMBER: AtomicU32 = AtomicU32::new(0);

impl Phone {
    /// Switches a new phone on and opens the app for the first time.
    pub async fn new(engine: Engine, name: &str) -> Self {
        let mut phone = Self::off(engine, name);
        phone.open().await;
        phone
    }

    /// A new phone that is not switched on yet.
    pub fn off(engine: Engine, name: &str) -> Self {
        let number = NUMBER.fetch_add(1, Ordering::SeqCst);
        let profile = std::env::temp_dir().join(format!(
            "freshet-phone-{}-{number}-{}",
            std::process::id(),
            engine.name()
        ));
        std::fs::create_dir_all(&profile).expect("a profile");
        Self {
            engine,
            server: Server::start(&build::dist()),
            taps: Vec::new(),
            at_each: AtEach::Nothing,
            by: By::Finger,
            tongue: None,
            flow: "",
            screens: Vec::new(),
            findings: Vec::new(),
            last_tap: None,
            trail: Vec::new(),
            name: name.to_owned(),
            profile,
            session: None,
            ahead: Duration::ZERO,
        }
    }

    /// Starts the browser on this phone's profile, at the app's address, and waits for its start
    /// screen.
    pub async fn open(&mut self) {
        self.start().await;
        let url = self.server.url();
        self.go(&url).await;
        self.see("New case").await;
    }

    /// Starts the browser without opening the app.
    pub async fn start(&mut self) {
        assert!(self.session.is_none(), "the browser runs");
        let (driver, client) = self.driven().await;
        let address = client
            .capabilities()
            .and_then(|all| all.get("webSocketUrl"))
            .and_then(Json::as_str)
            .map(str::to_owned);
        let bidi = match self.engine {
            Engine::Firefox => Some(Bidi::connect(&address.expect("Firefox speaks BiDi"))),
            Engine::Chromium | Engine::WebKit => None,
        };
        let window = client.window().await.expect("a window").into();
        self.session = Some(Session { client, bidi, window, clock: None, _driver: driver });
        self.listen();
        self.resize(SIZE.0).await;
        self.set_clock().await;
    }

    /// A driver, and the browser that it started. Once in hundreds of starts one of the two ends before
    /// it has begun; no test is about that, so it is tried again.
    async fn driven(&self) -> (Driver, Client) {
        let mut left = STARTS;
        loop {
            left -= 1;
            let driver = Driver::start(self.engine);
            let wanted = self.engine.capabilities(&self.profile);
            let Json::Object(wanted) = wanted else { unreachable!("capabilities are an object") };
            let mut builder = ClientBuilder::new(HttpConnector::new());
            match builder.capabilities(wanted).connect(&driver.url).await {
                Ok(client) => return (driver, client),
                Err(error) if left == 0 => panic!("{} does not start: {error}", self.engine.name()),
                Err(error) => println!("{} is started again: {error}", self.title()),
            }
            kill_by_profile(&self.profile);
        }
    }

    /// The test's name with the engine's.
    pub fn title(&self) -> String {
        format!("{}-{}", self.name, self.engine.name())
    }

    /// The client of the running browser.
    pub fn client(&self) -> &Client {
        &self.session.as_ref().expect("the browser runs").client
    }

    pub(crate) fn session_mut(&mut self) -> &mut Session {
        self.session.as_mut().expect("the browser runs")
    }

    /// Ends the browser at once, with SIGKILL, and its driver with it.
    pub fn kill(&mut self) {
        self.note("kill -9");
        let session = self.session.take().expect("the browser runs");
        assert!(kill_by_profile(&self.profile) > 0, "no browser ran on the profile");
        drop(session);
        let start = Instant::now();
        while kill_by_profile(&self.profile) > 0 {
            assert!(start.elapsed() < Duration::from_secs(10), "the browser does not end");
            std::thread::sleep(Duration::from_millis(50));
        }
    }

    /// Runs a script in the page, with the finders of `page.js` before it.
    pub async fn run(&self, script: &str, arguments: Vec<Json>) -> Json {
        let ran = self.try_run(script, arguments).await;
        ran.unwrap_or_else(|error| panic!("a script failed: {error}\n{script}"))
    }

    /// The same, while a page may be on its way out.
    ///
    /// # Errors
    /// Whatever the driver says.
    pub async fn try_run(&self, script: &str, arguments: Vec<Json>) -> Result<Json, CmdError> {
        self.client().execute(&format!("{PAGE}\n{script}"), arguments).await
    }

    /// Opens an address.
    pub async fn go(&mut self, url: &str) {
        self.note(&format!("go to {url}"));
        let opened = self.client().goto(url).await;
        if let Err(error) = opened {
            self.fail(&format!("{url} does not open: {error}")).await;
        }
    }

    /// Loads the page again, as a user does. WebDriver's own way is Firefox's forced reload, which
    /// goes past the worker.
    pub async fn reload(&mut self) {
        self.note("reload");
        self.run("window.before = true; setTimeout(() => location.reload()); return true;", vec![])
            .await;
        self.until("the page loads again", "return !window.before;").await;
        self.settled().await;
    }

    /// The same without waiting for anything.
    pub async fn reload_without_waiting(&mut self) {
        self.note("reload");
        self.run("setTimeout(() => location.reload()); return true;", vec![]).await;
    }

    /// Waits until the app runs in place of its shell.
    pub async fn settled(&mut self) {
        let script = "return !document.getElementById('shell') && !!document.querySelector('h1') \
            || !document.getElementById('trouble').hidden;";
        self.until("the app runs", script).await;
    }

    /// Waits until a script says true, with a bound.
    pub async fn until(&mut self, what: &str, script: &str) {
        let start = Instant::now();
        loop {
            if matches!(self.try_run(script, vec![]).await, Ok(Json::Bool(true))) {
                return;
            }
            if start.elapsed() > crate::eye::PATIENCE {
                self.fail(&format!("not in {:?}: {what}", crate::eye::PATIENCE)).await;
            }
            tokio::time::sleep(Duration::from_millis(50)).await;
        }
    }

    /// Notes a step, for the message of a failure.
    pub fn note(&mut self, step: &str) {
        self.trail.push(step.to_owned());
    }

    /// Ends the test with a message, the last steps, what is offered on the screen, and a picture.
    pub async fn fail(&mut self, message: &str) -> ! {
        let from = self.trail.len().saturating_sub(15);
        let trail = self.trail[from..].join("\n    ");
        let mut place = String::from("no picture could be taken");
        let mut offered = Json::Null;
        if self.session.is_some() {
            offered = self.try_run("return offered();", vec![]).await.unwrap_or_default();
            let folder = build::root().join("target/browser-failures");
            let file = folder.join(format!("{}.png", self.title()));
            if let Ok(picture) = self.client().screenshot().await
                && std::fs::create_dir_all(&folder).is_ok()
                && std::fs::write(&file, picture).is_ok()
            {
                place = format!("picture in target/browser-failures/{}.png", self.title());
            }
        }
        let address = match &self.session {
            Some(session) => session
                .client
                .current_url()
                .await
                .map_or_else(|error| error.to_string(), |url| url.to_string()),
            None => "the browser does not run".to_owned(),
        };
        panic!(
            "{}: {message}\n  at {address}\n  {place}\n  on the screen: {offered:#}\n  last steps:\n    {trail}",
            self.title()
        );
    }

    /// Ends the browser in an orderly way and throws the profile away.
    pub async fn put_away(mut self) {
        if let Some(session) = self.session.take() {
            // A browser that does not close is ended below.
            let _ = tokio::time::timeout(Duration::from_secs(10), session.client.close()).await;
        }
    }
}

impl Drop for Phone {
    fn drop(&mut self) {
        self.session.take();
        kill_by_profile(&self.profile);
        // Left in the folder for temporary files if a process still writes into it.
        let _ = std::fs::remove_dir_all(&self.profile);
    }
}
