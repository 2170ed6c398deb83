//! A look: the refill timer, photos, what is next, what is given besides.

use freshet_browser_tests::flows::around::back;
use freshet_browser_tests::flows::look::{press_button, read_as, readings, to_look, type_refill};
use freshet_browser_tests::flows::photo::{LEVEL, choose, kept};
use freshet_browser_tests::phone::{AtEach, Phone};
use freshet_browser_tests::photo::TempFile;
use std::time::{Duration, Instant};

crate::on_both_engines! {
    refill_is_timed_by_hand
    a_broken_press_is_no_reading
    a_slip_is_asked_about_and_nothing_is_lost
    a_look_is_recorded_whole
    a_photo_is_taken_over_the_one_before
    refill_is_timed_in_the_situation_too
}

/// How far a reading may lie from what was held, in seconds: the app shows tenths, and a driver on a
/// loaded machine is late.
const NEAR: f64 = 0.35;

const GUIDE: Duration = Duration::from_secs(5);

async fn near(phone: &mut Phone, reading: &str, seconds: f64) {
    let read: f64 = reading.split(' ').next().and_then(|text| text.parse().ok()).unwrap_or(-1.0);
    let so = (read - seconds).abs() <= NEAR;
    phone.sure(so, &format!("a reading of {reading:?} for {seconds} s")).await;
}

async fn refill_is_timed_by_hand(mut phone: Phone) -> Phone {
    phone.at_each = AtEach::Check;
    phone.open().await;
    phone.at_each = AtEach::Nothing;
    to_look(&mut phone).await;

    // Held by a finger: the affected side first, then the other.
    let at = press_button(&mut phone).await;
    phone.hold_and_tap(at, GUIDE, Duration::from_secs(2)).await;
    phone.see("Other side, reading 1 of 3").await;
    let first = readings(&mut phone, "Affected side").await;
    near(&mut phone, &first[0], 2.0).await;
    phone
        .sure(!first[0].contains("press"), &format!("a press as guided is marked: {first:?}"))
        .await;

    // Held too short: marked. And by the space bar.
    phone.pause().await;
    let at = press_button(&mut phone).await;
    phone.hold_and_tap(at, Duration::from_secs(2), Duration::from_secs(1)).await;
    phone.see("Affected side, reading 2 of 3").await;
    let other = readings(&mut phone, "Other side").await;
    near(&mut phone, &other[0], 1.0).await;
    phone.sure(other[0].contains("short press"), &format!("not marked: {other:?}")).await;
    phone.pause().await;
    press_button(&mut phone).await;
    phone.hold_and_tap_key(GUIDE, Duration::from_secs(3)).await;
    phone.see("Other side, reading 2 of 3").await;
    let second = readings(&mut phone, "Affected side").await;
    near(&mut phone, &second[1], 3.0).await;
    phone.see("Other side: 1 not pressed as guided, or typed.").await;

    // Tap by tap, without holding anything.
    phone.choose("How", "Tap").await;
    phone.tap("Start pressing").await;
    tokio::time::sleep(Duration::from_secs(1)).await;
    phone.tap("Release").await;
    let released = Instant::now();
    tokio::time::sleep(Duration::from_millis(1_500)).await;
    phone.tap("Colour back").await;
    phone.see("Affected side, reading 3 of 3").await;
    let at_most = released.elapsed().as_secs_f64();
    let other = readings(&mut phone, "Other side").await;
    let read: f64 = other[1].split(' ').next().and_then(|text| text.parse().ok()).unwrap_or(0.0);
    let so = (1.4..=at_most + 0.1).contains(&read);
    phone.sure(so, &format!("tapped after 1.5 to {at_most} s, and read {read}")).await;

    // And one is taken back.
    phone.tap("Take back the last reading, affected side").await;
    read_as(&mut phone, "Affected side", &[&second[0]]).await;
    phone.at_each = AtEach::Check;
    phone.at("look-timed").await;
    phone.nothing_found().await;
    phone
}

