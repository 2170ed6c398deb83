//! The store over two shelves that fail, lie half written, and are killed at any step.

pub(in crate::store) mod fake;

use super::*;
use crate::case::{CaseId, Damage, Event, Journal, SCHEMA};
use crate::measure::{Hash, Moment};
use fake::{Fake, Fault, finish, run_for};
use proptest::prelude::*;
use std::collections::BTreeSet;

/// A case of so many notes.
fn entries(count: usize) -> Vec<Entry> {
    let mut journal = Journal::new(CaseId::from_random(7));
    for number in 0..count {
        let at = Moment::from_millis(1_700_000_000_000)
            .after(crate::measure::Span::minutes(number as u64));
        journal.append(at, 60, Event::Note(format!("note {number}")));
    }
    journal.entries().to_vec()
}

fn ids(entries: &[Entry]) -> Vec<Hash> {
    entries.iter().map(Entry::id).collect()
}

fn fault() -> impl Strategy<Value = Fault> {
    prop_oneof![
        4 => Just(Fault::None),
        1 => Just(Fault::Refuse(Refusal::Full)),
        1 => Just(Fault::Half(Refusal::Full)),
        1 => Just(Fault::KeptButLost),
    ]
}

/// Both shelves hold the same lines, and opening once more changes nothing.
fn settled(near: &Fake, deep: &Fake) {
    assert_eq!(near.lines(), deep.lines());
    let again = finish(Pair::new(near.clone(), deep.clone()).open());
    assert_eq!((again.repaired, again.trouble), (Repaired::default(), Vec::new()));
}

proptest! {
    /// Each entry is appended with faults on either shelf and the app may be killed at any step; at
    /// each kill the near shelf forgets what it had not yet put on the disk.
    #[test]
    fn what_was_acknowledged_outlives_a_kill(
        acts in prop::collection::vec((fault(), fault(), prop::option::of(0..6_usize), any::<bool>()), 1..12),
        start in (fault(), fault(), prop::option::of(0..8_usize)),
    ) {
        let (near, deep) = (Fake::quick(), Fake::sure());
        let store = Pair::new(near.clone(), deep.clone());
        let all = entries(acts.len());
        let mut owed = BTreeSet::new();
        for (entry, (near_fault, deep_fault, killed, flushed)) in all.iter().zip(acts) {
            near.next(near_fault);
            deep.next(deep_fault);
            let answer = run_for(store.append(entry.clone()), killed);
            match answer {
                Some(Ok(Stored::Twice | Stored::Once { missing: Side::Local, .. })) => {
                    owed.insert(entry.id());
                }
                Some(Ok(Stored::Once { missing: Side::Indexed, .. })) if flushed => {
                    owed.insert(entry.id());
                }
                Some(Err(error)) => prop_assert_eq!(&*error.entry, entry),
                _ => {}
            }
            if flushed {
                near.flush();
            }
            if killed.is_some() {
                near.kill();
            }
        }
        near.kill();
        // A start that fails or is killed midway must not lose anything either.
        near.next(start.0);
        deep.next(start.1);
        run_for(store.open(), start.2);
        near.next(Fault::None);
        deep.next(Fault::None);

        let opened = finish(store.open());
        let found = ids(&opened.entries);
        prop_assert!(owed.iter().all(|id| found.contains(id)), "an acknowledged entry is gone");
        prop_assert_eq!(found.iter().collect::<BTreeSet<_>>().len(), found.len(), "doubled");
        prop_assert!(found.iter().all(|id| ids(&all).contains(id)));
        prop_assert!(opened.entries.is_sorted_by_key(Entry::seq));
        prop_assert_eq!((opened.damaged, opened.trouble), (Vec::new(), Vec::new()));
        settled(&near, &deep);
    }

    /// Lines are cut or changed on either shelf; the repair itself is refused or killed midway.
    #[test]
    fn a_damaged_line_is_kept_named_and_made_good_from_the_other_shelf(
        count in 1..6_usize,
        hurts in prop::collection::vec((any::<bool>(), 0..6_usize, 0..3_usize), 1..8),
        starts in prop::collection::vec((fault(), fault(), prop::option::of(0..8_usize)), 0..3),
    ) {
        let (near, deep) = (Fake::quick(), Fake::sure());
        let store = Pair::new(near.clone(), deep.clone());
        let all = entries(count);
        for entry in &all {
            assert_eq!(finish(store.append(entry.clone())), Ok(Stored::Twice));
        }
        let mut raw = BTreeSet::new();
        let mut hurt = [BTreeSet::new(), BTreeSet::new()];
        for (side, which, how) in hurts {
            let entry = &all[which % count];
            let line = entry.line();
            let broken = match how {
                0 => line[..line.len() / 2].to_owned(),
                1 => line.replace("note", "nope"),
                _ => String::new(),
            };
            let shelf = if side { &deep } else { &near };
            if hurt[usize::from(side)].insert(entry.id()) {
                shelf.replace(&Key::of(entry), &broken);
                raw.insert((Key::of(entry), broken));
            }
        }
        near.flush();
        for (near_fault, deep_fault, killed) in starts {
            near.next(near_fault);
            deep.next(deep_fault);
            run_for(store.open(), killed);
            near.flush();
            let (here, there) = (near.lines(), deep.lines());
            for (_, line) in &raw {
                prop_assert!(here.values().chain(there.values()).any(|kept| kept == line));
            }
        }
        near.next(Fault::None);
        deep.next(Fault::None);

        let opened = finish(store.open());
        let lost: BTreeSet<_> = hurt[0].intersection(&hurt[1]).copied().collect();
        let whole: Vec<_> = ids(&all).into_iter().filter(|id| !lost.contains(id)).collect();
        prop_assert_eq!(ids(&opened.entries), whole);
        let named: BTreeSet<_> =
            opened.damaged.iter().map(|d| (d.key.clone(), d.line.clone())).collect();
        prop_assert_eq!(&named, &raw);
        prop_assert_eq!(named.len(), opened.damaged.len(), "doubled");
        for damaged in &opened.damaged {
            let missing = all.iter().any(|e| Key::of(e) == damaged.key && lost.contains(&e.id()));
            prop_assert_eq!(damaged.mended, !missing);
        }
        for (_, line) in &raw {
            prop_assert!(near.lines().values().any(|kept| kept == line));
            prop_assert!(deep.lines().values().any(|kept| kept == line));
        }
    }
}

