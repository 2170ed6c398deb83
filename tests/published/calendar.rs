//! Calendar files, RFC 5545, against what two Python readers understand of them, `icalendar` and
//! `vobject`: `fixtures/calendars.json`, written by `fixtures/calendars.py`.

use freshet::case::CaseId;
use freshet::measure::{Hash, Moment, Span};
use freshet::record::calendar::{Alarm, Calendar, Due, Ring, ahead};
use serde::Deserialize;
use std::fs;
use std::path::Path;

const CASES: u64 = 60;

/// Texts that a careless writer spoils: each sign to be escaped, line ends, signs of two to four
/// octets round the fold, what looks like a property, and nothing special.
const TEXTS: [&str; 10] = [
    "Look at the skin",
    "Round 2; lips, chin: press 5 s",
    "a\\nb is no line end, a\nb is",
    "END:VEVENT\nBEGIN:VALARM",
    "Schau nach: Röte, Blässe, Wärme – und die Gegenseite zum Vergleich, bitte",
    "检查皮肤的颜色、毛细血管充盈时间和疼痛,并与对侧比较,然后记录在案,以便下一轮使用",
    "🩺🩺🩺🩺🩺🩺🩺🩺🩺🩺🩺🩺🩺🩺🩺🩺🩺🩺🩺🩺🩺🩺🩺🩺🩺",
    "\"quoted\" and ^caret^ 100% \\ \\\\ \\; \\,",
    "0123456789012345678901234567890123456789012345678901234567890123456\
     0123456789012345678901234567890123456789012345678901234567890123456789012345",
    "x",
];

/// What was to be said in one file.
struct Said {
    case: CaseId,
    made: Moment,
    lasts: Span,
    events: Vec<(Moment, String, String)>,
    alarms: Vec<Alarm>,
}

impl Said {
    /// The file of this number. Nothing random, so that the fixture stays what it is.
    fn case(number: u64) -> Self {
        let text = |at: u64| TEXTS[usize::try_from(at).unwrap() % TEXTS.len()].to_owned();
        // Over leap days, ends of years, changes to summer time; 71 days and some hours apart.
        let step = 71 * 86_400_000 + 5 * 3_600_000 + 7 * 60_000 + 11_013;
        let first = Moment::from_millis(1_740_787_199_999).after(Span::millis(step * number));
        let looks = u32::try_from(number % 5).unwrap();
        let events = ahead(first, Span::minutes(45 + number), looks)
            .zip(0..)
            .map(|(at, look)| {
                // Each text at each place of the fold.
                let summary = format!("{}{}", "·".repeat(look), text(number + look as u64));
                let notes = if number.is_multiple_of(3) { String::new() } else { text(number * 7) };
                (at, summary, notes)
            })
            .collect();
        let alarms = match number % 4 {
            0 => vec![Alarm::at_once()],
            1 => vec![Alarm::at_once(), Alarm::ahead(Span::minutes(5))],
            2 => vec![Alarm { before: Span::seconds(90), ring: Ring::Audio }],
            _ => vec![],
        };
        let lasts = Span::minutes(if number.is_multiple_of(2) { 10 } else { 0 });
        let made = first.before(Span::minutes(60));
        Self { case: CaseId::from_random(u128::from(number) << 90), made, lasts, events, alarms }
    }

    fn write(&self) -> String {
        let dues: Vec<Due> = (1..)
            .zip(&self.events)
            .map(|(number, (at, summary, notes))| Due { number, at: *at, summary, notes })
            .collect();
        let calendar = Calendar {
            product: "-//Freshet//Hours//EN",
            case: self.case,
            made: self.made,
            lasts: self.lasts,
            dues: &dues,
            alarms: &self.alarms,
        };
        calendar.write().unwrap()
    }
}

/// One file as it was when the readers read it.
#[derive(Deserialize)]
struct Read {
    digest: Hash,
    icalendar: Vec<Event>,
    vobject: Vec<Event>,
}

#[derive(Debug, PartialEq, Eq, Deserialize)]
struct Event {
    uid: String,
    /// Seconds since the epoch, as all moments here.
    stamp: i64,
    sequence: i64,
    start: i64,
    end: Option<i64>,
    summary: String,
    notes: String,
    class: String,
    /// Action, seconds from the start, text.
    alarms: Vec<(String, i64, String)>,
}

impl Said {
    /// What a reader should understand.
    fn understood(&self) -> Vec<Event> {
        let seconds = |moment: Moment| moment.millis().div_euclid(1_000);
        let event = |(number, (at, summary, notes)): (usize, &(Moment, String, String))| Event {
            uid: format!("{}-{number}@freshet", self.case),
            stamp: seconds(self.made),
            sequence: seconds(self.made).div_euclid(60),
            start: seconds(*at),
            end: (self.lasts > Span::ZERO).then(|| seconds(at.after(self.lasts))),
            summary: summary.clone(),
            notes: notes.clone(),
            class: "PRIVATE".into(),
            alarms: self
                .alarms
                .iter()
                .map(|alarm| {
                    let before = -i64::try_from(alarm.before.as_seconds()).unwrap();
                    match alarm.ring {
                        Ring::Display => ("DISPLAY".into(), before, summary.clone()),
                        Ring::Audio => ("AUDIO".into(), before, String::new()),
                    }
                })
                .collect(),
        };
        (1..).zip(&self.events).map(event).collect()
    }
}

#[test]
fn two_readers_understand_what_was_said() {
    let read: Vec<Read> = serde_json::from_str(include_str!("../fixtures/calendars.json")).unwrap();
    // No test may pass because the file has lost its cases.
    assert_eq!(read.len() as u64, CASES);
    assert!(read.iter().map(|file| file.icalendar.len()).sum::<usize>() > 100);
    for (number, file) in (0..CASES).zip(read) {
        let said = Said::case(number);
        let digest = Hash::of(said.write().as_bytes());
        assert_eq!(digest, file.digest, "file {number} is not the one that was read");
        assert_eq!(file.icalendar, said.understood(), "icalendar, file {number}");
        assert_eq!(file.vobject, said.understood(), "vobject, file {number}");
    }
}

/// For `fixtures/calendars.py`: writes the files where it looks for them.
#[test]
#[ignore = "writes files for the script that makes the fixture"]
fn write_the_files() {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("calendar");
    fs::create_dir_all(&folder).unwrap();
    for number in 0..CASES {
        fs::write(folder.join(format!("{number:03}.ics")), Said::case(number).write()).unwrap();
    }
    println!("{}", folder.display());
}
