//! Drives the built app in real browsers over WebDriver, as a user would: by what is seen and
//! said, never by test ids.
//!
//! | module | what it is |
//! |---|---|
//! | [`build`] | the built app, and a second version of it |
//! | [`server`] | the static host that serves it, under a sub-path, until it is stopped |
//! | [`engine`] | a browser and its driver, found, started and ended |
//! | [`bidi`] | Firefox's second channel, for what plain WebDriver cannot ask |
//! | [`phone`] | a phone-sized browser with its own profile: opened, killed, opened again |
//! | [`outside`] | what is set about it: clock, width, colours, tabs |
//! | [`hand`] | what a user does: tap, tick, type |
//! | [`finger`] | fingers on the glass: strokes and pinches |
//! | [`eye`] | what a user sees: headings, figures, words |
//! | [`canvas`] | where the picture that is drawn on lies on the screen |
//! | [`photo`] | photos that the tests make: a card on a tilted plane, and files that are hardly photos |
//! | [`check`] | what is checked on each screen: axe, width, size of targets |
//! | [`fit`] | and on other shapes of screen: nothing cut off, covered or out of reach |
//! | [`keys`] | a keyboard: what has the focus, and the keys that move and press it |
//! | [`tongue`] | a second language of the app, for flows that name everything in English |
//! | [`flows`] | whole ways through the app, shared by the tests and the page of screenshots |
//!
//! The environment names what is not in this folder: `FRESHET_DIST` (the built app),
//! `FRESHET_CHROMEDRIVER`, `FRESHET_GECKODRIVER`, `FRESHET_WEBKITDRIVER` and `FRESHET_AXE`;
//! `tools/test` sets them all. `FRESHET_ENGINES` may name one engine to leave the others out while
//! working.

pub mod bidi;
pub mod build;
pub mod canvas;
pub mod check;
pub mod engine;
pub mod eye;
pub mod finger;
pub mod fit;
pub mod flows;
pub mod hand;
pub mod keys;
pub mod outside;
pub mod phone;
pub mod photo;
pub mod server;
pub mod tongue;
