//! WebDriver BiDi, as far as it is needed: scripts before the page's own, a viewport narrower than
//! Firefox's smallest window, and every request that is sent.

use serde_json::{Value as Json, json};
use std::net::TcpStream;
use std::time::{Duration, Instant};
use tungstenite::{Message, WebSocket};

/// How long an answer may take.
const PATIENCE: Duration = Duration::from_secs(15);

/// A channel to a running session.
pub struct Bidi {
    socket: WebSocket<TcpStream>,
    last: u64,
    requests: Vec<String>,
}

impl Bidi {
    /// Connects to the address that the session named.
    pub fn connect(address: &str) -> Self {
        let host = address.trim_start_matches("ws://").split('/').next().unwrap_or_default();
        let stream = TcpStream::connect(host).expect("the session's second channel");
        stream.set_read_timeout(Some(PATIENCE)).expect("a bound on waiting");
        let (socket, _) = tungstenite::client(address, stream).expect("a web socket");
        Self { socket, last: 0, requests: Vec::new() }
    }

    /// Asks and waits for the answer.
    pub fn ask(&mut self, method: &str, params: &Json) -> Json {
        self.last += 1;
        let text = json!({"id": self.last, "method": method, "params": params}).to_string();
        self.socket.send(Message::text(text)).expect("the channel takes a message");
        let start = Instant::now();
        loop {
            assert!(start.elapsed() < PATIENCE, "no answer to {method} in {PATIENCE:?}");
            let message = self.socket.read().unwrap_or_else(|error| panic!("{method}: {error}"));
            let Ok(text) = message.to_text() else { continue };
            let Ok(said) = serde_json::from_str::<Json>(text) else { continue };
            self.keep(&said);
            if said["id"] == json!(self.last) {
                assert!(said["type"] == json!("success"), "{method}: {said}");
                return said["result"].clone();
            }
        }
    }

    fn keep(&mut self, said: &Json) {
        if said["method"] == json!("network.beforeRequestSent")
            && let Some(url) = said["params"]["request"]["url"].as_str()
        {
            self.requests.push(url.to_owned());
        }
    }

    /// Every address that was asked for since `network.beforeRequestSent` was subscribed to.
    pub fn requests(&mut self) -> Vec<String> {
        // Any question brings in what was said before its answer.
        self.ask("session.status", &json!({}));
        self.requests.clone()
    }
}
