//! What lies under the finger, enlarged beside it.

use super::hand::Place;
use super::window::Window;
use crate::plane::Extent;
use crate::ui::parts::through;
use crate::ui::photo::Fetched;
use leptos::prelude::*;

/// Its radius, in pixels.
const RADIUS: f64 = 56.0;
/// So much larger than on the canvas.
const ENLARGED: f64 = 3.0;
/// From its middle to the finger, in pixels: clear of a thumb.
const CLEAR: f64 = 112.0;
/// Half of the cross in its middle, in pixels.
const CROSS: f64 = 12.0;

/// The loupe.
#[component]
pub fn Loupe(
    /// The part of the photo that the canvas shows.
    window: Window,
    /// The photo's size.
    extent: Extent,
    /// The photo.
    photo: Signal<Fetched>,
    /// What is in its middle, in pixels of the photo.
    middle: Place,
    /// Where the finger is, on the canvas.
    finger: Place,
    /// Lines of the drawing, in pixels of the photo.
    lines: Vec<Vec<Place>>,
) -> impl IntoView {
    let scale = window.scale() * ENLARGED;
    let (x, y) = beside(finger, window.size());
    let seen = 2.0 * RADIUS / scale;
    let shown =
        format!("{:.2} {:.2} {seen:.2} {seen:.2}", middle.0 - seen / 2.0, middle.1 - seen / 2.0);
    let on_loupe = |at: &Place| ((at.0 - middle.0) * scale, (at.1 - middle.1) * scale);
    let lines: String =
        lines.iter().map(|line| through(&line.iter().map(on_loupe).collect::<Vec<_>>())).collect();
    let cross = format!("M{CROSS} 0H-{CROSS}M0 {CROSS}V-{CROSS}");
    view! {
        <g class="loupe" transform=format!("translate({x:.1} {y:.1})")>
            <clipPath id="loupe">
                <circle r=RADIUS />
            </clipPath>
            <g clip-path="url(#loupe)">
                <circle class="loupe-ground" r=RADIUS />
                <svg
                    x=-RADIUS
                    y=-RADIUS
                    width=2.0 * RADIUS
                    height=2.0 * RADIUS
                    viewBox=shown
                >
                    <image
                        href=move || match photo.get() {
                            Fetched::Here(url) => Some(url.as_str().to_owned()),
                            Fetched::Waiting | Fetched::Gone => None,
                        }
                        width=extent.width
                        height=extent.height
                    />
                </svg>
                <path class="marks-edge" d=lines.clone() />
                <path class="marks-line" d=lines />
                <path class="marks-edge" d=cross.clone() />
                <path class="loupe-cross" d=cross />
            </g>
            <circle class="loupe-rim" r=RADIUS />
        </g>
    }
}

/// Where it goes: above the finger, or else beside it, all of it on the canvas.
fn beside(finger: Place, (width, height): (f64, f64)) -> Place {
    let within = |at: f64, length: f64| at.min(length - RADIUS).max(RADIUS);
    let above = (within(finger.0, width), finger.1 - CLEAR);
    if above.1 >= RADIUS {
        return above;
    }
    // On the side where there is more room.
    let aside = if finger.0 > width / 2.0 { finger.0 - CLEAR } else { finger.0 + CLEAR };
    (within(aside, width), within(finger.1, height))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_is_never_under_the_finger_nor_off_the_canvas() {
        let (width, height) = (312.0, 330.0);
        for step in 0..=31_i32 {
            for line in 0..=33_i32 {
                let finger = (f64::from(step) * 10.0, f64::from(line) * 10.0);
                let (x, y) = beside(finger, (width, height));
                assert!((RADIUS..=width - RADIUS).contains(&x), "{finger:?} {x}");
                assert!((RADIUS..=height - RADIUS).contains(&y), "{finger:?} {y}");
                let clear = (x - finger.0).hypot(y - finger.1);
                assert!(clear > RADIUS + 30.0, "{finger:?} {clear}");
            }
        }
    }
}
