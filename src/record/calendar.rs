//! Due moments as calendar events with alarms: RFC 5545.
//!
//! A page cannot ring in a phone that sleeps; the phone's own calendar can. The texts are passed in
//! and must name nobody: a calendar may be shared, and shows on a locked screen.

use super::iso;
use crate::case::CaseId;
use crate::measure::{Moment, Span};

/// How an alarm makes itself known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ring {
    /// A text shown; phones sound with it. What most calendars know.
    Display,
    /// A sound alone.
    Audio,
}

/// An alarm of every event.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Alarm {
    /// How long before the moment; [`Span::ZERO`] for the moment itself. Whole seconds count.
    pub before: Span,
    /// How it makes itself known.
    pub ring: Ring,
}

impl Alarm {
    /// Shown at the moment itself.
    pub const fn at_once() -> Self {
        Self::ahead(Span::ZERO)
    }

    /// Shown so long before the moment.
    pub const fn ahead(before: Span) -> Self {
        Self { before, ring: Ring::Display }
    }
}

/// One due moment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Due<'a> {
    /// Names it for the calendar: the same number of the same case is the same event, which a later
    /// file moves and does not double.
    pub number: u32,
    /// When. Parts of a second are cut off, so that no alarm is late.
    pub at: Moment,
    /// The line that the calendar shows. Names no patient.
    pub summary: &'a str,
    /// More of it, or nothing. Names no patient.
    pub notes: &'a str,
}

/// A file of due moments.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Calendar<'a> {
    /// Which program wrote it, as RFC 5545 wants it said.
    pub product: &'a str,
    /// The case, whose name is random and says nothing of a person.
    pub case: CaseId,
    /// When it is written. Of two files with the same event the later one holds.
    pub made: Moment,
    /// How long each event lasts; [`Span::ZERO`] for a moment without length.
    pub lasts: Span,
    /// The due moments.
    pub dues: &'a [Due<'a>],
    /// The alarms of each; the first is the one that every phone keeps.
    pub alarms: &'a [Alarm],
}

/// A moment that no calendar can hold: before the year 1 or after 9999.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct OutOfRange(pub Moment);

/// The moments of the looks to come if each round follows the other: the next one and those after
/// it, each `every` later. The earliest that they can be, since injecting takes its time too.
pub fn ahead(next: Moment, every: Span, count: u32) -> impl Iterator<Item = Moment> {
    std::iter::successors(Some(next), move |moment| Some(moment.after(every)))
        .take(usize::try_from(count).unwrap_or(usize::MAX))
}

impl Calendar<'_> {
    /// The file, in UTF-8 with CRLF, its long lines folded.
    ///
    /// # Errors
    /// [`OutOfRange`] with the moment that cannot be written.
    pub fn write(&self) -> Result<String, OutOfRange> {
        let made = utc(self.made)?;
        let mut lines = Lines::default();
        lines.plain("BEGIN:VCALENDAR");
        lines.plain("VERSION:2.0");
        lines.text("PRODID", self.product);
        lines.plain("CALSCALE:GREGORIAN");
        for due in self.dues {
            lines.plain("BEGIN:VEVENT");
            lines.plain(&format!("UID:{}-{}@freshet", self.case, due.number));
            lines.plain(&format!("DTSTAMP:{made}"));
            // Grows with each file, as an event that moves must.
            lines.plain(&format!("SEQUENCE:{}", self.sequence()));
            lines.plain(&format!("DTSTART:{}", utc(due.at)?));
            // An end at the start is forbidden; without one the event has no length.
            if self.lasts >= Span::seconds(1) {
                lines.plain(&format!("DTEND:{}", utc(due.at.after(self.lasts))?));
            }
            lines.text("SUMMARY", due.summary);
            if !due.notes.is_empty() {
                lines.text("DESCRIPTION", due.notes);
            }
            // Shown to others as taken up by something, if the calendar is shared.
            lines.plain("CLASS:PRIVATE");
            for alarm in self.alarms {
                lines.alarm(*alarm, due.summary);
            }
            lines.plain("END:VEVENT");
        }
        lines.plain("END:VCALENDAR");
        Ok(lines.0)
    }

    /// Minutes since the epoch: they fit into the 31 bits of RFC 5545 until the year 6053, seconds
    /// only until 2038.
    fn sequence(&self) -> i64 {
        let minutes = self.made.millis() / i64::try_from(MINUTE.as_millis()).unwrap_or(i64::MAX);
        minutes.clamp(0, i64::from(i32::MAX))
    }
}

