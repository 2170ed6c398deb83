//! Which part of the picture the canvas shows: zoomed and moved, never lost. For drawing only:
//! floats of picture units and of CSS pixels.

use super::hand::Place;
use crate::ui::skin::Frame;

/// The picture enlarged more than so many times over its whole is no longer recognised.
const MOST: f64 = 10.0;
/// What one press of a zoom button enlarges by.
pub const PRESS: f64 = 1.6;
/// What one pixel of a mouse's wheel enlarges by, as a power of e.
const WHEEL: f64 = 0.0015;
/// One turn of a wheel moves no further than this, in pixels; some report a page.
const TURN: f64 = 240.0;
/// Sizes of the canvas in pixels, below which nothing can be drawn on it, as while it is laid out.
const LEAST_SIDE: f64 = 1.0;
/// Fingers nearer to each other than this, in pixels, tell no scale.
const LEAST_SPAN: f64 = 1.0;

/// A part of a picture on a canvas.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Window {
    /// All of the picture, in its own units.
    whole: Frame,
    /// The canvas in pixels, across and down.
    size: (f64, f64),
    /// What of the picture lies at the canvas's corner.
    corner: Place,
    /// Pixels that one picture unit takes.
    scale: f64,
}

impl Window {
    /// All of a picture on a canvas of this size; `None` while there is no canvas to speak of.
    pub fn whole(whole: Frame, size: (f64, f64)) -> Option<Self> {
        let there = size.0 >= LEAST_SIDE && size.1 >= LEAST_SIDE;
        let seen = whole.width > 0.0 && whole.height > 0.0;
        let window = Self { whole, size, corner: (whole.left, whole.top), scale: 0.0 };
        let window = Self { scale: window.least(), ..window };
        (there && seen && window.scale.is_finite()).then(|| window.kept())
    }

    /// The same part, its middle where it was, on a canvas of another size.
    #[must_use]
    pub fn resized(self, size: (f64, f64)) -> Self {
        let Some(new) = Self::whole(self.whole, size) else { return self };
        let middle = self.to_picture((self.size.0 / 2.0, self.size.1 / 2.0));
        let scale = new.scale * self.scale / self.least();
        new.showing(middle, (size.0 / 2.0, size.1 / 2.0), scale)
    }

    /// Pixels that one picture unit takes.
    pub const fn scale(self) -> f64 {
        self.scale
    }

    /// The canvas in pixels, across and down.
    pub const fn size(self) -> (f64, f64) {
        self.size
    }

    /// What is shown, in picture units: what fills the canvas, which may be more than the picture.
    pub fn frame(self) -> Frame {
        let (width, height) = (self.size.0 / self.scale, self.size.1 / self.scale);
        Frame { left: self.corner.0, top: self.corner.1, width, height }
    }

    /// From the canvas into the picture.
    pub fn to_picture(self, (x, y): Place) -> Place {
        (x / self.scale + self.corner.0, y / self.scale + self.corner.1)
    }

    /// From the picture onto the canvas.
    pub fn to_canvas(self, (x, y): Place) -> Place {
        ((x - self.corner.0) * self.scale, (y - self.corner.1) * self.scale)
    }

    /// Whether all of the picture is shown.
    pub fn is_whole(self) -> bool {
        self.scale <= self.least() * (1.0 + f64::EPSILON.sqrt())
    }

    /// Whether it cannot be enlarged further.
    pub fn is_closest(self) -> bool {
        self.scale >= self.least() * MOST * (1.0 - f64::EPSILON.sqrt())
    }

    /// Enlarged by a factor, what lies under `about` staying there. As it is for what is no factor.
    #[must_use]
    pub fn zoomed(self, about: Place, factor: f64) -> Self {
        self.showing(self.to_picture(about), about, self.scale * factor)
    }

    /// Enlarged about the middle.
    #[must_use]
    pub fn pressed(self, factor: f64) -> Self {
        self.zoomed((self.size.0 / 2.0, self.size.1 / 2.0), factor)
    }

    /// All of the picture.
    #[must_use]
    pub fn out(self) -> Self {
        Self { scale: self.least(), ..self }.kept()
    }

    /// Enlarged by a wheel turned by so many pixels, down being away.
    #[must_use]
    pub fn wheeled(self, about: Place, turned: f64) -> Self {
        self.zoomed(about, (-turned.clamp(-TURN, TURN) * WHEEL).exp())
    }

    /// Moved with a finger.
    #[must_use]
    pub fn slid(self, from: Place, to: Place) -> Self {
        self.showing(self.to_picture(from), to, self.scale)
    }

    /// Moved and enlarged with two fingers: what lay between them lies between them. As it is when
    /// their distance tells no scale.
    #[must_use]
    pub fn pinched(self, from: [Place; 2], to: [Place; 2]) -> Self {
        let span = |[a, b]: [Place; 2]| (a.0 - b.0).hypot(a.1 - b.1);
        let middle = |[a, b]: [Place; 2]| (f64::midpoint(a.0, b.0), f64::midpoint(a.1, b.1));
        let (before, after) = (span(from), span(to));
        // NaN is no span either.
        if !(before >= LEAST_SPAN && after >= LEAST_SPAN) {
            return self;
        }
        self.showing(self.to_picture(middle(from)), middle(to), self.scale * after / before)
    }