#[test]
fn the_near_shelf_has_an_entry_before_anything_is_awaited() {
    let (near, deep) = (Fake::quick(), Fake::sure());
    let store = Pair::new(near.clone(), deep.clone());
    let entry = entries(1).remove(0);
    drop(store.append(entry.clone()));
    assert_eq!(near.lines().get(&Key::of(&entry)), Some(&entry.line()));
    assert!(deep.lines().is_empty());
}

#[test]
fn when_both_refuse_the_entry_comes_back_and_can_be_tried_again() {
    let (near, deep) = (Fake::quick(), Fake::sure());
    let store = Pair::new(near.clone(), deep.clone());
    near.next(Fault::Refuse(Refusal::Full));
    deep.next(Fault::Refuse(Refusal::Lost("gone".to_owned())));
    let error = finish(store.append(entries(1).remove(0))).unwrap_err();
    assert_eq!(error.local, Refusal::Full);
    assert_eq!(error.indexed, Refusal::Lost("gone".to_owned()));
    assert_eq!(finish(store.append(*error.entry)), Ok(Stored::Twice));
}

#[test]
fn one_refusal_is_said_and_the_next_start_makes_it_good() {
    let (near, deep) = (Fake::quick(), Fake::sure());
    let store = Pair::new(near.clone(), deep.clone());
    deep.next(Fault::Refuse(Refusal::Full));
    let answer = finish(store.append(entries(1).remove(0)));
    assert_eq!(answer, Ok(Stored::Once { missing: Side::Indexed, why: Refusal::Full }));
    let opened = finish(store.open());
    assert_eq!(opened.repaired, Repaired { local: 0, indexed: 1 });
    settled(&near, &deep);
}

#[test]
fn a_shelf_that_cannot_be_read_is_said_and_not_written_to() {
    let (near, deep) = (Fake::quick(), Fake::sure());
    let store = Pair::new(near.clone(), deep.clone());
    near.next(Fault::Refuse(Refusal::Full));
    finish(store.append(entries(1).remove(0))).unwrap();
    near.unreadable(true);
    let opened = finish(store.open());
    assert_eq!(opened.entries.len(), 1);
    assert_eq!(opened.trouble, [Trouble::Unread(Side::Local, Refusal::Denied)]);
    assert!(near.lines().is_empty());
}

#[test]
fn a_line_of_a_later_version_stays_as_it_is_and_goes_to_both_shelves() {
    let (near, deep) = (Fake::quick(), Fake::sure());
    let text = format!("{{\"schema\":{}}}", SCHEMA + 1);
    let line = format!("{} {text}", Hash::of(text.as_bytes()));
    let key = Key::read("freshet/entry/later/form").unwrap();
    near.replace(&key, &line);
    near.flush();
    let opened = finish(Pair::new(near.clone(), deep.clone()).open());
    assert_eq!(opened.entries, []);
    let damage = Damage::Newer(SCHEMA + 1);
    assert_eq!(
        opened.damaged,
        [Damaged { key: key.clone(), line: line.clone(), damage, mended: false }]
    );
    assert_eq!(deep.lines().get(&key), Some(&line));
    settled(&near, &deep);
}

#[test]
fn two_entries_for_one_place_are_both_kept() {
    let (near, deep) = (Fake::quick(), Fake::sure());
    let store = Pair::new(near.clone(), deep.clone());
    let mut one = Journal::new(CaseId::from_random(7));
    let mut two = one.clone();
    one.append(Moment::from_millis(1), 0, Event::Note("one".to_owned()));
    two.append(Moment::from_millis(1), 0, Event::Note("two".to_owned()));
    for journal in [one, two] {
        finish(store.append(journal.entries()[0].clone())).unwrap();
    }
    assert_eq!(finish(store.open()).entries.len(), 2);
}
