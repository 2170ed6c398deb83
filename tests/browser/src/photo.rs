//! Photos that the tests make themselves: a plane seen by a camera, and files that are hardly photos.
//! The projection is this module's own and shares nothing with the app's.

mod jpeg;
mod scene;

pub use jpeg::{Flat, extent};
pub use scene::{Blob, Camera, Scene};

use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU32, Ordering};

/// A file in the folder for temporary files, gone with this.
pub struct TempFile(PathBuf);

static NUMBER: AtomicU32 = AtomicU32::new(0);

impl TempFile {
    /// Writes it. The browser takes its kind from the end of its name.
    pub fn new(name: &str, bytes: &[u8]) -> Self {
        let number = NUMBER.fetch_add(1, Ordering::SeqCst);
        let file = format!("freshet-photo-{}-{number}-{name}", std::process::id());
        let path = std::env::temp_dir().join(file);
        std::fs::write(&path, bytes).expect("a temporary file");
        Self(path)
    }

    /// Where it is.
    pub fn path(&self) -> &Path {
        &self.0
    }
}

impl Drop for TempFile {
    fn drop(&mut self) {
        // Left behind only in the folder for temporary files.
        let _ = std::fs::remove_file(&self.0);
    }
}

/// A picture as a BMP file: rows from the bottom up, three bytes a pixel.
fn bmp(width: u32, height: u32, colour: impl Fn(u32, u32) -> [u8; 3]) -> Vec<u8> {
    const HEAD: u32 = 54;
    let row = (width * 3).next_multiple_of(4);
    let size = HEAD + row * height;
    let mut file = b"BM".to_vec();
    for number in [size, 0, HEAD, 40, width, height, 1 | 24 << 16, 0, row * height, 0, 0, 0, 0] {
        file.extend(number.to_le_bytes());
    }
    for y in (0..height).rev() {
        for x in 0..width {
            let [red, green, blue] = colour(x, y);
            file.extend([blue, green, red]);
        }
        file.extend((width * 3..row).map(|_| 0));
    }
    file
}
