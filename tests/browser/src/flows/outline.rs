//! The skin drawn round on a face: its size, its grid, the points ticked off on it, and the outline
//! that shrinks.

use super::solution::{make, ml, units};
use super::urgent::{AT_POINT, BOLUS, STRENGTH, VIAL, finish, look};
use crate::canvas::numbers;
use crate::finger::Place;
use crate::phone::Phone;
use serde_json::json;
use std::f64::consts::TAU;
use std::time::Duration;

/// The heading of the page before anything is drawn.
pub const EMPTY: &str = "Draw round it";

/// From the start screen to the question where the skin is.
pub async fn to_question(phone: &mut Phone) {
    phone.tap("New case").await;
    phone.go_on("None of these").await;
    phone.tick("Pale or white").await;
    phone.go_on("Urgent").await;
    phone.go_on("Ready").await;
    phone.headed("Where is the skin without blood?").await;
}

/// To the page on which the skin is drawn, with this face.
pub async fn to_face(phone: &mut Phone, view: &str) {
    to_question(phone).await;
    phone.tap("Draw round it").await;
    phone.headed(EMPTY).await;
    phone.tick(view).await;
    phone.headed(EMPTY).await;
}

/// An ellipse on a face, in its hundredths of a millimetre, a little further than once round.
pub fn ellipse(middle: Place, across: f64, down: f64) -> Vec<Place> {
    const STEPS: i32 = 60;
    let place = |n: i32| {
        let (sin, cos) = (TAU * f64::from(n) / f64::from(STEPS)).sin_cos();
        ((middle.0 + across / 2.0 * cos) * 100.0, (middle.1 + down / 2.0 * sin) * 100.0)
    };
    (0..=STEPS + 1).map(place).collect()
}

/// Square centimetres in a text such as "11.0 cm² 1 patch".
pub fn cm2(text: &str) -> Option<f64> {
    let number = text.split(" cm²").next()?.split(' ').next_back()?;
    number.parse().ok()
}

/// The size in the heading, once it is near to this: within so many hundredths of it.
pub async fn measures(phone: &mut Phone, expected: f64, hundredths: f64) -> f64 {
    let start = std::time::Instant::now();
    loop {
        let words = phone.heading().await;
        if let Some(size) = cm2(&words)
            && (size / expected - 1.0).abs() <= hundredths / 100.0
        {
            return size;
        }
        if start.elapsed() > crate::eye::PATIENCE {
            phone.fail(&format!("{expected:.2} cm² wanted, the heading says {words:?}")).await;
        }
        tokio::time::sleep(Duration::from_millis(40)).await;
    }
}

/// Takes the outline, to the question where the skin is.
pub async fn use_it(phone: &mut Phone) {
    phone.go_on("Use ").await;
    phone.headed("Where is the skin without blood?").await;
    phone.see("Draw it anew").await;
}

/// Where the points of the drawing lie on the screen, by number, and how each stands.
const POINTS: &str = "
    const drawing = [...document.querySelectorAll('svg[role=img]')].find((svg) => svg.querySelector('.point'));
    drawing.scrollIntoView({ block: 'center', behavior: 'instant' });
    return [...drawing.querySelectorAll('.point')].map((point) => {
      const box = point.querySelector('circle').getBoundingClientRect();
      return [Number(point.querySelector('text')?.textContent ?? 0), box.left + box.width / 2, box.top + box.height / 2];
    });";

/// Points of the drawing: the number where one is shown, else nought, and the place on the screen.
async fn points(phone: &mut Phone) -> Vec<(u32, Place)> {
    let drawn = phone.run(POINTS, vec![]).await;
    let read = |one| {
        let [number, x, y] = numbers(one)?;
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "counts")]
        let number = number as u32;
        Some((number, (x, y)))
    };
    drawn.as_array().into_iter().flatten().filter_map(read).collect()
}

/// A round on a drawing, as the test counts it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct OnSkin {
    /// Points of the grid, and those added.
    pub all: u64,
    /// Injected.
    pub done: u64,
    /// Left out.
    pub skipped: u64,
    /// Added and taken back: their numbers are not given again.
    pub withdrawn: u64,
}

impl OnSkin {
    /// Waits until the drawing and the sums stand so.
    pub async fn shown(self, phone: &mut Phone) {
        let label =
            format!("{} points: {} injected, {} left out", self.all, self.done, self.skipped);
        let script = format!(
            "return [...document.querySelectorAll('svg[role=img]')]
               .some((svg) => svg.getAttribute('aria-label') === {} && svg.querySelectorAll('.point').length === {}
                 && svg.querySelectorAll('.point path').length === {});",
            json!(label),
            self.all,
            self.done + self.skipped
        );
        phone.until(&label, &script).await;
        phone.reads("Given this round", &format!("{} units", units(self.done * AT_POINT))).await;
    }

    /// Injects the point that is next.
    pub async fn inject(&mut self, phone: &mut Phone) {
        phone.tap("Injected, 0.10 mL").await;
        self.done += 1;
        self.shown(phone).await;
    }
}

