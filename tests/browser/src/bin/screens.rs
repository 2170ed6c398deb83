//! Plays the flows of the tests and takes a picture of each screen, in light and in dark, with a
//! page that shows them all: `tools/screens`. With `--readme` some of them go to `docs/screens`.

use freshet_browser_tests::build::root;
use freshet_browser_tests::engine::Engine;
use freshet_browser_tests::flows::around::{beside_the_way, home};
use freshet_browser_tests::flows::kit::{Delivery, VIALS, receive, receive_other, to_kit};
use freshet_browser_tests::flows::records::{ENTRIES, closed_case, lay_near};
use freshet_browser_tests::flows::{
    followup, hours, outline, paper, photo, planned, rehearsal, urgent,
};
use freshet_browser_tests::phone::{AtEach, Phone, SIZE};
use std::fmt::Write as _;
use std::path::Path;
use std::process::Command;

/// A picture's name in the README and the screen that shows it.
const README: [(&str, &str); 25] = [
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
    ("kit", "kit-answer"),
    ("records", "after-records"),
    ("paper", "after-patient"),
    ("papers", "after-papers"),
    ("followup", "followup-due"),
    ("agreed", "followup-when"),
    ("well", "followup-well"),
    ("sign", "followup-sight"),
];

#[tokio::main(flavor = "current_thread")]
async fn main() {
    let (flags, only): (Vec<String>, Vec<String>) =
        std::env::args().skip(1).partition(|argument| argument.starts_with("--"));
    let readme = flags.iter().any(|flag| flag == "--readme");
    let wanted = |flow: &str| only.is_empty() || only.iter().any(|name| name == flow);
    let folder = root().join("target/screens");
    // Those of an older build must not stand among the new ones.
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).expect("a folder for the pictures");

    let mut screens = Vec::new();
    if wanted("urgent") {
        let mut phone = on(&folder, "urgent-").await;
        urgent::whole(&mut phone).await;
        screens.extend(std::mem::take(&mut phone.screens));
        phone.put_away().await;
    }

    if wanted("drawn") {
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
    }

    if wanted("hours") {
        let mut phone = on(&folder, "hours-").await;
        hours::shown(&mut phone).await;
        screens.extend(std::mem::take(&mut phone.screens));
        phone.put_away().await;
    }

    if wanted("rehearsal") {
        let mut phone = on(&folder, "rehearsal-").await;
        rehearsal::whole(&mut phone).await;
        screens.extend(std::mem::take(&mut phone.screens));
        phone.put_away().await;
    }

    if wanted("planned") {
        let mut phone = on(&folder, "planned-").await;
        planned::whole(&mut phone).await;
        screens.extend(std::mem::take(&mut phone.screens));
        phone.put_away().await;
    }

    if wanted("kit") {
        let mut phone = on(&folder, "kit-").await;
        kit_of_a_clinic(&mut phone).await;
        screens.extend(std::mem::take(&mut phone.screens));
        phone.put_away().await;
    }

    if wanted("after") {
        let mut phone = on(&folder, "after-").await;
        afterwards(&mut phone).await;
        screens.extend(std::mem::take(&mut phone.screens));
        phone.put_away().await;
    }

    if wanted("followup") {
        let mut phone = on(&folder, "followup-").await;
        followup::shown(&mut phone).await;
        screens.extend(std::mem::take(&mut phone.screens));
        phone.put_away().await;
    }

    if wanted("rest") {
        let mut phone = on(&folder, "").await;
        beside_the_way(&mut phone).await;
        screens.extend(std::mem::take(&mut phone.screens));
        phone.put_away().await;
    }

    std::fs::write(folder.join("index.html"), page(&screens)).expect("the page");
    println!("{} screens, light and dark: target/screens/index.html", screens.len());
    if readme {
        let pictures =
            README.map(|(name, screen)| (name, folder.join(format!("{screen}-light.png"))));
        let taken: Vec<_> = pictures.iter().filter(|(_, picture)| picture.exists()).collect();
        for (name, picture) in &taken {
            copy_small(picture, name);
        }
        println!("{} of them in docs/screens", taken.len());
    }
}

/// A kit with two sizes of vial at two places.
async fn kit_of_a_clinic(phone: &mut Phone) {
    to_kit(phone).await;
    phone.at("empty").await;
    receive(phone, VIALS).await;
    receive(phone, Delivery { batch: "DEMO-2", count: 2, place: "Bag", ..VIALS }).await;
    for kind in ["Diluent", "Syringes", "Needles", "Adrenaline", "Aspirin"] {
        receive_other(phone, kind, 6).await;
    }
    phone.see_no("In the kit.").await;
    phone.at("answer").await;
    phone.tap_first("Hyaluronidase").await;
    phone.at("lot").await;
}

/// What is made of a case, and found again: whole cases of an invented clinic.
async fn afterwards(phone: &mut Phone) {
    let told = freshet::record::samples::occlusion();
    paper::lay(phone, &told).await;
    let others: Vec<_> = (0..6).map(|n| closed_case(n, ENTRIES)).collect();
    lay_near(phone, &others).await;
    let url = phone.server.url();
    for (page, heading) in [("papers", "Hand on"), ("followup", "Follow-up"), ("photos", "Photos")]
    {
        paper::open(phone, &told, page, heading).await;
        phone.at(page).await;
    }
    for (page, heading) in [
        ("note", "Clinical note"),
        ("patient", "Your treatment and what to do now"),
        ("report", "Adverse reaction report"),
    ] {
        paper::open(phone, &told, page, heading).await;
        phone.at(page).await;
    }
    phone.go(&format!("{url}?page=records")).await;
    phone.headed("Records").await;
    phone.at("records").await;
    phone.type_into("Reference, batch or date", "demo-1").await;
    phone.see("Batch DEMO-1").await;
    phone.at("found").await;
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
