//! The static host: serves a folder under a sub-path, as any host would, and can be stopped, which
//! is how a phone loses its network.

use std::io::{BufRead, BufReader, Write};
use std::net::{SocketAddr, TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex};
use std::thread::JoinHandle;
use std::time::Duration;

/// Where the app lies on the host: not at its root, since it must work under any path.
pub const BASE: &str = "/clinic/freshet/";

/// A running or stopped host.
pub struct Server {
    address: SocketAddr,
    shared: Arc<Shared>,
    running: Option<(Arc<AtomicBool>, JoinHandle<()>)>,
}

struct Shared {
    folder: Mutex<PathBuf>,
    asked: Mutex<Vec<String>>,
}

impl Server {
    /// Serves a folder on a free port of this machine.
    pub fn start(folder: &Path) -> Self {
        let listener = TcpListener::bind("127.0.0.1:0").expect("a free port");
        let address = listener.local_addr().expect("the port");
        let shared = Arc::new(Shared {
            folder: Mutex::new(folder.to_owned()),
            asked: Mutex::new(Vec::new()),
        });
        let mut server = Self { address, shared, running: None };
        server.run(listener);
        server
    }

    fn run(&mut self, listener: TcpListener) {
        let stop = Arc::new(AtomicBool::new(false));
        let (shared, stopped) = (Arc::clone(&self.shared), Arc::clone(&stop));
        let thread = std::thread::spawn(move || {
            for stream in listener.incoming() {
                if stopped.load(Ordering::SeqCst) {
                    return;
                }
                let (Ok(stream), shared) = (stream, Arc::clone(&shared)) else { continue };
                std::thread::spawn(move || {
                    // A browser may hang up at any time; then there is nobody to tell.
                    let _ = answer(&shared, stream);
                });
            }
        });
        self.running = Some((stop, thread));
    }

    /// The app's address.
    pub fn url(&self) -> String {
        format!("http://{}{BASE}", self.address)
    }

    /// Its origin.
    pub fn origin(&self) -> String {
        format!("http://{}", self.address)
    }

    /// Takes the network away: from now on nobody answers at this address.
    pub fn stop(&mut self) {
        let Some((stop, thread)) = self.running.take() else { return };
        stop.store(true, Ordering::SeqCst);
        // Wakes the thread, which then lets go of the port.
        let _ = TcpStream::connect(self.address);
        thread.join().expect("the host's thread");
        assert!(TcpStream::connect(self.address).is_err(), "the host still answers");
    }

    /// The same address answers again, from another folder if one is given.
    pub fn restart(&mut self, folder: Option<&Path>) {
        self.stop();
        if let Some(folder) = folder {
            folder.clone_into(&mut self.shared.folder.lock().expect("the folder"));
        }
        let listener = TcpListener::bind(self.address).expect("the same port again");
        self.run(listener);
    }

    /// Every path asked for so far.
    pub fn asked(&self) -> Vec<String> {
        self.shared.asked.lock().expect("the log").clone()
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        self.stop();
    }
}

fn answer(shared: &Shared, mut stream: TcpStream) -> std::io::Result<()> {
    stream.set_read_timeout(Some(Duration::from_secs(10)))?;
    let mut reader = BufReader::new(stream.try_clone()?);
    let mut line = String::new();
    reader.read_line(&mut line)?;
    let mut header = String::new();
    while reader.read_line(&mut header)? > 2 {
        header.clear();
    }
    let mut words = line.split_whitespace();
    let (Some(method), Some(target)) = (words.next(), words.next()) else { return Ok(()) };
    shared.asked.lock().expect("the log").push(target.to_owned());
    let folder = shared.folder.lock().expect("the folder").clone();
    let path = target.split('?').next().unwrap_or_default();
    let name = match path.strip_prefix(BASE) {
        Some("") => "index.html",
        Some(name) if !name.contains("..") && name != "_headers" => name,
        _ => "",
    };
    let body = (!name.is_empty()).then(|| std::fs::read(folder.join(name)).ok()).flatten();
    let (status, kind) = match body {
        Some(_) => ("200 OK", kind(name)),
        None => ("404 Not Found", "text/plain"),
    };
    let body = body.unwrap_or_else(|| b"not found\n".to_vec());
    let headers = headers(&folder);
    let head = format!(
        "HTTP/1.1 {status}\r\nContent-Type: {kind}\r\nContent-Length: {}\r\nConnection: close\r\n{headers}\r\n",
        body.len()
    );
    stream.write_all(head.as_bytes())?;
    if method != "HEAD" {
        stream.write_all(&body)?;
    }
    stream.flush()
}

/// What the app's own file asks hosts to send with every answer.
fn headers(folder: &Path) -> String {
    let text = std::fs::read_to_string(folder.join("_headers")).unwrap_or_default();
    let mut headers = String::new();
    for line in text.lines().filter(|line| line.starts_with(char::is_whitespace)) {
        headers.push_str(line.trim());
        headers.push_str("\r\n");
    }
    headers
}

fn kind(name: &str) -> &'static str {
    match name.rsplit_once('.').map_or("", |(_, end)| end) {
        "css" => "text/css; charset=utf-8",
        "html" => "text/html; charset=utf-8",
        "js" => "text/javascript; charset=utf-8",
        "json" => "application/json",
        "png" => "image/png",
        "svg" => "image/svg+xml",
        "wasm" => "application/wasm",
        "webmanifest" => "application/manifest+json",
        _ => "application/octet-stream",
    }
}
