//! The archive: a move that breaks off at any operation loses no line, and the next start ends it.

pub mod fake;

use fake::{Fate, Phone, run, run_beside};
use freshet::care::rounds::End;
use freshet::case::{Case, CaseId, Entry, Event, Headline, Journal, Reference, StrikeReason};
use freshet::measure::{Moment, Span};
use freshet::protocol::Protocol;
use freshet::store::archive::RENEWED;
use freshet::store::{Key, Opened, Pair, Refusal, Tiers, Trouble};
use proptest::prelude::*;
use std::collections::{BTreeMap, BTreeSet};

/// When the first case was opened.
const START: Moment = Moment::from_millis(1_700_000_000_000);

/// A case of so many notes, closed so many minutes after the start, or open.
fn case(number: u128, notes: usize, closed: Option<u64>) -> Journal {
    let mut journal = Journal::new(CaseId::from_random(number + 100));
    let reference = Reference::new(&format!("DEMO {number}")).unwrap();
    let protocol = Box::new(Protocol::default());
    journal.append(START, 60, Event::Opened { reference, protocol });
    for note in 0..notes {
        journal.append(START, 60, Event::Note(format!("note {note}")));
    }
    if let Some(minutes) = closed {
        let at = START.after(Span::minutes(minutes));
        journal.append(at, 60, Event::Closed(End::Done));
    }
    journal
}

fn cases() -> impl Strategy<Value = Vec<Journal>> {
    let one = (0..4_usize, prop::option::weighted(0.7, 1..50_u64));
    prop::collection::vec(one, 1..5).prop_map(|cases| {
        let numbered = (0_u128..).zip(cases);
        numbered.map(|(number, (notes, closed))| case(number, notes, closed)).collect()
    })
}

/// A phone on which these were recorded as always.
fn phone(cases: &[Journal]) -> Phone {
    let phone = Phone::default();
    let (near, deep, _) = phone.parts();
    let pair = Pair::new(near, deep);
    for entry in cases.iter().flat_map(Journal::entries) {
        run(pair.append(entry.clone())).unwrap().unwrap();
    }
    phone.flush();
    phone
}

fn open(phone: &Phone, budget: usize) -> Option<Opened> {
    let (near, deep, old) = phone.parts();
    run(Tiers::new(near, deep, old).with_budget(budget).open(&BTreeSet::new()))
}

fn lines(cases: &[Journal]) -> BTreeSet<String> {
    cases.iter().flat_map(Journal::entries).map(Entry::line).collect()
}

/// Each case is found once, whole and with no fault: on the shelves, or in the archive with its
/// headline.
fn found(phone: &Phone, opened: &Opened, cases: &[Journal]) {
    assert_eq!((&opened.trouble, &opened.damaged), (&Vec::new(), &Vec::new()));
    let mut held: BTreeMap<CaseId, Vec<Entry>> = BTreeMap::new();
    for entry in &opened.entries {
        held.entry(entry.case()).or_default().push(entry.clone());
    }
    for whole in cases {
        let id = whole.case();
        let headline: Vec<&Headline> = opened.archived.iter().filter(|h| h.id == id).collect();
        let entries = match (held.remove(&id), headline.as_slice()) {
            (Some(entries), []) => entries,
            (None, [headline]) => {
                assert_eq!(**headline, Case::of(whole).headline(whole));
                phone.archived(id).expect("it has a text").entries
            }
            (held, headlines) => panic!("{id}: {} on shelves, {headlines:?}", held.is_some()),
        };
        assert_eq!(Journal::from_entries(id, entries), (whole.clone(), Vec::new()));
    }
    assert!(held.is_empty(), "a case that never was");
}

