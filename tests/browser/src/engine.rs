//! Browsers and their drivers. Each test starts its own driver, and ends what it started, by id.

use serde_json::{Value as Json, json};
use std::io::{BufRead, BufReader};
use std::net::{TcpListener, TcpStream};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

/// A browser engine.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Engine {
    /// Blink, by chromedriver.
    Chromium,
    /// Gecko, by geckodriver.
    Firefox,
    /// WebKitGTK, which is Safari's engine, by WebKitWebDriver. Its browser for automation keeps
    /// nothing once it ends, runs no script before the page's own, and takes its colours from the
    /// desktop: what needs one of these is not asked of it.
    WebKit,
}

impl Engine {
    /// Its name in files and messages.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Chromium => "chromium",
            Self::Firefox => "firefox",
            Self::WebKit => "webkit",
        }
    }

    /// Whether `FRESHET_ENGINES` leaves it out.
    pub fn left_out(self) -> bool {
        std::env::var("FRESHET_ENGINES").is_ok_and(|names| !names.contains(self.name()))
    }

    fn program(self) -> (String, &'static str) {
        let (variable, usual) = match self {
            Self::Chromium => ("FRESHET_CHROMEDRIVER", "chromedriver"),
            Self::Firefox => ("FRESHET_GECKODRIVER", "geckodriver"),
            Self::WebKit => ("FRESHET_WEBKITDRIVER", "WebKitWebDriver"),
        };
        (std::env::var(variable).unwrap_or_else(|_| usual.to_owned()), variable)
    }

    /// What a session is asked for: no window on a screen, this profile, nothing in the background.
    pub fn capabilities(self, profile: &Path) -> Json {
        let profile = profile.display();
        match self {
            Self::Chromium => json!({
                "goog:loggingPrefs": {"performance": "ALL", "browser": "ALL"},
                "goog:chromeOptions": {
                    "binary": first(&["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"]),
                    "perfLoggingPrefs": {"enableNetwork": true, "enablePage": false},
                    "args": [
                        "--headless=new", "--no-sandbox", "--disable-gpu", "--no-first-run",
                        "--disable-background-networking", "--disable-component-update",
                        "--disable-sync", "--disable-dev-shm-usage", "--hide-crash-restore-bubble",
                        "--window-size=360,740",
                        // A camera that sees a made-up picture, and nobody to be asked for it.
                        "--use-fake-device-for-media-stream", "--use-fake-ui-for-media-stream",
                        format!("--user-data-dir={profile}"),
                    ],
                },
            }),
            Self::Firefox => json!({
                "webSocketUrl": true,
                "moz:firefoxOptions": {
                    "binary": first(&["/usr/bin/firefox-esr", "/usr/bin/firefox"]),
                    "args": ["-headless", "-profile", profile.to_string()],
                    "prefs": {
                        "browser.sessionstore.resume_from_crash": false,
                        "toolkit.startup.max_resumed_crashes": -1,
                        "browser.shell.checkDefaultBrowser": false,
                        "datareporting.policy.dataSubmissionEnabled": false,
                        "app.update.enabled": false,
                        "network.captive-portal-service.enabled": false,
                        "network.connectivity-service.enabled": false,
                        // A camera that sees a made-up picture, and nobody to be asked for it.
                        "media.navigator.streams.fake": true,
                        "media.navigator.permission.disabled": true,
                        // Light unless said otherwise, whatever this machine prefers.
                        "layout.css.prefers-color-scheme.content-override": 1,
                    },
                },
            }),
            Self::WebKit => json!({
                "webkitgtk:browserOptions": {
                    "binary": first(&[
                        "/usr/lib/x86_64-linux-gnu/webkit2gtk-4.1/MiniBrowser",
                        "/usr/lib/aarch64-linux-gnu/webkit2gtk-4.1/MiniBrowser",
                    ]),
                    // Without its bar of buttons the window may be as narrow as a phone. It takes no
                    // profile; the name only tells it from another's.
                    "args": ["--automation", "--full-screen", format!("--name={profile}")],
                },
            }),
        }
    }
}

