//! Decoding, drawing small, encoding anew.

use super::super::js::window;
use super::{ObjectUrl, Picture, Unreadable, fit, jpeg, may_be_photo};
use js_sys::{Function, Object, Promise, Reflect, Uint8Array};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{
    Blob, CanvasRenderingContext2d, Document, File, HtmlCanvasElement, HtmlImageElement,
    HtmlVideoElement,
};

/// How much of the picture the encoder keeps, from 0 to 1: beyond this a file grows faster than what
/// can be seen in it.
const QUALITY: f64 = 0.85;
/// The most that a pixel of an empty canvas may show.
const LAST_BITS: u8 = 3;

/// Takes in a photo from the camera or from the phone's own pictures. What is returned is upright
/// whichever way the phone was held, and knows nothing of place, time or camera. A damaged file is
/// taken in if the browser can show at least the middle of it.
///
/// # Errors
/// [`Unreadable`]; nothing is kept then, and no memory stays held.
pub async fn take_in(file: File) -> Result<Picture, Unreadable> {
    may_be_photo(&file.type_(), size(&file))?;
    let document = window().and_then(|window| window.document()).ok_or(Unreadable::NotDrawn)?;
    let photo = Decoded::from(&document, &file).await?;
    let (width, height) = photo.fit()?;
    let blob = {
        let canvas = Canvas::new(&document, width, height).ok_or(Unreadable::NotDrawn)?;
        canvas.draw(Source::Image(&photo.image))?;
        canvas.encoded("image/jpeg").await.ok_or(Unreadable::NotDrawn)?
    };
    drop(photo);
    bared(blob, width, height).await
}

/// Takes in what a live camera shows at this moment, made small as a photo is.
///
/// # Errors
/// [`Unreadable::NotDecoded`] while it shows nothing yet; else as for a file.
pub async fn take_frame(video: &HtmlVideoElement) -> Result<Picture, Unreadable> {
    let document = window().and_then(|window| window.document()).ok_or(Unreadable::NotDrawn)?;
    let size = fit(video.video_width(), video.video_height());
    let (width, height) = size.ok_or(Unreadable::NotDecoded)?;
    let canvas = Canvas::new(&document, width, height).ok_or(Unreadable::NotDrawn)?;
    canvas.draw(Source::Frame(video))?;
    let blob = canvas.encoded("image/jpeg").await.ok_or(Unreadable::NotDrawn)?;
    drop(canvas);
    bared(blob, width, height).await
}

/// What the encoder made, stripped of all but the picture.
async fn bared(blob: Blob, width: u32, height: u32) -> Result<Picture, Unreadable> {
    let made = JsFuture::from(blob.array_buffer()).await.map_err(|_| Unreadable::NotDrawn)?;
    let bytes = jpeg::bare(&Uint8Array::new(&made).to_vec()).ok_or(Unreadable::Metadata)?;
    if !jpeg::is_bare(&bytes) {
        return Err(Unreadable::Metadata);
    }
    Ok(Picture { bytes, width, height })
}

/// A file's size in bytes.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a whole number")]
fn size(file: &File) -> u64 {
    file.size() as u64
}

/// A photo that the browser has read. By an `img`, since it turns a photo upright in every browser.
struct Decoded {
    image: HtmlImageElement,
    _url: ObjectUrl,
}

impl Decoded {
    async fn from(document: &Document, file: &File) -> Result<Self, Unreadable> {
        let url = ObjectUrl::of_blob(file).ok_or(Unreadable::NotDecoded)?;
        let image = document.create_element("img").map_err(|_| Unreadable::NotDecoded)?;
        let image: HtmlImageElement = image.unchecked_into();
        image.set_src(url.as_str());
        let photo = Self { image, _url: url };
        // Browsers refuse to decode some large photos ahead that they draw all the same. Whether
        // this one is drawn is looked at then; without a size there is nothing to draw.
        let _ = JsFuture::from(photo.image.decode()).await;
        photo.fit().map(|_| photo)
    }

