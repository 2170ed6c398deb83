//! Spans, hours and days.

use crate::measure::{Date, Moment, Span};
use crate::phone::clock;
use crate::ui::language::{decimal_sign, spoken};

fn month(date: Date) -> &'static str {
    let names =
        ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"]
            .map(spoken);
    names.get(usize::from(date.month().unsigned_abs()) - 1).unwrap_or(&"")
}

/// A span in words short enough for a figure: "45 s", "5 min", "1 h 18", "2 days".
pub fn span(span: Span) -> String {
    let (seconds, minutes, hours) = (span.as_seconds(), span.as_minutes(), span.as_hours());
    if span < Span::seconds(1) && span > Span::ZERO {
        let tenths = span.as_millis() / 100;
        tr!("{seconds} s", seconds = format!("{}{}{}", tenths / 10, decimal_sign(), tenths % 10))
    } else if seconds < 60 {
        tr!("{seconds} s", seconds)
    } else if minutes < 60 {
        tr!("{minutes} min", minutes)
    } else if hours < 48 && minutes.is_multiple_of(60) {
        tr!("{hours} h", hours)
    } else if hours < 48 {
        tr!("{hours} h {minutes}", hours, minutes = format!("{:02}", minutes % 60))
    } else {
        tr!("{days} days", days = hours / 24)
    }
}

/// Minutes and seconds left, or hours, minutes and seconds from an hour up: "42:10", "1:02:10".
pub fn countdown(span: Span) -> String {
    let (seconds, minutes, hours) = (span.as_seconds() % 60, span.as_minutes(), span.as_hours());
    if hours == 0 {
        format!("{minutes:02}:{seconds:02}")
    } else {
        format!("{hours}:{:02}:{seconds:02}", minutes % 60)
    }
}

/// The local hour and minute: "14:05".
pub fn hour(at: Moment) -> String {
    let (hour, minute) = clock::hour_minute(at);
    format!("{hour:02}:{minute:02}")
}

/// A day: "5 Nov 2026".
pub fn day(date: Date) -> String {
    tr!("{day} {month} {year}", day = date.day(), month = month(date), year = date.year())
}

/// A day of this year: "5 Nov".
pub fn short_day(date: Date) -> String {
    tr!("{day} {month}", day = date.day(), month = month(date))
}

/// The day of the week.
pub fn weekday(date: Date) -> &'static str {
    let names =
        ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"].map(spoken);
    names.get(date.weekday()).unwrap_or(&"")
}

/// The local day and hour: "5 Nov 2026, 14:05".
pub fn day_hour(at: Moment) -> String {
    format!("{}, {}", day(clock::date(at)), hour(at))
}