fn first(paths: &[&str]) -> Option<String> {
    paths.iter().find(|path| Path::new(path).exists()).map(|path| (*path).to_owned())
}

/// A running driver.
pub struct Driver {
    child: Child,
    /// A screen that nobody sees, for a browser that cannot do without.
    screen: Option<Screen>,
    /// Where it listens.
    pub url: String,
}

impl Driver {
    /// Starts the engine's driver and waits until it listens.
    pub fn start(engine: Engine) -> Self {
        let (program, variable) = engine.program();
        // Free now and in a moment: two tests at a time do not race for the same one in practice,
        // and the loser would say so below.
        let port = || {
            let listener = TcpListener::bind("127.0.0.1:0").expect("a free port");
            listener.local_addr().expect("the port").port()
        };
        let port_number = port();
        let mut command = Command::new(&program);
        command.arg(format!("--port={port_number}"));
        if engine == Engine::Firefox {
            // The colour scheme is a setting of the browser, not of the page.
            command.args(["--allow-system-access", &format!("--websocket-port={}", port())]);
        }
        let screen = (engine == Engine::WebKit).then(Screen::start);
        if let Some(screen) = &screen {
            command.env("DISPLAY", &screen.name).envs([
                ("WEBKIT_DISABLE_COMPOSITING_MODE", "1"),
                ("LIBGL_ALWAYS_SOFTWARE", "1"),
                // As root it has no sandbox to be run in; it shows nothing but this app.
                ("WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS", "1"),
            ]);
        }
        let child = command
            .stdin(Stdio::null())
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .unwrap_or_else(|error| panic!("{program} ({variable}): {error}"));
        let start = Instant::now();
        while TcpStream::connect(("127.0.0.1", port_number)).is_err() {
            assert!(start.elapsed() < Duration::from_secs(20), "{program} does not listen");
            std::thread::sleep(Duration::from_millis(30));
        }
        Self { child, screen, url: format!("http://127.0.0.1:{port_number}") }
    }
}

impl Drop for Driver {
    fn drop(&mut self) {
        // Gone already is as good.
        let _ = self.child.kill();
        let _ = self.child.wait();
        drop(self.screen.take());
    }
}

/// An X server without a screen.
struct Screen {
    child: Child,
    /// What programs call it.
    name: String,
}

impl Screen {
    fn start() -> Self {
        let mut child = Command::new("Xvfb")
            .args(["-displayfd", "1", "-screen", "0", "1024x1024x24", "-nolisten", "tcp"])
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap_or_else(|error| panic!("Xvfb: {error}"));
        let mut number = String::new();
        let told = child.stdout.take().expect("a pipe");
        BufReader::new(told).read_line(&mut number).expect("Xvfb tells its number");
        Self { child, name: format!(":{}", number.trim()) }
    }
}

impl Drop for Screen {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// Ends every process that runs on a profile at once, as a phone short of memory does: SIGKILL, no
/// chance to write anything out. Returns how many there were.
pub fn kill_by_profile(profile: &Path) -> usize {
    let needle = profile.display().to_string();
    let mut ended = 0;
    for process in std::fs::read_dir("/proc").expect("Linux").flatten() {
        let name = process.file_name();
        let Some(id) = name.to_str().filter(|id| id.bytes().all(|b| b.is_ascii_digit())) else {
            continue;
        };
        let line = std::fs::read(process.path().join("cmdline")).unwrap_or_default();
        let line = String::from_utf8_lossy(&line);
        if id != std::process::id().to_string() && line.contains(&needle) {
            let killed = Command::new("kill").args(["-9", id]).stderr(Stdio::null()).status();
            ended += usize::from(killed.is_ok_and(|status| status.success()));
        }
    }
    ended
}
