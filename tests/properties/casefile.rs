//! Files of cases, read again and spoilt: what is read is what was written, or nothing is.

use freshet::care::rounds::{Act, SkipReason};
use freshet::case::{CaseId, Event, Journal};
use freshet::measure::{Moment, Volume};
use freshet::record::lines::Unread;
use freshet::record::{file, samples};
use proptest::prelude::*;
use proptest::sample::Index;

fn event() -> impl Strategy<Value = Event> {
    prop_oneof![
        any::<String>().prop_map(Event::Note),
        (1_u32..50, 1_u64..300).prop_map(|(point, volume)| {
            Event::Round(Act::Inject { point, volume: Volume::ul(volume) })
        }),
        (1_u32..50)
            .prop_map(|point| Event::Round(Act::Skip { point, reason: SkipReason::Patient })),
        any::<i64>().prop_map(Event::ClockJumped),
    ]
}

fn journal(most: usize) -> impl Strategy<Value = Journal> {
    let events = proptest::collection::vec((any::<i64>(), -720_i16..720, event()), 1..most);
    (any::<u128>(), events).prop_map(|(id, events)| {
        let mut journal = Journal::new(CaseId::from_random(id));
        for (at, zone, event) in events {
            journal.append(Moment::from_millis(at), zone, event);
        }
        journal
    })
}

/// A spoilt file is refused, or nothing that counts was spoilt.
fn refused_or_same(spoilt: &str, journal: &Journal) -> Result<(), TestCaseError> {
    if let Ok(read) = file::read(spoilt) {
        prop_assert_eq!(&read, std::slice::from_ref(journal));
    }
    Ok(())
}

proptest! {
    #[test]
    fn what_was_written_is_read(journal in journal(30), made in any::<i64>()) {
        let text = file::write(&journal, Moment::from_millis(made));
        prop_assert_eq!(file::read(&text), Ok(vec![journal]));
    }

    #[test]
    fn a_sign_changed_taken_out_or_put_in_is_refused(
        journal in journal(5),
        at in any::<Index>(),
        sign in any::<char>(),
    ) {
        let text = file::write(&journal, Moment::from_millis(0));
        let signs: Vec<char> = text.chars().collect();
        let at = at.index(signs.len());
        let with = |put: &[char], rest: usize| {
            signs[..at].iter().chain(put).chain(&signs[rest..]).collect::<String>()
        };
        refused_or_same(&with(&[sign], at + 1), &journal)?;
        refused_or_same(&with(&[], at + 1), &journal)?;
        refused_or_same(&with(&[sign], at), &journal)?;
    }

    #[test]
    fn no_text_makes_it_panic(text in any::<String>()) {
        let _ = file::read(&text);
        let _ = file::read(&format!("{{\"form\":\"freshet-case\",{text}"));
    }

    /// Lines alone: whatever is cut off, what is read is where the record began, entry by entry.
    #[test]
    fn lines_cut_anywhere_are_refused_or_begin_as_the_record_does(
        journal in journal(6), at in any::<Index>(),
    ) {
        let text = journal.lines();
        let mut cut = at.index(text.len());
        while !text.is_char_boundary(cut) {
            cut -= 1;
        }
        match file::read(&text[..cut]) {
            Ok(read) => {
                prop_assert_eq!(read.len(), 1);
                prop_assert!(journal.entries().starts_with(read[0].entries()));
                // As many as there are whole lines, whether or not the end of the last was cut off.
                prop_assert_eq!(read[0].entries().len(), text[..cut].lines().count());
            }
            Err(why) => prop_assert!(
                matches!(why, Unread::Truncated(_) | Unread::Foreign | Unread::Empty), "{}", why
            ),
        }
    }

    #[test]
    fn a_sign_of_lines_changed_taken_out_or_put_in_is_refused(
        journal in journal(4), at in any::<Index>(), sign in any::<char>(),
    ) {
        let text = journal.lines();
        let signs: Vec<char> = text.chars().collect();
        // The end of the last line may be lost.
        let at = at.index(signs.len() - 1);
        let with = |put: &[char], rest: usize| {
            signs[..at].iter().chain(put).chain(&signs[rest..]).collect::<String>()
        };
        refused_or_same(&with(&[sign], at + 1), &journal)?;
        refused_or_same(&with(&[], at + 1), &journal)?;
        refused_or_same(&with(&[sign], at), &journal)?;
    }

    /// In whatever order and however often its lines stand, a record of two cases is read as it was.
    #[test]
    fn lines_in_any_order_are_the_same_record(
        one in journal(5), two in journal(5), keys in proptest::collection::vec(any::<u32>(), 10),
    ) {
        prop_assume!(one.case() != two.case());
        let text = one.lines() + &two.lines();
        let mut lines: Vec<(u32, &str)> = keys.into_iter().cycle().zip(text.lines()).collect();
        lines.push((0, lines[0].1));
        lines.sort_unstable();
        let mixed = lines.iter().flat_map(|(_, line)| [line, "\n"]).collect::<String>();
        let mut expected = vec![one, two];
        expected.sort_by_key(Journal::case);
        prop_assert_eq!(file::read(&mixed), Ok(expected));
    }

    #[test]
    fn lines_of_two_files_do_not_mix(
        one in journal(6), two in journal(6), take in any::<Index>(), put in any::<Index>(),
    ) {
        prop_assume!(one != two);
        let (text, other) =
            (file::write(&one, Moment::from_millis(0)), file::write(&two, Moment::from_millis(0)));
        let (mut lines, others): (Vec<&str>, Vec<&str>) =
            (text.lines().collect(), other.lines().collect());
        let at = take.index(lines.len());
        lines[at] = others[put.index(others.len())];
        refused_or_same(&lines.join("\n"), &one)?;
    }
}

/// Each place of a whole file: every cut, and every octet made another.
#[test]
fn every_cut_and_every_change_of_a_small_file() {
    let journal = samples::opened().journal;
    let text = file::write(&journal, samples::START);
    // What counts ends with the last brace; the end of its line may be lost.
    let end = text.trim_end().len();
    let mut cuts = 0;
    for cut in (0..end).filter(|cut| text.is_char_boundary(*cut)) {
        assert!(file::read(&text[..cut]).is_err(), "{cut}");
        cuts += 1;
    }
    assert!(cuts > 1_000);
    let mut refused = 0;
    for at in 0..end {
        for other in [b' ', b'0', b'9', b'"', b'}', b'x', text.as_bytes()[at] ^ 1] {
            let mut spoilt = text.clone().into_bytes();
            spoilt[at] = other;
            let Ok(spoilt) = String::from_utf8(spoilt) else { continue };
            match file::read(&spoilt) {
                Ok(read) => assert_eq!(read, std::slice::from_ref(&journal), "{at}"),
                Err(_) => refused += 1,
            }
        }
    }
    // All but what names the app and the moment.
    assert!(refused > 6 * (end - 100), "{refused} of {end}");
}
