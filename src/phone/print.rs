//! The phone's own print view, which also saves as PDF.

/// Opens it for the page as it stands. Whether it opened: some browsers inside other apps have none.
/// To be called straight from a tap.
pub fn print() -> bool {
    web_sys::window().is_some_and(|window| window.print().is_ok())
}
