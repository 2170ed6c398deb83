//! Plays the flows of the tests and takes a picture of each screen, in light and in dark, with a
//! page that shows them all: `tools/screens`. With `--readme` some of them go to `docs/screens`.

use freshet_browser_tests::build::root;
use freshet_browser_tests::engine::Engine;
use freshet_browser_tests::flows::around::{
    about, home, reaction_without_a_case, sums, turned_away, values,
};
use freshet_browser_tests::flows::{hours, outline, photo, planned, rehearsal, urgent};
use freshet_browser_tests::phone::{AtEach, Phone, SIZE};
use std::fmt::Write as _;
use std::path::Path;
use std::process::Command;

/// A picture's name in the README and the screen that shows it.
const README: [(&str, &str); 17] = [
    ("situation", "urgent-skin"),
    ("allergy", "urgent-readiness"),
    ("strength", "urgent-strength"),
    ("syringe", "urgent-syringe"),
    ("rounds", "urgent-rounds"),
    ("outline", "drawn-outline"),
    ("grid", "drawn-grid"),
    ("ticked", "drawn-ticked"),
    ("shrinking", "drawn-shrinking-3"),
    ("clock", "hours-hour-1"),
    ("refill", "hours-refill-read"),
    ("next", "hours-next"),
    ("handover", "hours-handover"),
    ("rehearsal", "rehearsal-rehearsal-situation"),
    ("patient", "rehearsal-rehearsal-patient"),
    ("debrief", "rehearsal-debrief"),
    ("ringing", "hours-ringing"),
];

#[tokio::main(flavor = "current_thread")]
async fn main() {
    let readme = std::env::args().any(|argument| argument == "--readme");
    let folder = root().join("target/screens");
    // Those of an older build must not stand among the new ones.
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).expect("a folder for the pictures");

    let mut screens = Vec::new();
    let mut phone = on(&folder, "urgent-").await;
    urgent::whole(&mut phone).await;
    screens.extend(std::mem::take(&mut phone.screens));
    phone.put_away().await;

    let mut phone = on(&folder, "drawn-").await;
    let drawn = outline::whole(&mut phone).await;
    // A third drawing makes the curve one.
    outline::smaller(&mut phone, drawn, (28.0, 15.0), (4.81, 3.30), "2.2").await;
    home(&mut phone).await;
    photo::traced(&mut phone).await;
    outline::use_it(&mut phone).await;
    phone.at("grid-on-photo").await;
    screens.extend(std::mem::take(&mut phone.screens));
    phone.put_away().await;

    let mut phone = on(&folder, "hours-").await;
    hours::shown(&mut phone).await;
    screens.extend(std::mem::take(&mut phone.screens));
    phone.put_away().await;

    let mut phone = on(&folder, "rehearsal-").await;
    rehearsal::whole(&mut phone).await;
    screens.extend(std::mem::take(&mut phone.screens));
    phone.put_away().await;

    let mut phone = on(&folder, "planned-").await;
    planned::whole(&mut phone).await;
    screens.extend(std::mem::take(&mut phone.screens));
    phone.put_away().await;

    let mut phone = on(&folder, "").await;
    reaction_without_a_case(&mut phone).await;
    home(&mut phone).await;
    sums(&mut phone).await;
    values(&mut phone).await;
    about(&mut phone).await;
    turned_away(&mut phone).await;
    screens.extend(std::mem::take(&mut phone.screens));
    phone.put_away().await;

    std::fs::write(folder.join("index.html"), page(&screens)).expect("the page");
    println!("{} screens, light and dark: target/screens/index.html", screens.len());
    if readme {
        for (step, screen) in README {
            copy_small(&folder.join(format!("{screen}-light.png")), step);
        }
        println!("{} of them in docs/screens", README.len());
    }
}

async fn on(folder: &Path, flow: &'static str) -> Phone {
    let mut phone = Phone::off(Engine::Chromium, "screens");
    phone.flow = flow;
    phone.at_each = AtEach::Picture(folder.to_owned());
    phone.open().await;
    phone
}

fn page(screens: &[String]) -> String {
    let (width, height) = SIZE;
    let mut html = format!(
        "<!doctype html>\n<html lang=\"en\">\n<meta charset=\"utf-8\">\n<title>Freshet, screen by screen</title>\n\
         <style>body{{font:16px system-ui;margin:2rem;background:#8a8f91}}\
         main{{display:flex;flex-wrap:wrap;gap:2rem}}figure{{margin:0}}\
         img{{width:{width}px;height:{height}px;border-radius:12px;margin-right:4px}}\
         figcaption{{padding:.5rem 0}}</style>\n<h1>Freshet, screen by screen</h1>\n<main>\n"
    );
    for name in screens {
        let _ = write!(html, "<figure><figcaption>{name}</figcaption>");
        for scheme in ["light", "dark"] {
            let _ = write!(html, "<img src=\"{name}-{scheme}.png\" alt=\"{name}, {scheme}\">");
        }
        html.push_str("</figure>\n");
    }
    html.push_str("</main>\n");
    html
}

/// With few colours where ImageMagick is there, which keeps the repository small.
fn copy_small(from: &Path, step: &str) {
    let folder = root().join("docs/screens");
    std::fs::create_dir_all(&folder).expect("docs/screens");
    let to = folder.join(format!("{step}.png"));
    let packed = Command::new("convert")
        .arg(from)
        .args(["-strip", "+dither", "-colors", "48", "-define", "png:compression-level=9"])
        .arg(format!("PNG8:{}", to.display()))
        .status();
    if !packed.is_ok_and(|status| status.success()) {
        std::fs::copy(from, &to).expect("a copy");
    }
}
