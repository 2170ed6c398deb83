//! Handing a text or a file on. Of each there is one way that is right:
//!
//! | way | what for | how |
//! |---|---|---|
//! | [`text`] | words to be sent or pasted | another app where the phone has a way, else the clipboard |
//! | [`file()`] | what goes to somebody else | another app where the phone shares such files, else a download |
//! | [`keep`] | what is kept or opened here: a backup, a calendar | a download |
//!
//! Each is to be called straight from a tap, since browsers share, copy and download only on the
//! user's own act; it is begun before the call returns.

use super::js::{call, get, navigator, window};
use js_sys::{Array, Promise, Uint8Array};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{
    DomException, File, FilePropertyBag, HtmlAnchorElement, Navigator, ShareData, Url, Window,
};

/// What became of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Handed {
    /// The user chose where it went.
    Shared,
    /// It lies on the clipboard. Of a text alone.
    Copied,
    /// Handed to the browser's downloads; whether it was kept is not told. Of a file alone.
    Saved,
    /// The user closed the choice: nothing left the app, and nothing is wrong.
    Cancelled,
    /// The phone has no way, or let none be taken: nothing left the app. A text is to be shown then,
    /// so that it can be marked and copied by hand.
    Refused,
}

/// What is in a file.
#[derive(Clone, Copy, Debug)]
pub enum Content<'a> {
    /// A text, in UTF-8.
    Text(&'a str),
    /// Anything else.
    Bytes(&'a [u8]),
    /// The same in parts that follow each other.
    Parts(&'a [Vec<u8>]),
}

impl<'a> From<&'a str> for Content<'a> {
    fn from(text: &'a str) -> Self {
        Self::Text(text)
    }
}

impl<'a> From<&'a String> for Content<'a> {
    fn from(text: &'a String) -> Self {
        Self::Text(text)
    }
}

impl<'a> From<&'a [Vec<u8>]> for Content<'a> {
    fn from(parts: &'a [Vec<u8>]) -> Self {
        Self::Parts(parts)
    }
}

impl<'a> From<&'a [u8]> for Content<'a> {
    fn from(bytes: &'a [u8]) -> Self {
        Self::Bytes(bytes)
    }
}

/// Hands a text on: to another app, else to the clipboard.
pub fn text(text: &str) -> impl Future<Output = Handed> + 'static {
    let sharing = begin_share(text);
    let copying = if sharing.is_none() { begin_copy(text) } else { None };
    let text = text.to_owned();
    async move {
        if let Some(sharing) = sharing {
            match sharing.await {
                Ok(_) => return Handed::Shared,
                Err(error) if is_abort(&error) => return Handed::Cancelled,
                // Some browsers have the way and do not let it be taken.
                Err(_) => return copied(begin_copy(&text)).await,
            }
        }
        copied(copying).await
    }
}

/// Hands a file on: to another app where the phone shares files of this kind, else as a download.
pub fn file<'a>(
    name: &str,
    kind: &str,
    content: impl Into<Content<'a>>,
) -> impl Future<Output = Handed> + 'static {
    ended(begin_file(name, kind, content.into(), |_| true))
}

/// Hands a file to the browser's downloads.
///
/// On an iPhone's home screen a download can lead nowhere, so there the share sheet is opened.
pub fn keep<'a>(
    name: &str,
    kind: &str,
    content: impl Into<Content<'a>>,
) -> impl Future<Output = Handed> + 'static {
    ended(begin_file(name, kind, content.into(), is_iphone_app))
}

fn parts(bytes: impl Iterator<Item = impl AsRef<[u8]>>) -> Array {
    bytes.map(|bytes| Uint8Array::from(bytes.as_ref())).collect()
}

fn begin_share(text: &str) -> Option<JsFuture> {
    let navigator = navigator()?;
    get(&navigator, "share")?;
    let data = ShareData::new();
    data.set_text(text);
    promised(call(&navigator, "share", &[data.into()]))
}