/// What the shelves hold is within the budget, or nothing more may leave them; a further start changes
/// nothing.
fn settled(phone: &Phone, budget: usize, cases: &[Journal]) {
    let (near, deep) = (phone.near(), phone.deep());
    assert_eq!(near, deep);
    let size: usize = near.iter().map(|(key, line)| key.as_str().len() + line.len()).sum();
    let closed = |journal: &&Journal| Case::of(journal).closed.is_some();
    let waiting = cases
        .iter()
        .filter(closed)
        .any(|journal| journal.entries().iter().any(|entry| near.contains_key(&Key::of(entry))));
    assert!(size <= budget || !waiting, "a closed case stayed though {size} > {budget}");
    let texts = phone.texts();
    let again = open(phone, budget).unwrap();
    found(phone, &again, cases);
    assert_eq!((phone.near(), phone.deep(), phone.texts()), (near, deep, texts));
}

/// Opens with this fate, then again without, and looks for everything.
fn through(mut phone: Phone, fate: Fate, flushed: bool, budget: usize, cases: &[Journal]) {
    phone = phone.copied();
    phone.fated(fate);
    open(&phone, budget);
    let all = lines(cases);
    assert!(phone.durable().is_superset(&all), "a line is gone");
    if flushed {
        phone.flush();
    }
    phone.lose_unflushed();
    assert!(phone.everything().is_superset(&all), "a line is gone");
    phone.fated(Fate::Nothing);
    let opened = open(&phone, budget).unwrap();
    found(&phone, &opened, cases);
    phone.flush();
    settled(&phone, budget, cases);
}

/// How many operations an opening takes.
fn operations(phone: &Phone, budget: usize) -> usize {
    let phone = phone.copied();
    phone.fated(Fate::Nothing);
    open(&phone, budget);
    phone.fated(Fate::Nothing)
}

