//! From what two shelves hold, what is whole, what is damaged, and what each shelf lacks.

use super::{Key, Slip};
use crate::case::{CaseId, Damage, Entry};
use crate::measure::Hash;
use crate::measure::order;
use std::collections::{BTreeMap, BTreeSet, HashMap};

/// A line that is no entry. Its text stays on the shelves.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Damaged {
    /// Where it lay.
    pub key: Key,
    /// The text as found.
    pub line: String,
    /// What is wrong with it.
    pub damage: Damage,
    /// Whether the entry that belongs there was found whole elsewhere, so that nothing is missing.
    pub mended: bool,
}

/// How many entries each shelf lacked and was given.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Repaired {
    /// localStorage.
    pub local: usize,
    /// IndexedDB.
    pub indexed: usize,
}

/// What two shelves hold between them.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Union {
    /// Each whole entry once, by case and place.
    pub entries: Vec<Entry>,
    /// Each damaged line once, and each line of a later form.
    pub damaged: Vec<Damaged>,
    wanted: BTreeMap<Key, String>,
}

impl Union {
    /// Of everything that was found, wherever it was.
    pub fn of<'a>(found: impl Iterator<Item = &'a Slip>) -> Self {
        let mut whole: HashMap<Hash, Entry> = HashMap::new();
        let mut wanted = BTreeMap::new();
        let mut broken = BTreeMap::new();
        let mut newer = BTreeSet::new();
        // Mostly both shelves hold the same: each line is read and digested once.
        for slip in found.collect::<BTreeSet<_>>() {
            match Entry::read(&slip.line) {
                // A line that an earlier version could not read and kept aside comes back so.
                Ok(entry) => {
                    wanted.insert(Key::of(&entry), entry.line());
                    whole.insert(entry.id(), entry);
                }
                Err(Damage::Newer(_)) if !slip.key.is_aside() => {
                    newer.insert(slip);
                }
                Err(damage) => {
                    wanted.insert(Key::aside(slip), slip.line.clone());
                    broken.insert((slip.key.origin(), slip.line.clone()), damage);
                }
            }
        }
        let mut damaged = Vec::new();
        for slip in newer {
            // Left as it is, under the name it has: what that version means by it is not known here.
            let kept = wanted.entry(slip.key.clone()).or_insert_with(|| slip.line.clone());
            if *kept != slip.line {
                wanted.insert(Key::aside(slip), slip.line.clone());
            }
            if let Err(damage) = Entry::read(&slip.line) {
                let (key, line) = (slip.key.clone(), slip.line.clone());
                damaged.push(Damaged { key, line, damage, mended: false });
            }
        }
        damaged.extend(broken.into_iter().map(|((key, line), damage)| {
            let mended = wanted.contains_key(&key);
            Damaged { key, line, damage, mended }
        }));
        let mut entries: Vec<Entry> = whole.into_values().collect();
        order::by_key(&mut entries, |entry| (entry.case(), entry.seq(), entry.id()));
        Self { entries, damaged, wanted }
    }

    /// Passes over cases that were moved away: no shelf lacks them any more.
    pub(super) fn forget(&mut self, cases: &BTreeSet<CaseId>) {
        self.entries.retain(|entry| !cases.contains(&entry.case()));
        self.wanted.retain(|key, _| key.case().is_none_or(|case| !cases.contains(&case)));
    }

    /// What a shelf that holds `held` lacks, in the order in which to write it: what takes a free name
    /// first, and only then what replaces another line, so that a line is replaced only after its own
    /// text has found a place.
    pub fn lacking(&self, held: &[Slip]) -> Vec<Slip> {
        let held: HashMap<&Key, &str> = held.iter().map(|s| (&s.key, s.line.as_str())).collect();
        let missing = |(key, line): (&Key, &String)| Slip { key: key.clone(), line: line.clone() };
        let free = self.wanted.iter().filter(|(key, _)| !held.contains_key(key));
        let taken = self
            .wanted
            .iter()
            .filter(|(key, line)| held.get(key).is_some_and(|there| there != line));
        free.chain(taken).map(missing).collect()
    }
}
