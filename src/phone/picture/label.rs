//! Lines of text as a picture for a printer of small labels.

use super::super::js::{self, window};
use super::Unreadable;
use super::work::Canvas;
use wasm_bindgen::JsCast;

/// Pixels of a label, twice as wide as high: 50 by 25 mm at 16 dots in a millimetre, finer than the 8
/// or 12 that printers of labels have.
const WIDTH: u32 = 800;
const HEIGHT: u32 = 400;
/// White round the text.
const EDGE: f64 = 20.0;
/// How much of a line's height its letters take.
const LETTERS: f64 = 0.8;
/// The first line's height, in those of the others.
const FIRST: f64 = 1.7;

/// Draws the lines black on white, the first larger, each squeezed to the width where it is too long.
/// Gives a PNG file.
///
/// # Errors
/// [`Unreadable::NotDrawn`] where the browser has no canvas, or does not hand the drawing out.
pub async fn label(lines: &[String]) -> Result<Vec<u8>, Unreadable> {
    let canvas = draw(lines).ok_or(Unreadable::NotDrawn)?;
    let blob = canvas.encoded("image/png").await.ok_or(Unreadable::NotDrawn)?;
    js::bytes(blob.array_buffer().unchecked_into()).await.map_err(|_| Unreadable::NotDrawn)
}

#[expect(clippy::cast_precision_loss, reason = "a handful of lines")]
fn draw(lines: &[String]) -> Option<Canvas> {
    let document = window()?.document()?;
    let canvas = Canvas::new(&document, WIDTH, HEIGHT)?;
    let (wide, high) = (f64::from(WIDTH), f64::from(HEIGHT));
    let paper = &canvas.context;
    paper.set_fill_style_str("white");
    paper.fill_rect(0.0, 0.0, wide, high);
    paper.set_fill_style_str("black");
    paper.set_text_baseline("middle");
    let line = (high - 2.0 * EDGE) / (lines.len() as f64 - 1.0 + FIRST);
    let mut top = EDGE;
    for (index, text) in lines.iter().enumerate() {
        let height = if index == 0 { line * FIRST } else { line };
        paper.set_font(&format!("700 {}px system-ui, sans-serif", (height * LETTERS).round()));
        paper.fill_text_with_max_width(text, EDGE, top + height / 2.0, wide - 2.0 * EDGE).ok()?;
        top += height;
    }
    Some(canvas)
}