    /// A place of the picture at a place of the canvas, at this scale or the nearest that is allowed.
    fn showing(self, place: Place, at: Place, scale: f64) -> Self {
        let all = [place.0, place.1, at.0, at.1, scale];
        if !all.into_iter().all(f64::is_finite) {
            return self;
        }
        let least = self.least();
        let scale = scale.clamp(least, least * MOST);
        let corner = (place.0 - at.0 / scale, place.1 - at.1 / scale);
        Self { corner, scale, ..self }.kept()
    }

    /// Moved so that the canvas is filled where the picture is larger, and the picture in the middle
    /// where it is smaller.
    fn kept(self) -> Self {
        let keep = |corner: f64, start: f64, length: f64, seen: f64| {
            if seen >= length {
                start - (seen - length) / 2.0
            } else {
                corner.clamp(start, start + length - seen)
            }
        };
        let Frame { left, top, width, height } = self.whole;
        let shown = self.frame();
        let corner = (
            keep(self.corner.0, left, width, shown.width),
            keep(self.corner.1, top, height, shown.height),
        );
        Self { corner, ..self }
    }

    /// The scale at which all of the picture is seen.
    fn least(self) -> f64 {
        (self.size.0 / self.whole.width).min(self.size.1 / self.whole.height)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const FACE: Frame = Frame { left: -72.0, top: -119.0, width: 144.0, height: 193.0 };

    fn window() -> Window {
        Window::whole(FACE, (312.0, 330.0)).unwrap()
    }

    fn near(a: Place, b: Place) -> bool {
        (a.0 - b.0).hypot(a.1 - b.1) < 1e-6
    }

    #[test]
    fn all_of_it_is_seen_in_the_middle() {
        let window = window();
        assert!(window.is_whole() && !window.is_closest());
        let (low, high) = (window.to_canvas((-72.0, -119.0)), window.to_canvas((72.0, 74.0)));
        assert!(near(low, (312.0 - high.0, 0.0)) && (high.1 - 330.0).abs() < 1e-6, "{low:?}");
        assert!(near(window.to_picture(low), (-72.0, -119.0)));
    }

    #[test]
    fn what_lies_between_two_fingers_stays_between_them() {
        let (from, to) = ([(100.0, 120.0), (140.0, 120.0)], [(90.0, 150.0), (210.0, 150.0)]);
        let under = window().to_picture((120.0, 120.0));
        let pinched = window().pinched(from, to);
        assert!(near(pinched.to_canvas(under), (150.0, 150.0)));
        assert!((pinched.scale() / window().scale() - 3.0).abs() < 1e-9);
    }

    #[test]
    fn a_pinch_that_tells_nothing_changes_nothing() {
        let window = window().pressed(3.0);
        let (a, b) = ((100.0, 100.0), (200.0, 100.0));
        for (from, to) in [
            ([a, a], [a, b]),
            ([a, b], [a, a]),
            ([a, b], [a, (f64::NAN, 0.0)]),
            ([a, b], [a, (f64::INFINITY, 0.0)]),
        ] {
            assert_eq!(window.pinched(from, to), window);
        }
        assert_eq!(window.zoomed(a, f64::NAN), window);
        assert_eq!(window.slid(a, (0.0, f64::NAN)), window);
    }

    #[test]
    fn neither_smaller_than_all_nor_past_recognition_nor_out_of_sight() {
        assert!(window().pressed(0.01).is_whole());
        assert_eq!(window().zoomed((9.0, 9.0), 5.0).out(), window());
        let close = window().zoomed((0.0, 0.0), 1e9);
        assert!(close.is_closest());
        assert!((close.scale() / window().scale() - MOST).abs() < 1e-9);
        let shown = window().pressed(4.0).slid((0.0, 0.0), (9e9, 9e9)).frame();
        assert!((shown.left - -72.0).abs() < 1e-6 && (shown.top - -119.0).abs() < 1e-6);
    }

    #[test]
    fn no_canvas_no_window() {
        assert_eq!(Window::whole(FACE, (0.0, 330.0)), None);
        assert_eq!(Window::whole(FACE, (f64::NAN, 330.0)), None);
        assert_eq!(Window::whole(Frame { width: 0.0, ..FACE }, (312.0, 330.0)), None);
    }

    #[test]
    fn a_phone_turned_shows_the_same_place() {
        let window = window().zoomed((120.0, 200.0), 8.0);
        let middle = window.to_picture((156.0, 165.0));
        let turned = window.resized((600.0, 200.0));
        assert!(near(turned.to_picture((300.0, 100.0)), middle));
        assert!(!turned.is_whole() && window.resized((0.0, 0.0)) == window);
    }

    #[test]
    fn a_wheel_goes_in_and_out_again() {
        let at = (100.0, 50.0);
        let once = window().wheeled(at, -120.0);
        assert!(once.scale() > window().scale());
        assert!((once.wheeled(at, 120.0).scale() - window().scale()).abs() < 1e-9);
    }
}