    /// The size at which to draw it.
    fn fit(&self) -> Result<(u32, u32), Unreadable> {
        fit(self.image.natural_width(), self.image.natural_height()).ok_or(Unreadable::NotDecoded)
    }
}

impl Drop for Decoded {
    fn drop(&mut self) {
        // A decoded photo is some hundred times its file: let go at once, not when it suits.
        self.image.set_src("");
    }
}

/// What is drawn.
#[derive(Clone, Copy)]
enum Source<'a> {
    Image(&'a HtmlImageElement),
    Frame(&'a HtmlVideoElement),
}

/// Where a photo is drawn small.
pub(super) struct Canvas {
    canvas: HtmlCanvasElement,
    pub(super) context: CanvasRenderingContext2d,
}

impl Canvas {
    pub(super) fn new(document: &Document, width: u32, height: u32) -> Option<Self> {
        let canvas: HtmlCanvasElement = document.create_element("canvas").ok()?.unchecked_into();
        canvas.set_width(width);
        canvas.set_height(height);
        let options = Object::new();
        // It is read back as soon as it is drawn: best kept out of the graphics processor.
        Reflect::set(&options, &"willReadFrequently".into(), &JsValue::TRUE).ok()?;
        let context = canvas.get_context_with_context_options("2d", &options).ok()??;
        // Where the browser knows it: a photo made five times smaller else loses its fine lines.
        let _ = Reflect::set(&context, &"imageSmoothingQuality".into(), &"high".into());
        Some(Self { canvas, context: context.unchecked_into() })
    }

    /// Draws the photo over the whole canvas and makes sure that it is there.
    fn draw(&self, source: Source<'_>) -> Result<(), Unreadable> {
        let (width, height) = (self.canvas.width(), self.canvas.height());
        // A browser set against being recognised hands out noise for any drawing; another blurs the
        // last bits, which does no harm.
        if self.middle()?.iter().any(|&part| part > LAST_BITS) {
            return Err(Unreadable::NotDrawn);
        }
        let (wide, high) = (f64::from(width), f64::from(height));
        let paper = &self.context;
        let drawn =
            match source {
                Source::Image(image) => paper
                    .draw_image_with_html_image_element_and_dw_and_dh(image, 0.0, 0.0, wide, high),
                Source::Frame(video) => paper
                    .draw_image_with_html_video_element_and_dw_and_dh(video, 0.0, 0.0, wide, high),
            };
        drawn.map_err(|_| Unreadable::NotDecoded)?;
        // A browser out of memory draws nothing, and does not say so.
        let opaque = self.middle()?.get(3).is_some_and(|&opaque| opaque > u8::MAX / 2);
        if opaque { Ok(()) } else { Err(Unreadable::NotDecoded) }
    }

    /// The pixel in the middle: red, green, blue, and how opaque it is.
    fn middle(&self) -> Result<Vec<u8>, Unreadable> {
        let (x, y) = (f64::from(self.canvas.width() / 2), f64::from(self.canvas.height() / 2));
        let pixel = self.context.get_image_data(x, y, 1.0, 1.0);
        Ok(pixel.map_err(|_| Unreadable::NotDrawn)?.data().to_vec())
    }

    /// As a file of this kind; none if the browser gives none, or one of another.
    pub(super) async fn encoded(&self, kind: &str) -> Option<Blob> {
        let wait = Promise::new(&mut |resolve: Function, reject: Function| {
            let asked =
                self.canvas.to_blob_with_type_and_encoder_options(&resolve, kind, &QUALITY.into());
            if let Err(error) = asked {
                // Fails for no function that a promise gives.
                let _ = reject.call1(&JsValue::UNDEFINED, &error);
            }
        });
        let blob: Blob = JsFuture::from(wait).await.ok()?.dyn_into().ok()?;
        (blob.type_() == kind).then_some(blob)
    }
}

impl Drop for Canvas {
    fn drop(&mut self) {
        // WebKit counts canvases that are gone but not yet swept up, and then gives no more.
        self.canvas.set_width(0);
        self.canvas.set_height(0);
    }
}