/// Taps a point on the drawing, by its number.
pub async fn pick(phone: &mut Phone, number: u64) {
    let found = points(phone).await.into_iter().find(|(shown, _)| u64::from(*shown) == number);
    let Some((_, at)) = found else { phone.fail(&format!("no point {number} in sight")).await };
    phone.touch(at).await;
    phone.headed(&format!("Point {number} 0.10 mL")).await;
}

/// Makes what the round takes and begins it. Every point of the grid is on the drawing. Returns how
/// many there are and how many vials were opened.
pub async fn begin(phone: &mut Phone, round: u64) -> (OnSkin, u64) {
    let count = phone.figure("Points").await;
    let Ok(all) = count.parse::<u64>() else { phone.fail(&format!("{count:?} points")).await };
    phone.reads("This round", &format!("{} units", units(all * AT_POINT))).await;
    phone.reads("Volume", &format!("{} mL", ml(all * BOLUS))).await;
    phone.go_on("500 units/mL").await;
    phone.see("Movement 1 of").await;
    phone.pause().await;
    let made = make(phone, VIAL, STRENGTH).await;
    phone.reads("This round", &format!("{} units", units(all * AT_POINT))).await;
    let shown: Vec<u64> =
        points(phone).await.iter().map(|(number, _)| u64::from(*number)).collect();
    let each = (1..=all).all(|number| shown.contains(&number));
    phone.sure(each && shown.len() as u64 == all, &format!("{all} points, drawn {shown:?}")).await;
    phone.at(&format!("skin-ready-{round}")).await;
    phone.tap(&format!("Begin round {round}")).await;
    phone.headed("Point 1 0.10 mL").await;
    (OnSkin { all, ..OnSkin::default() }, made.vials)
}

/// Draws the lips: 52 × 27 mm are an ellipse of 11.0 cm².
pub async fn draw_lips(phone: &mut Phone) {
    to_face(phone, "Lips").await;
    phone.at("draw").await;
    phone.draw(&ellipse((0.0, 24.0), 52.0, 27.0)).await;
    measures(phone, 11.03, 1.0).await;
    phone.see("1 patch").await;
    phone.at("outline").await;
}

/// Ticks some points off: three in turn, one that was tapped, one left out.
pub async fn tick_half(phone: &mut Phone, round: &mut OnSkin) {
    round.shown(phone).await;
    for _ in 0..3 {
        round.inject(phone).await;
    }
    let last = round.all - 1;
    pick(phone, last).await;
    round.inject(phone).await;
    // Back to the first that is open.
    phone.headed("Point 4 0.10 mL").await;
    phone.tap("Skip, why").await;
    phone.headed("Leave out point 4").await;
    phone.tap("Blood is back there").await;
    round.skipped += 1;
    round.shown(phone).await;
    phone.headed("Point 5 0.10 mL").await;
    pick(phone, 6).await;
    round.inject(phone).await;
    phone.headed("Point 5 0.10 mL").await;
    phone.at("ticked").await;
}

/// Between two neighbours on the screen, the place farthest from every point.
fn roomiest(points: &[(u32, Place)]) -> Place {
    const NEIGHBOURS: f64 = 75.0;
    let apart = |a: Place, b: Place| (a.0 - b.0).hypot(a.1 - b.1);
    let room = |at: Place| {
        let all = points.iter().map(|(_, point)| apart(*point, at));
        all.min_by(f64::total_cmp).unwrap_or_default()
    };
    let pairs = points.iter().flat_map(|(_, a)| points.iter().map(move |(_, b)| (*a, *b)));
    pairs
        .filter(|(a, b)| apart(*a, *b) < NEIGHBOURS)
        .map(|(a, b)| (f64::midpoint(a.0, b.0), f64::midpoint(a.1, b.1)))
        .max_by(|a, b| room(*a).total_cmp(&room(*b)))
        .unwrap_or_default()
}

/// A point more, put where the skin is tapped, undone, and put there again.
pub async fn add_a_point(phone: &mut Phone, round: &mut OnSkin) {
    let shown = points(phone).await;
    let at = roomiest(&shown);
    for again in [false, true] {
        phone.tap("Add a point").await;
        phone.see("Tap the skin where the point is to go.").await;
        // The words move the drawing.
        let moved = points(phone).await;
        let (dx, dy) = (moved[0].1.0 - shown[0].1.0, moved[0].1.1 - shown[0].1.1);
        phone.touch((at.0 + dx, at.1 + dy)).await;
        phone.see_no("Tap the skin where the point is to go.").await;
        round.all += 1;
        round.shown(phone).await;
        if !again {
            phone.tap("Undo the added point").await;
            round.all -= 1;
            round.withdrawn += 1;
            round.shown(phone).await;
        }
    }
    phone.at("added").await;
}