fn every_fate(phone: &Phone, budget: usize, cases: &[Journal]) {
    for number in 0..=operations(phone, budget) {
        for flushed in [false, true] {
            let refused = Refusal::Lost("gone".to_owned());
            for fate in [
                Fate::Kill(number),
                Fate::Refuse(number, Refusal::Full),
                Fate::Refuse(number, refused),
                Fate::Answerless(number),
            ] {
                through(phone.clone(), fate, flushed, budget, cases);
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]

    /// The move of several cases breaks off after every operation.
    #[test]
    fn a_move_that_breaks_off_loses_nothing(cases in cases(), budget in 0..12_000_usize) {
        every_fate(&phone(&cases), budget, &cases);
    }

    /// So does the opening after a case in the archive got a new entry, or was opened again.
    #[test]
    fn a_case_that_goes_on_comes_back_whole(
        mut cases in cases(),
        which in any::<prop::sample::Index>(),
        reopened in any::<bool>(),
        budget in 0..12_000_usize,
    ) {
        let phone = phone(&cases);
        open(&phone, 0).unwrap();
        phone.flush();
        let journal = which.get_mut(&mut cases);
        let at = START.after(Span::minutes(100));
        let closing = journal.entries().iter().find(|e| matches!(e.event(), Event::Closed(_)));
        let event = match closing.map(Entry::id) {
            Some(entry) if reopened => Event::Struck { entry, reason: StrikeReason::Slip },
            _ => Event::Note("afterwards".to_owned()),
        };
        let entry = journal.append(at, 60, event).clone();
        let (near, deep, _) = phone.parts();
        run(Pair::new(near, deep).append(entry)).unwrap().unwrap();
        every_fate(&phone, budget, &cases);
    }

    /// An older version, or a tab that still had them, puts lines of archived cases back.
    #[test]
    fn lines_that_come_back_are_no_faults(
        cases in cases(),
        picks in prop::collection::vec(any::<prop::sample::Index>(), 0..20),
    ) {
        let phone = phone(&cases);
        let before: Vec<_> = phone.near().into_iter().collect();
        open(&phone, 0).unwrap();
        let texts = phone.texts();
        let back = picks.iter().map(|pick| pick.get(&before).clone()).collect();
        phone.put_back(&back);
        phone.flush();
        every_fate(&phone, 0, &cases);
        let opened = open(&phone, 0).unwrap();
        found(&phone, &opened, &cases);
        prop_assert_eq!(phone.texts(), texts);
    }

    /// It breaks off twice, anywhere.
    #[test]
    fn breaks_off_twice(cases in cases(), first in 0..60_usize, second in 0..60_usize, flushed in any::<bool>()) {
        let phone = phone(&cases);
        phone.fated(Fate::Kill(first));
        open(&phone, 0);
        if flushed { phone.flush(); }
        phone.lose_unflushed();
        through(phone, Fate::Kill(second), !flushed, 0, &cases);
    }
}

#[test]
fn the_longest_closed_goes_first_and_an_open_one_never() {
    let cases =
        [case(0, 1, Some(30)), case(1, 1, None), case(2, 1, Some(10)), case(3, 1, Some(20))];
    let phone = phone(&cases);
    let size = |journal: &Journal| -> usize {
        let name = |entry: &Entry| Key::of(entry).as_str().len() + entry.line().len();
        journal.entries().iter().map(name).sum()
    };
    let all: usize = cases.iter().map(size).sum();
    let opened = open(&phone, all).unwrap();
    assert_eq!(opened.archived, [], "within the budget nothing moves");
    let names = |phone: &Phone| phone.texts().into_keys().collect::<Vec<_>>();
    open(&phone, all - 1).unwrap();
    assert_eq!(names(&phone), [cases[2].case()]);
    open(&phone, all - size(&cases[2]) - 1).unwrap();
    assert_eq!(names(&phone), [cases[2].case(), cases[3].case()]);
    open(&phone, 0).unwrap();
    assert_eq!(names(&phone), [cases[0].case(), cases[2].case(), cases[3].case()]);
    found(&phone, &open(&phone, 0).unwrap(), &cases);
}

#[test]
fn the_clinic_the_kit_and_what_is_not_whole_stay() {
    let closed = |id| {
        let mut journal = Journal::new(id);
        journal.append(START, 0, Event::Closed(End::Done));
        journal
    };
    let forked = [case(1, 1, Some(1)), {
        let mut other = Journal::new(case(1, 0, None).case());
        other.append(START, 0, Event::Note("other".to_owned()));
        other
    }];
    let damaged = case(2, 2, Some(1));
    let spared = case(3, 1, Some(1));
    let mut cases =
        vec![closed(CaseId::CLINIC), closed(CaseId::KIT), damaged.clone(), spared.clone()];
    cases.extend(forked);
    let phone = phone(&cases);
    let broken = Key::of(&damaged.entries()[1]);
    phone.put_back(&BTreeMap::from([(broken, "cut".to_owned())]));
    let before = phone.everything();
    let (near, deep, old) = phone.parts();
    let spare = BTreeSet::from([spared.case()]);
    run(Tiers::new(near, deep, old).with_budget(0).open(&spare)).unwrap();
    assert_eq!(phone.texts(), BTreeMap::new());
    assert!(phone.everything().is_superset(&before));
}

#[test]
fn a_headline_that_is_lost_or_wrong_is_made_anew() {
    let cases = [case(0, 1, Some(1)), case(1, 2, Some(2)), case(2, 0, Some(3))];
    let phone = phone(&cases);
    open(&phone, 0).unwrap();
    let id = |n: usize| cases[n].case();
    let right: Vec<_> = (0..3).map(|n| phone.headline_of(id(n))).collect();
    phone.headline(id(0), None);
    phone.headline(id(1), Some("{}"));
    phone.headline(id(2), right[0].as_deref());
    found(&phone, &open(&phone, 0).unwrap(), &cases);
    assert_eq!((0..3).map(|n| phone.headline_of(id(n))).collect::<Vec<_>>(), right);
}

/// An earlier version did not count the vials that are not noted.
#[test]
fn a_headline_of_an_earlier_version_is_made_anew_a_few_at_each_start() {
    let cases: Vec<Journal> =
        (0..RENEWED as u128 + 3).map(|number| case(number, 0, Some(1))).collect();
    let phone = phone(&cases);
    open(&phone, 0).unwrap();
    for case in &cases {
        let now = phone.headline_of(case.case()).unwrap();
        let old = now.replace(",\"unnoted\":0", "");
        assert_ne!(old, now);
        phone.headline(case.case(), Some(&old));
    }
    let unknown = |opened: &Opened| {
        let lines = opened.archived.iter();
        (opened.archived.len(), lines.filter(|line| line.unnoted.is_none()).count())
    };
    assert_eq!(unknown(&open(&phone, 0).unwrap()), (cases.len(), 3));
    // Where a text cannot be read, the old headline is better than none: the two shelves, the names
    // and the headlines come before it.
    phone.fated(Fate::Refuse(4, Refusal::Denied));
    assert_eq!(unknown(&open(&phone, 0).unwrap()), (cases.len(), 1));
    phone.fated(Fate::Nothing);
    found(&phone, &open(&phone, 0).unwrap(), &cases);
    let kept = cases.iter().map(|case| phone.headline_of(case.case()).unwrap());
    assert!(kept.into_iter().all(|json| json.contains("\"unnoted\":0")));
}

#[test]
fn a_text_with_a_damaged_line_is_never_taken_for_the_whole() {
    let cases = [case(0, 2, Some(1))];
    let phone = phone(&cases);
    let before = phone.near();
    open(&phone, 0).unwrap();
    let text = phone.texts()[&cases[0].case()].replace("note 1", "note 7");
    phone.text(cases[0].case(), &text);
    phone.put_back(&before);
    phone.flush();
    for _ in 0..2 {
        let opened = open(&phone, 0).unwrap();
        assert_eq!(opened.entries.len(), cases[0].entries().len());
        assert_eq!(phone.near(), before);
        assert_eq!(phone.texts()[&cases[0].case()], text, "what lies there stays");
    }
}

#[test]
fn a_text_of_which_nothing_can_be_read_is_named() {
    let cases = [case(0, 0, Some(1))];
    let phone = phone(&cases);
    open(&phone, 0).unwrap();
    phone.text(cases[0].case(), "cut\n");
    phone.headline(cases[0].case(), None);
    let opened = open(&phone, 0).unwrap();
    let named: Vec<_> = opened.damaged.iter().map(|d| (d.key.case(), d.line.as_str())).collect();
    assert_eq!(named, [(Some(cases[0].case()), "cut")]);
}

#[test]
fn an_archive_that_cannot_be_read_is_said() {
    let cases = [case(0, 1, Some(1)), case(1, 1, None)];
    let phone = phone(&cases);
    open(&phone, 0).unwrap();
    // Both shelves come first.
    phone.fated(Fate::Refuse(2, Refusal::Denied));
    let opened = open(&phone, 0).unwrap();
    assert_eq!(opened.trouble, [Trouble::Archive(Refusal::Denied)]);
    assert_eq!(opened.entries.len(), cases[1].entries().len());
}

/// One tab stands still in the middle of a move while another writes a note into the same case and
/// moves it; then the first goes on with what it read before.
#[test]
fn two_tabs_that_move_one_case_take_nothing_from_each_other() {
    let mut cases = vec![case(0, 2, Some(1)), case(1, 1, Some(2))];
    let steps = operations(&phone(&cases), 0) * 2;
    let note = cases[0].next(START.after(Span::minutes(60)), 60, Event::Note("late".to_owned()));
    let before = phone(&cases);
    cases[0].push(note.clone()).unwrap();
    for still in 0..=steps {
        let phone = before.copied();
        let (near, deep, old) = phone.parts();
        let (other, spare) = (Tiers::new(near, deep, old).with_budget(0), BTreeSet::new());
        run_beside(other.open(&spare), still, || {
            let (near, deep, old) = phone.parts();
            let tab = Tiers::new(near, deep, old).with_budget(0);
            run(tab.append(note.clone())).unwrap().unwrap();
            run(tab.open(&spare)).unwrap();
        });
        phone.flush();
        found(&phone, &open(&phone, 0).unwrap(), &cases);
        settled(&phone, 0, &cases);
    }
}
