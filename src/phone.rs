//! What the phone does: tells the time, keeps its screen on, rings, draws random bits, says what
//! becomes of the app. Nothing clinical is known here.
//!
//! Every answer is typed, and none of these failing stops the app: a phone without a wake lock is a
//! phone whose user must be told to keep the screen on.

pub mod bells;
pub mod hands;
pub mod jump;
pub mod picture;
pub mod zone;

#[cfg(feature = "app")]
pub mod badge;
#[cfg(feature = "app")]
pub mod barcode;
#[cfg(feature = "app")]
pub mod camera;
#[cfg(feature = "app")]
pub mod clock;
#[cfg(feature = "app")]
pub mod file;
#[cfg(feature = "app")]
mod js;
#[cfg(feature = "app")]
pub mod notice;
#[cfg(feature = "app")]
pub mod own;
#[cfg(feature = "app")]
pub mod panic;
#[cfg(feature = "app")]
pub mod print;
#[cfg(feature = "app")]
pub mod random;
#[cfg(feature = "app")]
pub mod share;
#[cfg(feature = "app")]
pub mod sound;
#[cfg(feature = "app")]
pub mod tabs;
#[cfg(feature = "app")]
pub mod theme;
#[cfg(feature = "app")]
pub mod tick;
#[cfg(feature = "app")]
pub mod touch;
#[cfg(feature = "app")]
pub mod update;
#[cfg(feature = "app")]
pub mod view;
#[cfg(feature = "app")]
pub mod wake;

#[cfg(feature = "app")]
pub use tick::{Clock, provide_rehearsed, use_clock, use_jump, use_now};

/// Provides the clock, the news of updates and the place among tabs as context. To be called once,
/// in the root component, so that they outlive every page.
#[cfg(feature = "app")]
pub fn provide() {
    tick::provide();
    update::provide();
    tabs::provide();
}