async fn a_broken_press_is_no_reading(mut phone: Phone) -> Phone {
    // As a browser does it that takes the finger for its own gesture.
    const BROKEN: &str = "
        const done = arguments[arguments.length - 1];
        const button = find('button', 'Hold to press')[0];
        const finger = (kind) => button.dispatchEvent(new PointerEvent(kind, { bubbles: true, pointerId: 7, isPrimary: true }));
        finger('pointerdown');
        setTimeout(() => { finger(arguments[0]); finger('pointerup'); done(true); }, 900);";
    phone.open().await;
    to_look(&mut phone).await;
    for kind in ["pointercancel", "lostpointercapture"] {
        let script = format!("{}\n{BROKEN}", include_str!("../src/page.js"));
        let ran = phone.client().execute_async(&script, vec![kind.into()]).await;
        phone.sure(ran.is_ok(), &format!("{kind}: {ran:?}")).await;
        phone.see("The press was interrupted").await;
        phone.see("Hold to press").await;
        let none = readings(&mut phone, "Affected side").await;
        phone.sure(none.is_empty(), &format!("{kind} left {none:?}")).await;
    }
    // A mere touch is no press either.
    phone.tap("Hold to press").await;
    phone.see("That was a touch, not a press").await;
    let none = readings(&mut phone, "Affected side").await;
    phone.sure(none.is_empty(), &format!("a touch left {none:?}")).await;
    // Nor is it lost for good: the next press is timed.
    phone.pause().await;
    let at = press_button(&mut phone).await;
    phone.hold_and_tap(at, GUIDE, Duration::from_secs(1)).await;
    phone.see("Other side, reading 1 of 3").await;
    phone
}

async fn a_slip_is_asked_about_and_nothing_is_lost(mut phone: Phone) -> Phone {
    phone.open().await;
    to_look(&mut phone).await;
    phone.choose("How", "Type").await;
    phone.type_into("Affected side", "42").await;
    phone.tap("Take this reading").await;
    phone.see("Affected side, 42.0 s: unusual. 4.2 s meant?").await;
    let none = readings(&mut phone, "Affected side").await;
    phone.sure(none.is_empty(), &format!("taken before the answer: {none:?}")).await;
    phone.at_each = AtEach::Check;
    phone.at("look-doubt").await;
    phone.at_each = AtEach::Nothing;
    phone.tap("Yes, 4.2 s").await;
    read_as(&mut phone, "Affected side", &["4.2 typed"]).await;
    phone.type_into("Other side", "1.5").await;
    phone.tick("Mottled").await;

    // What is typed and not taken is taken on the way on.
    phone.tap("Go on").await;
    phone.headed("And the patient?").await;
    phone.tick("7").await;
    back(&mut phone).await;
    phone.headed("What does the skin show?").await;
    read_as(&mut phone, "Other side", &["1.5 typed"]).await;

    // By the anaphylaxis sheet and back: all is there.
    phone.tap("Anaphylaxis").await;
    phone.headed("Adrenaline now").await;
    back(&mut phone).await;
    phone.see("Taken up again").await;
    read_as(&mut phone, "Affected side", &["4.2 typed"]).await;
    phone.tap("Go on").await;
    phone.headed("And the patient?").await;
    let seven = phone.run(
        "return options().some((label) => norm(label.innerText) === '7' && label.querySelector('input').checked);",
        vec![],
    );
    let seven = seven.await == serde_json::json!(true);
    phone.sure(seven, "the pain was forgotten").await;

    // Leaving asks first; dropped is dropped.
    back(&mut phone).await;
    phone.headed("What does the skin show?").await;
    back(&mut phone).await;
    phone.headed("Leave this look?").await;
    phone.tap("Go on looking").await;
    phone.headed("What does the skin show?").await;
    back(&mut phone).await;
    phone.headed("Leave this look?").await;
    phone.tap("Drop it").await;
    phone.tap("Note the skin first").await;
    phone.headed("What does the skin show?").await;
    read_as(&mut phone, "Affected side", &[]).await;
    phone.see_no("Taken up again").await;
    phone.nothing_found().await;
    phone
}

async fn a_look_is_recorded_whole(mut phone: Phone) -> Phone {
    phone.open().await;
    to_look(&mut phone).await;
    type_refill(&mut phone, ("6.2", "1.5")).await;
    phone.tick("Mottled").await;
    phone.tick("Cooler than the other side").await;

    // A photo from a file: shown, then kept.
    phone.tap("Photo from the same angle").await;
    phone.headed("First photo").await;
    let file = TempFile::new("look.bmp", &LEVEL.bmp());
    choose(&mut phone, &file).await;
    phone.see("Keep this photo").await;
    phone.at_each = AtEach::Check;
    phone.at("look-photo").await;
    phone.at_each = AtEach::Nothing;
    phone.go_on("Keep this photo").await;
    phone.see("Photo taken, kept on this phone only.").await;
    let photos = kept(&mut phone).await;
    phone.sure(photos.len() == 1, &format!("{} photos are kept", photos.len())).await;

    phone.tap("Go on").await;
    phone.headed("And the patient?").await;
    phone.tick("6").await;
    phone.tick("Weaker or number than the other side").await;
    phone.tap("Take down this look").await;
    phone.see("Begin round 1").await;
    phone.tap("Back").await;
    to_timeline(&mut phone).await;
    for words in [
        "Refill 6.2 s, other side 1.5 s",
        "Colour: mottled",
        "Pain 6 of 10",
        "Affected side, readings 6.2 s",
        "Other side, readings 1.5 s",
        "Cooler than the other side",
        "Weaker or number than the other side",
        "Photo taken, kept on this phone only",
    ] {
        phone.see(words).await;
    }
    phone.nothing_found().await;
    phone
}

