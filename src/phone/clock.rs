//! Reading the phone's clocks. Nothing here can be told another time.

use crate::measure::{Date, Moment, Span};
use wasm_bindgen::JsValue;

/// The moment by the phone's wall clock.
pub fn now() -> Moment {
    Moment::from_millis(whole(js_sys::Date::now()))
}

/// A clock that nobody sets. It may stand still while the phone sleeps, so it measures no treatment:
/// it serves to notice that the wall clock jumped.
pub fn steady() -> Span {
    let clock = web_sys::window().and_then(|window| window.performance());
    Span::millis(clock.map_or(0, |clock| whole(clock.now()).unsigned_abs()))
}

/// When an event came, by [`steady`]; it may have waited since, for a page that was busy. Now, where the
/// browser gives a time that cannot be.
pub fn came(event: &web_sys::Event) -> Span {
    /// No tap waits longer.
    const WAITS: Span = Span::seconds(10);
    let now = steady();
    let came = u64::try_from(whole(event.time_stamp())).map_or(now, Span::millis);
    if came > Span::ZERO && came <= now && now.saturating_sub(came) < WAITS { came } else { now }
}

/// Minutes that local time was, or will be, ahead of UTC at `at`.
pub fn zone(at: Moment) -> i16 {
    // JavaScript counts minutes behind UTC. No zone is more than a day away.
    i16::try_from(-whole(js_date(at).get_timezone_offset())).unwrap_or(0)
}

/// Today by local time.
pub fn today() -> Date {
    date(now())
}

/// The local date of a moment.
pub fn date(at: Moment) -> Date {
    let local = js_date(at);
    let part = |number: u32| i8::try_from(number).unwrap_or(i8::MAX);
    let year = i16::try_from(local.get_full_year()).unwrap_or(i16::MAX);
    // A clock set beyond the year 9999 has no date; the last one makes everything expired, which shows.
    Date::new(year, part(local.get_month() + 1), part(local.get_date())).unwrap_or(Date::MAX)
}

/// The local hour and minute of a moment.
pub fn hour_minute(at: Moment) -> (u8, u8) {
    let local = js_date(at);
    let part = |number: u32| u8::try_from(number).unwrap_or(0);
    (part(local.get_hours()), part(local.get_minutes()))
}

/// The moment at which local clocks show a full hour of a day.
pub fn at_hour(date: Date, hour: u8) -> Moment {
    let local = js_sys::Date::new_with_year_month_day_hr(
        u32::from(date.year().unsigned_abs()),
        i32::from(date.month()) - 1,
        i32::from(date.day()),
        i32::from(hour),
    );
    Moment::from_millis(whole(local.get_time()))
}

fn js_date(at: Moment) -> js_sys::Date {
    #[expect(clippy::cast_precision_loss, reason = "JavaScript's own moments are no finer")]
    let millis = at.millis() as f64;
    js_sys::Date::new(&JsValue::from_f64(millis))
}

#[expect(clippy::cast_possible_truncation, reason = "saturates, and clocks are far from the edge")]
const fn whole(number: f64) -> i64 {
    number as i64
}