fn begin_copy(text: &str) -> Option<JsFuture> {
    let clipboard = get(&navigator()?.into(), "clipboard")?;
    promised(call(&clipboard, "writeText", &[text.into()]))
}

/// What was called and has begun; none if it threw at once.
fn promised(called: Result<JsValue, JsValue>) -> Option<JsFuture> {
    // Not asked whether it is a promise of this page: one of a script beside it, which an extension may
    // have put in the way, is none and can be awaited all the same.
    called.ok().map(|begun| JsFuture::from(Promise::resolve(&begun)))
}

async fn copied(copying: Option<JsFuture>) -> Handed {
    let Some(copying) = copying else { return Handed::Refused };
    if copying.await.is_ok() { Handed::Copied } else { Handed::Refused }
}

/// What has begun: a share that is under way, with the file for when the phone does not let it be
/// taken; or a download, which needs no waiting for.
enum Begun {
    Sharing(JsFuture, File),
    Saved,
}

async fn ended(begun: Result<Begun, JsValue>) -> Handed {
    let (sharing, file) = match begun {
        Ok(Begun::Sharing(sharing, file)) => (sharing, file),
        Ok(Begun::Saved) => return Handed::Saved,
        Err(_) => return Handed::Refused,
    };
    match sharing.await {
        Ok(_) => Handed::Shared,
        Err(error) if is_abort(&error) => Handed::Cancelled,
        // Some browsers say that they share a kind of file, and then do not.
        Err(_) => match window().filter(|window| !is_iphone_app(window)) {
            Some(window) if download(&window, &file).is_ok() => Handed::Saved,
            _ => Handed::Refused,
        },
    }
}

fn begin_file(
    name: &str,
    kind: &str,
    content: Content,
    share: fn(&Window) -> bool,
) -> Result<Begun, JsValue> {
    let window = window().ok_or("no window")?;
    let bag = FilePropertyBag::new();
    bag.set_type(kind);
    let file = match content {
        Content::Text(text) => {
            File::new_with_str_sequence_and_options(&Array::of1(&text.into()), name, &bag)?
        }
        Content::Bytes(bytes) => {
            File::new_with_u8_array_sequence_and_options(&parts([bytes].iter()), name, &bag)?
        }
        Content::Parts(all) => {
            File::new_with_u8_array_sequence_and_options(&parts(all.iter()), name, &bag)?
        }
    };
    let navigator = window.navigator();
    if share(&window)
        && let Some(data) = shareable(&navigator, &file)
    {
        let sharing = JsFuture::from(navigator.share_with_data(&data));
        return Ok(Begun::Sharing(sharing, file));
    }
    download(&window, &file)?;
    Ok(Begun::Saved)
}

/// The file as something to share; none where the phone shares no files, or none of this kind.
fn shareable(navigator: &Navigator, file: &File) -> Option<ShareData> {
    get(navigator, "share")?;
    get(navigator, "canShare")?;
    let data = ShareData::new();
    data.set_files(&Array::of1(file));
    navigator.can_share_with_data(&data).then_some(data)
}

fn download(window: &Window, file: &File) -> Result<(), JsValue> {
    let document = window.document().ok_or("no document")?;
    let url = Url::create_object_url_with_blob(file)?;
    let link: HtmlAnchorElement = document.create_element("a")?.unchecked_into();
    link.set_href(&url);
    link.set_download(&file.name());
    link.click();
    // The download starts after this task: its source must outlive it a little.
    gloo_timers::callback::Timeout::new(60_000, move || {
        let _ = Url::revoke_object_url(&url);
    })
    .forget();
    Ok(())
}

/// Whether this runs from an iPhone's or iPad's home screen: only Safari has this property.
fn is_iphone_app(window: &Window) -> bool {
    get(&window.navigator(), "standalone").is_some_and(|value| value.is_truthy())
}

fn is_abort(error: &JsValue) -> bool {
    error.dyn_ref::<DomException>().is_some_and(|error| error.name() == "AbortError")
}
