//! Skin drawn round with a finger.

use freshet_browser_tests::finger::Place;
use freshet_browser_tests::flows::around::open_case;
use freshet_browser_tests::flows::outline::{
    EMPTY, begin, draw_lips, ellipse, measures, tick_half, to_face, use_it, whole,
};
use freshet_browser_tests::phone::{AtEach, Phone};
use serde_json::json;
use std::f64::consts::TAU;

crate::on_both_engines! {
    a_drawn_case_whole_and_for_everybody
    strokes_that_are_no_outline
    two_fingers_enlarge_and_draw_nothing
    ticks_on_the_drawing_outlive_a_kill
}

async fn a_drawn_case_whole_and_for_everybody(mut phone: Phone) -> Phone {
    phone.at_each = AtEach::Check;
    phone.open().await;
    whole(&mut phone).await;
    phone.nothing_found().await;
    phone
}

async fn strokes_that_are_no_outline(mut phone: Phone) -> Phone {
    phone.open().await;
    to_face(&mut phone, "Front").await;

    // Two places: said, and nothing is drawn.
    phone.draw(&[(-1_500.0, 2_000.0), (1_500.0, 2_000.0)]).await;
    phone.see("That goes round nothing. Go all the way round.").await;
    phone.headed(EMPTY).await;
    phone.go_on("Use it").await;
    phone.see("Nothing is drawn yet.").await;
    phone.headed(EMPTY).await;

    // An eight counts with both its rounds, 8/3 of its half width times its half height, and the
    // place where it crosses is marked.
    let eight: Vec<Place> = (0..=80)
        .map(|n| f64::from(n) / 80.0 * TAU)
        .map(|turn| (4_000.0 * turn.cos(), 1_000.0 + 2_500.0 * (2.0 * turn).sin()))
        .collect();
    phone.draw(&eight).await;
    measures(&mut phone, 8.0 / 3.0 * 4.0 * 2.5, 2.0).await;
    phone.see("The line crosses itself at one place, marked. All that it goes round counts.").await;
    let crossings = "return document.querySelectorAll('svg[role=group] .crossing').length;";
    let marked = phone.run(crossings, vec![]).await;
    phone.sure(marked == json!(1), &format!("{marked} crossings marked")).await;

    // Larger than is usual: asked about. Larger than a face: refused, and nothing is recorded.
    phone.tap("Start anew").await;
    phone.headed(EMPTY).await;
    let all = [(-70.0, -116.0), (70.0, -116.0), (70.0, 72.0), (-70.0, 72.0), (-70.0, -110.0)];
    let all: Vec<Place> = all.iter().map(|(x, y)| (x * 100.0, y * 100.0)).collect();
    phone.draw(&all).await;
    measures(&mut phone, 14.0 * 18.8, 1.0).await;
    phone.see("is a large territory").await;
    press_use(&mut phone).await;
    phone.see("Look at the size again.").await;
    phone.tap("Standard face, mouth 52 mm").await;
    phone.type_into("This patient’s mouth, corner to corner", "80").await;
    measures(&mut phone, 14.0 * 18.8 * (80.0_f64 / 52.0).powi(2), 1.0).await;
    press_use(&mut phone).await;
    phone.see("is more than a whole face").await;
    phone.see("Fitted to this patient, mouth 80 mm").await;

    // A figure that can be used after all that is used.
    phone.type_into("This patient’s mouth, corner to corner", "").await;
    phone.tap("Start anew").await;
    phone.draw(&ellipse((0.0, 24.0), 60.0, 40.0)).await;
    measures(&mut phone, 18.85, 2.0).await;
    use_it(&mut phone).await;
    phone
}

/// The button that takes the outline, by the size in the heading.
async fn press_use(phone: &mut Phone) {
    let heading = phone.heading().await;
    let size = heading.split(" cm²").next().unwrap_or_default();
    phone.tap(&format!("Use {size} cm²")).await;
    phone.headed(&heading).await;
}

async fn two_fingers_enlarge_and_draw_nothing(mut phone: Phone) -> Phone {
    phone.open().await;
    to_face(&mut phone, "Front").await;
    let before = phone.canvas().await;
    let (x, y) = before.middle();
    let run = |from: f64, to: f64| -> Vec<Place> {
        (0..=6).map(|n| (x + from + (to - from) * f64::from(n) / 6.0, y)).collect()
    };
    phone.fingers(&[&run(-30.0, -90.0), &run(30.0, 90.0)]).await;
    let large = phone.shown_at(before.scale * 3.0).await;
    phone.sure(large, "fingers three times as far apart do not enlarge three times").await;
    nothing_drawn(&mut phone).await;

    // Both on one spot, and from there apart; both to one spot; across each other.
    phone.fingers(&[&run(0.0, 0.0), &run(0.0, 0.0)]).await;
    phone.fingers(&[&run(0.0, -60.0), &run(0.0, 60.0)]).await;
    phone.fingers(&[&run(-60.0, 0.0), &run(60.0, 0.0)]).await;
    phone.fingers(&[&run(-60.0, 60.0), &run(60.0, -60.0)]).await;
    nothing_drawn(&mut phone).await;
    let shown = phone.canvas().await;
    let sane = (before.scale..=before.scale * 11.0).contains(&shown.scale);
    phone.sure(sane, &format!("after pinches of nothing the scale is {}", shown.scale)).await;

    // One finger draws as before, at the scale that is shown.
    phone.tap("All").await;
    let whole = phone.shown_at(before.scale).await;
    phone.sure(whole, "all of it is not shown again").await;
    phone.tap("Enlarge").await;
    phone.draw(&ellipse((0.0, -20.0), 50.0, 40.0)).await;
    measures(&mut phone, 15.71, 1.0).await;
    phone.see("1 patch").await;
    phone
}

async fn nothing_drawn(phone: &mut Phone) {
    phone.headed(EMPTY).await;
    let off = "return find('button', 'Undo')[0]?.getAttribute('aria-disabled') === 'true';";
    phone.until("there is nothing to undo", off).await;
}

async fn ticks_on_the_drawing_outlive_a_kill(mut phone: Phone) -> Phone {
    phone.open().await;
    draw_lips(&mut phone).await;

    // The page is loaded again before the outline is used: what was drawn is still there.
    phone.reload().await;
    measures(&mut phone, 11.03, 1.0).await;
    use_it(&mut phone).await;
    let (mut round, _) = begin(&mut phone, 1).await;
    tick_half(&mut phone, &mut round).await;
    phone.kill();
    phone.open().await;
    open_case(&mut phone).await;
    phone.headed("Point 5 0.10 mL").await;
    round.shown(&mut phone).await;
    round.inject(&mut phone).await;
    phone
}