/// All that are left, in one go; one is taken back and given again.
pub async fn the_rest(phone: &mut Phone, round: &mut OnSkin) {
    let left = round.all - round.done - round.skipped;
    phone.tap("All that are left").await;
    phone.tap(&format!("All {left} injected, {} mL in all", ml(left * BOLUS))).await;
    round.done += left;
    round.shown(phone).await;
    let last = round.all + round.withdrawn;
    phone.tap(&format!("Undo {last}")).await;
    round.done -= 1;
    round.shown(phone).await;
    round.inject(phone).await;
}

/// A case on drawn skin after some rounds.
#[derive(Clone, Copy, Debug)]
pub struct Drawn {
    round: u64,
    points: u64,
    milli: u64,
    vials: u64,
}

/// The whole case: lips drawn, ticked off on the drawing, drawn smaller for a second round.
pub async fn whole(phone: &mut Phone) -> Drawn {
    draw_lips(phone).await;
    use_it(phone).await;
    phone.reads("Skin without blood", "11.0 cm²").await;
    phone.at("grid").await;
    let (mut round, vials) = begin(phone, 1).await;
    // One point for each cm² at least, and no more than a margin of half a step round it takes.
    phone.sure((11..=22).contains(&round.all), &format!("{round:?} on 11 cm²")).await;
    tick_half(phone, &mut round).await;
    add_a_point(phone, &mut round).await;
    the_rest(phone, &mut round).await;
    let milli = round.done * AT_POINT;
    finish(phone, 1, milli, vials).await;
    phone.let_pass(Duration::from_mins(61)).await;
    look(phone, ("5", "2"), "Pale", "6").await;
    phone.headed("After round 1").await;
    let drawn = Drawn { round: 1, points: round.all, milli, vials };
    // 34 × 18 mm are 4.8 cm².
    smaller(phone, drawn, (34.0, 18.0), (11.03, 4.81), "2.5").await
}

/// One more round, on skin drawn anew, so many millimetres across and down: smaller than before. The
/// sizes before and now are in cm²; the look after it times the refill.
pub async fn smaller(
    phone: &mut Phone,
    drawn: Drawn,
    (across, down): (f64, f64),
    (before, now): (f64, f64),
    refill: &str,
) -> Drawn {
    let number = drawn.round + 1;
    phone.tap(&format!("Prepare round {number}")).await;
    phone.headed("Where is the skin without blood?").await;

    // What was drawn last is shown and can be gone on from; it is drawn anew.
    phone.tap("Draw it anew").await;
    phone.headed(EMPTY).await;
    phone.see("Broken line: as it was.").await;
    phone.at(&format!("draw-{number}")).await;
    phone.tap("Last outline").await;
    measures(phone, before, 2.0).await;
    phone.tap("Start anew").await;
    phone.headed(EMPTY).await;
    phone.draw(&ellipse((-6.0, 24.0), across, down)).await;
    measures(phone, now, 3.0).await;
    use_it(phone).await;
    earlier(phone, drawn.round).await;
    phone.at(&format!("grid-{number}")).await;

    let (mut round, vials) = begin(phone, number).await;
    let fewer = round.all < drawn.points;
    phone.sure(fewer, "the smaller skin takes no fewer points").await;
    round.shown(phone).await;
    round.inject(phone).await;
    the_rest(phone, &mut round).await;
    let milli = drawn.milli + round.done * AT_POINT;
    finish(phone, number, milli, drawn.vials + vials).await;
    phone.let_pass(Duration::from_mins(61)).await;
    look(phone, (refill, "2"), "Pale", "2").await;
    phone.headed(&format!("After round {number}")).await;
    let words = format!("Skin without blood over {number} drawings: from 11.0 cm² to ");
    shrinks(phone, &words, now).await;
    phone.at_drawing(&format!("shrinking-{number}"), &words).await;
    Drawn { round: number, points: round.all, milli, vials: drawn.vials + vials }
}

/// The outlines before earlier rounds stand with their numbers under the one in force.
async fn earlier(phone: &mut Phone, rounds: u64) {
    let script = format!(
        "return [...document.querySelectorAll('svg[role=img]')].some((svg) =>
           svg.querySelectorAll('.territory').length === {rounds} + 1
           && [...svg.querySelectorAll('.territory.earlier text')].every((text, n) => text.textContent === `${{n + 1}}`));"
    );
    phone.until("the earlier outlines are shown", &script).await;
}

/// The curve of the area, with its words: the last size after the first ones, within three
/// hundredths.
async fn shrinks(phone: &mut Phone, words: &str, last: f64) {
    const SAID: &str = "return [...document.querySelectorAll('svg[role=img]')]
        .map((svg) => norm(svg.getAttribute('aria-label'))).find((said) => said.startsWith(arguments[0])) ?? null;";
    let script =
        SAID.replace("arguments[0]", &json!(words).to_string()).replace("?? null", "!== undefined");
    phone.until("the curve of the area is shown", &script).await;
    let said = phone.run(SAID, vec![json!(words)]).await;
    let size = said.as_str().and_then(|said| cm2(said.strip_prefix(words)?));
    let right = size.is_some_and(|size| (size / last - 1.0).abs() < 0.03);
    phone.sure(right, &format!("{said} for {last} cm²")).await;
}
