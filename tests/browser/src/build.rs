//! The built app, and a second version of it made from the first.

use sha2::{Digest, Sha256};
use std::path::{Path, PathBuf};

/// The folder that the release build was made into.
pub fn dist() -> PathBuf {
    let folder =
        std::env::var_os("FRESHET_DIST").map_or_else(|| root().join("dist"), PathBuf::from);
    assert!(
        folder.join("index.html").exists(),
        "no built app in {}: run tools/test, or set FRESHET_DIST",
        folder.display()
    );
    folder
}

/// The top of the repository.
pub fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).ancestors().nth(2).expect("the top").to_owned()
}

/// The version that a build calls itself.
pub fn version(folder: &Path) -> String {
    let page = read(&folder.join("index.html"));
    let (_, rest) = page.split_once("data-version=\"").expect("the page names its version");
    let version = rest.split('"').next().unwrap_or_default().to_owned();
    assert!(!version.is_empty(), "a build for development has no worker: build for release");
    version
}

/// Copies a build as another version, as a new release on the host would be: the page and the
/// worker name it, and the worker's list has the changed page's hash.
pub fn another_version(folder: &Path, into: &Path) -> String {
    copy(folder, into);
    let old = version(folder);
    let new = format!("{old}-next");
    let page_file = into.join("index.html");
    let before = digest(&read(&page_file));
    let page = read(&page_file).replace(&old, &new);
    std::fs::write(&page_file, &page).expect("the page");
    let worker_file = into.join("sw.js");
    let worker = read(&worker_file);
    assert!(worker.contains(&before), "the worker does not list the page's hash");
    let worker = worker.replace(&before, &digest(&page)).replace(&old, &new);
    std::fs::write(worker_file, worker).expect("the worker");
    new
}

fn read(file: &Path) -> String {
    std::fs::read_to_string(file).unwrap_or_else(|error| panic!("{}: {error}", file.display()))
}

/// Copies a folder with everything in it.
pub fn copy(from: &Path, into: &Path) {
    std::fs::create_dir_all(into).expect("a folder");
    for entry in std::fs::read_dir(from).expect("the build") {
        let entry = entry.expect("an entry");
        let to = into.join(entry.file_name());
        if entry.path().is_dir() {
            copy(&entry.path(), &to);
        } else {
            std::fs::copy(entry.path(), to).expect("a copy");
        }
    }
}

/// As a service worker's list has it.
fn digest(text: &str) -> String {
    const LETTERS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let hash = Sha256::digest(text.as_bytes());
    let mut out = String::from("sha256-");
    for three in hash.chunks(3) {
        let bits = three.iter().fold(0_u32, |bits, byte| bits << 8 | u32::from(*byte))
            << (8 * (3 - three.len()));
        for place in 0..4 {
            let index = (bits >> (18 - 6 * place)) & 63;
            out.push(if place > three.len() { '=' } else { char::from(LETTERS[index as usize]) });
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::digest;

    #[test]
    fn a_digest_is_written_as_the_worker_lists_it() {
        // openssl dgst -sha256 -binary </dev/null | base64
        assert_eq!(digest(""), "sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU=");
    }
}
