//! The canvas that is drawn on: where places of its picture lie on the screen, by the browser's own
//! account of what it shows.

use crate::finger::Place;
use crate::phone::Phone;
use serde_json::{Value as Json, json};

/// Where the picture lies on the screen, once it is shown: a scale and two shifts. Units of a
/// photo are its pixels, those of a face hundredths of a millimetre.
const SHOWN: &str = "
    const canvas = document.querySelector('svg[role=group]');
    const ground = canvas?.querySelector('svg > image[href], svg > g');
    if (!ground) return null;
    canvas.scrollIntoView({ block: 'center', behavior: 'instant' });
    const { a, b, c, d, e, f } = ground.getScreenCTM();
    if (b || c || Math.abs(a - d) > 1e-6 || ![a, e, f].every(Number.isFinite)) return null;
    const { left, top, right, bottom } = canvas.getBoundingClientRect();
    return [a, e, f, left, top, right, bottom];";

const MARK: &str = "
    const mark = [...document.querySelectorAll('svg [role=button]')]
      .find((mark) => mark.getAttribute('aria-label').startsWith(`${arguments[0]},`));
    if (!mark) return null;
    const box = mark.getBoundingClientRect();
    return [(box.left + box.right) / 2, (box.top + box.bottom) / 2];";

/// The picture as it lies on the screen.
#[derive(Clone, Copy, Debug)]
pub struct Canvas {
    /// Pixels of the screen in a unit of the picture.
    pub scale: f64,
    shift: Place,
    /// The canvas's own corners on the screen.
    pub corners: [Place; 2],
}

impl Canvas {
    /// Where a place of the picture lies on the screen.
    pub fn screen(&self, (x, y): Place) -> Place {
        (x * self.scale + self.shift.0, y * self.scale + self.shift.1)
    }

    /// Whether a place of the screen lies on it.
    fn holds(&self, (x, y): Place) -> bool {
        let [low, high] = self.corners;
        (low.0..=high.0).contains(&x) && (low.1..=high.1).contains(&y)
    }

    /// The middle of what is seen of it, on the screen.
    pub fn middle(&self) -> Place {
        let [a, b] = self.corners;
        (f64::midpoint(a.0, b.0), f64::midpoint(a.1, b.1))
    }
}

impl Phone {
    /// The canvas with its picture, once both are there.
    pub async fn canvas(&mut self) -> Canvas {
        self.until("the canvas is shown", &format!("return (() => {{ {SHOWN} }})() !== null;"))
            .await;
        let shown = self.run(SHOWN, vec![]).await;
        let Some([scale, x, y, left, top, right, bottom]) = numbers(&shown) else {
            self.fail(&format!("the canvas is no canvas: {shown}")).await;
        };
        Canvas { scale, shift: (x, y), corners: [(left, top), (right, bottom)] }
    }

    /// A finger runs through these places of the picture.
    pub async fn draw(&mut self, places: &[Place]) {
        let canvas = self.canvas().await;
        let places: Vec<Place> = places.iter().map(|at| canvas.screen(*at)).collect();
        self.run_over(canvas, "what is to be drawn", &places).await;
    }

    /// Drags a mark by its name, "Corner 1" or "End 2", to a place of the photo.
    pub async fn drag(&mut self, mark: &str, to: Place) {
        let canvas = self.canvas().await;
        let from = self.run(MARK, vec![json!(mark)]).await;
        let Some([from_x, from_y]) = numbers(&from) else {
            self.fail(&format!("no mark {mark:?}")).await;
        };
        // A browser's driver knows whole pixels only. What counts is how far the finger goes.
        let (x, y, to) = (from_x.round(), from_y.round(), canvas.screen(to));
        let (dx, dy) = ((to.0 - from_x).round(), (to.1 - from_y).round());
        let way: Vec<Place> = (0..=4_i32)
            .map(|n| f64::from(n) / 4.0)
            .map(|share| ((x + dx * share).round(), (y + dy * share).round()))
            .collect();
        self.run_over(canvas, mark, &way).await;
    }

    /// Taps a mark by its name.
    pub async fn tap_mark(&mut self, mark: &str) {
        self.canvas().await;
        let at = self.run(MARK, vec![json!(mark)]).await;
        let Some([x, y]) = numbers(&at) else {
            self.fail(&format!("no mark {mark:?}")).await;
        };
        self.touch((x.round(), y.round())).await;
    }

    /// A finger that comes down on the canvas, not on a button over it, and stays there.
    async fn run_over(&mut self, canvas: Canvas, what: &str, way: &[Place]) {
        const ON: &str =
            "return !!document.elementFromPoint(...arguments)?.closest('svg[role=group]');";
        let seen = way.iter().all(|at| canvas.holds(*at));
        self.sure(seen, &format!("{what}: not within the canvas")).await;
        let on = self.run(ON, vec![json!(way[0].0), json!(way[0].1)]).await;
        self.sure(on == json!(true), &format!("{what}: something lies over it")).await;
        self.stroke(way).await;
    }

    /// Two fingers enlarge the picture so many times and bring this place of it into the middle.
    pub async fn pinch(&mut self, place: Place, times: f64) {
        const APART: f64 = 24.0;
        let canvas = self.canvas().await;
        let (from, to) = (canvas.screen(place), canvas.middle());
        let way = |side: f64| -> Vec<Place> {
            (0..=6_i32)
                .map(|n| f64::from(n) / 6.0)
                .map(|share| {
                    let apart = side * APART * (1.0 + (times - 1.0) * share);
                    (from.0 + (to.0 - from.0) * share + apart, from.1 + (to.1 - from.1) * share)
                })
                .collect()
        };
        self.fingers(&[&way(-1.0), &way(1.0)]).await;
    }

    /// Whether the browser shows the canvas's part of the picture at this scale, within a hundredth.
    pub async fn shown_at(&mut self, scale: f64) -> bool {
        (self.canvas().await.scale / scale - 1.0).abs() < 0.01
    }
}

/// So many numbers and no more.
pub(crate) fn numbers<const N: usize>(list: &Json) -> Option<[f64; N]> {
    let list: Option<Vec<f64>> = list.as_array()?.iter().map(Json::as_f64).collect();
    list?.try_into().ok()
}
