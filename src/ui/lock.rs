//! The phone locks itself when nobody has touched the app for a while, and hears of it when another tab
//! sets the passcode or takes it off.

use super::desk::Desk;
use super::habits::use_habits;
use crate::measure::Moment;
use crate::phone::{tabs, touch, use_clock, use_now};
use crate::store::gate::{self, Standing};
use leptos::prelude::*;

/// Locks after the time that is set. Calls itself off while no passcode is.
pub fn watch(desk: Desk) {
    let (clock, now, set) = (use_clock(), use_now(), use_habits());
    tabs::on_change(move |name| {
        if gate::is_told_by(name.as_deref()) {
            desk.passcode_changed();
        }
    });
    let last = StoredValue::new(None::<Moment>);
    let lock_if_late = move |at: Moment| {
        let since = last.get_value().unwrap_or(at);
        if desk.open_gate() && at.since(since) >= set.patience_untracked().span() {
            desk.lock();
        }
    };
    // The touch that comes after a long pause is not to open what should have been locked.
    touch::on_touch(move || {
        let at = clock.now();
        lock_if_late(at);
        last.set_value(Some(at));
    });
    // Once a minute would do, but a page that comes back into view is to be locked before it is read.
    Effect::new(move |_| {
        let at = now.get();
        if last.get_value().is_none() {
            last.set_value(Some(at));
        }
        lock_if_late(at);
    });
    Effect::new(move |before: Option<Standing>| {
        let standing = desk.standing();
        if before != Some(standing) {
            last.set_value(Some(clock.now()));
        }
        standing
    });
}
