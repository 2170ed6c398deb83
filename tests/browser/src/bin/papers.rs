//! What the built app makes of the sample occlusion, into a folder: note and patient's sheet as they are
//! printed, each a PDF file, and the label as text and as a picture. `docs/papers`, or the folder that is
//! named.

use freshet::record::samples::occlusion;
use freshet_browser_tests::engine::Engine;
use freshet_browser_tests::flows::paper::{lay, open, printed};
use freshet_browser_tests::flows::papers::{given, label_picture, lay_and_open, watch};
use freshet_browser_tests::phone::Phone;
use std::path::PathBuf;

const PAPERS: [(&str, &str); 2] =
    [("note", "Clinical note"), ("patient", "Your treatment and what to do now")];

#[tokio::main]
async fn main() {
    let root = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../..");
    let folder = std::env::args().nth(1).map_or_else(|| root.join("docs/papers"), PathBuf::from);
    std::fs::create_dir_all(&folder).expect("a folder");
    let mut phone = Phone::off(Engine::Chromium, "papers");
    phone.open().await;
    let told = occlusion();
    lay(&mut phone, &told).await;
    for (paper, heading) in PAPERS {
        open(&mut phone, &told, paper, heading).await;
        let pdf = printed(&phone).await;
        println!("{paper}.pdf: {} kB", pdf.len().div_ceil(1_000));
        std::fs::write(folder.join(format!("{paper}.pdf")), pdf).expect("a file");
    }
    lay_and_open(&mut phone, &told.journal).await;
    watch(&mut phone, "shares").await;
    phone.tap("Syringe label").await;
    let picture = label_picture(&mut phone).await;
    assert!(picture.starts_with(b"\x89PNG"), "the label is no picture");
    println!("occlusion.label.png: {} kB", picture.len().div_ceil(1_000));
    std::fs::write(folder.join("occlusion.label.png"), picture).expect("a file");
    phone.tap("Share the text").await;
    let label = given(&mut phone).await["text"].as_str().expect("a text").to_owned() + "\n";
    std::fs::write(folder.join("occlusion.label.txt"), label).expect("a file");
    phone.put_away().await;
}
