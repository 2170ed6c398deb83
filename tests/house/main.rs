//! The house itself: arrows go down, clinical numbers live on one floor, and every text can be
//! translated.

mod arrows;
mod contrast;
mod numbers;
mod texts;
mod translations;

use std::fs;
use std::path::{Path, PathBuf};

/// Every Rust file of a floor, by its path below `src`, with its text.
fn floor(name: &str) -> Vec<(String, String)> {
    let source = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut found = Vec::new();
    let mut todo = vec![source.join(name)];
    todo.extend(Some(source.join(format!("{name}.rs"))).filter(|path| path.exists()));
    while let Some(path) = todo.pop() {
        if path.is_dir() {
            todo.extend(entries(&path));
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            let below = path.strip_prefix(&source).unwrap().to_string_lossy().into_owned();
            found.push((below, fs::read_to_string(&path).unwrap()));
        }
    }
    assert!(!found.is_empty(), "no floor {name}");
    found.sort();
    found
}

fn entries(folder: &Path) -> Vec<PathBuf> {
    fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect()
}