/// One minute.
const MINUTE: Span = Span::minutes(1);

/// Octets of a line, without its end (RFC 5545, 3.1).
const LONGEST: usize = 75;

/// Content lines, folded as they are written.
#[derive(Default)]
struct Lines(String);

impl Lines {
    /// A line as it stands.
    fn plain(&mut self, line: &str) {
        let mut room = LONGEST;
        for sign in line.chars() {
            let size = sign.len_utf8();
            if size > room {
                self.0.push_str("\r\n ");
                // The space counts.
                room = LONGEST - 1;
            }
            self.0.push(sign);
            room -= size;
        }
        self.0.push_str("\r\n");
    }

    /// A property with a text.
    fn text(&mut self, name: &str, text: &str) {
        let mut line = String::with_capacity(name.len() + text.len() + 1);
        line.push_str(name);
        line.push(':');
        let mut signs = text.chars().peekable();
        while let Some(sign) = signs.next() {
            match sign {
                '\\' | ';' | ',' => line.extend(['\\', sign]),
                '\r' if signs.peek() == Some(&'\n') => {}
                '\r' | '\n' => line.push_str("\\n"),
                // No text may hold a control but the tab.
                sign if sign.is_control() && sign != '\t' => {}
                sign => line.push(sign),
            }
        }
        self.plain(&line);
    }

    fn alarm(&mut self, alarm: Alarm, summary: &str) {
        self.plain("BEGIN:VALARM");
        match alarm.ring {
            Ring::Display => {
                self.plain("ACTION:DISPLAY");
                self.text("DESCRIPTION", summary);
            }
            Ring::Audio => self.plain("ACTION:AUDIO"),
        }
        self.plain(&format!("TRIGGER:{}", before(alarm.before)));
        self.plain("END:VALARM");
    }
}

/// A time before the event, in whole minutes where it is some, else in seconds.
fn before(span: Span) -> String {
    let seconds = span.as_seconds();
    if seconds == 0 {
        "PT0S".into()
    } else if Span::minutes(span.as_minutes()) == Span::seconds(seconds) {
        format!("-PT{}M", span.as_minutes())
    } else {
        format!("-PT{seconds}S")
    }
}

/// A moment as RFC 5545 writes it in UTC: 20261125T140500Z.
fn utc(moment: Moment) -> Result<String, OutOfRange> {
    let text = iso::exact(moment).ok_or(OutOfRange(moment))?;
    Ok(text.replace(['-', ':'], ""))
}

#[cfg(test)]
mod tests {
    use super::*;

    const AT: Moment = Moment::from_millis(1_795_615_500_999);

    fn write(dues: &[Due], alarms: &[Alarm]) -> String {
        let case = CaseId::from_random(0xabc);
        let lasts = Span::minutes(10);
        Calendar { product: "-//x//y//", case, made: AT, lasts, dues, alarms }.write().unwrap()
    }