/// To the record of the case, by its address.
async fn to_timeline(phone: &mut Phone) {
    let case = phone.run("return new URLSearchParams(location.search).get('case');", vec![]).await;
    let url = phone.server.url();
    let case = case.as_str().unwrap_or_default().to_owned();
    phone.go(&format!("{url}?page=timeline&case={case}")).await;
    phone.headed("The record").await;
}

async fn a_photo_is_taken_over_the_one_before(mut phone: Phone) -> Phone {
    const PLAYS: &str =
        "const v = document.querySelector('video'); return !!v && v.videoWidth > 0;";
    const HOLD: &str = "window.track = document.querySelector('video').srcObject.getTracks()[0]; return window.track.readyState;";
    phone.open().await;
    to_look(&mut phone).await;
    phone.tap("Photo from the same angle").await;
    phone.see("Take the photo").await;
    phone.until("the camera shows something", PLAYS).await;
    let live = phone.run(HOLD, vec![]).await;
    phone.sure(live == serde_json::json!("live"), &format!("the camera is {live}")).await;
    phone.pause().await;
    phone.go_on("Take the photo").await;
    phone.see("Keep this photo").await;
    phone.until("the camera is let go", "return window.track.readyState === 'ended';").await;
    phone.pause().await;
    phone.go_on("Keep this photo").await;
    phone.see("Photo taken, kept on this phone only.").await;
    let photos = kept(&mut phone).await;
    phone.sure(photos.len() == 1, &format!("{} photos are kept", photos.len())).await;

    // The next one is taken with that one laid over, as strongly as is wanted.
    phone.tap("Take the photo again").await;
    phone.headed("The same angle").await;
    phone.until("the camera shows something", PLAYS).await;
    phone.run(HOLD, vec![]).await;
    phone.see("Earlier photo laid over").await;
    let opacity = "return document.querySelector('img.laid-over')?.style.opacity ?? '';";
    let faint = phone.run(opacity, vec![]).await;
    phone
        .run(
            "const slider = document.querySelector('input[type=range]');
         slider.value = '80';
         slider.dispatchEvent(new Event('input', { bubbles: true }));
         return true;",
            vec![],
        )
        .await;
    phone
        .until(
            "the earlier photo shows more",
            "return document.querySelector('img.laid-over')?.style.opacity === '0.8';",
        )
        .await;
    phone.sure(faint == serde_json::json!("0.4"), &format!("at first it shows by {faint}")).await;
    phone.at_each = AtEach::Check;
    phone.at("look-camera").await;
    phone.tick("Earlier photo laid over").await;
    phone.until("it is off", "return !document.querySelector('img.laid-over');").await;
    // Leaving lets the camera go.
    back(&mut phone).await;
    phone.headed("What does the skin show?").await;
    phone.until("the camera is let go", "return window.track.readyState === 'ended';").await;
    phone.nothing_found().await;
    phone
}

async fn refill_is_timed_in_the_situation_too(mut phone: Phone) -> Phone {
    phone.open().await;
    phone.tap("New case").await;
    phone.headed("Any of these now?").await;
    phone.go_on("None of these").await;
    phone.headed("What does the skin show?").await;
    phone.tap("Onset, refill, patient, filler").await;
    phone.tap("Time it").await;
    phone.headed("Time the refill").await;
    let at = press_button(&mut phone).await;
    phone.hold_and_tap(at, GUIDE, Duration::from_secs(3)).await;
    phone.see("Other side, reading 1 of 3").await;
    phone.choose("How", "Type").await;
    phone.type_into("Other side", "1.2").await;
    phone.at_each = AtEach::Check;
    phone.at("situation-refill").await;
    phone.tap("Done").await;
    phone.headed("What does the skin show?").await;
    let typed = "return fields().filter(([label]) => label.startsWith('Refill,')).map(([, field]) => field.value);";
    let typed = phone.run(typed, vec![]).await;
    phone.sure(typed[1] == serde_json::json!("1.2"), &format!("the fields say {typed}")).await;
    let affected = typed[0].as_str().unwrap_or_default().to_owned();
    near(&mut phone, &affected, 3.0).await;
    phone.see("Refill is slow").await;
    phone.nothing_found().await;
    phone
}