    fn due(summary: &str) -> Due<'_> {
        Due { number: 1, at: AT, summary, notes: "" }
    }

    #[test]
    fn an_event_with_its_alarms() {
        let alarms = [Alarm::at_once(), Alarm::ahead(Span::minutes(5))];
        let text = write(&[due("Look")], &alarms);
        let expected = "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//x//y//\r\n\
            CALSCALE:GREGORIAN\r\nBEGIN:VEVENT\r\n\
            UID:00000000000000000000000000000abc-1@freshet\r\n\
            DTSTAMP:20261125T140500Z\r\nSEQUENCE:29926925\r\n\
            DTSTART:20261125T140500Z\r\nDTEND:20261125T141500Z\r\n\
            SUMMARY:Look\r\nCLASS:PRIVATE\r\n\
            BEGIN:VALARM\r\nACTION:DISPLAY\r\nDESCRIPTION:Look\r\nTRIGGER:PT0S\r\nEND:VALARM\r\n\
            BEGIN:VALARM\r\nACTION:DISPLAY\r\nDESCRIPTION:Look\r\nTRIGGER:-PT5M\r\nEND:VALARM\r\n\
            END:VEVENT\r\nEND:VCALENDAR\r\n";
        assert_eq!(text, expected);
    }

    #[test]
    fn texts_are_escaped_and_controls_left_out() {
        let text = write(&[due("a\\b;c,d\r\ne\nf\rg\u{7}\t")], &[]);
        assert!(text.contains("SUMMARY:a\\\\b\\;c\\,d\\ne\\nf\\ng\t\r\n"), "{text}");
    }

    #[test]
    fn no_line_is_longer_than_allowed_and_no_sign_is_cut() {
        for lead in 0..4 {
            let long = format!("{}{}", "x".repeat(lead), "Look — 看🩺é".repeat(30));
            let text = write(&[due(&long)], &[Alarm::at_once()]);
            assert!(text.split("\r\n").all(|line| line.len() <= LONGEST));
            assert!(text.split("\r\n").any(|line| line.len() > LONGEST - 4), "folded too early");
            assert!(text.replace("\r\n ", "").contains(&format!("SUMMARY:{long}\r\n")));
        }
    }

    #[test]
    fn times_before_the_event() {
        assert_eq!(before(Span::ZERO), "PT0S");
        assert_eq!(before(Span::millis(900)), "PT0S");
        assert_eq!(before(Span::minutes(90)), "-PT90M");
        assert_eq!(before(Span::seconds(90)), "-PT90S");
    }

    #[test]
    fn no_length_has_no_end_and_audio_no_text() {
        let case = CaseId::from_random(1);
        let alarms = [Alarm { before: Span::ZERO, ring: Ring::Audio }];
        let dues = [due("Look")];
        let calendar = Calendar {
            product: "p",
            case,
            made: AT,
            lasts: Span::ZERO,
            dues: &dues,
            alarms: &alarms,
        };
        let text = calendar.write().unwrap();
        assert!(!text.contains("DTEND"));
        assert!(text.contains("ACTION:AUDIO\r\nTRIGGER:PT0S"));
    }

    #[test]
    fn moments_that_no_calendar_holds_are_refused() {
        assert_eq!(utc(Moment::from_millis(0)).unwrap(), "19700101T000000Z");
        assert_eq!(utc(Moment::from_millis(-1)).unwrap(), "19691231T235959Z");
        assert_eq!(utc(Moment::from_millis(951_825_600_000)).unwrap(), "20000229T120000Z");
        for millis in [i64::MAX, i64::MIN, -62_135_596_800_001] {
            let moment = Moment::from_millis(millis);
            assert_eq!(utc(moment), Err(OutOfRange(moment)));
        }
        assert_eq!(utc(Moment::from_millis(-62_135_596_800_000)).unwrap(), "00010101T000000Z");
    }

    #[test]
    fn looks_ahead_are_an_hour_apart() {
        let moments: Vec<Moment> = ahead(AT, Span::hours(1), 3).collect();
        assert_eq!(moments, [AT, AT.after(Span::hours(1)), AT.after(Span::hours(2))]);
        assert_eq!(ahead(AT, Span::hours(1), 0).count(), 0);
    }
}
